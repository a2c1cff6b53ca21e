import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { evenPitch, rivetsInRow, rowLength, stackOf } from '../../../server/trade/rivet/row.ts';
import { near } from '../numbers.ts';

const size = fc.double({ min: 1, max: 2000, noNaN: true });

describe('A row of rivets', () => {
  it('has no two further apart than asked, and with one less it would', () => {
    fc.assert(
      fc.property(
        size,
        size,
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.boolean(),
        (length, every, margin, closed) => {
          fc.pre(length > 2 * margin + 1 && every > length / 500);
          const row = { length, margin: closed ? 0 : margin, closed };
          const count = rivetsInRow({ ...row, every }).value;
          assert.ok(evenPitch({ ...row, count }).value <= every * (1 + 1e-6) || count === 1);
          const fewer = evenPitch({ ...row, count: count - 1 });
          if (fewer.outside === undefined) assert.ok(fewer.value > every * (1 - 1e-6));
        },
      ),
    );
  });

  it('counts its ends where it has such: 300 mm by 30 mm are eleven rivets, round a rim ten', () => {
    assert.equal(rivetsInRow({ length: 300, margin: 0, closed: false, every: 30 }).value, 11);
    assert.equal(rivetsInRow({ length: 300, margin: 0, closed: true, every: 30 }).value, 10);
    assert.equal(rivetsInRow({ length: 316, margin: 8, closed: false, every: 30 }).value, 11);
    assert.equal(rivetsInRow({ length: 10, margin: 8, closed: false, every: 30 }).value, 1);
  });

  it('of one rivet, or with no room between its ends, has no pitch', () => {
    assert.match(evenPitch({ length: 300, margin: 8, closed: false, count: 1 }).outside!, /no pitch/);
    assert.match(evenPitch({ length: 15, margin: 8, closed: false, count: 2 }).outside!, /no room/);
  });

  it('ends where its edge ends, and says so', () => {
    assert.equal(rowLength({ from: 40, to: 120, whole: 300, edge: 'a.rim' }).value, 80);
    const over = rowLength({ from: 40, to: 400, whole: 300, edge: 'a.rim' });
    assert.equal(over.value, 260);
    assert.match(over.outside!, /only 300\.0 mm/);
  });

  it('passes a stack whose ends add up, a hem as often as it is folded', () => {
    const stack = stackOf(
      [
        { name: 'skull', thickness: { value: 1.5, low: 1.4, high: 1.6 }, times: 2 },
        { name: 'band', thickness: { value: 1 }, times: 1 },
      ],
      0.8,
    );
    near(stack.value, 4.8);
    near(stack.low!, 4.6);
    near(stack.high!, 5);
    assert.equal(stack.formula, 'G = 2 × skull + band + washer');
  });
});
