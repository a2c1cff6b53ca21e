import { fittedCurve } from './arcs.ts';
import type { Path } from './path.ts';
import { headingOn, type Point, pathOf, pointOn, radians, type Span, spansOf } from './span.ts';

/** x′ = ax + cy + e, y′ = bx + dy + f, as SVG writes its `matrix(a b c d e f)`. */
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export const SAME: Matrix = [1, 0, 0, 1, 0, 0];

/** What first `inner` does and then `outer`. */
export const after = (outer: Matrix, inner: Matrix): Matrix => {
  const [a, b, c, d, e, f] = outer;
  const [g, h, i, j, k, l] = inner;
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
};

export const applied = ([a, b, c, d, e, f]: Matrix, { x, y }: Point): Point => ({
  x: a * x + c * y + e,
  y: b * x + d * y + f,
});

/** Turned by degrees anticlockwise about the origin. */
export function turning(degrees: number): Matrix {
  const angle = radians(degrees);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [c, s, -s, c, 0, 0];
}

export const moving = (x: number, y: number): Matrix => [1, 0, 0, 1, x, y];
export const scaling = (x: number, y = x): Matrix => [x, 0, 0, y, 0, 0];

/** Whether circles stay circles: to one part in a million. */
function keepsCircles([a, b, c, d]: Matrix): boolean {
  const size = Math.hypot(a, b);
  const near = (x: number, y: number) => Math.abs(x - y) <= 1e-6 * size;
  return (near(a, d) && near(b, -c)) || (near(a, -d) && near(b, c));
}

/**
 * A path moved, turned, scaled or mirrored. Arcs stay arcs where circles stay circles; where they become ellipses, arcs
 * take their place within `tolerance`, mm.
 */
export function transformed(path: Path, matrix: Matrix, tolerance: number): Path {
  const [a, b, c, d] = matrix;
  const side = a * d - b * c < 0 ? -1 : 1;
  const round = keepsCircles(matrix);
  const spans = spansOf(path).flatMap((span): Span[] => {
    const from = applied(matrix, span.from);
    const to = applied(matrix, span.to);
    if (span.bulge === 0 || round) return [{ from, to, bulge: span.bulge === 0 ? 0 : side * span.bulge }];
    return fittedCurve(
      {
        at: (t) => applied(matrix, pointOn(span, t)),
        heading: (t) => {
          const { x, y } = headingOn(span, t);
          return { x: a * x + c * y, y: b * x + d * y };
        },
      },
      tolerance,
    );
  });
  return pathOf(spans, path.closed);
}
