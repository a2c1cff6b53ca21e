import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { ellipseArea } from '../../../server/trade/blank/plane-shapes.ts';
import {
  annealsNeeded,
  domeArea,
  domeBlankArc,
  domeBlankEqualArea,
  domeBlankHeld,
  domeMeridian,
  domeRadius,
  formingLimit,
  gore,
  goreHalfWidth,
  ovalDomeArea,
  ovalDomeBlankArc,
  raisingCourses,
} from '../../../server/trade/dome/dome.ts';
import { metal } from '../../../server/trade/metal/metals.ts';
import { length, near, share } from '../numbers.ts';

describe('Domes', () => {
  it('of no depth are flat discs, exactly', () => {
    fc.assert(
      fc.property(length, length, (d, w) => {
        assert.equal(domeArea(d, 0).value, Math.PI * (d / 2) ** 2);
        for (const blank of [domeBlankHeld, domeBlankArc]) assert.equal(blank(d, 0).value, d);
        near(domeBlankEqualArea(d, 0).value, d, 1e-15);
        near(ovalDomeArea(d, w, 0).value, ellipseArea(d, w).value, 1e-15);
        assert.equal(ovalDomeBlankArc(d, w, 0).long.value, d);
        assert.match(domeRadius(d, 0).outside ?? '', /flat/);
      }),
    );
  });

  it('keep their areas in step with their lengths: twice as long, four times as large', () => {
    fc.assert(
      fc.property(length, length, share, (d, w, u) => {
        const h = (u * Math.min(d, w)) / 2;
        near(domeArea(2 * d, 2 * u * d).value, 4 * domeArea(d, u * d).value);
        near(ovalDomeArea(2 * d, 2 * w, 2 * h).value, 4 * ovalDomeArea(d, w, h).value);
        near(domeMeridian(2 * d, 2 * h).value, 2 * domeMeridian(d, h).value);
        near(ovalDomeBlankArc(2 * d, 2 * w, 2 * h).wide.value, 2 * ovalDomeBlankArc(d, w, h).wide.value);
      }),
    );
  });

  it('do not jump where a part of a sphere gives way to half an ellipsoid', () => {
    fc.assert(
      fc.property(length, length, (d, w) => {
        for (const [one, other] of [
          [domeArea(d, (d / 2) * (1 - 1e-9)), domeArea(d, (d / 2) * (1 + 1e-9))],
          [domeMeridian(d, (d / 2) * (1 - 1e-9)), domeMeridian(d, (d / 2) * (1 + 1e-9))],
          [domeRadius(d, (d / 2) * (1 - 1e-9)), domeRadius(d, (d / 2) * (1 + 1e-9))],
        ] as const) {
          near(one.value, other.value, 1e-8);
        }
        const narrow = Math.min(d, w) / 2;
        near(ovalDomeArea(d, w, narrow * (1 - 1e-9)).value, ovalDomeArea(d, w, narrow * (1 + 1e-9)).value, 1e-8);
        near(
          ovalDomeBlankArc(d, w, narrow * (1 - 1e-9)).long.value,
          ovalDomeBlankArc(d, w, narrow * (1 + 1e-9)).long.value,
          1e-8,
        );
      }),
    );
  });

  it('do not jump where the curve is too slight for a double', () => {
    fc.assert(
      fc.property(length, length, (d, w) => {
        const h = (Math.min(d, w) / 2) * 1e-7;
        near(ovalDomeArea(d, w, h * 0.99).value, ovalDomeArea(d, w, h * 1.01).value, 1e-12);
        near(ovalDomeBlankArc(d, w, h * 0.99).long.value, ovalDomeBlankArc(d, w, h * 1.01).long.value, 1e-12);
      }),
    );
  });

  it('with equal axes are the round dome, exactly, and nearly equal axes come to it', () => {
    fc.assert(
      fc.property(length, share, (d, u) => {
        const h = (u * d) / 2;
        assert.equal(ovalDomeArea(d, d, h).value, domeArea(d, h).value);
        near(ovalDomeArea(d, d * (1 + 1e-9), h).value, domeArea(d, h).value, 1e-8);
        near(ovalDomeBlankArc(d, d, h).wide.value, domeBlankArc(d, h).value, 1e-14);
        near(ovalDomeBlankArc(d, d * (1 + 1e-9), h).long.value, domeBlankArc(d, h).value, 1e-8);
      }),
    );
  });

  it('do not care which axis is called the long one', () => {
    fc.assert(
      fc.property(length, length, share, (d, w, u) => {
        const h = (u * Math.min(d, w)) / 2;
        near(ovalDomeArea(d, w, h).value, ovalDomeArea(w, d, h).value);
        near(ovalDomeBlankArc(d, w, h).long.value, ovalDomeBlankArc(w, d, h).wide.value);
      }),
    );
  });

  it('have blanks in order: held, equal-area, all shrink', () => {
    fc.assert(
      fc.property(length, length, share, (d, w, u) => {
        const h = (u * Math.min(d, w)) / 2;
        assert.ok(d <= domeBlankEqualArea(d, h).value * (1 + 1e-12));
        assert.ok(domeBlankEqualArea(d, h).value <= domeBlankArc(d, h).value * (1 + 1e-12));
      }),
    );
  });

  it('agree with a crude sum over the ellipsoid, done another way', () => {
    // Areas of small facets, by cross products: an independent road to the same number.
    const facets = (a: number, b: number, c: number, to: number): number => {
      const at = (i: number, j: number) => {
        const θ = (to * i) / 400;
        const φ = (2 * Math.PI * j) / 400;
        return [a * Math.sin(θ) * Math.cos(φ), b * Math.sin(θ) * Math.sin(φ), c * Math.cos(θ)] as const;
      };
      let sum = 0;
      for (let i = 0; i < 400; i++) {
        for (let j = 0; j < 400; j++) {
          const [p, q, r, s] = [at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)];
          const x = [0, 1, 2].map((k) => (r[k] as number) - (p[k] as number)) as [number, number, number];
          const y = [0, 1, 2].map((k) => (s[k] as number) - (q[k] as number)) as [number, number, number];
          sum += Math.hypot(x[1] * y[2] - x[2] * y[1], x[2] * y[0] - x[0] * y[2], x[0] * y[1] - x[1] * y[0]) / 2;
        }
      }
      return sum;
    };
    near(ovalDomeArea(235, 195, 150).value, facets(117.5, 97.5, 150, Math.PI / 2), 5e-5);
    // Shallow: the sphere of the narrow axis, stretched.
    const radius = (97.5 ** 2 + 60 ** 2) / 120;
    near(
      ovalDomeArea(235, 195, 60).value,
      facets((radius * 235) / 195, radius, radius, 2 * Math.atan(60 / 97.5)),
      5e-5,
    );
  });
});

