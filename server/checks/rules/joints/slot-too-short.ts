import { say } from '../../../../l10n/say.ts';
import { slidesOf } from '../../../model/assembly/joint-rivets.ts';
import { pairName } from '../../../model/figures/joint.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { elbow } from '../../support/examples.ts';
import { changingLength, nextUp, placeOf } from '../../support/writing.ts';

const SPEC = (play: string) =>
  elbow(
    `  pivots pivot, inset 10 mm, end 8 mm\n  slides pivot, play ${play} mm, at 0 mm from middle and 15 mm from top\n  bends 0 to 20 deg\n  overlap 40 mm\n`,
  );

export const check: Check = {
  code: 'slot-too-short',
  title: 'A rivet comes to the end of its slot before the joint is bent',
  family: 'Joints',
  severity: 'warning',
  what: 'A slide lies so far from the line that its plates turn about that over their share of the range it must slide further than its `play`.',
  why: 'The rivet stops the plates short of the range, or tears the end of its slot.',
  todo: 'Give it the play that the range needs, or put it nearer to the pivots.',
  formula: 's = ρ·φ; slot = s + D',
  source: 'Way along the arc about the line of the pivots (derived)',
  example: SPEC('12'),
  better: SPEC('25'),
  joint(joint, report, model) {
    const lines = joint.slides();
    if (!lines.some(({ play }) => play !== undefined)) return;
    const system = model.units();
    const slides = slidesOf(joint);
    for (const { line, play } of lines) {
      if (play === undefined) continue;
      const short = slides.filter(({ rivets, travel }) => rivets.line === line && travel > play + ROUNDING);
      if (!short.length) continue;
      const most = short.reduce((one, other) => (other.travel > one.travel ? other : one));
      const at = { slot: 'play', qualifier: 'play' } as const;
      const filled = line.filledAt(at);
      report(placeOf(line, filled ?? line.line), {
        message: say`Between ${pairName(most.turning)} its rivet must slide ${show(most.travel, 'mm', system)}, ${show(most.radius, 'mm', system)} from the pivots through ${show(most.to - most.from, 'deg', system)}; it has ${show(play, 'mm', system)}.`,
        fixes: changingLength(
          line,
          at,
          nextUp(most.travel, line.expressionsAt(at)[0]),
          (text) => say`Let it slide ${text}`,
          true,
        ),
      });
    }
  },
};

/** mm */
const ROUNDING = 0.05;
