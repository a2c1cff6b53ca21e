import assert from 'node:assert/strict';
import path from 'node:path';
import { problemsOf } from '../../../server/checks/run.ts';
import { atOnce } from '../../../server/incremental/steps.ts';
import { cutListOf } from '../../../server/output/documents/cut-list-of.ts';
import { gatherCutList } from '../../../server/output/documents/gather.ts';
import { type OrderLine, type OrderList, orderListOf } from '../../../server/output/documents/order-list.ts';
import { orderListPaper } from '../../../server/output/documents/order-list-paper.ts';
import { writeJson } from '../../../server/output/writers/json.ts';
import { writeMarkdown } from '../../../server/output/writers/markdown.ts';
import { builds, sample, specOf } from '../../samples/support.ts';
import { assertExpected } from '../expected.ts';
import { HOSTILE, hostile, sallet } from '../sample.ts';

const date = '2027-01-18';

function orderOf(text: string): OrderList {
  const model = specOf({ 'spec.planish': `build "Order"\n  make 2\n${text}` });
  return orderListOf(cutListOf(model, { date, problems: problemsOf(model) }));
}

/** `2 pack of 100: needs 150, has 7, leaves 57, 18.00` */
function said({ sold, needed, have, buy, over, toPay, why }: OrderLine): string {
  const size = {
    sheet: 'sheet',
    hide: 'hide',
    coil: 'coil',
    metre: 'm',
    pack: 'pack',
    piece: 'piece',
    offcut: 'offcut',
    unsaid: 'unsaid',
  };
  const of =
    sold.as === 'sheet'
      ? ` ${sold.long} x ${sold.wide}`
      : sold.as === 'pack'
        ? ` of ${sold.of}`
        : sold.as === 'coil'
          ? ` of ${sold.length}`
          : '';
  const number = (value: number) => String(Math.round(value * 100) / 100);
  return [
    `${buy === undefined ? '?' : number(buy)} ${size[sold.as]}${of}: needs ${number(needed)}`,
    ...(have === undefined ? [] : [`has ${number(have)}`]),
    ...(over === undefined ? [] : [`leaves ${number(over)}`]),
    ...(toPay === undefined ? [] : [toPay.toFixed(2)]),
    ...(why === undefined ? [] : [why]),
  ].join(', ');
}

const line = (order: OrderList, name: string): string => {
  const found = order.lines.filter((each) => each.name === name);
  assert.ok(found.length > 0, `there is no line of ${name}`);
  return found.map(said).join(' | ');
};

const PLATE = `material plate
  mild steel 1.5 mm
`;

