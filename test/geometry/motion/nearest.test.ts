import assert from 'node:assert/strict';
import {
  AT_REST,
  after,
  type Motion,
  moved,
  shiftedBy,
  turnAbout,
  turnedAbout,
} from '../../../server/geometry/motion/motion.ts';
import { crossingsBetween, nearestBetween, nearestTo } from '../../../server/geometry/motion/nearest.ts';
import { clearOf, sweptInSteps } from '../../../server/geometry/motion/sweep.ts';
import { type Mesh, MeshTree } from '../../../server/geometry/motion/tree.ts';
import { apart, type Vector } from '../../../server/geometry/surface/vector.ts';
import { atOnce } from '../../../server/incremental/steps.ts';

/** Numbers that only look random, from 0 to 1. */
function* chance(seed: number): Generator<number, never> {
  for (let state = seed; ; ) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    yield state / 2 ** 32;
  }
}

/** A strip that is bent two ways: columns and rows of triangles over x and y, with some height above them. */
function plate(wide: number, long: number, parts: number, high: (x: number, y: number) => number): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (let j = 0; j <= parts; j++)
    for (let i = 0; i <= parts; i++) {
      const [x, y] = [wide * (i / parts - 0.5), long * (j / parts - 0.5)];
      positions.push(x, y, high(x, y));
      if (i === parts || j === parts) continue;
      const at = j * (parts + 1) + i;
      triangles.push(at, at + 1, at + parts + 2, at, at + parts + 2, at + parts + 1);
    }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

const treeOf = ({ positions, triangles }: Mesh): MeshTree => new MeshTree(positions, triangles);

/** Points of a mesh so near to each other that none of it is further than `near` from one. */
function sampled({ positions, triangles }: Mesh, motion: Motion, near: number): Vector[] {
  const found: Vector[] = [];
  const corner = (i: number): Vector => moved(motion, [...positions.subarray(3 * i, 3 * i + 3)] as unknown as Vector);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [corner(triangles[t]!), corner(triangles[t + 1]!), corner(triangles[t + 2]!)];
    const parts = Math.ceil(Math.max(apart(a, b), apart(b, c), apart(c, a)) / near);
    for (let i = 0; i <= parts; i++)
      for (let j = 0; j <= parts - i; j++) {
        const [u, v] = [i / parts, j / parts];
        found.push([0, 1, 2].map((k) => a[k]! + u * (b[k]! - a[k]!) + v * (c[k]! - a[k]!)) as unknown as Vector);
      }
  }
  return found;
}

const leastOf = (one: readonly Vector[], other: readonly Vector[]): number =>
  one.reduce((best, a) => Math.min(best, nearTo(a, other)), Number.POSITIVE_INFINITY);

const nearTo = (a: Vector, all: readonly Vector[]): number => {
  let best = Number.POSITIVE_INFINITY;
  for (const b of all) best = Math.min(best, apart(a, b));
  return best;
};

/** The least distance of any two points of two meshes, by samples that lie 0.4 mm apart where it matters. */
function leastBySamples(one: Mesh, other: Mesh, motion: Motion): number {
  const [coarse, its] = [sampled(one, AT_REST, COARSE), sampled(other, motion, COARSE)];
  const rough = leastOf(coarse, its);
  // Nearer than this only crossings are looked at.
  if (rough < COARSE) return rough;
  const within = rough + COARSE;
  const fine = sampled(one, AT_REST, STEP).filter((point) => nearTo(point, its) < within);
  const itsFine = sampled(other, motion, STEP).filter((point) => nearTo(point, coarse) < within);
  return leastOf(fine, itsFine);
}
const COARSE = 2;
const STEP = 0.4;

