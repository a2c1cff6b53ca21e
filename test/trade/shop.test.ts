import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import {
  bendAllowance,
  flangeStrain,
  kFactorFor,
  minimumBendRadius,
  radiusToRollTo,
  springback,
} from '../../server/trade/bend/bend.ts';
import {
  allowanceBeyondFinished,
  hemAllowance,
  rolledAllowance,
  standsBeyond,
  wiredAllowance,
  wireLengthAlong,
} from '../../server/trade/edge/edge.ts';
import { enlargedGirth, reducedGirth } from '../../server/trade/fit/clearance.ts';
import { slopedCutAngle, smallestPunchedHole, teethInSheet } from '../../server/trade/hole/punch.ts';
import { compressedThickness, softMaterials } from '../../server/trade/leather/leather.ts';
import { sheetMass } from '../../server/trade/mass/mass.ts';
import {
  type GaugeTableId,
  gaugeTables,
  gaugeThickness,
  nearestGauge,
  thinnestGaugeOver,
} from '../../server/trade/metal/gauges.ts';
import { knownGrades, knownTempers, metal } from '../../server/trade/metal/metals.ts';
import { plain } from '../../server/trade/reckoning/result.ts';
import { result } from '../../server/trade/reckoning/working.ts';
import { length, near, thickness } from './numbers.ts';

describe('Gauges', () => {
  for (const id of Object.keys(gaugeTables) as GaugeTableId[]) {
    it(`${id}: every number is its own nearest, and sizes run one way`, () => {
      const sizes = gaugeTables[id].numbers.map((number) => gaugeThickness(id, number)?.value ?? Number.NaN);
      for (const [index, number] of gaugeTables[id].numbers.entries()) {
        const size = sizes[index] as number;
        assert.equal(nearestGauge(id, size).thickness, size);
        if (index > 0)
          assert.equal(
            id === 'MusicWire' ? size > (sizes[index - 1] as number) : size <= (sizes[index - 1] as number),
            true,
            `${number}`,
          );
      }
    });
  }

  it('a number that is not in the table has no thickness', () => {
    for (const number of [2, 41, 16.5, -1, Number.NaN, Number.POSITIVE_INFINITY])
      assert.equal(gaugeThickness('MSG', number), undefined);
    assert.equal(gaugeThickness('GSG', 7), undefined);
  });

  it('the thinnest over a thickness is over it, and the next number is not', () => {
    assert.equal(thinnestGaugeOver('MSG', 1.6)?.number, 15);
    assert.equal(thinnestGaugeOver('USG', 25.4 / 16)?.number, 16);
    assert.equal(thinnestGaugeOver('MusicWire', 0.95)?.number, 17);
    assert.equal(thinnestGaugeOver('MSG', 100), undefined);
    assert.equal(thinnestGaugeOver('MSG', Number.NaN), undefined);
  });

  it('show how they come about', () => {
    assert.equal(gaugeThickness('MSG', 16)?.worked, '40 oz/ft² ÷ (16 × 41.82) in, rounded to 0.0001 in, × 25.4');
    assert.equal(gaugeThickness('SWG', 16)?.worked, '0.064 in × 25.4');
  });
});

describe('Metals', () => {
  it('are refined by grade, however it is spelt, and by temper', () => {
    assert.equal(metal('stainless steel', { grade: '410' }).hardens, true);
    assert.equal(metal('stainless steel').grade, '304');
    assert.equal(metal('titanium', { grade: 'Grade-5' }).grade, 'grade 5');
    assert.ok(metal('brass', { temper: 'hard' }).yield.value > metal('brass', { temper: 'half hard' }).yield.value);
    assert.equal(metal('brass', { temper: 'tempered' }).temper, 'soft');
  });

  it('fall back to the usual grade for an unknown one, and the caller can tell', () => {
    assert.equal(metal('mild steel', { grade: 'A999' }).grade, 'DC01');
    assert.ok(!knownGrades('mild steel').includes('A999'));
    assert.ok(knownTempers('brass').includes('half hard'));
  });

  it('carry what the safety checks ask for', () => {
    assert.ok(metal('galvanised steel').contains.includes('zinc'));
    assert.ok(metal('brass').contains.includes('zinc'));
    assert.ok(metal('stainless steel').contains.includes('chromium'));
    assert.equal(metal('spring steel').hardens, true);
    assert.equal(metal('mild steel').hardens, false);
  });

  it('let the Keeler limit hold for soft low-carbon steel only', () => {
    assert.equal(metal('mild steel').keelerHolds, true);
    for (const id of ['brass', 'copper', 'stainless steel', 'aluminium', 'spring steel'] as const)
      assert.equal(metal(id).keelerHolds, false);
    assert.equal(metal('mild steel', { grade: '1018' }).keelerHolds, false);
  });

  it('of which a hard one wants a wider punch', () => {
    near(smallestPunchedHole({ thickness: 1.2, metal: metal('stainless steel') }).value, 2.4);
    near(smallestPunchedHole({ thickness: 1.2, metal: metal('mild steel') }).value, 1.2);
  });
});

