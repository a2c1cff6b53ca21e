import type { Path } from './path.ts';
import { chordOf, deviation, lengthOf, type Point, pathOf, radiusOf, type Span, sweepOf } from './span.ts';

/*
 * Few lines and arcs in place of a curve or of many points. The arcs are biarcs: two arcs that leave one point and reach
 * another in given directions and meet without a corner (K. M. Bolton, Biarc curves, Computer-Aided Design 7, 1975).
 */

/** A curve from t = 0 to t = 1. The heading may have any length; where it has none, the way to a point nearby is taken. */
export interface Curve {
  at(t: number): Point;
  heading(t: number): Point;
}

/** Lines and arcs within `tolerance` (mm) of a smooth curve, tangent to each other where it has no cusp. */
export function fittedCurve(curve: Curve, tolerance: number): Span[] {
  const spans: Span[] = [];
  const add = (start: number, end: number, depth: number): void => {
    const [from, to] = [curve.at(start), curve.at(end)];
    const out = headingAt(curve, start, end);
    const into = headingAt(curve, end, start);
    const made = biarc(from, out, to, { x: -into.x, y: -into.y });
    const fits = SAMPLES.every((share) => isNear(made, curve.at(start + (end - start) * share), tolerance));
    if (depth >= DEEPEST || (fits && !isLoop(made))) {
      spans.push(...(fits ? made : [{ from, to, bulge: 0 }]));
      return;
    }
    const middle = (start + end) / 2;
    add(start, middle, depth + 1);
    add(middle, end, depth + 1);
  };
  // Two halves at least: the whole of a loop begins and ends in one point, from which no biarc can be told.
  add(0, 0.5, 1);
  add(0.5, 1, 1);
  return joined(spans.filter((span) => chordOf(span) > 0));
}

const SAMPLES = [0.08, 0.2, 0.33, 0.45, 0.55, 0.67, 0.8, 0.92];
/** Halvings of a curve: a thousandth of it, past which a straight line does. */
const DEEPEST = 10;

/** The way a curve leaves t towards the other end, of length one. */
function headingAt(curve: Curve, t: number, towards: number): Point {
  const forward = towards > t ? 1 : -1;
  const given = curve.heading(t);
  const size = Math.hypot(given.x, given.y);
  const from = curve.at(t);
  const nearby = curve.at(t + (towards - t) * 1e-3);
  const chord = unit(nearby.x - from.x, nearby.y - from.y);
  if (!(size > 1e-9)) return chord;
  return { x: (forward * given.x) / size, y: (forward * given.y) / size };
}

/**
 * Lines and arcs in place of points that lie close together, as a computation leaves them: no point further than
 * `tolerance` (mm) from them. Where the points turn by more than `corner` degrees at once a corner stays; elsewhere the
 * arcs meet without one.
 *
 * Points that are nearer than a thousandth of the tolerance to the one before are passed over. Fewer than three make straight lines.
 */
export function fittedPoints(
  given: readonly Point[],
  { tolerance, closed, corner = 25 }: { tolerance: number; closed: boolean; corner?: number },
): Path {
  const points = distinct(given, tolerance / 1000, closed);
  if (points.length < 3)
    return pathOf(
      points.slice(1).map((to, i) => ({ from: points[i]!, to, bulge: 0 })),
      false,
    );
  const corners = cornersOf(points, closed, corner);
  const runs: Point[][] = [];
  if (!closed) {
    const stops = [0, ...corners, points.length - 1];
    for (let i = 1; i < stops.length; i++) runs.push(points.slice(stops[i - 1]!, stops[i]! + 1));
  } else if (corners.length) {
    for (const [i, start] of corners.entries()) {
      const end = corners[i + 1] ?? corners[0]! + points.length;
      runs.push(Array.from({ length: end - start + 1 }, (_, k) => points[(start + k) % points.length]!));
    }
  } else {
    runs.push([...points, points[0]!]);
  }
  const smooth = closed && !corners.length;
  return pathOf(
    joined(
      runs.flatMap((run) => fittedRun(run, tolerance, smooth)),
      closed,
    ),
    closed,
  );
}

