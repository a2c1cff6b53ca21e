import type { Path, Vertex } from './path.ts';
import { type Point, vertex } from './span.ts';

/**
 * A corner of an outline as a spec gives it, mm. `radius` belongs to the arc that LEADS to this point from the one
 * before; the first point's radius to the line that closes the outline. A positive radius bulges to the left of the way
 * one travels, a negative one to the right; the arc is never more than half a circle. No radius, or nought: a straight line.
 */
export interface Corner extends Point {
  readonly radius?: number;
}

/** A corner whose arc cannot reach it, since its radius is smaller than half the way from the corner before. */
export interface TooTight {
  readonly corner: number;
  /** The least radius that reaches, mm. */
  readonly least: number;
}

/** The closed path through corners, and the first arc in it that cannot reach: a straight line stands in its place. */
export function pathOfCorners(corners: readonly Corner[]): { path: Path; tooTight?: TooTight } {
  let tooTight: TooTight | undefined;
  const vertices = corners.map((from, i): Vertex => {
    const next = (i + 1) % corners.length;
    const to = corners[next]!;
    const radius = to.radius ?? 0;
    const half = Math.hypot(to.x - from.x, to.y - from.y) / 2;
    if (radius === 0 || half === 0 || !Number.isFinite(radius)) return vertex(from);
    // A half circle written in rounded numbers may miss half the chord by a hair: let it pass as a half circle.
    if (Math.abs(radius) < half * (1 - 1e-9)) {
      tooTight ??= { corner: next, least: half };
      return vertex(from);
    }
    const bulge = Math.tan(Math.asin(Math.min(1, half / Math.abs(radius))) / 2);
    return vertex(from, radius > 0 ? -bulge : bulge);
  });
  return { path: { vertices, closed: true }, ...(tooTight ? { tooTight } : {}) };
}
