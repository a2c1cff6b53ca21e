import { through } from '../reckoning/interval.ts';
import { type Counted, sumOf } from '../reckoning/readings.ts';
import { notAtLeastNothing, reckon } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';
import { type Per, RATE_SOURCE, type Rate } from '../usual/rates.ts';

/** mm or mm² in what a rate counts by. */
const IN_ONE: Readonly<Record<Per, number>> = { each: 1, m: 1000, dm2: 10_000 };
const SYMBOL: Readonly<Record<Per, string>> = { each: 'n', m: 'L', dm2: 'A' };

/**
 * Time that work takes, minutes, from its rate and how much there is of it: a count, mm along, or mm² over. Laying out for it is
 * left out: it is done once for all work of a kind that is done in one go ({@link hoursOf}).
 *
 * Range: from the quickest to the slowest rate, and over the range of the quantity. Source: common practice (no source).
 */
export function workTime(rate: Rate, { value, low, high }: Pick<Result, 'value' | 'low' | 'high'>): Result {
  const { per } = rate;
  const amount = (of: number) => of / IN_ONE[per];
  const quantity = { value: amount(value), low: amount(low ?? value), high: amount(high ?? value) };
  const time = through((each, of) => each * of, rate.rate, quantity);
  return reckon({
    ...time,
    unit: 'min',
    formula: `t = {each} × {${SYMBOL[per]}}`,
    symbols: { each: rate.rate.value, [SYMBOL[per]]: quantity.value },
    basis: 'common practice',
    source: RATE_SOURCE,
    outside: notAtLeastNothing('how much there is of it', value),
  });
}

/** Time of what is done as one, minutes. Range: all quick, all slow. Source: the sum of its parts. */
export const timeOf = (parts: readonly Counted[]): Result => ({
  ...sumOf(parts, { unit: 'min', source: RATE_SOURCE }, 'Σ t'),
  basis: 'common practice',
});

/**
 * Time of hands for one build, minutes: of all that is done, with what it takes to lay out for each kind of it once. Range: all
 * quick, all slow. Source: the sum of its parts.
 */
export const hoursOf = (parts: readonly Counted[], kinds: readonly Rate[], note: string | undefined): Result => ({
  ...sumOf(
    [...parts, ...kinds.map(({ setUp }) => ({ value: setUp, times: 1 }))],
    { unit: 'min', source: `${RATE_SOURCE}; your own hours where an order says so`, note },
    't = Σ time of each operation + Σ laying out, once for each kind',
  ),
  basis: 'common practice',
});