/** One smooth run of points; `ring` where its last point is its first. */
function fittedRun(points: readonly Point[], tolerance: number, ring: boolean): Span[] {
  const last = points.length - 1;
  if (last === 1) return [{ from: points[0]!, to: points[1]!, bulge: 0 }];
  const headings = points.map((_, i) => headingOfRun(points, i, ring));
  const way: number[] = [0];
  for (let i = 1; i <= last; i++) way.push(way[i - 1]! + distance(points[i - 1]!, points[i]!));
  const tried = (start: number, end: number): Span[] | undefined => {
    const made = biarc(points[start]!, headings[start]!, points[end]!, headings[end]!);
    const length = made.reduce((sum, span) => sum + lengthOf(span), 0);
    const along = way[end]! - way[start]!;
    if (length > along * 1.2 + 4 * tolerance || length < along * 0.8 - 4 * tolerance) return undefined;
    const step = Math.max(1, Math.floor((end - start) / 200));
    for (let i = start + 1; i < end; i += step) if (!isNear(made, points[i]!, tolerance)) return undefined;
    return made;
  };
  const spans: Span[] = [];
  for (let start = 0; start < last; ) {
    let good = start + 1;
    let made = tried(start, good) ?? [{ from: points[start]!, to: points[good]!, bulge: 0 }];
    // Doubling, then halving the gap: the longest stretch that one biarc fits.
    let bad = last + 1;
    for (let reach = 2; start + reach <= last || good < last; reach *= 2) {
      const end = Math.min(start + reach, last);
      if (end <= good) break;
      const next = tried(start, end);
      if (!next) {
        bad = end;
        break;
      }
      [good, made] = [end, next];
      if (end === last) break;
    }
    while (bad - good > 1 && good < last) {
      const middle = (good + bad) >> 1;
      const next = tried(start, middle);
      if (next) [good, made] = [middle, next];
      else bad = middle;
    }
    spans.push(...made);
    start = good;
  }
  return spans.filter((span) => chordOf(span) > 0);
}

/** Neighbours on each side that a heading is taken from: a little noise in the points then does no harm. */
const REACH = 3;

/** The way the points go at one of them: along the circle through it and a neighbour on each side. */
function headingOfRun(points: readonly Point[], i: number, ring: boolean): Point {
  const last = points.length - 1;
  const reach = ring ? Math.min(REACH, Math.floor(last / 3)) : Math.min(REACH, i, last - i);
  const at = (k: number) => points[ring ? (k + last) % last : k]!;
  if (reach >= 1) return middleHeading(at(i - reach), points[i]!, at(i + reach));
  // At an end, the heading at a point further in, mirrored in the chord between them.
  const inner = i === 0 ? Math.min(REACH, Math.floor(last / 2)) : last - Math.min(REACH, Math.floor(last / 2));
  const other = i === 0 ? Math.min(2 * inner, last) : Math.max(0, last - 2 * (last - inner));
  const there =
    i === 0
      ? middleHeading(points[0]!, points[inner]!, points[other]!)
      : middleHeading(points[other]!, points[inner]!, points[last]!);
  const chord = unit(points[inner]!.x - points[i]!.x, points[inner]!.y - points[i]!.y);
  const along = 2 * (chord.x * there.x + chord.y * there.y);
  return { x: along * chord.x - there.x, y: along * chord.y - there.y };
}

/** Heading at the middle one of three points of a circle. */
function middleHeading(a: Point, b: Point, c: Point): Point {
  const first = distance(a, b);
  const second = distance(b, c);
  if (first === 0 || second === 0) return unit(c.x - a.x, c.y - a.y);
  // The nearer chord says more.
  return unit(
    ((b.x - a.x) / first) * second + ((c.x - b.x) / second) * first,
    ((b.y - a.y) / first) * second + ((c.y - b.y) / second) * first,
  );
}

function cornersOf(points: readonly Point[], closed: boolean, degrees: number): number[] {
  const least = (degrees * Math.PI) / 180;
  const corners: number[] = [];
  const count = points.length;
  for (let i = closed ? 0 : 1; i < (closed ? count : count - 1); i++) {
    const [a, b, c] = [points[(i + count - 1) % count]!, points[i]!, points[(i + 1) % count]!];
    const turn = Math.atan2(
      (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x),
      (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y),
    );
    if (Math.abs(turn) > least) corners.push(i);
  }
  return corners;
}

