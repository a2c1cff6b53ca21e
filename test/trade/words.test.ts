import { strict as assert } from 'node:assert';
import * as bend from '../../server/trade/bend/bend.ts';
import { ellipsePerimeter } from '../../server/trade/blank/plane-shapes.ts';
import * as wrap from '../../server/trade/blank/wrap.ts';
import { coneTightestRadius, domeTightestRadius } from '../../server/trade/dome/curvature.ts';
import * as dome from '../../server/trade/dome/dome.ts';
import * as edge from '../../server/trade/edge/edge.ts';
import { gritSize } from '../../server/trade/finish/finish.ts';
import { percentileOf } from '../../server/trade/fit/body.ts';
import { fieldOfView } from '../../server/trade/fit/view.ts';
import * as hinge from '../../server/trade/hinge/hinge.ts';
import * as punch from '../../server/trade/hole/punch.ts';
import * as gauges from '../../server/trade/metal/gauges.ts';
import { metal } from '../../server/trade/metal/metals.ts';
import type { Result } from '../../server/trade/reckoning/result.ts';
import * as rivet from '../../server/trade/rivet/rivet.ts';
import { dutyLimit, dutyTable } from '../../server/trade/usual/duty.ts';
import { resultsIn } from './numbers.ts';

/** What a smith reads beside the number: `worked` whole, of the note, the source or the formula a part. Nothing: no note. */
interface Words {
  readonly worked?: string;
  readonly formula?: RegExp;
  readonly source?: RegExp;
  readonly note?: RegExp | undefined;
  readonly notInNote?: RegExp;
}

function said(title: string, all: readonly (readonly [what: string, ours: Result, words: Words])[]): void {
  describe(title, () => {
    for (const [what, ours, words] of all) {
      it(what, () => {
        if (words.worked !== undefined) assert.equal(ours.worked, words.worked);
        if (words.formula) assert.match(ours.formula, words.formula);
        if (words.source) assert.match(ours.source, words.source);
        if (words.note) assert.match(ours.note ?? 'no note', words.note);
        else if ('note' in words) assert.equal('note' in ours, false, ours.note);
        if (words.notInNote) assert.doesNotMatch(ours.note ?? '', words.notInNote);
      });
    }
  });
}

const CAP = /spherical cap/i;
const ELLIPSOID = /spheroid|ellipsoid|ellipse/;

