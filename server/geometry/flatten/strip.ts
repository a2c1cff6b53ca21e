import { crossingOf } from '../outline/measure.ts';
import type { Path } from '../outline/path.ts';
import { boxOfPoints, chordsOf, denseOutline, type Outline, pathThrough } from './curve.ts';

/**
 * A strip of even width that lies on a rounded surface along a line, laid flat. Seen in the surface the line turns, and
 * the flat strip must turn as much: its curve is the line's geodesic curvature.
 */
export interface Strip {
  /** Middle of the strip, x and y by turns, mm; it begins at nought, its ends level unless they meet. */
  readonly middle: Float64Array;
  /** mm, along the line */
  readonly length: number;
  /** How far the line turns in the surface, degrees; above nought to the left of the way one goes, seen from outside. */
  readonly turn: number;
  /** The strip's outline, lines and arcs, anticlockwise, mm; and its points. */
  readonly outline: Path;
  readonly points: readonly (readonly [x: number, y: number])[];
  /** Box of the outline, mm. */
  readonly long: number;
  readonly wide: number;
  /** Smallest radius to which the middle is bent; infinite for a straight one, mm. */
  readonly tightest: number;
  /** It would lie over itself: it must be cut in parts. */
  readonly overlaps: boolean;
}

/**
 * The flat strip along a line of a surface, `wide` mm across, half to each side.
 *
 * @param points x, y, z of points along the line, evenly spread or nearly so, mm. A closed one repeats its first point last.
 * @param normals unit normals of the surface there, outward
 * @param more what is added at its start (`left`), at its end, to the left of the way (`top`) and to the right of it, mm
 *
 * Range: five points or more, for a smooth line; error falls with the fourth power of their distance. Source: the
 * geodesic curvature N · (γ′ × γ″)/|γ′|³, with differences over five points (geometry).
 */
export function stripAlong(
  points: Float64Array,
  normals: Float64Array,
  wide: number,
  more: Partial<Record<'left' | 'right' | 'top' | 'bottom', number>> = {},
): Strip | undefined {
  const run = wide > 0 ? runOf(points, normals) : undefined;
  if (!run) return undefined;
  const { count, speed, rate, way, turned } = run;
  const ways = (heading: Float64Array) =>
    [Math.cos, Math.sin].map((part) => runningIntegral(speed.map((each, i) => each * part(heading[i]!))));
  const [reach, rise] = ways(turned).map((each) => each[count - 1]!);
  const level = Math.hypot(reach!, rise!) > 1e-9 * way[count - 1]! ? Math.atan2(rise!, reach!) : 0;
  const heading = turned.map((each) => each - level);
  const [xs, ys] = ways(heading) as [Float64Array, Float64Array];
  const middle = new Float64Array(2 * count);
  let tightest = Number.POSITIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    middle[2 * i] = xs[i]!;
    middle[2 * i + 1] = ys[i]!;
    if (rate[i]) tightest = Math.min(tightest, Math.abs(speed[i]! / rate[i]!));
  }
  const shape = outlineOf(middle, heading, wide, more);
  return {
    middle,
    length: way[count - 1]!,
    turn: (turned[count - 1]! * 180) / Math.PI,
    outline: pathThrough(shape, 0.05),
    points: Array.from(
      { length: shape.points.length / 2 },
      (_, i) => [shape.points[2 * i]!, shape.points[2 * i + 1]!] as const,
    ),
    ...boxOfPoints(denseOutline(shape)),
    tightest,
    overlaps: tightest <= wide / 2 || crossingOf(chordsOf(shape)) !== undefined,
  };
}

/** How far a line turns in its surface, degrees, as a strip along it does: above nought to the left of the way one goes. */
export function turnAlong(points: Float64Array, normals: Float64Array): number | undefined {
  const run = runOf(points, normals);
  return run && (run.turned[run.count - 1]! * 180) / Math.PI;
}

