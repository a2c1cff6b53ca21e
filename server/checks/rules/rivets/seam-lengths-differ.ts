import { say } from '../../../../l10n/say.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { lengthShown } from '../../support/rivets.ts';

export const check: Check = {
  code: 'seam-lengths-differ',
  title: 'Two edges that are joined differ in length',
  family: 'Rivets',
  severity: 'warning',
  what: 'A seam runs along two edges, measured as formed at the middle of the thickness, and they differ by more than a millimetre and what two plates lying on each other account for.',
  why: 'Holes marked evenly on both will not meet: the seam puckers, or one plate ends before the other.',
  todo: 'Correct a girth or a length, or say from where to where the seam runs.',
  usual: ['seam-length'],
  formula: '|L₁ − L₂| ≤ 1 mm + π × (t₁ + t₂); along straight edges 1 mm',
  source:
    'Geometry: a plate that lies outside another is longer by 2π times the distance of their middles, all the way round',
  example: `material plate
  mild steel 1.5 mm
rivet small
  brass 4 x 10 mm, domed
piece upper
  from plate
  cylinder round 600 mm, high 80 mm, wrap 180 deg
piece lower
  from plate
  cylinder round 660 mm, high 80 mm, wrap 180 deg
seam join
  joins upper, lower
  along upper.bottom
  along lower.top
  rivets small, every 28 mm, inset 9 mm, peened domed
`,
  better: `material plate
  mild steel 1.5 mm
rivet small
  brass 4 x 10 mm, domed
piece upper
  from plate
  cylinder round 600 mm, high 80 mm, wrap 180 deg
piece lower
  from plate
  cylinder round 600 mm, high 80 mm, wrap 180 deg
seam join
  joins upper, lower
  along upper.bottom
  along lower.top
  rivets small, every 28 mm, inset 9 mm, peened domed
`,
  seam(seam, report, model) {
    const system = model.units();
    const along = seam.along().flatMap((each) => {
      const whole = each.piece.figure(`${each.edge}.length`)?.value;
      if (whole === undefined) return [];
      const { from, to } = each;
      const length = from === undefined || to === undefined ? whole : Math.min(to, whole) - Math.min(from, whole);
      return [{ ...each, length, part: from !== undefined }];
    });
    const [first, ...others] = along;
    if (!first) return;
    for (const other of others) {
      // A mirrored piece may meet the other with both of its copies.
      if (first.piece.mirrored() !== other.piece.mirrored()) continue;
      // Only round a curve does the outer one need more.
      const isFlat = [first, other].every(({ piece, edge }) => piece.isStraightEdge(edge));
      const thick = isFlat ? 0 : (first.piece.thickness() ?? 0) + (other.piece.thickness() ?? 0);
      const difference = Math.abs(first.length - other.length);
      if (difference <= usual('seam-length') + Math.PI * thick) continue;
      report(other.line.place, {
        message: say`“${other.piece.name}” is ${lengthShown(other.length, system)} long here and “${first.piece.name}” ${lengthShown(first.length, system)}: they differ by ${lengthShown(difference, system)}.`,
        related: [
          {
            uri: seam.named.file.uri,
            place: first.line.place,
            message: `${first.piece.name}.${first.edge}: ${lengthShown(first.length, system)}`,
          },
        ],
      });
    }
  },
};
