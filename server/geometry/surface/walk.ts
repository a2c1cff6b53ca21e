import type { Steps } from '../../incremental/steps.ts';
import type { Chart, Spot } from './chart.ts';
import { apart, cross, dot, minus, plus, size, unit, type Vector } from './vector.ts';

const STEP = 1e-5;

/** The unit normal; on a ridge or at a tip the mean of those beside it, on a fold along a row of those above and below. */
export function directionOut(chart: Chart, [u, v]: Spot): Vector {
  const own = chart.normal(u, v);
  if (size(own) > 0) return own;
  const at = (by: number, up: number) =>
    chart.normal(turned(chart, u + by), Math.min(1 - STEP, Math.max(STEP, v + up)));
  for (const up of [0, BESIDE]) {
    const mean = unit(
      [at(BESIDE, up), at(-BESIDE, up), at(BESIDE, -up), at(-BESIDE, -up)].reduce((sum, each) => plus(sum, each)),
    );
    if (size(mean) > 0) return mean;
  }
  return [0, 0, 1];
}

/** How far beside a fold its two sides are looked at, as a share of the form. */
const BESIDE = 0.002;

/** How the point moves with u and with v, mm for the whole of 0…1. */
export function tangents(chart: Chart, spot: Spot): readonly [Vector, Vector] {
  return [tangent(chart, spot, 0), tangent(chart, spot, 1)];
}

/** The same with one of them. */
export function tangent(chart: Chart, [u, v]: Spot, axis: 0 | 1): Vector {
  const place = axis === 0 ? u : v;
  const [low, high] = [Math.max(0, place - STEP), Math.min(1, place + STEP)];
  const at = (moved: number) => (axis === 0 ? chart.point(moved, v) : chart.point(u, moved));
  const d = minus(at(high), at(low));
  return [d[0] / (high - low), d[1] / (high - low), d[2] / (high - low)];
}

/**
 * Where one comes out who goes straight ahead on the surface: the geodesic from a spot, in a direction, so many mm.
 * Stops at the outline. Good to the square of a step: 4 mm, or an eighth of the way. Source: the direction turned with the
 * normal from each tangent plane into the next (derived).
 */
export function straightOn(chart: Chart, from: Spot, direction: Vector, length: number): Spot {
  const steps = Math.min(400, Math.max(8, Math.ceil(length / 4)));
  const step = length / steps;
  let spot = from;
  let out = directionOut(chart, spot);
  let ahead = inPlane(direction, out);
  for (let i = 0; i < steps; i++) {
    // The slope half way counts for the whole step.
    const half = moved(chart, spot, ahead, step / 2);
    const reckoned = moved(chart, half, carried(ahead, out, directionOut(chart, half)), step, spot);
    const next = asFar(chart, spot, reckoned, step);
    if (next[1] < 0 || next[1] > 1 || (!chart.closed && (next[0] < 0 || next[0] > 1))) return clamped(chart, next);
    spot = [turned(chart, next[0]), next[1]];
    const there = directionOut(chart, spot);
    ahead = carried(ahead, out, there);
    out = there;
  }
  return spot;
}

