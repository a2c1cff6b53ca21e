import { strict as assert } from 'node:assert';
import * as bend from '../../server/trade/bend/bend.ts';
import { coneTightestRadius } from '../../server/trade/dome/curvature.ts';
import * as dome from '../../server/trade/dome/dome.ts';
import * as edge from '../../server/trade/edge/edge.ts';
import * as hinge from '../../server/trade/hinge/hinge.ts';
import * as punch from '../../server/trade/hole/punch.ts';
import { ounceThickness, softMaterials } from '../../server/trade/leather/leather.ts';
import { metal } from '../../server/trade/metal/metals.ts';
import {
  metricStockInWords,
  millTolerance,
  startThickness,
  sureMetricSheetOver,
} from '../../server/trade/metal/stock.ts';
import type { Result } from '../../server/trade/reckoning/result.ts';
import * as rivet from '../../server/trade/rivet/rivet.ts';

/** A figure with its ends, or without any, to five figures or so. Worked apart from this code, with a calculator. */
type Row = readonly [what: string, ours: Result, value: number, low?: number, high?: number];

function rows(title: string, all: readonly Row[]): void {
  describe(title, () => {
    for (const [what, ours, value, low, high] of all) {
      it(`${what}: ${value}${low === undefined ? '' : ` (${low} to ${high})`}`, () => {
        const same = (one: number | undefined, other: number | undefined, which: string) => {
          if (other === undefined) return assert.equal(one, undefined, `${which}: ${one}`);
          const allowed = 6e-5 * Math.max(Math.abs(other), 0.1);
          assert.ok(one !== undefined && Math.abs(one - other) <= allowed, `${which}: ${one} is not ${other}`);
        };
        same(ours.value, value, 'value');
        same(ours.low, low, 'low');
        same(ours.high, high, 'high');
        assert.equal(ours.outside, undefined);
      });
    }
  });
}

const stainless = metal('stainless steel');
const spread = (value: number, low: number, high: number) =>
  ({ value, low, high, basis: 'common practice', source: 'common practice (no source)' }) as const;

rows('Forming', [
  ['304 to the break, 55 % (40 to 60)', dome.stretchLimit(stainless.elongation), 0.438255, 0.336472, 0.470004],
  ['brass to the break, 53 % and no range', dome.stretchLimit(metal('brass').elongation), 0.425268, 0.425268, 0.425268],
  ['anneals for a strain of 1.1', dome.annealsNeeded(1.1, spread(0.3, 0.25, 0.35)), 3, 3, 4],
  ['anneals for a strain of 0.5', dome.annealsNeeded(-0.5, spread(0.3, 0.2, 0.6)), 1, 0, 2],
  // ln(300/200) = 0.4055 over 0.1278, 0.1625 and 0.1054.
  ['courses from 300 in to 200 mm', dome.raisingCourses(Math.log(1.5)), 4, 3, 4],
  ['courses where the rim shrinks by 0.2 to 0.6', dome.raisingCourses({ value: 0.4, low: 0.2, high: 0.6 }), 4, 2, 6],
  [
    'anneals for a strain between 0.5 and 1.1',
    dome.annealsNeeded({ value: 0.7, low: 0.5, high: 1.1 }, spread(0.3, 0.25, 0.35)),
    2,
    1,
    4,
  ],
  [
    'tightest radius of a cone 200 to 300 mm round, 100 high',
    coneTightestRadius({ top: 200, bottom: 300, high: 100 }),
    32.2318,
  ],
  ['the same, the other way up', coneTightestRadius({ top: 300, bottom: 200, high: 100 }), 32.2318],
]);

const spring = metal('spring steel');
const k = (
  of: Parameters<typeof bend.kFactorFor>[0]['metal'],
  temper?: 'soft' | 'quarter hard' | 'half hard' | 'hard' | 'normalised' | 'spring hard',
) => bend.kFactorFor({ metal: of, ...(temper ? { temper } : {}), radius: 2, thickness: 2 });