said('Domes say which shape they are', [
  ['area: a half sphere is still a cap', dome.domeArea(200, 100), { source: CAP, worked: 'π(100² + 100²)' }],
  [
    'area: deeper, a spheroid',
    dome.domeArea(200, 160),
    { source: ELLIPSOID, worked: 'π100² + π × 100 × 160 × arcsin(0.7806)/0.7806' },
  ],
  [
    'way over: a half sphere is still a cap',
    dome.domeMeridian(200, 100),
    { source: CAP, worked: '(100² + 100²)/100 × arctan(100/100)', note: undefined },
  ],
  [
    'way over: deeper, a quarter of an ellipse',
    dome.domeMeridian(200, 160),
    { source: ELLIPSOID, worked: 'a quarter of the way round an ellipse 200 × 320' },
  ],
  ['way over: a flat disc', dome.domeMeridian(200, 0), { note: /half diameter/ }],
  ['radius: shallow', dome.domeRadius(200, 60), { source: /sphere/, worked: '(100² + 60²)/(2 × 60)' }],
  ['radius: a half sphere', dome.domeRadius(200, 100), { source: /of the sphere/ }],
  ['radius: deeper', dome.domeRadius(200, 160), { source: /crown/, worked: '100²/160' }],
  [
    'blank: a half sphere',
    dome.domeBlankEqualArea(200, 100),
    { source: /straight line/, worked: '√(200² + 4 × 100²)' },
  ],
  ['blank: deeper', dome.domeBlankEqualArea(200, 160), { source: /half ellipsoid/ }],
  [
    'oval: to half the narrow axis, a cap stretched',
    dome.ovalDomeArea(240, 190, 95),
    { source: /cap of the narrow axis/ },
  ],
  ['oval: deeper', dome.ovalDomeArea(240, 190, 96), { source: /ellipsoid/ }],
  [
    'oval: deeper than half the narrow axis, whichever is named first',
    dome.ovalDomeArea(190, 240, 96),
    { source: /ellipsoid/ },
  ],
  [
    'oval with both axes the same: the round dome',
    dome.ovalDomeArea(200, 200, 60),
    { source: /^Area of the spherical cap$/ },
  ],
  [
    'tightest: a half sphere',
    domeTightestRadius(200, 200, 100),
    { source: /sphere that the cap is of/, worked: '(100² + 100²)/(2 × 100)' },
  ],
  [
    'tightest: an oval cap, at half its narrow axis',
    domeTightestRadius(240, 190, 95),
    { source: /stretched/, note: /ends of the long axis/ },
  ],
  [
    'tightest: half an ellipsoid longer than deep',
    domeTightestRadius(240, 190, 110),
    { source: /Half an ellipsoid/, note: /ends of the long axis/ },
  ],
  [
    'tightest: half an ellipsoid as deep as half its length',
    domeTightestRadius(240, 190, 120),
    { note: /ends of the long axis/ },
  ],
  [
    'tightest: half an ellipsoid deeper than that',
    domeTightestRadius(240, 190, 130),
    { note: /At the crown/, worked: '95²/130' },
  ],
  [
    'tightest: a cone, by its smaller end',
    coneTightestRadius({ top: 300, bottom: 200, high: 100 }),
    { worked: '200/2π × 101.26/100' },
  ],
  [
    'forming limit: an exponent that the rule was drawn for',
    dome.formingLimit({ thickness: 1, hardening: 0.21 }),
    { note: /^37\.43 % stretch/, notInNote: /counted as/ },
  ],
  [
    'forming limit: a larger one',
    dome.formingLimit({ thickness: 1, hardening: 0.22 }),
    { note: /^37\.43 % stretch.*counted as 0\.21/ },
  ],
]);

said('Bends and edges say how they are counted', [
  [
    'along the grain',
    bend.minimumBendRadius(metal('spring steel'), 1.5, 'along'),
    { worked: '2 × 2.5 × 1.5', note: /^Doubled/ },
  ],
  ['across the grain', bend.minimumBendRadius(metal('spring steel'), 1.5), { worked: '2.5 × 1.5', note: undefined }],
  ['a metal that folds flat', bend.bendRadiusFromReduction(1.5, 50), { worked: '0 × 1.5' }],
  ['a metal that does not', bend.bendRadiusFromReduction(1.5, 49), { worked: '1.5 × (50/49 − 1)' }],
  [
    'flange: percent along the edge',
    bend.flangeStrain({ radius: 60, width: 8, angle: 75, side: 'stretch' }),
    { note: /^11\.403 % along/ },
  ],
  [
    'flare: percent along the edge',
    bend.flareStrain({ radius: 60, taper: 10, turned: 20, width: 10 }),
    { note: /^5\.286 % along/, worked: 'ln((60 + 10 × sin 30°)/(60 + 10 × sin 10°))' },
  ],
  [
    'flare: never past square to the axis',
    bend.flareStrain({ radius: 60, taper: 10, turned: 100, width: 10 }),
    { worked: 'ln((60 + 10 × sin 90°)/(60 + 10 × sin 10°))' },
  ],
  [
    'the other rules for a neutral line',
    bend.kFactorFor({ metal: 'brass', radius: 2, thickness: 2 }),
    { note: /gives 0\.325 for this radius/ },
  ],
  [
    'wire, three quarters round: the tinplate rule beside it',
    edge.wiredAllowance({ wire: 3.2, thickness: 1.2 }),
    { note: /stands 2\.8 mm beyond.*gives 8 mm, 23 % short/ },
  ],
  [
    'wire, half round: no rule for it',
    edge.wiredAllowance({ wire: 3.2, thickness: 1.2, turned: 180 }),
    { notInNote: /tinplate/ },
  ],
  [
    'wire in thin sheet, where the rule is not short',
    edge.wiredAllowance({ wire: 3.2, thickness: 0.1 }),
    { notInNote: /tinplate/ },
  ],
  [
    'wire in sheet where the rule is right',
    edge.wiredAllowance({ wire: 3.2, thickness: 0.195 }),
    { notInNote: /tinplate/ },
  ],
  [
    'a roll a quarter round stands out whole',
    edge.standsBeyond({ hollow: 5, thickness: 1, turned: 90 }),
    { worked: '5/2 + 1' },
  ],
  [
    'a roll less than that',
    edge.standsBeyond({ hollow: 5, thickness: 1, turned: 89 }),
    { worked: '(5/2 + 1) × sin 89°' },
  ],
  [
    'a roll outward',
    edge.rollStrain({ hollow: 4, thickness: 1, radius: 50, outward: true }),
    { note: /^10 % along the lip/ },
  ],
  [
    'a roll inward',
    edge.rollStrain({ hollow: 4, thickness: 1, radius: 50, outward: false }),
    { note: /^−10 % along the lip/ },
  ],
]);

