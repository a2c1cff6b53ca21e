import type { Steps } from '../../incremental/steps.ts';
import { BlockMatrix, Factor } from './block-matrix.ts';
import { addDerivatives, type Energy, energyOf } from './energy.ts';
import { twiceAreas } from './laplace.ts';

export interface Minimum {
  readonly flat: Float64Array;
  /** mm² */
  readonly energy: number;
  readonly steps: number;
}

const MOST_STEPS = 80;
/** Done when a whole Newton step moves no vertex by more than this share of the form's size: 0.01 mm of a helmet's half. */
const SMALLEST_MOVE = 5e-5;
/** Within this share of the form's size of the answer the true curvature serves better than its convex part. */
const NEAR = 0.05;
/** Added to the diagonal, as a share of its mean: it holds the flat shape, which is free to slide and turn. */
const SHIFT = 1e-8;

/**
 * Walks down from a flat shape without turned triangles to the least energy: projected Newton steps, each kept short of
 * turning a triangle over and long enough to go down by Armijo's rule. Nothing where it does not come to rest. A stop after
 * each of them.
 */
export function* minimise(energy: Energy, start: Float64Array): Steps<Minimum | undefined> {
  const size = Math.sqrt(energy.rest.area);
  const curvature = new BlockMatrix(energy.topology);
  const factor = new Factor(energy.topology.symbolic);
  const step = new Float64Array(start.length);
  const slope = new Float64Array(start.length);
  let flat: Float64Array = start.slice();
  let value = energyOf(energy, flat);
  if (!Number.isFinite(value)) return undefined;
  let near = false;
  for (let count = 1; count <= MOST_STEPS; count++) {
    yield undefined;
    const derive = (convex: boolean): boolean => {
      curvature.clear();
      slope.fill(0);
      addDerivatives(energy, flat, convex, slope, curvature);
      return factor.of(curvature, SHIFT * meanOf(curvature.diagonal));
    };
    if (!(near && derive(false)) && !derive(true)) return undefined;
    for (let i = 0; i < step.length; i++) step[i] = -slope[i]!;
    factor.solve(step);
    let down = 0;
    let move = 0;
    for (let i = 0; i < step.length; i++) down += slope[i]! * step[i]!;
    for (let i = 0; i < step.length; i += 2) move = Math.max(move, step[i]! ** 2 + step[i + 1]! ** 2);
    move = Math.sqrt(move);
    if (!Number.isFinite(move)) return undefined;
    let share = Math.min(1, 0.9 * firstTurning(energy, flat, step));
    const whole = share === 1;
    let next = flat;
    let reached = Number.POSITIVE_INFINITY;
    // So near the bottom that the energy no longer tells: the step is taken as it is.
    const settled = whole && move < SMALLEST_MOVE * size;
    for (; share > 1e-10; share /= 2) {
      next = flat.map((each, i) => each + share * step[i]!);
      reached = energyOf(energy, next);
      if (reached <= value + 1e-4 * share * down || (settled && Number.isFinite(reached))) break;
    }
    if (!(share > 1e-10)) return undefined;
    flat = next;
    value = reached;
    if (settled) return { flat, energy: value, steps: count };
    near = whole && share === 1 && move < NEAR * size;
  }
  return undefined;
}

function meanOf(diagonal: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < diagonal.length; i += 3) sum += diagonal[i]! + diagonal[i + 2]!;
  return (1.5 * sum) / diagonal.length;
}

/** The share of the step at which the first triangle has no area left. */
function firstTurning({ topology }: Energy, flat: Float64Array, step: Float64Array): number {
  const { triangles } = topology;
  const now = twiceAreas(topology, flat);
  const square = twiceAreas(topology, step);
  let first = Number.POSITIVE_INFINITY;
  for (let t = 0; t < now.length; t++) {
    const a = 2 * triangles[3 * t]!;
    const b = 2 * triangles[3 * t + 1]!;
    const c = 2 * triangles[3 * t + 2]!;
    const ux = flat[b]! - flat[a]!;
    const uy = flat[b + 1]! - flat[a + 1]!;
    const vx = flat[c]! - flat[a]!;
    const vy = flat[c + 1]! - flat[a + 1]!;
    const linear =
      ux * (step[c + 1]! - step[a + 1]!) +
      vy * (step[b]! - step[a]!) -
      uy * (step[c]! - step[a]!) -
      vx * (step[b + 1]! - step[a + 1]!);
    first = Math.min(first, smallestRoot(square[t]!, linear, now[t]!));
  }
  return first;
}

/** The smallest root above nought of a·x² + b·x + c, c above nought; infinite where there is none. */
function smallestRoot(a: number, b: number, c: number): number {
  const inside = b * b - 4 * a * c;
  if (inside < 0) return Number.POSITIVE_INFINITY;
  const root = Math.sqrt(inside);
  // Written so that nothing of nearly the same size is taken off another.
  const one = b <= 0 ? (2 * c) / (root - b) : Number.POSITIVE_INFINITY;
  const other = b > 0 && a < 0 ? (-b - root) / (2 * a) : Number.POSITIVE_INFINITY;
  return Math.min(one > 0 ? one : Number.POSITIVE_INFINITY, other > 0 ? other : Number.POSITIVE_INFINITY);
}
