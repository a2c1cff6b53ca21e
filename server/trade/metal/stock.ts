import { say } from '../../../l10n/say.ts';
import { firstOf, notAboveNothing, reckon, when } from '../reckoning/reckon.ts';
import { plain, type Result } from '../reckoning/result.ts';
import { GAUGE_ZINC, ZINC_OUNCES } from './gauges.ts';

/** Sheet thicknesses that metric merchants keep, mm: common practice (no source). */
export const METRIC_SHEETS: readonly number[] = [
  0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.2, 1.25, 1.5, 1.6, 1.75, 2, 2.5, 3, 4, 5, 6,
];

/** The thinnest metric sheet (mm) that is nominally at least so thick; nothing beyond the list. */
export function metricSheetOver(thickness: number): number | undefined {
  return METRIC_SHEETS.find((sheet) => sheet >= thickness - 1e-6);
}

/** The thinnest metric sheet (mm) that is at least so thick even if the mill delivers it as thin as it may. */
export function sureMetricSheetOver(thickness: number): number | undefined {
  return METRIC_SHEETS.find((sheet) => {
    const tolerance = millTolerance(sheet);
    return tolerance !== undefined && sheet - tolerance.value >= thickness - 1e-6;
  });
}

/**
 * How much thinner or thicker (mm) than its nominal thickness (mm) a mill may deliver cold-rolled steel sheet.
 *
 * Range: 0.6 to 3 mm, sheets up to 1200 mm wide, soft grades. Undefined outside it.
 * Source: EN 10131, normal thickness tolerances, from memory; check the edition before you order by it.
 */
export function millTolerance(nominal: number): Result | undefined {
  const band = TOLERANCES.find(({ from, to }) => nominal >= from - 1e-9 && nominal <= to + 1e-9);
  if (!band) return undefined;
  return reckon({
    value: band.either,
    unit: 'mm',
    formula: '± {e|mm} on {t|mm}',
    symbols: { e: band.either, t: nominal },
    basis: 'published',
    source: 'EN 10131, normal thickness tolerance of cold-rolled steel sheet to 1200 mm wide (from memory)',
    note: 'Where the thickness matters, measure the sheet you have.',
  });
}

/** The first band that holds governs, so that a thickness on a border takes the tighter one. */
const TOLERANCES: readonly { readonly from: number; readonly to: number; readonly either: number }[] = [
  { from: 0.6, to: 0.8, either: 0.04 },
  { from: 0.8, to: 1, either: 0.05 },
  { from: 1, to: 1.2, either: 0.06 },
  { from: 1.2, to: 1.6, either: 0.08 },
  { from: 1.6, to: 2, either: 0.1 },
  { from: 2, to: 2.5, either: 0.12 },
  { from: 2.5, to: 3, either: 0.15 },
];

/**
 * Zinc on both faces of galvanised sheet together, mm: it counts in the thickness that the sheet is sold by, and is no steel.
 *
 * By gauge it is what the table adds, 2.5 oz/ft² counted as if it were steel; by millimetres a coat of 275 g/m², of 100 to 600.
 * Source: the galvanised sheet gauge (derived); EN 10346, Z100 to Z600 (from memory), at 7.14 g/cm³.
 */
export function zincOn(soldBy: 'gauge' | 'millimetres'): Result {
  if (soldBy === 'gauge')
    return reckon({
      value: GAUGE_ZINC,
      unit: 'mm',
      formula: 'z = {oz} oz/ft² ÷ (16 × 41.82) in × 25.4',
      symbols: { oz: ZINC_OUNCES },
      basis: 'published',
      source: 'Galvanised sheet gauge: 2.5 oz/ft² of zinc in every number (derived from its charts)',
    });
  const thick = (grams: number) => grams / 7.14 / 1000;
  return reckon({
    value: thick(275),
    low: thick(100),
    high: thick(600),
    unit: 'mm',
    formula: 'z = {g} g/m² ÷ 7.14 g/cm³',
    symbols: { g: 275 },
    basis: 'published',
    source: 'EN 10346: Z275, the usual coat, both faces together; Z100 to Z600 (from memory)',
  });
}

/** What planishing takes off, as shares of what is there: common practice (no source). */
const PLANISHED = { value: 0.035, low: 0.02, high: 0.05 };

