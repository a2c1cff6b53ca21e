import { say, translated } from '../../../l10n/say.ts';
import type { Result } from './result.ts';
import { result, type Working } from './working.ts';

/**
 * A {@link Result} that is safe to print: a value that is not finite becomes NaN and says why it is not to be trusted,
 * and a range that is not finite, or that comes with a spoilt value, is left out.
 *
 * Every computation of the trade ends here, so that a slip of the pen in a spec (a nought too many, a missing length)
 * gives words beside the line and never an exception.
 */
export function reckon(working: Working): Result {
  const { value, low, high } = working;
  if (!Number.isFinite(value)) {
    return result({
      ...working,
      value: Number.NaN,
      low: undefined,
      high: undefined,
      outside: working.outside ?? 'these measures are too large or too small to reckon with',
    });
  }
  // Most have no range, and need no copy.
  if (low === undefined && high === undefined) return result(working);
  const ranged = Number.isFinite(low) && Number.isFinite(high);
  return result(ranged ? working : { ...working, low: undefined, high: undefined });
}

/** The first of several complaints that applies, or nothing: the form in which `outside` is built up. */
export function firstOf(...complaints: readonly (string | undefined)[]): string | undefined {
  return complaints.find((complaint) => complaint !== undefined);
}

/** A complaint when `value` is not a number of nothing or more. `what` is the trade's word for it: `the depth`. */
export function notAtLeastNothing(what: string, value: number): string | undefined {
  if (!Number.isFinite(value)) return say`${translated(what)} is not a number`;
  if (value > MOST) return say`${translated(what)} is larger than anything that is made`;
  return value < 0 ? say`${translated(what)} is less than nothing` : undefined;
}

/** A complaint when `value` is not a number above nothing. */
export function notAboveNothing(what: string, value: number): string | undefined {
  return (
    notAtLeastNothing(what, value) ?? (value < LEAST ? say`${translated(what)} must be more than nothing` : undefined)
  );
}

/**
 * Below and beyond these no measure of the trade lies, in any of its units, and doubles begin to lose the digits of a
 * square or a quotient. They are limits of reckoning, not of the metal.
 */
const LEAST = 1e-9;
const MOST = 1e12;

/** A complaint in the given words when `condition` holds. */
export function when(condition: boolean, words: string): string | undefined {
  return condition ? words : undefined;
}
