import { seamsAlong } from '../model/joined.ts';
import type { PieceModel } from '../model/piece.ts';

/** The edges of a metal piece that nothing turns, covers or joins; none of a form that is not computed yet. */
export function rawEdgesOf(piece: PieceModel): readonly string[] {
  const form = piece.form();
  if (!form || form.kind === 'later' || piece.material()?.kind() !== 'sheet') return [];
  const closed = (form.kind === 'cylinder' || form.kind === 'cone') && form.wrap >= 360;
  const worked = new Set(piece.edgeWorks().flatMap((work) => (work.kind === 'long' ? [] : [work.edge])));
  const joined = new Set(
    seamsAlong(piece).flatMap((seam) => seam.along().flatMap((each) => (each.piece === piece ? [each.edge] : []))),
  );
  return piece
    .edgeNames()
    .filter((edge) => edge !== 'middle' && !(closed && (edge === 'left' || edge === 'right')))
    .filter((edge) => !worked.has(edge) && !joined.has(edge));
}
