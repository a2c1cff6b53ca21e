import { firstOf, notAboveNothing, reckon } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';
import { combWidth } from './strip.ts';

/* A comb: two feet, two sides that stand up from a line, and a half turn over the top; measures are of the middle of the thickness. */

/**
 * Length (mm) of the crest over a foot that turns through `turned` degrees, away from the comb.
 * Range: hollow lines count below nought. Source: Steiner's formula for a line moved out square to itself.
 */
export function combCrest({ foot, turned, high }: { foot: number; turned: number; high: number }): Result {
  return reckon({
    value: foot + (high * turned * Math.PI) / 180,
    unit: 'mm',
    formula: 'L = {L0|mm} + {h|mm} × {θ}/180 × π',
    symbols: { L0: foot, h: high, θ: turned },
    basis: 'geometry',
    source:
      'The line at its foot moved out by its height (Steiner); θ is what that line turns through, away from the comb',
    outside: firstOf(notAboveNothing('the foot’s length', foot), notAboveNothing('the height', high)),
    note: 'Of a comb worked from one strip it is stretched to that. Cut as two flat crescents, as long as this above and as the foot below, and welded along the crest, nothing is stretched.',
  });
}

/** True strain of the crest where the line at its foot bends most: so many times longer than that. Source: geometry. */
export function combStrain(longer: number): Result {
  return reckon({
    value: Math.log(longer),
    unit: 'ratio',
    formula: 'ε = ln({L1}/{L0})',
    symbols: { L1: longer, L0: 1 },
    basis: 'geometry',
    source: 'The crest beside the foot below it, where the line at its foot bends most',
    outside: notAboveNothing('the stretch', longer),
    note: 'If it is worked from one strip whose feet keep their length.',
  });
}

/** Thickness (mm) that a stretch along itself leaves of a strip which is free to narrow. Source: constant volume, uniaxial tension. */
export function stretchedThickness(thickness: number, strain: number): Result {
  return reckon({
    value: thickness * Math.exp(-strain / 2),
    unit: 'mm',
    formula: 't = {t0|mm} × exp(−{ε}/2)',
    symbols: { t0: thickness, ε: strain },
    basis: 'geometry',
    source: 'Volume kept, width and thickness giving alike, as in a tensile test (geometry)',
    outside: notAboveNothing('the thickness', thickness),
  });
}

/** Area (mm²) of the finished comb. Source: geometry, its sides ruled square to the line. */
export function combArea({
  foot,
  turned,
  length,
  high,
  radius,
}: {
  foot: number;
  turned: number;
  length: number;
  high: number;
  radius: number;
}): Result {
  const side = high - radius;
  const turn = (turned * Math.PI) / 180;
  const width = combWidth({ high, foot, radius });
  return reckon({
    value: length * width.value + turn * (side * side + Math.PI * radius * side + 2 * radius * radius),
    unit: 'mm2',
    formula: 'A = {L0|mm} × {w|mm} + {θ}/180 × π × ({s|mm}² + π × {r|mm} × {s|mm} + 2 × {r|mm}²)',
    symbols: { L0: length, w: width.value, θ: turned, s: side, r: radius },
    basis: 'geometry',
    source:
      'Each height is as long as the line at its foot moved out that far (Steiner); s is the height of the sides below the turn',
    outside: firstOf(notAboveNothing('the foot’s length', length), width.outside),
  });
}
