import { say } from '../../../../l10n/say.ts';
import { orders } from '../../../model/operations/orders.ts';
import type { Check } from '../../check.ts';
import { hotStepsOfSeam } from '../../support/heat.ts';
import { placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'weld-after-plating-or-paint',
  title: 'A weld on plated or painted metal',
  family: 'Finish and order',
  severity: 'warning',
  what: 'A seam is welded and one of its pieces is cut from plated stock; or an order puts the weld after the finish of one of its pieces. Zinc and cadmium are cautions of their own.',
  why: 'Plating and paint spoil the weld with pores and burn away beside it, giving fume.',
  todo: 'Weld bare metal, and plate or paint afterwards.',
  source: 'Workshop practice',
  example: `material plate
  mild steel 1.5 mm, nickel plated
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  weld
`,
  better: `material plate
  mild steel 1.5 mm
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  weld
`,
  seam(seam, report) {
    for (const step of hotStepsOfSeam(seam)) {
      if (step.kind !== 'weld') continue;
      const piece = step.pieces.find((each) => {
        const plating = each.material()?.plating();
        return plating !== undefined && plating !== 'zinc plated' && plating !== 'cadmium plated';
      });
      if (!piece) continue;
      report(step.place, {
        message: say`“${piece.name}” is cut from ${piece.material()!.plating()} stock: grind it bare beside the weld, or weld before plating.`,
      });
    }
  },
  run(model, report) {
    for (const chain of orders(model)) {
      for (const [i, step] of chain.entries()) {
        const seam = step.named?.kind === 'seam' ? model.seamOf(step.named) : undefined;
        if (!seam?.line('weld')) continue;
        const joined = new Set(
          seam.stacks().flatMap((stack) => stack.layers.flatMap((layer) => layer.named?.section ?? [])),
        );
        const finish = model
          .finishes()
          .find(
            (each) =>
              chain.slice(0, i).some((earlier) => earlier.named?.section === each.named.section) &&
              each.on.some((on) => on.named && joined.has(on.named.section)),
          );
        if (!finish) continue;
        report(placeOf(step.line, step.filled), {
          message: say`“${seam.name}” is welded after the finish “${finish.named.word.text}” in this order: weld first.`,
        });
      }
    }
  },
};
