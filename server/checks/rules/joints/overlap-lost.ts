import { say } from '../../../../l10n/say.ts';
import { rangeOf } from '../../../model/assembly/joint-range.ts';
import { askedLap } from '../../../model/assembly/lap.ts';
import { leastIn, pairName, worstIn } from '../../../model/figures/joint.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { elbow } from '../../support/examples.ts';
import { changingLength, nextUp } from '../../support/writing.ts';

const SPEC = (lap: string) =>
  `build "Elbow"\n  duty stage\n${elbow(`  pivots pivot, inset 10 mm, end 8 mm\n  bends 0 to 30 deg\n  overlap ${lap} mm\n`)}`;

export const check: Check = {
  code: 'overlap-lost',
  title: 'Plates of a joint come apart when it bends',
  family: 'Joints',
  severity: 'warning',
  what: 'Over the range of a joint, shared evenly by its pairs, less overlap is left in the middle or beside it than the joint, the rulebook or the duty asks for; or nothing, and a gap opens. Where only a pair that takes more than its share loses it, that is information.',
  why: 'A gap opens just where the limb is bent and most in the way, and an edge that has come out does not go back under by itself.',
  todo: 'Assemble with more overlap, put the pivots nearer to the middle of the plates, bend over more plates, or let slides stop each pair.',
  usual: ['overlap-left'],
  formula: 'o(φ) ≥ o asked, φ = Φ ÷ n; straight plates: o = z_t cos φ − R sin φ − z_e',
  source: 'Geometry of the placed plates (derived); what is usual for a duty is common practice (no source)',
  example: SPEC('20'),
  better: SPEC('40'),
  joint(joint, report, model) {
    const asked = askedLap(joint);
    const range = asked && rangeOf(joint);
    const line = joint.line('bends');
    if (!range || !line) return;
    const system = model.units();
    const [length, angle] = [(mm: number) => show(mm, 'mm', system), (deg: number) => show(deg, 'deg', system)];
    const place = (joint.line('lap') ?? line).place;
    const least = leastIn(range);
    const count = range.pairs.length;
    if (least.lap < asked.value - ROUNDING) {
      const whole = angle(least.bend * count);
      const left =
        least.lap < 0
          ? say`“${least.turning.pair.upper.piece.name}” and “${least.turning.pair.lower.piece.name}” stand ${length(-least.lap)} apart`
          : say`${pairName(least.turning)} lie over each other by ${length(least.lap)} only`;
      const at = { slot: 'lap' } as const;
      const lap = joint.line('lap');
      report(place, {
        fixes: lap
          ? changingLength(
              lap,
              at,
              nextUp(lapWanted(joint.saidLap()!, asked.value - least.lap, least.bend), lap.expressionsAt(at)[0]),
              (text) => say`Assemble it with ${text}`,
            )
          : [],
        message: say`At ${whole} ${left}${least.isMiddle ? '' : say`, beside the middle`}; ${length(asked.value)} is asked (${asked.said}).`,
      });
      return;
    }
    const worst = worstIn(joint, range);
    if (count > 1 && worst.lap < asked.value - ROUNDING)
      report(place, {
        severity: 'information',
        message: say`Shared evenly the joint keeps its overlap; nothing stops ${pairName(worst.turning)} from taking ${angle(worst.bend)} alone, where ${worst.lap < 0 ? say`they stand ${length(-worst.lap)} apart` : say`${length(worst.lap)} is left`}.`,
      });
  },
};

/** Of pivots in the middle of the overlap only its lower half is kept whole: z_t cos φ − z_e, with z_t = −z_e = o₀ ÷ 2. A curved plate wants a little more. */
const lapWanted = (lap: number, missing: number, bend: number): number =>
  lap + (2 * missing) / (1 + Math.cos((bend * Math.PI) / 180)) + CURVED;
/** mm */
const CURVED = 0.5;

/** What is as good as met, mm. */
const ROUNDING = 0.05;
