import { say } from '../../../../l10n/say.ts';
import { kindOf } from '../../../model/forms/index.ts';
import { orders } from '../../../model/operations/orders.ts';
import type { Check } from '../../check.ts';
import { placeIn, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'texture-will-curve',
  title: 'A hammer texture that curls its plate',
  family: 'Forming',
  severity: 'information',
  what: 'A flat piece has a hammer texture; or an order textures a piece after it has been fitted or riveted (a warning).',
  why: 'The hammer stretches the face that it strikes: the plate bows away from it, and no longer lies where it was fitted.',
  todo: 'Texture before the last fitting, strike the back as well, or let the curve be part of the form.',
  source: 'Common practice (no source)',
  example: `material plate
  mild steel 1.2 mm
piece boss
  from plate
  disc 90 mm
  texture
`,
  better: `material plate
  mild steel 1.2 mm
piece boss
  from plate
  dome 90 mm, deep 12 mm
  dish
  texture
`,
  piece(piece, report) {
    const line = piece.line('texture');
    const form = piece.form();
    if (!line || !form || !kindOf(form).isFlat || piece.material()?.kind() !== 'sheet') return;
    report(placeIn(piece, line), {
      message: say`Hammer texture bows a flat plate away from the hammer: “${piece.name}” will not stay flat.`,
    });
  },
  run(model, report) {
    for (const chain of orders(model)) {
      for (const [i, step] of chain.entries()) {
        if (step.operation !== 'texture' || !step.named) continue;
        const before = chain
          .slice(0, i)
          .find(
            ({ named, operation }) =>
              (operation === 'fit' || operation === 'rivet') && named?.section === step.named!.section,
          );
        if (!before) continue;
        report(placeOf(step.line, step.filled), {
          severity: 'warning',
          message: say`Hammer texture adds curve, and “${step.named.word.text}” is already fitted by then: texture it first.`,
        });
      }
    }
  },
};
