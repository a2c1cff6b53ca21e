import { Arc, Point as FlatPoint, Segment } from '@flatten-js/core';
import type { Path } from './path.ts';
import {
  type Box,
  boxOfSpan,
  centreOf,
  chordOf,
  lengthOf,
  type Point,
  pathOf,
  radiusOf,
  reversedSpan,
  type Span,
  segmentAreaOf,
  spansOf,
  sweepOf,
} from './span.ts';

/* Measures of an outline, exact with its arcs. All in mm and mm². */

/** Area of a closed path, mm²: above nought where it runs anticlockwise. An open one is taken as closed by a line. */
export function signedArea(path: Path): number {
  // From the first vertex, so that a small outline far from the origin keeps its digits.
  const origin = path.vertices[0] ?? { x: 0, y: 0 };
  let doubled = 0;
  let segments = 0;
  for (const span of spansOf(path)) {
    doubled += (span.from.x - origin.x) * (span.to.y - origin.y) - (span.to.x - origin.x) * (span.from.y - origin.y);
    segments += segmentAreaOf(span);
  }
  return doubled / 2 + segments;
}

/** Way along a path, mm. */
export const lengthOfPath = (path: Path): number => spansOf(path).reduce((sum, span) => sum + lengthOf(span), 0);

/** Box of a path, mm; of nothing, all nought. */
export function boxOfPath(path: Path): Box {
  const first = path.vertices[0];
  if (!first) return { left: 0, right: 0, bottom: 0, top: 0 };
  let box: Box = { left: first.x, right: first.x, bottom: first.y, top: first.y };
  for (const span of spansOf(path)) box = around(box, boxOfSpan(span));
  return box;
}

/** The box round both. */
export const around = (one: Box, other: Box): Box => ({
  left: Math.min(one.left, other.left),
  right: Math.max(one.right, other.right),
  bottom: Math.min(one.bottom, other.bottom),
  top: Math.max(one.top, other.top),
});

/** The same path the other way round. */
export const reversed = (path: Path): Path => pathOf(spansOf(path).reverse().map(reversedSpan), path.closed);

/** The closed path so that its inside lies to the left. */
export const anticlockwise = (path: Path): Path => (signedArea(path) < 0 ? reversed(path) : path);

/** How many times closed spans run round a point, anticlockwise above nought. On the line itself either answer may come. */
export function windingOf(spans: readonly Span[], { x, y }: Point): number {
  let winding = 0;
  for (const span of spans) {
    const { from, to } = span;
    const side = (to.x - from.x) * (y - from.y) - (x - from.x) * (to.y - from.y);
    // The chords first, by the crossings of a ray to the right.
    if (from.y <= y) {
      if (to.y > y && side > 0) winding++;
    } else if (to.y <= y && side < 0) winding--;
    // A point between an arc and its chord is gone round once more: it sees the chord under a wider angle than the arc's
    // own points do. So there is no need of a middle, which for a flat arc is too far away to reckon with.
    if (span.bulge !== 0 && side * span.bulge < 0) {
      const [ax, ay, bx, by] = [from.x - x, from.y - y, to.x - x, to.y - y];
      const angle = Math.abs(Math.atan2(ax * by - ay * bx, ax * bx + ay * by));
      if (angle > Math.PI - Math.abs(sweepOf(span)) / 2) winding += Math.sign(span.bulge);
    }
  }
  return winding;
}

/** Whether a point lies inside a closed path, whichever way it runs. */
export const contains = (path: Path, point: Point): boolean => windingOf(spansOf(path), point) !== 0;

/** The shortest way from a point to a path, mm; without end to a path of nothing. */
export const distanceTo = (path: Path, point: Point): number =>
  nearestOn(path, point)?.distance ?? Number.POSITIVE_INFINITY;

/** The place of a path that lies nearest to a point, and how far away, mm; nothing on a path of nothing. */
export function nearestOn(path: Path, point: Point): { readonly distance: number; readonly at: Point } | undefined {
  const from = new FlatPoint(point.x, point.y);
  let nearest: { distance: number; at: Point } | undefined;
  for (const span of spansOf(path)) {
    const [distance, way] = from.distanceTo(shapeOf(span));
    if (!nearest || distance < nearest.distance) nearest = { distance, at: { x: way.pe.x, y: way.pe.y } };
  }
  return nearest;
}

/** A sagitta (mm) under which an arc counts as a straight line where lines meet: its centre would be too far to reckon with. */
const FLAT = 1e-5;

/** A span for the library. */
export function shapeOf(span: Span): Segment | Arc {
  const { from, to, bulge } = span;
  if ((Math.abs(bulge) * chordOf(span)) / 2 < FLAT)
    return new Segment(new FlatPoint(from.x, from.y), new FlatPoint(to.x, to.y));
  const centre = centreOf(span);
  const angle = (point: Point) => Math.atan2(point.y - centre.y, point.x - centre.x);
  return new Arc(
    new FlatPoint(centre.x, centre.y),
    radiusOf(span),
    angle(from),
    angle(from) + sweepOf(span),
    bulge > 0,
  );
}

export interface Meeting {
  /** Which two spans, the first before the second. */
  readonly one: number;
  readonly other: number;
  readonly at: Point;
}

/** Every place where two of the spans meet, ends included. */
export function* meetings(spans: readonly Span[]): Generator<Meeting> {
  const boxes = spans.map(boxOfSpan);
  const shapes: (Segment | Arc | undefined)[] = [];
  const shape = (i: number) => (shapes[i] ??= shapeOf(spans[i]!));
  const order = boxes.map((_, i) => i).sort((a, b) => boxes[a]!.left - boxes[b]!.left);
  for (const [place, i] of order.entries()) {
    const box = boxes[i]!;
    for (let next = place + 1; next < order.length; next++) {
      const j = order[next]!;
      const other = boxes[j]!;
      if (other.left > box.right + NEAR) break;
      if (other.bottom > box.top + NEAR || other.top < box.bottom - NEAR) continue;
      const [a, b] = i < j ? [i, j] : [j, i];
      for (const { x, y } of shape(a).intersect(shape(b) as Segment)) yield { one: a, other: b, at: { x, y } };
    }
  }
}

/** How near counts as meeting, mm: the tolerance of the library. */
const NEAR = 1e-6;

/** The first place found where a path crosses or touches itself; nothing if it does neither. */
export function crossingOf(path: Path): Point | undefined {
  const origin = path.vertices[0];
  if (!origin) return undefined;
  const local = (p: Point): Point => ({ x: p.x - origin.x, y: p.y - origin.y });
  const spans = spansOf(path).map((span) => ({ ...span, from: local(span.from), to: local(span.to) }));
  const isEnd = (at: Point, end: Point) => Math.hypot(at.x - end.x, at.y - end.y) < 5 * NEAR;
  for (const { one, other, at } of meetings(spans)) {
    const [a, b] = [spans[one]!, spans[other]!];
    if (other - one === 1 && isEnd(at, a.to)) continue;
    if (path.closed && one === 0 && other === spans.length - 1 && isEnd(at, a.from)) continue;
    // Two arcs that make a ring meet at both ends.
    if (path.closed && spans.length === 2 && (isEnd(at, b.from) || isEnd(at, b.to))) continue;
    return { x: at.x + origin.x, y: at.y + origin.y };
  }
  return undefined;
}
