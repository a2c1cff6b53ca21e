import type { Model } from '../model/model.ts';
import type { PieceModel } from '../model/piece.ts';

/** The free edges of metal pieces that nothing turns, covers or joins. Forms that are not computed yet are left out. */
export function rawEdges(model: Model): ReadonlyMap<PieceModel, readonly string[]> {
  let found = known.get(model);
  if (found) return found;
  const joined = new Map<PieceModel, Set<string>>();
  for (const seam of model.seams()) {
    for (const { piece, edge } of seam.along()) {
      const have = joined.get(piece);
      if (have) have.add(edge);
      else joined.set(piece, new Set([edge]));
    }
  }
  found = new Map(
    model.pieces().flatMap((piece): [PieceModel, readonly string[]][] => {
      const form = piece.form();
      if (!form || form.kind === 'later' || piece.material()?.kind() !== 'sheet') return [];
      const closed = (form.kind === 'cylinder' || form.kind === 'cone') && form.wrap >= 360;
      const free = piece
        .edgeNames()
        .filter((edge) => edge !== 'middle' && !(closed && (edge === 'left' || edge === 'right')));
      const worked = new Set(piece.edgeWorks().flatMap((work) => (work.kind === 'long' ? [] : [work.edge])));
      return [[piece, free.filter((edge) => !worked.has(edge) && !joined.get(piece)?.has(edge))]];
    }),
  );
  known.set(model, found);
  return found;
}
const known = new WeakMap<Model, ReadonlyMap<PieceModel, readonly string[]>>();