said('Hinges, saws and punches', [
  [
    'a pin half as thick as it should be',
    hinge.knuckleDevelopment({ pin: 1.5, thickness: 1.5 }),
    { note: /cracks or will not close/ },
  ],
  [
    'a pin twice as thick as the plate',
    hinge.knuckleDevelopment({ pin: 3, thickness: 1.5 }),
    { note: /^Beyond the line/ },
  ],
  ['an even number of knuckles', hinge.knuckleWidth({ wide: 40, knuckles: 4 }), { note: /odd number holds/ }],
  ['an odd number of knuckles', hinge.knuckleWidth({ wide: 40, knuckles: 5 }), { note: undefined }],
  // 20 × 1.2 × 280 = 6720 N.
  ['a punch in tonnes', punch.punchForce({ perimeter: 20, thickness: 1.2, shear: 280 }), { note: /^0\.6852 tonnes/ }],
  ['a fine blade', punch.slopedCutAngle({ thickness: 2, tpi: 32 }), { note: /cut square/ }],
  ['a blade that is just fine enough', punch.slopedCutAngle({ thickness: 2, tpi: 25.4 }), { note: /cut square/ }],
  ['a coarse blade', punch.slopedCutAngle({ thickness: 1.2, tpi: 32 }), { note: undefined }],
]);

const joint = { shank: 4, thickness: [2, 1.2], tensile: 300, shear: 250, pitch: 30, edge: 12, hole: 4.2 };

