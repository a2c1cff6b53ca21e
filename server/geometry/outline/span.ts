import type { Path, Vertex } from './path.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}

export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/** One line or arc of a path, mm. `bulge` as in {@link Vertex}; nought for a straight line. */
export interface Span {
  readonly from: Point;
  readonly to: Point;
  readonly bulge: number;
}

/** A bulge that no cut shows: over a metre, half a ten-millionth of a millimetre. */
const STRAIGHT = 1e-10;

/** The lines and arcs of a path in order, without those of no length. */
export function spansOf({ vertices, closed }: Path): Span[] {
  const spans: Span[] = [];
  for (let i = 0; i < (closed ? vertices.length : vertices.length - 1); i++) {
    const from = vertices[i]!;
    const to = vertices[(i + 1) % vertices.length]!;
    if (from.x !== to.x || from.y !== to.y) {
      const { bulge = 0 } = from;
      spans.push({ from, to, bulge: Math.abs(bulge) < STRAIGHT ? 0 : bulge });
    }
  }
  return spans;
}

/** The path that spans make, each beginning where the last one ends. */
export function pathOf(spans: readonly Span[], closed: boolean): Path {
  const vertices = spans.map(({ from, bulge }) => vertex(from, bulge));
  const last = spans.at(-1);
  if (!closed && last) vertices.push(vertex(last.to, 0));
  return { vertices, closed };
}

/** A vertex that carries no bulge where its line is straight. */
export const vertex = ({ x, y }: Point, bulge = 0): Vertex => (bulge === 0 ? { x, y } : { x, y, bulge });

export const chordOf = ({ from, to }: Span): number => Math.hypot(to.x - from.x, to.y - from.y);

/** The angle an arc turns through, radians, anticlockwise above nought; less than a whole turn. */
export const sweepOf = ({ bulge }: Span): number => 4 * Math.atan(bulge);

/** Radius, mm; infinite for a straight line. */
export const radiusOf = (span: Span): number =>
  span.bulge === 0 ? Number.POSITIVE_INFINITY : (chordOf(span) * (1 + span.bulge ** 2)) / (4 * Math.abs(span.bulge));

/** Middle of an arc's circle. Not for a straight line. */
export function centreOf({ from, to, bulge }: Span): Point {
  const h = (1 - bulge * bulge) / (4 * bulge);
  return {
    x: (from.x + to.x) / 2 - h * (to.y - from.y),
    y: (from.y + to.y) / 2 + h * (to.x - from.x),
  };
}

export function lengthOf(span: Span): number {
  const chord = chordOf(span);
  const { bulge } = span;
  return bulge === 0 ? chord : (chord * (1 + bulge * bulge) * Math.atan(bulge)) / bulge;
}

/** Area between an arc and its chord, mm², above nought where the arc turns anticlockwise. */
export function segmentAreaOf(span: Span): number {
  if (span.bulge === 0) return 0;
  const sweep = sweepOf(span);
  // Near a straight line sweep and sine cancel: the series keeps the digits.
  const rest =
    Math.abs(sweep) < 0.02 ? (sweep ** 3 / 6) * (1 - sweep ** 2 / 20 + sweep ** 4 / 840) : sweep - Math.sin(sweep);
  return (radiusOf(span) ** 2 * rest) / 2;
}

/** The point at a share 0…1 of the way along. */
export function pointOn(span: Span, share: number): Point {
  const { from, to } = span;
  if (share <= 0) return from;
  if (share >= 1) return to;
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  if (span.bulge === 0) return { x: from.x + dx * share, y: from.y + dy * share };
  // The chord to the point, turned from the whole chord: exact near a straight line too, where a centre is far away.
  const sweep = sweepOf(span);
  const long = Math.sin((sweep * share) / 2) / Math.sin(sweep / 2);
  const turn = (sweep * (share - 1)) / 2;
  const [c, s] = [Math.cos(turn) * long, Math.sin(turn) * long];
  return { x: from.x + dx * c - dy * s, y: from.y + dx * s + dy * c };
}

/** The way one goes at a share 0…1 along, of length one. */
export function headingOn(span: Span, share: number): Point {
  const chord = chordOf(span);
  const turn = sweepOf(span) * (share - 0.5);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const ux = (span.to.x - span.from.x) / chord;
  const uy = (span.to.y - span.from.y) / chord;
  return { x: ux * c - uy * s, y: ux * s + uy * c };
}

