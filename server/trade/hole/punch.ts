import { say } from '../../../l10n/say.ts';
import type { Metal } from '../metal/metals.ts';
import { firstOf, notAboveNothing, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import { plain, type Result } from '../reckoning/result.ts';
import { usual } from '../usual/practice.ts';

/**
 * Force (N) to punch or shear an outline of the given length (mm) through sheet (mm) of a shear strength (MPa).
 * Range: flat punch, whole outline at once. Source: shear area × strength; punch makers take the tensile strength instead.
 */
export function punchForce({
  perimeter,
  thickness,
  shear,
}: {
  perimeter: number;
  thickness: number;
  shear: number;
}): Result {
  const value = perimeter * thickness * shear;
  return reckon({
    value,
    unit: 'N',
    formula: 'F = {L} × {t} × {τ}',
    symbols: { L: perimeter, t: thickness, τ: shear },
    basis: 'published',
    source: 'Punching force, outline × thickness × shear strength (tool makers’ handbooks)',
    outside: firstOf(
      notAtLeastNothing('the outline', perimeter),
      notAtLeastNothing('the thickness', thickness),
      notAtLeastNothing('the shear strength', shear),
    ),
    note: say`${plain(value / NEWTONS_PER_TONNE)} tonnes. Punch makers reckon with the full tensile strength, about a quarter more.`,
  });
}

/**
 * Smallest hole (mm) that may be punched in sheet (mm) of a metal: as wide as the sheet is thick, twice in hard metal.
 *
 * The low end is what the punch's own strength allows in soft steel. Range: shop punches.
 * Source: punch makers' working rules; 0.89 t derived from their historic strengths, 19 and 85 long tons per square inch.
 */
export function smallestPunchedHole({ thickness, metal }: { thickness: number; metal: Metal }): Result {
  const hard = metal.tensile.value >= HARD_TO_PUNCH;
  const times = hard ? 2 : 1;
  return reckon({
    value: times * thickness,
    low: hard ? thickness : (4 * 19 * thickness) / 85,
    high: 2 * thickness,
    unit: 'mm',
    formula: hard ? 'd = 2 × {t|mm}' : 'd = 1 × {t|mm}',
    symbols: { t: thickness },
    basis: 'published',
    source: 'Punch makers’ working rules: once the thickness, twice in hard metal',
    outside: notAboveNothing('the thickness', thickness),
    note: say`Counted as hard from ${HARD_TO_PUNCH} MPa tensile (common practice, no source).`,
  });
}

/**
 * Fewest saw teeth to the inch that keep `teethInWork` teeth (two at least, three better) in sheet (mm).
 * Range: square cut. Source: US Army ordnance manual on hand hacksaws.
 */
export function bladeTeeth({ thickness, teethInWork = 2 }: { thickness: number; teethInWork?: number }): Result {
  return reckon({
    value: (teethInWork * 25.4) / thickness,
    low: (teethInWork * 25.4) / thickness,
    high: ((teethInWork + 1) * 25.4) / thickness,
    unit: 'tpi',
    formula: 'tpi = {N} × 25.4/{t|metric}',
    symbols: { N: teethInWork, t: thickness },
    basis: 'published',
    source: 'US Army ordnance manual: two or more teeth in contact',
    outside: firstOf(notAboveNothing('the thickness', thickness), notAboveNothing('the number of teeth', teethInWork)),
    note: 'The manual’s own 24 and 32 tpi for sheet keep only one and a half teeth in 16 or 18 gauge: slope the cut or sandwich the sheet.',
  });
}

/**
 * Steepest angle (degrees) between blade and sheet that keeps `teethInWork` teeth in the work: 90 is a square cut.
 * Range: above nothing. Source: way through the sheet, t/sin of the angle (derived).
 */
export function slopedCutAngle({
  thickness,
  tpi,
  teethInWork = 2,
}: {
  thickness: number;
  tpi: number;
  teethInWork?: number;
}): Result {
  return reckon({
    value: (Math.asin(Math.min(1, (thickness * tpi) / (teethInWork * 25.4))) * 180) / Math.PI,
    unit: 'deg',
    formula: 'α = arcsin({t|metric} × {tpi}/({N} × 25.4))',
    symbols: { t: thickness, tpi, N: teethInWork },
    basis: 'geometry',
    source: 'Way of the blade through the sheet (derived)',
    outside: firstOf(
      notAboveNothing('the thickness', thickness),
      notAboveNothing('the teeth to the inch', tpi),
      notAboveNothing('the number of teeth', teethInWork),
    ),
    note: thickness * tpi >= teethInWork * 25.4 ? 'The blade is fine enough to cut square.' : undefined,
  });
}

/**
 * Least metal (mm) between a hole's edge and the sheet's edge: sources disagree from once to twice the thickness.
 * Range: sheet. Source: two die makers' design guides.
 */
export function holeEdgeLeast(thickness: number): Result {
  return reckon({
    value: 2 * thickness,
    low: thickness,
    high: 2 * thickness,
    unit: 'mm',
    formula: 'e = 2 × {t|mm}',
    symbols: { t: thickness },
    basis: 'published',
    source: 'Die makers’ design guides, which disagree: one asks for t, another for 2 t',
    outside: notAboveNothing('the thickness', thickness),
  });
}

/**
 * Least way (mm) from a hole's edge to the inside of a bend of the given inside radius (mm).
 * Range: a hole made before bending. Source: three design guides, from 2 t + R to 3 t + R.
 */
export function holeBendLeast({ thickness, radius }: { thickness: number; radius: number }): Result {
  return reckon({
    value: 2.5 * thickness + radius,
    low: 2 * thickness + radius,
    high: 3 * thickness + radius,
    unit: 'mm',
    formula: 'e = 2.5 × {t|mm} + {R|mm}',
    symbols: { t: thickness, R: radius },
    basis: 'published',
    source: 'Sheet metal design guides, which disagree: 2 t from the start of the curve, 2.5 t + R, 3 t + R',
    outside: firstOf(notAboveNothing('the thickness', thickness), notAtLeastNothing('the radius', radius)),
  });
}

/**
 * Least metal (mm) left between two holes. Range: sheet. Source: common practice (no source).
 */
export function webLeast(thickness: number): Result {
  return reckon({
    value: usual('web') * thickness,
    unit: 'mm',
    formula: 'web = {k} × {t|mm}',
    symbols: { k: usual('web'), t: thickness },
    basis: 'common practice',
    source: 'Twice the thickness between holes: common practice (no source)',
    outside: notAboveNothing('the thickness', thickness),
  });
}

/** Teeth (count) that a saw blade has in sheet (mm) cut square. Range: above nothing. Source: geometry. */
export function teethInSheet({ thickness, tpi }: { thickness: number; tpi: number }): Result {
  return reckon({
    value: (thickness * tpi) / 25.4,
    unit: 'count',
    formula: 'teeth = {t|metric} × {tpi}/25.4',
    symbols: { t: thickness, tpi },
    basis: 'geometry',
    source: 'Teeth to the inch × thickness',
    outside: firstOf(
      when(Number.isNaN(tpi), 'the teeth to the inch are not a number'),
      notAtLeastNothing('the thickness', thickness),
      notAtLeastNothing('the teeth to the inch', tpi),
    ),
  });
}

/** Piercing saw blades: thickness and depth in mm, teeth to the inch. Source: blade makers' tables, from memory. */
export const sawBlades: readonly {
  readonly name: string;
  readonly thick: number;
  readonly deep: number;
  readonly tpi: number;
}[] = (
  [
    ['8/0', 0.0063, 0.0126, 89],
    ['6/0', 0.007, 0.014, 76],
    ['5/0', 0.008, 0.0157, 71],
    ['4/0', 0.0086, 0.0175, 66],
    ['3/0', 0.0095, 0.019, 61],
    ['2/0', 0.0103, 0.0204, 56],
    ['1/0', 0.011, 0.022, 54],
    ['1', 0.012, 0.024, 51],
    ['2', 0.0134, 0.0276, 43],
    ['3', 0.014, 0.029, 41],
    ['4', 0.015, 0.0307, 38],
    ['5', 0.0158, 0.0331, 36],
    ['6', 0.0173, 0.037, 33],
    ['8', 0.0197, 0.044, 28],
  ] as const
).map(([name, thick, deep, tpi]) => ({ name, thick: thick * 25.4, deep: deep * 25.4, tpi }));

/** Newtons in a tonne-force, by standard gravity. */
const NEWTONS_PER_TONNE = 9806.65;

/** Tensile strength, MPa, from which a metal is punched by the rule for hard ones (common practice, no source). */
const HARD_TO_PUNCH = 550;
