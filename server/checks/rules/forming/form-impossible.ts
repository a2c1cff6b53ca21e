import { say } from '../../../../l10n/say.ts';
import { kindOf } from '../../../model/forms/index.ts';
import { baysOf } from '../../../model/shapes/surface.ts';
import type { Check } from '../../check.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'form-impossible',
  title: 'A form that cannot be made as written',
  family: 'Forming',
  severity: 'error',
  what: 'A level’s girth does not go round its length, levels contradict each other, a bay leaves the plate or runs into another, or a plate does not fit on the one that it lies on.',
  why: 'No blank can be worked out for a shape that does not exist, and half of it would be guessed.',
  todo: 'Correct the measure that is named.',
  formula: 'girth > 2 × long',
  source: 'Geometry',
  example: `material plate
  mild steel 1.5 mm
piece breast
  from plate
  form wrap 190 deg
  at 0 mm, round 600 mm, long 340 mm
  at 260 mm, round 1100 mm, long 390 mm
  dish
`,
  better: `material plate
  mild steel 1.5 mm
piece breast
  from plate
  form wrap 190 deg
  at 0 mm, round 960 mm, long 340 mm
  at 260 mm, round 1100 mm, long 390 mm
  dish
`,
  piece(piece, report) {
    for (const { line, why } of piece.formRefusals())
      report(placeIn(piece, line), {
        message: say`${line.id === 'level' ? say`This level` : say`The form of “${piece.name}”`} cannot be made: ${why}.`,
      });
    for (const { name, why } of piece.cutForm()?.refused ?? []) {
      const bay = baysOf(piece).find((each) => name.startsWith(each.name));
      if (bay) report(placeIn(piece, bay.line), { message: say`“${bay.name}” cannot be cut: ${why}.` });
    }
    const form = piece.form();
    const why = form && kindOf(form).refusal(form, piece);
    if (form && why) report(placeIn(piece, form.line), { message: say`“${piece.name}” cannot lie there: ${why}.` });
  },
};
