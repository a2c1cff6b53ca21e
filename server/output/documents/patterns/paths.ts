import { boxOfPath } from '../../../geometry/outline/measure.ts';
import { circle } from '../../../geometry/outline/oval.ts';
import type { Path, Vertex } from '../../../geometry/outline/path.ts';
import {
  around,
  type Box,
  centreOf,
  headingOn,
  lengthOf,
  type Point,
  partOf,
  pathOf,
  pointOn,
  radians,
  radiusOf,
  type Span,
  spansOf,
} from '../../../geometry/outline/span.ts';

export { circle, oval } from '../../../geometry/outline/oval.ts';
export { type Box, type Point, radians } from '../../../geometry/outline/span.ts';

/* Paths of straight lines and arcs, mm, as patterns are drawn of. */

/** A point of a path, and the way that the path runs there, degrees from x. */
export interface Station extends Point {
  readonly turn: number;
}

const degrees = (angle: number): number => (angle * 180) / Math.PI;
export const distance = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);

// ---- made ----------------------------------------------------------------------------------------------------------

export const line = (from: Point, to: Point): Path => ({
  vertices: [
    { x: from.x, y: from.y },
    { x: to.x, y: to.y },
  ],
  closed: false,
});

export function rectangle(left: number, bottom: number, right: number, top: number): Path {
  const vertices = [
    { x: left, y: bottom },
    { x: right, y: bottom },
    { x: right, y: top },
    { x: left, y: top },
  ];
  return { vertices, closed: true };
}

/** An arc of any sweep up to a full turn, radians, in halves, so that no bulge grows past that of a half circle. */
export function arc(centre: Point, radius: number, start: number, sweep: number): Path {
  const bulge = Math.tan(sweep / 8);
  const on = (angle: number) => ({ x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) });
  return {
    vertices: [{ ...on(start), bulge }, { ...on(start + sweep / 2), bulge }, on(start + sweep)],
    closed: false,
  };
}

/** A slot with half-round ends about a middle, its long measure turned from x, degrees. */
export function slot(centre: Point, long: number, wide: number, turn = 0): Path {
  if (long < wide) return slot(centre, wide, long, turn + 90);
  if (long - wide < 1e-9) return circle(centre, wide / 2);
  const [half, radius] = [(long - wide) / 2, wide / 2];
  const path: Path = {
    vertices: [
      { x: -half, y: -radius },
      { x: half, y: -radius, bulge: 1 },
      { x: half, y: radius },
      { x: -half, y: radius, bulge: 1 },
    ],
    closed: true,
  };
  return moved(turned(path, turn), centre.x, centre.y);
}

/** Open paths end to end as one closed path; ends that meet become one vertex. */
export function ring(paths: readonly Path[]): Path {
  const spans = paths.flatMap(spansOf);
  return pathOf(
    spans.filter((span) => distance(span.from, span.to) > 1e-9 || span.bulge !== 0),
    true,
  );
}

// ---- measured ------------------------------------------------------------------------------------------------------

/** The place so many mm along a path, and the way it runs there; a closed path goes round again. */
export function along(path: Path, way: number): Station {
  const spans = spansOf(path);
  const whole = spans.reduce((sum, span) => sum + lengthOf(span), 0);
  let left = path.closed && whole > 0 ? ((way % whole) + whole) % whole : way;
  for (const [i, span] of spans.entries()) {
    const length = lengthOf(span);
    if (left > length && i < spans.length - 1) {
      left -= length;
      continue;
    }
    const share = Math.min(1, Math.max(0, left / length));
    const { x, y } = headingOn(span, share);
    return { ...pointOn(span, share), turn: degrees(Math.atan2(y, x)) };
  }
  return { x: path.vertices[0]?.x ?? 0, y: path.vertices[0]?.y ?? 0, turn: 0 };
}

/** The part of a path from one length along it to another. */
export function part(path: Path, from: number, to: number): Path {
  const found: Span[] = [];
  let at = 0;
  for (const span of spansOf(path)) {
    const length = lengthOf(span);
    const [start, end] = [Math.max(from - at, 0) / length, Math.min(to - at, length) / length];
    if (end - start > 1e-9) found.push(partOf(span, start, end));
    at += length;
  }
  return pathOf(found, false);
}

/** So far to the left of the way that a path runs (to the right, below nought), from a place on it. */
export function beside({ x, y, turn }: Station, by: number): Point {
  const angle = radians(turn + 90);
  return { x: x + by * Math.cos(angle), y: y + by * Math.sin(angle) };
}

export const boxOf = (paths: readonly Path[]): Box => paths.map(boxOfPath).reduce(around);

/** The circle that a closed path is, if it is one. */
export function asCircle(path: Path): { readonly centre: Point; readonly radius: number } | undefined {
  const spans = spansOf(path);
  const first = spans[0];
  if (!path.closed || !first || spans.length < 2 || spans.some(({ bulge }) => bulge === 0)) return undefined;
  const [centre, radius] = [centreOf(first), radiusOf(first)];
  const near = 1e-6 * Math.max(1, radius);
  const isWhole = spans.every(
    (span) => distance(centreOf(span), centre) < near && Math.abs(radiusOf(span) - radius) < near,
  );
  return isWhole ? { centre, radius } : undefined;
}

// ---- moved ---------------------------------------------------------------------------------------------------------

function mapped(path: Path, to: (point: Point) => Point): Path {
  const vertices = path.vertices.map((vertex): Vertex => {
    const { x, y } = to(vertex);
    return vertex.bulge ? { x, y, bulge: vertex.bulge } : { x, y };
  });
  return { vertices, closed: path.closed };
}

export const moved = (path: Path, dx: number, dy: number): Path =>
  mapped(path, ({ x, y }) => ({ x: x + dx, y: y + dy }));

/** Turned about the origin, degrees anticlockwise; quarter turns are exact. */
export const turned = (path: Path, angle: number): Path => mapped(path, (point) => turnedPoint(point, angle));

export function turnedPoint({ x, y }: Point, angle: number): Point {
  const quarter = (((angle / 90) % 4) + 4) % 4;
  const isExact = Number.isInteger(quarter);
  const cos = isExact ? [1, 0, -1, 0][quarter]! : Math.cos(radians(angle));
  const sin = isExact ? [0, 1, 0, -1][quarter]! : Math.sin(radians(angle));
  return { x: x * cos - y * sin, y: x * sin + y * cos };
}
