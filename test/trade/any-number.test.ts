import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import * as bend from '../../server/trade/bend/bend.ts';
import * as flat from '../../server/trade/blank/plane-shapes.ts';
import * as wrap from '../../server/trade/blank/wrap.ts';
import * as dome from '../../server/trade/dome/dome.ts';
import * as edge from '../../server/trade/edge/edge.ts';
import * as finish from '../../server/trade/finish/finish.ts';
import * as fit from '../../server/trade/fit/clearance.ts';
import * as punch from '../../server/trade/hole/punch.ts';
import * as leather from '../../server/trade/leather/leather.ts';
import * as mass from '../../server/trade/mass/mass.ts';
import * as gauges from '../../server/trade/metal/gauges.ts';
import { metal, metalIds } from '../../server/trade/metal/metals.ts';
import * as rivet from '../../server/trade/rivet/rivet.ts';
import { anyNumber, resultsIn, soundResult } from './numbers.ts';

/** Numbers for one call. Seven are enough for the hungriest. */
type Numbers = readonly [number, number, number, number, number, number, number];

const brass = metal('brass');
const sourced = (value: number) =>
  ({ value, basis: 'common practice', source: 'common practice (no source)' }) as const;

/** Every computation, fed with numbers and nothing else. */
const COMPUTATIONS = {
  gaugeThickness: ([a]) =>
    Object.keys(gauges.gaugeTables).map((id) => gauges.gaugeThickness(id as gauges.GaugeTableId, a)),
  nearestGauge: ([a]) => [gauges.nearestGauge('MSG', a), gauges.thinnestGaugeOver('BS', a)],
  ounceThickness: ([a]) => leather.ounceThickness(a),
  compressedThickness: ([a]) => leather.compressedThickness(a),
  ellipse: ([a, b]) => [
    flat.ellipseArea(a, b),
    flat.ellipsePerimeter(a, b),
    flat.circleArea(a),
    flat.circlePerimeter(b),
  ],
  plate: ([a, b]) => [flat.plateArea(a, b), flat.platePerimeter(a, b)],
  outline: ([a, b, c, d, e, f, g]) =>
    flat.outlineMeasures([
      { x: a, y: b },
      { x: c, y: d, radius: g },
      { x: e, y: f },
    ]),
  dome: ([a, b]) => [
    dome.domeArea(a, b),
    dome.domeMeridian(a, b),
    dome.domeRadius(a, b),
    dome.domeBlankHeld(a, b),
    dome.domeBlankEqualArea(a, b),
    dome.domeBlankArc(a, b),
  ],
  oval: ([a, b, c]) => [dome.ovalDomeArea(a, b, c), dome.ovalDomeBlankArc(a, b, c)],
  gore: ([a, b, c, d]) => [dome.gore(a, b, c), dome.gore(a, b, 8), dome.goreHalfWidth(a, b, c, d)],
  meanThickness: ([a, b, c]) => dome.meanThickness(a, b, c),
  formingLimit: ([thickness, hardening]) => dome.formingLimit({ thickness, hardening }),
  anneals: ([a, b]) => [
    dome.annealsNeeded(a, sourced(b)),
    dome.annealsNeeded(a, sourced(0.3)),
    dome.raisingCourses(a),
    dome.raisingCourses({ value: a, low: b, high: a }),
  ],
  bend: ([turned, radius, thickness, kFactor]) => [
    bend.bendAllowance({ turned, radius, thickness, kFactor }),
    bend.setback({ turned, radius, thickness }),
    bend.bendDeduction({ turned, radius, thickness, kFactor }),
    bend.kFactorFor({ metal: 'brass', radius, thickness }),
    bend.minimumBendRadius(brass, thickness, 'along'),
    bend.bendRadiusFromReduction(thickness, turned),
  ],
  spring: ([radius, stress, modulus, thickness]) => [
    bend.springback({ radius, yield: stress, modulus, thickness }),
    bend.radiusToRollTo({ radius, yield: stress, modulus, thickness }),
    bend.radiusToRollTo({ radius, yield: 200, modulus: 200_000, thickness }),
  ],
  flange: ([radius, width, angle]) => [
    bend.flangeStrain({ radius, width, angle, side: 'stretch' }),
    bend.flangeStrain({ radius, width, angle, side: 'shrink' }),
  ],
  rolled: ([hollow, thickness, turned]) => [
    edge.rolledAllowance({ hollow, thickness, turned }),
    edge.wiredAllowance({ wire: hollow, thickness, turned }),
    edge.standsBeyond({ hollow, thickness, turned }),
    edge.allowanceBeyondFinished({ hollow, thickness, turned }),
    edge.tinplateRule(hollow),
  ],
  hem: ([width, thickness]) => [
    edge.hemAllowance({ width, thickness, kind: 'single' }),
    edge.hemAllowance({ width, thickness, kind: 'double' }),
  ],
  wire: ([edgeLength, wire, thickness, turns]) => [
    edge.wireLengthAlong({ edgeLength, wire, thickness, outward: true, closed: true }),
    edge.wireLengthAlong({ edgeLength, wire, thickness, outward: false, closed: false, turns }),
  ],
  heads: ([shank]) => [
    (['domed', 'flat', 'pan', 'countersunk', 'tinners'] as const).map((head) => rivet.rivetHead(head, shank)),
    (['domed', 'flat', 'flush'] as const).map((head) => rivet.formedHead(head, shank)),
    rivet.holeFor(shank),
    rivet.pitchLimits(shank),
    rivet.edgeDistance(shank),
    rivet.countersinkDepth(shank),
    rivet.flushLeastThickness(shank),
    rivet.diameterForSheet(shank),
  ],
  rivetLength: ([stack, shank, hole]) => [
    (['domed', 'flat', 'flush'] as const).map((head) => rivet.rivetLengthByVolume({ stack, shank, hole, head })),
    rivet.rivetLengthByRule({ stack, shank }),
    rivet.nearestLengthUp(stack, 'in'),
    rivet.nearestLengthUp(stack, 'mm'),
  ],
  joint: ([shank, thin, tensile, shear, pitch, distance, hole]) => [
    rivet.jointStrength({ shank, thickness: [thin, 1.2], tensile, shear, pitch, edge: distance, hole }),
    rivet.jointStrength({ shank, thickness: [], tensile: [tensile], shear, pitch, edge: distance, hole }),
  ],
  rivetMass: ([shank, length, density]) =>
    (['domed', 'countersunk', 'pan'] as const).map((head) => rivet.rivetMass({ shank, length, head, density })),
  cylinder: ([girth, high, turn]) => wrap.cylinderBlank({ girth, high, wrap: turn }),
  cone: ([top, bottom, high, turn]) => [
    wrap.coneDevelopment({ top, bottom, high, wrap: turn }),
    wrap.coneDevelopment({ top, bottom, high }),
    wrap.conePattern({ top, bottom, high }),
  ],
  sloped: ([girth, angle, steps]) => wrap.slopedCylinderCut({ girth, angle, steps: Math.min(steps, 50) }),
  mass: ([area, thickness, density]) => [
    mass.sheetMass({ area, thickness, density }),
    mass.wireMass({ length: area, wire: thickness, density }),
    mass.areaMass({ thickness, density }),
  ],
  punch: ([a, b, c]) => [
    punch.punchForce({ perimeter: a, thickness: b, shear: c }),
    punch.smallestPunchedHole({ thickness: a, metal: brass }),
    punch.bladeTeeth({ thickness: a, teethInWork: b }),
    punch.slopedCutAngle({ thickness: a, tpi: b, teethInWork: c }),
    punch.holeEdgeLeast(a),
    punch.holeBendLeast({ thickness: a, radius: b }),
    punch.webLeast(a),
    punch.teethInSheet({ thickness: a, tpi: b }),
  ],
  fit: ([girth, gap]) => [fit.enlargedGirth({ girth, gap }), fit.reducedGirth({ girth, gap })],
  grit: ([a, b]) => [finish.gritSize('P', a), finish.gritSize('CAMI', b), finish.gritRatio(a, b)],
  paint: ([area, dry, solids, transfer]) => [
    finish.paintVolume({ area, dry, solids, transfer }),
    finish.paintVolume({ area, dry, solids: 0.5 }),
  ],
} satisfies Readonly<Record<string, (numbers: Numbers) => unknown>>;

