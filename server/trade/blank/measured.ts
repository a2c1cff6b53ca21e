import { say } from '../../../l10n/say.ts';
import { reckon } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

/* What is measured on the surface of a form that has no formula, or has bays. */

const SOURCE =
  'Measured on the surface of the form: its lines of latitude and its columns, at the middle of the thickness';

/** Area, mm², from a mesh of so many triangles. Source: limit of two meshes (Richardson). */
export function surfaceArea({
  area,
  triangles,
  hasBays,
}: {
  area: number;
  triangles: number;
  hasBays: boolean;
}): Result {
  return reckon({
    value: area,
    unit: 'mm2',
    formula: say`A = sum of {n|} triangles${hasBays ? say`, bays left out` : ''}, carried on to the limit`,
    symbols: { n: triangles },
    basis: 'geometry',
    source: SOURCE,
  });
}

/** Length along an edge, mm, in so many steps; `parts` of it are left by its bays. Source: limit of two sums (Richardson). */
export function surfaceLength({
  length,
  steps,
  edge,
  parts,
}: {
  length: number;
  steps: number;
  edge: string;
  parts: number;
}): Result {
  return reckon({
    value: length,
    unit: 'mm',
    formula: 'L = sum of {n|} steps along {edge}, carried on to the limit',
    symbols: { n: steps, edge },
    basis: 'geometry',
    source: SOURCE,
    note: parts > 1 ? say`What its bays leave of it, in ${parts} parts.` : undefined,
  });
}
