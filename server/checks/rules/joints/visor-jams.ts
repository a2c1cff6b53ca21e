import { say } from '../../../../l10n/say.ts';
import { liftOf } from '../../../model/assembly/lift.ts';
import type { End } from '../../../model/assembly/sweeping.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { visor } from '../../support/examples.ts';

const SPEC = (deep: number) => visor('  swings 0 to 60 deg\n', { deep });

export const check: Check = {
  code: 'visor-jams',
  title: 'What swings on pivots meets metal on its way',
  family: 'Joints',
  severity: 'warning',
  what: 'A visor, or another plate that swings on its pivots as one, presses into what stands still by more than plates spring before it has come to an end of its swing, or to where it is to hold or lock. All that hangs on it goes along; rivet heads, wire and straps are not looked at, nor what lies near the line of the pivots, where plates are fitted to lie on each other.',
  why: 'It stops short, or scores and bends what it runs into: and a visor that does not open far enough cannot be looked under.',
  todo: 'Move the pivots, give more room between the plates, cut away the edge that meets, or ask for less swing.',
  usual: ['plates-give', 'pivot-boss'],
  formula: 'down ≤ from, to ≤ up',
  source:
    'Geometry: plates turned about the line of the pivots, half a thickness out, until they touch (derived); how far plates spring, and how far from the pivots they are fitted, is common practice (no source)',
  example: SPEC(175),
  better: SPEC(150),
  joint(joint, report, model) {
    const line = joint.line('swings');
    const asked = joint.swing();
    const lift = line && liftOf(joint);
    if (!line || !asked || !lift || typeof lift === 'string') return;
    const { down, up } = lift;
    const degrees = (angle: number) => show(angle, 'deg', model.units(), { decimals: 1 });
    const name = joint.plates()[0]!.piece.name;
    const told = (wanted: number, { angle, meets }: End) =>
      say`to ${degrees(angle)} and not to ${degrees(wanted)}${meets ? say`: there it meets “${meets}”` : ''}`;
    const blocked = (angle: number) => (angle < down.angle - SLACK ? down : angle > up.angle + SLACK ? up : undefined);
    const ends = [...new Set([asked.from, asked.to])].flatMap((angle) => {
      const end = blocked(angle);
      return end ? [told(angle, end)] : [];
    });
    if (ends.length) report(line.place, { message: say`“${name}” swings ${ends.join(', and ')}.` });
    for (const { line: held, angle } of [...joint.holds(), ...joint.locks()]) {
      const isAsked = angle === undefined || (angle >= asked.from - SLACK && angle <= asked.to + SLACK);
      const end = angle === undefined ? undefined : blocked(angle);
      const place = held.place;
      if (!isAsked) report(place, { message: say`At ${degrees(angle)} it lies outside its swing.` });
      else if (end) report(place, { message: say`“${name}” does not come to ${degrees(angle!)}.` });
    }
  },
};

/** Degrees that triangles in place of a curve may be off. */
const SLACK = 0.5;
