import { fieldInSteps } from '../../server/geometry/view/field.ts';
import { atOnce } from '../../server/incremental/steps.ts';
import { flangeStrain, flareStrain } from '../../server/trade/bend/bend.ts';
import { rollStrain } from '../../server/trade/edge/edge.ts';
import { BARE, fieldOfView } from '../../server/trade/fit/view.ts';
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

/** A flat plate before both eyes, with one level slot in it, as rays find it. */
function slotted({
  wide,
  high,
  distance,
  thickness,
}: {
  wide: number;
  high: number;
  distance: number;
  thickness: number;
}) {
  const y = distance - thickness / 2;
  const half = (wide - high) / 2;
  return atOnce(
    fieldInSteps(
      [
        [-32, 0, 0],
        [32, 0, 0],
      ],
      [
        {
          positions: Float64Array.of(-900, y, -900, 900, y, -900, 900, y, 900, -900, y, 900),
          triangles: Uint32Array.of(0, 1, 2, 0, 2, 3),
          thickness,
          holes: [
            {
              spine: [
                [-half, y, 0],
                [half, y, 0],
              ],
              radius: high / 2,
            },
          ],
        },
      ],
      // A flat plate hides nothing that lies square to the way one looks.
      { ...BARE, outward: 80 },
    ),
  );
}
const thin = slotted({ wide: 130, high: 10, distance: 40, thickness: 0 });
const further = slotted({ wide: 90, high: 10, distance: 60, thickness: 0 });
const thick = slotted({ wide: 130, high: 10, distance: 40, thickness: 2 });

holdsAgainst(
  'Fields of view by rays',
  [
    worked('slot 130 × 10 at 40 mm, across', 'arctan(97/40) is past the nose’s 60°', thin.left + thin.right, 120, 0.1),
    worked('the same, both eyes', '2 arctan(33/40)', thin.both, 79, 0.5),
    worked('the same, up and down', '2 arctan(5/40)', thin.up + thin.down, 14.3, 0.1),
    worked('slot 90 at 60 mm, across', '2 arctan(77/60)', further.left + further.right, 104.15, 0.1),
    // The outer face bounds a ray up and down, 40 mm from the eye; across it is stopped by the nose before that.
    worked('slot in 2 mm plate, its outer face at 40 mm, up', 'arctan(5/40)', thick.up, 7.125, 0.05),
  ],
  'other method',
);

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
