import { say } from '../../../../l10n/say.ts';
import type { Check } from '../../check.ts';
import { lengthShown, thickestPlate } from '../../support/rivets.ts';
import { inWords, isOver } from '../../support/sure.ts';

export const check: Check = {
  code: 'rivet-too-thick',
  title: 'A rivet is more than three times as thick as its plate',
  family: 'Rivets',
  severity: 'information',
  what: 'The shank is more than three times the thickest plate of the stack. Aircraft practice stops there; armour often goes over for the look of a large head.',
  why: 'The force that upsets a thick shank spreads and dents thin plate around the hole.',
  todo: 'Take a thinner rivet, or set it soft and support the plate.',
  formula: 'D ≤ 3 × t',
  source: 'NAVEDTRA 14018 (US Navy); FAA AC 43.13-1B',
  example: `material plate
  mild steel 0.8 mm
rivet stud
  mild steel 5 x 8 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets stud, every 30 mm, inset 12 mm, peened domed
`,
  better: `material plate
  mild steel 0.8 mm
rivet stud
  mild steel 2 x 4 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets stud, every 14 mm, inset 6 mm, peened domed
`,
  riveted({ seam, rivet, size, place, stacks }, report, model) {
    // One rivet alone is a pivot, and those are thick.
    if (seam.rivetCount()?.value === 1) return;
    const system = model.units();
    const plate = thickestPlate(stacks);
    const { value, low, high } = plate?.thickness ?? { value: 0, low: 0, high: 0 };
    const sure = plate && isOver(size.shank, { value: 3 * value, low: 3 * low, high: 3 * high }, 0.05);
    if (!plate || !sure) return;
    report(place, {
      message: say`“${rivet.name}” is ${lengthShown(size.shank, system, rivet)} thick, ${inWords(sure, '', 'perhaps ')}more than three times its thickest plate (${plate.name}, ${lengthShown(sure === 'may' ? low : value, system)}): mind dents round the hole.`,
    });
  },
};
