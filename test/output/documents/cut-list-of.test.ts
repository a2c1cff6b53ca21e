import assert from 'node:assert/strict';
import { problemsOf } from '../../../server/checks/run.ts';
import { atOnce } from '../../../server/incremental/steps.ts';
import type { Model } from '../../../server/model/spec.ts';
import type { CutList } from '../../../server/output/documents/cut-list.ts';
import { cutListInputOf, cutListOf } from '../../../server/output/documents/cut-list-of.ts';
import { cutListPaper } from '../../../server/output/documents/cut-list-paper.ts';
import { writeCsv } from '../../../server/output/writers/csv.ts';
import { writeJson } from '../../../server/output/writers/json.ts';
import { writeMarkdown } from '../../../server/output/writers/markdown.ts';
import { builds, freshSample, sample, specOf } from '../../samples/support.ts';
import { assertExpected } from '../expected.ts';

const paperOf = (list: CutList) => atOnce(cutListPaper(list));

const date = '2027-01-18';

const listOf = (model: Model): CutList => cutListOf(model, { date, problems: problemsOf(model) });
const spec = (text: string, more: Readonly<Record<string, string>> = {}) => specOf({ 'spec.planish': text, ...more });
const near = (actual: number | undefined, wanted: number, within = 0.01) =>
  assert.ok(actual !== undefined && Math.abs(actual - wanted) <= within, `${actual} is not ${wanted}`);

const STOCK = `
material plate
  mild steel 1.5 mm
  sheet 1000 x 2000 mm, price 50.00, have 1
  margin 5 mm
  kerf 1 mm
rivet small
  brass 4 x 10 mm, domed
  pack 100, price 9.00, have 7
  washer 10 x 1 mm
`;

