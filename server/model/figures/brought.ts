import type { Section } from '../../../grammar/tree.ts';
import { sameList } from '../../incremental/memo.ts';
import { gathered, ofModel, perModel } from '../per-spec.ts';
import { homeOf, type Model, type Things } from '../spec.ts';
import type { PieceModel } from '../things/piece.ts';

/**
 * The things of a kind that have to do with a piece, in the order of the spec. Whoever asks hangs on these alone, not on every
 * thing of the spec.
 */
export function broughtTo<Kind extends keyof Things>(
  kind: Kind,
  piecesOf: (thing: Things[Kind]) => readonly PieceModel[],
): (piece: PieceModel) => readonly Things[Kind][] {
  const pairs = gathered(kind, (thing) => piecesOf(thing).map((piece) => ({ section: piece.named.section, thing })));
  const byPiece = ofModel((model): ReadonlyMap<Section, readonly Things[Kind][]> => {
    const found = new Map<Section, Things[Kind][]>();
    for (const { section, thing } of pairs(model)) {
      const have = found.get(section);
      if (!have) found.set(section, [thing]);
      else if (have[have.length - 1] !== thing) have.push(thing);
    }
    return found;
  });
  const ofPieces = perModel((model: Model) => {
    const each = model.eachSection<readonly Things[Kind][]>(sameList);
    const get = (section: Section) => each.get(section, () => byPiece(model).get(section) ?? []);
    return () => get;
  });
  return (piece) => ofPieces(homeOf(piece))(piece.named.section);
}
