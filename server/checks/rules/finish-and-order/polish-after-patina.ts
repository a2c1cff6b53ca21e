import { say, translated } from '../../../../l10n/say.ts';
import { layerOf } from '../../../model/operations/steps.ts';
import { capital } from '../../../model/values/prose.ts';
import type { Check } from '../../check.ts';
import { outOfOrder, stepName } from '../../support/finishes.ts';
import { movingBefore } from '../../support/writing.ts';

export const check: Check = {
  code: 'polish-after-patina',
  title: 'An abrasive on a finished surface',
  family: 'Finish and order',
  severity: 'warning',
  what: 'Grinding, sanding or polishing follows a colour (blacken, blue, patina) or a coat of the same finish.',
  why: 'A patina is a few thousandths of a millimetre deep: one pass takes it off.',
  todo: 'Polish first. To bring out high spots on purpose, write it as a finish of its own and excuse the line.',
  source: 'Workshop practice: grit, then colour, then oil or wax',
  example: `material binding
  brass 0.8 mm
piece brow
  from binding
  strip 300 x 18 mm
finish old
  on brow
  patina "brown, ammonia fume"
  polish
  wax
`,
  better: `material binding
  brass 0.8 mm
piece brow
  from binding
  strip 300 x 18 mm
finish old
  on brow
  polish
  patina "brown, ammonia fume"
  wax
`,
  finish(finish, report, model) {
    for (const { earlier, later } of outOfOrder(
      finish,
      (a, b) => (b.id === 'grind' || b.id === 'sand' || b.id === 'polish') && isOver(a),
    )) {
      report(later.place, {
        message: say`${capital(translated(stepName(later)))} takes off ${stepName(earlier)}, which stands before it.`,
        fixes: movingBefore(later, earlier, say`Put ${later.id} before ${earlier.id}`),
        related: [{ uri: model.file.uri, place: earlier.place, message: 'What it takes off' }],
      });
    }
  },
};

/** Between coats paint is rubbed down, and wax and oil are polished out: only colour and lacquer are lost. */
const isOver = (step: Parameters<typeof layerOf>[0]): boolean => layerOf(step) === 'colour' || step.id === 'lacquer';
