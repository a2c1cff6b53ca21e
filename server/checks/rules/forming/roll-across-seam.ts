import { say, translated } from '../../../../l10n/say.ts';
import { seamsAlong } from '../../../model/figures/seams-along.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import type { SeamModel } from '../../../model/things/seam.ts';
import { show, trim } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { appending, isOwn, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'roll-across-seam',
  title: 'A turned edge that runs across a lapped seam',
  family: 'Forming',
  severity: 'warning',
  what: 'An edge is rolled, wired or hemmed along its whole length, and a riveted seam of the same piece runs into it: there the turn would have to go round two plates.',
  why: 'Two thicknesses do not close round the wire: the roll opens at the seam, or the rivet nearest to it is torn.',
  todo: 'Turn only the part between the seams, turn each plate before they are joined and stop the roll short of the lap, or weld a butt seam instead.',
  formula: 'from ≥ lap; lap = overlap, or twice the inset',
  source: 'Common practice (no source)',
  example: `material plate
  mild steel 1.2 mm
rivet small
  mild steel 3 x 6 mm, domed
piece cuff
  from plate
  cylinder round 300 mm, high 120 mm, wrap 300 deg
  edge bottom rolled, hollow 5 mm
piece wing
  from plate
  plate 60 x 120 mm
seam side
  joins cuff, wing
  along cuff.left
  rivets small, every 25 mm, inset 8 mm, peened domed
`,
  better: `material plate
  mild steel 1.2 mm
rivet small
  mild steel 3 x 6 mm, domed
piece cuff
  from plate
  cylinder round 300 mm, high 120 mm, wrap 300 deg
  edge bottom rolled, hollow 5 mm, from 20 mm to 230 mm
piece wing
  from plate
  plate 60 x 120 mm
seam side
  joins cuff, wing
  along cuff.left
  rivets small, every 25 mm, inset 8 mm, peened domed
`,
  piece(piece, report, model) {
    const system = model.units();
    for (const { line, edge, kind, stretch } of piece.edgeWorks()) {
      if (kind !== 'rolled' && kind !== 'hemmed') continue;
      const crossing = seamsInto(piece, edge);
      const length = crossing.length ? piece.figure(`${edge}.length`)?.value : undefined;
      if (length === undefined) continue;
      const lap = Math.max(...crossing.map(lapOf));
      // Which end of the edge a seam comes to is not said: one free end serves one seam. A rim meets its middle at both.
      const wanted = edge === 'rim' ? 2 : Math.min(2, crossing.length);
      const free = stretch ? [stretch.from, length - stretch.to].filter((end) => end >= lap - 0.5).length : 0;
      if (free >= wanted) continue;
      const [from, to] = [Math.ceil(lap), Math.floor(length - lap)];
      report(placeIn(piece, line), {
        message: say`${edge} is turned across ${crossing.map((seam) => `“${seam.name}”`).join(translated(' and '))}, where two plates lie on each other: stop ${show(lap, 'mm', system)} short of it.`,
        fixes:
          !stretch && isOwn(piece, line) && to > from
            ? [appending(line, `from ${trim(from, 0)} mm to ${trim(to, 0)} mm`, 'Turn only what lies between')]
            : [],
        related: crossing.map((seam) => ({
          uri: seam.named.file.uri,
          place: seam.place,
          message: say`seam ${seam.name}`,
        })),
      });
    }
  },
};

/** Riveted seams along an edge that meets this one at a corner. */
function seamsInto(piece: PieceModel, edge: string): SeamModel[] {
  const corners = CORNERS[edge];
  if (!corners) return [];
  return seamsAlong(piece).filter(
    (seam) =>
      seam.rivetsLine() &&
      seam.along().some((along) => along.piece === piece && corners.includes(along.edge)) &&
      seam.stacks().some(({ layers }) => layers.length > 1 && layers.some((layer) => layer.piece === piece)),
  );
}

const CORNERS: Readonly<Record<string, readonly string[]>> = {
  top: ['left', 'right'],
  bottom: ['left', 'right'],
  left: ['top', 'bottom'],
  right: ['top', 'bottom'],
  rim: ['middle'],
};

const lapOf = (seam: SeamModel): number =>
  seam.line('overlap')?.length('overlap') ?? 2 * (seam.inset() ?? 2 * (seam.rivet()?.size()?.shank ?? 0));
