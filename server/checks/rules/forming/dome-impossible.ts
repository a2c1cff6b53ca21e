import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { changingLength, downTo, isOwn, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'dome-impossible',
  title: 'A dome that cannot be, or is a tube',
  family: 'Forming',
  severity: 'warning',
  what: 'The dome is deeper than it is wide; or a half dome is longer than its own way round allows, which no oval can be (an error).',
  why: 'Deeper than it is wide, a dome is a tube with a lid: it is made from a cylinder and a cap. And an oval that its girth cannot go round has no shape at all.',
  todo: 'Correct the depth, the length or the girth, or make it in two parts.',
  formula: 'h ≤ d; girth > 2 × long',
  source: 'Geometry; the depth is common practice (no source)',
  example: `material plate
  mild steel 1.5 mm
piece pot
  from plate
  dome 120 mm, deep 180 mm
  raise
`,
  better: `material plate
  mild steel 1.5 mm
piece pot
  from plate
  dome 120 mm, deep 50 mm
  raise
`,
  piece(piece, report, model) {
    const system = model.units();
    const line = piece.formLine();
    if (!line) return;
    const domed = piece.domed();
    if (domed) {
      const { deep } = domed;
      const wide = Math.min(domed.long, domed.wide);
      if (deep <= wide) return;
      report(placeIn(piece, line), {
        message: say`“${piece.name}” is ${show(deep, 'mm', system)} deep and ${show(wide, 'mm', system)} wide: a dome deeper than it is wide is a tube. Make a cylinder and a cap.`,
        fixes: isOwn(piece, line)
          ? changingLength(
              line,
              { slot: 'deep', qualifier: 'deep' },
              downTo(wide / 2, 1),
              (text) => say`Make it ${text} deep`,
            )
          : [],
      });
    } else if (!piece.form() && line.id === 'half dome') {
      const girth = line.length('girth');
      const long = line.length('long', 'long');
      if (girth === undefined || long === undefined || girth > 2 * long) return;
      report(placeIn(piece, line), {
        severity: 'error',
        message: say`No oval is ${show(long, 'mm', system)} long and only ${show(girth, 'mm', system)} round: there and back alone is ${show(2 * long, 'mm', system)}.`,
      });
    }
  },
};