/**
 * Thickness (mm) of sound metal that is left when a plate is finished, at its thinnest.
 *
 * From what forming leaves (`least`) of sheet sold as `thickness`; `planished` where it is; `mill` how much thinner it may come
 * and `zinc` what of it is zinc, mm. Range: above nothing. Source: proportion (derived); planishing: common practice (no source).
 */
export function finishedThickness({
  least,
  thickness,
  planished,
  mill,
  zinc,
}: {
  least: { readonly value: number; readonly low?: number | undefined; readonly high?: number | undefined };
  thickness: number;
  planished: boolean;
  mill?: number | undefined;
  zinc?: Result | undefined;
}): Result {
  const off = planished ? PLANISHED : { value: 0, low: 0, high: 0 };
  const { value: z = 0, low: zincLow = z, high: zincHigh = z } = zinc ?? {};
  const [thin, thick] = [least.low ?? least.value, least.high ?? least.value];
  const share = (mill ?? 0) / thickness;
  const value = Math.max(0, least.value * (1 - off.value) - z);
  const low = Math.max(0, thin * (1 - share) * (1 - off.high) - zincHigh);
  // Nobody counts on a mill's generosity: the sheet is no thicker than it is sold.
  const high = thick * (1 - off.low) - zincLow;
  const parts = [
    planished ? 'less 2 to 5 % for planishing (common practice, no source)' : '',
    mill ? say`the mill may deliver it ${plain(mill)} mm thinner (EN 10131, from memory)` : '',
    zinc ? say`less ${plain(z)} mm of zinc (${zinc.source})` : '',
  ].filter(Boolean);
  return reckon({
    value,
    ...(low < value || high > value ? { low: Math.min(low, value), high: Math.max(high, value) } : {}),
    unit: 'mm',
    formula: `t = {least|mm}${planished ? ' × (1 − {p})' : ''}${zinc ? ' − {z|mm}' : ''}`,
    symbols: { least: least.value, ...(planished ? { p: off.value } : {}), ...(zinc ? { z } : {}) },
    basis: parts.length ? 'common practice' : 'geometry',
    source: parts.length ? say`What forming leaves; ${parts.join('; ')}` : 'What forming leaves',
    outside: firstOf(notAboveNothing('what forming leaves', least.value), notAboveNothing('the thickness', thickness)),
  });
}

/**
 * The inverse gauge: thinnest stock (mm) that still ends at least `asked` (mm) thick after forming.
 *
 * `thickness` is any starting thickness and `least` what forming leaves of it at the thinnest place, both mm: forming
 * takes its share whatever the sheet. `least` with its range gives the answer its own.
 * Range: above nothing. Source: proportion (derived).
 */
export function startThickness({
  asked,
  thickness,
  least,
}: {
  asked: number;
  thickness: number;
  least: { readonly value: number; readonly low?: number; readonly high?: number };
}): Result {
  const from = (left: number) => (asked * thickness) / left;
  return reckon({
    value: from(least.value),
    low: from(least.high ?? Number.NaN),
    high: from(least.low ?? Number.NaN),
    unit: 'mm',
    formula: 't0 = {asked|mm} × {t0|mm}/{least|mm}',
    symbols: { asked, t0: thickness, least: least.value },
    basis: 'geometry',
    source: 'Forming leaves the same share of any sheet (derived)',
    outside: firstOf(
      notAboveNothing('the thickness asked for', asked),
      notAboveNothing('the thickness', thickness),
      notAboveNothing('what forming leaves', least.value),
      when(least.value > 10 * thickness, 'forming does not make a plate ten times as thick'),
    ),
  });
}

/** What to say of the stock to buy for a least thickness, mm: the metric sheet, and the one that is surely thick enough. */
export function metricStockInWords(least: number): string | undefined {
  const sheet = metricSheetOver(least);
  if (sheet === undefined) return undefined;
  const tolerance = millTolerance(sheet);
  const sure = sureMetricSheetOver(least);
  if (!tolerance || sheet - tolerance.value >= least - 1e-6) return say`${plain(sheet)} mm sheet`;
  return say`${plain(sheet)} mm sheet, which a mill may deliver as thin as ${plain(sheet - tolerance.value)} mm (EN 10131, from memory)${
    sure === undefined ? '' : say`; ${plain(sure)} mm is surely enough`
  }`;
}
