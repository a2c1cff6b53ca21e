import { reckon } from '../reckoning/reckon.ts';
import type { Basis, Result } from '../reckoning/result.ts';
import type { MetalId } from './metals.ts';

/**
 * The gauge tables a shop meets. The same number means another thickness in each: 18 gauge runs from 1.02 to 1.31 mm.
 * - `MSG` uncoated steel sheet (US) · `GSG` galvanised sheet, zinc counted in (US) · `USG` stainless sheet (US)
 * - `BS` brass, copper, bronze and aluminium, sheet and wire (the wire trade calls it AWG)
 * - `SWG` British sheet and wire · `BG` the older British gauge for black and galvanised sheet · `BWG` old iron wire and tube
 * - `SteelWire` US steel wire · `MusicWire` spring wire, whose numbers rise with the size
 */
export type GaugeTableId = 'MSG' | 'GSG' | 'USG' | 'BS' | 'SWG' | 'BG' | 'BWG' | 'SteelWire' | 'MusicWire';

export interface GaugeTable {
  readonly title: string;
  readonly basis: Basis;
  readonly source: string;
  /** The numbers the table knows, from the smallest number up. In `BS`, `SWG` and `BWG`, 00 is −1, 000 is −2, 0000 is −3. */
  readonly numbers: readonly number[];
}

/**
 * Thickness (or wire diameter) of a gauge number, mm.
 *
 * Charts round to a ten-thousandth of an inch before they convert, so this does too; only the US Standard table, whose
 * numbers are exact fractions by law, is left unrounded (charts that round it differ by little over a micrometre).
 *
 * @returns undefined if the table does not have the number (also for fractions, NaN and infinities).
 * Source: that of the table, see {@link gaugeTables}.
 */
export function gaugeThickness(table: GaugeTableId, number: number): Result | undefined {
  const rule = RULES[table];
  const inches = rule.inches(number);
  if (inches === undefined) return undefined;
  return reckon({
    value: inches * MM_PER_INCH,
    unit: 'mm',
    ...rule.written(number, inches),
    basis: rule.basis,
    source: rule.source,
    note: rule.note,
  });
}

/**
 * Which table a gauge number is read in, for a metal and the family of gauges the shop uses.
 *
 * British sheet is read by SWG whatever the metal; the older B.G. has to be asked for by name. Titanium is sold by
 * thickness, not by gauge: undefined.
 * Source: the scope of each table; see {@link gaugeTables}.
 */
export function gaugeTableFor(metal: MetalId, family: 'US' | 'UK', shape: 'sheet' | 'wire'): GaugeTableId | undefined {
  if (metal === 'titanium') return undefined;
  if (family === 'UK') return 'SWG';
  if (NON_FERROUS.has(metal)) return 'BS';
  if (shape === 'wire') return metal === 'spring steel' ? 'MusicWire' : 'SteelWire';
  if (metal === 'galvanised steel') return 'GSG';
  if (metal === 'stainless steel') return 'USG';
  return 'MSG';
}

/**
 * The number of a table whose thickness lies nearest to `thickness` (mm), with its own thickness in mm.
 * For a thickness that is not a number it answers with the table's first number.
 *
 * @tests tables are read back by it
 */
export function nearestGauge(table: GaugeTableId, thickness: number): { number: number; thickness: number } {
  const numbers = gaugeTables[table].numbers;
  let nearest = { number: Number.NaN, thickness: Number.NaN };
  let error = Number.POSITIVE_INFINITY;
  for (const number of numbers) {
    const own = (RULES[table].inches(number) ?? Number.NaN) * MM_PER_INCH;
    const distance = Math.abs(own - thickness);
    if (Number.isNaN(nearest.number) || distance < error) {
      nearest = { number, thickness: own };
      error = distance;
    }
  }
  return nearest;
}

/**
 * The thinnest stock of a table that is still at least `thickness` (mm): what to buy when a finished thickness is asked for
 * and what forming takes off has been added. Undefined if the table has none, or for a thickness that is not a number.
 */
