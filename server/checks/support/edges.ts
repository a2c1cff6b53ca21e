import { seamsAlong } from '../../model/figures/seams-along.ts';
import { isComputed, kindOf } from '../../model/forms/index.ts';
import type { PieceModel } from '../../model/things/piece.ts';

/** The edges of a metal piece that are left as they were cut; none of a form that is not computed yet. */
export function rawEdgesOf(piece: PieceModel): readonly string[] {
  return piece.line('edges rounded') ? [] : plainEdgesOf(piece);
}

/** The edges of a metal piece that nothing turns, covers, rounds by name or joins. */
function plainEdgesOf(piece: PieceModel): readonly string[] {
  const form = piece.form();
  if (!form || !isComputed(form) || piece.material()?.kind() !== 'sheet') return [];
  const seams = kindOf(form).seams(form);
  const worked = new Set(piece.edgeWorks().flatMap((work) => (work.kind === 'long' ? [] : [work.edge])));
  const joined = new Set(
    seamsAlong(piece).flatMap((seam) => seam.along().flatMap((each) => (each.piece === piece ? [each.edge] : []))),
  );
  return piece.edgeNames().filter((edge) => !seams.includes(edge) && !worked.has(edge) && !joined.has(edge));
}
