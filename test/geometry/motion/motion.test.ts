import assert from 'node:assert/strict';
import fc from 'fast-check';
import { balancedInSteps, type Tie } from '../../../server/geometry/motion/balance.ts';
import { bestMotion, eigen, type Pairs } from '../../../server/geometry/motion/match.ts';
import {
  AT_REST,
  after,
  type Motion,
  moved,
  turnAbout,
  turned,
  undone,
} from '../../../server/geometry/motion/motion.ts';
import { apart, type Vector } from '../../../server/geometry/surface/vector.ts';
import { atOnce } from '../../../server/incremental/steps.ts';

const number = (most: number) => fc.double({ min: -most, max: most, noNaN: true, noDefaultInfinity: true });
const vector = (most: number) => fc.tuple(number(most), number(most), number(most));
const motion: fc.Arbitrary<Motion> = fc
  .tuple(vector(1), number(Math.PI), vector(2000))
  .filter(([axis]) => Math.hypot(...axis) > 0.01)
  .map(([axis, angle, shift]) => ({ turn: turnAbout(axis, angle), shift }));

/** Numbers that come out the same each time, evenly between 0 and 1 (mulberry32). */
function dice(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
const bell = (next: () => number) => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());

const places = (all: readonly (readonly [Vector, Vector])[]): Pairs => ({
  places: all.map(([from, to]) => ({ from, to, weight: 1 })),
  directions: [],
});

/** A row of stations round a part of a level oval. */
const row = (count: number): Vector[] =>
  Array.from({ length: count }, (_, i) => {
    const at = -1.3 + (2.6 * i) / (count - 1);
    return [105 * Math.sin(at), 130 * Math.cos(at), 0];
  });

describe('rigid motions', () => {
  it('undo each other and keep lengths', () => {
    fc.assert(
      fc.property(motion, motion, vector(500), vector(500), (one, two, a, b) => {
        assert.ok(apart(moved(undone(one), moved(one, a)), a) < 1e-9);
        assert.ok(apart(moved(after(one, two), a), moved(one, moved(two, a))) < 1e-9);
        assert.ok(Math.abs(apart(moved(one, a), moved(one, b)) - apart(a, b)) < 1e-9);
      }),
    );
  });
});

describe('the best motion', () => {
  it('is found again to a millionth of a millimetre, whatever it was', () => {
    fc.assert(
      fc.property(motion, fc.integer({ min: 3, max: 40 }), (was, count) => {
        const found = bestMotion(places(row(count).map((from) => [from, moved(was, from)])))!;
        for (const [x, y, z] of [
          [0, 0, 0],
          [300, 0, 0],
          [0, -300, 0],
          [0, 0, 300],
        ] as const)
          assert.ok(apart(moved(found, [x, y, z]), moved(was, [x, y, z])) < 1e-6);
      }),
    );
  });

  it('of a straight row is open without a direction, and found with one', () => {
    const was: Motion = { turn: turnAbout([1, 2, 3], 1.1), shift: [4, 5, 6] };
    const straight = [0, 20, 40, 60].map((x): [Vector, Vector] => [[x, 0, 0], moved(was, [x, 0, 0])]);
    assert.equal(bestMotion(places(straight)), undefined);
    const out: Vector = [0, 0, 1];
    const found = bestMotion({
      ...places(straight),
      directions: [{ from: out, to: turned(was, out), weight: 25 }],
    })!;
    assert.ok(apart(moved(found, [10, 20, 30]), moved(was, [10, 20, 30])) < 1e-9);
  });

  it('is never a mirror image: of a left hand and a right one the best turn is taken', () => {
    const left: Vector[] = [
      [0, 0, 0],
      [100, 0, 0],
      [0, 60, 0],
      [0, 0, 30],
    ];
    const found = bestMotion(places(left.map((from): [Vector, Vector] => [from, [-from[0], from[1], from[2]]])))!;
    const [a, b, c] = found.turn;
    const det =
      a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
    assert.ok(Math.abs(det - 1) < 1e-12);
  });

  it('leaves of noise what it should: σ² for each of 3 n − 6 freedoms, and the middle off by σ √(3 ÷ n)', () => {
    const [sigma, count, times] = [0.4, 15, 600];
    const next = dice(7);
    let [left, off] = [0, 0];
    for (let time = 0; time < times; time++) {
      const was: Motion = { turn: turnAbout([next(), next(), next()], 3 * next()), shift: [next(), 90 * next(), 5] };
      const from = row(count);
      const noise = (): number => sigma * bell(next);
      const all = from.map((point): [Vector, Vector] => {
        const [x, y, z] = moved(was, point);
        return [point, [x + noise(), y + noise(), z + noise()]];
      });
      const found = bestMotion(places(all))!;
      left += all.reduce((sum, [point, to]) => sum + apart(moved(found, point), to) ** 2, 0);
      const middle = from.reduce<Vector>((sum, p) => [sum[0] + p[0] / count, sum[1] + p[1] / count, 0], [0, 0, 0]);
      off += apart(moved(found, middle), moved(was, middle)) ** 2;
    }
    // Of so many tries the mean of squares is good to a few parts in a hundred.
    assert.ok(Math.abs(left / times / (sigma ** 2 * (3 * count - 6)) - 1) < 0.04, `${left / times}`);
    assert.ok(Math.abs(off / times / ((sigma ** 2 * 3) / count) - 1) < 0.12, `${off / times}`);
  });

  it('rests on the eigenvectors of a symmetric matrix', () => {
    fc.assert(
      fc.property(fc.array(number(10), { minLength: 10, maxLength: 10 }), (n) => {
        const at = (i: number, j: number) => n[(Math.max(i, j) * (Math.max(i, j) + 1)) / 2 + Math.min(i, j)]!;
        const matrix = [0, 1, 2, 3].map((i) => [0, 1, 2, 3].map((j) => at(i, j)));
        const { values, vectors } = eigen(matrix);
        for (let k = 0; k < 4; k++)
          for (let i = 0; i < 4; i++) {
            const product = matrix[i]!.reduce((sum, each, j) => sum + each * vectors[j]![k]!, 0);
            assert.ok(Math.abs(product - values[k]! * vectors[i]![k]!) < 1e-10);
          }
      }),
    );
  });
});