said('Rivets', [
  ['a head of a table that notes something', rivet.rivetHead('domed', 4).diameter, { note: /^ASME B18/ }],
  [
    'beyond that table',
    rivet.rivetHead('domed', 10).height,
    { note: /^Beyond the table: the proportions of its end row\. ASME/ },
  ],
  ['a head of a table that does not', rivet.rivetHead('flat', 4).height, { note: undefined }],
  ['at the first row', rivet.rivetHead('pan', (3 * 25.4) / 32).diameter, { note: undefined }],
  ['at the last row', rivet.rivetHead('pan', 25.4 / 4).height, { note: undefined }],
  ['below the first row', rivet.rivetHead('flat', 2).diameter, { note: /^Beyond the table[^A]*$/ }],
  ['a head that is reckoned by proportion alone', rivet.rivetHead('tinners', 3.6).diameter, { note: /^Tinners/ }],
  ['a drill of an inch rivet', rivet.holeFor(25.4 / 8), { worked: '0.1285 in × 25.4', note: /^Drill #30\.$/ }],
  ['its metric drill', rivet.drillFor(rivet.holeFor(25.4 / 8)), { note: /^Drill #30\. Drill through both plates/ }],
  ['a metric hole', rivet.drillFor(rivet.holeFor(3)), { note: /^Drill through both plates/ }],
  [
    'a length with a sink',
    rivet.rivetLengthByVolume({ stack: 3, shank: 4, hole: 4.2, head: 'flush' }),
    { worked: '(3 − 2) × (4.2/4)² + 48.695/(π/4 × 4²)', note: /takes 0\.9688 shank.*1\.5 D: 9 mm/ },
  ],
  [
    'a length without',
    rivet.rivetLengthByVolume({ stack: 3, shank: 4, hole: 4.2, head: 'flat' }),
    { worked: '3 × (4.2/4)² + 56.549/(π/4 × 4²)', note: /takes 1\.125 shank/ },
  ],
  [
    'a joint that crushes',
    rivet.jointStrength(joint).governing,
    { note: /crushes behind the rivet\. It carries 26\.667 %/ },
  ],
  [
    'a joint that tears',
    rivet.jointStrength({ ...joint, pitch: 8 }).governing,
    { note: /tears from hole to hole\. It carries 47\.5 %/ },
  ],
  ['a joint that shears', rivet.jointStrength({ ...joint, shear: 100 }).governing, { note: /the rivet shears/ }],
  ['a joint near the edge', rivet.jointStrength({ ...joint, edge: 6 }).governing, { note: /out through the edge/ }],
]);

said('Cones, cuts and ovals', [
  [
    'a radius that a trammel reaches',
    wrap.coneDevelopment({ top: 200, bottom: 400, high: 100 }).outerRadius,
    { note: undefined },
  ],
  [
    'a radius that none reaches',
    wrap.coneDevelopment({ top: 390, bottom: 400, high: 100 }).innerRadius,
    { note: /by coordinates/ },
  ],
  [
    'an oval cone',
    wrap.ovalConeDevelopment({ bottom: { long: 200, wide: 150 }, top: { long: 90, wide: 80 }, high: 80 }).sector,
    { worked: 'angles of 1440 triangles, carried on to the limit' },
  ],
  [
    'a sloped cut',
    wrap.slopedCylinderCut({ girth: 100 * Math.PI, angle: 30 }).cutLine,
    { worked: 'way round an ellipse 100 × 100/cos 30°' },
  ],
  // 4.8442 a against 4.7124 a.
  [
    'an oval twice as long as wide',
    ellipsePerimeter(100, 200),
    { worked: '2 × 200 × E(1 − (100/200)²)', note: /2\.7 % short/ },
  ],
  ['an oval that is hardly one', ellipsePerimeter(200, 199), { note: undefined }],
]);

const eyes = { eyes: 63, distance: 40 };
said('Views', [
  [
    'a slot past which the nose is the limit',
    fieldOfView({ wide: 160, high: 10, ...eyes }).total,
    { formula: /^α = 2 × 60°/, worked: '2 × 60°, the nose’s limit, less than 2 × arctan((160 + 63)/2 ÷ 40)' },
  ],
  [
    'a slot to whose far end one sees',
    fieldOfView({ wide: 70, high: 10, ...eyes }).total,
    { worked: '2 × arctan((70 + 63)/2 ÷ 40)' },
  ],
  [
    'a slot so wide that the near eye sees farther',
    fieldOfView({ wide: 260, high: 10, ...eyes }).total,
    { worked: '2 × arctan((260 − 63)/2 ÷ 40)' },
  ],
  [
    'a slot wider than the eyes are apart',
    fieldOfView({ wide: 70, high: 10, ...eyes }).both,
    { worked: '2 × arctan((70 − 63)/2 ÷ 40)' },
  ],
  [
    'a slot no wider than the eyes are apart',
    fieldOfView({ wide: 63, high: 10, ...eyes }).both,
    { formula: /no wider than/ },
  ],
  [
    'a slot level with the eyes',
    fieldOfView({ wide: 70, high: 10, ...eyes }).high,
    { worked: '2 × arctan(10/2 ÷ 40)' },
  ],
  [
    'a slot over the eyes',
    fieldOfView({ wide: 70, high: 10, ...eyes, above: 4 }).high,
    { worked: 'arctan((4 + 10/2)/40) − arctan((4 − 10/2)/40)' },
  ],
]);

said('People and duties', [
  ['men', percentileOf('head round', 585, 'man')!, { formula: /share of men at/ }],
  ['women', percentileOf('head round', 585, 'woman')!, { formula: /share of women at/ }],
  ['a least', dutyLimit('stage', 'head-plate')!, { worked: 'at least 0.9 for stage' }],
  [
    'a most',
    dutyLimit('contact', 'rivet-pitch')!,
    { worked: 'at most 50.8 for contact', source: /published equipment standard/ },
  ],
]);

describe('Whatever a figure says', () => {
  it('has no number in it that is none', () => {
    const all = resultsIn([
      [0, 40, 100, 160].map((deep) => [
        dome.domeArea(200, deep),
        dome.domeMeridian(200, deep),
        dome.ovalDomeArea(240, 190, deep),
        dome.ovalDomeBlankArc(240, 190, deep).long,
      ]),
      rivet.jointStrength(joint),
      fieldOfView({ wide: 160, high: 10, ...eyes }),
    ]);
    for (const { worked, note, formula } of all) assert.doesNotMatch(`${worked} ${note}`, /NaN|Infinity/, formula);
  });

  it('people: men and women beside each other, and no empty sentence', () => {
    for (const name of ['head round', 'waist round', 'arm length']) {
      const { note } = percentileOf(name, 700) ?? {};
      if (note !== undefined)
        assert.match(note, /^Of men [\d.]+ %, of women [\d.]+ %: write “body man” or “body woman”[^“”]*$/);
    }
  });

  it('duties: every row has its unit and its three numbers', () => {
    for (const { id, unit, display, stage, contact } of dutyTable)
      assert.ok(unit.length > 0 && [display, stage, contact].every(Number.isFinite), id);
  });
});

describe('Gauges at the ends of their tables', () => {
  it('weigh what the Act of 1893 says, to the last number', () => {
    // Number and the fraction of an inch that the Act prints.
    const ACT = [
      [31, 7 / 640],
      [32, 13 / 1280],
      [33, 3 / 320],
      [34, 11 / 1280],
      [35, 5 / 640],
      [36, 9 / 1280],
      [37, 17 / 2560],
      [38, 1 / 160],
    ] as const;
    for (const [number, inches] of ACT)
      assert.ok(Math.abs((gauges.gaugeThickness('USG', number)?.value ?? 0) - inches * 25.4) < 1e-9, `${number}`);
  });

  it('go from their first number to their last and no further', () => {
    const ENDS: readonly (readonly [gauges.GaugeTableId, number, number])[] = [
      ['MSG', 3, 38],
      ['GSG', 8, 32],
      ['USG', 3, 38],
      ['BS', -3, 40],
      ['SWG', -3, 40],
      ['BG', 8, 30],
      ['BWG', 0, 36],
      ['SteelWire', 4, 20],
      ['MusicWire', 10, 40],
    ];
    assert.equal(ENDS.length, Object.keys(gauges.gaugeTables).length);
    for (const [id, first, last] of ENDS) {
      const { numbers, title, source, basis } = gauges.gaugeTables[id];
      assert.deepEqual([numbers[0], numbers.at(-1), numbers.length], [first, last, last - first + 1], id);
      assert.ok(title.length > 0 && source.length > 0 && basis === 'published', id);
      for (const number of [first - 1, last + 1, first + 0.5])
        assert.equal(gauges.gaugeThickness(id, number), undefined, `${id} ${number}`);
      assert.equal(gauges.gaugeThickness(id, last)?.source, source);
      assert.equal(gauges.nearestGauge(id, Number.NaN).number, first);
    }
  });

  it('has the grain of the finest grit without a letter', () => {
    assert.equal(gritSize('CAMI', 1000)?.value, 0.0092);
    assert.equal(gritSize('CAMI', 1001), undefined);
  });
});
