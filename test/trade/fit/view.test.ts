import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { flareStrain } from '../../../server/trade/bend/bend.ts';
import { rollStrain } from '../../../server/trade/edge/edge.ts';
import { fieldOfView } from '../../../server/trade/fit/view.ts';
import { anyNumber, length, near, resultsIn, soundResult, thickness } from '../numbers.ts';

const part = (max: number) => fc.double({ min: 1, max, noNaN: true });

describe('the field of view', () => {
  it('is wider through a wider slot, narrower from farther back, and never past the nose but outward', () => {
    fc.assert(
      fc.property(part(300), part(60), part(80), part(120), part(50), (wide, high, eyes, distance, more) => {
        const at = fieldOfView({ wide, high, eyes, distance });
        const back = fieldOfView({ wide, high, eyes, distance: distance + more });
        const wider = fieldOfView({ wide: wide + more, high: high + more, eyes, distance });
        for (const way of ['total', 'both', 'high'] as const) {
          assert.ok(back[way].value <= at[way].value + 1e-9 || (way === 'both' && wide < eyes));
          assert.ok(wider[way].value >= at[way].value - 1e-9);
          assert.ok(at[way].value <= 180);
        }
        assert.ok(at.both.value <= at.total.value + 1e-9);
      }),
    );
  });

  it('of a slot level with the eyes is even above and below', () => {
    fc.assert(
      fc.property(part(300), part(60), part(80), part(120), part(50), (wide, high, eyes, distance, above) =>
        near(
          fieldOfView({ wide, high, eyes, distance, above }).high.value,
          fieldOfView({ wide, high, eyes, distance, above: -above }).high.value,
          1e-8,
        ),
      ),
    );
  });
});

describe('strain of turned edges', () => {
  it('is nothing where nothing is turned, grows with the angle and does not depend on scale', () => {
    fc.assert(
      fc.property(
        length,
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: 0.01, max: 0.5, noNaN: true }),
        (radius, turned, w) => {
          near(flareStrain({ radius, taper: 0, turned: 0, width: w * radius }).value, 0);
          const one = flareStrain({ radius, taper: 10, turned, width: w * radius });
          const two = flareStrain({ radius: 2 * radius, taper: 10, turned, width: 2 * w * radius });
          assert.ok(Math.abs(one.value - two.value) < 1e-9);
          assert.ok(flareStrain({ radius, taper: 10, turned: turned + 5, width: w * radius }).value >= one.value);
        },
      ),
    );
  });

  it('of a roll stretches outward and gathers inward, less on a flatter edge', () => {
    fc.assert(
      fc.property(
        thickness,
        fc.double({ min: 1, max: 10, noNaN: true }),
        fc.double({ min: 30, max: 500, noNaN: true }),
        (t, hollow, radius) => {
          const out = rollStrain({ hollow, thickness: t, radius, outward: true });
          const into = rollStrain({ hollow, thickness: t, radius, outward: false });
          assert.ok(out.value > 0 && into.value < 0);
          assert.ok(rollStrain({ hollow, thickness: t, radius: 2 * radius, outward: true }).value < out.value);
          near(Math.expm1(out.value), -Math.expm1(into.value), 1e-9);
        },
      ),
    );
  });
});

describe('any number at all', () => {
  it('leaves no exception and no number without its reason', () => {
    fc.assert(
      fc.property(anyNumber, anyNumber, anyNumber, anyNumber, anyNumber, (a, b, c, d, e) => {
        const made = [
          fieldOfView({ wide: a, high: b, eyes: c, distance: d, above: e }),
          flareStrain({ radius: a, taper: b, turned: c, width: d }),
          rollStrain({ hollow: a, thickness: b, radius: c, outward: true }),
          rollStrain({ hollow: a, thickness: b, radius: c, outward: false }),
        ];
        for (const figure of resultsIn(made)) soundResult(figure);
      }),
    );
  });
});
