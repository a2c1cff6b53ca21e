import { dot, minus, plus, type Vector } from '../surface/vector.ts';
import { type Motion, moved, turned, turnOf } from './motion.ts';

/** A place of the thing that is moved, and where it should come to lie; as much as its weight. */
export interface Pair {
  readonly from: Vector;
  readonly to: Vector;
  readonly weight: number;
}

/** What should fall together: places, mm, and directions, whose weights are squares of lengths, mm². */
export interface Pairs {
  readonly places: readonly Pair[];
  readonly directions: readonly Pair[];
}

/**
 * The rigid motion that brings places and directions nearest to where they should be, by least squares; nothing where they leave
 * it open. Closed form by the unit quaternion that belongs to the greatest eigenvalue of a symmetric 4 × 4 matrix.
 *
 * Source: B. K. P. Horn, “Closed-form solution of absolute orientation using unit quaternions”, Journal of the Optical Society of
 * America A 4 (1987) 629–642 (from memory). Directions are put in as places whose middle is already at nought (derived).
 */
export function bestMotion({ places, directions }: Pairs): Motion | undefined {
  const weight = places.reduce((sum, pair) => sum + pair.weight, 0);
  if (!(weight > 0)) return undefined;
  const middle = (of: 'from' | 'to') =>
    places.reduce<Vector>((sum, pair) => plus(sum, pair[of], pair.weight / weight), [0, 0, 0]);
  const [from, to] = [middle('from'), middle('to')];
  const s = [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 0],
  ] as [number[], number[], number[]];
  const add = (a: Vector, b: Vector, by: number) => {
    for (const i of AXES) for (const j of AXES) s[i][j] = s[i][j]! + by * a[i] * b[j];
  };
  for (const pair of places) add(minus(pair.from, from), minus(pair.to, to), pair.weight);
  for (const pair of directions) add(pair.from, pair.to, pair.weight);
  const [[xx, xy, xz], [yx, yy, yz], [zx, zy, zz]] = s as unknown as readonly [Vector, Vector, Vector];
  const { values, vectors } = eigen([
    [xx + yy + zz, yz - zy, zx - xz, xy - yx],
    [yz - zy, xx - yy - zz, xy + yx, zx + xz],
    [zx - xz, xy + yx, yy - xx - zz, yz + zy],
    [xy - yx, zx + xz, yz + zy, zz - xx - yy],
  ]);
  const order = [0, 1, 2, 3].sort((a, b) => values[b]! - values[a]!);
  const [best, next] = [values[order[0]!]!, values[order[1]!]!];
  // Two answers that are as good: about a straight row without a direction, or through a mirror-like one.
  if (!(best - next > 1e-9 * Math.max(Math.abs(best), Math.abs(values[order[3]!]!)))) return undefined;
  const turn = turnOf(vectors.map((row) => row[order[0]!]!) as [number, number, number, number]);
  return { turn, shift: minus(to, turned({ turn, shift: [0, 0, 0] }, from)) };
}

const AXES = [0, 1, 2] as const;

/** The sum of squares that a motion leaves. */
export function leftBy(motion: Motion, { places, directions }: Pairs): number {
  const square = (a: Vector) => dot(a, a);
  return (
    places.reduce((sum, { from, to, weight }) => sum + weight * square(minus(moved(motion, from), to)), 0) +
    directions.reduce((sum, { from, to, weight }) => sum + weight * square(minus(turned(motion, from), to)), 0)
  );
}

/** Eigenvalues of a small symmetric matrix and its vectors as columns, by Jacobi's rotations. */
export function eigen(symmetric: readonly (readonly number[])[]): { values: number[]; vectors: number[][] } {
  const n = symmetric.length;
  const a = symmetric.map((row) => [...row]);
  const vectors: number[][] = a.map((_, i) => a.map((__, j) => (i === j ? 1 : 0)));
  for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
    let off = 0;
    let all = 0;
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) {
        all += a[i]![j]! ** 2;
        if (i !== j) off += a[i]![j]! ** 2;
      }
    if (!(off > 1e-32 * all)) break;
    for (let p = 0; p < n; p++)
      for (let q = p + 1; q < n; q++) {
        const apq = a[p]![q]!;
        if (apq === 0) continue;
        const theta = (a[q]![q]! - a[p]![p]!) / (2 * apq);
        const t = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
        const c = 1 / Math.sqrt(t * t + 1);
        const s = t * c;
        for (let k = 0; k < n; k++) {
          const [kp, kq] = [a[k]![p]!, a[k]![q]!];
          a[k]![p] = c * kp - s * kq;
          a[k]![q] = s * kp + c * kq;
        }
        for (let k = 0; k < n; k++) {
          const [pk, qk] = [a[p]![k]!, a[q]![k]!];
          a[p]![k] = c * pk - s * qk;
          a[q]![k] = s * pk + c * qk;
          const [vp, vq] = [vectors[k]![p]!, vectors[k]![q]!];
          vectors[k]![p] = c * vp - s * vq;
          vectors[k]![q] = s * vp + c * vq;
        }
      }
  }
  return { values: a.map((row, i) => row[i]!), vectors };
}
const MOST_SWEEPS = 40;
