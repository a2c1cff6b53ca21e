import type { Path } from './path.ts';
import { type Point, pointOn, radiusOf, spansOf, sweepOf } from './span.ts';

/**
 * The vertices of a path with chords for its arcs, none further than `tolerance` (mm, above nought) from its arc.
 * A closed path does not repeat its first point.
 */
export function flattened(path: Path, tolerance: number): Point[] {
  const points: Point[] = [];
  const spans = spansOf(path);
  for (const span of spans) {
    points.push(span.from);
    if (span.bulge === 0) continue;
    const steps = chordsFor(radiusOf(span), Math.abs(sweepOf(span)), tolerance);
    for (let i = 1; i < steps; i++) points.push(pointOn(span, i / steps));
  }
  const last = spans.at(-1);
  if (!path.closed && last) points.push(last.to);
  return points;
}

/** Into how many chords an arc is cut: at most a quarter turn each, at most ten thousand. */
function chordsFor(radius: number, sweep: number, tolerance: number): number {
  const most = radius > tolerance ? 2 * Math.acos(1 - tolerance / radius) : Math.PI / 2;
  return Math.min(10_000, Math.max(1, Math.ceil(sweep / Math.min(Math.max(most, 1e-9), Math.PI / 2))));
}
