import assert from 'node:assert/strict';
import fc from 'fast-check';
import { figureValue, marked, modelFrom, PLATE } from '../support.ts';

/** The value of an expression, through a `let`. */
const reckoned = (expression: string): number => figureValue(modelFrom(`let it = ${expression}\n`), 'it');
const wrong = (expression: string): string[] => marked(modelFrom(`let it = ${expression}\n`).file.examine());

describe('arithmetic of measures', () => {
  it('reads every form of number and unit into the base unit', () => {
    const table: [string, number][] = [
      ['12 mm', 12],
      ['2.5 cm', 25],
      ['1 m', 1000],
      ['1 ft', 304.8],
      ['1/8 in', 3.175],
      ['2 1/2 in', 63.5],
      ['2½ in', 63.5],
      ['16"', 406.4],
      ['1 lb', 453.59237],
      ['1.5 h', 90],
      ['32 F', 0],
      ['212 F', 100],
      ['2.2 m2', 2_200_000],
      ['7850 kg/m3', 7.85],
    ];
    for (const [text, value] of table)
      assert.ok(Math.abs(reckoned(text) - value) < 1e-9, `${text} is ${reckoned(text)}, not ${value}`);
  });

  it('keeps inch and metric the same to the last digit', () => {
    assert.equal(reckoned('2 1/2 in - 63.5 mm'), 0);
    assert.equal(reckoned('1/3 in * 3 - 25.4 mm'), 0);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), fc.constantFrom(2, 4, 8, 16, 32, 64), (over, under) => {
        assert.equal(reckoned(`${over}/${under} in * ${under} - ${over} in`), 0);
      }),
      { numRuns: 200 },
    );
  });

  it('goes by floats where the exact fraction grows past all use', () => {
    const squares = ['let it0 = 1.001', ...Array.from({ length: 10 }, (_, i) => `let it${i + 1} = it${i} * it${i}`)];
    const squared = figureValue(modelFrom(`${squares.join('\n')}\n`), 'it10');
    assert.ok(Math.abs(squared / 1.001 ** 1024 - 1) < 1e-10, `${squared}`);
    // Fractions of which no two have a factor in common.
    const primes = [...Array(1300).keys()].filter(
      (n) => n > 1 && ![...Array(n).keys()].some((d) => d > 1 && n % d === 0),
    );
    const sum = primes.slice(0, 60).map((prime) => `1/${prime}`);
    const value = primes.slice(0, 60).reduce((total, prime) => total + 1 / prime, 0);
    assert.ok(Math.abs(reckoned(sum.join(' + ')) - value) < 1e-12);
    assert.equal(reckoned(`0.${'0'.repeat(99)}1 mm`), 1e-100);
    assert.ok(Math.abs(reckoned(`1${'0'.repeat(99)}/3${'0'.repeat(99)} mm`) - 1 / 3) < 1e-15);
    assert.equal(reckoned(`1.${'0'.repeat(99)} in`), 25.4);
  });

  it('follows the usual order of signs and brackets', () => {
    assert.equal(reckoned('2 mm + 3 mm * 4'), 14);
    assert.equal(reckoned('(2 mm + 3 mm) * 4'), 20);
    assert.equal(reckoned('10 mm - 3 mm - 2 mm'), 5);
    assert.equal(reckoned('12 mm / 4 / 3'), 1);
    assert.equal(reckoned('-3 mm + 5 mm'), 2);
    assert.ok(Math.abs(reckoned('585 mm + 2 * pi * 16 mm') - (585 + 32 * Math.PI)) < 1e-9);
  });

  it('knows roots, angles, the smaller and the larger, and rounding up', () => {
    assert.equal(reckoned('sqrt(16 mm2)'), 4);
    assert.equal(reckoned('sqrt(3 mm * 12 mm)'), 6);
    assert.ok(Math.abs(reckoned('100 mm * sin(30 deg)') - 50) < 1e-9);
    assert.equal(reckoned('min(3 mm, 1/8 in)'), 3);
    assert.equal(reckoned('max(3 mm, 1/8 in)'), 3.175);
    assert.equal(reckoned('round-up(41 mm, 5 mm)'), 45);
    assert.equal(reckoned('round-up(40 mm, 5 mm)'), 40);
  });

  it('marks a unit that does not fit, at the sign', () => {
    assert.deepEqual(wrong('3 mm + 4 deg'), ['unit-mismatch “+”']);
    assert.deepEqual(wrong('3 mm - 4'), ['unit-mismatch “-”']);
    assert.deepEqual(wrong('3 mm2 * 4 mm2'), ['unit-mismatch “*”']);
    assert.deepEqual(wrong('16 ga + 1 mm'), ['unit-mismatch “+”']);
    assert.deepEqual(wrong('sqrt(3 mm)'), ['unit-mismatch “sqrt(3 mm)”']);
    assert.deepEqual(wrong('max(3 mm, 2 deg)'), ['unit-mismatch “max(3 mm, 2 deg)”']);
  });

  it('marks what has no value', () => {
    assert.deepEqual(wrong('3 mm / 0'), ['number-impossible “0”']);
    assert.deepEqual(wrong('3 mm / (2 - 2)'), ['number-impossible “(2 - 2)”']);
    assert.deepEqual(wrong('sqrt(0 mm2 - 4 mm2)'), ['number-impossible “sqrt(0 mm2 - 4 mm2)”']);
    assert.deepEqual(wrong('nothing-so-named + 3 mm'), ['unknown-name “nothing-so-named”']);
  });

  it('asks for the unit that is missing, and for a count without one', () => {
    const model = modelFrom(`${PLATE}piece cop\n  from plate\n  dome 200, deep 50 deg\n  make 2 mm\n`);
    assert.deepEqual(marked(model.file.examine()), [
      'unit-missing “200”',
      'unit-mismatch “50 deg”',
      'unit-mismatch “2 mm”',
    ]);
  });

  it('marks numbers that cannot be made', () => {
    const model = modelFrom(
      `${PLATE}piece cop\n  from plate\n  make 1000000000000\npiece lid\n  from plate\n  disc 0 mm\n  make 2.5\n`,
    );
    assert.deepEqual(marked(model.file.examine()), [
      'count-too-large “1000000000000”',
      'number-impossible “0 mm”',
      'number-impossible “2.5”',
    ]);
  });

  it('takes ounces on leather only and gauge on metal only', () => {
    const found = (line: string) => marked(modelFrom(`material it\n  ${line}\n`).file.examine());
    assert.deepEqual(found('veg-tan leather 7 oz'), []);
    assert.deepEqual(found('mild steel 16 ga'), []);
    assert.deepEqual(found('mild steel 7 oz'), ['unit-mismatch “7 oz”']);
    assert.deepEqual(found('veg-tan leather 16 ga'), ['unit-mismatch “16 ga”']);
  });
});
