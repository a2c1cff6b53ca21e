import { say } from '../../../l10n/say.ts';
import { balanceAngle, leastRoom, roomAtPivots, swingBetween, weightInFront } from '../../trade/hinge/swing.ts';
import { liftOf, type Near, weighingOf } from '../assembly/lift.ts';
import { pivotedBy } from '../assembly/pivoted.ts';
import type { End } from '../assembly/sweeping.ts';
import { homeOf } from '../spec.ts';
import type { JointModel } from '../things/joint.ts';
import type { FigureSet } from '../values/figure-set.ts';

/* What swings on its pivots as one, as a visor does. */

export const SWINGING = /^(swing|clearance-least|room)$/;
export const WEIGHING = /^(balance|arm(-\d+)?)$/;

/** Adds `swing`, degrees, `clearance-least` and `room`, mm. */
export function addSwinging(joint: JointModel, set: FigureSet): void {
  const line = joint.line('swings');
  const pivoted = line && pivotedBy(joint);
  if (!line || !pivoted || typeof pivoted === 'string') return;
  const { plate, on, pivots } = pivoted;
  const inputs = [...new Set([plate, on].map(({ piece }) => `${piece.name}.area`))];
  const shape = { decimals: 1 };
  const nearest = pivots.reduce((one, other) => (other.room < one.room ? other : one));
  const thick = { one: 2 * plate.half, other: 2 * on.half };
  set.add(
    'room',
    say`room between ${plate.piece.name} and ${on.piece.name} at the pivots`,
    roomAtPivots({
      ...thick,
      apart: nearest.room + plate.half + on.half,
      note: say`${nearest.isOutside ? say`It lies outside` : say`It lies inside`}. What else lies between, as another plate on the same pivots, takes its part of it; the rest the rivet draws together.`,
    }),
    (joint.line('shares') ?? joint.line('pivots') ?? line).place,
    inputs,
    shape,
  );
  const lift = liftOf(joint);
  if (typeof lift === 'string') return;
  const { down, up, least } = lift;
  set.add(
    'swing',
    'swing until metal meets metal',
    swingBetween({
      out: up.angle,
      back: down.angle,
      note: say`From where it stands at 0°: up ${toldEnd(up)}, down ${toldEnd({ ...down, angle: -down.angle })}. Plates spring by 0.5 mm; rivet heads, wire and straps are not looked at, nor what lies within 15 mm of the line of the pivots.`,
    }),
    line.place,
    inputs,
    shape,
  );
  if (least)
    set.add(
      'clearance-least',
      'least room as it swings',
      leastRoom({
        room: least.clear,
        angle: least.angle,
        note: say`Between ${least.between}, ${toldPlace(least)}, within the swing that is asked for.`,
      }),
      line.place,
      inputs,
      shape,
    );
}

const toldEnd = ({ angle, meets }: End): string => {
  const turn = `${Math.round(10 * angle) / 10 + 0}°`;
  return meets ? say`to ${turn}, where it meets ${meets}` : 'all the way round to 180°';
};

/** `84 mm left of the middle, 62 mm in front of the pivots and 30 mm above them` */
function toldPlace({ at: [right, front, up] }: Pick<Near, 'at'>): string {
  const mm = (value: number) => `${Math.round(Math.abs(value))} mm`;
  const side =
    Math.abs(right) < 0.5 ? 'in the middle' : say`${mm(right)} to the wearer’s ${right > 0 ? say`right` : say`left`}`;
  return say`${side}, ${mm(front)} ${front < 0 ? say`behind` : say`in front of`} the pivots and ${mm(up)} ${up < 0 ? say`below` : say`above`} them`;
}

/** Adds `balance`, degrees, and `arm` for each `holds`, mm. */
export function addWeighing(joint: JointModel, set: FigureSet): void {
  const line = joint.line('swings');
  const weighing = line && weighingOf(joint, homeOf(joint));
  if (!line || !weighing || weighing.radius < LEAST_ARM) return;
  const { radius, angle: rise, without } = weighing;
  const inputs = [`${joint.plates()[0]!.piece.name}.mass`];
  const note = without.length ? say`Without ${without.join(', ')}: no mass or no place.` : '';
  set.add(
    'balance',
    'where its weight stands straight above the pivots',
    balanceAngle(
      { rise },
      ['From there on it stays open by itself; before, it falls shut unless the pivots are tight.', note]
        .filter(Boolean)
        .join(' '),
    ),
    line.place,
    inputs,
    { decimals: 1 },
  );
  for (const [i, held] of joint.holds().entries())
    set.add(
      `arm${i ? `-${i + 1}` : ''}`,
      `its weight in front of the pivots where it holds`,
      weightInFront({ radius, rise, angle: held.angle }, note),
      held.line.place,
      inputs,
      { decimals: 1 },
    );
}
/** Nearer to its pivots than this, mm, the weight of a thing says nothing. */
const LEAST_ARM = 1;
