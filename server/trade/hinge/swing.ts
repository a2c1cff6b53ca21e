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
      'Plates turned about the line of the pin, as stiff as they are formed and half a thickness out, until they touch',
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
    formula: 'c = min |p − q| − (t + t′)/2, at {φ}°',
    symbols: { φ: angle },
    basis: 'geometry',
    source:
      'Least distance of the triangles of both plates, at the middle of the thickness, less half of both thicknesses (derived)',
    note,
    outside: firstOf(notAtLeastNothing('the room', room)),
  });