function distinct(points: readonly Point[], least: number, closed: boolean): Point[] {
  const kept: Point[] = [];
  for (const point of points) {
    const before = kept.at(-1);
    if (!before || distance(before, point) > least) kept.push(point);
  }
  while (closed && kept.length > 1 && distance(kept[0]!, kept.at(-1)!) <= least) kept.pop();
  return kept;
}

/**
 * Two arcs (or lines) from one point to another, leaving in one direction and arriving in another, both of length one.
 * Of all such pairs the one whose tangents are as long at both ends.
 */
export function biarc(from: Point, out: Point, to: Point, into: Point): Span[] {
  const v = { x: to.x - from.x, y: to.y - from.y };
  const vv = v.x * v.x + v.y * v.y;
  const straight: Span[] = [{ from, to, bulge: 0 }];
  if (vv === 0) return straight;
  const vt = v.x * (out.x + into.x) + v.y * (out.y + into.y);
  const spread = 2 * (1 - (out.x * into.x + out.y * into.y));
  let reach: number;
  if (spread > 1e-9) reach = (Math.sqrt(Math.max(0, vt * vt + spread * vv)) - vt) / spread;
  else if (Math.abs(vt) > 1e-12) reach = vv / (2 * vt);
  else return straight;
  if (!(reach > 0) || !Number.isFinite(reach)) return straight;
  const meet = {
    x: (from.x + reach * out.x + to.x - reach * into.x) / 2,
    y: (from.y + reach * out.y + to.y - reach * into.y) / 2,
  };
  return [
    { from, to: meet, bulge: bulgeLeaving(from, meet, out) },
    // The second arc is the first seen from the far end: going back turns the sign.
    { from: meet, to, bulge: -bulgeLeaving(to, meet, { x: -into.x, y: -into.y }) },
  ];
}

/** Bulge of the arc between two points that leaves the first in a direction: half its turn lies between that and the chord. */
function bulgeLeaving(from: Point, to: Point, out: Point): number {
  const x = to.x - from.x;
  const y = to.y - from.y;
  const bulge = Math.tan(Math.atan2(out.x * y - out.y * x, out.x * x + out.y * y) / 2);
  return Math.abs(bulge) < 1e-9 ? 0 : bulge;
}

/** Arcs that go round most of a circle on a short way are no fit. */
const isLoop = (spans: readonly Span[]): boolean => spans.some((span) => Math.abs(sweepOf(span)) > Math.PI * 1.2);

const isNear = (spans: readonly Span[], point: Point, tolerance: number): boolean =>
  spans.some((span) => deviation(span, point) <= tolerance);

/** How far (mm) the middle of a joined span may come away from the two that it replaces. */
const SAME_LINE = 1e-6;

/** Neighbours that lie on one line or one circle, made one. */
export function joined(spans: readonly Span[], ring = false): Span[] {
  const kept: Span[] = [];
  for (const span of spans) {
    const before = kept.at(-1);
    const both = before && together(before, span);
    if (both) kept[kept.length - 1] = both;
    else kept.push(span);
  }
  while (ring && kept.length > 2) {
    const both = together(kept.at(-1)!, kept[0]!);
    if (!both) break;
    kept.pop();
    kept[0] = both;
  }
  return kept;
}

function together(one: Span, other: Span): Span | undefined {
  const turn = sweepOf(one) + sweepOf(other);
  // A line and an arc, or arcs that bend two ways, are two; and no more than half a turn, that a circle stays two arcs.
  if (Math.sign(one.bulge) !== Math.sign(other.bulge) || Math.abs(turn) > Math.PI + 1e-6) return undefined;
  const both: Span = { from: one.from, to: other.to, bulge: one.bulge === 0 ? 0 : Math.tan(turn / 4) };
  if (!(chordOf(both) > 0) || deviation(both, one.to) > SAME_LINE) return undefined;
  if (one.bulge === 0) return both;
  const radius = radiusOf(both);
  const off = Math.max(
    Math.abs(radius - radiusOf(one)) * Math.abs(sweepOf(one)),
    Math.abs(radius - radiusOf(other)) * Math.abs(sweepOf(other)),
  );
  return off <= 100 * SAME_LINE ? both : undefined;
}

const distance = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);

function unit(x: number, y: number): Point {
  const size = Math.hypot(x, y);
  return size > 0 ? { x: x / size, y: y / size } : { x: 1, y: 0 };
}
