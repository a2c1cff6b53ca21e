import { say } from '../../../../l10n/say.ts';
import type { Named } from '../../../model/names/spec-file.ts';
import { orders, type Step } from '../../../model/operations/orders.ts';
import { isHotFinish } from '../../../model/operations/steps.ts';
import type { Model } from '../../../model/spec.ts';
import type { Check } from '../../check.ts';
import { hotStepsOfSeam } from '../../support/heat.ts';
import { placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'leather-before-heat',
  title: 'Heat where leather already hangs',
  family: 'Finish and order',
  severity: 'warning',
  what: 'An order rivets or sews leather to a piece before something hot is done to that piece; or a seam that is welded or soldered has leather in its stack.',
  why: 'Leather shrinks and goes hard as horn at 60 °C when damp, and burns long before steel shows a colour.',
  todo: 'Everything hot first, then paint, then leather.',
  source: 'Workshop practice: leather last',
  example: `material plate
  mild steel 1.5 mm
material flap-leather
  veg-tan leather 7 oz
rivet small
  copper 3 x 10 mm, flat
  washer 9 x 0.8 mm
piece brow
  from plate
  strip 300 x 40 mm
piece flap
  from flap-leather
  plate 80 x 90 mm
seam hang
  joins brow, flap
  along flap.top
  rivets small, count 2, inset 10 mm, peened flat, washer inside
finish blued
  on brow
  blue 300 C
  wax
order bench
  first hang, then blued
`,
  better: `material plate
  mild steel 1.5 mm
material flap-leather
  veg-tan leather 7 oz
rivet small
  copper 3 x 10 mm, flat
  washer 9 x 0.8 mm
piece brow
  from plate
  strip 300 x 40 mm
piece flap
  from flap-leather
  plate 80 x 90 mm
seam hang
  joins brow, flap
  along flap.top
  rivets small, count 2, inset 10 mm, peened flat, washer inside
finish blued
  on brow
  blue 300 C
  wax
order bench
  first blued, then hang
`,
  seam(seam, report) {
    for (const { kind, pieces, place } of hotStepsOfSeam(seam)) {
      if (kind !== 'weld' && kind !== 'solder') continue;
      const soft = pieces.find((piece) => piece.material()?.kind() === 'soft');
      if (soft) report(place, { message: say`“${soft.name}” lies in this seam, and it is ${kind}ed: leather burns.` });
    }
  },
  run(model, report) {
    for (const chain of orders(model)) {
      for (const [i, step] of chain.entries()) {
        const heated = heatedBy(model, step);
        if (!heated.size) continue;
        const hung = chain.slice(0, i).find(({ named }) => named && hangsLeather(model, named, heated));
        if (!hung) continue;
        report(placeOf(step.line, step.filled), {
          message: say`“${step.key}” is hot work, and by then “${hung.key}” has hung leather on it: heat first.`,
          related: [{ uri: model.file.uri, place: placeOf(hung.line, hung.filled), message: 'Leather is hung here' }],
        });
      }
    }
  },
};

const HOT: ReadonlySet<string> = new Set(['anneal', 'harden', 'temper', 'weld', 'solder']);

/** The sections of the pieces that a step of an order makes hot. */
function heatedBy(model: Model, { named, operation }: Step): ReadonlySet<Named['section']> {
  if (named?.kind === 'piece') return new Set(operation && HOT.has(operation) ? [named.section] : []);
  if (named?.kind === 'seam') {
    const seam = model.seamOf(named);
    if (!seam.line('weld') && !seam.line('solder')) return new Set();
    return new Set(seam.stacks().flatMap(({ layers }) => layers.flatMap((layer) => layer.piece?.named.section ?? [])));
  }
  if (named?.kind !== 'finish') return new Set();
  const finish = model.finishes().find((each) => each.named.section === named.section);
  if (!finish?.steps.some(isHotFinish)) return new Set();
  return new Set(finish.on.flatMap((on) => on.named?.section ?? []));
}

/** Whether a seam hangs something soft on one of these pieces. */
function hangsLeather(model: Model, named: Named, heated: ReadonlySet<Named['section']>): boolean {
  if (named.kind !== 'seam') return false;
  const seam = model.seamOf(named);
  const hung = seam.stacks().some(({ layers }) => layers.some((layer) => layer.soft)) || seam.line('strap');
  return (
    Boolean(hung) &&
    seam.stacks().some(({ layers }) => layers.some(({ piece }) => piece && heated.has(piece.named.section)))
  );
}
