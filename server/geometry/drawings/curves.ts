import { type Curve, fittedCurve } from '../outline/arcs.ts';
import type { Point, Span } from '../outline/span.ts';
import { applied, type Matrix } from '../outline/transform.ts';

/* The curves of drawing files as lines and arcs, none of them further than this from the curve. */

/** mm: a fifth of what a scribed line is wide. */
export const WITHIN = 0.01;

/** Once round, and what rounding adds. */
const WHOLE = 2 * Math.PI + 1e-6;

/** Part of an ellipse: `centre + u·cos t + v·sin t` from t = `start` to `end`, radians. */
export interface EllipseArc {
  readonly centre: Point;
  readonly u: Point;
  readonly v: Point;
  readonly start: number;
  readonly end: number;
}

/** Exact arcs where the ellipse is a circle, arcs in its place elsewhere. */
export function ellipseSpans({ centre, u, v, start, end }: EllipseArc): Span[] {
  const sweep = end - start;
  const at = (t: number): Point => ({
    x: centre.x + u.x * Math.cos(t) + v.x * Math.sin(t),
    y: centre.y + u.y * Math.cos(t) + v.y * Math.sin(t),
  });
  const size = Math.hypot(u.x, u.y);
  const isRound =
    Math.abs(size - Math.hypot(v.x, v.y)) <= 1e-7 * size && Math.abs(u.x * v.x + u.y * v.y) <= 1e-7 * size * size;
  if (!(Math.abs(sweep) > 0 && Math.abs(sweep) <= WHOLE) || !(size > 0)) return [];
  // Half a turn at most each: past that a bulge says less and less.
  const parts = Math.max(1, Math.ceil(Math.abs(sweep) / Math.PI - 1e-9));
  const step = sweep / parts;
  const turn = Math.sign(u.x * v.y - u.y * v.x);
  return Array.from({ length: parts }, (_, i): Span[] => {
    const [from, to] = [start + i * step, start + (i + 1) * step];
    if (isRound) return [{ from: at(from), to: at(to), bulge: turn * Math.tan(step / 4) }];
    return fittedCurve(
      {
        at: (share) => at(from + share * step),
        heading: (share) => {
          const t = from + share * step;
          const way = Math.sign(step);
          return {
            x: way * (v.x * Math.cos(t) - u.x * Math.sin(t)),
            y: way * (v.y * Math.cos(t) - u.y * Math.sin(t)),
          };
        },
      },
      WITHIN,
    );
  }).flat();
}

/** An ellipse seen through a matrix is an ellipse again. */
export function ellipseThrough([a, b, c, d, e, f]: Matrix, arc: EllipseArc): EllipseArc {
  const turned = ({ x, y }: Point): Point => ({ x: a * x + c * y, y: b * x + d * y });
  return {
    ...arc,
    centre: applied([a, b, c, d, e, f], arc.centre),
    u: turned(arc.u),
    v: turned(arc.v),
  };
}

/** A cubic Bézier curve. */
export function cubicSpans(p0: Point, p1: Point, p2: Point, p3: Point): Span[] {
  const mix = (t: number, key: 'x' | 'y') => {
    const s = 1 - t;
    return s * s * s * p0[key] + 3 * s * s * t * p1[key] + 3 * s * t * t * p2[key] + t * t * t * p3[key];
  };
  const slope = (t: number, key: 'x' | 'y') => {
    const s = 1 - t;
    return 3 * (s * s * (p1[key] - p0[key]) + 2 * s * t * (p2[key] - p1[key]) + t * t * (p3[key] - p2[key]));
  };
  const curve: Curve = {
    at: (t) => ({ x: mix(t, 'x'), y: mix(t, 'y') }),
    heading: (t) => ({ x: slope(t, 'x'), y: slope(t, 'y') }),
  };
  return fittedCurve(curve, WITHIN);
}

/**
 * A B-spline without weights, by de Boor's algorithm; one curve after the other for its knot spans. Nothing where knots and
 * points do not go together. Source: C. de Boor, A Practical Guide to Splines (1978), from memory.
 */
export function splineSpans(
  points: readonly Point[],
  degree: number,
  knots: readonly number[],
): Generator<Span[]> | undefined {
  if (degree < 1 || degree > HIGHEST || points.length <= degree || knots.length !== points.length + degree + 1)
    return undefined;
  if (knots.some((knot, i) => !Number.isFinite(knot) || (i > 0 && knot < knots[i - 1]!))) return undefined;
  return pieces(points, degree, knots);
}

/** The highest degree that a spline may have: drawing programs make cubic ones, and a few up to this. */
const HIGHEST = 11;

/** One knot span after the other, each when it is asked for. */
function* pieces(points: readonly Point[], degree: number, knots: readonly number[]): Generator<Span[]> {
  for (let i = degree; i < points.length; i++) {
    const [from, to] = [knots[i]!, knots[i + 1]!];
    if (!(to > from)) continue;
    const at = (share: number) => deBoor(points, degree, knots, i, from + share * (to - from));
    const heading = (share: number) => {
      const [a, b] = [at(Math.max(0, share - 1e-4)), at(Math.min(1, share + 1e-4))];
      return { x: b.x - a.x, y: b.y - a.y };
    };
    yield fittedCurve({ at, heading }, WITHIN);
  }
}

function deBoor(points: readonly Point[], degree: number, knots: readonly number[], span: number, t: number): Point {
  const d = Array.from({ length: degree + 1 }, (_, j) => points[j + span - degree]!);
  for (let r = 1; r <= degree; r++) {
    for (let j = degree; j >= r; j--) {
      const low = knots[j + span - degree]!;
      const wide = knots[j + 1 + span - r]! - low;
      const share = wide > 0 ? (t - low) / wide : 0;
      d[j] = {
        x: (1 - share) * d[j - 1]!.x + share * d[j]!.x,
        y: (1 - share) * d[j - 1]!.y + share * d[j]!.y,
      };
    }
  }
  return d[degree]!;
}
