import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { punchedLeastOf } from '../../support/limits.ts';
import { changingLength, isOwn, nextUp, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'hole-smaller-than-thickness',
  title: 'A hole narrower than its plate is thick',
  family: 'Holes',
  severity: 'warning',
  what: 'A round hole is smaller than a punch can make in that plate: about once the thickness, twice in hard metal. Drilled, it can be made.',
  why: 'The punch breaks before the plate does, and its pieces fly.',
  todo: 'Drill it, or make it larger.',
  formula: 'd ≥ t (2 t in hard metal)',
  source: 'Punch makers’ working rules; 0.89 t derived from their historic strengths',
  example: `material plate
  mild steel 2 mm
piece brow
  from plate
  plate 120 x 60 mm
  hole lace 1.2 mm, at 20 mm from left and 20 mm from top
`,
  better: `material plate
  mild steel 2 mm
piece brow
  from plate
  plate 120 x 60 mm
  hole lace 4 mm, at 20 mm from left and 20 mm from top
`,
  piece(piece, report, model) {
    const system = model.units();
    const metal = piece.material()?.metal();
    const thickness = piece.thickness();
    if (!metal || thickness === undefined || piece.material()?.kind() !== 'sheet') return;
    const least = punchedLeastOf(metal, thickness);
    for (const { line, round, long, kind } of piece.openings()) {
      if (!round || long >= least.value - 0.02) continue;
      const slot = kind === 'hole' ? 'diameter' : 'holes';
      const cannot = long < (least.low ?? least.value) - 0.02;
      report(placeIn(piece, line, line.filled(slot)), {
        severity: cannot ? undefined : 'information',
        message: say`A ${show(long, 'mm', system)} hole in ${show(thickness, 'mm', system)} ${metal.title} ${cannot ? say`cannot` : say`may not`} be punched (from ${show(least.value, 'mm', system)}): drill it.`,
        fixes: isOwn(piece, line)
          ? changingLength(
              line,
              { slot },
              nextUp(least.value, line.expressions(slot)[0]),
              (text) => say`Make it ${text}`,
            )
          : [],
      });
    }
  },
};
