/*
 * Two plates cut by a plane across the line that they turn about: there a bend is a turn in the plane, about nought.
 */

/** A place in such a plane, mm. */
export type Flat = readonly [x: number, y: number];

/** Turned about nought, anticlockwise, rad. */
export function turnedFlat([x, y]: Flat, angle: number): Flat {
  const [s, c] = [Math.sin(angle), Math.cos(angle)];
  return [c * x - s * y, s * x + c * y];
}

/**
 * How far along a line, from its start, the place of it lies that is nearest to a point, mm. Beyond its ends it goes straight on,
 * so that it is below nought before the start.
 */
export function alongTo(line: readonly Flat[], point: Flat): number {
  let [best, least] = [0, Number.POSITIVE_INFINITY];
  let gone = 0;
  const last = line.length - 2;
  for (let i = 0; i <= last; i++) {
    const [a, b] = [line[i]!, line[i + 1]!];
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const long = Math.sqrt(dx * dx + dy * dy);
    if (!(long > 0)) continue;
    const raw = ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / (long * long);
    const share = Math.min(
      i === last ? Number.POSITIVE_INFINITY : 1,
      Math.max(i === 0 ? Number.NEGATIVE_INFINITY : 0, raw),
    );
    const [ex, ey] = [a[0] + share * dx - point[0], a[1] + share * dy - point[1]];
    const square = ex * ex + ey * ey;
    if (square < least) [best, least] = [gone + share * long, square];
    gone += long;
  }
  return best;
}

/**
 * The least distance between two lines, mm; nought where they cross.
 */
export function apartFlat(one: readonly Flat[], other: readonly Flat[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 1 < one.length; i++)
    for (let j = 0; j + 1 < other.length; j++) {
      const square = squareApart(one[i]!, one[i + 1]!, other[j]!, other[j + 1]!, least);
      if (square === 0) return 0;
      if (square < least) least = square;
    }
  return Math.sqrt(least);
}

/** The same, squared, of two stretches; any number no less than `least` where they are clearly further. */
function squareApart(a: Flat, b: Flat, c: Flat, d: Flat, least: number): number {
  const [ax, ay, bx, by] = [a[0], a[1], b[0], b[1]];
  const [cx, cy, dx, dy] = [c[0], c[1], d[0], d[1]];
  const gapX = Math.max(Math.min(ax, bx) - Math.max(cx, dx), Math.min(cx, dx) - Math.max(ax, bx), 0);
  const gapY = Math.max(Math.min(ay, by) - Math.max(cy, dy), Math.min(cy, dy) - Math.max(ay, by), 0);
  const bound = gapX * gapX + gapY * gapY;
  if (bound >= least) return bound;
  const side = (px: number, py: number, qx: number, qy: number, rx: number, ry: number) =>
    (qx - px) * (ry - py) - (qy - py) * (rx - px);
  const [s1, s2] = [side(ax, ay, bx, by, cx, cy), side(ax, ay, bx, by, dx, dy)];
  const [s3, s4] = [side(cx, cy, dx, dy, ax, ay), side(cx, cy, dx, dy, bx, by)];
  if (s1 * s2 < 0 && s3 * s4 < 0) return 0;
  return Math.min(
    toStretch(ax, ay, cx, cy, dx, dy),
    toStretch(bx, by, cx, cy, dx, dy),
    toStretch(cx, cy, ax, ay, bx, by),
    toStretch(dx, dy, ax, ay, bx, by),
  );
}

function toStretch(px: number, py: number, ax: number, ay: number, bx: number, by: number): number {
  const [ux, uy] = [bx - ax, by - ay];
  const square = ux * ux + uy * uy;
  const share = square > 0 ? Math.min(1, Math.max(0, ((px - ax) * ux + (py - ay) * uy) / square)) : 0;
  const [ex, ey] = [ax + share * ux - px, ay + share * uy - py];
  return ex * ex + ey * ey;
}
