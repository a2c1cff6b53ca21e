import { say } from '../../../l10n/say.ts';
import type { Strip } from '../../geometry/flatten/strip.ts';
import { firstOf, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import { plain, type Result } from '../reckoning/result.ts';

/**
 * Box (mm) and area (mm²) of a strip that is cut as curved as its line turns in its surface. `wide` is the finished width, `across` and
 * `ends` what is cut of it with its edges. Source: geodesic curvature (geometry).
 */
export function curvedStrip(
  strip: Pick<Strip, 'length' | 'long' | 'wide' | 'tightest'>,
  { wide, across, ends, turns }: { wide: number; across: number; ends: number; turns: string },
): { long: Result; wide: Result; area: Result } {
  const shared = {
    basis: 'geometry',
    source: 'Flat strip with the line’s curvature in its surface, N · (γ′ × γ″)/|γ′|³ (geometry)',
    note: say`${turns}. A straight strip would do if its edges stretch and shrink by up to ${plain((50 * wide) / strip.tightest)} %.`,
  } as const;
  const size = (what: 'long' | 'wide') =>
    reckon({
      ...shared,
      value: strip[what],
      unit: 'mm',
      formula: say`${what} = box of the strip {L|mm} × {w|mm} bent as its line turns`,
      symbols: { L: strip.length, w: wide },
    });
  return {
    long: size('long'),
    wide: size('wide'),
    area: reckon({
      ...shared,
      value: (strip.length + ends) * across,
      unit: 'mm2',
      formula: 'A = ({L|mm} + {e|mm}) × {w|mm}',
      symbols: { L: strip.length, e: ends, w: across },
    }),
  };
}

/**
 * Width (mm) of a raised comb rolled out: both feet, both sides, and half round over its top.
 * Range: a top no rounder than the comb is high. Source: geometry.
 */
export function combWidth({ high, foot, radius }: { high: number; foot: number; radius: number }): Result {
  return reckon({
    value: 2 * foot + 2 * (high - radius) + Math.PI * radius,
    unit: 'mm',
    formula: 'w = 2 × {f|mm} + 2 × ({h|mm} − {r|mm}) + π × {r|mm}',
    symbols: { f: foot, h: high, r: radius },
    basis: 'geometry',
    source: 'Feet, upright sides and half a turn over the top, at the middle of the thickness; the feet’s bends sharp',
    outside: firstOf(
      notAtLeastNothing('the height', high),
      notAtLeastNothing('a foot', foot),
      notAtLeastNothing('the radius', radius),
      when(radius > high, 'the top is rounder than the comb is high'),
    ),
  });
}

/**
 * Length (mm) of a long edge of a strip whose middle turns by so many degrees in its surface: the edge to the left is shorter than the
 * middle where that turns to the left. Range: a strip that turns about something. Source: Steiner's formula, in the surface laid flat.
 */
export function stripEdge({
  length,
  wide,
  turn,
  side,
  source,
}: {
  length: number;
  wide: number;
  turn: number;
  side: 'left' | 'right';
  source: string;
}): Result {
  const sign = side === 'left' ? -1 : 1;
  const value = length + (sign * turn * Math.PI * wide) / 360;
  return reckon({
    value,
    unit: 'mm',
    formula: turn ? `L = {L0|mm} ${side === 'left' ? '−' : '+'} {θ}/360 × π × {w|mm}` : 'L = {L0|mm}',
    symbols: turn ? { L0: length, θ: turn, w: wide } : { L0: length },
    basis: 'geometry',
    source: turn ? say`Beside the middle of the strip, which turns by θ in its surface (Steiner). ${source}` : source,
    outside: when(value <= 0, 'the strip is wider than what it turns about'),
  });
}
