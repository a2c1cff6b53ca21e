import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import {
  barrelDiameter,
  knuckleDevelopment,
  knuckleWidth,
  notchDepth,
  pinLength,
} from '../../../server/trade/hinge/hinge.ts';
import { balanceAngle, roomAtPivots, weightInFront } from '../../../server/trade/hinge/swing.ts';
import { anyNumber, length, near, resultsIn, soundResult, thickness } from '../numbers.ts';

const pin = fc.double({ min: 1, max: 8, noNaN: true });

describe('hinges', () => {
  it('curled all the way round are as long as the circle', () => {
    fc.assert(
      fc.property(pin, thickness, (d, t) =>
        near(
          knuckleDevelopment({ pin: d, thickness: t, curl: 360, clearance: 0, kFactor: 0.5 }).value,
          Math.PI * (d + t),
        ),
      ),
    );
  });

  it('turn in their notch: no point of the barrel lies in the other plate', () => {
    fc.assert(
      fc.property(pin, thickness, (d, t) => {
        const inner = (d + 0.1) / 2;
        const deep = notchDepth({ pin: d, thickness: t, play: 0 }).value;
        let furthest = 0;
        for (let turned = 0; turned < 360; turned += 0.05) {
          const [x, y] = [Math.cos((turned * Math.PI) / 180), Math.sin((turned * Math.PI) / 180)];
          // Where the barrel passes the plate, which lies from its inner to its outer face.
          if (y * (inner + t) >= inner && y * (inner + t) <= inner + t) furthest = Math.max(furthest, -x * (inner + t));
        }
        assert.ok(furthest <= deep + 1e-9 && furthest > deep - 0.05, `${furthest} of ${deep}`);
      }),
    );
  });

  it('fill their width with knuckles and gaps', () => {
    fc.assert(
      fc.property(length, fc.integer({ min: 2, max: 15 }), (wide, knuckles) => {
        fc.pre(wide > 10);
        const { value } = knuckleWidth({ wide, knuckles });
        near(knuckles * value + (knuckles - 1) * 0.15, wide);
      }),
    );
  });

  it('take more metal for a thicker pin and a thicker plate', () => {
    fc.assert(
      fc.property(pin, thickness, (d, t) => {
        const one = knuckleDevelopment({ pin: d, thickness: t }).value;
        assert.ok(knuckleDevelopment({ pin: d + 0.5, thickness: t }).value > one);
        assert.ok(knuckleDevelopment({ pin: d, thickness: t + 0.2 }).value > one);
        assert.ok(barrelDiameter({ pin: d, thickness: t }).value > d + 2 * t);
        assert.ok(pinLength({ wide: 40, pin: d }).value > pinLength({ wide: 40, pin: d, heads: 1 }).value);
      }),
    );
  });

  it('of one knuckle are none', () => {
    assert.ok(knuckleWidth({ wide: 40, knuckles: 1 }).outside);
    assert.ok(knuckleWidth({ wide: 1, knuckles: 30 }).outside);
  });

  it('stand any number', () => {
    fc.assert(
      fc.property(anyNumber, anyNumber, anyNumber, anyNumber, (a, b, c, d) => {
        const made = [
          knuckleDevelopment({ pin: a, thickness: b }),
          knuckleDevelopment({ pin: a, thickness: b, curl: c, kFactor: d }),
          knuckleWidth({ wide: a, knuckles: b, gap: c }),
          knuckleWidth({ wide: a, knuckles: 5 }),
          pinLength({ wide: a, pin: b }),
          pinLength({ wide: a, pin: b, heads: c }),
          barrelDiameter({ pin: a, thickness: b, clearance: c }),
        ];
        for (const figure of resultsIn(made)) soundResult(figure);
      }),
    );
  });

  it('carry weight round their pivots: in front below the balance, behind above it', () => {
    near(weightInFront({ radius: 80, rise: -20, angle: 0 }, '').value, 75.175_41, 1e-5);
    near(weightInFront({ radius: 80, rise: -20, angle: 110 }, '').value + 1, 1);
    near(balanceAngle({ rise: -20 }, '').value, 110);
    near(roomAtPivots({ apart: 5, one: 1.5, other: 1, note: '' }).value, 3.75);
    fc.assert(
      fc.property(anyNumber, anyNumber, anyNumber, (a, b, c) => {
        const made = [
          weightInFront({ radius: a, rise: b, angle: c }, ''),
          balanceAngle({ rise: a }, ''),
          roomAtPivots({ apart: a, one: b, other: c, note: '' }),
        ];
        for (const figure of resultsIn(made)) soundResult(figure);
      }),
    );
  });
});
