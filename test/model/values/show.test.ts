import assert from 'node:assert/strict';
import fc from 'fast-check';
import { shown } from '../../../server/model/values/figure.ts';
import { inchFraction, millimetres, show, trim } from '../../../server/model/values/show.ts';

describe('how a number is shown', () => {
  it('rounds a half up, whatever the float makes of it', () => {
    assert.deepEqual([trim(6.35, 1), trim(3.175, 2), trim(-6.35, 1), trim(1.005, 2)], ['6.4', '3.18', '−6.4', '1.01']);
  });

  it('keeps the hundredth that a smith wrote', () => {
    const figure = (value: number, basis: 'from the spec' | 'geometry') =>
      shown({ value, unit: 'mm', basis, shape: {} }, 'mm');
    assert.equal(figure(19.05, 'from the spec'), '19.05 mm');
    assert.equal(figure(19.05, 'geometry'), '19.1 mm');
    assert.equal(figure(585 + 32 * Math.PI, 'from the spec'), '685.5 mm');
    assert.equal(millimetres(6.35, 1), '6.35');
  });

  it('gives a grain in micrometres, in inch builds too', () => {
    for (const system of ['mm', 'in 1/32'] as const)
      assert.equal(show(0.0585, 'mm', system, { grain: true }), '58.5 µm');
  });

  it('writes no number that goes on for ever, and none with an exponent of a machine', () => {
    assert.equal(show(1.26e40, 'mm'), '1.3 × 10⁴⁰ mm');
    assert.equal(trim(-1e160, 1), '−1 × 10¹⁶⁰');
    assert.equal(inchFraction(1e200), '3.9 × 10¹⁹⁸ in');
    const units = [
      'mm',
      'mm2',
      'mm3',
      'g',
      'deg',
      'min',
      'N',
      'MPa',
      'C',
      'count',
      'ratio',
      'percent',
      'money',
    ] as const;
    fc.assert(
      fc.property(fc.double(), fc.constantFrom(...units), fc.constantFrom('mm', 'in 1/32'), (value, unit, system) => {
        assert.doesNotMatch(show(value, unit, system), /NaN|Infinity|e[+-]|\d{20}/);
      }),
    );
  });

  it('is never off by more than half of its last digit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e5, max: 1e5, noNaN: true }),
        fc.integer({ min: 0, max: 3 }),
        (value, decimals) => {
          const back = Number(trim(value, decimals).replace('−', '-'));
          assert.ok(Math.abs(back - value) <= 0.5 * 10 ** -decimals + 1e-6);
        },
      ),
    );
  });
});