/** How fast a line goes and turns at each of its points, and how far it has gone and turned by then. */
function runOf(points: Float64Array, normals: Float64Array) {
  const count = points.length / 3;
  if (count < 5) return undefined;
  const closed = distance(points, 0, count - 1) < 1e-9 * (1 + distance(points, 0, count >> 1));
  const speed = new Float64Array(count);
  const rate = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const [first, second] = derivatives(points, i, count, closed);
    const [nx, ny, nz] = [normals[3 * i]!, normals[3 * i + 1]!, normals[3 * i + 2]!];
    speed[i] = Math.hypot(...first);
    // Turning for each step of the parameter: curvature times speed.
    rate[i] =
      (nx * (first[1] * second[2] - first[2] * second[1]) +
        ny * (first[2] * second[0] - first[0] * second[2]) +
        nz * (first[0] * second[1] - first[1] * second[0])) /
      speed[i]! ** 2;
    if (!Number.isFinite(rate[i]!)) return undefined;
  }
  return { count, speed, rate, way: runningIntegral(speed), turned: runningIntegral(rate) };
}

/** The ends go on straight by what they need. */
function outlineOf(
  middle: Float64Array,
  heading: Float64Array,
  wide: number,
  { left = 0, right = 0, top = 0, bottom = 0 }: Partial<Record<'left' | 'right' | 'top' | 'bottom', number>>,
): Outline {
  const last = heading.length - 1;
  const side = (i: number, off: number, on = 0): [number, number] => {
    const [c, s] = [Math.cos(heading[i]!), Math.sin(heading[i]!)];
    return [middle[2 * i]! - off * s + on * c, middle[2 * i + 1]! + off * c + on * s];
  };
  const points: [number, number][] = [];
  const corners = new Set<number>();
  const corner = (point: [number, number]) => corners.add(points.push(point) - 1);
  for (const [off, from, by, start, end] of [
    [-wide / 2 - bottom, 0, 1, -left, right],
    [wide / 2 + top, last, -1, right, -left],
  ] as const) {
    if (start) corner(side(from, off, start));
    for (let i = from; i >= 0 && i <= last; i += by) {
      const at = points.push(side(i, off)) - 1;
      if (i === 0 || i === last) corners.add(at);
    }
    if (end) corner(side(last - from, off, end));
  }
  return { points: Float64Array.from(points.flat()), corners };
}

const FIRST = [
  [-25, 48, -36, 16, -3],
  [-3, -10, 18, -6, 1],
  [1, -8, 0, 8, -1],
  [-1, 6, -18, 10, 3],
  [3, -16, 36, -48, 25],
] as const;
const SECOND = [
  [35, -104, 114, -56, 11],
  [11, -20, 6, 4, -1],
  [-1, 16, -30, 16, -1],
  [-1, 4, 6, -20, 11],
  [11, -56, 114, -104, 35],
] as const;

type Vector = [number, number, number];

/** First and second derivative by the number of the point, from five points (central, but for the ends of an open line). */
function derivatives(points: Float64Array, at: number, count: number, closed: boolean): [Vector, Vector] {
  const around = count - 1;
  const start = closed ? at - 2 : Math.min(Math.max(at - 2, 0), count - 5);
  const row = at - start;
  const first: Vector = [0, 0, 0];
  const second: Vector = [0, 0, 0];
  for (let j = 0; j < 5; j++) {
    const from = closed ? (start + j + around) % around : start + j;
    for (let axis = 0; axis < 3; axis++) {
      const value = points[3 * from + axis]! / 12;
      first[axis]! += FIRST[row]![j]! * value;
      second[axis]! += SECOND[row]![j]! * value;
    }
  }
  return [first, second];
}

/** Integral from the first value to each, one apart, exact for cubics. */
function runningIntegral(values: Float64Array): Float64Array {
  const last = values.length - 1;
  const sum = new Float64Array(values.length);
  for (let i = 0; i < last; i++) {
    const start = Math.min(Math.max(i - 1, 0), last - 3);
    const [a, b, c, d] = [values[start]!, values[start + 1]!, values[start + 2]!, values[start + 3]!];
    const step =
      i === start
        ? 9 * a + 19 * b - 5 * c + d
        : i === start + 1
          ? -a + 13 * b + 13 * c - d
          : a - 5 * b + 19 * c + 9 * d;
    sum[i + 1] = sum[i]! + step / 24;
  }
  return sum;
}

function distance(points: Float64Array, a: number, b: number): number {
  return Math.hypot(
    points[3 * a]! - points[3 * b]!,
    points[3 * a + 1]! - points[3 * b + 1]!,
    points[3 * a + 2]! - points[3 * b + 2]!,
  );
}