// With R = t the German rule gives 0.325, whatever the metal; the Navy's 0.4475.
rows('Bends', [
  ['spring steel 1.5 mm across the grain', bend.minimumBendRadius(spring, 1.5), 3.75, 3, 4.5],
  ['spring steel 1.5 mm along the grain', bend.minimumBendRadius(spring, 1.5, 'along'), 7.5, 6, 9],
  ['neutral line in soft brass', k('brass', 'soft'), 0.350141, 0.325, 0.447504],
  ['neutral line in quarter-hard brass', k('brass', 'quarter hard'), 0.407437, 0.325, 0.447504],
  ['neutral line in half-hard copper', k('copper', 'half hard'), 0.407437, 0.325, 0.447504],
  ['neutral line in hard nickel silver', k('nickel silver', 'hard'), 0.452, 0.325, 0.452],
  ['neutral line in spring-hard brass', k('brass', 'spring hard'), 0.452, 0.325, 0.452],
  ['neutral line in aluminium', k('aluminium', 'hard'), 0.407437, 0.325, 0.447504],
  ['neutral line in soft mild steel', k('mild steel'), 0.407437, 0.325, 0.447504],
  ['neutral line in normalised wrought iron', k('wrought iron', 'normalised'), 0.407437, 0.325, 0.447504],
  ['neutral line in cold-rolled mild steel', k('mild steel', 'half hard'), 0.452, 0.325, 0.452],
  ['neutral line in spring steel', k('spring steel', 'soft'), 0.452, 0.325, 0.452],
  [
    'neutral line five thicknesses round',
    bend.kFactorFor({ metal: 'brass', radius: 10, thickness: 2 }),
    0.350141,
    0.350141,
    0.499743,
  ],
  [
    'flare of 10 mm, 20° more on a wall that opens by 10°',
    bend.flareStrain({ radius: 60, taper: 10, turned: 20, width: 10 }),
    0.051512,
  ],
]);

rows('Edges and hems', [
  ['single hem of 8 mm in 1.2 mm', edge.hemAllowance({ width: 8, thickness: 1.2, kind: 'single' }), 8, 7.10796, 8],
  ['double hem of 8 mm in 1.2 mm', edge.hemAllowance({ width: 8, thickness: 1.2, kind: 'double' }), 16, 14.2159, 16],
]);

rows('Hinges', [
  ['knuckle on a 3 mm pin in 1 mm', hinge.knuckleDevelopment({ pin: 3, thickness: 1 }), 10.47198, 9.42478, 11.80704],
  ['knuckle with a curl of its own', hinge.knuckleDevelopment({ pin: 3, thickness: 1, curl: 270 }), 9.42478],
  [
    'knuckle with a neutral line of its own',
    hinge.knuckleDevelopment({ pin: 3, thickness: 1, kFactor: 0.5 }),
    10.73377,
  ],
  ['knuckle of five in 40 mm', hinge.knuckleWidth({ wide: 40, knuckles: 5 }), 7.88, 7.84, 7.92],
  ['knuckle of five in 40 mm, gap told', hinge.knuckleWidth({ wide: 40, knuckles: 5, gap: 0.5 }), 7.6],
  // The round head on 3 mm fills 22.536 mm³, which is 3.1882 mm of pin.
  ['pin of 3 mm with two heads', hinge.pinLength({ wide: 40, pin: 3 }), 46.3765, 40, 49],
  ['pin of 3 mm with one head', hinge.pinLength({ wide: 40, pin: 3, heads: 1 }), 43.1882, 40, 44.5],
  [
    'notch for a barrel of 1 mm round a 3 mm pin',
    hinge.notchDepth({ pin: 3, thickness: 1 }),
    Math.sqrt(2.55 ** 2 - 1.55 ** 2) + 0.5,
  ],
  ['barrel round a 3 mm pin', hinge.barrelDiameter({ pin: 3, thickness: 1 }), 5.1],
]);

const hard = metal('stainless steel');
rows('Saws and punches', [
  [
    'hole punched in 1.5 mm mild steel',
    punch.smallestPunchedHole({ thickness: 1.5, metal: metal('mild steel') }),
    1.5,
    1.341176,
    3,
  ],
  ['hole punched in 1.5 mm stainless', punch.smallestPunchedHole({ thickness: 1.5, metal: hard }), 3, 1.5, 3],
  [
    'hole punched in a metal of 550 MPa',
    punch.smallestPunchedHole({ thickness: 1.5, metal: { ...hard, tensile: { ...hard.tensile, value: 550 } } }),
    3,
    1.5,
    3,
  ],
  ['teeth to the inch for 1.2 mm', punch.bladeTeeth({ thickness: 1.2 }), 42.3333, 42.3333, 63.5],
  [
    'teeth to the inch for 1.2 mm, three in the work',
    punch.bladeTeeth({ thickness: 1.2, teethInWork: 3 }),
    63.5,
    63.5,
    84.6667,
  ],
  ['from hole to edge in 1.5 mm', punch.holeEdgeLeast(1.5), 3, 1.5, 3],
  ['from hole to bend in 1.5 mm, radius 2 mm', punch.holeBendLeast({ thickness: 1.5, radius: 2 }), 5.75, 5, 6.5],
]);

const joint = { shank: 4, thickness: [2, 1.2], tensile: 300, shear: 250, pitch: 30, edge: 12, hole: 4.2 };
const lap = rivet.jointStrength(joint);
const tight = rivet.jointStrength({ ...joint, pitch: 8, edge: 4, bearing: 700, plateShear: 200 });