describe('how near two meshes come', () => {
  it('is what dense sampling finds, of 500 pairs of bent plates anyhow placed', () => {
    const next = chance(7);
    const random = (from: number, to: number) => from + (to - from) * next.next().value;
    let [touching, free] = [0, 0];
    for (let n = 0; n < 500; n++) {
      const bent = () => {
        const [p, q, r] = [random(-0.03, 0.03), random(-0.03, 0.03), random(-0.03, 0.03)];
        return plate(random(5, 14), random(5, 14), 3, (x, y) => p * x * x + q * y * y + r * x * y);
      };
      const [one, other] = [bent(), bent()];
      const away: Vector = [random(-8, 8), random(-8, 8), random(-8, 8)];
      const motion = after(shiftedBy(away), {
        turn: turnAbout([random(-1, 1), random(-1, 1), random(-1, 1)], random(0, 6)),
        shift: [0, 0, 0],
      });
      const [a, b] = [treeOf(one), treeOf(other)];
      const found = nearestBetween(a, b, motion)!;
      const least = leastBySamples(one, other, motion);
      // No two samples can be nearer than the true distance, and the nearest are a step of both off at most.
      assert.ok(found.apart <= least + 1e-9, `case ${n}: ${found.apart} over ${least}`);
      const off = least < COARSE ? COARSE : 0.2;
      assert.ok(least - found.apart < off, `case ${n}: ${found.apart} for ${least}`);
      assert.ok(Math.abs(apart(found.one, found.other) - found.apart) < 1e-9);
      const crossings = crossingsBetween(a, b, motion);
      assert.equal(crossings.length > 0, found.apart === 0, `case ${n}`);
      if (crossings.length) touching++;
      else free++;
      // The same the other way round, from a guess, and within a little more than it is.
      const again = nearestBetween(a, b, motion, { first: [0, 0], within: found.apart + 0.01 })!;
      assert.ok(Math.abs(again.apart - found.apart) < 1e-9);
      assert.equal(nearestBetween(a, b, motion, { within: found.apart }), undefined);
      const point = moved(motion, [0, 0, 3]);
      const to = nearestTo(a, point)!;
      const should = leastOf([point], sampled(one, AT_REST, STEP));
      assert.ok(to.apart <= should + 1e-9 && should - to.apart < 0.2, `case ${n}: ${to.apart} for ${should}`);
    }
    assert.ok(touching > 100 && free > 100, `${touching} touch, ${free} do not`);
  }).timeout(120_000);

  it('is known in closed form of two flat plates, and of edges across each other', () => {
    const flat = treeOf(plate(40, 40, 4, () => 0));
    assert.equal(nearestBetween(flat, flat, shiftedBy([5, 3, 7]))!.apart, 7);
    assert.ok(Math.abs(nearestBetween(flat, flat, shiftedBy([44, 0, 3]))!.apart - 5) < 1e-12);
    const upright: Motion = { turn: turnAbout([0, 1, 0], Math.PI / 2), shift: [0, 0, 0] };
    assert.equal(nearestBetween(flat, flat, upright)!.apart, 0);
    const stretches = crossingsBetween(flat, flat, { ...upright, shift: [3, 1, 2] });
    const length = stretches.reduce((sum, { from, to }) => sum + apart(from, to), 0);
    assert.ok(Math.abs(length - 39) < 1e-9, `${length}`);
  });

  it('of nothing is nothing', () => {
    const none = new MeshTree(new Float64Array(), new Uint32Array());
    assert.equal(nearestBetween(none, none, AT_REST), undefined);
    assert.deepEqual(crossingsBetween(none, none, AT_REST), []);
    assert.equal(nearestTo(none, [0, 0, 0]), undefined);
  });
});

describe('what turns about a line', () => {
  const axis = { point: [0, 0, 0], along: [1, 0, 0] } as const;

  it('meets a plate at the angle that its height asks for', () => {
    const next = chance(11);
    const random = (from: number, to: number) => from + (to - from) * next.next().value;
    for (let n = 0; n < 500; n++) {
      // A flap from the axis out to its length, swung up against a ceiling that lies level.
      const [long, up, t] = [random(60, 250), random(20, 55), random(0.8, 2.4)];
      const flap = treeOf(plate(30, long, 4, () => 0));
      const ceiling = treeOf(plate(80, 600, 4, () => 0));
      const swept = atOnce(
        sweptInSteps(
          axis,
          [
            {
              still: ceiling,
              stillAt: shiftedBy([0, 0, up]),
              turning: flap,
              turningAt: shiftedBy([0, long / 2, 0]),
              touching: t,
            },
          ],
          0,
          Math.PI / 2,
        ),
      );
      const should = Math.asin((up - t) / long);
      assert.ok(swept.stop, `case ${n}: it goes through`);
      const off = ((swept.stop.angle - should) * 180) / Math.PI;
      assert.ok(Math.abs(off) < 0.05, `case ${n}: ${off}° off`);
      assert.ok(swept.stop.clear <= 0 && swept.stop.clear > -0.2);
      assert.ok(Math.abs(swept.stop.at[2] - up) < 1e-9);
    }
  }).timeout(60_000);

  it('is told with its least room where it meets nothing', () => {
    const flap = treeOf(plate(30, 100, 4, () => 0));
    const wall = treeOf(plate(80, 80, 4, () => 0));
    // Upright, 20 mm beyond the end of the flap as it goes through the level.
    const swept = atOnce(
      sweptInSteps(
        axis,
        [
          {
            still: wall,
            stillAt: { turn: turnAbout([1, 0, 0], Math.PI / 2), shift: [0, 120, 0] },
            turning: flap,
            turningAt: shiftedBy([0, 50, 0]),
            touching: 1.5,
          },
        ],
        -0.5,
        0.5,
      ),
    );
    assert.equal(swept.stop, undefined);
    assert.ok(
      Math.abs(swept.least!.clear - 18.5) < 0.05 && Math.abs(swept.least!.angle) < 0.02,
      `${swept.least!.clear}`,
    );
  });

  it('leaves out what lies near the line, and no more', () => {
    const { positions, triangles } = clearOf(
      plate(40, 40, 2, () => 0),
      axis,
      5,
    );
    const tree = new MeshTree(positions, triangles);
    const near = nearestTo(tree, [3, 0, 0])!;
    assert.ok(near.apart > 5 - 1e-9 && near.apart < 5.01, `${near.apart}`);
    let area = 0;
    for (let i = 0; i < triangles.length; i += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => [...positions.subarray(3 * triangles[i + k]!, 3 * triangles[i + k]! + 3)]);
      area += Math.abs((b![0]! - a![0]!) * (c![1]! - a![1]!) - (b![1]! - a![1]!) * (c![0]! - a![0]!)) / 2;
    }
    assert.ok(Math.abs(area - 40 * 30) < 1e-6, `${area}`);
  });

  it('stays where it is when it is not turned', () => {
    assert.deepEqual(moved(turnedAbout([1, 2, 3], [0, 0, 1], 0), [4, 5, 6]), [4, 5, 6]);
    const half = moved(turnedAbout([1, 2, 3], [0, 0, 1], Math.PI), [4, 5, 6]);
    assert.ok(apart(half, [-2, -1, 6]) < 1e-12);
  });
});