export function thinnestGaugeOver(
  table: GaugeTableId,
  thickness: number,
): { number: number; thickness: number } | undefined {
  let thinnest: { number: number; thickness: number } | undefined;
  for (const number of gaugeTables[table].numbers) {
    const own = (RULES[table].inches(number) ?? Number.NaN) * MM_PER_INCH;
    // A tenth of a micrometre of slack: the asked thickness is often a converted sixteenth.
    if (own >= thickness - 1e-4 && (thinnest === undefined || own < thinnest.thickness))
      thinnest = { number, thickness: own };
  }
  return thinnest;
}

/** Millimetres in an inch, exact by the international agreement of 1959. */
export const MM_PER_INCH = 25.4;

/** Pounds per square foot for each inch of thickness in the Manufacturers' Standard Gauge: steel's 40.8 with the mill's allowance for crown and oversize. */
const MSG_WEIGHT = 41.82;

/** Ounces per square foot added for the zinc in the galvanised table. */
export const ZINC_OUNCES = 2.5;
/** What that adds to the thickness that a number stands for, mm. */
export const GAUGE_ZINC = (ZINC_OUNCES / (16 * MSG_WEIGHT)) * MM_PER_INCH;

/** Ounces per square foot of each number. Source: Act of 3 March 1893, 15 U.S.C. 206; numbers below 7 and above 30 from memory. */
export const ounces: ReadonlyMap<number, number> = new Map([
  [1, 180],
  [2, 170],
  [3, 160],
  [4, 150],
  [5, 140],
  [6, 130],
  [7, 120],
  [8, 110],
  [9, 100],
  [10, 90],
  [11, 80],
  [12, 70],
  [13, 60],
  [14, 50],
  [15, 45],
  [16, 40],
  [17, 36],
  [18, 32],
  [19, 28],
  [20, 24],
  [21, 22],
  [22, 20],
  [23, 18],
  [24, 16],
  [25, 14],
  [26, 12],
  [27, 11],
  [28, 10],
  [29, 9],
  [30, 8],
  [31, 7],
  [32, 6.5],
  [33, 6],
  [34, 5.5],
  [35, 5],
  [36, 4.5],
  [37, 4.25],
  [38, 4],
]);

/** British Standard Wire Gauge, inches. Source: BS 3737:1964 (withdrawn), as tabulated; below 7 and above 30 from memory. */
const SWG: readonly (readonly [number, number])[] = [
  [-3, 0.4],
  [-2, 0.372],
  [-1, 0.348],
  [0, 0.324],
  [1, 0.3],
  [2, 0.276],
  [3, 0.252],
  [4, 0.232],
  [5, 0.212],
  [6, 0.192],
  [7, 0.176],
  [8, 0.16],
  [9, 0.144],
  [10, 0.128],
  [11, 0.116],
  [12, 0.104],
  [13, 0.092],
  [14, 0.08],
  [15, 0.072],
  [16, 0.064],
  [17, 0.056],
  [18, 0.048],
  [19, 0.04],
  [20, 0.036],
  [21, 0.032],
  [22, 0.028],
  [23, 0.024],
  [24, 0.022],
  [25, 0.02],
  [26, 0.018],
  [27, 0.0164],
  [28, 0.0148],
  [29, 0.0136],
  [30, 0.0124],
  [31, 0.0116],
  [32, 0.0108],
  [33, 0.01],
  [34, 0.0092],
  [35, 0.0084],
  [36, 0.0076],
  [37, 0.0068],
  [38, 0.006],
  [39, 0.0052],
  [40, 0.0048],
];

/** Birmingham (Stubs) iron wire gauge, inches. Source: a public-domain building handbook's comparison of wire gauges; below 7 and above 30 from memory. */
const BWG: readonly (readonly [number, number])[] = [
  [0, 0.34],
  [1, 0.3],
  [2, 0.284],
  [3, 0.259],
  [4, 0.238],
  [5, 0.22],
  [6, 0.203],
  [7, 0.18],
  [8, 0.165],
  [9, 0.148],
  [10, 0.134],
  [11, 0.12],
  [12, 0.109],
  [13, 0.095],
  [14, 0.083],
  [15, 0.072],
  [16, 0.065],
  [17, 0.058],
  [18, 0.049],
  [19, 0.042],
  [20, 0.035],
  [21, 0.032],
  [22, 0.028],
  [23, 0.025],
  [24, 0.022],
  [25, 0.02],
  [26, 0.018],
  [27, 0.016],
  [28, 0.014],
  [29, 0.013],
  [30, 0.012],
  [31, 0.01],
  [32, 0.009],
  [33, 0.008],
  [34, 0.007],
  [35, 0.005],
  [36, 0.004],
];