rows('Rivets', [
  ['burr for 4 mm', rivet.burrDiameter(4), 9.4, 8.8, 10],
  ['from a 3 mm rivet to the edge of leather', rivet.softEdgeDistance(3), 10, 9, 10],
  ['from a 4 mm rivet to the edge of leather', rivet.softEdgeDistance(4), 12, 10, 12],
  ['least pitch of 4 mm', rivet.pitchLimits(4).least, 12],
  ['usual pitch of 4 mm', rivet.pitchLimits(4).usual, 24, 16, 32],
  ['most pitch of 4 mm', rivet.pitchLimits(4).most, 32, 32, 40],
  ['least way of 4 mm to the edge', rivet.edgeDistance(4).least, 8, 8, 10],
  ['most way of 4 mm to the edge', rivet.edgeDistance(4).most, 16],
  ['thinnest plate for a flush 4 mm', rivet.flushLeastThickness(4), 2, 2, 4],
  ['shank for 1.5 mm', rivet.diameterForSheet(1.5), 4.5, 1.5, 4.5],
  ['hole for 3 mm', rivet.holeFor(3), 3.15, 3.1, 3.2],
  ['hole for 4.5 mm, between two rows', rivet.holeFor(4.5), 4.725, 4.625, 4.75],
  ['hole for 7 mm, between two rows', rivet.holeFor(7), 7.35, 7.175, 7.35],
  ['hole for 9 mm, beyond the last row', rivet.holeFor(9), 9.4, 9.2, 9.4],
  ['hole for 3/32 in', rivet.holeFor((3 * 25.4) / 32), 2.4892, 2.3622, 2.6162],
  // A sink of 2 mm, a head of 48.69 mm³ or 3.875 mm of shank.
  [
    'length for a flush head of 4 mm on 3 mm',
    rivet.rivetLengthByVolume({ stack: 3, shank: 4, hole: 4.2, head: 'flush' }),
    4.9775,
    4.875,
    4.9775,
  ],
  [
    'length for a flat head of 4 mm on 3 mm',
    rivet.rivetLengthByVolume({ stack: 3, shank: 4, hole: 4.2, head: 'flat' }),
    7.8075,
    7.5,
    7.8075,
  ],
  ['flat head of 1/8 in: width', rivet.rivetHead('flat', 3.175).diameter, 6.35, 6.096, 6.604],
  ['flat head of 1/8 in: height', rivet.rivetHead('flat', 3.175).height, 1.0668, 0.9144, 1.2192],
  [
    'flat head of 3/8 in, half as much again as the last row',
    rivet.rivetHead('flat', 9.525).diameter,
    19.05,
    18.4785,
    19.6215,
  ],
  ['flat head of 3/8 in: height', rivet.rivetHead('flat', 9.525).height, 3.1623, 2.8575, 3.4671],
  [
    'pan head of 3/64 in, half of the first row',
    rivet.rivetHead('pan', (3 * 25.4) / 64).diameter,
    2.0701,
    1.9431,
    2.1971,
  ],
  ['pan head of 5/32 in', rivet.rivetHead('pan', (5 * 25.4) / 32).height, 2.2606, 2.0828, 2.4384],
  ['tinners’ head of 2.8 mm: 2.25 shanks wide', rivet.rivetHead('tinners', 2.8).diameter, 6.3, 6.05, 6.55],
  ['tinners’ head of 5.6 mm: 0.3 shanks high', rivet.rivetHead('tinners', 5.6).height, 1.68, 1.38, 1.98],
  [
    'brass with a flat head, 1/8 in × 10 mm',
    rivet.rivetMass({ shank: 3.175, length: 10, head: 'flat', density: 8.5 }),
    0.960118,
  ],
  ['joint: shorn rivet', lap.shear, 3141.593],
  ['joint: crushed plate', lap.bearing, 2880, 2304, 2880],
  ['joint: torn plate', lap.tearing, 9288],
  ['joint: torn edge', lap.shearOut, 4276.8],
  ['joint: what governs', lap.governing, 2880, 2304, 2880],
  ['tight joint: crushed plate, strength told', tight.bearing, 3360],
  ['tight joint: torn plate', tight.tearing, 1368],
  ['tight joint: torn edge, strength told', tight.shearOut, 912],
  ['tight joint: what governs', tight.governing, 912, 912, 912],
]);

