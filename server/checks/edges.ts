import { gathered, ofModel } from '../model/model.ts';
import type { PieceModel } from '../model/piece.ts';

/** The free edges of metal pieces that nothing turns, covers or joins. Forms that are not computed yet are left out. */
export const rawEdges = ofModel((model): ReadonlyMap<PieceModel, readonly string[]> => {
  const joined = new Map<PieceModel, Set<string>>();
  for (const { piece, edge } of joinedEdges(model)) {
    const have = joined.get(piece);
    if (have) have.add(edge);
    else joined.set(piece, new Set([edge]));
  }
  return new Map(
    freeEdges(model).map(({ piece, edges }) => [piece, edges.filter((edge) => !joined.get(piece)?.has(edge))]),
  );
});

const joinedEdges = gathered('seam', (seam) => seam.along());

const freeEdges = gathered('piece', (piece) => {
  const form = piece.form();
  if (!form || form.kind === 'later' || piece.material()?.kind() !== 'sheet') return [];
  const closed = (form.kind === 'cylinder' || form.kind === 'cone') && form.wrap >= 360;
  const worked = new Set(piece.edgeWorks().flatMap((work) => (work.kind === 'long' ? [] : [work.edge])));
  const edges = piece
    .edgeNames()
    .filter((edge) => edge !== 'middle' && !(closed && (edge === 'left' || edge === 'right')) && !worked.has(edge));
  return [{ piece, edges }];
});
