import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { coneTightestRadius, domeTightestRadius } from '../../../server/trade/dome/curvature.ts';
import {
  METRIC_SHEETS,
  metricSheetOver,
  metricStockInWords,
  millTolerance,
  startThickness,
  sureMetricSheetOver,
} from '../../../server/trade/metal/stock.ts';
import { ends, intervalOf, through } from '../../../server/trade/reckoning/interval.ts';
import { anyNumber, length, near, resultsIn, share, soundResult, thickness } from '../numbers.ts';

describe('the stock to start from', () => {
  it('is what is asked where forming takes nothing', () => {
    fc.assert(
      fc.property(thickness, thickness, (asked, t) =>
        near(startThickness({ asked, thickness: t, least: { value: t } }).value, asked),
      ),
    );
  });

  it('does not depend on the sheet at hand, and turns the range round', () => {
    fc.assert(
      fc.property(thickness, thickness, fc.double({ min: 0.3, max: 1, noNaN: true }), (asked, t, left) => {
        const found = startThickness({ asked, thickness: t, least: { value: left * t, low: 0.9 * left * t, high: t } });
        near(found.value, asked / left);
        near(found.low!, asked);
        near(found.high!, asked / left / 0.9);
      }),
    );
  });

  it('is found in the list, thick enough even as the mill may deliver it', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.3, max: 6, noNaN: true }), (least) => {
        const sheet = metricSheetOver(least)!;
        assert.ok(sheet >= least - 1e-6);
        assert.ok(METRIC_SHEETS.every((each) => each >= sheet || each < least));
        const sure = sureMetricSheetOver(least);
        if (sure !== undefined) assert.ok(sure >= sheet && sure - millTolerance(sure)!.value >= least - 1e-6);
      }),
    );
    assert.equal(metricSheetOver(7), undefined);
    assert.equal(metricStockInWords(7), undefined);
  });

  it('is put in words', () => {
    assert.equal(
      metricStockInWords(1.6),
      '1.6 mm sheet, which a mill may deliver as thin as 1.52 mm (EN 10131, from memory); 1.75 mm is surely enough',
    );
    assert.equal(
      metricStockInWords(1.45),
      '1.5 mm sheet, which a mill may deliver as thin as 1.42 mm (EN 10131, from memory); 1.6 mm is surely enough',
    );
    assert.equal(metricStockInWords(1.3), '1.5 mm sheet');
    assert.equal(metricStockInWords(3.5), '4 mm sheet');
  });

  it('knows no tolerance outside the standard’s table', () => {
    for (const sheet of [0.5, 3.1, Number.NaN]) assert.equal(millTolerance(sheet), undefined);
  });
});

describe('what forming leaves', () => {
  it('without a range gives none, nor with one end alone', () => {
    for (const least of [{ value: 1 }, { value: 1, low: 0.9 }, { value: 1, high: 1.1 }]) {
      const found = startThickness({ asked: 1.2, thickness: 1.5, least });
      assert.deepEqual([found.low, found.high], [undefined, undefined]);
    }
  });

  it('is never ten times the sheet', () => {
    assert.equal(startThickness({ asked: 1, thickness: 1.5, least: { value: 14 } }).outside, undefined);
    assert.match(startThickness({ asked: 1, thickness: 1.5, least: { value: 16 } }).outside!, /ten times/);
  });
});

describe('the tightest radius', () => {
  it('of a round dome is its sphere’s, and of a half sphere its half diameter', () => {
    fc.assert(
      fc.property(length, (d) => {
        near(domeTightestRadius(d, d, d / 2).value, d / 2);
        assert.ok(domeTightestRadius(d, d, d / 4).value > d / 2);
      }),
    );
  });

  it('does not jump where a stretched cap becomes half an ellipsoid', () => {
    fc.assert(
      fc.property(length, fc.double({ min: 1, max: 4, noNaN: true }), (wide, k) =>
        near(
          domeTightestRadius(k * wide, wide, wide / 2).value,
          domeTightestRadius(k * wide, wide, (wide / 2) * (1 + 1e-9)).value,
          1e-6,
        ),
      ),
    );
  });

  it('is that of the ellipsoid, by numbers', () => {
    // Curvature across the long axis where the rim meets it, from three points of the surface itself.
    const [long, wide, deep] = [240, 180, 50];
    const b = wide / 2;
    const sphere = (b * b + deep * deep) / (2 * deep);
    const k = long / wide;
    // At the long end of the rim: normal of (x/k)² + y² + z² = S² and the height over the tangent plane of a step in y.
    const x = long / 2;
    const z = Math.sqrt(sphere * sphere - b * b);
    const normal = [x / (k * k), 0, z];
    const size = Math.hypot(...normal);
    const step = 0.01;
    // Move by `step` in y and down in z until on the surface again.
    const z2 = Math.sqrt(sphere * sphere - b * b - step * step);
    const sagitta = ((z - z2) * normal[2]!) / size;
    near(domeTightestRadius(long, wide, deep).value, (step * step) / (2 * sagitta), 1e-4);
  });

  it('of equal ends is a cylinder’s', () => {
    fc.assert(
      fc.property(length, length, (girth, high) =>
        near(coneTightestRadius({ top: girth, bottom: girth, high }).value, girth / (2 * Math.PI)),
      ),
    );
  });

  it('grows with the form', () => {
    fc.assert(
      fc.property(length, length, fc.double({ min: 0.05, max: 3, noNaN: true }), (long, wide, h) => {
        near(
          domeTightestRadius(2 * long, 2 * wide, 2 * h * wide).value,
          2 * domeTightestRadius(long, wide, h * wide).value,
        );
      }),
    );
  });
});

describe('ranges', () => {
  it('hold every value that the inputs could give', () => {
    const range = fc
      .tuple(fc.double({ min: 0.1, max: 9, noNaN: true }), share, share)
      .map(([value, down, up]) => intervalOf({ value, low: value / (1 + down), high: value * (1 + up) }));
    fc.assert(
      fc.property(
        range,
        range,
        range,
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 3, maxLength: 3 }),
        (a, b, c, at) => {
          const formula = (x: number, y: number, z: number) => (x * y) / z + x;
          const found = through(formula as (...values: number[]) => number, a, b, c);
          const [x, y, z] = [a, b, c].map((each, i) => each.low + at[i]! * (each.high - each.low)) as [
            number,
            number,
            number,
          ];
          const value = formula(x, y, z);
          assert.ok(found.low <= value * (1 + 1e-12) && value <= found.high * (1 + 1e-12));
          assert.ok(found.low <= found.value && found.value <= found.high);
        },
      ),
    );
  });

  it('are left out where there is none', () => {
    assert.deepEqual(ends(through((x) => 2 * x!, intervalOf({ value: 3 }))), {});
    assert.deepEqual(ends(intervalOf({ value: 3, low: 2, high: 4 })), { low: 2, high: 4 });
  });
});

describe('any number at all', () => {
  it('leaves no exception and no number without its reason', () => {
    fc.assert(
      fc.property(anyNumber, anyNumber, anyNumber, (a, b, c) => {
        const made = [
          domeTightestRadius(a, b, c),
          coneTightestRadius({ top: a, bottom: b, high: c }),
          startThickness({ asked: a, thickness: b, least: { value: c } }),
          millTolerance(a),
        ];
        for (const figure of resultsIn(made)) soundResult(figure);
      }),
    );
  });
});
