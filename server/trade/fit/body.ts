import { say } from '../../../l10n/say.ts';
import { firstOf, notAboveNothing, reckon } from '../reckoning/reckon.ts';
import { plain, type Result } from '../reckoning/result.ts';
import { type BodyRow, bodyRows, RANKS } from './body-data.ts';

export type Body = 'man' | 'woman';

/**
 * The measures of the language, `head round`, whose spread over people is known.
 *
 * @tests every row of the table is gone through
 */
export const knownMeasures: readonly string[] = Object.keys(bodyRows);

/**
 * How many in a hundred people have a measure (mm) of at most this, compared with men, women, or both as a range.
 *
 * Between the ranks of the table it runs straight; below the first and above the ninety-ninth in a hundred only the range is
 * known. Undefined for a measure that the survey has not. Range: grown soldiers, bare skin.
 * Source: percentiles of ANSUR II, US Army 2010 to 2012, public release.
 */
export function percentileOf(measure: string, value: number, body?: Body): Result | undefined {
  const row = Object.hasOwn(bodyRows, measure) ? bodyRows[measure] : undefined;
  if (!row) return undefined;
  const outside = firstOf(notAboveNothing('the measure', value));
  if (body) {
    const rank = rankIn(row[body], value);
    return reckon({
      value: rank.value,
      low: rank.low,
      high: rank.high,
      unit: 'percent',
      formula: say`P = share of ${body === 'man' ? say`men` : say`women`} at {x|mm} or less`,
      symbols: { x: value },
      basis: 'published',
      source: sourceOf(row),
      outside,
      note: row.note,
    });
  }
  const man = rankIn(row.man, value);
  const woman = rankIn(row.woman, value);
  return reckon({
    value: (man.value + woman.value) / 2,
    low: Math.min(man.low, woman.low),
    high: Math.max(man.high, woman.high),
    unit: 'percent',
    formula: 'P = half of {men} and {women}',
    symbols: { men: man.value, women: woman.value },
    basis: 'published',
    source: sourceOf(row),
    outside,
    note: [
      say`Of men ${plain(man.value)} %, of women ${plain(woman.value)} %: write “body man” or “body woman” to compare with one.`,
      row.note,
    ]
      .filter(Boolean)
      .join(' '),
  });
}

/**
 * The measure (mm) that so many in a hundred do not exceed: {@link percentileOf} the other way round.
 * Range: 1 to 99; undefined beyond, and for a measure that the survey has not.
 */
export function measureAt(measure: string, percent: number, body: Body): Result | undefined {
  const row = Object.hasOwn(bodyRows, measure) ? bodyRows[measure] : undefined;
  if (!row || !(percent >= RANKS[0] && percent <= RANKS[RANKS.length - 1]!)) return undefined;
  const above = Math.max(
    1,
    RANKS.findIndex((rank) => rank >= percent),
  );
  const [from, to] = [RANKS[above - 1]!, RANKS[above]!];
  const [small, large] = [row[body][above - 1]!, row[body][above]!];
  return reckon({
    value: small + ((large - small) * (percent - from)) / (to - from),
    unit: 'mm',
    formula: 'x = measure at {P} %',
    symbols: { P: percent },
    basis: 'published',
    source: sourceOf(row),
    note: row.note,
  });
}

const sourceOf = (row: BodyRow): string => say`ANSUR II, US Army 2010–2012, public release: ${row.survey}`;

function rankIn(sizes: readonly number[], value: number): { value: number; low: number; high: number } {
  const last = RANKS.length - 1;
  if (Number.isNaN(value)) return { value, low: value, high: value };
  if (value < sizes[0]!) return { value: RANKS[0] / 2, low: 0, high: RANKS[0] };
  if (value > sizes[last]!) return { value: (RANKS[last]! + 100) / 2, low: RANKS[last]!, high: 100 };
  // Of several ranks at one size the middle is taken.
  const at = sizes.flatMap((size, i) => (size === value ? [RANKS[i]!] : []));
  if (at.length) {
    const rank = (at[0]! + at[at.length - 1]!) / 2;
    return { value: rank, low: at[0]!, high: at[at.length - 1]! };
  }
  const above = sizes.findIndex((size) => size > value);
  const share = (value - sizes[above - 1]!) / (sizes[above]! - sizes[above - 1]!);
  const rank = RANKS[above - 1]! + share * (RANKS[above]! - RANKS[above - 1]!);
  return { value: rank, low: rank, high: rank };
}
