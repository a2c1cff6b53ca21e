import { say } from '../../../../l10n/say.ts';
import { intervalOf } from '../../../trade/reckoning/interval.ts';
import type { Check } from '../../check.ts';
import { sinkDepthOf } from '../../support/limits.ts';
import { lengthShown, outermost } from '../../support/rivets.ts';
import { inWords, isOver } from '../../support/sure.ts';

export const check: Check = {
  code: 'countersink-too-deep',
  title: 'A countersink goes through its plate',
  family: 'Rivets',
  severity: 'warning',
  what: 'The bought head is countersunk, and its sink is deeper than the plate it sits in: it runs on into the next one.',
  why: 'A sink right through leaves a knife edge that tears, and the head no longer holds the outer plate at all.',
  todo: 'Take a raised head, a thinner rivet or a thicker plate, or dimple the plate instead of cutting it.',
  formula: 'k ≤ t',
  source: 'FAA AC 65-15A: never into the second sheet; head depth by DIN 661',
  example: `material plate
  mild steel 1.2 mm
rivet sunk
  mild steel 5 x 8 mm, countersunk
piece outer
  from plate
  plate 140 x 40 mm
piece inner
  from plate
  plate 140 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets sunk, every 30 mm, inset 12 mm, peened domed
`,
  better: `material plate
  mild steel 1.2 mm
rivet sunk
  mild steel 5 x 8 mm, domed
piece outer
  from plate
  plate 140 x 40 mm
piece inner
  from plate
  plate 140 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets sunk, every 30 mm, inset 12 mm, peened domed
`,
  riveted({ seam, rivet, size, place, stacks }, report, model) {
    const system = model.units();
    if (rivet.head() !== 'countersunk') return;
    const depth = sinkDepthOf(size.shank);
    for (const stack of stacks) {
      const layer = outermost(stack, seam.headInside() ? 'inside' : 'outside');
      const thickness = layer?.soft ? undefined : layer?.thickness;
      const sure = thickness && isOver(depth, thickness, 0.02);
      if (!layer || !sure) continue;
      report(place, {
        severity: sure === 'may' ? 'information' : undefined,
        message: say`The head of “${rivet.name}” is ${lengthShown(depth.value, system, rivet)} deep and ${inWords(sure, 'goes', 'may go')} through “${layer.name}” (${lengthShown(sure === 'may' ? intervalOf(thickness).low : thickness.value, system)}): take a raised head, or dimple the plate.`,
        related: [{ uri: seam.named.file.uri, place: stack.line.place, message: 'The stack' }],
      });
      break;
    }
  },
};