describe('Bends', () => {
  it('take up more the further they turn and the rounder they are', () => {
    const at = (turned: number, radius: number) =>
      bendAllowance({ turned, radius, thickness: 1.2, kFactor: 0.4 }).value;
    assert.ok(at(90, 2) > at(45, 2) && at(90, 3) > at(90, 2));
    assert.equal(at(0, 2), 0);
  });

  it('put harder metal’s neutral line further out', () => {
    const k = (temper: 'soft' | 'half hard' | 'hard') =>
      kFactorFor({ metal: 'copper', temper, radius: 2, thickness: 1 }).value;
    assert.ok(k('soft') < k('half hard') && k('half hard') < k('hard'));
  });

  it('along the grain need twice the radius', () => {
    const one = metal('spring steel');
    near(minimumBendRadius(one, 1.5, 'along').value, 2 * minimumBendRadius(one, 1.5, 'across').value);
  });

  it('spring open, and the radius to roll to springs open to the one wanted', () => {
    fc.assert(
      fc.property(fc.double({ min: 5, max: 500, noNaN: true }), thickness, (radius, t) => {
        const bend = { radius, yield: 250, modulus: 200_000, thickness: t };
        const rolled = radiusToRollTo(bend);
        assert.ok(rolled.value <= radius);
        near(springback({ ...bend, radius: rolled.value }).value, radius, 1e-6);
      }),
    );
  });

  it('of a flange shrink outside and stretch inside, and nothing at no angle', () => {
    const at = (side: 'stretch' | 'shrink', angle: number) =>
      flangeStrain({ radius: 60, width: 10, angle, side }).value;
    assert.ok(at('stretch', 90) > 0 && at('shrink', 90) < 0);
    assert.equal(at('stretch', 0), 0);
    assert.match(flangeStrain({ radius: 10, width: 10, angle: 90, side: 'stretch' }).outside ?? '', /radius/);
  });
});

describe('Edges', () => {
  it('rolled and wired take the same metal round the same round', () => {
    fc.assert(
      fc.property(fc.double({ min: 3, max: 12, noNaN: true }), thickness, (d, t) => {
        assert.equal(
          rolledAllowance({ hollow: d, thickness: t }).value,
          wiredAllowance({ wire: d, thickness: t }).value,
        );
        near(
          allowanceBeyondFinished({ hollow: d, thickness: t }).value + standsBeyond({ hollow: d, thickness: t }).value,
          rolledAllowance({ hollow: d, thickness: t }).value,
        );
      }),
    );
  });

  it('stand out by the outer radius from a quarter turn on, without a jump', () => {
    near(standsBeyond({ hollow: 5, thickness: 1, turned: 89.9999 }).value, 3.5, 1e-6);
    assert.equal(standsBeyond({ hollow: 5, thickness: 1, turned: 270 }).value, 3.5);
  });

  it('say how short the tinplate rule is', () => {
    assert.match(wiredAllowance({ wire: 3.2, thickness: 1.2 }).note ?? '', /23 % short/);
  });

  it('refuse an empty roll tighter than it can close, and a hem narrower than a fold', () => {
    assert.ok(rolledAllowance({ hollow: 2, thickness: 1.5 }).outside !== undefined);
    assert.ok(hemAllowance({ width: 2, thickness: 1.5, kind: 'single' }).outside !== undefined);
  });

  it('want more wire outside than inside, and as much as the edge when it is straight', () => {
    const at = (outward: boolean, closed: boolean) =>
      wireLengthAlong({ edgeLength: 600, wire: 3.2, thickness: 1.2, outward, closed }).value;
    near(at(true, true) - at(false, true), 2 * Math.PI * 4.4);
    assert.equal(at(true, false), 600);
  });
});

describe('Fit, soft goods, mass and saws', () => {
  it('a girth enlarged and reduced by the same gap is itself', () => {
    fc.assert(
      fc.property(length, thickness, (girth, gap) => {
        near(reducedGirth({ girth: enlargedGirth({ girth, gap }).value, gap }).value, girth);
      }),
    );
    assert.match(reducedGirth({ girth: 30, gap: 6 }).outside ?? '', /nothing is left/);
  });

  it('leather gives a tenth to a fifth', () => {
    const pressed = compressedThickness(3);
    near(pressed.low ?? 0, 2.4);
    near(pressed.high ?? 0, 2.7);
    assert.ok(softMaterials['veg-tan leather'].density.value < 1);
  });

  it('mass grows with each measure', () => {
    near(
      sheetMass({ area: 2e5, thickness: 1.5, density: 7.85 }).value,
      2 * sheetMass({ area: 1e5, thickness: 1.5, density: 7.85 }).value,
    );
  });

  it('a blade tilted as told has the teeth asked for, and a fine one cuts square', () => {
    const tilt = slopedCutAngle({ thickness: 1.2, tpi: 32 });
    near(teethInSheet({ thickness: 1.2 / Math.sin((tilt.value * Math.PI) / 180), tpi: 32 }).value, 2);
    assert.equal(slopedCutAngle({ thickness: 3, tpi: 32 }).value, 90);
  });
});

describe('Worked formulas', () => {
  it('put numbers in place of symbols, with a real minus', () => {
    const one = result({
      value: 5,
      unit: 'mm',
      formula: 'D = {a} + {b}',
      symbols: { a: 7, b: -2 },
      basis: 'geometry',
      source: 'test',
    });
    assert.equal(one.formula, 'D = a + b');
    assert.equal(one.worked, '7 + (−2)');
  });

  it('write giants without losing their noughts', () => {
    assert.equal(plain(1.5e300), '1.5 × 10³⁰⁰');
    assert.equal(plain(1200), '1200');
    assert.equal(plain(-0), '0');
  });

  it('refuse a formula with a symbol that nobody gave', () => {
    assert.throws(() =>
      result({ value: 1, unit: 'mm', formula: 'x = {y}', symbols: {}, basis: 'geometry', source: 'test' }),
    );
  });
});
