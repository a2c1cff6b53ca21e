import type { Job } from './cut-list.ts';

/** What the numbers in the JSON are in, said in the file itself. */
const NUMBERS = {
  length: 'mm',
  area: 'mm2',
  mass: 'g',
  angle: 'deg',
  share: '0 to 1',
} as const;

/**
 * A whole document as data: raw numbers, under its own keys. `sort` is what it is: `cut list`. In one step: a list of 10,000 lines
 * takes 15 ms, as long as the sending of it, which no one can cut.
 */
export function writeJson(sort: string, { currency, ...rest }: Job): string {
  const whole = {
    planish: 1,
    paper: sort,
    numbers: { ...NUMBERS, money: currency ?? 'currency not said' },
    ...rest,
  };
  return `${JSON.stringify(whole, (_, value: unknown) => (typeof value === 'number' && !Number.isFinite(value) ? null : value), 2)}\n`;
}
