import { say } from '../../../l10n/say.ts';
import { reckon, when } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

/* What passes through an opening, and how much metal is left beside it. Lengths mm. */

/** The largest rod that passes. Range: above nothing. Source: geometry. */
export function rodThrough({ long, wide, round }: { long: number; wide: number; round: boolean }): Result {
  return reckon({
    value: Math.min(long, wide),
    unit: 'mm',
    formula: round ? 'rod = {d|mm}' : 'rod = least of {l|mm} and {w|mm}',
    symbols: { d: long, l: long, w: wide },
    basis: 'geometry',
    source: 'The narrowest way through: any thicker rod is refused',
    note: 'Sheet gives: a blade or a pushed rod opens a slot a little.',
  });
}

/**
 * How far a slot with round ends reaches from its middle in a direction, degrees from its long way; of pierced work the box counts.
 * Source: support of a rounded or a square box (derived).
 */
export function reachTowards(
  turn: number,
  { long, wide, boxed }: { long: number; wide: number; boxed: boolean },
): number {
  const [along, up] = [Math.abs(Math.cos((turn * Math.PI) / 180)), Math.abs(Math.sin((turn * Math.PI) / 180))];
  if (boxed) return (long * along + wide * up) / 2;
  const narrow = Math.min(long, wide);
  return narrow / 2 + ((long - narrow) * along + (wide - narrow) * up) / 2;
}

/** Metal left to an edge that its line measures from, or to the one across: less than nothing breaks out. Source: geometry. */
export function metalToEdge({ distance, wide, edge }: { distance: number; wide: number; edge: string }): Result {
  const left = distance - wide / 2;
  return reckon({
    value: left,
    unit: 'mm',
    formula: 'e = {d|mm} − {w|mm}/2',
    symbols: { d: distance, w: wide },
    basis: 'geometry',
    source: 'Along the finished surface, from the edge that it is measured from, or the one across',
    outside: when(left <= 0, say`it breaks out of ${edge}`),
  });
}

/** The same to the nearest edge over a surface; `reach` is what the opening takes of that way. Source: geometry. */
export function metalOver({ distance, reach, edge }: { distance: number; reach: number; edge: string }): Result {
  const left = distance - reach;
  return reckon({
    value: left,
    unit: 'mm',
    formula: 'e = {d|mm} − {r|mm}',
    symbols: { d: distance, r: reach },
    basis: 'geometry',
    source:
      'From the middle of the opening straight over the finished surface to the nearest edge, less how far it reaches that way',
    outside: when(left <= 0, say`it breaks out of ${edge}`),
  });
}

/** Metal left between two holes of a pattern. Source: geometry. */
export function webLeft({ pitch, diameter }: { pitch: number; diameter: number }): Result {
  return reckon({
    value: pitch - diameter,
    unit: 'mm',
    formula: 'w = {p|mm} − {d|mm}',
    symbols: { p: pitch, d: diameter },
    basis: 'geometry',
    source: 'From middle to middle, less a hole',
    outside: when(pitch <= diameter, 'the holes run into each other'),
  });
}

/** Metal left from an opening to where a bend begins; `distance` is to the bend line, `curve` what the bend takes up. Source: geometry. */
export function metalToBend({ distance, wide, curve }: { distance: number; wide: number; curve: number }): Result {
  const left = distance - wide / 2 - curve / 2;
  return reckon({
    value: left,
    unit: 'mm',
    formula: 'e = {d|mm} − {w|mm}/2 − {a|mm}/2',
    symbols: { d: distance, w: wide, a: curve },
    basis: 'geometry',
    source: 'From the rim of the opening to where the metal begins to curve, half the bend allowance from its line',
    outside: when(left < 0, 'it lies in the curve of the bend'),
  });
}
