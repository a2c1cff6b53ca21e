import type { Steps } from '../../incremental/steps.ts';
import { cross, minus, plus, size, type Vector } from '../surface/vector.ts';
import { leftBy, type Pairs } from './match.ts';
import { after, type Motion, moved, turnAbout, turned, undone } from './motion.ts';

/** Two things that should meet: in the pairs `from` lies in the frame of the one, `to` in that of the other. */
export interface Tie {
  readonly one: number;
  readonly other: number;
  readonly pairs: Pairs;
}

/**
 * The poses of several things that are tied in rings, so that not every tie can be kept: the least squares over all of them at
 * once. The first thing stays where it is. Gauss–Newton: each round the ties are made straight in small turns and shifts, and the
 * normal equations solved by Cholesky’s factors (derived).
 *
 * `start` should be near: the poses that a tree of the ties gives. Good to about a thousand millionth of the largest length, where
 * the ties leave nothing open.
 */
export function* balancedInSteps(start: readonly Motion[], ties: readonly Tie[]): Steps<readonly Motion[]> {
  let poses = start;
  let left = sumOf(poses, ties);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    yield undefined;
    const step = yield* twists(poses, ties);
    // A step that makes it worse was too long.
    let share = 1;
    let next = stepped(poses, step, share);
    let now = sumOf(next, ties);
    for (; now > left && share > 1e-6; share /= 4) {
      next = stepped(poses, step, share / 4);
      now = sumOf(next, ties);
    }
    if (!(now < left)) break;
    const gained = left - now;
    poses = next;
    left = now;
    if (gained < 1e-14 * left || left < 1e-24) break;
  }
  return poses;
}
const MOST_ROUNDS = 40;

function sumOf(poses: readonly Motion[], ties: readonly Tie[]): number {
  return ties.reduce((sum, { one, other, pairs }) => sum + leftBy(after(undone(poses[other]!), poses[one]!), pairs), 0);
}

/** A turn and a shift, each small, about the middle of a thing: 3 + 3 numbers for each. */
interface Step {
  readonly middles: readonly Vector[];
  readonly by: Float64Array;
}

function stepped(poses: readonly Motion[], { middles, by }: Step, share: number): readonly Motion[] {
  return poses.map((pose, i) => {
    if (i === 0) return pose;
    const part = (k: number): Vector => [
      share * by[6 * i + k]!,
      share * by[6 * i + k + 1]!,
      share * by[6 * i + k + 2]!,
    ];
    const [shift, turn, middle] = [part(0), part(3), middles[i]!];
    const about: Motion = { turn: turnAbout(turn, size(turn)), shift: [0, 0, 0] };
    const back = minus(middle, turned(about, middle));
    return after({ turn: about.turn, shift: plus(back, shift) }, pose);
  });
}

function* twists(poses: readonly Motion[], ties: readonly Tie[]): Steps<Step> {
  const n = poses.length;
  const sums = poses.map(() => ({ at: [0, 0, 0] as Vector, count: 0 }));
  for (const { one, other, pairs } of ties)
    for (const { from, to } of pairs.places) {
      for (const [i, point] of [
        [one, moved(poses[one]!, from)],
        [other, moved(poses[other]!, to)],
      ] as const) {
        sums[i]!.at = plus(sums[i]!.at, point);
        sums[i]!.count++;
      }
    }
  const middles = sums.map(({ at, count }) => (count ? plus([0, 0, 0], at, 1 / count) : at));
  const matrix = new Blocks(n, ties);
  const right = new Float64Array(6 * n);
  for (const { one, other, pairs } of ties) {
    yield undefined;
    for (const [kind, all] of [
      ['place', pairs.places],
      ['direction', pairs.directions],
    ] as const)
      for (const { from, to, weight } of all) {
        const [a, b] =
          kind === 'place'
            ? [moved(poses[one]!, from), moved(poses[other]!, to)]
            : [turned(poses[one]!, from), turned(poses[other]!, to)];
        const gap = minus(a, b);
        const ja = slopes(kind === 'place' ? minus(a, middles[one]!) : a, kind);
        const jb = slopes(kind === 'place' ? minus(b, middles[other]!) : b, kind);
        matrix.add(one, one, ja, ja, weight);
        matrix.add(other, other, jb, jb, weight);
        matrix.add(one, other, ja, jb, -weight);
        matrix.add(other, one, jb, ja, -weight);
        for (let k = 0; k < 6; k++)
          for (let r = 0; r < 3; r++) {
            right[6 * one + k]! -= weight * ja[6 * r + k]! * gap[r as 0 | 1 | 2];
            right[6 * other + k]! += weight * jb[6 * r + k]! * gap[r as 0 | 1 | 2];
          }
      }
  }
  return { middles, by: yield* matrix.solved(right) };
}

