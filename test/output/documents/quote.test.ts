import assert from 'node:assert/strict';
import fc from 'fast-check';
import { problemsOf } from '../../../server/checks/run.ts';
import { atOnce } from '../../../server/incremental/steps.ts';
import type { Quote } from '../../../server/output/documents/quote.ts';
import { quoteInSteps } from '../../../server/output/documents/quote-of.ts';
import { quotePaper } from '../../../server/output/documents/quote-paper.ts';
import { writeMarkdown } from '../../../server/output/writers/markdown.ts';
import { builds, sample, specOf } from '../../samples/support.ts';

const date = '2027-01-18';

const quoteOf = (model: ReturnType<typeof specOf>): Quote =>
  atOnce(quoteInSteps(model, { date, problems: problemsOf(model) }));

const paperOf = (quote: Quote) => atOnce(writeMarkdown(quotePaper(quote)));

const job = ({ shop = '', make = 2, sheet = '58.00', pack = '14.50' }) => `build "Brow bands"
  make ${make}
shop bench
${shop}material plate
  mild steel 1.5 mm
  sheet 1000 x 2000 mm, price ${sheet}
rivet small
  brass 3 x 8 mm, domed
  pack 100, price ${pack}
piece brow
  from plate
  strip 300 x 40 mm
piece back
  from plate
  strip 300 x 40 mm
seam band
  joins brow, back
  along brow.top
  rivets small, count 4, inset 10 mm
`;
const quote = (asked: Parameters<typeof job>[0]) => quoteOf(specOf({ 'spec.planish': job(asked) }));
const money = ({ lines }: Quote, group: string) => lines.flatMap((line) => (line.group === group ? [line.money] : []));

describe('quote', () => {
  it('is materials and hours, then overhead, margin and tax, each on all above it', () => {
    const made = quote({ shop: '  rate 40.00\n  currency GBP\n  overhead 10 %\n  margin 25 %\n  tax 20 %\n' });
    const [sheet, rivets] = money(made, 'materials');
    // One sheet is begun; eight rivets of a hundred: 14.50 × 0.08.
    assert.deepEqual([sheet, rivets], [58, 1.16]);
    const [work] = money(made, 'work');
    const cost = 58 + 1.16 + work!;
    const overhead = Math.round(cost * 10) / 100;
    assert.deepEqual(money(made, 'overhead'), [overhead]);
    const margin = Math.round((cost + overhead) * 25) / 100;
    assert.deepEqual(money(made, 'margin'), [margin]);
    const tax = Math.round((cost + overhead + margin) * 20) / 100;
    assert.deepEqual(money(made, 'tax'), [tax]);
    assert.ok(Math.abs(made.total! - (cost + overhead + margin + tax)) < 1e-9);
    assert.ok(made.range.low < made.total! && made.total! < made.range.high);
    assert.deepEqual(
      made.offers.map((offer) => offer.builds),
      [1, 2, 4],
    );
    const [one, two, four] = made.offers;
    assert.ok(one!.each > two!.each && two!.each > four!.each, 'laid out once for all, and one sheet is enough');
    assert.equal(two!.all, made.total);
  });

  it('gives no total where a price is missing, and names it', () => {
    const made = quote({ sheet: '58.00', pack: '0.00' });
    assert.equal(made.total, undefined);
    assert.deepEqual(made.missing, ['the hours, since the shop says no rate']);
    assert.deepEqual(made.offers, []);
    assert.match(paperOf(made), /as far as priced/);
    const bare = quoteOf(
      specOf({
        'spec.planish': job({ shop: '  rate 40\n' }).replace(', price 58.00', '').replace(', price 14.50', ''),
      }),
    );
    assert.deepEqual(bare.missing, [
      'mild steel 1.5 mm, which has no price',
      'brass 3 x 8 mm, domed, which has no price',
    ]);
    assert.ok(bare.lines.some(({ what, money }) => what === 'mild steel 1.5 mm' && money === undefined));
  });

  it('says how long it stands, and the terms of the shop', () => {
    const made = quote({
      shop: '  rate 40\n  valid 30 days\n  terms "Half on order."\n  terms "Collected from the shop."\n',
    });
    assert.equal(made.validUntil, '2027-02-17');
    const paper = paperOf(made);
    for (const text of ['Stands until: **2027-02-17**', 'Half on order.', 'Collected from the shop.'])
      assert.ok(paper.includes(text), text);
  });

  it('counts what is used up as covered by an overhead', () => {
    const finish = 'finish grey\n  on brow\n  paint "grey"\n';
    const of = (shop: string) => quoteOf(specOf({ 'spec.planish': job({ shop }) + finish })).missing;
    assert.equal(of('  rate 40\n').length, 1);
    assert.deepEqual(of('  rate 40\n  overhead 12 %\n'), []);
  });

  it('adds up as printed, over a thousand random jobs in five currencies', () => {
    const price = fc.integer({ min: 0, max: 99_999 }).map((cents) => (cents / 100).toFixed(2));
    const percent = fc.integer({ min: 0, max: 400 }).map((tenths) => (tenths / 10).toFixed(1));
    const asked = fc.record({
      make: fc.integer({ min: 1, max: 9 }),
      sheet: price,
      pack: price,
      rate: price,
      overhead: percent,
      margin: percent,
      tax: percent,
    });
    for (const currency of ['GBP', 'EUR', 'USD', 'JPY', 'CHF'])
      fc.assert(
        fc.property(asked, ({ rate, overhead, margin, tax, ...rest }) => {
          const shop = `  rate ${rate}\n  currency ${currency}\n  overhead ${overhead} %\n  margin ${margin} %\n  tax ${tax} %\n`;
          const made = quote({ ...rest, shop });
          const coins = (value: number) => BigInt(value.toFixed(made.decimals).replace('.', ''));
          const sum = made.lines.reduce((all, each) => all + coins(each.money!), 0n);
          assert.equal(sum, coins(made.total!));
        }),
        { numRuns: 200 },
      );
  });

  for (const file of builds)
    it(`stands for every sample: ${file}`, () => {
      const made = quoteOf(sample(file));
      assert.ok(made.priced > 0);
      assert.ok(!/NaN|undefined|Infinity/.test(paperOf(made)));
    });
});
