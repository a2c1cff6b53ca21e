import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { coatVolume, FILMS, paintVolume } from '../../../server/trade/finish/finish.ts';
import { anyNumber, near, soundResult } from '../numbers.ts';

const kind = fc.constantFrom(...(Object.keys(FILMS) as (keyof typeof FILMS)[]));

describe('coats', () => {
  it('take what the spreading rate says, twice as much twice', () => {
    fc.assert(
      fc.property(
        kind,
        fc.double({ min: 1, max: 1e7, noNaN: true }),
        fc.integer({ min: 1, max: 9 }),
        (what, area, coats) => {
          const { dry, solids, landing } = FILMS[what];
          const made = coatVolume({ area, coats, kind: what });
          near(
            made.value,
            coats * paintVolume({ area, dry: dry.value, solids: solids.value, transfer: landing.value }).value,
          );
          near(coatVolume({ area, coats: 2 * coats, kind: what }).value, 2 * made.value);
          near(
            made.low!,
            coats * paintVolume({ area, dry: dry.low, solids: solids.high, transfer: landing.high }).value,
          );
          near(
            made.high!,
            coats * paintVolume({ area, dry: dry.high, solids: solids.low, transfer: landing.low }).value,
          );
        },
      ),
    );
  });

  it('stand any number', () => {
    fc.assert(
      fc.property(anyNumber, anyNumber, kind, (a, b, what) =>
        soundResult(coatVolume({ area: a, coats: b, kind: what })),
      ),
    );
    assert.ok(coatVolume({ area: -1, coats: 1, kind: 'paint' }).outside);
  });
});
