import { strict as assert } from 'node:assert';
import * as bend from '../../server/trade/bend/bend.ts';
import * as flat from '../../server/trade/blank/plane-shapes.ts';
import * as wrap from '../../server/trade/blank/wrap.ts';
import { coneTightestRadius, domeTightestRadius } from '../../server/trade/dome/curvature.ts';
import * as dome from '../../server/trade/dome/dome.ts';
import * as edge from '../../server/trade/edge/edge.ts';
import { paintVolume } from '../../server/trade/finish/finish.ts';
import { reducedGirth } from '../../server/trade/fit/clearance.ts';
import * as hinge from '../../server/trade/hinge/hinge.ts';
import { holeEdgeLeast, webLeast } from '../../server/trade/hole/punch.ts';
import { startThickness } from '../../server/trade/metal/stock.ts';
import type { Result } from '../../server/trade/reckoning/result.ts';
import * as rivet from '../../server/trade/rivet/rivet.ts';

/** A figure of one number, where it still holds, and what it says beyond. */
interface Limit {
  readonly what: string;
  readonly of: (number: number) => Result;
  readonly holds: readonly number[];
  readonly refused: readonly (readonly [number, RegExp])[];
}

const bent = { turned: 90, radius: 2, thickness: 1, kFactor: 0.4 };
const sprung = { radius: 100, yield: 250, modulus: 200_000, thickness: 1 };
const flange = { radius: 60, width: 10, angle: 90, side: 'stretch' } as const;
const flare = { radius: 60, taper: 0, turned: 30, width: 10 };
const rolled = { hollow: 5, thickness: 1 };
const wired = { edgeLength: 600, wire: 3, thickness: 1, outward: false, closed: true };
const joint = { shank: 4, thickness: [2, 1.2], tensile: 300, shear: 250, pitch: 30, edge: 12, hole: 4.2 };
const tube = { top: 300, bottom: 400, high: 100 };
const notANumber = [Number.NaN, /not a number/] as const;
const negative = [-1, /less than nothing/] as const;
const nothing = [0, /must be more than nothing/] as const;

