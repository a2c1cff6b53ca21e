/** The nearest of some numbers; a slip of a nought (160 for 16) counts as near. */
export function nearestOf(numbers: readonly number[], wanted: number): number | undefined {
  for (const slip of [wanted / 10, wanted * 10]) if (numbers.includes(slip)) return slip;
  let best: number | undefined;
  for (const number of numbers)
    if (best === undefined || Math.abs(number - wanted) < Math.abs(best - wanted)) best = number;
  return best;
}
