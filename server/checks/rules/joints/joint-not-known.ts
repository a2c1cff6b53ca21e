import { say } from '../../../../l10n/say.ts';
import { turningsOf } from '../../../model/assembly/joint.ts';
import { liftOf } from '../../../model/assembly/lift.ts';
import { MOST_PLATES } from '../../../model/things/joint.ts';
import type { Check } from '../../check.ts';
import { elbow } from '../../support/examples.ts';

const SPEC = (pivots: string) => elbow(`${pivots}  bends 0 to 30 deg\n  overlap 40 mm\n`);

export const check: Check = {
  code: 'joint-not-known',
  title: 'How a joint moves is not known',
  family: 'Joints',
  severity: 'information',
  what: 'Two plates of a joint that follow each other have no ends that are known to meet, no place, no thickness, or nothing to turn on, or there are very many of them; what swings has no pivots or no place, is held by more than them, or runs through what it swings on as they stand: then nothing is worked out of how they move.',
  why: 'What is not worked out is not checked either.',
  todo: 'Say what is missing: pivots with their inset, a form with a `top` and a `bottom`, or a dome.',
  source: 'What the spec leaves open',
  example: SPEC(''),
  better: SPEC('  pivots pivot, inset 10 mm, end 8 mm\n'),
  joint(joint, report) {
    const line = joint.line('plates');
    const isLong = joint.plates().length > MOST_PLATES;
    const why = new Set([
      ...(isLong ? [say`it has more than ${MOST_PLATES} plates`] : []),
      ...[...turningsOf(joint), joint.line('swings') && liftOf(joint)].filter((each) => typeof each === 'string'),
    ]);
    if (line && why.size)
      report(line.place, { message: say`How joint “${joint.name}” moves is not known: ${[...why].join('; ')}.` });
  },
};
