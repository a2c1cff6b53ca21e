import { strict as assert } from 'node:assert';
import * as bend from '../../server/trade/bend/bend.ts';
import * as crease from '../../server/trade/bend/crease.ts';
import * as grown from '../../server/trade/blank/grown.ts';
import * as flat from '../../server/trade/blank/plane-shapes.ts';
import * as strip from '../../server/trade/blank/strip.ts';
import * as wrap from '../../server/trade/blank/wrap.ts';
import * as dome from '../../server/trade/dome/dome.ts';
import * as edge from '../../server/trade/edge/edge.ts';
import * as finish from '../../server/trade/finish/finish.ts';
import * as fit from '../../server/trade/fit/clearance.ts';
import * as beside from '../../server/trade/hole/beside.ts';
import * as punch from '../../server/trade/hole/punch.ts';
import * as leather from '../../server/trade/leather/leather.ts';
import * as mass from '../../server/trade/mass/mass.ts';
import { metal } from '../../server/trade/metal/metals.ts';
import * as readings from '../../server/trade/reckoning/readings.ts';
import type { Result } from '../../server/trade/reckoning/result.ts';
import * as rivet from '../../server/trade/rivet/rivet.ts';
import * as row from '../../server/trade/rivet/row.ts';
import { resultsIn } from './numbers.ts';

/**
 * Reckons a worked formula as a reader with a pocket calculator would. Undefined for one that has words in it.
 * A reader writes 2π as one number, a degree mark as an angle, and a raised 2 or 3 as a power.
 */
