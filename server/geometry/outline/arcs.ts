import { chordOf, deviation, type Point, radiusOf, type Span, sweepOf } from './span.ts';

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
  const [first, between, last] = [0, 0.5, 1].map((t) => curve.at(t)) as [Point, Point, Point];
  // A curve that nobody can draw has no halves that could be drawn: it is for the caller to say so.
  if (![first, between, last].every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y)))
    return [{ from: first, to: last, bulge: Number.NaN }];
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
 * Two arcs (or lines) from one point to another, leaving in one direction and arriving in another, both of length one.
 * Of all such pairs the one whose tangents are as long at both ends.
 */
function biarc(from: Point, out: Point, to: Point, into: Point): Span[] {
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

function unit(x: number, y: number): Point {
  const size = Math.hypot(x, y);
  return size > 0 ? { x: x / size, y: y / size } : { x: 1, y: 0 };
}