const LIMITS: readonly Limit[] = [
  {
    what: 'bend allowance: the angle',
    of: (turned) => bend.bendAllowance({ ...bent, turned }),
    holds: [0, 90, 360],
    refused: [[360.1, /more than 360/], negative, notANumber],
  },
  {
    what: 'bend allowance: the neutral line',
    of: (kFactor) => bend.bendAllowance({ ...bent, kFactor }),
    holds: [0, 0.5, 1],
    refused: [
      [-0.01, /within the thickness/],
      [1.01, /within the thickness/],
      [Number.NaN, /within the thickness/],
    ],
  },
  {
    what: 'bend deduction: the neutral line, as its allowance',
    of: (kFactor) => bend.bendDeduction({ ...bent, kFactor }),
    holds: [0.4],
    refused: [[2, /within the thickness/]],
  },
  {
    what: 'bend deduction: the angle, as its setback',
    of: (turned) => bend.bendDeduction({ ...bent, turned }),
    holds: [90],
    refused: [[160, /runs away/]],
  },
  {
    what: 'setback: the angle',
    of: (turned) => bend.setback({ ...bent, turned }),
    holds: [0, 150],
    refused: [
      [151, /runs away/],
      [180, /no corner/],
      [181, /more than 180/],
    ],
  },
  {
    what: 'setback: the radius, which may be sharp',
    of: (radius) => bend.setback({ ...bent, radius }),
    holds: [0, 5],
    refused: [negative, notANumber],
  },
  {
    what: 'bend radius from the reduction of area',
    of: (percent) => bend.bendRadiusFromReduction(1.5, percent),
    holds: [1, 50, 100],
    refused: [[101, /more than 100/], nothing],
  },
  {
    // x = R × 250/200 000: the half is reached at 400 mm.
    what: 'springback: the radius',
    of: (radius) => bend.springback({ ...sprung, radius }),
    holds: [1, 399],
    refused: [[400, /springs flat/], [500, /springs flat/], nothing],
  },
  {
    what: 'radius to roll to: the yield stress',
    of: (stress) => bend.radiusToRollTo({ ...sprung, yield: stress }),
    holds: [250],
    refused: [nothing, negative],
  },
  {
    what: 'flange: the angle',
    of: (angle) => bend.flangeStrain({ ...flange, angle }),
    holds: [0, 180],
    refused: [
      [-1, /0 to 180/],
      [181, /0 to 180/],
      [Number.NaN, /0 to 180/],
    ],
  },
  {
    what: 'flange of a hole: the width',
    of: (width) => bend.flangeStrain({ ...flange, width }),
    holds: [0, 59],
    refused: [[60, /as wide as the curve/], [70, /as wide as the curve/], negative],
  },
  {
    what: 'flange of an outside curve: the width, turned square',
    of: (width) => bend.flangeStrain({ ...flange, width, side: 'shrink' }),
    holds: [60, 200],
    refused: [negative],
  },
  {
    what: 'flange of an outside curve: the width, turned right over',
    of: (width) => bend.flangeStrain({ ...flange, width, angle: 180, side: 'shrink' }),
    holds: [59],
    refused: [
      [60, /through the middle/],
      [61, /through the middle/],
    ],
  },
  {
    what: 'flare: the angle',
    of: (turned) => bend.flareStrain({ ...flare, turned }),
    holds: [0, 90, 180],
    refused: [
      [-1, /0 to 180/],
      [181, /0 to 180/],
    ],
  },
  {
    what: 'flare: the taper of the wall',
    of: (taper) => bend.flareStrain({ ...flare, taper }),
    holds: [-89, 0, 89],
    refused: [
      [-90, /between −90 and 90/],
      [90, /between −90 and 90/],
      [-100, /between −90 and 90/],
      [100, /between −90 and 90/],
    ],
  },
  {
    what: 'flare on a narrowing wall: the width',
    of: (width) => bend.flareStrain({ ...flare, taper: -30, width }),
    holds: [0, 119],
    refused: [
      [60 / Math.sin(Math.PI / 6), /narrows to nothing/],
      [121, /narrows to nothing/],
    ],
  },
  {
    what: 'roll round nothing: the hollow',
    of: (hollow) => edge.rolledAllowance({ ...rolled, hollow }),
    holds: [2, 5],
    refused: [[1.9, /will not close/], nothing],
  },
  {
    what: 'roll: how far it is closed',
    of: (turned) => edge.rolledAllowance({ ...rolled, turned }),
    holds: [1, 270, 360],
    refused: [
      [0, /more than 0 and at most 360/],
      [-90, /more than 0 and at most 360/],
      [361, /more than 0 and at most 360/],
      [Number.NaN, /more than 0 and at most 360/],
    ],
  },
  {
    what: 'hem: its width',
    of: (width) => edge.hemAllowance({ width, thickness: 1.5, kind: 'single' }),
    holds: [3, 8],
    refused: [[2.9, /cannot be folded/], nothing],
  },
  {
    what: 'wire inside an edge: the edge’s length',
    of: (edgeLength) => edge.wireLengthAlong({ ...wired, edgeLength }),
    holds: [13, 600],
    refused: [[4 * Math.PI, /does not fit/], [12, /does not fit/], nothing],
  },
  {
    what: 'wire: how far the edge goes round',
    of: (turns) => edge.wireLengthAlong({ ...wired, turns }),
    holds: [0, -90, 360],
    refused: [notANumber],
  },
  {
    what: 'roll inward: the radius of the edge',
    of: (radius) => edge.rollStrain({ hollow: 4, thickness: 1, radius, outward: false }),
    holds: [5.1, 100],
    refused: [[5, /does not fit/], [4, /does not fit/], nothing],
  },
  {
    what: 'roll outward: the radius of the edge',
    of: (radius) => edge.rollStrain({ hollow: 4, thickness: 1, radius, outward: true }),
    holds: [1, 5, 100],
    refused: [nothing],
  },
  {
    what: 'paint: the share of solids',
    of: (solids) => paintVolume({ area: 1e6, dry: 0.04, solids }),
    holds: [0.01, 1],
    refused: [
      [0, /solids/],
      [-0.1, /solids/],
      [1.01, /solids/],
    ],
  },
  {
    what: 'paint: the share that lands',
    of: (transfer) => paintVolume({ area: 1e6, dry: 0.04, solids: 0.5, transfer }),
    holds: [0.01, 1],
    refused: [
      [0, /lands/],
      [-0.1, /lands/],
      [1.01, /lands/],
    ],
  },
  {
    what: 'girth inside another: the outer one',
    of: (girth) => reducedGirth({ girth, gap: 1 }),
    holds: [6.3],
    refused: [
      [2 * Math.PI, /nothing is left/],
      [6.2, /nothing is left/],
    ],
  },
  {
    what: 'knuckle: how far it is curled',
    of: (curl) => hinge.knuckleDevelopment({ pin: 3, thickness: 1, curl }),
    holds: [1, 300, 360],
    refused: [
      [0, /more than 0 and at most 360/],
      [-1, /more than 0 and at most 360/],
      [361, /more than 0 and at most 360/],
    ],
  },
  {
    what: 'knuckle: the neutral line',
    of: (kFactor) => hinge.knuckleDevelopment({ pin: 3, thickness: 1, kFactor }),
    holds: [0, 0.5, 1],
    refused: [
      [-0.01, /within the thickness/],
      [1.01, /within the thickness/],
    ],
  },
  {
    what: 'hinge: how many knuckles',
    of: (knuckles) => hinge.knuckleWidth({ wide: 40, knuckles }),
    holds: [2, 5],
    refused: [
      [1, /at least two/],
      [2.5, /at least two/],
      [Number.NaN, /at least two/],
    ],
  },
  {
    what: 'hinge: the gap between knuckles',
    of: (gap) => hinge.knuckleWidth({ wide: 1, knuckles: 3, gap }),
    holds: [0, 0.4],
    refused: [[0.5, /whole hinge/], [0.6, /whole hinge/], negative],
  },
  {
    what: 'hinge pin: the heads',
    of: (heads) => hinge.pinLength({ wide: 40, pin: 3, heads }),
    holds: [0, 1, 2],
    refused: [
      [-1, /two ends/],
      [3, /two ends/],
    ],
  },
  {
    what: 'round dome: the depth',
    of: (deep) => dome.domeArea(200, deep),
    holds: [0, 100, 300],
    refused: [negative, [Number.POSITIVE_INFINITY, /not a number/]],
  },
  {
    what: 'round dome: the diameter',
    of: (diameter) => dome.domeBlankHeld(diameter, 50),
    holds: [200],
    refused: [nothing, negative],
  },
  {
    what: 'oval dome: the width',
    of: (wide) => dome.ovalDomeBlankArc(240, wide, 50).long,
    holds: [190, 240],
    refused: [nothing, negative],
  },
  {
    what: 'gores: how many',
    of: (gores) => dome.gore(200, 50, gores).wide,
    holds: [3, 8],
    refused: [[2, /three gores or more/], [4.5, /whole number/], notANumber],
  },
  {
    what: 'raising: how far the rim shrinks along itself',
    of: (shrink) => dome.raisingCourses(shrink),
    holds: [0, 0.4],
    refused: [[-0.01, /grows longer/], notANumber],
  },
  {
    what: 'forming limit: the thickness',
    of: (thickness) => dome.formingLimit({ thickness, hardening: 0.2 }),
    holds: [0.5, 3],
    refused: [[3.1, /over 3 mm/], nothing],
  },
  {
    what: 'tightest radius of a dome: the depth',
    of: (deep) => domeTightestRadius(240, 190, deep),
    holds: [10, 95, 300],
    refused: [nothing],
  },
  {
    what: 'tightest radius of a cone: the smaller girth',
    of: (top) => coneTightestRadius({ top, bottom: 300, high: 100 }),
    holds: [200, 400],
    refused: [nothing, negative, notANumber],
  },
  {
    what: 'plate: its sides',
    of: (side) => flat.plateArea(side, 80),
    holds: [0, 100],
    refused: [negative, notANumber, [1e13, /larger than anything/]],
  },
  { what: 'plate: way round', of: (side) => flat.platePerimeter(80, side), holds: [0, 100], refused: [negative] },
  { what: 'oval: its axes', of: (axis) => flat.ellipsePerimeter(axis, 80), holds: [0, 100], refused: [negative] },
  { what: 'hole to edge: the thickness', of: holeEdgeLeast, holds: [1], refused: [nothing] },
  { what: 'web: the thickness', of: webLeast, holds: [1], refused: [nothing] },
  {
    what: 'hole for a rivet: the shank',
    of: rivet.holeFor,
    holds: [1, 4, 10],
    refused: [[0.9, /1 to 10 mm/], [10.1, /1 to 10 mm/], nothing],
  },
  {
    what: 'rivet length: the hole for a shank of 4 mm',
    of: (hole) => rivet.rivetLengthByVolume({ stack: 3, shank: 4, hole, head: 'domed' }),
    holds: [4, 4.2],
    refused: [[3.9, /smaller than the shank/], nothing],
  },
  {
    // The sink of a 4 mm shank is 2 mm deep.
    what: 'rivet length: the stack under a flush head',
    of: (stack) => rivet.rivetLengthByVolume({ stack, shank: 4, hole: 4.2, head: 'flush' }),
    holds: [2, 3],
    refused: [[1.9, /thinner than the sink/], negative],
  },
  {
    what: 'joint: the pitch',
    of: (pitch) => rivet.jointStrength({ ...joint, pitch }).governing,
    holds: [5, 30],
    refused: [
      [4.2, /run into each other/],
      [Number.NaN, /run into each other/],
      [Infinity, /not a number/],
    ],
  },
  {
    what: 'joint: the way to the edge',
    of: (distance) => rivet.jointStrength({ ...joint, edge: distance }).governing,
    holds: [2.2, 12],
    refused: [
      [2.1, /breaks out/],
      [Infinity, /not a number/],
    ],
  },
  {
    what: 'joint: each plate',
    of: (thickness) => rivet.jointStrength({ ...joint, thickness: [1.2, thickness] }).governing,
    holds: [0.5, 2],
    refused: [nothing, negative, notANumber],
  },
  { what: 'burr edge: the shank', of: rivet.softEdgeDistance, holds: [3], refused: [nothing] },
  { what: 'flush plate: the shank', of: rivet.flushLeastThickness, holds: [3], refused: [nothing] },
  {
    what: 'start thickness: what forming leaves of 1 mm',
    of: (value) => startThickness({ asked: 1, thickness: 1, least: { value } }),
    holds: [0.5, 10],
    refused: [[10.1, /ten times/], nothing],
  },
  {
    what: 'cylinder: how far it goes round',
    of: (turn) => wrap.cylinderBlank({ girth: 300, high: 100, wrap: turn }).long,
    holds: [1, 360],
    refused: [
      [0, /more than 0 and at most 360/],
      [-90, /more than 0 and at most 360/],
      [361, /more than 0 and at most 360/],
      [Number.NaN, /more than 0 and at most 360/],
    ],
  },
  {
    what: 'cone to a point: the other end',
    of: (bottom) => wrap.coneDevelopment({ ...tube, top: 0, bottom }).sector,
    holds: [300],
    refused: [[0, /both ends are nothing/], negative],
  },
  {
    what: 'cone: the height between ends of one size',
    of: (high) => wrap.coneDevelopment({ top: 300, bottom: 300, high }).area,
    holds: [1],
    refused: [[0, /no height between/], negative],
  },
  {
    what: 'cone: radii of a cylinder, and of what is no form at all',
    of: (turn) => wrap.coneDevelopment({ top: 300, bottom: 300, high: 100, wrap: turn }).outerRadius,
    holds: [],
    refused: [
      [360, /has no radius/],
      [400, /at most 360/],
    ],
  },
  {
    what: 'cone: radii of a true one',
    of: (turn) => wrap.coneDevelopment({ ...tube, wrap: turn }).innerRadius,
    holds: [360],
    refused: [[400, /at most 360/]],
  },
  {
    what: 'oval cone: an end that is a line along',
    of: (wide) => wrap.ovalConeDevelopment({ bottom: { long: 200, wide }, top: { long: 0, wide: 0 }, high: 90 }).area,
    holds: [150],
    refused: [[0, /an oval at one end/], negative],
  },
  {
    what: 'oval cone: an end that is a line across',
    of: (long) => wrap.ovalConeDevelopment({ bottom: { long, wide: 150 }, top: { long: 0, wide: 0 }, high: 90 }).area,
    holds: [200],
    refused: [[0, /an oval at one end/], negative],
  },
  {
    what: 'sloped cut: its angle',
    of: (angle) => wrap.slopedCylinderCut({ girth: 300, angle }).rise,
    holds: [-89, 0, 89],
    refused: [
      [90, /less than 90/],
      [-90, /less than 90/],
      [120, /less than 90/],
    ],
  },
];

