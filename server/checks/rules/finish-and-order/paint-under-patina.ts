import { say, translated } from '../../../../l10n/say.ts';
import { isHotFinish, layerOf } from '../../../model/operations/steps.ts';
import { capital } from '../../../model/values/prose.ts';
import type { Check } from '../../check.ts';
import { outOfOrder, stepName } from '../../support/finishes.ts';
import { movingBefore } from '../../support/writing.ts';

export const check: Check = {
  code: 'paint-under-patina',
  title: 'A patina on top of a coat',
  family: 'Finish and order',
  severity: 'warning',
  what: 'A patina or cold blackening follows paint, primer, lacquer, wax or oil of the same finish.',
  why: 'A patina is the metal itself, changed: through a coat the chemical does not reach it, and it lifts the coat.',
  todo: 'Patinate clean, bare metal, and coat it afterwards.',
  source: 'Workshop practice: degrease, colour, neutralise, dry, then oil, wax or lacquer',
  example: `material binding
  brass 0.8 mm
piece brow
  from binding
  strip 300 x 18 mm
finish old
  on brow
  lacquer
  patina "brown, ammonia fume"
`,
  better: `material binding
  brass 0.8 mm
piece brow
  from binding
  strip 300 x 18 mm
finish old
  on brow
  patina "brown, ammonia fume"
  lacquer
`,
  finish(finish, report, model) {
    for (const { earlier, later } of outOfOrder(
      finish,
      (a, b) => layerOf(b) === 'colour' && !isHotFinish(b) && layerOf(a) === 'coat',
    )) {
      report(later.place, {
        message: say`${capital(translated(stepName(later)))} does not take through ${stepName(earlier)}: colour the bare metal first.`,
        fixes: movingBefore(later, earlier, say`Put ${later.id} before ${earlier.id}`),
        related: [{ uri: model.file.uri, place: earlier.place, message: 'What lies under it' }],
      });
    }
  },
};
