import { firstOf, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

/**
 * How far something turns (degrees) between two stops, told from where it is at rest; less than nothing is the other way.
 * Range: the one stop at least as far as the other. Source: plates turned about the line until they touch (derived).
 */
export const swingBetween = ({ out, back, note }: { out: number; back: number; note: string }): Result =>
  reckon({
    value: out - back,
    unit: 'deg',
    formula: 'φ = {out} − {back}',
    symbols: { out, back },
    basis: 'geometry',
    source:
      'Plates turned about the line that they turn on, as stiff as they are formed and half a thickness out, until they touch',
    note,
    outside: when(out < back, 'it is stopped on both sides of where it is at rest'),
  });

/**
 * The least room (mm) between the faces of two plates as the one turns, at an angle (degrees).
 * Range: nothing or more. Source: least distance of the triangles of both plates (derived).
 */
export const leastRoom = ({ room, angle, note }: { room: number; angle: number; note: string }): Result =>
  reckon({
    value: room,
    unit: 'mm',
    formula: 'c = min |p − q| − (t + t′)/2, at {φ|}°',
    symbols: { φ: angle },
    basis: 'geometry',
    source:
      'Least distance of the triangles of both plates, at the middle of the thickness, less half of both thicknesses (derived)',
    note,
    outside: firstOf(notAtLeastNothing('the room', room)),
  });

/**
 * The room (mm) between the faces of two plates along the line of their pivots, less than nothing where they run into each other.
 * Range: any. Source: where the line passes both (derived).
 */
export const roomAtPivots = ({
  apart,
  one,
  other,
  note,
}: {
  apart: number;
  one: number;
  other: number;
  note: string;
}): Result =>
  reckon({
    value: apart - (one + other) / 2,
    unit: 'mm',
    formula: 'r = {a} − ({t} + {t′}) ÷ 2',
    symbols: { a: apart, t: one, 't′': other },
    basis: 'geometry',
    source: 'Where the line of the pivots passes the middle of both plates (derived)',
    note,
  });

const WEIGHT = {
  basis: 'geometry',
  source:
    'Middle of the mass of what swings, each plate as if it were even in thickness, turned about its pivots (derived)',
} as const;

/**
 * How far (mm) in front of its pivots the weight of what swings lies at an angle (degrees): in front of them it falls shut, behind them
 * it stays open. `radius` from the pivots, `rise` degrees above the level front where it stands at nought.
 * Range: any. Source: a point carried round a line (derived).
 */
export const weightInFront = (
  { radius, rise, angle }: { radius: number; rise: number; angle: number },
  note: string,
): Result =>
  reckon({
    ...WEIGHT,
    value: radius * Math.cos(((rise + angle) * Math.PI) / 180),
    unit: 'mm',
    formula: 'a = {r} × cos({θ}° + {φ}°)',
    symbols: { r: radius, θ: rise, φ: angle },
    note,
    outside: notAtLeastNothing('the distance from the pivots', radius),
  });

/**
 * The angle (degrees) at which the weight of what swings stands straight above its pivots: from there on it stays open.
 * Range: any. Source: a point carried round a line (derived).
 */
export const balanceAngle = ({ rise }: { rise: number }, note: string): Result =>
  reckon({
    ...WEIGHT,
    value: 90 - rise,
    unit: 'deg',
    formula: 'φ = 90° − {θ}°',
    symbols: { θ: rise },
    note,
  });
