import assert from 'node:assert/strict';
import fc from 'fast-check';
import { balance } from '../../../server/trade/mass/balance.ts';

describe('The balance of some parts', () => {
  it('is that of a beam with weights on it', () => {
    const found = balance({
      parts: [
        { mass: 1500, front: 0 },
        { mass: 500, front: 80 },
      ],
      loose: 0,
      reach: 120,
    });
    assert.equal(found.value, 20);
    assert.equal(found.worked, '(1500 × 0 + 500 × 80) ÷ 2000');
    assert.deepEqual([found.low, found.high, found.note], [undefined, undefined, undefined]);
  });

  it('ranges as far as what has no place may lie', () => {
    const found = balance({ parts: [{ mass: 900, front: 10 }], loose: 100, reach: 120 });
    assert.deepEqual([found.value, found.low, found.high], [10, -3, 21]);
    assert.match(found.note!, /10 % of the mass/);
  });

  it('holds wherever that lies, and whatever all parts are moved by', () => {
    const part = fc.record({
      mass: fc.double({ min: 1, max: 5000, noNaN: true }),
      front: fc.double({ min: -150, max: 150, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 6 }), part, (parts, hidden) => {
        const found = balance({ parts, loose: hidden.mass, reach: 150 });
        const all = balance({ parts: [...parts, hidden], loose: 0, reach: 150 }).value;
        assert.ok(found.low! - 1e-9 <= all && all <= found.high! + 1e-9);
        const moved = balance({
          parts: parts.map(({ mass, front }) => ({ mass, front: front + 7 })),
          loose: 0,
          reach: 150,
        });
        assert.ok(Math.abs(moved.value - found.value - 7) < 1e-9);
      }),
    );
  });

  it('says that nothing has a place', () => {
    const found = balance({ parts: [], loose: 100, reach: 120 });
    assert.ok(Number.isNaN(found.value));
    assert.match(found.outside!, /nothing has a place/);
  });
});
