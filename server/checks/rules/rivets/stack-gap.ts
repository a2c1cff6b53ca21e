import { say } from '../../../../l10n/say.ts';
import type { LineReading } from '../../../model/names/line-reading.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import { show } from '../../../model/values/show.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { isOwn, placeIn, removingQualifier } from '../../support/writing.ts';

export const check: Check = {
  code: 'stack-gap',
  title: 'A gap inside a riveted stack',
  family: 'Rivets',
  severity: 'warning',
  what: 'Two plates are riveted to each other, and one of them is formed to lie under or over the other with a gap between.',
  why: 'The shank swells in the gap and holds the plates apart, or the head pulls them together and out of their form. Its length, too, is reckoned without the gap.',
  todo: 'Leave no gap where plates are riveted fast; a gap is for plates that slide.',
  formula: 'gap ≤ 0.3 mm',
  usual: ['stack-gap'],
  source: 'Common practice (no source)',
  example: `material plate
  mild steel 1.2 mm
rivet small
  mild steel 3 x 6 mm, domed
piece upper
  from plate
  cylinder round 300 mm, high 60 mm, wrap 180 deg
piece lower
  from plate
  lies under upper, gap 2 mm, high 40 mm, wrap 180 deg
seam fast
  joins upper, lower
  along upper.bottom
  rivets small, every 25 mm, inset 8 mm, peened domed
`,
  better: `material plate
  mild steel 1.2 mm
rivet small
  mild steel 3 x 6 mm, domed
piece upper
  from plate
  cylinder round 300 mm, high 60 mm, wrap 180 deg
piece lower
  from plate
  lies under upper, high 40 mm, wrap 180 deg
seam fast
  joins upper, lower
  along upper.bottom
  rivets small, every 25 mm, inset 8 mm, peened domed
`,
  riveted({ seam, stacks }, report, model) {
    const system = model.units();
    const said = new Set<PieceModel>();
    for (const { layers } of stacks) {
      for (const [i, layer] of layers.slice(1).entries()) {
        const [a, b] = [layers[i]!.piece, layer.piece];
        const found = a && b && (gapOf(a, b) ?? gapOf(b, a));
        if (!found || found.gap <= usual('stack-gap') || said.has(found.lame)) continue;
        const { lame, neighbour, gap, line } = found;
        said.add(lame);
        report(placeIn(lame, line, line.bound('gap')), {
          message: say`“${lame.name}” is formed ${show(gap, 'mm', system)} away from “${neighbour.name}”, and “${seam.name}” rivets them together: leave no gap between them.`,
          fixes: isOwn(lame, line) ? removingQualifier(line, 'gap', 'Leave no gap', true) : [],
          related: [{ uri: seam.named.file.uri, place: seam.place, message: say`seam ${seam.name}` }],
        });
      }
    }
  },
};

/** The gap that a lame leaves to its neighbour, where that is the other piece. */
function gapOf(
  lame: PieceModel,
  neighbour: PieceModel,
): { lame: PieceModel; neighbour: PieceModel; gap: number; line: LineReading } | undefined {
  const line = lame.formLine();
  if (line?.id !== 'lies' || line.named('neighbour')?.section !== neighbour.named.section) return undefined;
  const gap = line.length('gap', 'gap');
  return gap === undefined ? undefined : { lame, neighbour, gap, line };
}
