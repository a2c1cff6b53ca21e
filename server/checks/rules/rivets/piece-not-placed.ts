import { unplacedBy } from '../../../model/assembly/pose.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import type { SeamModel } from '../../../model/things/seam.ts';
import { addingLine, type Check } from '../../check.ts';

export const check: Check = {
  code: 'piece-not-placed',
  title: 'A piece has no place in the assembly',
  family: 'Rivets',
  severity: 'information',
  what: 'A seam joins two plates of metal and gives the edge of one of them only. So nobody can tell where the other lies: it is missing from the drawing of the whole and from its measures, and whether it fits is not looked at.',
  why: 'Two edges that must meet place a plate and show whether they do, before any metal is cut.',
  todo: 'Add a second `along` with the edge or the line of the other piece, with `from` and `to` where the row is shorter than that.',
  source: 'Geometry: a rigid body has six freedoms, and a row that is known on one side takes none of them',
  example: `material plate
  mild steel 1.5 mm
rivet small
  mild steel 4 x 8 mm, domed
piece upper
  from plate
  cylinder round 640 mm, high 80 mm, wrap 180 deg
piece lower
  from plate
  cylinder round 640 mm, high 90 mm, wrap 180 deg
seam join
  joins upper, lower
  along upper.bottom
  rivets small, every 28 mm, inset 9 mm, peened domed
`,
  better: `material plate
  mild steel 1.5 mm
rivet small
  mild steel 4 x 8 mm, domed
piece upper
  from plate
  cylinder round 640 mm, high 80 mm, wrap 180 deg
piece lower
  from plate
  cylinder round 640 mm, high 90 mm, wrap 180 deg
seam join
  joins upper, lower
  along upper.bottom
  along lower.top
  rivets small, every 28 mm, inset 9 mm, peened domed
`,
  seam(seam, report) {
    const along = seam.along()[0];
    if (!along) return;
    for (const { piece, hasRow } of unplacedBy(seam)) {
      // What is missing is the edge of the piece itself, or of the one that it hangs on.
      const wanted = hasRow ? otherOf(seam, piece) : piece;
      const edge = wanted && edgeLike(wanted, seam);
      report(placeIn(seam, piece), {
        message: `Where “${piece.name}” lies is not known: “${seam.name}” gives no edge of “${wanted?.name ?? piece.name}”.`,
        ...(wanted && edge
          ? {
              fixes: [
                addingLine(
                  seam.named.file.uri,
                  `Add “along ${wanted.name}.${edge}”`,
                  along.line.place,
                  `along ${wanted.name}.${edge}`,
                ),
              ],
            }
          : {}),
      });
    }
  },
};

function placeIn(seam: SeamModel, piece: PieceModel) {
  for (const { line, layers } of seam.stacks()) {
    const at = layers.findIndex((layer) => layer.piece === piece);
    const filled = line.all('pieces')[at];
    if (filled) return { section: seam.named.section, from: filled.from, to: filled.to };
  }
  return seam.place;
}

const otherOf = (seam: SeamModel, piece: PieceModel): PieceModel | undefined =>
  seam
    .stacks()
    .flatMap(({ layers }) => layers)
    .find((layer) => layer.piece && layer.piece !== piece && !layer.soft)?.piece;

/** The edge whose length is nearest to that of the row: of two alike the one that faces it. */
function edgeLike(piece: PieceModel, seam: SeamModel): string | undefined {
  const row = seam.length()?.value;
  const faced = FACING[seam.along()[0]!.edge];
  const edges = piece
    .edgeNames()
    .flatMap((edge) => {
      const length = piece.edgeLength(edge)?.value;
      return length === undefined ? [] : [{ edge, off: row === undefined ? 0 : Math.abs(length - row) }];
    })
    .sort((a, b) => a.off - b.off || Number(b.edge === faced) - Number(a.edge === faced));
  return edges[0]?.edge;
}

const FACING: Readonly<Record<string, string>> = { top: 'bottom', bottom: 'top', left: 'right', right: 'left' };
