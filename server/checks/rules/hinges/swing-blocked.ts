import { say } from '../../../../l10n/say.ts';
import type { End } from '../../../model/assembly/sweeping.ts';
import { swingOf } from '../../../model/assembly/swing.ts';
import type { Check } from '../../check.ts';

const hinged = (swing: string) => `material plate
  mild steel 1.2 mm
material hinge-wire
  mild steel wire 3 mm
piece front
  from plate
  cylinder round 330 mm, high 90 mm, wrap 180 deg
piece back
  from plate
  cylinder round 330 mm, high 90 mm, wrap 176 deg
hinge side
  joins front.left, back.right
  knuckles 5, wide 60 mm
  over hinge-wire
  swing ${swing}
`;

export const check: Check = {
  code: 'swing-blocked',
  title: 'A hinge does not come as far as it must',
  family: 'Hinges',
  severity: 'warning',
  what: 'The leaves of a hinge, with all that hangs on them, meet metal before they have come to an end of the swing that the hinge is to have. Plates are taken as stiff as they are formed; rivet heads, wire and straps are not looked at.',
  why: 'What does not open lets nobody in, and what does not close stands open: either shows when both leaves are formed and the knuckles are curled.',
  todo: 'Ask for less swing, cut away what is in the way, or move the hinge outward. Inward the edges of the leaves butt, unless the hinge takes all of the edge.',
  formula: 'in ≤ from, to ≤ out',
  source: 'Geometry: both plates turned about the pin, half a thickness out, until they touch (derived)',
  example: hinged('-20 to 90 deg'),
  better: hinged('0 to 90 deg'),
  hinge(hinge, report) {
    const asked = hinge.swing();
    const found = asked && swingOf(hinge);
    if (!asked || !found) return;
    const { inward, outward } = found;
    const told = (wanted: number, { angle, meets }: End) =>
      say`swings to ${plainDegrees(angle)} and not to ${plainDegrees(wanted)}${meets ? say`: there it meets ${meets}` : ''}`;
    const ends = [
      ...(asked.from < inward.angle - SLACK ? [told(asked.from, inward)] : []),
      ...(asked.to > outward.angle + SLACK ? [told(asked.to, outward)] : []),
    ];
    if (ends.length) report(asked.line.place, { message: say`The hinge ${ends.join(', and ')}.` });
  },
};

/** Degrees that triangles in place of a curve may be off. */
const SLACK = 0.5;
const plainDegrees = (angle: number) => `${Math.round(angle * 10) / 10 + 0}°`;