function reckoned(worked: string): number | undefined {
  const arithmetic = worked
    .replace(/(\d+(?:\.\d+)?)°/g, '($1*Math.PI/180)')
    .replace(/([\d.]+)\^\(/g, '$1**(')
    .replace(/\)\^\(/g, ')**(')
    .replace(/(\d)π(?=[\d(])/g, '($1*Math.PI)*')
    .replace(/(\d)π/g, '($1*Math.PI)')
    .replace(/(?<!Math\.)π(?=[\d(])/g, 'Math.PI*')
    .replace(/π/g, 'Math.PI')
    .replace(/²/g, '**2')
    .replace(/³/g, '**3')
    .replace(/×/g, '*')
    .replace(/÷/g, '/')
    .replace(/−/g, '-')
    .replace(/√\(/g, 'Math.sqrt(')
    .replace(/\barctan\(/g, 'Math.atan(')
    .replace(/\barcsin\(/g, 'Math.asin(')
    .replace(/\bln\(/g, 'Math.log(')
    .replace(/\bln /g, 'Math.log ')
    .replace(/(?<!\.)\b(tan|cos|sin)\(/g, 'Math.$1(')
    .replace(/(?<!\.)\b(cos|sin|tan) (\([^()]*\))/g, 'Math.$1$2')
    .replace(/\|/g, '');
  const bare = arithmetic.replace(/Math\.(PI|sqrt|atan|asin|log|tan|cos|sin)/g, '');
  if (!/^[\d\s.+\-*/()]+$/.test(bare)) return undefined;
  return new Function(`return ${arithmetic};`)() as number;
}

/** Everything computed once, with the numbers of an ordinary shop. */
const figures: readonly Result[] = resultsIn([
  flat.circlesArea(9, 4),
  flat.slotArea(9, 60),
  flat.arcOfGirth(600, 200),
  grown.grown(
    'long',
    92,
    [
      { name: 'left', value: 7.6 },
      { name: 'right', value: 4 },
    ],
    2,
    'a test',
  ),
  grown.grownFrom(dome.domeBlankArc(210, 60), [{ name: 'rim', value: 7.6 }], 2),
  grown.movedOutArea({ area: 7540, round: 317, by: 4 }),
  strip.combWidth({ high: 22, foot: 16, radius: 3 }),
  beside.rodThrough({ long: 9, wide: 9, round: true }),
  beside.metalToEdge({ distance: 12, wide: 6, edge: 'top' }),
  beside.metalOver({ distance: 12, reach: 4.2, edge: 'rim' }),
  beside.webLeft({ pitch: 9, diameter: 4 }),
  beside.metalToBend({ distance: 20, wide: 6, curve: 5.2 }),
  row.rowLength({ from: 40, to: 120, whole: 300, edge: 'skull.rim' }),
  [true, false].map((closed) => row.evenPitch({ length: 300, margin: 8, closed, count: 9 })),
  row.stackOf(
    [
      { name: 'skull', thickness: { value: 1.5 }, times: 2 },
      { name: 'skull', thickness: { value: 1.1, low: 1, high: 1.2 }, times: 1 },
    ],
    0.8,
  ),
  bend.edgeStrain({ before: 600, after: 640 }),
  bend.keptThickness({ value: 1.5 }),
  crease.creaseMeasures({ deep: 3, wide: 20 }).wide,
  fit.insideRound({ middle: 620, thickness: 1.5 }),
  mass.massOf(
    [
      { value: 140.5, times: 2 },
      { value: 12.1, times: 1 },
    ],
    { source: 'a test' },
  ),
  readings.spanned('w', ['right', 105.5], ['left', -105.5], { source: 'a test' }),
  leather.ounceThickness(7),
  leather.compressedThickness(3),
  flat.ellipseArea(240, 190),
  flat.circleArea(90),
  flat.circlePerimeter(90),
  flat.plateArea(120, 80),
  flat.platePerimeter(120, 80),
  flat.outlineMeasures([
    { x: 0, y: 0 },
    { x: 90, y: 0 },
    { x: 90, y: 70, radius: -50 },
    { x: 0, y: 60 },
  ]),
  [40, 105, 160].map((deep) => [
    dome.domeArea(210, deep),
    dome.domeMeridian(210, deep),
    dome.domeRadius(210, deep),
    dome.domeBlankHeld(210, deep),
    dome.domeBlankEqualArea(210, deep),
    dome.domeBlankArc(210, deep),
    dome.ovalDomeBlankArc(235, 195, deep),
    dome.gore(210, deep, 6),
  ]),
  dome.meanThickness(50000, 60000, 1.2),
  dome.formingLimit({ thickness: 1.2, hardening: 0.18 }),
  bend.bendAllowance({ turned: 75, radius: 2, thickness: 1.2, kFactor: 0.41 }),
  bend.bendDeduction({ turned: 75, radius: 2, thickness: 1.2, kFactor: 0.41 }),
  bend.setback({ turned: 75, radius: 2, thickness: 1.2 }),
  bend.kFactorFor({ metal: 'brass', radius: 2, thickness: 1 }),
  bend.minimumBendRadius(metal('spring steel'), 1.5, 'along'),
  bend.minimumBendRadius(metal('spring steel'), 1.5, 'across'),
  bend.bendRadiusFromReduction(1.5, 20),
  bend.bendRadiusFromReduction(1.5, 60),
  bend.flangeStrain({ radius: 60, width: 8, angle: 75, side: 'stretch' }),
  bend.flangeStrain({ radius: 60, width: 8, angle: 75, side: 'shrink' }),
  edge.rolledAllowance({ hollow: 5, thickness: 1.2 }),
  edge.wiredAllowance({ wire: 3.2, thickness: 1.2, turned: 300 }),
  edge.tinplateRule(3.2),
  [60, 270].map((turned) => edge.standsBeyond({ hollow: 5, thickness: 1.2, turned })),
  [120, 270].map((turned) => edge.allowanceBeyondFinished({ hollow: 5, thickness: 1.2, turned })),
  (['single', 'double'] as const).map((kind) => edge.hemAllowance({ width: 8, thickness: 1.2, kind })),
  [true, false].map((outward) =>
    edge.wireLengthAlong({ edgeLength: 700, wire: 3.2, thickness: 1.2, outward, closed: true }),
  ),
  (['domed', 'flat', 'pan', 'countersunk', 'tinners'] as const).map((head) => [
    rivet.rivetHead(head, 3.6),
    rivet.rivetMass({ shank: 3.6, length: 9, head, density: 8.5 }),
  ]),
  (['domed', 'flat', 'flush'] as const).map((head) => [
    rivet.formedHead(head, 4),
    rivet.rivetLengthByVolume({ stack: 3.1, shank: 4, hole: 4.15, head }),
  ]),
  [4, 25.4 / 8].map(rivet.holeFor),
  rivet.rivetLengthByRule({ stack: 3.1, shank: 4 }),
  rivet.pitchLimits(4),
  rivet.edgeDistance(4),
  rivet.countersinkDepth(4.5),
  rivet.flushLeastThickness(4.5),
  rivet.diameterForSheet(1.2),
  rivet.jointStrength({ shank: 4, thickness: [1.5, 1.2], tensile: 340, shear: 230, pitch: 25, edge: 9, hole: 4.2 }),
  wrap.cylinderBlank({ girth: 300, high: 120, wrap: 200 }),
  [110, 5].map((high) => wrap.coneDevelopment({ top: 250, bottom: 420, high, wrap: 300 })),
  wrap.slopedCylinderCut({ girth: 300, angle: 25 }),
  mass.sheetMass({ area: 60000, thickness: 1.5, density: 7.85 }),
  mass.wireMass({ length: 700, wire: 3.2, density: 7.85 }),
  mass.areaMass({ thickness: 1.5, density: 7.85 }),
  punch.punchForce({ perimeter: 20, thickness: 1.2, shear: 280 }),
  punch.smallestPunchedHole({ thickness: 1.2, metal: metal('stainless steel') }),
  punch.smallestPunchedHole({ thickness: 1.2, metal: metal('copper') }),
  punch.bladeTeeth({ thickness: 1.2 }),
  punch.holeEdgeLeast(1.2),
  punch.holeBendLeast({ thickness: 1.2, radius: 2 }),
  punch.webLeast(1.2),
  punch.teethInSheet({ thickness: 1.2, tpi: 32 }),
  fit.enlargedGirth({ girth: 590, gap: 12 }),
  fit.reducedGirth({ girth: 590, gap: 12 }),
  finish.gritRatio(0.201, 0.125),
  finish.paintVolume({ area: 60000, dry: 0.05, solids: 0.5 }),
]);

describe('The formula shown is the one reckoned', () => {
  it('nearly every formula can be reckoned again from its numbers', () => {
    const again = figures.filter((figure) => reckoned(figure.worked) !== undefined);
    assert.ok(again.length >= 0.8 * figures.length, `${again.length} of ${figures.length}`);
  });

  for (const figure of figures) {
    const value = reckoned(figure.worked);
    if (value === undefined) continue;
    it(`${figure.formula}: ${figure.worked}`, () => {
      // Worked numbers are shown to four digits or so; differences of them lose one more.
      const allowed = 0.004 * Math.max(Math.abs(figure.value), 0.01);
      assert.ok(Math.abs(value - figure.value) <= allowed, `reckoned ${value}, shown ${figure.value}`);
    });
  }
});
