import type { Filled, Range, SlotType } from '../../../grammar/pattern.ts';
import { type UnitWord, units } from '../../../grammar/units.ts';
import { say, translated } from '../../../l10n/say.ts';
import {
  LONGEST_COIL,
  LONGEST_PIECE,
  LONGEST_SHEET,
  SHORTEST_PIECE,
  THICKEST_STOCK,
  THINNEST_STOCK,
} from '../../trade/reckoning/bounds.ts';
import { numberOf, type Quantity } from './quantity.ts';

/*
 * Which numbers a measure can be. The notation of a line says the sign, and where more can be than elsewhere; how large and
 * how small things get stands here and in the trade's bounds. All of it is wide: what lies outside was never meant.
 */

/** Of what a line takes: the part of a filled slot that its range hangs on. */
export type Taken = Pick<Filled, 'type' | 'range'>;

interface Limits {
  /** Of a measure above nought, in base units. Nought and below are matters of the sign. */
  readonly least: number;
  readonly most: number;
  /** What a number beyond the one or the other is: `longer than any piece (10 m)`. */
  readonly over: () => string;
  readonly under: () => string;
}

/** What cannot be about a value; nothing where it can be. */
export type Impossible = 'endless' | 'below nought' | 'nought' | 'too small' | 'too large';

export function whyImpossible(taken: Taken, quantity: Quantity): Impossible | undefined {
  const value = numberOf(quantity);
  if (!Number.isFinite(value)) return 'endless';
  const { least, most } = limitsOf(taken, quantity.dimension);
  const { sign, between } = taken.range;
  if (between)
    return value < least ? (value <= 0 ? signOf(value) : 'too small') : value > most ? 'too large' : undefined;
  if (quantity.dimension === 'temperature') return value < least ? 'too small' : value > most ? 'too large' : undefined;
  if (value < 0 && sign !== '±') return 'below nought';
  // There is a gauge of nought.
  if (value === 0) return sign === '> 0' && quantity.dimension !== 'gauge' ? 'nought' : undefined;
  if (sign === '> 0' && value < least) return 'too small';
  return Math.abs(value) > most ? 'too large' : undefined;
}

const signOf = (value: number): Impossible => (value < 0 ? 'below nought' : 'nought');

/** How a number that is too small or too large is spoken of. */
export function limitInWords(taken: Taken, quantity: Quantity, why: 'too small' | 'too large'): string {
  const limits = limitsOf(taken, quantity.dimension);
  return why === 'too large' ? limits.over() : limits.under();
}

/** The unit that was likely being typed: `m` on the way to `mm`, where that would fit. */
export function unitHalfTyped(taken: Taken, quantity: Quantity, unit: UnitWord): UnitWord | undefined {
  const inUnits = (numberOf(quantity) * unit.factor[1]) / unit.factor[0];
  return units.find((other) => {
    if (other === unit || other.dimension !== unit.dimension || other.offset || !other.id.startsWith(unit.id))
      return false;
    const value = (inUnits * other.factor[0]) / other.factor[1];
    return whyImpossible(taken, { value, dimension: quantity.dimension }) === undefined;
  });
}

/** What a `let` may come to: a measure of anything. */
export const ANY_MEASURE: Taken = { type: 'measure', range: { sign: '±' } };

/** How many of something, and what a measure may be off. */
export const COUNTED: Taken = { type: 'count', range: { sign: '> 0' } };
export const toleranceOf = ({ type, range }: Taken): Taken => ({ type, range: { ...range, sign: '≥ 0' } });

function limitsOf({ type, range }: Taken, dimension: Quantity['dimension']): Limits {
  const { between } = range;
  if (between) return amounts(between[0], between[1], dimension === 'length' ? 'mm' : '');
  if (type === 'count') return range.of === 'stock' ? STORED : COUNTS;
  if (range.of === 'sheet') return SHEET;
  if (range.of === 'coil') return COIL;
  if (type === 'measure') return ANY;
  if (dimension === 'length') return THICKNESSES.has(type) ? THICKNESS : PIECE;
  return LIMITS[dimension] ?? ANY;
}

const THICKNESSES = new Set<SlotType>(['thickness', 'leather thickness']);

