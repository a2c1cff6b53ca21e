import assert from 'node:assert/strict';
import fc from 'fast-check';
import { arcs } from '../../../server/output/documents/arcs.ts';
import { onBench } from '../../../server/trade/blank/wrap.ts';

describe('the arcs of a sector on a paper', () => {
  it('are radii as far as a trammel strikes them, and chord and rise beyond', () => {
    assert.equal(arcs([404, 335], 45, 'mm'), 'radius 404 mm and 335 mm');
    assert.equal(arcs([404, 0], 45, 'mm'), 'radius 404 mm');
    assert.equal(arcs([1000, 600], 60, 'mm'), 'chord 1000 mm with a rise of 134 mm (radius 1000 mm) and radius 600 mm');
    assert.equal(arcs([1016], 60, 'in 1/32'), 'chord 40 in with a rise of 5 11/32 in (radius 40 in)');
    assert.equal(arcs([1000], 200, 'mm'), 'radius 1000 mm');
  });

  it('have the radius that their chord and their rise give by the theorem of crossing chords', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 601, max: 1e5, noNaN: true }),
        fc.double({ min: 0.5, max: 179, noNaN: true }),
        (r, angle) => {
          const { chord, rise } = onBench(r, angle)!;
          assert.ok(Math.abs(chord.value ** 2 / 4 / rise.value + rise.value - 2 * r) < 1e-6 * r);
        },
      ),
    );
  });
});
