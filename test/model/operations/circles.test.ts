import assert from 'node:assert/strict';
import fc from 'fast-check';
import { orderCircles, workOf } from '../../../server/model/operations/order-of-work.ts';
import { modelFrom } from '../support.ts';

const SPEC = `material spring
  spring steel 1.5 mm
rivet small
  copper 3 x 10 mm, flat
piece bowl
  from spring
  dome 180 mm, deep 40 mm
  dish
  planish
  hole crest 4 mm, at crown
  harden 830 C, quench oil
  temper 290 C
piece one
  from spring
  plate 120 x 80 mm
  harden 830 C, quench oil
piece other
  from spring
  plate 120 x 80 mm
seam lap
  joins one, other
  along one.top
  rivets small, count 3, inset 10 mm
seam join
  joins one, other
  along one.bottom
  weld
finish bright
  on one, bowl
  sand 120 grit
  polish
`;
const STEPS = [
  ...['bowl', 'one', 'other'].flatMap((piece) =>
    ['cut', 'file', 'dish', 'planish', 'drill', 'harden', 'temper', 'anneal', 'fit', 'rivet', 'weld', 'finish'].map(
      (word) => `${piece} ${word}`,
    ),
  ),
  'bowl crest',
  'lap',
  'join',
  'bright',
];

describe('orders that run in a circle with what must come first', () => {
  it('are found among what they name as in the whole order of work', () => {
    const chain = fc.array(fc.constantFrom(...STEPS), { minLength: 2, maxLength: 4 });
    let found = 0;
    fc.assert(
      fc.property(fc.array(chain, { minLength: 1, maxLength: 4 }), (chains) => {
        const lines = chains.map(
          ([first, ...then]) => `  first ${first}${then.map((each) => `, then ${each}`).join('')}`,
        );
        const model = modelFrom(`${SPEC}order bench\n${lines.join('\n')}\n`);
        const circles = orderCircles(model);
        assert.equal(circles.length > 0, workOf(model).circles.length > 0, lines.join('\n'));
        if (circles.length) found++;
        for (const circle of circles)
          for (const [i, arrow] of circle.entries())
            assert.equal(arrow.to.key, circle[(i + 1) % circle.length]!.from.key, 'each leads to the next');
      }),
      { numRuns: 300 },
    );
    assert.ok(found > 30, `${found} circles`);
  });
});
