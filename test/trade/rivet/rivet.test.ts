import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import {
  holeFor,
  jointStrength,
  lengthLadders,
  nearestLengthUp,
  rivetHead,
  rivetLengthByRule,
  rivetLengthByVolume,
  rivetMass,
} from '../../../server/trade/rivet/rivet.ts';
import { near } from '../numbers.ts';

const shank = fc.double({ min: 1, max: 10, noNaN: true });
const stack = fc.double({ min: 0, max: 20, noNaN: true });

describe('Rivet lengths', () => {
  it('a longer stack never needs a shorter rivet', () => {
    fc.assert(
      fc.property(
        stack,
        stack,
        shank,
        fc.constantFrom('domed' as const, 'flat' as const, 'flush' as const),
        (one, other, d, head) => {
          const length = (grip: number) => rivetLengthByVolume({ stack: grip, shank: d, hole: d * 1.05, head }).value;
          assert.ok(length(Math.min(one, other)) <= length(Math.max(one, other)));
          assert.ok(
            rivetLengthByRule({ stack: Math.min(one, other), shank: d }).value <=
              rivetLengthByRule({ stack: Math.max(one, other), shank: d }).value,
          );
        },
      ),
    );
  });

  it('a wider hole never needs a shorter rivet, and a hole smaller than the shank is refused', () => {
    const length = (hole: number) => rivetLengthByVolume({ stack: 3, shank: 4, hole, head: 'domed' });
    assert.ok(length(4.4).value > length(4.2).value);
    assert.match(length(3.9).outside ?? '', /smaller/);
  });

  it('a flush head in a stack thinner than its sink is refused', () => {
    assert.match(rivetLengthByVolume({ stack: 1.5, shank: 4, hole: 4.1, head: 'flush' }).outside ?? '', /sink/);
  });

  it('keep the volume: shank bought equals hole and head', () => {
    fc.assert(
      fc.property(stack, shank, (grip, d) => {
        const hole = d + 0.2;
        const bought = rivetLengthByVolume({ stack: grip, shank: d, hole, head: 'flat' }).value * (Math.PI / 4) * d * d;
        const used = (Math.PI / 4) * (hole * hole * grip + (1.5 * d) ** 2 * 0.5 * d);
        near(bought, used);
      }),
    );
  });

  it('are bought at the next rung up, or not at all', () => {
    for (const system of ['in', 'mm'] as const) {
      const { lengths } = lengthLadders[system];
      assert.deepEqual(
        lengths,
        [...lengths].sort((a, b) => a - b),
      );
      for (const rung of lengths) assert.equal(nearestLengthUp(rung, system), rung);
      assert.equal(nearestLengthUp((lengths[3] as number) + 0.01, system), lengths[4]);
      assert.equal(nearestLengthUp(1000, system), undefined);
      assert.equal(nearestLengthUp(Number.NaN, system), undefined);
    }
    near(nearestLengthUp(7.5, 'in') ?? 0, 25.4 * (5 / 16));
  });
});

describe('Rivet heads', () => {
  it('grow with the shank, between the rows and beyond them', () => {
    fc.assert(
      fc.property(
        shank,
        shank,
        fc.constantFrom('domed' as const, 'flat' as const, 'pan' as const, 'countersunk' as const, 'tinners' as const),
        (one, other, style) => {
          const [less, more] = [Math.min(one, other), Math.max(one, other)];
          assert.ok(rivetHead(style, less).diameter.value <= rivetHead(style, more).diameter.value + 1e-9);
        },
      ),
    );
  });

  it('read between rows and say when they go beyond them', () => {
    near(rivetHead('domed', 4.5).diameter.value, (7 + 8.8) / 2);
    near(rivetHead('domed', 10).diameter.value, 17.5);
    assert.match(rivetHead('domed', 10).diameter.note ?? '', /Beyond the table/);
    assert.doesNotMatch(rivetHead('domed', 4).diameter.note ?? '', /Beyond the table/);
  });
});

describe('Rivet holes', () => {
  it('are never smaller than the shank, from 1 to 10 mm', () => {
    fc.assert(
      fc.property(shank, (d) => {
        const hole = holeFor(d);
        assert.equal(hole.outside, undefined);
        assert.ok(hole.value > d && (hole.low ?? hole.value) > 0);
      }),
    );
  });

  it('name the drill of an inch rivet', () => {
    assert.match(holeFor(25.4 / 8).note ?? '', /#30/);
    assert.equal(holeFor(3.1).note, undefined);
    assert.ok(holeFor(14).outside !== undefined);
  });
});

describe('Joints', () => {
  const joint = { shank: 4, thickness: [2, 1.2], tensile: 300, shear: 250, pitch: 30, edge: 12, hole: 4.2 };

  it('go by the weakest plate and the least of the four ways', () => {
    const one = jointStrength(joint);
    assert.equal(one.bearing.value, jointStrength({ ...joint, thickness: [1.2] }).bearing.value);
    assert.equal(
      one.governing.value,
      Math.min(one.shear.value, one.bearing.value, one.tearing.value, one.shearOut.value),
    );
    // A thin plate of strong metal may be the stronger one.
    assert.equal(jointStrength({ ...joint, tensile: [150, 600] }).tearing.value, (30 - 4.2) * 2 * 150);
  });

  it('bear in a range, 1.6 to 2 times the tensile, unless what they bear is given', () => {
    const { bearing } = jointStrength(joint);
    assert.deepEqual([bearing.low, bearing.high], [4 * 1.2 * 1.6 * 300, 4 * 1.2 * 2 * 300]);
    const given = jointStrength({ ...joint, bearing: 500 }).bearing;
    assert.deepEqual([given.value, given.low, given.high], [4 * 1.2 * 500, undefined, undefined]);
  });

  it('are refused where the hole breaks out', () => {
    assert.match(jointStrength({ ...joint, edge: 2 }).governing.outside ?? '', /edge/);
    assert.match(jointStrength({ ...joint, pitch: 4 }).governing.outside ?? '', /holes/);
  });
});

describe('Rivet mass', () => {
  it('is the shank’s and the head’s', () => {
    const head = ((Math.PI * 2.4) / 6) * (3 * 3.5 ** 2 + 2.4 ** 2);
    near(
      rivetMass({ shank: 4, length: 10, head: 'domed', density: 8.5 }).value,
      ((Math.PI * 4 * 10 + head) * 8.5) / 1000,
    );
  });

  it('counts a countersunk head within the length', () => {
    const cone = ((Math.PI * 2) / 12) * (49 + 28 + 16);
    near(
      rivetMass({ shank: 4, length: 10, head: 'countersunk', density: 8 }).value,
      ((Math.PI * 4 * 8 + cone) * 8) / 1000,
    );
  });
});
