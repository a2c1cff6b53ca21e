import { type Counted, sumOf } from '../reckoning/readings.ts';
import { firstOf, notAtLeastNothing, reckon } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

/**
 * Mass of sheet, g, from its area (mm²), thickness (mm) and density (g/cm³).
 *
 * For a formed plate give the BLANK's area and the thickness before forming: hammering moves metal, it does not lose any.
 * Range: nothing or more in each. Source: definition of density.
 */
export function sheetMass({ area, thickness, density }: { area: number; thickness: number; density: number }): Result {
  return reckon({
    value: (area * thickness * density) / 1000,
    unit: 'g',
    formula: 'm = {A} × {t} × {ρ} ÷ 1000',
    symbols: { A: area, t: thickness, ρ: density },
    basis: 'geometry',
    source: 'Area × thickness × density; forming does not change it',
    outside: firstOf(
      notAtLeastNothing('the area', area),
      notAtLeastNothing('the thickness', thickness),
      notAtLeastNothing('the density', density),
    ),
  });
}

/**
 * Mass of round wire, g, from its length and diameter (mm) and density (g/cm³).
 * Range: nothing or more in each. Source: definition of density.
 */
export function wireMass({ length, wire, density }: { length: number; wire: number; density: number }): Result {
  return reckon({
    value: ((Math.PI / 4) * wire * wire * length * density) / 1000,
    unit: 'g',
    formula: 'm = π/4 × {d}² × {L} × {ρ} ÷ 1000',
    symbols: { d: wire, L: length, ρ: density },
    basis: 'geometry',
    source: 'Section of the wire × length × density',
    outside: firstOf(
      notAtLeastNothing('the length', length),
      notAtLeastNothing('the wire', wire),
      notAtLeastNothing('the density', density),
    ),
  });
}

/**
 * Mass of sheet for each square metre, g/m², from its thickness (mm) and density (g/cm³).
 * Range: nothing or more in each. Source: definition of density.
 */
export function areaMass({ thickness, density }: { thickness: number; density: number }): Result {
  return reckon({
    value: thickness * density * 1000,
    unit: 'g/m2',
    formula: 'm = {t} × {ρ} × 1000',
    symbols: { t: thickness, ρ: density },
    basis: 'geometry',
    source: 'Thickness × density',
    outside: firstOf(notAtLeastNothing('the thickness', thickness), notAtLeastNothing('the density', density)),
  });
}

/** Mass of a build or of a part of it, g: so many of each, with the range of each. Source: the sum of its parts. */
export const massOf = (parts: readonly Counted[], told: { source: string; note?: string | undefined }): Result =>
  sumOf(parts, { ...told, unit: 'g' }, 'm = Σ n × m', (mass) => `${Math.round(mass * 10) / 10}`);
