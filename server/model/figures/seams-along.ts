import type { Section } from '../../../grammar/tree.ts';
import { sameList } from '../../incremental/memo.ts';
import { gathered, ofModel, perModel } from '../per-spec.ts';
import { homeOf, type Model } from '../spec.ts';
import type { PieceModel } from '../things/piece.ts';
import type { SeamModel } from '../things/seam.ts';

/**
 * The seams that run along an edge of a piece, in the order of the spec. Whoever asks hangs on these seams alone, not on
 * every seam of the spec.
 */
export const seamsAlong = (piece: PieceModel): readonly SeamModel[] => ofPieces(homeOf(piece))(piece.named.section);

const ofPieces = perModel((model: Model) => {
  const each = model.eachSection<readonly SeamModel[]>(sameList);
  const get = (section: Section) => each.get(section, () => byPiece(model).get(section) ?? []);
  return () => get;
});

const byPiece = ofModel((model): ReadonlyMap<Section, readonly SeamModel[]> => {
  const seams = new Map<Section, SeamModel[]>();
  for (const { section, seam } of edgesTaken(model)) {
    const have = seams.get(section);
    if (!have) seams.set(section, [seam]);
    else if (have[have.length - 1] !== seam) have.push(seam);
  }
  return seams;
});

const edgesTaken = gathered('seam', (seam) =>
  seam.along().map(({ piece }) => ({ section: piece.named.section, seam })),
);