/** Written out with spaces between the thousands. */
const written = (value: number): string => String(value).replace(/\B(?=(\d{3})+$)/g, ' ');

const amounts = (least: number, most: number, unit: string): Limits => ({
  least,
  most,
  over: () => say`more than there can be (at most ${written(most)}${unit && ` ${unit}`})`,
  under: () => say`less than there can be (at least ${least}${unit && ` ${unit}`})`,
});

const SMALLEST = () => say`smaller than anything that can be made (at least ${SHORTEST_PIECE} mm)`;

const lengths = (most: number, what: string): Limits => ({
  least: SHORTEST_PIECE,
  most,
  over: () => say`longer than any ${what} (${written(most / 1000)} m)`,
  under: SMALLEST,
});

const PIECE = lengths(LONGEST_PIECE, 'piece');
const SHEET = lengths(LONGEST_SHEET, 'sheet');
const COIL = lengths(LONGEST_COIL, 'coil');
const THICKNESS: Limits = {
  least: THINNEST_STOCK,
  most: THICKEST_STOCK,
  over: () => say`thicker than any stock (${THICKEST_STOCK} mm)`,
  under: () => say`thinner than any foil (${THINNEST_STOCK} mm)`,
};

/** Counts past this are a slip of the finger; what comes in packs is bought by the thousand. */
const LARGEST_COUNT = 10_000;
const COUNTS = amounts(1, LARGEST_COUNT, '');
const STORED = amounts(1, 1_000_000, '');
const ANY = amounts(0, 1e15, '');

const LIMITS: Readonly<Partial<Record<Quantity['dimension'], Limits>>> = {
  number: amounts(0, 1e9, ''),
  area: { ...amounts(1, 1e8, 'mm2'), over: () => translated('larger than any hide (100 m2)') },
  angle: { ...amounts(0.01, 360, 'deg'), over: () => translated('more than once round (360 deg)') },
  temperature: { ...amounts(-273.15, 3500, 'C'), under: () => translated('colder than anything (-273 C)') },
  time: amounts(0.01, 600_000, 'min'),
  mass: { ...amounts(0.001, 1_000_000, 'g'), over: () => translated('heavier than anything worn (1000 kg)') },
  density: amounts(0.001, 30, 'g/cm3'),
  stress: amounts(0.1, 10_000, 'MPa'),
  percent: amounts(0.001, 1000, '%'),
  grit: amounts(1, 100_000, 'grit'),
  teeth: amounts(0.1, 1000, 'tpi'),
  // Which gauges there are is said by the tables.
  gauge: amounts(0.1, 1000, 'ga'),
  ounce: amounts(0.1, 100, 'oz'),
};

/** A row of the reference for each kind of measure. */
export function rangeTable(): string {
  const lengthRow = (what: string, { least, most }: Limits, unit = 'm') =>
    `| ${what} | ${least} mm | ${unit === 'm' ? `${written(most / 1000)} m` : `${most} mm`} |`;
  const row = (what: string, { least, most }: Limits, unit: string) =>
    `| ${what} | ${written(least)} ${unit} | ${written(most)} ${unit} |`;
  const of = (dimension: Quantity['dimension'], unit: string, what: string = dimension) =>
    row(what, LIMITS[dimension]!, unit);
  return [
    '| measure | at least | at most |',
    '|---|---|---|',
    lengthRow('length', PIECE),
    lengthRow('side of a sheet', SHEET),
    lengthRow('coil', COIL),
    lengthRow('thickness of stock', THICKNESS, 'mm'),
    '| area | 1 mm2 | 100 m2 |',
    of('angle', 'deg'),
    of('temperature', 'C'),
    of('time', 'min'),
    of('mass', 'g'),
    of('density', 'g/cm3'),
    of('stress', 'MPa'),
    of('percent', '%', 'share'),
    of('grit', 'grit', 'abrasive'),
    of('teeth', 'tpi', 'saw blade'),
    of('ounce', 'oz', 'leather'),
    row('count', COUNTS, '').replaceAll('  |', ' |'),
    row('count of what is in stock or in a pack', STORED, '').replaceAll('  |', ' |'),
  ].join('\n');
}

/** Whether nought and less are ruled out: of such measures a form is made. */
export const isExtent = (range: Range): boolean => range.sign === '> 0' && !range.between;