/** Birmingham Gauge for sheet (B.G., 1914), inches, from memory; that it is not the wire gauge: Machinery's Handbook, 31st ed. */
const BG: readonly (readonly [number, number])[] = [
  [8, 0.157],
  [9, 0.1398],
  [10, 0.125],
  [11, 0.1113],
  [12, 0.0991],
  [13, 0.0882],
  [14, 0.0785],
  [15, 0.0699],
  [16, 0.0625],
  [17, 0.0556],
  [18, 0.0495],
  [19, 0.044],
  [20, 0.0392],
  [21, 0.0349],
  [22, 0.03125],
  [23, 0.0278],
  [24, 0.0248],
  [25, 0.022],
  [26, 0.0196],
  [27, 0.0175],
  [28, 0.0156],
  [29, 0.0139],
  [30, 0.0123],
];

/** US Steel Wire Gauge (Washburn and Moen), inches, from memory; name and use: Machinery's Handbook, 31st ed. */
const STEEL_WIRE: readonly (readonly [number, number])[] = [
  [4, 0.2253],
  [5, 0.207],
  [6, 0.192],
  [7, 0.177],
  [8, 0.162],
  [9, 0.1483],
  [10, 0.135],
  [11, 0.1205],
  [12, 0.1055],
  [13, 0.0915],
  [14, 0.08],
  [15, 0.072],
  [16, 0.0625],
  [17, 0.054],
  [18, 0.0475],
  [19, 0.041],
  [20, 0.0348],
];

/** Music wire gauge, inches, from memory (ASTM A228). */
const MUSIC_WIRE: readonly (readonly [number, number])[] = [
  [10, 0.024],
  [11, 0.026],
  [12, 0.029],
  [13, 0.031],
  [14, 0.033],
  [15, 0.035],
  [16, 0.037],
  [17, 0.039],
  [18, 0.041],
  [19, 0.043],
  [20, 0.045],
  [21, 0.047],
  [22, 0.049],
  [23, 0.051],
  [24, 0.055],
  [25, 0.059],
  [26, 0.063],
  [27, 0.067],
  [28, 0.071],
  [29, 0.075],
  [30, 0.08],
  [31, 0.085],
  [32, 0.09],
  [33, 0.095],
  [34, 0.1],
  [35, 0.106],
  [36, 0.112],
  [37, 0.118],
  [38, 0.124],
  [39, 0.13],
  [40, 0.138],
];

interface GaugeRule extends GaugeTable {
  readonly note?: string;
  /** Inches of a number, or undefined when the table does not have it. */
  inches(number: number): number | undefined;
  written(number: number, inches: number): { formula: string; symbols: Record<string, number | string> };
}

const NON_FERROUS: ReadonlySet<MetalId> = new Set(['brass', 'bronze', 'copper', 'nickel silver', 'aluminium']);

/** To a ten-thousandth of an inch, as charts do. The nudge keeps exact halves from falling down through binary fractions. */
function asCharted(inches: number): number {
  return Math.round(inches * 1e4 + 1e-7) / 1e4;
}

function inchText(inches: number): string {
  return String(Number(inches.toFixed(6)));
}

function byWeight(
  table: Pick<GaugeRule, 'title' | 'basis' | 'source' | 'note'>,
  from: number,
  to: number,
  formula: string,
  inches: (oz: number) => number,
): GaugeRule {
  const numbers = [...ounces.keys()].filter((number) => number >= from && number <= to);
  return {
    ...table,
    numbers,
    inches: (number) => {
      const oz = ounces.get(number);
      return oz === undefined || number < from || number > to ? undefined : inches(oz);
    },
    written: (number) => ({ formula, symbols: { oz: ounces.get(number) ?? Number.NaN } }),
  };
}

function byTable(
  table: Pick<GaugeRule, 'title' | 'basis' | 'source' | 'note'>,
  rows: readonly (readonly [number, number])[],
): GaugeRule {
  const known = new Map(rows);
  return {
    ...table,
    numbers: rows.map(([number]) => number),
    inches: (number) => known.get(number),
    written: (_, inches) => ({ formula: 't = {t} in × 25.4', symbols: { t: inchText(inches) } }),
  };
}

