import type { Work } from '../../model/operations/order-of-work.ts';
import { rateOf } from '../../trade/usual/rates.ts';
import { type Schedule, schedule } from '../../trade/work/schedule.ts';

/** The work of so many builds in turn, done in one go. */
export interface Scheduled extends Schedule {
  /** Minutes of hands, laying out included: as usual, all quick, all slow. */
  readonly hands: number;
  readonly low: number;
  readonly high: number;
  /** What has no time, since how much there is of it is not known. */
  readonly unknown: readonly string[];
}

export function scheduled({ operations, arrows }: Work, builds: number): Scheduled {
  const number = new Map(operations.map((each, i) => [each, i]));
  const after: number[][] = operations.map(() => []);
  for (const { from, to } of arrows) after[number.get(from)!]!.push(number.get(to)!);
  const made = schedule(
    operations.map(({ kind, time, wait }) => ({
      minutes: (time?.value ?? 0) * builds,
      kind,
      setUp: rateOf(kind).setUp,
      wait: wait?.value ?? 0,
    })),
    after,
  );
  const laid = made.turns.reduce((sum, { setUp }) => sum + setUp, 0);
  const all = (which: 'value' | 'low' | 'high') =>
    operations.reduce((sum, { time }) => sum + (time?.[which] ?? time?.value ?? 0) * builds, laid);
  return {
    ...made,
    hands: all('value'),
    low: all('low'),
    high: all('high'),
    unknown: operations.flatMap(({ title, time }) => (time ? [] : [title])),
  };
}