rows('Leather and stock', [
  ['leather of 8 oz', ounceThickness(8), 3.175, 2.97656, 3.37344],
  ['leather of a quarter ounce', ounceThickness(0.25), 0.099219, 0, 0.297656],
  [
    'stock for 1 mm where a fifth is lost',
    startThickness({ asked: 1, thickness: 2, least: { value: 1.6, low: 1.25, high: 2 } }),
    1.25,
    1,
    1.6,
  ],
  [
    'stock where only one end is known',
    startThickness({ asked: 1, thickness: 2, least: { value: 1.6, low: 1.25 } }),
    1.25,
  ],
  [
    'stock where only the other end is known',
    startThickness({ asked: 1, thickness: 2, least: { value: 1.6, high: 2 } }),
    1.25,
  ],
]);

describe('The list of sheets', () => {
  it('takes the tighter tolerance on a border, and both ends of the table', () => {
    for (const [sheet, either] of [
      [0.6, 0.04],
      [0.8, 0.04],
      [1, 0.05],
      [1.2, 0.06],
      [1.6, 0.08],
      [3, 0.15],
    ] as const)
      assert.equal(millTolerance(sheet)?.value, either, `${sheet}`);
    assert.equal(millTolerance(0.59), undefined);
    assert.equal(millTolerance(3.01), undefined);
  });

  it('takes a sheet that is just enough', () => {
    assert.equal(sureMetricSheetOver(1.2 - 0.06), 1.2);
    assert.equal(metricStockInWords(1.2 - 0.06), '1.2 mm sheet');
    assert.equal(sureMetricSheetOver(1.2 - 0.05), 1.25);
  });

  it('does not promise a sheet that is surely thick enough where there is none', () => {
    assert.equal(
      metricStockInWords(2.95),
      '3 mm sheet, which a mill may deliver as thin as 2.85 mm (EN 10131, from memory)',
    );
  });
});

describe('Soft goods', () => {
  it('from foam to rawhide are heavier and give less', () => {
    const order = ['foam', 'felt', 'lambskin', 'goatskin', 'leather', 'veg-tan leather', 'rawhide'] as const;
    assert.deepEqual([...order].sort(), Object.keys(softMaterials).sort());
    order.forEach((id, index) => {
      const one = softMaterials[id];
      assert.equal(one.id, id);
      assert.ok(one.density.low! < one.density.value && one.density.value < one.density.high!, id);
      assert.ok(one.compression.low! < one.compression.value && one.compression.value < one.compression.high!, id);
      const lighter = order[index - 1];
      if (!lighter) return;
      assert.ok(one.density.value > softMaterials[lighter].density.value, id);
      assert.ok(one.compression.value <= softMaterials[lighter].compression.value, id);
    });
  });

  it('are sold by the ounce where they are hides, thin ones from a small animal', () => {
    for (const { id, usualOunces } of Object.values(softMaterials)) {
      if (id === 'felt' || id === 'foam') assert.equal(usualOunces, undefined);
      else assert.ok(usualOunces!.low >= 1 && usualOunces!.low < usualOunces!.high && usualOunces!.high <= 16, id);
    }
    assert.ok(softMaterials.lambskin.usualOunces!.high < softMaterials.leather.usualOunces!.high);
    assert.ok(softMaterials.goatskin.usualOunces!.high < softMaterials.leather.usualOunces!.high);
  });
});

describe('Rungs of rivet lengths', () => {
  it('run by sixteenths from an eighth to two inches, and by the standard from 2 to 50 mm', () => {
    const inches = rivet.standardLengths('in');
    assert.deepEqual([inches.length, inches[0], inches.at(-1)], [31, 3.175, 50.8]);
    const metric = rivet.standardLengths('mm');
    assert.deepEqual([metric.length, metric[0], metric.at(-1)], [22, 2, 50]);
    assert.equal(rivet.nearestLengthUp(10.5, 'mm'), 12);
  });
});

describe('Piercing saw blades', () => {
  it('are as thick and deep as they are sold by the metric list, finer ones with more teeth', () => {
    // Name, thick, deep, mm, as merchants list them (from memory).
    for (const [name, thick, deep] of [
      ['8/0', 0.16, 0.32],
      ['4/0', 0.22, 0.44],
      ['2/0', 0.26, 0.52],
      ['1', 0.3, 0.61],
      ['6', 0.44, 0.94],
    ] as const) {
      const blade = punch.sawBlades.find((one) => one.name === name)!;
      assert.ok(Math.abs(blade.thick - thick) < 0.01, name);
      assert.ok(Math.abs(blade.deep - deep) < 0.02, name);
    }
    punch.sawBlades.forEach((blade, index) => {
      const finer = punch.sawBlades[index - 1];
      if (finer) assert.ok(blade.thick > finer.thick && blade.deep > finer.deep && blade.tpi < finer.tpi, blade.name);
    });
  });
});
