import { say } from '../../../../l10n/say.ts';
import { pivotedBy } from '../../../model/assembly/pivoted.ts';
import { besidesAt } from '../../../model/figures/joint-hardware.ts';
import { show } from '../../../model/values/show.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { visor } from '../../support/examples.ts';

const SPEC = (round: number) => visor('  swings 0 to 60 deg\n', { round });

export const check: Check = {
  code: 'pivots-apart',
  title: 'Plates do not come together at their pivots',
  family: 'Joints',
  severity: 'warning',
  what: 'Where the pivots of what swings pass it and the plate that it swings on, more room is left between the two, beside the other plates on the same pivots, than a rivet draws in; or they run into each other.',
  why: 'A rivet that bridges a gap bends and works loose, and one that is drawn home bends the plates in, so that they rub.',
  todo: 'Form the plate that swings wider or narrower at the pivots, put the pivots where both come together, or fill the room with washers.',
  usual: ['seam-misfit', 'plates-give'],
  formula: '−0.5 mm ≤ r − Σ t between ≤ 3 mm',
  source:
    'Geometry: where the line of the pivots passes both plates (derived); how much is drawn in is common practice (no source)',
  example: SPEC(815),
  better: SPEC(792),
  joint(joint, report, model) {
    const line = joint.line('swings');
    const pivoted = line && pivotedBy(joint);
    if (!line || !pivoted || typeof pivoted === 'string') return;
    const { plate, on, pivots } = pivoted;
    const room = Math.min(...pivots.map((pivot) => pivot.room)) - besidesAt(joint);
    const place = (joint.line('shares') ?? joint.line('pivots') ?? line).place;
    const length = (value: number) => show(value, 'mm', model.units(), { decimals: 1 });
    const names = say`“${plate.piece.name}” and “${on.piece.name}”`;
    if (room > usual('seam-misfit'))
      report(place, { message: say`At the pivots ${names} stand ${length(room)} apart.` });
    else if (room < -usual('plates-give'))
      report(place, {
        message: say`At the pivots ${names} have ${length(-room)} less room than they need.`,
      });
  },
};
