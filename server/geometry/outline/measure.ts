import { Arc, Point as FlatPoint, Segment } from '@flatten-js/core';
import { atOnce, type Steps } from '../../incremental/steps.ts';
import type { Path } from './path.ts';
import {
  around,
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
  windingOf,
} from './span.ts';
import { indexOf, SpanIndex } from './span-index.ts';

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
  if (path.vertices.length <= FEW) return newBoxOf(path);
  let box = boxes.get(path);
  if (!box) {
    box = newBoxOf(path);
    boxes.set(path, box);
  }
  return box;
}

const boxes = new WeakMap<Path, Box>();

function newBoxOf(path: Path): Box {
  const first = path.vertices[0];
  if (!first) return { left: 0, right: 0, bottom: 0, top: 0 };
  let box: Box = { left: first.x, right: first.x, bottom: first.y, top: first.y };
  for (const span of spansOf(path)) box = around(box, boxOfSpan(span));
  return box;
}

/** The same path the other way round. */
export const reversed = (path: Path): Path => pathOf(spansOf(path).reverse().map(reversedSpan), path.closed);

/** The closed path so that its inside lies to the left. */
export const anticlockwise = (path: Path): Path => (signedArea(path) < 0 ? reversed(path) : path);

/** Whether a point lies inside a closed path, whichever way it runs. */
export const contains = (path: Path, point: Point): boolean =>
  (path.vertices.length > FEW ? indexOf(path).winding(point) : windingOf(spansOf(path), point)) !== 0;

/** A path of no more vertices is gone through as often as anybody asks; what is known of a longer one is kept. */
const FEW = 24;

/** The shortest way from a point to a path, mm; without end to a path of nothing. */
export const distanceTo = (path: Path, point: Point): number =>
  nearestOn(path, point)?.distance ?? Number.POSITIVE_INFINITY;

/** The place of a path that lies nearest to a point, and how far away, mm; nothing on a path of nothing. */
export function nearestOn(path: Path, point: Point): { readonly distance: number; readonly at: Point } | undefined {
  const from = new FlatPoint(point.x, point.y);
  const index = path.vertices.length > FEW ? indexOf(path) : new SpanIndex(spansOf(path));
  const nearest = index.nearest(point, (span) => from.distanceTo(shapeOf(span))[0]);
  if (!nearest) return undefined;
  const [distance, way] = from.distanceTo(shapeOf(nearest.span));
  return { distance, at: { x: way.pe.x, y: way.pe.y } };
}

/** A sagitta (mm) under which an arc counts as a straight line where lines meet: its centre would be too far to reckon with. */
const FLAT = 1e-5;

const isFlat = (span: Span): boolean => (Math.abs(span.bulge) * chordOf(span)) / 2 < FLAT;

