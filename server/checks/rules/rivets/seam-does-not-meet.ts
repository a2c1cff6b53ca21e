import { say } from '../../../../l10n/say.ts';
import { bentOf } from '../../../model/assembly/bending.ts';
import { linkedBy } from '../../../model/assembly/link.ts';
import { greatestOf, type Misfit, misfitsOf } from '../../../model/assembly/misfit.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { lengthShown } from '../../support/rivets.ts';

export const check: Check = {
  code: 'seam-does-not-meet',
  title: 'Two edges that are joined run in different curves',
  family: 'Rivets',
  severity: 'warning',
  what: 'The pieces of a seam are laid together as well as they go, each as stiff as it is formed, and the places of the rivets (or equal shares of the row) are still further apart than clamps draw in. What bending takes up is told as information: a flat or rolled plate that can be bent to the other’s curve. Rows of different length are left to `seam-lengths-differ`.',
  why: 'Two edges may be equally long and still not meet: a round one on an oval one gapes at the ends and stands off at the sides. Pulled together by rivets the plates warp.',
  todo: 'Bend the rolled plate to the other’s curve before the holes are drilled, or give it the other’s section (`long`); a dished or raised plate has to be formed to it.',
  usual: ['seam-misfit'],
  formula: 'max |p − q| ≤ 3 mm',
  source:
    'Geometry: least squares over the stations of both edges (Horn 1987). That a sheet bends without stretching, and keeps how its edge turns in itself, is differential geometry; how much clamps draw in is common practice (no source)',
  example: `material plate
  mild steel 1.5 mm
rivet small
  mild steel 4 x 8 mm, domed
piece upper
  from plate
  cylinder round 640 mm, high 80 mm, wrap 180 deg, long 240 mm
piece lower
  from plate
  cylinder round 640 mm, high 80 mm, wrap 180 deg
seam join
  joins upper, lower
  along upper.bottom
  along lower.top
  rivets small, every 28 mm, inset 9 mm, peened domed
`,
  better: `material plate
  mild steel 1.5 mm
rivet small
  mild steel 4 x 8 mm, domed
piece upper
  from plate
  cylinder round 640 mm, high 80 mm, wrap 180 deg, long 240 mm
piece lower
  from plate
  cylinder round 640 mm, high 80 mm, wrap 180 deg, long 240 mm
seam join
  joins upper, lower
  along upper.bottom
  along lower.top
  rivets small, every 28 mm, inset 9 mm, peened domed
`,
  seam(seam, report, model) {
    // Who gives one edge only has nothing that could be apart.
    const lines = seam.along();
    if (lines.length < 2) return;
    const system = model.units();
    const { links } = linkedBy(seam);
    for (const [i, misfit] of misfitsOf(seam).entries()) {
      const apart = greatestOf([misfit]);
      const link = links[i];
      if (!link || !(apart > usual('seam-misfit'))) continue;
      const line = lines.find(({ piece }) => piece === link.other.piece)?.line ?? lines[1]!.line;
      const [one, other] = [link.one.piece, link.other.piece];
      const longer = Math.abs(misfit.one.length - misfit.other.length);
      const limit = usual('seam-length') + Math.PI * ((one.thickness() ?? 0) + (other.thickness() ?? 0));
      // Then “seam-lengths-differ” has said so.
      if (longer > limit) continue;
      const bent = bentOf(link, misfit);
      const gap = say`“${other.name}” and “${one.name}” do not meet as formed: at ${where(misfit)} they are ${lengthShown(apart, system)} apart`;
      report(line.place, {
        severity: bent ? 'information' : undefined,
        message: bent
          ? say`${gap}. The rows are as long, so bending takes it up: ${hint(bent.piece, bent.way)}.`
          : say`${gap}, and neither can be bent to the other: only the hammer brings them together.`,
        related: [
          {
            uri: seam.named.file.uri,
            place: lines[0]!.line.place,
            message: `${misfit.one.piece}.${misfit.one.edge}`,
          },
        ],
      });
    }
  },
};

function hint(piece: PieceModel, way: 'tighter' | 'flatter' | 'both'): string {
  switch (way) {
    case 'tighter':
      return say`bend “${piece.name}” tighter in the middle`;
    case 'flatter':
      return say`open “${piece.name}” in the middle`;
    case 'both':
      return say`press “${piece.name}” in where it stands out, and it comes out beside that`;
  }
}

/** Where along the row it gapes most. */
function where({ gaps, isClosed }: Misfit): string {
  const worst = gaps.reduce((most, gap) => (gap.apart > most.apart ? gap : most));
  if (isClosed) return 'the widest';
  const off = Math.abs(2 * worst.share - 1);
  return off > 2 / 3 ? 'the ends' : off < 1 / 3 ? 'the middle' : 'the widest';
}