/** At which share 0…1 of a span a point lies that lies on it, or nearest to it. */
export function shareOf(span: Span, point: Point): number {
  const dx = point.x - span.from.x;
  const dy = point.y - span.from.y;
  if (dx === 0 && dy === 0) return 0;
  const start = headingOn(span, 0);
  const forward = start.x * dx + start.y * dy;
  if (span.bulge === 0) return Math.min(1, Math.max(0, forward / chordOf(span)));
  const sweep = sweepOf(span);
  if (Math.abs(sweep) < 1) {
    // By how far along the chord it lies, which a point a little beside a flat arc does not upset.
    const chord = chordOf(span);
    const along = (dx * (span.to.x - span.from.x) + dy * (span.to.y - span.from.y)) / (chord * chord);
    const half = sweep / 2;
    const turned = Math.asin(Math.min(1, Math.max(-1, Math.sin(half) * (2 * along - 1))));
    return Math.min(1, Math.max(0, (half + turned) / sweep));
  }
  let share = (2 * Math.atan2(start.x * dy - start.y * dx, forward)) / sweep;
  const around = (2 * Math.PI) / Math.abs(sweep);
  if (share < 0) share += around;
  // Beyond the end: whichever end is nearer round the circle.
  return share <= 1 ? share : share - 1 < around - share ? 1 : 0;
}

/** The part of a span between two shares. */
export function partOf(span: Span, start: number, end: number): Span {
  return {
    from: pointOn(span, start),
    to: pointOn(span, end),
    bulge: span.bulge === 0 || (start <= 0 && end >= 1) ? span.bulge : Math.tan((sweepOf(span) * (end - start)) / 4),
  };
}

export const reversedSpan = ({ from, to, bulge }: Span): Span => ({
  from: to,
  to: from,
  bulge: bulge === 0 ? 0 : -bulge,
});

/** The box of a span, exact: an arc reaches furthest where it runs level or upright. */
export function boxOfSpan(span: Span): Box {
  const { from, to } = span;
  const box = {
    left: Math.min(from.x, to.x),
    right: Math.max(from.x, to.x),
    bottom: Math.min(from.y, to.y),
    top: Math.max(from.y, to.y),
  };
  if (span.bulge === 0) return box;
  const sweep = sweepOf(span);
  const start = Math.atan2(to.y - from.y, to.x - from.x) - sweep / 2;
  for (let quarter = -6; quarter <= 6; quarter++) {
    const share = ((quarter * Math.PI) / 2 - start) / sweep;
    if (!(share > 0 && share < 1)) continue;
    const { x, y } = pointOn(span, share);
    box.left = Math.min(box.left, x);
    box.right = Math.max(box.right, x);
    box.bottom = Math.min(box.bottom, y);
    box.top = Math.max(box.top, y);
  }
  return box;
}

/** How far a point lies from a span, mm. */
export function deviation(span: Span, point: Point): number {
  const { from, to } = span;
  return (
    footOn(span, point)?.away ??
    Math.min(Math.hypot(point.x - from.x, point.y - from.y), Math.hypot(point.x - to.x, point.y - to.y))
  );
}

/** Where on a span a point lies square to it, as a share 0…1 of its way, and how far away, mm; nothing beyond its ends. */
export function footOn(span: Span, point: Point): { readonly share: number; readonly away: number } | undefined {
  const { from, to, bulge } = span;
  if (Math.abs(bulge) < 1e-6) {
    const [dx, dy, chord] = [to.x - from.x, to.y - from.y, chordOf(span)];
    const share = (dx * (point.x - from.x) + dy * (point.y - from.y)) / (chord * chord);
    const away = Math.abs(dx * (point.y - from.y) - dy * (point.x - from.x)) / chord;
    return share >= 0 && share <= 1 ? { share, away } : undefined;
  }
  const centre = centreOf(span);
  const [ax, ay] = [from.x - centre.x, from.y - centre.y];
  const [px, py] = [point.x - centre.x, point.y - centre.y];
  const turn = Math.sign(bulge) * Math.atan2(ax * py - ay * px, ax * px + ay * py);
  const share = (turn < 0 ? turn + 2 * Math.PI : turn) / Math.abs(sweepOf(span));
  return share <= 1 ? { share, away: Math.abs(Math.hypot(px, py) - radiusOf(span)) } : undefined;
}

/** The box round both. */
export const around = (one: Box, other: Box): Box => ({
  left: Math.min(one.left, other.left),
  right: Math.max(one.right, other.right),
  bottom: Math.min(one.bottom, other.bottom),
  top: Math.max(one.top, other.top),
});

/**
 * How many times closed spans run round a point, anticlockwise above nought. On the line itself either answer may come. Told
 * by a ray from the point, to the right or up: spans that it cannot meet need not be given.
 */
export function windingOf(spans: readonly Span[], { x, y }: Point, up = false): number {
  let winding = 0;
  for (const span of spans) {
    const { from, to } = span;
    const side = (to.x - from.x) * (y - from.y) - (x - from.x) * (to.y - from.y);
    // The chords first, by the crossings of the ray. Upwards it is that to the right a quarter turn back.
    const [start, end] = up ? [x - from.x, x - to.x] : [from.y - y, to.y - y];
    if (start <= 0) {
      if (end > 0 && side > 0) winding++;
    } else if (end <= 0 && side < 0) winding--;
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