/** A span for the library. */
function shapeOf(span: Span): Segment | Arc {
  const { from, to, bulge } = span;
  if (isFlat(span)) return new Segment(new FlatPoint(from.x, from.y), new FlatPoint(to.x, to.y));
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

/** Pairs of spans whose boxes meet, in one question: past it lines lie so close in each other that no cutter parts them. */
const MOST_PAIRS = 1_000_000;

/**
 * Every place where two of the spans meet, ends included, with stops where others may go first. Instead of them all `too many`,
 * where too many lie so near each other that one would have to look at them. What two of them do that `isPlain` names is known.
 */
export function* meetings(
  spans: readonly Span[],
  isPlain: (one: number, other: number) => boolean = () => false,
): Generator<Meeting | 'stop' | 'too many', void, undefined> {
  const boxes: Box[] = [];
  for (const span of spans) if (boxes.push(boxOfSpan(span)) % BOXES_AT_ONCE === 0) yield 'stop';
  const index = new SpanIndex(spans, boxes);
  const shapes: (Segment | Arc | undefined)[] = [];
  const shape = (i: number) => (shapes[i] ??= shapeOf(spans[i]!));
  if (boxes.length > BOXES_AT_ONCE) {
    yield 'stop';
    index.indexed();
    yield 'stop';
  }
  const order = boxes.map((_, i) => i).sort((a, b) => boxes[a]!.left - boxes[b]!.left);
  if (boxes.length > BOXES_AT_ONCE) yield 'stop';
  const places: number[] = [];
  for (const [place, i] of order.entries()) places[i] = place;
  let work = 0;
  // Counted before any of them is looked at.
  let pairs = 0;
  for (const box of boxes) {
    const { length } = index.near(box, NEAR);
    work += 1 + length / FAST;
    if (work > LOOKED_AT_ONCE) {
      work = 0;
      yield 'stop';
    }
    // Each pair twice, and each with itself.
    pairs += (length - 1) / 2;
    if (pairs > MOST_PAIRS) {
      yield 'too many';
      return;
    }
  }
  for (const [place, i] of order.entries()) {
    const near = index.near(boxes[i]!, NEAR);
    // Most pairs are told apart fast.
    work += 1 + near.length / FAST;
    if (work > LOOKED_AT_ONCE) {
      work = 0;
      yield 'stop';
    }
    const others = near.filter((j) => places[j]! > place);
    for (const j of others.sort((a, b) => places[a]! - places[b]!)) {
      if (!mayMeet(spans[i]!, spans[j]!) || isPlain(Math.min(i, j), Math.max(i, j))) continue;
      if (++work > LOOKED_AT_ONCE) {
        work = 0;
        yield 'stop';
      }
      const [a, b] = i < j ? [i, j] : [j, i];
      for (const { x, y } of shape(a).intersect(shape(b) as Segment)) yield { one: a, other: b, at: { x, y } };
    }
  }
}

/** Spans looked for, or pairs put through the library, before others may go first. */
const LOOKED_AT_ONCE = 500;
const BOXES_AT_ONCE = 5_000;
/** So many pairs are looked at in the time that the library takes for one. */
const FAST = 20;

/** Whether two spans may meet, told fast: where they clearly do not, the library is not asked. */
function mayMeet(one: Span, other: Span): boolean {
  const [a, b] = [isFlat(one), isFlat(other)];
  if (a && b) return !isBeside(one, other) && !isBeside(other, one);
  if (a || b) {
    const [line, arc] = a ? [one, other] : [other, one];
    return Math.abs(sideOf(line, centreOf(arc))) <= radiusOf(arc) + CLEARLY;
  }
  const [p, q, r, s] = [centreOf(one), centreOf(other), radiusOf(one), radiusOf(other)];
  const apart = Math.hypot(p.x - q.x, p.y - q.y);
  return apart <= r + s + CLEARLY && apart >= Math.abs(r - s) - CLEARLY;
}

/** How far a point lies from the line through a span's ends, above nought on its left. */
const sideOf = (line: Span, { x, y }: Point): number =>
  ((line.to.x - line.from.x) * (y - line.from.y) - (x - line.from.x) * (line.to.y - line.from.y)) / chordOf(line);

function isBeside(line: Span, other: Span): boolean {
  const [from, to] = [sideOf(line, other.from), sideOf(line, other.to)];
  return Math.min(from, to) > CLEARLY || Math.max(from, to) < -CLEARLY;
}

/** Beyond all that the library, or rounding, would still take for a meeting, mm. */
const CLEARLY = 1e-4;

/** How near counts as meeting, mm: the tolerance of the library. */
const NEAR = 1e-6;

/** The first place found where a path crosses or touches itself; nothing if it does neither. */
export function crossingOf(path: Path): Point | undefined {
  const found = atOnce(crossingIn(path));
  return found === 'too many' ? undefined : found;
}

/** The same with stops; `too many` as of {@link meetings}. */
export function* crossingIn(path: Path): Steps<Point | 'too many' | undefined> {
  const origin = path.vertices[0];
  if (!origin) return undefined;
  const local = (p: Point): Point => ({ x: p.x - origin.x, y: p.y - origin.y });
  const spans = spansOf(path).map((span) => ({ ...span, from: local(span.from), to: local(span.to) }));
  const isEnd = (at: Point, end: Point) => Math.hypot(at.x - end.x, at.y - end.y) < 5 * NEAR;
  // Two straight lines that follow each other and do not turn back meet where one ends, and nowhere else.
  const goesOn = (one: number, other: number) => {
    const isClosing = path.closed && one === 0 && other === spans.length - 1;
    if (spans.length < 3 || (other - one !== 1 && !isClosing)) return false;
    const [a, b] = isClosing ? [spans[other]!, spans[one]!] : [spans[one]!, spans[other]!];
    return isFlat(a) && isFlat(b) && goesAhead(a, b);
  };
  for (const met of meetings(spans, goesOn)) {
    if (met === 'too many') return met;
    if (met === 'stop') {
      yield undefined;
      continue;
    }
    const { one, other, at } = met;
    const [a, b] = [spans[one]!, spans[other]!];
    if (other - one === 1 && isEnd(at, a.to)) continue;
    if (path.closed && one === 0 && other === spans.length - 1 && isEnd(at, a.from)) continue;
    // Two arcs that make a ring meet at both ends.
    if (path.closed && spans.length === 2 && (isEnd(at, b.from) || isEnd(at, b.to))) continue;
    return { x: at.x + origin.x, y: at.y + origin.y };
  }
  return undefined;
}

/** Whether a line that begins where another ends turns by less than a right angle from it, and neither is as short as a meeting is wide. */
function goesAhead({ from, to }: Span, { to: next }: Span): boolean {
  const [ax, ay, bx, by] = [to.x - from.x, to.y - from.y, next.x - to.x, next.y - to.y];
  const least = 10 * NEAR;
  return ax * bx + ay * by > 0 && ax * ax + ay * ay > least * least && bx * bx + by * by > least * least;
}
