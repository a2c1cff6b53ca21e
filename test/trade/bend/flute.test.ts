import assert from 'node:assert/strict';
import fc from 'fast-check';
import { fluteSection } from '../../../server/trade/bend/flute.ts';
import { anyNumber, soundResult } from '../numbers.ts';

describe('flutes', () => {
  it('a half round flute is π/2 of its width over, on half its width as radius', () => {
    const { way, strain, radius } = fluteSection({ deep: 7, wide: 14 });
    assert.ok(Math.abs(way.value - 7 * Math.PI) < 1e-9);
    assert.ok(Math.abs(radius.value - 7) < 1e-9);
    assert.ok(Math.abs(strain.high! - Math.log(Math.PI / 2)) < 1e-9 && strain.low === 0);
  });

  it('has the radius of its arc, and of the end of its oval where it is deeper than half round', () => {
    assert.ok(Math.abs(fluteSection({ deep: 3, wide: 12 }).radius.value - 7.5) < 1e-9);
    assert.ok(Math.abs(fluteSection({ deep: 10, wide: 14 }).radius.value - 4.9) < 1e-9);
  });

  it('strains by the way over it, and says so', () => {
    const { way, strain } = fluteSection({ deep: 3, wide: 12 });
    assert.ok(Math.abs(strain.value - Math.log(way.value / 12)) < 1e-12);
    assert.equal(strain.high, strain.value);
    assert.match(strain.worked, new RegExp(`ln\\(${way.value.toFixed(1)}\\d*/12\\)`));
  });

  it('a flat one costs next to nothing: s ≈ w + 8h²/3w', () => {
    const { way } = fluteSection({ deep: 0.5, wide: 20 });
    assert.ok(Math.abs(way.value - (20 + (8 * 0.25) / 60)) < 1e-3);
  });

  it('deeper is longer over and tighter', () => {
    const measure = fc.double({ min: 1, max: 30, noNaN: true });
    fc.assert(
      fc.property(measure, measure, (deep, wide) => {
        const [shallow, deeper] = [fluteSection({ deep, wide }), fluteSection({ deep: deep * 1.2, wide })];
        assert.ok(deeper.way.value > shallow.way.value && deeper.way.value > wide);
        if (deep > wide / 2) assert.ok(deeper.radius.value < shallow.radius.value);
      }),
    );
  });

  it('stand any number', () => {
    fc.assert(
      fc.property(anyNumber, anyNumber, (deep, wide) => {
        for (const figure of Object.values(fluteSection({ deep, wide }))) soundResult(figure);
      }),
    );
  });
});
