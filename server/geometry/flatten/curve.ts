import type { Path, Vertex } from '../outline/path.ts';

/*
 * Smooth curves through the vertices of a mesh. A chain of chords reads short; the circle through every three neighbours
 * gives the bend at each vertex, and with it lengths and outlines good to the fourth order.
 */

/** Length of the smooth curve through points of 2 or 3 coordinates, mm. A closed one repeats its first point last. */
export function lengthThrough(points: Float64Array, dimensions: 2 | 3): number {
  const count = points.length / dimensions;
  const chord = (a: number, b: number) => {
    let square = 0;
    for (let i = 0; i < dimensions; i++) square += (points[b * dimensions + i]! - points[a * dimensions + i]!) ** 2;
    return Math.sqrt(square);
  };
  const closed = count > 3 && chord(0, count - 1) === 0;
  const bend = (at: number): number => {
    const before = at > 0 ? at - 1 : count - 2;
    const after = at < count - 1 ? at + 1 : 1;
    const [a, b, c] = [chord(before, at), chord(at, after), chord(before, after)];
    const s = (a + b + c) / 2;
    return (4 * Math.sqrt(Math.max(0, s * (s - a) * (s - b) * (s - c)))) / (a * b * c);
  };
  const bends = Array.from({ length: count }, (_, i) =>
    count < 3 ? 0 : !closed && (i === 0 || i === count - 1) ? Number.NaN : bend(i),
  );
  if (!closed && count >= 3) {
    bends[0] = bends[1]!;
    bends[count - 1] = bends[count - 2]!;
  }
  let length = 0;
  for (let i = 0; i + 1 < count; i++) {
    const c = chord(i, i + 1);
    const x = (c * (bends[i]! + bends[i + 1]!)) / 4;
    length += c * (1 + (x * x) / 6 + (3 * x ** 4) / 40);
  }
  return length;
}

/** Points of a closed outline, x and y by turns, with the corners where it may turn sharply. */
export interface Outline {
  readonly points: Float64Array;
  readonly corners: ReadonlySet<number>;
}

/**
 * The smooth outline through its points as lines and arcs, off by no more than `within` mm from the curve between them.
 * Corners are kept as they are.
 */
export function pathThrough(outline: Outline, within: number): Path {
  const vertices: Vertex[] = [];
  for (const run of runsOf(outline)) addArcs(vertices, denseRun(run.points, run.closed), within);
  return { vertices, closed: true };
}

/** The outline as straight lines from point to point. */
export const chordsOf = ({ points }: Outline): Path => ({
  vertices: Array.from({ length: points.length / 2 }, (_, i) => ({ x: points[2 * i]!, y: points[2 * i + 1]! })),
  closed: true,
});

/** The same curve as close points, x and y by turns: for boxes and drawings. */
export function denseOutline(outline: Outline): Float64Array {
  return Float64Array.from(runsOf(outline).flatMap((run) => [...denseRun(run.points, run.closed)].slice(0, -2)));
}

/** The box of points, x and y by turns, mm. */
export function boxOfPoints(points: Float64Array): { long: number; wide: number } {
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < points.length; i += 2) {
    left = Math.min(left, points[i]!);
    right = Math.max(right, points[i]!);
    bottom = Math.min(bottom, points[i + 1]!);
    top = Math.max(top, points[i + 1]!);
  }
  return { long: right - left, wide: top - bottom };
}

/** The outline in stretches from corner to corner; in one closed run where it has none. */
function runsOf({ points, corners }: Outline): { points: Float64Array; closed: boolean }[] {
  const count = points.length / 2;
  const stops = [...corners].sort((a, b) => a - b);
  const first = stops[0] ?? 0;
  const ends = stops.length ? [...stops.slice(1), first + count] : [count];
  return ends.map((end, i) => {
    const start = i === 0 ? first : ends[i - 1]!;
    const run = new Float64Array(2 * (end - start + 1));
    for (let j = start; j <= end; j++) {
      run[2 * (j - start)] = points[2 * (j % count)]!;
      run[2 * (j - start) + 1] = points[2 * (j % count) + 1]!;
    }
    return { points: run, closed: !stops.length };
  });
}

const BETWEEN = 6;

