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
 * normal equations solved by conjugate gradients, thing by thing scaled (derived).
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
  const matrix = new Blocks(n);
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

/** A symmetric matrix of blocks of 6 × 6, of which few are not nought; the first thing does not move. */
class Blocks {
  private readonly blocks = new Map<number, Float64Array>();

  constructor(private readonly n: number) {}

  add(i: number, j: number, a: Float64Array, b: Float64Array, weight: number): void {
    if (i === 0 || j === 0) return;
    const key = i * this.n + j;
    let block = this.blocks.get(key);
    if (!block) {
      block = new Float64Array(36);
      this.blocks.set(key, block);
    }
    for (let p = 0; p < 6; p++)
      for (let q = 0; q < 6; q++)
        block[6 * p + q]! += weight * (a[p]! * b[q]! + a[6 + p]! * b[6 + q]! + a[12 + p]! * b[12 + q]!);
  }

  private times(x: Float64Array): Float64Array {
    const out = new Float64Array(x.length);
    for (const [key, block] of this.blocks) {
      const [i, j] = [6 * Math.floor(key / this.n), 6 * (key % this.n)];
      for (let p = 0; p < 6; p++) {
        let sum = 0;
        for (let q = 0; q < 6; q++) sum += block[6 * p + q]! * x[j + q]!;
        out[i + p]! += sum;
      }
    }
    return out;
  }

  /** Conjugate gradients, scaled by the diagonal. */
  *solved(right: Float64Array): Steps<Float64Array> {
    const size6 = right.length;
    const scale = new Float64Array(size6);
    for (let i = 1; i < this.n; i++) {
      const block = this.blocks.get(i * this.n + i);
      for (let p = 0; p < 6; p++) scale[6 * i + p] = block && block[7 * p]! > 0 ? 1 / block[7 * p]! : 0;
    }
    const product = (a: Float64Array, b: Float64Array) => a.reduce((sum, each, i) => sum + each * b[i]!, 0);
    const scaled = (a: Float64Array) => a.map((each, i) => each * scale[i]!);
    const x = new Float64Array(size6);
    let rest = right.map((each, i) => (scale[i]! > 0 ? each : 0));
    let way = scaled(rest);
    let now = product(rest, way);
    const enough = 1e-24 * now;
    for (let round = 0; round < 4 * size6 && now > enough && now > 0; round++) {
      if (round % AT_A_TIME === AT_A_TIME - 1) yield undefined;
      const moves = this.times(way);
      const along = product(way, moves);
      if (!(along > 0)) break;
      const by = now / along;
      for (let i = 0; i < size6; i++) x[i]! += by * way[i]!;
      rest = rest.map((each, i) => each - by * moves[i]!);
      const next = scaled(rest);
      const then = product(rest, next);
      way = way.map((each, i) => next[i]! + (then / now) * each);
      now = then;
    }
    return x;
  }
}
const AT_A_TIME = 50;
