import { say } from '../../../../l10n/say.ts';
import { headPieces } from '../../../model/figures/worn.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { inWords, isOver } from '../../support/sure.ts';
import { usualFor } from '../../support/usual.ts';

export const check: Check = {
  code: 'front-heavy',
  title: 'A helm that nods',
  family: 'Fit',
  severity: 'information',
  what: 'What is worn on the head balances further in front of the middle of the head than is usual for the duty of the build.',
  why: 'The head rests over the ears: what hangs before them is held up by the neck muscles, and a helm that nods slides over the eyes.',
  todo: 'Take thinner plate in front, bring the face plate closer, carry the neck further down behind, or hold the helm with a chin strap that pulls back.',
  formula: 'd = Σ m × d ÷ Σ m ≤ d(usual)',
  usual: ['helm-front'],
  source: 'Common practice (no source)',
  example: `build "Tourney face"
  duty stage
wearer guard
  head round 585 mm
material plate
  mild steel 1.2 mm
material thick-plate
  mild steel 3 mm
piece bowl
  from plate
  fits guard head, liner 10 mm, ease 6 mm
  dome 220 mm, deep 110 mm, inside
  edge rim rolled, hollow 5 mm
piece face-plate
  from thick-plate
  fits guard face, liner 10 mm, ease 6 mm
  cylinder round 720 mm, high 150 mm, wrap 150 deg, inside
  edge top rolled, hollow 12 mm
  edge bottom rolled, hollow 12 mm
  edge left rolled, hollow 12 mm
  edge right rolled, hollow 12 mm
`,
  better: `build "Tourney face"
  duty stage
wearer guard
  head round 585 mm
material plate
  mild steel 1.5 mm
material thin-plate
  mild steel 1 mm
piece bowl
  from plate
  fits guard head, liner 10 mm, ease 6 mm
  dome 220 mm, deep 110 mm, inside
  edge rim rolled, hollow 6 mm
piece face-plate
  from thin-plate
  fits guard face, liner 10 mm, ease 6 mm
  cylinder round 720 mm, high 90 mm, wrap 150 deg, inside
  edge top rolled, hollow 4 mm
  edge bottom rolled, hollow 4 mm
  edge left rolled, hollow 4 mm
  edge right rolled, hollow 4 mm
`,
  run(model, report) {
    const most = usualFor(model, 'helm-front');
    // The build is balanced only where something is worn on the head.
    if (!most || !headPieces(model).length) return;
    const front = model.buildFigures().get('helm-front');
    const sure = front && isOver(front, most);
    if (!front || !sure) return;
    const system = model.units();
    const { value, high = value } = front;
    report(front.place, {
      message: say`What is worn on the head ${inWords(sure, 'balances', 'may balance')} ${show(sure === 'may' ? high : value, 'mm', system)} in front of the middle of the head: for ${model.duty()} at most ${show(most.value, 'mm', system)} is usual.`,
    });
  },
};
