import { say } from '../../../../l10n/say.ts';
import type { Check } from '../../check.ts';
import { lengthShown, thickestPlate } from '../../support/rivets.ts';
import { inWords, isUnder } from '../../support/sure.ts';
import { usualFor } from '../../support/usual.ts';

export const check: Check = {
  code: 'rivet-too-thin',
  title: 'A rivet is thinner than the plate it holds',
  family: 'Rivets',
  severity: 'warning',
  what: 'The shank is thinner than the thickest plate of the stack. One that is thinner than usual for the duty, where it holds plates, is information.',
  usual: ['rivet-shank'],
  why: 'A thin shank in thick plate shears before the plate does, and it bends in the hole while its head is made.',
  todo: 'Take a rivet whose shank is at least as thick as the thickest plate.',
  formula: 'D ≥ t',
  source: 'NAVEDTRA 14018 (US Navy): once to three times the thickest sheet',
  example: `material plate
  mild steel 2.5 mm
rivet tack
  mild steel 2 x 10 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets tack, every 15 mm, inset 6 mm, peened domed
`,
  better: `material plate
  mild steel 2.5 mm
rivet tack
  mild steel 4 x 12 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets tack, every 25 mm, inset 10 mm, peened domed
`,
  riveted({ seam, rivet, size, place, stacks }, report, model) {
    const system = model.units();
    const plate = thickestPlate(stacks);
    if (!plate) return;
    const sure = isUnder(size.shank, plate.thickness, 0.05);
    if (!sure) {
      const least = usualFor(model, 'rivet-shank');
      const holdsPlates = stacks.some(({ layers }) => layers.filter((layer) => layer.piece && !layer.soft).length > 1);
      // One rivet alone is a pivot: how thick that is hangs on what turns.
      if (!least || !holdsPlates || seam.rivetCount()?.value === 1 || size.shank >= least.value - 0.05) return;
      report(place, {
        severity: 'information',
        message: say`“${rivet.name}” is ${lengthShown(size.shank, system, rivet)} thick: for ${model.duty()} at least ${lengthShown(least.value, system)} is usual where it holds plates.`,
      });
      return;
    }
    report(place, {
      severity: sure === 'may' ? 'information' : undefined,
      message: say`“${rivet.name}” is ${lengthShown(size.shank, system, rivet)} thick and “${plate.name}” ${inWords(sure, '', 'may be ')}${lengthShown(sure === 'may' ? plate.thickness.high : plate.thickness.value, system)}: take a rivet at least as thick as the plate.`,
      related: [{ uri: seam.named.file.uri, place: plate.line.place, message: say`The stack with ${plate.name}` }],
    });
  },
};
