import assert from 'node:assert/strict';
import fc from 'fast-check';
import { coinsFor, coinsOf, decimalsOf, inMoney, shareOf } from '../../../server/trade/work/money.ts';

describe('money', () => {
  it('has the decimals of its currency, by ISO 4217', () => {
    assert.deepEqual(
      ['GBP', 'EUR', 'JPY', 'SEK', undefined].map((each) => decimalsOf(each)),
      [2, 2, 0, 2, 2],
    );
  });

  it('takes a decimal price as it is written, and rounds half up', () => {
    // 1.005 × 100 is 100.49999999999999 in doubles.
    assert.equal(coinsFor(1.005, 1, 2), 101);
    assert.equal(coinsFor(0.1, 3, 2), 30);
    assert.equal(coinsFor(58.1, 7, 0), 407);
    assert.equal(coinsOf(1005, 12.5), 126);
    assert.equal(shareOf(100, 3), 33);
  });

  it('adds up to the last coin, whatever the prices', () => {
    const coins = fc.array(fc.integer({ min: 0, max: 10 ** 9 }), { maxLength: 40 });
    fc.assert(
      fc.property(coins, fc.constantFrom(0, 2, 3), (all, decimals) => {
        const total = all.reduce((sum, each) => sum + each, 0);
        const printed = all.map((each) => BigInt(inMoney(each, decimals).toFixed(decimals).replace('.', '')));
        assert.equal(
          printed.reduce((sum, each) => sum + each, 0n),
          BigInt(inMoney(total, decimals).toFixed(decimals).replace('.', '')),
        );
      }),
    );
  });
});
