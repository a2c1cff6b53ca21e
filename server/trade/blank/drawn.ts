import { lengthOfPath, signedArea } from '../../geometry/outline/measure.ts';
import type { Path } from '../../geometry/outline/path.ts';
import { reckon } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

/* Areas and lengths of what a drawing holds, arcs as arcs. Lengths mm, areas mm². */

/** Area of an outline, less what the drawing cuts out of it (clockwise paths). Source: shoelace formula with segments of arcs. */
export function drawnArea(outline: Path, openings: readonly Path[], source: string): Result {
  const whole = signedArea(outline);
  const out = openings.reduce((sum, path) => sum - signedArea(path), 0);
  return reckon({
    value: whole - out,
    unit: 'mm2',
    formula: openings.length ? 'A = {outline|mm²} − {openings|mm²}' : 'A = {outline|mm²}',
    symbols: openings.length ? { outline: whole, openings: out } : { outline: whole },
    basis: 'geometry',
    source,
  });
}

/** Way round an outline. Source: lines and arcs. */
export function drawnLength(outline: Path, source: string): Result {
  return reckon({
    value: lengthOfPath(outline),
    unit: 'mm',
    formula: 'P = sum of {n|} sides',
    symbols: { n: outline.vertices.length },
    basis: 'geometry',
    source,
  });
}

/** What pierced work takes out of a plate. Source: shoelace formula with segments of arcs. */
export function cutOutArea(shapes: readonly Path[]): Result {
  return reckon({
    value: shapes.reduce((sum, path) => sum + signedArea(path), 0),
    unit: 'mm2',
    formula: 'A = sum of {n|} shapes',
    symbols: { n: shapes.length },
    basis: 'geometry',
    source: 'The shapes in the drawing, arcs as arcs; what lies inside one falls out with it',
  });
}

/** What the saw goes along. Source: lines and arcs. */
export function sawnLength(shapes: readonly Path[]): Result {
  return reckon({
    value: shapes.reduce((sum, path) => sum + lengthOfPath(path), 0),
    unit: 'mm',
    formula: 'L = way round {n|} shapes',
    symbols: { n: shapes.length },
    basis: 'geometry',
    source: 'The shapes in the drawing, arcs as arcs',
  });
}
