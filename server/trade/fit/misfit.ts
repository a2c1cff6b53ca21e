import { reckon, when } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

const SOURCE =
  'Pieces as stiff as they are formed, moved until their stations lie nearest: least squares by Horn 1987, over all seams at once where they disagree';

/** How far joined edges stay apart at their stations, mm: at most, and on the mean. Range: one station at least. Source: Horn 1987. */
export function misfit(gaps: readonly number[], note: string): { greatest: Result; mean: Result } {
  const made = (formula: string, value: number) =>
    reckon({
      value,
      unit: 'mm',
      formula,
      symbols: { n: gaps.length },
      basis: 'geometry',
      source: SOURCE,
      note,
      outside: when(!gaps.length, 'there is no station'),
    });
  return {
    greatest: made(
      'e = max |p − q| of {n} stations',
      gaps.reduce((most, gap) => Math.max(most, gap), 0),
    ),
    mean: made('e = Σ |p − q| ÷ {n}', gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length),
  };
}
