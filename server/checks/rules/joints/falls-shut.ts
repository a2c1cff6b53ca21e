import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { visor } from '../../support/examples.ts';

const SPEC = (more: string) => visor(`  swings 0 to 60 deg\n  holds 40 deg\n${more}`);

export const check: Check = {
  code: 'falls-shut',
  title: 'What swings does not stay where it is to hold',
  family: 'Joints',
  severity: 'information',
  what: 'Where a visor, or another plate that swings, is to hold, its weight lies in front of its pivots, and no part locks it there: it stays only as long as the pivots are tight.',
  why: 'Rivets wear, and what falls shut falls on the nose or on fingers.',
  todo: 'Let it hold further up, behind the angle of balance, set the pivots further forward, or lock it there: `locks part, at …`. What falls open where it is to stay shut wants a lock too.',
  formula: 'a = r × cos(θ + φ) ≤ 0',
  source: 'Middle of the mass of what swings, turned about its pivots (derived)',
  example: SPEC(''),
  better: SPEC('  locks hook, at 40 deg\n'),
  joint(joint, report, model) {
    const locked = joint.locks().flatMap(({ angle }) => angle ?? []);
    const length = (value: number) => show(value, 'mm', model.units(), { decimals: 1 });
    for (const [i, { line, angle }] of joint.holds().entries()) {
      if (locked.some((each) => Math.abs(each - angle) < SAME)) continue;
      const arm = joint.figure(`arm${i ? `-${i + 1}` : ''}`);
      const balance = joint.figure('balance');
      if (!arm || !balance || arm.value <= NEAR) continue;
      // At the lower end of its swing it lies on what stops it.
      if (angle <= (joint.swing()?.from ?? angle) + SAME) continue;
      report(line.place, {
        message: say`There its weight lies ${length(arm.value)} in front of the pivots: it falls shut unless they are tight. From ${show(balance.value, 'deg', model.units(), { decimals: 1 })} on it stays open by itself.`,
      });
    }
  },
};

/** Degrees, and mm. */
const SAME = 0.5;
const NEAR = 1;
