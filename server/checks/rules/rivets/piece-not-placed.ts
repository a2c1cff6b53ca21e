import type { Section } from '../../../../grammar/tree.ts';
import { say } from '../../../../l10n/say.ts';
import { lostBy } from '../../../model/assembly/pose.ts';
import { sameData } from '../../../model/assembly/seat.ts';
import { OPPOSITE } from '../../../model/forms/form.ts';
import { perModel, thingOf } from '../../../model/per-spec.ts';
import type { Model } from '../../../model/spec.ts';
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
  run(model, report) {
    // Through one list for all: what each seam would say hangs on that seam alone, and is asked only of those that place nothing.
    for (const [key, pieces] of lostBy(model)) {
      const section = model.file.find(key)?.section;
      if (!section) continue;
      for (const { piece, from, to, message, add } of toldBy(model)(section))
        if (pieces.includes(piece))
          report(
            { section, from, to },
            {
              message,
              ...(add
                ? { fixes: [addingLine(model.file.uri, say`Add “${add.line}”`, { section, ...add }, add.line)] }
                : {}),
            },
          );
    }
  },
};

/** What is to be said of a seam if a piece of it has no place: plain data, so that it stands while plates only change their size. */
interface Told {
  readonly piece: string;
  readonly from: number;
  readonly to: number;
  readonly message: string;
  /** The line that would help, and after which. */
  readonly add?: { readonly line: string; readonly from: number; readonly to: number };
}

const toldBy = perModel((model: Model) => {
  const each = model.eachSection<readonly Told[]>(sameData);
  const get = (section: Section) =>
    each.get(section, () => {
      const seam = thingOf(model, 'seam', section);
      const plates = seam
        ?.stacks()
        .flatMap(({ layers }) => layers.flatMap(({ piece, soft }) => (soft ? [] : (piece ?? []))));
      return seam && plates ? [...new Set(plates)].flatMap((piece) => toldOf(seam, piece) ?? []) : [];
    });
  return () => get;
});

function toldOf(seam: SeamModel, piece: PieceModel): Told | undefined {
  const along = seam.along()[0];
  if (!along) return undefined;
  // What is missing is the edge of the piece itself, or of the one that it hangs on.
  const hasRow = seam.along().some((each) => each.piece === piece);
  const wanted = hasRow ? otherOf(seam, piece) : piece;
  const edge = wanted && edgeLike(wanted, seam);
  const { from, to } = placeIn(seam, piece);
  const after = along.line.place;
  return {
    piece: piece.named.word.key,
    from,
    to,
    message: say`Where “${piece.name}” lies is not known: “${seam.name}” gives no edge of “${wanted?.name ?? piece.name}”.`,
    ...(wanted && edge ? { add: { line: say`along ${wanted.name}.${edge}`, from: after.from, to: after.to } } : {}),
  };
}

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
  const faced = OPPOSITE[seam.along()[0]!.edge];
  const edges = piece
    .edgeNames()
    .flatMap((edge) => {
      const length = piece.edgeLength(edge)?.value;
      return length === undefined ? [] : [{ edge, off: row === undefined ? 0 : Math.abs(length - row) }];
    })
    .sort((a, b) => a.off - b.off || Number(b.edge === faced) - Number(a.edge === faced));
  return edges[0]?.edge;
}