describe('an order list', () => {
  it('asks for sheets beyond those in the rack, size by size', () => {
    const pieces = `piece back
  from plate
  plate 900 x 700 mm
piece tab
  from plate
  make 3
  plate 280 x 180 mm
`;
    const order = orderOf(
      `${PLATE}  sheet 1000 x 800 mm, price 30.00, have 1\n  sheet 300 x 200 mm, price 4.00\n${pieces}`,
    );
    assert.equal(line(order, 'plate'), '1 sheet 1000 x 800: needs 2, has 1, 30.00 | 6 sheet 300 x 200: needs 6, 24.00');
    assert.deepEqual(order.total, { toPay: 54, priced: 54, missing: [] });
    assert.deepEqual(
      order.lines.map(({ uses }) => uses),
      [['back'], ['tab']],
    );
  });

  it('goes to the offcuts first, which are no money', () => {
    const order = orderOf(
      `${PLATE}  sheet 1000 x 800 mm, price 30.00\n  offcut 400 x 300 mm\npiece brow\n  from plate\n  strip 300 x 40 mm\n`,
    );
    assert.equal(line(order, 'plate'), '0 offcut: needs 1, has 1, 0.00');
    assert.deepEqual(order.total, { toPay: 0, priced: 0, missing: [] });
  });

  it('says what lies on no sheet, and why, in place of a number', () => {
    const order = orderOf(`${PLATE}piece back\n  from plate\n  plate 900 x 700 mm\n`);
    const { sold, buy, needed, why } = order.lines[0]!;
    assert.deepEqual([sold.as, buy, needed], ['unsaid', undefined, 2 * 900 * 700]);
    assert.match(why!, /sheet/);
    assert.deepEqual(order.total, { priced: 0, missing: ['mild steel 1.5 mm'] });
  });

  it('counts rivets and their washers in packs, less what is in the drawer', () => {
    const order = orderOf(`${PLATE}  sheet 1000 x 800 mm, price 30.00, have 1
rivet small
  brass 4 x 10 mm, domed
  pack 100, price 9.00, have 7
  washer 10 x 1 mm, pack 50, price 2.00
piece brow
  from plate
  plate 300 x 40 mm
piece nape
  from plate
  plate 300 x 40 mm
seam joint-line
  joins brow, nape
  along brow.top
  rivets small, count 60, inset 8 mm, peened domed, washer inside
`);
    assert.equal(line(order, 'small'), '2 pack of 100: needs 120, has 7, leaves 87, 18.00');
    assert.equal(line(order, 'small washer'), '3 pack of 50: needs 120, leaves 30, 6.00');
    assert.equal(line(order, 'plate'), '0 sheet 1000 x 800: needs 1, has 1, 0.00');
    assert.equal(order.total.toPay, 24);
  });

  it('asks for wire in coils where one length goes into a coil, else by the metre, and for hides by their area', () => {
    const band = (wire: string) => `${PLATE}  sheet 1000 x 800 mm, have 1
material edge-wire
  mild steel wire 3 mm
${wire}material hide
  veg-tan leather 7 oz
  hide 0.1 m2, price 20.00
piece band
  from plate
  strip 600 x 60 mm
  edge bottom rolled over edge-wire
piece tongue
  from hide
  plate 300 x 200 mm
`;
    assert.match(
      line(orderOf(band('  coil 2 m, price 3.00\n')), 'edge-wire'),
      /^1 coil of 2000: needs 1200, leaves 800, 3\.00$/,
    );
    assert.match(
      line(orderOf(band('  coil 0.5 m, price 3.00\n')), 'edge-wire'),
      /^\? coil of 500: .*longer than a coil$/,
    );
    assert.match(line(orderOf(band('')), 'edge-wire'), /^1\.2 m: needs 1200/);
    // Two tongues and a quarter for waste: 0.15 m2.
    assert.equal(line(orderOf(band('')), 'hide'), '2 hide: needs 150000, leaves 50000, 40.00');
  });

  it('leaves out of its sum what has no price, and names it', () => {
    const order = orderListOf(gatherCutList(sallet));
    assert.deepEqual(order.total.missing, ['phosphor bronze 0.8 mm, half hard']);
    assert.equal(order.total.toPay, undefined);
    assert.ok(Math.abs(order.total.priced - (96 + 8.897 + 43.5 + 8.4)) < 0.001);
  });

  for (const file of ['sallet/sallet.planish', 'gauntlet/cuff.planish'])
    it(`as a paper, as looked at: ${file}`, () => {
      const model = sample(file);
      const order = orderListOf(cutListOf(model, { date, problems: problemsOf(model) }));
      const name = `order-${path.basename(file, '.planish')}`;
      assertExpected(`${name}.md`, atOnce(writeMarkdown(orderListPaper(order))));
      assertExpected(`${name}.json`, atOnce(writeJson('order list', order)));
    });

  const lists = [
    ...builds.map((file) => [file, () => cutListOf(sample(file), { date, problems: [] })] as const),
    ['the made-up sallet', () => gatherCutList(sallet)] as const,
    ['a build of hostile texts', () => gatherCutList(hostile(HOSTILE[0]!))] as const,
  ];
  for (const [name, make] of lists)
    it(`comes to the money of the cut list, and has every material, wire, rivet and part of it: ${name}`, () => {
      const list = make();
      const order = orderListOf(list);
      const { toBuy } = list.totals.cost;
      if (toBuy === undefined) assert.equal(order.total.toPay, undefined);
      else assert.ok(Math.abs(order.total.toPay! - toBuy) < 1e-9);
      assert.ok(Math.abs(order.total.priced - list.totals.priced.toBuy) < 1e-9);
      const names = new Set(order.lines.map((each) => each.name));
      for (const each of [...list.materials, ...list.wires, ...list.rivets, ...list.parts])
        assert.ok(names.has(each.name) || ('rows' in each && !each.rows.length), each.name);
      for (const each of order.lines) {
        assert.ok(each.over === undefined || each.over >= -1e-6, `${each.name} runs short`);
        assert.ok((each.buy === undefined) === (each.why !== undefined), `${each.name} says why, or how many`);
      }
    });
});