const numbers = fc.tuple(anyNumber, anyNumber, anyNumber, anyNumber, anyNumber, anyNumber, anyNumber);
/** Numbers such as specs hold, mixed with those a slip makes. */
const usual = fc.oneof(
  { weight: 4, arbitrary: fc.double({ min: 0, max: 400, noNaN: true }) },
  { weight: 1, arbitrary: anyNumber },
);
const likely = fc.tuple(usual, usual, usual, usual, usual, usual, usual);

describe('Whatever number is written', () => {
  for (const [name, compute] of Object.entries(COMPUTATIONS)) {
    it(`${name} answers with sound results and never throws`, () => {
      fc.assert(
        fc.property(fc.oneof(numbers, likely), (given) => {
          for (const figure of resultsIn(compute(given))) soundResult(figure);
        }),
        { numRuns: 150 },
      );
    });
  }

  it('an oval cone does so too (fewer tries, since each takes thousands of triangles)', () => {
    fc.assert(
      fc.property(fc.oneof(numbers, likely), ([a, b, c, d, high, offset, turn]) => {
        const figures = wrap.ovalConeDevelopment({
          bottom: { long: a, wide: b },
          top: { long: c, wide: d },
          high,
          offset,
          wrap: turn,
        });
        for (const figure of resultsIn(figures)) soundResult(figure);
      }),
      { numRuns: 40 },
    );
  });

  it('the results searched for are found: the search itself can fail', () => {
    assert.equal(resultsIn(COMPUTATIONS.dome([100, 20, 1, 1, 1, 1, 1])).length, 6);
  });
});

describe('Every metal', () => {
  for (const id of metalIds) {
    it(`${id} has numbers in their ranges, with sources`, () => {
      const figures = Object.values(metal(id)).filter((value) => typeof value === 'object' && 'value' in value);
      assert.ok(figures.length >= 9);
      for (const figure of figures as { value: number; low?: number; high?: number; source: string }[]) {
        assert.ok(Number.isFinite(figure.value) && figure.source.length > 0);
        assert.ok((figure.low ?? figure.value) <= figure.value && figure.value <= (figure.high ?? figure.value));
      }
    });
  }
});