describe('poses that are balanced', () => {
  /** Things round a ring, each tied to the next, the last to the first. */
  const ring = (poses: readonly Motion[], off: (at: Vector) => Vector = (at) => at): Tie[] =>
    poses.map((_, one) => {
      const other = (one + 1) % poses.length;
      const about: Vector = [200 * one, 30 * one * one, 10];
      const points = row(6).map((p): Vector => [p[0] + about[0], p[1] + about[1], p[2] + about[2]]);
      return {
        one,
        other,
        pairs: places(points.map((p) => [moved(undone(poses[one]!), p), off(moved(undone(poses[other]!), p))])),
      };
    });

  it('find a ring that closes again, from a start that is off', () => {
    fc.assert(
      fc.property(
        fc.array(motion, { minLength: 2, maxLength: 6 }),
        fc.array(vector(0.15), { minLength: 6, maxLength: 6 }),
        (rest, offs) => {
          const was = [AT_REST, ...rest];
          const start = was.map((pose, i) =>
            i === 0
              ? pose
              : after(
                  {
                    turn: turnAbout(offs[i - 1]!, Math.hypot(...offs[i - 1]!)),
                    shift: offs[i - 1]!.map((x) => 40 * x) as unknown as Vector,
                  },
                  pose,
                ),
          );
          const found = atOnce(balancedInSteps(start, ring(was)));
          for (const [i, pose] of found.entries())
            assert.ok(apart(moved(pose, [50, 60, 70]), moved(was[i]!, [50, 60, 70])) < 1e-6, `${i}`);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('share what does not close: three things in line, whose last gap is 3 mm too short, take 1 mm each', () => {
    const block: Vector[] = [
      [0, 0, 0],
      [0, 10, 0],
      [0, 0, 10],
      [10, 0, 0],
    ];
    const tie = (one: number, other: number, apartBy: number): Tie => ({
      one,
      other,
      pairs: places(block.map((p) => [[p[0] + apartBy, p[1], p[2]], p])),
    });
    const at = (x: number): Motion => ({ ...AT_REST, shift: [x, 0, 0] });
    const found = atOnce(balancedInSteps([at(0), at(100), at(200)], [tie(0, 1, 100), tie(1, 2, 100), tie(0, 2, 197)]));
    assert.ok(Math.abs(found[1]!.shift[0] - 99) < 1e-9 && Math.abs(found[2]!.shift[0] - 198) < 1e-9);
  });
});
