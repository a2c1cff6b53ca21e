/*
 * Ranges through a formula: interval arithmetic. Every input stands for all that lies between its ends, and the answer for
 * all that the formula could give. It does not reckon with chance, and so never promises less spread than there may be.
 */

/** A number with its ends; without a range the ends are the number itself. */
export interface Interval {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** What a figure leaves open. */
export function intervalOf(figure: {
  readonly value: number;
  readonly low?: number | undefined;
  readonly high?: number | undefined;
}): Interval {
  const { value, low = value, high = value } = figure;
  return { value, low: Math.min(low, value), high: Math.max(high, value) };
}

/** All that a formula gives for its inputs, where it rises or falls evenly with each of them. */
export function through(formula: (...values: number[]) => number, ...inputs: readonly Interval[]): Interval {
  let corners: number[][] = [[]];
  for (const { low, high } of inputs)
    corners = corners.flatMap((corner) =>
      low === high
        ? [[...corner, low]]
        : [
            [...corner, low],
            [...corner, high],
          ],
    );
  const ends = corners.map((corner) => formula(...corner));
  const value = formula(...inputs.map((input) => input.value));
  return { value, low: Math.min(value, ...ends), high: Math.max(value, ...ends) };
}

/** The ends for a {@link Result}: none where there is no spread. */
export function ends({ low, high }: Interval): { low?: number; high?: number } {
  return low === high ? {} : { low, high };
}
