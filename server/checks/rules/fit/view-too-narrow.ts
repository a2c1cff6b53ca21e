import { say, translated } from '../../../../l10n/say.ts';
import { fitOf } from '../../../model/figures/fit.ts';
import { openingName, viewOf } from '../../../model/figures/openings.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { usualFor } from '../../support/usual.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'view-too-narrow',
  title: 'A narrow field of view',
  family: 'Fit',
  severity: 'information',
  what: 'Through the best slot of a helm, or the best pair of slots left and right of the middle, less is seen across or up and down than is usual for the duty of the build. Breathing slots are not judged: the widest view counts.',
  why: 'What the wearer does not see he walks into, or off.',
  todo: 'Make the slot longer or higher, or bring it nearer to the eye; mind what the rulebook says of openings.',
  formula: 'α = 2 × arctan((W + p)/2 ÷ x), inward not past the nose',
  usual: ['view-wide', 'view-high'],
  source: 'Rays from the pupils past the ends of the slot (derived); what is usual is common practice (no source)',
  example: `build "Bowl"
  duty stage
wearer guard
  head round 585 mm
  eye distance 64 mm
material plate
  mild steel 1.5 mm
piece bowl
  from plate
  fits guard head, liner 12 mm, ease 10 mm
  cylinder round 740 mm, high 180 mm, inside
  edge bottom rolled, hollow 6 mm
  edge top rolled, hollow 6 mm
  slot sight 110 x 4 mm, at 60 mm from top
`,
  better: `build "Bowl"
  duty stage
wearer guard
  head round 585 mm
  eye distance 64 mm
material plate
  mild steel 1.5 mm
piece bowl
  from plate
  fits guard head, liner 12 mm, ease 10 mm
  cylinder round 740 mm, high 180 mm, inside
  edge bottom rolled, hollow 6 mm
  edge top rolled, hollow 6 mm
  slot sight 120 x 12 mm, at 60 mm from top
`,
  piece(piece, report, model) {
    const wide = usualFor(model, 'view-wide');
    const high = usualFor(model, 'view-high');
    if (!wide || !high) return;
    const system = model.units();
    if (!fitOf(piece)) return;
    const views = piece.openings().flatMap((opening) => {
      const view = viewOf(piece, opening);
      return view ? [{ opening, ...view }] : [];
    });
    const widest = (of: (view: (typeof views)[number]) => boolean, by: (view: (typeof views)[number]) => number) =>
      views.filter(of).sort((a, b) => by(b) - by(a))[0];
    const middle = widest(
      ({ sides }) => !sides.length,
      ({ total }) => total.value,
    );
    const [left, right] = (['left', 'right'] as const).map((side) =>
      widest(
        ({ sides }) => sides.includes(side),
        ({ outward }) => outward.value,
      ),
    );
    // A slot for each eye: the outward rays of both bound the whole.
    const pair =
      left && right
        ? { ...left, value: left.outward.value + right.outward.value, deep: left.outward.low + right.outward.low }
        : undefined;
    const whole = middle && { ...middle, value: middle.total.value, deep: middle.total.low ?? middle.total.value };
    const best = pair && whole ? (pair.value > whole.value ? pair : whole) : (pair ?? whole);
    if (!best) return;
    const ways = [
      { least: wide, value: best.value, deep: best.deep, what: 'across' },
      { least: high, value: best.high.value, deep: best.high.low ?? best.high.value, what: 'up and down' },
    ];
    for (const { least, value, deep, what } of ways) {
      if (deep >= least.value - 0.5) continue;
      const sure = value < least.value - 0.5;
      report(placeIn(piece, best.opening.line), {
        message: say`Through ${pair === best ? say`these slots` : say`“${openingName(best.opening)}”`} ${sure ? say`no more than` : say`as little as`} ${show(sure ? value : deep, 'deg', system)} ${sure ? say`is` : say`may be`} seen ${translated(what)}: for ${model.duty()} at least ${show(least.value, 'deg', system)} is usual.`,
      });
    }
  },
};
