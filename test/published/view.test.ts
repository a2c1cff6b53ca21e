import { flangeStrain, flareStrain } from '../../server/trade/bend/bend.ts';
import { rollStrain } from '../../server/trade/edge/edge.ts';
import { fieldOfView } from '../../server/trade/fit/view.ts';
import { holdsAgainst, type Row } from './rows.ts';

const slot = fieldOfView({ wide: 130, high: 10, eyes: 64, distance: 40 });
const narrow = fieldOfView({ wide: 90, high: 10, eyes: 64, distance: 60 });

const worked = (what: string, source: string, ours: Row['ours'], theirs: number, within: number): Row => ({
  what,
  source,
  status: 'worked',
  ours,
  theirs,
  within,
});

holdsAgainst('Fields of view', [
  worked('slot 130 × 10 at 40 mm, across', 'geometry: 67.6° a side, past the nose’s 60°', slot.total, 120, 1e-9),
  worked('the same, both eyes', 'geometry: 2 arctan(33/40)', slot.both, 79, 0.5),
  worked('the same, up and down', 'geometry: 2 arctan(5/40)', slot.high, 14.3, 0.05),
  worked('slot 90 at 60 mm, across', 'geometry: 2 arctan(77/60)', narrow.total, 104.15, 0.01),
]);

holdsAgainst('Turned edges', [
  worked(
    'flare of a cylinder of 50 mm radius, 8 mm wide, square out, %',
    'a disc’s edge: 58/50 − 1',
    100 * Math.expm1(flareStrain({ radius: 50, taper: 0, turned: 90, width: 8 }).value),
    16,
    1e-9,
  ),
  worked(
    'stretch flange of 50 mm, 8 mm wide, 90°, %',
    'w/(R − w)',
    100 * Math.expm1(flangeStrain({ radius: 50, width: 8, angle: 90, side: 'stretch' }).value),
    19.05,
    0.005,
  ),
  worked(
    'shrink flange of 50 mm, 8 mm wide, 90°, %',
    '−w/(R + w)',
    100 * Math.expm1(flangeStrain({ radius: 50, width: 8, angle: 90, side: 'shrink' }).value),
    -13.79,
    0.005,
  ),
  worked(
    'the same at 45°, stretch, %',
    '(R − w cos 45°)/(R − w) − 1',
    100 * Math.expm1(flangeStrain({ radius: 50, width: 8, angle: 45, side: 'stretch' }).value),
    5.58,
    0.005,
  ),
  worked(
    'lip rolled over 3 mm in 1.5 mm plate on a 30 mm curve, %',
    '4.5/30',
    100 * Math.expm1(rollStrain({ hollow: 3, thickness: 1.5, radius: 30, outward: true }).value),
    15,
    1e-9,
  ),
]);
