import { say } from '../../../../l10n/say.ts';
import { meetsOf } from '../../../model/assembly/joint-meets.ts';
import { show } from '../../../model/values/show.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { elbow } from '../../support/examples.ts';

const SPEC = (end: string) => elbow(`  pivots pivot, inset 10 mm${end}\n  bends 0 to 20 deg\n  overlap 44 mm\n`, 80);

export const check: Check = {
  code: 'plates-bind',
  title: 'Metal meets metal before a joint is bent',
  family: 'Joints',
  severity: 'warning',
  what: 'On the way to an end of its range, the bend shared evenly, two plates of a joint press into each other by more than they spring.',
  why: 'The joint stops short, or the edge of one plate scores the other and bends it open.',
  todo: 'Put the pivots nearer to the end of the plate that lies under (`end`), leave more gap, lap the plates less, or let them go less far round behind the pivots.',
  usual: ['plates-give'],
  formula: 'distance ≥ (t₁ + t₂) ÷ 2 − 0.5 mm',
  source: 'Geometry of the placed plates (derived); how far plates spring is common practice (no source)',
  example: SPEC(''),
  better: SPEC(', end 8 mm'),
  joint(joint, report, model) {
    const line = joint.line('bends');
    const found = line && meetsOf(joint)?.binds;
    if (!found) return;
    const [one, other] = [found.one, found.other].map((i) => joint.plates()[i]!.piece.name);
    const system = model.units();
    const bend = show(found.bend, 'deg', system, { decimals: 1 });
    report(line.place, {
      message: found.bend
        ? say`At ${bend} “${one}” and “${other}” press into each other by more than ${show(usual('plates-give'), 'mm', system)}: it bends no further.`
        : say`“${one}” and “${other}” run into each other as they are put together.`,
    });
  },
};
