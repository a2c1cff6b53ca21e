/**
 * The closed list of units. A measure is read in the unit the shop uses and kept as an exact ratio of its base unit
 * (mm, g, degree, minute, °C, N, MPa), so that inch and metric specs of one build agree to the last digit.
 */
export type Dimension =
  | 'length'
  | 'area'
  | 'mass'
  | 'angle'
  | 'temperature'
  | 'time'
  | 'density'
  | 'stress'
  | 'force'
  | 'percent'
  | 'grit'
  | 'teeth'
  | 'gauge'
  | 'ounce';

export interface UnitWord {
  /** The spelling the formatter writes. */
  readonly id: string;
  readonly spellings: readonly string[];
  readonly dimension: Dimension;
  /** How many base units one of these is: numerator and denominator, exact. */
  readonly factor: readonly [number, number];
  /** Added after the factor, for temperatures only: numerator and denominator. */
  readonly offset?: readonly [number, number];
  readonly doc: string;
}

const unit = (
  id: string,
  dimension: Dimension,
  factor: readonly [number, number],
  doc: string,
  others: readonly string[] = [],
  offset?: readonly [number, number],
): UnitWord => ({ id, spellings: [id, ...others], dimension, factor, doc, ...(offset ? { offset } : {}) });

export const units: readonly UnitWord[] = [
  unit('mm', 'length', [1, 1], 'millimetre', ['millimetre', 'millimetres', 'millimeter', 'millimeters']),
  unit('cm', 'length', [10, 1], 'centimetre', ['centimetre', 'centimetres', 'centimeter', 'centimeters']),
  unit('m', 'length', [1000, 1], 'metre', ['metre', 'metres', 'meter', 'meters']),
  unit('in', 'length', [127, 5], 'inch: 25.4 mm exactly', ['"', '″', 'inch', 'inches']),
  unit('ft', 'length', [1524, 5], 'foot: 12 in', ['foot', 'feet']),
  unit('mm2', 'area', [1, 1], 'square millimetre', ['mm²']),
  unit('cm2', 'area', [100, 1], 'square centimetre', ['cm²']),
  unit('m2', 'area', [1_000_000, 1], 'square metre', ['m²']),
  unit('ft2', 'area', [2322576, 25], 'square foot', ['ft²']),
  unit('g', 'mass', [1, 1], 'gram', ['gram', 'grams']),
  unit('kg', 'mass', [1000, 1], 'kilogram', ['kilogram', 'kilograms', 'kilo', 'kilos']),
  unit('lb', 'mass', [45359237, 100000], 'pound: 453.59237 g exactly', ['lbs', 'pound', 'pounds']),
  unit('deg', 'angle', [1, 1], 'degree of angle', ['°', 'degree', 'degrees']),
  unit('C', 'temperature', [1, 1], 'degree Celsius', ['°C']),
  unit('F', 'temperature', [5, 9], 'degree Fahrenheit', ['°F'], [-160, 9]),
  unit('min', 'time', [1, 1], 'minute', ['minute', 'minutes', 'mins']),
  unit('h', 'time', [60, 1], 'hour', ['hour', 'hours', 'hr', 'hrs']),
  unit('g/cm3', 'density', [1, 1], 'gram in a cubic centimetre', ['g/cm³']),
  unit('kg/m3', 'density', [1, 1000], 'kilogram in a cubic metre', ['kg/m³']),
  unit('MPa', 'stress', [1, 1], 'megapascal, the same as N/mm²', ['N/mm2', 'N/mm²']),
  unit('ksi', 'stress', [6894757293, 1_000_000_000], 'thousand pounds in a square inch'),
  unit('N', 'force', [1, 1], 'newton'),
  unit('kN', 'force', [1000, 1], 'kilonewton'),
  unit('%', 'percent', [1, 1], 'per cent', ['percent']),
  unit('grit', 'grit', [1, 1], 'abrasive grade; compared by grain size in micrometres, never by number'),
  unit('tpi', 'teeth', [1, 1], 'saw teeth to the inch'),
  unit('ga', 'gauge', [1, 1], 'gauge number: means nothing without a metal, since every metal has its own table', [
    'gauge',
    'gage',
  ]),
  unit('oz', 'ounce', [1, 1], 'leather thickness: 1 oz is 1/64 in', ['ounce', 'ounces']),
];

const bySpelling = new Map<string, UnitWord>();
for (const word of units) for (const spelling of word.spellings) bySpelling.set(spelling.toLowerCase(), word);

/** The unit written so, whatever its case; nothing if it is not in the list. */
export const unitOf = (spelling: string): UnitWord | undefined => bySpelling.get(spelling.toLowerCase());

/** Every spelling, longest first, so that `g/cm3` is read before `g`. */
export const unitSpellings: readonly string[] = [...bySpelling.keys()].sort((a, b) => b.length - a.length);

/** The usual units of a dimension, to say what would fit: `mm, in`. */
export function unitsFor(dimension: Dimension): string {
  return units
    .filter((word) => word.dimension === dimension)
    .map((word) => word.id)
    .slice(0, 4)
    .join(', ');
}
