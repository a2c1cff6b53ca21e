import { say } from '../../../../l10n/say.ts';
import { headPieces } from '../../../model/figures/worn.ts';
import { show } from '../../../model/values/show.ts';
import { intervalOf } from '../../../trade/reckoning/interval.ts';
import type { Check } from '../../check.ts';
import { usualFor } from '../../support/usual.ts';

export const check: Check = {
  code: 'too-heavy',
  title: 'A helm heavier than is usual',
  family: 'Fit',
  severity: 'information',
  what: 'Plates that fit the head, and all that is riveted or hinged to them, weigh more than is usual for the duty of the build.',
  why: 'The neck carries it at the end of a lever, all day.',
  todo: 'Take thinner plate where the rulebook lets you, raise instead of starting thicker, shorten what hangs on it.',
  formula: 'Σ n × m ≤ m(usual)',
  usual: ['helm-mass'],
  source: 'Common practice (no source)',
  example: `build "Great bowl"
  duty stage
wearer guard
  head round 585 mm
material plate
  mild steel 3 mm
piece bowl
  from plate
  fits guard head, liner 10 mm, ease 6 mm
  cylinder round 700 mm, high 230 mm, inside
  edge bottom rolled, hollow 12 mm
  edge top rolled, hollow 12 mm
`,
  better: `build "Great bowl"
  duty stage
wearer guard
  head round 585 mm
material plate
  mild steel 1.5 mm
piece bowl
  from plate
  fits guard head, liner 10 mm, ease 6 mm
  cylinder round 700 mm, high 230 mm, inside
  edge bottom rolled, hollow 6 mm
  edge top rolled, hollow 6 mm
`,
  run(model, report) {
    const most = usualFor(model, 'helm-mass');
    // The build is weighed only where something is worn on the head.
    if (!most || !headPieces(model).length) return;
    const mass = model.buildFigures().get('helm-mass');
    if (!mass || intervalOf(mass).high <= most.value) return;
    const { low, high } = intervalOf(mass);
    const system = model.units();
    const sure = low > most.value;
    report(mass.place, {
      message: say`What is worn on the head ${sure ? say`weighs` : say`may weigh`} ${show(sure ? mass.value : high, 'g', system)} without its liner: for ${model.duty()} at most ${show(most.value, 'g', system)} is usual.`,
    });
  },
};
