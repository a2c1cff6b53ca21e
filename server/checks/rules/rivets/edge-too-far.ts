import { say } from '../../../../l10n/say.ts';
import type { Check } from '../../check.ts';
import { edgeDistanceOf } from '../../support/limits.ts';
import { lengthShown } from '../../support/rivets.ts';
import { changingLength, nextDown, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'edge-too-far',
  title: 'A row of rivets sits far from the edge',
  family: 'Rivets',
  severity: 'information',
  what: 'The inset is more than four shank diameters, as far as aircraft practice goes. In armour it is ordinary where the lap is wide.',
  why: 'The lip outside the row may lift and catch.',
  todo: 'Move the row out, or dress the lip down after riveting.',
  formula: 'e ≤ 4 × D',
  source: 'FAA AC 43.13-1B: at most 4 D',
  example: `material plate
  mild steel 1.5 mm
rivet small
  brass 4 x 10 mm, domed
piece outer
  from plate
  plate 120 x 60 mm
piece inner
  from plate
  plate 120 x 60 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, every 28 mm, inset 22 mm, peened domed
`,
  better: `material plate
  mild steel 1.5 mm
rivet small
  brass 4 x 10 mm, domed
piece outer
  from plate
  plate 120 x 60 mm
piece inner
  from plate
  plate 120 x 60 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, every 28 mm, inset 12 mm, peened domed
`,
  riveted({ seam, rivet, size }, report, model) {
    const system = model.units();
    const inset = seam.inset();
    const line = seam.rivetsLine()!;
    const filled = line.filled('inset', 'inset');
    const { most } = edgeDistanceOf(size.shank);
    if (inset === undefined || !filled || inset <= most.value + 0.05) return;
    report(placeOf(line, filled), {
      message: say`An inset of ${lengthShown(inset, system)} is more than four shanks (${lengthShown(most.value, system)} for ${lengthShown(size.shank, system, rivet)}): the lip may lift.`,
      fixes: changingLength(
        line,
        { slot: 'inset', qualifier: 'inset' },
        nextDown(most.value, line.expressions('inset', 'inset')[0]),
        (text) => say`Set the row ${text} in`,
      ),
    });
  },
};
