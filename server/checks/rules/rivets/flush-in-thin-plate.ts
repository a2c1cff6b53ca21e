import { say } from '../../../../l10n/say.ts';
import { intervalOf } from '../../../trade/reckoning/interval.ts';
import { type Check, replacing } from '../../check.ts';
import { flushLeastOf } from '../../support/limits.ts';
import { lengthShown, outermost } from '../../support/rivets.ts';
import { inWords, isUnder } from '../../support/sure.ts';
import { placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'flush-in-thin-plate',
  title: 'A flush head in plate that is too thin for it',
  family: 'Rivets',
  severity: 'warning',
  what: 'The head made by hand is to lie flush, and the plate on that side is thinner than the sink is deep. Half way through is good, right through is the limit.',
  why: 'A sink that reaches the far side leaves a knife edge and costs about a fifth of the strength; deeper, nothing holds the plate.',
  todo: 'Peen it domed or flat, take a thinner rivet, or dimple the plate.',
  formula: 't ≥ k',
  source: 'FAA AC 65-15A; head depth by DIN 661; strength from MIL-HDBK-5F',
  example: `material plate
  mild steel 1.2 mm
rivet small
  mild steel 4 x 8 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, every 28 mm, inset 9 mm, peened flush
`,
  better: `material plate
  mild steel 1.2 mm
rivet small
  mild steel 4 x 8 mm, domed
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
  riveted({ seam, rivet, size, stacks }, report, model) {
    const system = model.units();
    if (seam.head() !== 'flush') return;
    const line = seam.rivetsLine()!;
    const bound = line.bound('peened')!;
    const least = flushLeastOf(size.shank);
    for (const stack of stacks) {
      const layer = outermost(stack, seam.headInside() ? 'outside' : 'inside');
      const thickness = layer?.soft ? undefined : layer?.thickness;
      if (!layer || !thickness) continue;
      const { value, low } = intervalOf(thickness);
      const good = least.high ?? least.value;
      const sure = isUnder(thickness, least.value, 0.02);
      if (!sure && value >= good - 0.02) continue;
      const through = sure !== undefined && sure !== 'may';
      const told = sure === 'may' ? low : value;
      report(placeOf(line, bound), {
        severity: through ? undefined : 'information',
        message: sure
          ? say`“${layer.name}” ${sure === 'may' ? say`may be` : say`is`} ${lengthShown(told, system)} thick and a flush head of ${lengthShown(size.shank, system, rivet)} sinks ${lengthShown(least.value, system)}: it ${inWords(sure, 'goes', 'may go')} right through.`
          : say`A flush head of ${lengthShown(size.shank, system, rivet)} sinks ${lengthShown(least.value, system)} into “${layer.name}” (${lengthShown(value, system)}): half way through is better, in ${lengthShown(good, system)} plate.`,
        fixes: [replacing(line.file.uri, 'Peen it domed', placeOf(line, bound), 'peened domed', through)],
        related: [{ uri: seam.named.file.uri, place: stack.line.place, message: 'The stack' }],
      });
      break;
    }
  },
};