describe('cut list of a spec', () => {
  // Laying a breastplate flat takes a second, and more on a busy machine.

  for (const file of builds) {
    const name = `sample-${file.split('/').pop()!.replace('.planish', '')}`;
    it(`${file}: as looked at`, () => {
      const list = listOf(sample(file));
      assertExpected(`${name}.md`, atOnce(writeMarkdown(paperOf(list))));
      assertExpected(`${name}.json`, atOnce(writeJson('cut list', list)));
      // Coats and what a weld takes are in no sum yet, and said to be in none; all else of the samples is counted.
      const besides = list.unreckoned.filter(
        ({ reason }) => !/^what is laid on|^it is read, and no sum|^what it takes is in no list/.test(reason),
      );
      assert.deepEqual(besides, []);
      assert.ok(
        list.materials.every((material) => material.rows.every((row) => !row.unplaced)),
        'every blank lies on a sheet',
      );
      assert.ok(list.rivets.every((rivet) => rivet.uses.every(({ verdict, needed }) => !needed || verdict === 'fits')));
    });
  }

  it('counts a mirrored pair, its spares, and the mass of the blank before anything is cut out of it', () => {
    const list = listOf(
      spec(`build "Wings"
  for "A troupe"
  duty stage
  make 3, spare 1
  due 2027-05-01
${STOCK}
piece wing
  from plate
  make 2, mirrored
  plate 200 x 100 mm
  hole 20 mm, at 50 mm from left
  grain across
`),
    );
    assert.equal(list.builds, 4);
    assert.equal(list.due, '2027-05-01');
    assert.equal(list.client, 'A troupe');
    const row = list.materials[0]!.rows[0]!;
    assert.equal(row.total, 8);
    assert.equal(row.mirrored, true);
    assert.equal(row.grain, 'across');
    near(row.mass, (200 * 100 * 1.5 * 7.85) / 1000);
    // The hole is gone from the finished mass, not from what is cut.
    near(list.totals.formedMass, 2 * (((200 * 100 - 100 * Math.PI) * 1.5 * 7.85) / 1000));
  });

  it('marks a cone out by its radii, with what its ends need', () => {
    const list = listOf(
      spec(`build "Cone"
${STOCK}
material edge-wire
  mild steel wire 3 mm
piece cuff
  from plate
  cone round 400 to 300 mm, high 120 mm, wrap 300 deg
  edge top rolled over edge-wire
`),
    );
    const row = list.materials[0]!.rows[0]!;
    assert.equal(row.shape.kind, 'sector');
    if (row.shape.kind !== 'sector') return;
    // Radii 63.662 and 47.746; slant √(15.915² + 120²) = 121.051; 63.662 × 121.051/15.915 = 484.2, and 7.60 for the roll.
    near(row.shape.outer, 484.2 + 7.6, 0.05);
    near(row.shape.inner, 484.2 - 121.05, 0.05);
    near(row.shape.angle, (300 * 15.915) / 121.051);
    assert.equal(row.allowances[0]?.what, 'rolled over edge-wire');
    near(list.wires[0]?.uses[0]?.length, (400 * 300) / 360 + (300 / 360) * Math.PI * 4.5);
    near(list.wires[0]?.massPerMetre, (Math.PI / 4) * 9 * 7.85);
  });

  it('buys wire by the coil, pins of hinges among it, and washers by the pack', () => {
    const list = listOf(
      spec(`build "Gate"
  make 3
${STOCK}
material edge-wire
  mild steel wire 3 mm
  coil 1 m, price 6.50, have 1
rivet tack
  copper 3 x 10 mm, flat
  pack 100, price 5.00
  washer 9 x 0.8 mm, pack 20, price 2.00, have 4
piece arm
  from plate
  plate 300 x 60 mm
  edge top rolled over edge-wire
piece flap
  from plate
  plate 300 x 60 mm
hinge gate
  joins arm.right, flap.left
  knuckles 5, wide 60 mm
  over edge-wire
seam join
  joins arm, flap
  along arm.bottom
  rivets tack, count 3, inset 9 mm, peened flat, washer inside
`),
    );
    const [wire] = list.wires;
    assert.deepEqual(
      wire?.uses.map(({ piece, edge, total }) => [piece, edge, total]),
      [
        ['arm', 'top', 3],
        ['gate', 'pin', 3],
      ],
    );
    // 300 mm and a pin of 60 mm with two heads of 3.19 mm, three times over, and a metre is in the rack.
    near(wire?.lengthTotal, 3 * (300 + 60 + 2 * 3.19), 0.1);
    near(wire?.buy.short, wire!.lengthTotal - 1000);
    assert.equal(wire?.buy.coils, 1);
    near(wire?.cost.toBuy, 6.5);
    near(wire?.cost.used, (6.5 * wire!.lengthTotal) / 1000);
    const washers = list.parts.find(({ name }) => name === 'tack washer');
    assert.equal(washers?.total, 9);
    assert.deepEqual(washers?.buy, { short: 5, packs: 1 });
    near(washers?.cost.toBuy, 2);
    // A coil of a metre, all that is wanted, one coil to buy, and its price.
    assert.match(atOnce(writeCsv(list)), /^wire to have,mild steel wire 3 mm,,edge-wire,.*,1000,1099\.\d+,.*,1,6\.5/m);
    assert.deepEqual(list.unreckoned, []);
    assert.deepEqual(
      list.materials[0]!.rows.map(({ allowances }) => allowances.map(({ edge, what }) => `${edge}: ${what}`)),
      [['top: rolled over edge-wire', 'right: knuckles of gate'], ['left: knuckles of gate']],
    );
  });

  it('draws a sector with the size that the model gives it', () => {
    for (const file of builds) {
      for (const material of cutListInputOf(sample(file), { date, problems: [] }).materials) {
        for (const { shape, long, wide } of material.blanks) {
          if (shape.kind !== 'sector') continue;
          const half = ((shape.angle / 2) * Math.PI) / 180;
          near(long, 2 * shape.outer * Math.sin(half), 0.05);
          near(wide, shape.outer - shape.inner * Math.cos(half), 0.05);
        }
      }
    }
  });

  it('takes the blank of the smith where there is one', () => {
    const list = listOf(
      spec(`build "Dome"
${STOCK}
piece cop
  from plate
  dome 150 mm, deep 45 mm
  dish
  blank disc 190 mm
`),
    );
    const row = list.materials[0]!.rows[0]!;
    assert.deepEqual([row.shape.kind, row.long, row.overridden], ['round', 190, true]);
  });

  it('says what it cannot reckon, and never leaves it out', () => {
    const model = spec(`build "Half"
  make 2
${STOCK}
part hook
  make 1
piece half
  from plate
  make 2, mirrored
  half dome 240 x 200 mm, deep 140 mm
piece loft
  from plate
  make 2, mirrored
  form wrap 190 deg
  at 0 mm, round 700 mm, long 240 mm
piece cloth
  from nowhere
  plate 10 x 10 mm
piece unfinished
  from plate
piece shown
  from plate
  plate 100 x 100 mm
joint elbow
  plates half, shown
  pivots small, inset 10 mm
hinge gate
  joins half.middle, shown.left
  knuckles 3, wide 30 mm
`);
    const list = listOf(model);
    const said = new Map(list.unreckoned.map((each) => [each.what, each]));
    assert.deepEqual([...said.keys()].sort(), ['hinge gate', 'piece cloth', 'piece loft', 'piece unfinished'].sort());
    assert.match(said.get('piece loft')!.reason, /no such form can be made/);
    assert.match(said.get('piece cloth')!.reason, /what it is cut from is not known/);
    assert.match(said.get('piece unfinished')!.reason, /no form/);
    assert.equal(said.get('piece loft')!.perBuild, 2);
    assert.match(
      atOnce(writeMarkdown(paperOf(list))),
      /Not in this list yet[\s\S]*piece loft[\s\S]*2 × 2 = 4 from mild steel 1\.5 mm/,
    );
    assert.match(atOnce(writeCsv(list)), /not in this list,mild steel 1\.5 mm,,piece loft/);
    assert.equal(JSON.parse(atOnce(writeJson('cut list', list))).unreckoned.length, 4);
    assert.deepEqual(
      list.parts.map(({ name, perBuild }) => [name, perBuild]),
      [['hook', 1]],
    );
  });

  it('counts rivets stack by stack, and gives shared places to the seam that shares them', () => {
    const list = listOf(
      spec(`build "Rows"
${STOCK}
rivet shorter
  brass 4 x 8 mm, domed
rivet longer
  brass 4 x 12 mm, domed
  pack 100, price 9.00, have 4
  washer 10 x 1 mm
material hide
  veg-tan leather 8 oz
  hide 2 m2, price 100.00
piece top
  from plate
  plate 200 x 60 mm
piece under
  from plate
  plate 200 x 60 mm
piece flap
  from hide
  plate 60 x 60 mm
seam row
  joins top, under
  along top.bottom
  rivets shorter, count 7, inset 10 mm, peened domed
seam hang
  joins top, under, flap
  shares row 2 and 3
  rivets longer, peened domed, washer inside
seam over-leather
  joins flap, under
  along flap.left
  rivets longer, count 2, inset 10 mm, peened flat, washer inside
`),
    );
    const uses = list.rivets.flatMap((rivet) =>
      rivet.uses.map((use) => [rivet.name, use.seam, use.perBuild, use.positions, use.verdict]),
    );
    assert.deepEqual(uses, [
      ['shorter', 'row', 5, '1, 4 to 7', 'fits'],
      ['longer', 'hang', 2, '2 and 3 of row', 'fits'],
      ['longer', 'over-leather', 2, '', 'fits'],
    ]);
    // Four wanted, four in the drawer.
    assert.deepEqual(list.rivets[1]!.buy, { short: 0, packs: 0 });
    assert.deepEqual(list.rivets[0]!.buy, { short: 5, packs: 5 });
    assert.deepEqual(
      list.parts.map(({ name, perBuild, uses: where }) => [name, perBuild, where]),
      [['longer washer', 4, ['hang', 'over-leather']]],
    );
  });

  it('says when a rivet is too short or much too long', () => {
    const verdict = (length: number) =>
      listOf(
        spec(`build "Length"
${STOCK.replace('4 x 10 mm', `4 x ${length} mm`)}
piece top
  from plate
  plate 200 x 60 mm
piece under
  from plate
  plate 200 x 60 mm
seam row
  joins top, under
  along top.bottom
  rivets small, count 7, inset 10 mm, peened domed
`),
      ).rivets[0]!.uses[0]!.verdict;
    assert.deepEqual([5, 8, 10, 30].map(verdict), ['short', 'fits', 'long', 'long']);
  });

  it('cuts straps and counts their buckles, from a stock file too', () => {
    const list = listOf(
      spec(
        `use "stock.planish"
build "Straps"
piece plate-one
  from plate
  plate 100 x 100 mm
seam hold
  joins plate-one
  strap hide, wide 25 mm, long 200 mm, buckle buckle-25, count 3, at 20 mm from top
`,
        {
          'stock.planish': `${STOCK}
shop bench
  currency EUR
material hide
  veg-tan leather 8 oz
  hide 2 m2, price 100.00, have 1
part buckle-25
  wide 25 mm
  pack 10, price 12.00, have 1
part unused
  price 3.00
`,
        },
      ),
    );
    assert.equal(list.currency, 'EUR');
    const hide = list.materials.find(({ name }) => name === 'hide')!;
    assert.equal(hide.kind, 'hide');
    assert.deepEqual(
      hide.rows.map(({ long, wide, total }) => [long, wide, total]),
      [[200, 25, 3]],
    );
    assert.deepEqual(
      list.parts.map(({ name, perBuild, buy }) => [name, perBuild, buy]),
      [['buckle-25', 3, { short: 2, packs: 1 }]],
    );
  });

  it('lays soft goods that are sold by the sheet', () => {
    const list = listOf(
      spec(`build "Pad"
material foam
  foam 15 mm
  sheet 1000 x 1500 mm
piece pad
  from foam
  oval 190 x 160 mm
`),
    );
    assert.equal(list.materials[0]!.kind, 'sheet');
    assert.equal(list.materials[0]!.layout?.sheets.length, 1);
  });

  it('heads the paper with the errors and the rulebook, and shows problems by line', () => {
    const list = listOf(
      spec(`build "Knees"
  duty contact, rules meadow
rules meadow
  book "Meadow handbook", dated 2026-11-01
${STOCK}
piece cop
  from plate
  plate 100 x banana
`),
    );
    assert.equal(list.rules, 'Meadow handbook, 2026-11-01');
    assert.ok(list.totals.errors > 0);
    assert.equal(list.problems.find(({ severity }) => severity === 'error')?.line, 18);
    assert.match(atOnce(writeMarkdown(paperOf(list))), /Not ready to cut/);
  });

  it('carries every safety caution, once', () => {
    const list = listOf(
      spec(`build "Stage"
  duty stage
${STOCK}
piece one
  from plate
  plate 100 x 100 mm
`),
    );
    const codes = list.cautions.map(({ code, text }) => `${code} ${text}`);
    assert.equal(new Set(codes).size, codes.length);
  });

  it('holds any spec: nothing, half a word, a piece of itself', () => {
    for (const text of ['', 'piece', 'build "x"', 'piece a\n  like a', 'seam s\n  joins s', 'material m\n  brass']) {
      const list = listOf(spec(text));
      assert.ok(atOnce(writeMarkdown(paperOf(list))).length > 100, text);
    }
  });

  it('is the same each time', () => {
    const written = () => atOnce(writeJson('cut list', listOf(freshSample(builds[0]!))));
    assert.equal(written(), written());
  });
});