describe('Where a figure stops to hold', () => {
  for (const { what, of, holds, refused } of LIMITS) {
    it(what, () => {
      for (const number of holds) assert.equal(of(number).outside, undefined, `${number}`);
      for (const [number, words] of refused) assert.match(of(number).outside ?? 'holds', words, `${number}`);
    });
  }

  it('a joint without plates is none', () => {
    assert.match(rivet.jointStrength({ ...joint, thickness: [] }).governing.outside ?? '', /needs plates/);
  });

  it('what cannot be rolled has no radius to roll to, not even a false one', () => {
    assert.ok(Number.isNaN(bend.radiusToRollTo({ ...sprung, radius: -1 }).value));
    assert.ok(Number.isFinite(bend.radiusToRollTo(sprung).value));
  });

  it('a gore has no width outside itself', () => {
    const { long } = dome.gore(200, 60, 6);
    for (const place of [-1, long.value + 1, Number.NaN])
      assert.ok(Number.isNaN(dome.goreHalfWidth(200, 60, 6, place)), `${place}`);
    assert.ok(dome.goreHalfWidth(200, 60, 6, 0) > 0);
  });

  it('a cut that cannot be has no ordinates, an oval cone that cannot be no outline', () => {
    assert.deepEqual(wrap.slopedCylinderCut({ girth: 300, angle: 95 }).ordinates, []);
    const ends = { bottom: { long: 200, wide: 150 }, top: { long: 100, wide: 80 } };
    const impossible = wrap.ovalConeDevelopment({ ...ends, high: 90, wrap: 400 });
    assert.deepEqual(impossible.outline, []);
    assert.ok(Number.isNaN(impossible.area.value));
    assert.ok(wrap.ovalConeDevelopment({ ...ends, high: 90, wrap: 200 }).outline.length > 0);
  });
});
