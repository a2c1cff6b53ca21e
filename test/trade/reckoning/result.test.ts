import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { integral } from '../../../server/geometry/quadrature.ts';
import { ends, intervalOf, through } from '../../../server/trade/reckoning/interval.ts';
import { firstOf, notAboveNothing, notAtLeastNothing, reckon } from '../../../server/trade/reckoning/reckon.ts';
import { plain } from '../../../server/trade/reckoning/result.ts';
import { result, type Working } from '../../../server/trade/reckoning/working.ts';
import { near } from '../numbers.ts';

const working: Working = {
  value: 5,
  unit: 'mm',
  formula: 'D = {a} + {b}',
  symbols: { a: 7, b: -2 },
  basis: 'geometry',
  source: 'test',
};

describe('A number in a worked formula', () => {
  const WRITTEN: readonly (readonly [number, string])[] = [
    [0.123456, '0.1235'],
    [0.99994, '0.9999'],
    [1, '1'],
    [1.23456, '1.235'],
    [99.1234, '99.123'],
    [100.1234, '100.12'],
    [999.1234, '999.12'],
    [1000.1234, '1000.1'],
    [123456.78, '123456.8'],
    [100, '100'],
    [1000, '1000'],
    [1.5, '1.5'],
    [0, '0'],
    [0.00001, '0'],
    [-1.5, '−1.5'],
    [-0.5, '−0.5'],
    // Less than nothing by less than is shown: no minus before a nought.
    [-0.00001, '0'],
    [1e15, '1 × 10¹⁵'],
    [-1.26e40, '−1.3 × 10⁴⁰'],
    [Number.NaN, '–'],
    [Number.POSITIVE_INFINITY, '–'],
  ];
  for (const [number, text] of WRITTEN) it(`${number} is ${text}`, () => assert.equal(plain(number), text));

  it('keeps at least four figures, whatever its size', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 9.99e14, noNaN: true }), (number) =>
        near(Number(plain(number)), number, 5e-4),
      ),
    );
  });
});

describe('A result', () => {
  it('writes words as they are and brackets what is below nothing, never nought', () => {
    const { worked } = result({
      ...working,
      formula: 'x = {a} of {b} and {c}',
      symbols: { a: 'half', b: -3, c: 0 },
    });
    assert.equal(worked, 'half of (−3) and 0');
  });

  it('has its ends in order, and both or neither', () => {
    const ranged = result({ ...working, low: 9, high: 3 });
    assert.deepEqual([ranged.low, ranged.high], [3, 9]);
    for (const half of [{ low: 3 }, { high: 3 }]) {
      assert.deepEqual(Object.keys(result({ ...working, ...half })).sort(), Object.keys(result(working)).sort());
    }
  });

  it('has no empty notes or complaints', () => {
    for (const key of ['outside', 'note', 'low', 'high']) assert.equal(key in result(working), false, key);
    const full = result({ ...working, outside: 'too long', note: 'mind' });
    assert.deepEqual([full.outside, full.note], ['too long', 'mind']);
  });

  it('is made of the same formula time and again, with other numbers', () => {
    assert.equal(result(working).worked, '7 + (−2)');
    assert.equal(result({ ...working, symbols: { a: 1, b: 2 } }).worked, '1 + 2');
  });
});

describe('A result that is safe to print', () => {
  it('says why a value is no number, in the words it was given where there are any', () => {
    for (const value of [Number.NaN, Infinity, -Infinity]) {
      const spoilt = reckon({ ...working, value, low: 1, high: 2 });
      assert.ok(Number.isNaN(spoilt.value));
      assert.match(spoilt.outside ?? '', /too large or too small/);
      assert.equal('low' in spoilt || 'high' in spoilt, false);
      assert.equal(reckon({ ...working, value, outside: 'too long' }).outside, 'too long');
    }
  });

  it('keeps a whole range, and leaves out half of one or one without an end', () => {
    const whole = reckon({ ...working, low: 4, high: 6 });
    assert.deepEqual([whole.low, whole.high], [4, 6]);
    for (const [low, high] of [
      [4, undefined],
      [undefined, 6],
      [undefined, undefined],
      [4, Infinity],
      [-Infinity, 6],
      [Number.NaN, 6],
    ]) {
      const bare = reckon({ ...working, low, high });
      assert.equal('low' in bare || 'high' in bare, false, `${low} … ${high}`);
      assert.equal(bare.value, 5);
      assert.equal('outside' in bare, false);
    }
  });
});

describe('Complaints', () => {
  it('come in the order in which they were asked', () => {
    assert.equal(firstOf(undefined, 'one', 'two'), 'one');
    assert.equal(firstOf(undefined, undefined), undefined);
    assert.equal(firstOf(), undefined);
  });

  it('name what is not a measure', () => {
    const SAID: readonly (readonly [number, string | undefined, string | undefined])[] = [
      [Number.NaN, 'the depth is not a number', 'the depth is not a number'],
      [Infinity, 'the depth is not a number', 'the depth is not a number'],
      [1.1e12, 'the depth is larger than anything that is made', 'the depth is larger than anything that is made'],
      [1e12, undefined, undefined],
      [1, undefined, undefined],
      [1e-9, undefined, undefined],
      [0.9e-9, undefined, 'the depth must be more than nothing'],
      [0, undefined, 'the depth must be more than nothing'],
      [-1e-3, 'the depth is less than nothing', 'the depth is less than nothing'],
    ];
    for (const [number, orNothing, more] of SAID) {
      assert.equal(notAtLeastNothing('the depth', number), orNothing, `${number}`);
      assert.equal(notAboveNothing('the depth', number), more, `${number}`);
    }
  });
});

describe('An integral by numbers', () => {
  it('is the known one, between any ends and either way round', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        (from, to) => {
          const sine = integral(Math.cos, from, to);
          assert.ok(Math.abs(sine - (Math.sin(to) - Math.sin(from))) < 1e-12);
        },
      ),
    );
    near(
      integral((x) => x * x * x, 1, 3),
      20,
      1e-12,
    );
  });

  it('stands a slope without end at either end', () => {
    // The quarter circle and the root: upright where they begin.
    near(
      integral((x) => Math.sqrt(1 - x * x), 0, 1),
      Math.PI / 4,
      1e-12,
    );
    near(integral(Math.sqrt, 0, 4), 16 / 3, 1e-12);
  });
});

describe('A range through a formula', () => {
  it('asks the formula once where nothing is open, and at every corner where something is', () => {
    let asked = 0;
    const sum = (...values: number[]) => {
      asked++;
      return values.reduce((all, value) => all + value, 0);
    };
    const fixed = intervalOf({ value: 3 });
    const open = intervalOf({ value: 3, low: 2, high: 5 });
    assert.deepEqual(through(sum, fixed, open, open), { value: 9, low: 7, high: 13 });
    assert.equal(asked, 1 + 4);
    assert.deepEqual(ends(through(sum, fixed, fixed)), {});
  });

  it('never ends short of the value itself', () => {
    assert.deepEqual(intervalOf({ value: 3, low: 4, high: 5 }), { value: 3, low: 3, high: 5 });
    assert.deepEqual(intervalOf({ value: 6, low: 4, high: 5 }), { value: 6, low: 4, high: 6 });
  });
});
