import { say } from '../../../../l10n/say.ts';
import { orders } from '../../../model/operations/orders.ts';
import { isHotFinish, layerOf } from '../../../model/operations/steps.ts';
import type { Check } from '../../check.ts';
import { outOfOrder, stepName } from '../../support/finishes.ts';
import { movingBefore, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'heat-after-finish',
  title: 'Heat on a surface that is already finished',
  family: 'Finish and order',
  severity: 'warning',
  what: 'A step done by heat (blue, blacken hot) follows a coat or a patina of the same finish; or an order puts annealing, hardening, tempering or soldering of a piece after its finish.',
  why: 'The coat burns off and smokes, the patina goes, and the work is done twice.',
  todo: 'Do everything hot first.',
  source: 'Workshop practice: heat treatment, then grit, then colour, then oil or wax',
  example: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
finish parade
  on brow
  sand 120, 180 grit
  wax
  blue 300 C
`,
  better: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
finish parade
  on brow
  sand 120, 180 grit
  blue 300 C
  wax
`,
  finish(finish, report, model) {
    for (const { earlier, later } of outOfOrder(
      finish,
      (a, b) => isHotFinish(b) && (layerOf(a) === 'coat' || a.id === 'patina'),
    )) {
      report(later.place, {
        message: say`The heat of ${stepName(later)} ruins ${stepName(earlier)}, which stands before it: heat first.`,
        fixes: movingBefore(later, earlier, 'Heat first'),
        related: [{ uri: model.file.uri, place: earlier.place, message: 'What the heat ruins' }],
      });
    }
  },
  run(model, report) {
    for (const chain of orders(model)) {
      for (const [i, step] of chain.entries()) {
        const piece = step.named?.kind === 'piece' ? step.named : undefined;
        const soldered = step.named?.kind === 'seam' ? model.seamOf(step.named).line('solder') : undefined;
        const hot = piece && step.operation && HOT.has(step.operation);
        if (!hot && !soldered) continue;
        const heated = piece
          ? new Set([piece.section])
          : new Set(
              model
                .seamOf(step.named!)
                .stacks()
                .flatMap((s) => s.layers.flatMap((l) => l.named?.section ?? [])),
            );
        const finish = chain
          .slice(0, i)
          .map((each) => (each.named?.kind === 'finish' ? each.named : undefined))
          .find(
            (named) =>
              named &&
              model
                .finishes()
                .some(
                  (each) =>
                    each.named.section === named.section &&
                    each.on.some((on) => on.named && heated.has(on.named.section)),
                ),
          );
        if (!finish) continue;
        report(placeOf(step.line, step.filled), {
          message: say`“${step.key}” is hot work and comes after the finish “${finish.word.text}” in this order: heat first.`,
          related: [
            {
              uri: finish.file.uri,
              place: { section: finish.section, from: finish.word.from, to: finish.word.to },
              message: say`finish ${finish.word.text}`,
            },
          ],
        });
      }
    }
  },
};

const HOT = new Set(['anneal', 'harden', 'temper', 'solder', 'weld']);
