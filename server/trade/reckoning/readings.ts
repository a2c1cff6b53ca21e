import { say } from '../../../l10n/say.ts';
import { ends, intervalOf } from './interval.ts';
import { plain, type Result, type Unit } from './result.ts';
import { PURE, remeasured, result } from './working.ts';

/*
 * Numbers that are read rather than computed: as they stand, a sum of parts, from one end to the other, so many of all. Whoever
 * reads them says where (the source) and what else is worth knowing. Every other formula stands with its craft, and none outside
 * the trade.
 */

export { workedInInches } from './working.ts';

/** What goes with a number besides the formula. */
type Told = Pick<Result, 'source'> & {
  readonly note?: string | undefined;
  readonly outside?: string | undefined;
};

/** A number that the smith wrote. */
export const fromSpec = (value: number, unit: Unit, symbol: string, source = 'As written in the spec'): Result =>
  stated(symbol, { value, unit, basis: 'from the spec', source });

/** The same in the smith's own words, brackets and all. */
export const asWritten = (value: number, unit: Unit, words: string): Result => ({
  value,
  unit,
  formula: words,
  worked: words,
  basis: 'from the spec',
  source: 'As written in the spec',
});

/** A number as it stands in a table, or as a form gives it. */
export function stated(
  symbol: string,
  { value, low, high, unit, basis, source }: Omit<Result, 'formula' | 'worked' | 'note' | 'outside'>,
): Result {
  return result({
    value,
    low,
    high,
    unit,
    formula: `${symbol} = {${symbol}${LENGTHS[unit] ?? ''}}`,
    symbols: { [symbol]: value },
    basis,
    source,
  });
}

/** How a formula tells what is worked in inches. */
const LENGTHS: Partial<Record<Unit, string>> = { mm: '|mm', mm2: '|mm²', mm3: '|mm³' };

/** A measure that the form gives as it stands, mm. */
export const given = (value: number, symbol: string, source: string): Result =>
  stated(symbol, { value, unit: 'mm', basis: 'geometry', source });

/** One part of a sum, so many times. */
export interface Counted {
  readonly value: number;
  readonly low?: number | undefined;
  readonly high?: number | undefined;
  readonly times: number;
}

/** The same by the name of the figure that it is. */
export interface Part extends Counted {
  readonly name: string;
}

/** A figure as a part of a sum. */
export const counted = ({ name, value, low, high }: Omit<Part, 'times'>, times: number): Part => ({
  name,
  value,
  low,
  high,
  times,
});

const timesText = (times: number): string => (times === 1 ? '' : `${times} × `);

/** So many of each, added up, with what each of them leaves open. `shown` writes one of them out. */
export function sumOf(
  parts: readonly Counted[],
  { unit, source, note }: Told & { readonly unit: Unit },
  formula = 'Σ n × x',
  shown: (value: number) => string = plain,
): Result {
  const tag = LENGTHS[unit] ?? (PURE.has(unit) ? '|' : undefined);
  let [value, low, high] = [0, 0, 0];
  for (const part of parts) {
    const each = intervalOf(part);
    value += part.times * each.value;
    low += part.times * each.low;
    high += part.times * each.high;
  }
  return {
    ...result({
      value,
      ...ends({ value, low, high }),
      unit,
      formula,
      symbols: {},
      basis: 'geometry',
      source,
      note,
    }),
    worked: parts.map(({ times, value }) => `${timesText(times)}${shown(value)}`).join(' + '),
    ...(tag === undefined
      ? {}
      : {
          measures: {
            formula: parts.map(({ times }, i) => `${timesText(times)}{${i}${tag}}`).join(' + '),
            symbols: Object.fromEntries(
              parts.map(({ value }, i) => [i, shown === plain || LENGTHS[unit] ? value : shown(value)]),
            ),
          },
        }),
  };
}

/** How far it is from the near end to the far one, mm, each with its name. */
export function spanned(
  symbol: string,
  [far, most]: readonly [string, number],
  [near, least]: readonly [string, number],
  { source, note }: Told,
): Result {
  return result({
    value: most - least,
    unit: 'mm',
    formula: `${symbol} = {${far}|mm} − {${near}|mm}`,
    symbols: { [far]: most, [near]: least },
    basis: 'geometry',
    source,
    note,
  });
}

/** How many of all. */
export function someOf(name: string, some: number, all: number, { source, note }: Told): Result {
  return result({
    value: some,
    unit: 'count',
    formula: say`n = {${name}} of {all}`,
    symbols: { [name]: some, all },
    basis: 'geometry',
    source,
    note,
  });
}

/** Half of what is the same on both sides. */
export const halfOf = (whole: Result): Result => ({
  ...whole,
  value: whole.value / 2,
  formula: say`${whole.formula}; half of it`,
  worked: `(${whole.worked}) ÷ 2`,
  ...remeasured(whole, (sum) => `(${sum}) ÷ 2`),
});

/** Two of them told together: a size that is found another way each way. */
export const bothOf = (
  one: Pick<Result, 'formula' | 'worked'>,
  other: Pick<Result, 'formula' | 'worked'>,
): Pick<Result, 'formula' | 'worked'> => ({
  formula: `${one.formula}; ${other.formula}`,
  worked: `${one.worked}; ${other.worked}`,
});
