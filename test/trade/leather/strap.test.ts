import assert from 'node:assert/strict';
import fc from 'fast-check';
import { strapLayout } from '../../../server/trade/leather/strap.ts';

const values = (long: number, wide: number) => {
  const found = strapLayout({ long, wide });
  return found && Object.fromEntries(Object.entries(found).map(([name, { value }]) => [name, value]));
};

describe('A strap with its buckle', () => {
  it('goes by its width: two widths folded, holes a width apart, the first two widths from the tip', () => {
    assert.deepEqual(values(260, 20), {
      turned: 40,
      slot: 20,
      slotWide: 4,
      holes: 5,
      hole: 20 / 6,
      pitch: 20,
      first: 40,
    });
    assert.equal(strapLayout({ long: 260, wide: 20 })!.turned.worked, '2 × 20');
    assert.equal(strapLayout({ long: 260, wide: 24 })!.hole.worked, '24/6');
    assert.equal(
      strapLayout({ long: 180, wide: 20 })!.holes.worked,
      '(180 − 6.5 × 20)/20, rounded down, + 1, at most 5',
    );
  });

  it('has as many holes as find room behind the fold, up to five', () => {
    // 6.5 widths go before a hole finds room.
    assert.deepEqual(
      [129, 130, 149, 150, 210, 600].map((long) => values(long, 20)?.['holes']),
      [undefined, 1, 1, 2, 5, 5],
    );
  });

  it('keeps its last hole half a width clear of the folded end', () => {
    const measure = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(measure(20, 600), measure(5, 60), (long, wide) => {
        const found = values(long, wide);
        if (!found) return assert.ok(long < 6.5 * wide + 1e-9);
        const last = found['first']! + (found['holes']! - 1) * found['pitch']!;
        assert.ok(last <= long - 2 * found['turned']! - wide / 2 + 1e-9);
        return undefined;
      }),
    );
  });

  it('is none without a length or a width', () => {
    for (const [long, wide] of [
      [0, 20],
      [-5, 20],
      [260, 0],
      [260, -5],
      [Number.NaN, 20],
      [260, Number.NaN],
    ] as const)
      assert.equal(strapLayout({ long, wide }), undefined);
  });

  it('says that all of it is common practice', () => {
    for (const result of Object.values(strapLayout({ long: 260, wide: 20 })!))
      assert.equal(result.basis, 'common practice');
  });
});