/** How a point (or a direction) moves with a small shift and a small turn: three rows of six. */
function slopes(arm: Vector, kind: 'place' | 'direction'): Float64Array {
  const rows = new Float64Array(18);
  const [x, y, z] = [cross([1, 0, 0], arm), cross([0, 1, 0], arm), cross([0, 0, 1], arm)];
  for (let r = 0; r < 3; r++) {
    if (kind === 'place') rows[6 * r + r] = 1;
    rows[6 * r + 3] = x[r as 0 | 1 | 2];
    rows[6 * r + 4] = y[r as 0 | 1 | 2];
    rows[6 * r + 5] = z[r as 0 | 1 | 2];
  }
  return rows;
}

/**
 * A symmetric matrix of blocks of 6 × 6, each row kept from its first block that is not nought: things in the order in which they hang on
 * each other have few before them. The first thing does not move.
 */
class Blocks {
  private readonly rows: Float64Array[];
  /** The first thing that each is tied to, itself at the latest. */
  private readonly first: Int32Array;

  constructor(n: number, ties: readonly Tie[]) {
    this.first = Int32Array.from({ length: n }, (_, i) => i);
    for (const { one, other } of ties) {
      const [low, high] = [Math.min(one, other), Math.max(one, other)];
      // The first thing takes no part.
      if (low > 0) this.first[high] = Math.min(this.first[high]!, low);
    }
    this.rows = Array.from({ length: 6 * n }, (_, r) => new Float64Array(r + 1 - 6 * this.first[Math.floor(r / 6)]!));
  }

  add(i: number, j: number, a: Float64Array, b: Float64Array, weight: number): void {
    if (i === 0 || j === 0 || j > i) return;
    const from = 6 * this.first[i]!;
    for (let p = 0; p < 6; p++) {
      const row = this.rows[6 * i + p]!;
      const most = i === j ? p : 5;
      for (let q = 0; q <= most; q++)
        row[6 * j + q - from]! += weight * (a[p]! * b[q]! + a[6 + p]! * b[6 + q]! + a[12 + p]! * b[12 + q]!);
    }
  }

  /** Cholesky's factors in place, then forward and back. What nothing holds, as a hinge that only turns, stays where it is. */
  *solved(right: Float64Array): Steps<Float64Array> {
    const { rows, first } = this;
    const x = Float64Array.from(right);
    const startOf = (r: number) => 6 * first[Math.floor(r / 6)]!;
    for (let r = 6; r < x.length; r++) {
      if (r % AT_A_TIME === 0) yield undefined;
      const [row, start] = [rows[r]!, startOf(r)];
      const own = row[r - start]!;
      for (let c = start; c <= r; c++) {
        const [other, otherStart] = [rows[c]!, startOf(c)];
        let sum = row[c - start]!;
        for (let k = Math.max(start, otherStart); k < c; k++) sum -= row[k - start]! * other[k - otherStart]!;
        if (c < r) row[c - start] = other[c - otherStart]! > 0 ? sum / other[c - otherStart]! : 0;
        else row[c - start] = sum > LOOSE * own ? Math.sqrt(sum) : 0;
      }
    }
    for (let r = 0; r < x.length; r++) {
      const [row, start] = [rows[r]!, startOf(r)];
      const held = r >= 6 && row[r - start]! > 0;
      let sum = x[r]!;
      if (held) for (let k = start; k < r; k++) sum -= row[k - start]! * x[k]!;
      x[r] = held ? sum / row[r - start]! : 0;
    }
    for (let r = x.length - 1; r >= 0; r--) {
      const [row, start] = [rows[r]!, startOf(r)];
      if (!(r >= 6 && row[r - start]! > 0)) continue;
      x[r]! /= row[r - start]!;
      for (let k = start; k < r; k++) x[k]! -= row[k - start]! * x[r]!;
    }
    return x;
  }
}
const AT_A_TIME = 60;
/** What is left of a freedom that the ties do not hold, as a share of what it weighs alone: rounding. */
const LOOSE = 1e-13;