/** A cubic from point to point, along the tangents of the circles through every three. */
function denseRun(points: Float64Array, closed: boolean): Float64Array {
  const count = points.length / 2;
  if (count < 3) return points;
  const tangents = Array.from({ length: count }, (_, i) => tangentAt(points, i, closed));
  const dense = new Float64Array(2 * ((count - 1) * BETWEEN + 1));
  for (let i = 0; i + 1 < count; i++) {
    const [x0, y0, x1, y1] = [points[2 * i]!, points[2 * i + 1]!, points[2 * i + 2]!, points[2 * i + 3]!];
    const chord = Math.hypot(x1 - x0, y1 - y0);
    const [a, b] = [tangents[i]!, tangents[i + 1]!];
    for (let j = 0; j < BETWEEN; j++) {
      const t = j / BETWEEN;
      const h1 = t * t * (3 - 2 * t);
      const h2 = t * (1 - t) * (1 - t) * chord;
      const h3 = t * t * (t - 1) * chord;
      dense[2 * (i * BETWEEN + j)] = x0 + (x1 - x0) * h1 + a[0] * h2 + b[0] * h3;
      dense[2 * (i * BETWEEN + j) + 1] = y0 + (y1 - y0) * h1 + a[1] * h2 + b[1] * h3;
    }
  }
  dense[dense.length - 2] = points[points.length - 2]!;
  dense[dense.length - 1] = points[points.length - 1]!;
  return dense;
}

/** Of the circle through a point and its neighbours; at an end, of the circle through the last three. */
function tangentAt(points: Float64Array, at: number, closed: boolean): readonly [number, number] {
  const last = points.length / 2 - 1;
  const end = !closed && (at === 0 || at === last);
  const middle = end ? (at === 0 ? 1 : last - 1) : at;
  const before = closed && middle === 0 ? last - 1 : middle - 1;
  const after = closed && middle === last ? 1 : middle + 1;
  const ax = points[2 * middle]! - points[2 * before]!;
  const ay = points[2 * middle + 1]! - points[2 * before + 1]!;
  const bx = points[2 * after]! - points[2 * middle]!;
  const by = points[2 * after + 1]! - points[2 * middle + 1]!;
  const aa = ax * ax + ay * ay;
  const bb = bx * bx + by * by;
  let x = ax / aa + bx / bb;
  let y = ay / aa + by / bb;
  if (end) {
    // Mirrored about the chord: a circle leaves one end as it reaches the other.
    const [cx, cy] = at === 0 ? [ax, ay] : [bx, by];
    const along = (2 * (x * cx + y * cy)) / (cx * cx + cy * cy);
    [x, y] = [along * cx - x, along * cy - y];
  }
  const size = Math.hypot(x, y);
  return size > 0 ? [x / size, y / size] : [0, 0];
}

/** Lines and arcs along a run of close points, as long as each may be. The last point belongs to the next run. */
function addArcs(vertices: Vertex[], points: Float64Array, within: number): void {
  const last = points.length / 2 - 1;
  for (let from = 0; from < last; ) {
    let good = from + 1;
    let bulge = 0;
    let [low, high] = [from + 1, last];
    while (low <= high) {
      const to = (low + high) >> 1;
      const found = arcFits(points, from, to, within);
      if (found === undefined) high = to - 1;
      else {
        good = to;
        bulge = found;
        low = to + 1;
      }
    }
    const vertex = { x: points[2 * from]!, y: points[2 * from + 1]! };
    vertices.push(Math.abs(bulge) > 1e-9 ? { ...vertex, bulge } : vertex);
    from = good;
  }
}

/** The bulge of the arc from point to point over the one half way, where it stays near all that lie between. */
function arcFits(points: Float64Array, from: number, to: number, within: number): number | undefined {
  if (to - from < 2) return 0;
  const x = (i: number) => points[2 * i]!;
  const y = (i: number) => points[2 * i + 1]!;
  const dx = x(to) - x(from);
  const dy = y(to) - y(from);
  const chord = Math.hypot(dx, dy);
  if (chord === 0) return undefined;
  const middle = (from + to) >> 1;
  // Sagitta from the middle point: its distance from the chord, set right for not lying just half way.
  const away = ((y(middle) - y(from)) * dx - (x(middle) - x(from)) * dy) / chord;
  const along = ((x(middle) - x(from)) * dx + (y(middle) - y(from)) * dy) / (chord * chord);
  if (along <= 0 || along >= 1) return undefined;
  if (Math.abs(away) < within / 1000) return straightFits() ? 0 : undefined;
  // Circle through three points: centre on the chord's own bisector, above it by `rise`.
  const half = chord / 2;
  const off = (along - 0.5) * chord;
  const rise = (off * off + away * away - half * half) / (2 * away);
  const radius = Math.hypot(half, rise);
  const cx = (x(from) + x(to)) / 2 - (rise * dy) / chord;
  const cy = (y(from) + y(to)) / 2 + (rise * dx) / chord;
  for (let i = from + 1; i < to; i++) {
    const square = (x(i) - cx) * (x(i) - cx) + (y(i) - cy) * (y(i) - cy);
    if (Math.abs(Math.sqrt(square) - radius) > within) return undefined;
  }
  // How far the arc stands from its chord, over half the chord; below nought to the left of the way.
  const height = away > 0 ? radius + rise : -(radius - rise);
  return -height / half;

  function straightFits(): boolean {
    for (let i = from + 1; i < to; i++)
      if (Math.abs((y(i) - y(from)) * dx - (x(i) - x(from)) * dy) / chord > within) return false;
    return true;
  }
}
