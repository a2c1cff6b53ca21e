import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import { intervalOf } from '../../../trade/reckoning/interval.ts';
import { type Check, replacing } from '../../check.ts';
import { placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'knuckles-uneven',
  title: 'Knuckles that do not come out even',
  family: 'Hinges',
  severity: 'warning',
  what: 'A hinge is wider than the edge of one of its leaves, or its gaps leave no room for its knuckles. An even number of knuckles is information.',
  why: 'With an odd number one leaf holds the pin at both ends; with an even one the hinge pulls askew.',
  todo: 'Take an odd number, and a width that both leaves have.',
  formula: 'w = (W − (N − 1) × gap)/N > 0; N odd',
  source: 'The width divided (derived); the odd number is common practice (no source)',
  example: `material plate
  mild steel 1.2 mm
material hinge-wire
  mild steel wire 3 mm
piece arm
  from plate
  plate 80 x 40 mm
piece flap
  from plate
  plate 80 x 40 mm
hinge gate
  joins arm.right, flap.left
  knuckles 5, wide 60 mm
  over hinge-wire
`,
  better: `material plate
  mild steel 1.2 mm
material hinge-wire
  mild steel wire 3 mm
piece arm
  from plate
  plate 80 x 40 mm
piece flap
  from plate
  plate 80 x 40 mm
hinge gate
  joins arm.right, flap.left
  knuckles 5, wide 40 mm
  over hinge-wire
`,
  hinge(hinge, report, model) {
    const system = model.units();
    const line = hinge.line('knuckles');
    const wide = line?.length('wide', 'wide');
    const knuckles = line?.count('knuckles');
    if (!line || wide === undefined || knuckles === undefined) return;
    const width = hinge.figures().get('knuckle');
    if (width && intervalOf(width).low <= 0) {
      report(line.place, {
        severity: intervalOf(width).high <= 0 ? 'error' : undefined,
        message: say`${knuckles} knuckles and their gaps ${intervalOf(width).high <= 0 ? say`do not` : say`may not`} go into ${show(wide, 'mm', system)}.`,
      });
      return;
    }
    for (const { piece, edge } of hinge.leaves()) {
      const length = piece.figure(`${edge}.length`)?.value;
      if (length === undefined || wide <= length + 0.5) continue;
      report(placeOf(line, line.filled('wide', 'wide') ?? line.line), {
        message: say`The hinge is ${show(wide, 'mm', system)} wide, and ${piece.name}.${edge} only ${show(length, 'mm', system)} long.`,
      });
    }
    if (knuckles % 2 || knuckles < 2) return;
    const at = line.filled('knuckles');
    const place = placeOf(line, at ?? line.line);
    report(place, {
      severity: 'information',
      message: say`With ${knuckles} knuckles each leaf holds the pin at one end only: an odd number holds it evenly.`,
      fixes: at
        ? [replacing(line.file.uri, say`Make ${knuckles + 1} knuckles`, place, String(knuckles + 1), true)]
        : [],
    });
  },
};
