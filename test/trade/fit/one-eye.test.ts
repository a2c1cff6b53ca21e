import assert from 'node:assert/strict';
import fc from 'fast-check';
import { fieldOfView, oneEyeView } from '../../../server/trade/fit/view.ts';
import { anyNumber, soundResult } from '../numbers.ts';

describe('the view of one eye', () => {
  it('by hand: a slot of 52 mm, 34 mm from the middle, 40 mm before an eye 31.5 mm from it', () => {
    const { total, outward } = oneEyeView({ wide: 52, eyes: 63, distance: 40, offset: 34 });
    // atan(28.5/40) = 35.47°, atan(23.5/40) = 30.43°
    assert.ok(Math.abs(outward.value - 35.47) < 0.01);
    assert.ok(Math.abs(total.value - 65.9) < 0.01);
  });

  it('through a slot straight before the eye is as wide as a slot before eyes that lie together', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 60, noNaN: true }),
        fc.double({ min: 20, max: 80, noNaN: true }),
        fc.double({ min: 50, max: 75, noNaN: true }),
        (wide, distance, eyes) => {
          const one = oneEyeView({ wide, eyes, distance, offset: eyes / 2 }).total.value;
          const together = fieldOfView({ wide, high: 10, eyes: 0, distance }).total.value;
          assert.ok(Math.abs(one - together) < 1e-9);
        },
      ),
    );
  });

  it('stands any number', () => {
    fc.assert(
      fc.property(anyNumber, anyNumber, anyNumber, anyNumber, (wide, eyes, distance, offset) => {
        for (const figure of Object.values(oneEyeView({ wide, eyes, distance, offset }))) soundResult(figure);
      }),
    );
  });
});