describe('Anneals, courses and limits', () => {
  it('an anneal count never falls with the strain and starts at none', () => {
    const { strainBeforeAnneal } = metal('mild steel');
    assert.equal(annealsNeeded(0, strainBeforeAnneal).value, 0);
    fc.assert(
      fc.property(share, share, (one, other) => {
        const less = annealsNeeded(Math.min(one, other), strainBeforeAnneal).value;
        assert.ok(less <= annealsNeeded(Math.max(one, other), strainBeforeAnneal).value);
      }),
    );
  });

  it('exactly two allowances ask for one anneal', () => {
    assert.equal(annealsNeeded(0.6, { value: 0.3, basis: 'common practice', source: 'test' }).value, 1);
  });

  it('no raising is needed for a blank as large as the rim, and one that is to grow is refused', () => {
    assert.equal(raisingCourses(0).value, 0);
    assert.match(raisingCourses(-0.05).outside ?? '', /grows longer/);
  });

  it('the forming limit rises with thickness to 3 mm and not beyond', () => {
    const limit = (t: number) => formingLimit({ thickness: t, hardening: 0.2 }).value;
    assert.ok(limit(1) < limit(2) && limit(2) < limit(3));
    assert.equal(limit(4), limit(3));
    assert.ok(formingLimit({ thickness: 4, hardening: 0.2 }).outside !== undefined);
  });
});

describe('Gores', () => {
  it('together have the area of the dome', () => {
    fc.assert(
      fc.property(length, share, fc.integer({ min: 3, max: 24 }), (d, u, n) => {
        near(gore(d, (u * d) / 2, n).area.value * n, domeArea(d, (u * d) / 2).value);
      }),
    );
  });

  it('narrow from the rim to a point, deep ones too, and the strip between has their area', () => {
    for (const deep of [40, 100, 180]) {
      const one = gore(200, deep, 6);
      near(2 * goreHalfWidth(200, deep, 6, 0), one.wide.value, 1e-9);
      assert.ok(Math.abs(goreHalfWidth(200, deep, 6, one.long.value)) < 1e-6);
      const steps = 400;
      let area = 0;
      for (let index = 0; index < steps; index++) {
        area += 2 * goreHalfWidth(200, deep, 6, ((index + 0.5) * one.long.value) / steps) * (one.long.value / steps);
      }
      near(area, one.area.value, 1e-4);
    }
  });
});