/** The same step, as long as it should be: where the chart's scale jumps, at a side, its slope half way misleads. */
function asFar(chart: Chart, from: Spot, to: Spot, length: number): Spot {
  const start = chart.point(...from);
  const at = (share: number): Spot => [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
  let share = 1;
  for (let turn = 0; turn < 2; turn++) {
    const spot = at(share);
    const inside = spot[1] >= 0 && spot[1] <= 1 && (chart.closed || (spot[0] >= 0 && spot[0] <= 1));
    const gone = inside ? apart(start, chart.point(...spot)) : 0;
    if (!(gone > 0)) return spot;
    share *= length / gone;
  }
  return at(share);
}

const inPlane = (a: Vector, normal: Vector): Vector => unit(plus(a, normal, -dot(a, normal)));

/**
 * A direction in the plane of one normal, turned with it into the plane of another without a twist. Where a surface winds about the
 * way (any but a ball), the plain shadow in the other plane swerves with the square of each step, and in all with the step itself.
 */
function carried(a: Vector, from: Vector, to: Vector): Vector {
  const both = 1 + dot(from, to);
  if (!(both > 1e-9)) return inPlane(a, to);
  return inPlane(plus(a, plus(from, to), -dot(a, to) / both), to);
}

function moved(chart: Chart, at: Spot, ahead: Vector, way: number, from: Spot = at): Spot {
  const [pu, pv] = tangents(chart, at);
  const [uu, uv, vv] = [dot(pu, pu), dot(pu, pv), dot(pv, pv)];
  const [du, dv] = [dot(ahead, pu), dot(ahead, pv)];
  const det = uu * vv - uv * uv;
  if (!(det > 1e-12 * uu * vv)) return from;
  return [from[0] + (way * (vv * du - uv * dv)) / det, from[1] + (way * (uu * dv - uv * du)) / det];
}

const turned = (chart: Chart, u: number) => (chart.closed ? u - Math.floor(u) : Math.min(1, Math.max(0, u)));
const clamped = (chart: Chart, [u, v]: Spot): Spot => [turned(chart, u), Math.min(1, Math.max(0, v))];

/** In the surface, square to a line that runs so, to its left as seen from outside. */
export function leftOf(chart: Chart, spot: Spot, along: Vector): Vector {
  return unit(cross(directionOut(chart, spot), along));
}

/** A line on a surface, with the surface's normals along it. */
export interface SurfaceLine {
  readonly points: readonly Vector[];
  readonly normals: readonly Vector[];
  readonly spots: readonly Spot[];
  readonly closed: boolean;
  /** Sum of the chords, carried on to the limit, mm. */
  readonly length: number;
}

/** A place that is nearer than this share to what was asked has been stopped by a side of the form. */
const SHORT = 0.02;

/** Where the ends of a line came to a side of the form, they are where the line leads to from the next four: a cubic. */
function carryOn(line: Vector[], arrived: readonly boolean[]): void {
  const first = arrived.indexOf(true);
  const last = arrived.lastIndexOf(true);
  if (last - first < 3) return;
  const on = (to: number, by: 1 | -1) => {
    const at = (k: number) => line[to + by * k]!;
    line[to] = [0, 1, 2].map(
      (axis) => 4 * at(1)[axis]! - 6 * at(2)[axis]! + 4 * at(3)[axis]! - at(4)[axis]!,
    ) as unknown as Vector;
  };
  for (let i = first - 1; i >= 0; i--) on(i, 1);
  for (let i = last + 1; i < line.length; i++) on(i, -1);
}

/** A line beside an edge, seen from outside. */
export interface EdgeLine extends SurfaceLine {
  /** On which side of the way one goes the metal lies; of a line with metal on both, left. */
  readonly inside: 'left' | 'right';
}

/** The same beside an edge, so far in from it, whichever way the edge runs. */
export function* edgeLineInSteps(
  chart: Chart,
  at: (share: number) => Spot,
  { inset, out }: { inset: number; out: number },
): Steps<EdgeLine> {
  const spot = at(0.5);
  const way = unit(minus(chart.point(...at(0.5 + STEP)), chart.point(...at(0.5 - STEP))));
  const gone = apart(chart.point(...spot), chart.point(...straightOn(chart, spot, leftOf(chart, spot, way), A_LITTLE)));
  const inside = gone > A_LITTLE / 2 ? 'left' : 'right';
  return { ...(yield* lineInSteps(chart, at, { inset: inside === 'left' ? inset : -inset, out })), inside };
}

/** mm */
const A_LITTLE = 0.1;

/**
 * A line along an edge or a named line of a form, so far in from it along the surface (to the left of the way it runs
 * where `inset` is above nought), and so far out from it: what a strip's curve is reckoned from. `count` is even.
 */
export function* lineInSteps(
  chart: Chart,
  at: (share: number) => Spot,
  { inset = 0, out = 0, count = 96 }: { inset?: number; out?: number; count?: number } = {},
): Steps<SurfaceLine> {
  const even = 2 * Math.max(2, Math.round(count / 2));
  const spots: Spot[] = [];
  const normals: Vector[] = [];
  const arrived: boolean[] = [];
  for (let i = 0; i <= even; i++) {
    yield undefined;
    let spot = at(i / even);
    if (inset !== 0) {
      const before = chart.point(...at(Math.max(0, i - 0.01) / even));
      const after = chart.point(...at(Math.min(even, i + 0.01) / even));
      const side = leftOf(chart, spot, unit(minus(after, before)));
      spot = straightOn(chart, spot, inset > 0 ? side : plus([0, 0, 0], side, -1), Math.abs(inset));
    }
    spots.push(spot);
    normals.push(directionOut(chart, spot));
    arrived.push(
      inset === 0 || apart(chart.point(...at(i / even)), chart.point(...spot)) > (1 - SHORT) * Math.abs(inset),
    );
  }
  const points = spots.map((spot, i) => plus(chart.point(...spot), normals[i]!, out));
  carryOn(points, arrived);
  carryOn(normals, arrived);
  const length = limitOf(points);
  return {
    points,
    normals,
    spots,
    closed: apart(points[0]!, points[even]!) < 1e-9 * length,
    length,
  };
}

/** A line moved out along the normals of its surface: how long it is, and how many times longer where it is stretched most. */
export function movedOut({ points, normals }: SurfaceLine, by: number): { length: number; most: number } {
  const out = points.map((point, i) => plus(point, normals[i]!, by));
  let most = 0;
  for (let i = 1; i < points.length; i++) {
    const below = apart(points[i - 1]!, points[i]!);
    if (below > 0) most = Math.max(most, apart(out[i - 1]!, out[i]!) / below);
  }
  return { length: limitOf(out), most };
}

/** Sum of the chords between an even count of steps, carried on to the limit, mm. */
function limitOf(points: readonly Vector[]): number {
  const chords = (by: number) => {
    let length = 0;
    for (let i = by; i < points.length; i += by) length += apart(points[i - by]!, points[i]!);
    return length;
  };
  return chords(1) + (chords(1) - chords(2)) / 3;
}
