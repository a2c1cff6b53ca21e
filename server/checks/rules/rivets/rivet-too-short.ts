import type { Place } from '../../../../grammar/tree.ts';
import { say } from '../../../../l10n/say.ts';
import { jointRivets } from '../../../model/figures/joint-hardware.ts';
import type { Model } from '../../../model/spec.ts';
import type { RivetModel } from '../../../model/things/rivet.ts';
import type { FindingFix } from '../../../model/values/figure.ts';
import { intervalOf } from '../../../trade/reckoning/interval.ts';
import type { Result } from '../../../trade/reckoning/result.ts';
import type { Check, Report } from '../../check.ts';
import { boughtLong, rivetsInRack } from '../../support/rack.ts';
import { lengthShown, stackedSeam, stockedLength } from '../../support/rivets.ts';
import { inWords, isUnder } from '../../support/sure.ts';

export const check: Check = {
  code: 'rivet-too-short',
  title: 'A rivet is too short for its stack',
  family: 'Rivets',
  severity: 'warning',
  what: 'The shank must pass the whole stack, fill its hole and still hold metal for the head that is made by hand. The stack is taken as formed: a dome is thicker at its rim than the sheet it came from. The rivets of a joint pass both plates and the gap between them, a leather’s the leather and its washer.',
  why: 'A short rivet makes a thin, cracked head that pulls through at the first blow, and it is found only after the piece is finished.',
  todo: 'Take the next length that is sold, or thin the stack. Cut a longer rivet down rather than stretch a short one.',
  formula: 'L = G × (hole/D)² + V(head) ÷ (π/4 × D²)',
  source: 'Volume constancy, with head sizes of DIN 660/661',
  example: `material plate
  mild steel 2 mm
rivet small
  brass 4 x 6 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, every 28 mm, inset 9 mm, peened domed
`,
  better: `material plate
  mild steel 2 mm
rivet small
  brass 4 x 10 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, every 28 mm, inset 9 mm, peened domed
`,
  riveted(sized, report, model) {
    const stacked = stackedSeam(sized);
    if (!stacked) return;
    const { seam, rivet, stacks, place } = stacked;
    const worst = stacks.reduce((a, b) => (b.needed.value > a.needed.value ? b : a));
    reportShort(report, model, {
      ...worst,
      rivet,
      place,
      by: { uri: seam.named.file.uri, place: worst.line.place },
      inRack: (wanted, next) => rivetsInRack(sized, wanted, next, model),
    });
  },
  joint(joint, report, model) {
    const own = jointRivets(model).filter((use) => use.joint.named.section === joint.named.section);
    for (const { line } of joint.riveting()) {
      const uses = own.flatMap(({ line: its, rivet, needed, stack: total }) =>
        its === line && needed && total ? [{ rivet, needed, total }] : [],
      );
      if (!uses.length) continue;
      const worst = uses.reduce((a, b) => (b.needed.value > a.needed.value ? b : a));
      reportShort(report, model, {
        ...worst,
        place: line.place,
        by: { uri: joint.named.file.uri, place: line.place },
      });
    }
  },
};

interface Held {
  readonly rivet: RivetModel;
  readonly needed: Result;
  readonly total: Result;
  /** Where it is told to be set. */
  readonly place: Place;
  /** What says the stack. */
  readonly by: { readonly uri: string; readonly place: Place };
  /** Fixes by others that lie in the rack, from one length to another. */
  inRack?(wanted: number, next: number): readonly FindingFix[];
}

function reportShort(report: Report, model: Model, { rivet, needed, total, place, by, inRack }: Held): void {
  const size = rivet.size();
  const stock = rivet.stock();
  const sure = size && isUnder(size.length, needed, 0.05);
  if (!stock || !sure) return;
  const system = model.units();
  const wanted = sure === 'may' ? intervalOf(needed).high : needed.value;
  const next = stockedLength(wanted, rivet);
  const advice = next ? say`: use ${next.text}` : '';
  const there = (next && inRack?.(wanted, next.value)) ?? [];
  report(place, {
    severity: sure === 'may' ? 'information' : undefined,
    message: say`“${rivet.name}” ${inWords(sure, 'is', 'may be')} too short: needs ${sure === 'may' ? say`up to ` : ''}${lengthShown(wanted, system, rivet)}, has ${lengthShown(size.length, system, rivet)} (stack ${lengthShown(total.value, system, rivet)})${advice}.`,
    fixes: [...there, ...(next ? boughtLong(rivet, next, !there.length) : [])],
    related: [
      {
        uri: rivet.named.file.uri,
        place: stock.place,
        message: say`${rivet.name} is ${lengthShown(size.length, system, rivet)} long`,
      },
      {
        ...by,
        message: say`The stack: ${total.worked} = ${lengthShown(total.value, system, rivet)}`,
      },
    ],
  });
}