const RULES: Readonly<Record<GaugeTableId, GaugeRule>> = {
  MSG: byWeight(
    {
      title: 'Manufacturers’ Standard Gauge (uncoated steel sheet)',
      basis: 'published',
      source:
        'Manufacturers’ Standard Gauge for steel sheet: 41.82 lb/ft² for each inch; ounces by number, 15 U.S.C. 206 (below 7 and above 30 from memory)',
      note: 'The mill’s 41.82 lb/ft² counts crown and oversize in: a sheet weighed by gauge is 2.4 % heavier than thickness × 7.85 g/cm³.',
    },
    3,
    38,
    't = {oz} oz/ft² ÷ (16 × 41.82) in, rounded to 0.0001 in, × 25.4',
    (oz) => asCharted(oz / (16 * MSG_WEIGHT)),
  ),
  GSG: byWeight(
    {
      title: 'Galvanized Sheet Gauge (zinc-coated sheet)',
      basis: 'published',
      source:
        'Published galvanised sheet gauge charts, every row of which follows from ounces by number (15 U.S.C. 206) plus 2.5 oz/ft² (derived)',
      note: 'The zinc is counted in, as if it weighed like steel: the steel under it is a little thinner than the number says.',
    },
    8,
    32,
    't = ({oz} + 2.5) oz/ft² ÷ (16 × 41.82) in, rounded to 0.0001 in, × 25.4',
    (oz) => asCharted((oz + ZINC_OUNCES) / (16 * MSG_WEIGHT)),
  ),
  USG: byWeight(
    {
      title: 'U.S. Standard Gauge (stainless sheet)',
      basis: 'published',
      source: 'Act of 3 March 1893, 15 U.S.C. 206: ounces per square foot ÷ 640 (below 7 and above 30 from memory)',
    },
    3,
    38,
    't = {oz} oz/ft² ÷ 640 in × 25.4',
    (oz) => oz / 640,
  ),
  BS: {
    title: 'Brown & Sharpe gauge (copper alloys and aluminium, sheet and wire)',
    basis: 'published',
    source: 'ASTM B258 (from memory); each step is 0.890526 of the one before',
    note: 'Never the steel table: 18 gauge brass is 16 % thinner than 18 gauge steel.',
    numbers: Array.from({ length: 44 }, (_, index) => index - 3),
    inches: (number) =>
      Number.isInteger(number) && number >= -3 && number <= 40
        ? asCharted(0.005 * 92 ** ((36 - number) / 39))
        : undefined,
    written: (number) => ({
      formula: 't = 0.005 × 92^((36 − {n})/39) in, rounded to 0.0001 in, × 25.4',
      symbols: { n: number },
    }),
  },
  SWG: byTable(
    {
      title: 'British Standard Wire Gauge (sheet and wire)',
      basis: 'published',
      source: 'BS 3737:1964 (withdrawn), as tabulated; below 7 and above 30 from memory',
      note: 'Black and galvanised sheet was also sold by the Birmingham sheet gauge (B.G.): ask the merchant, or measure.',
    },
    SWG,
  ),
  BG: byTable(
    {
      title: 'Birmingham Gauge for sheet (B.G.)',
      basis: 'published',
      source: 'Birmingham Gauge for sheet and hoop, 1914 (from memory)',
      note: 'Not the Birmingham wire gauge, which has other thicknesses for the same numbers.',
    },
    BG,
  ),
  BWG: byTable(
    {
      title: 'Birmingham (Stubs) wire gauge (tube and old iron wire)',
      basis: 'published',
      source: 'Comparison of wire gauges in a public-domain building handbook; below 7 and above 30 from memory',
    },
    BWG,
  ),
  SteelWire: byTable(
    {
      title: 'US Steel Wire Gauge',
      basis: 'published',
      source: 'US Steel Wire (Washburn and Moen) gauge (figures from memory)',
    },
    STEEL_WIRE,
  ),
  MusicWire: byTable(
    {
      title: 'Music wire gauge',
      basis: 'published',
      source: 'ASTM A228 (figures from memory)',
      note: 'The number rises with the size, against every other wire gauge.',
    },
    MUSIC_WIRE,
  ),
};

/** Every gauge table, with where its numbers come from. */
export const gaugeTables: Readonly<Record<GaugeTableId, GaugeTable>> = RULES;
