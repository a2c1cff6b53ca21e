import type { Arguments } from './arguments.ts';
import { CommandError } from './files.ts';

/** The day that is to stand on a paper. */
export function dateOf(options: Arguments['options']): string {
  const date = options.get('date') ?? today();
  if (!isDate(date)) throw new CommandError(`--date takes a day such as 2027-03-01, not ${date}.`);
  return date;
}

/** Today by the shop's own clock; a build that must come out the same twice sets SOURCE_DATE_EPOCH. */
function today(): string {
  const epoch = Number(process.env['SOURCE_DATE_EPOCH']);
  const now = Number.isFinite(epoch) && epoch > 0 ? new Date(epoch * 1000) : new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

function isDate(text: string): boolean {
  const time = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(`${text}T00:00:00Z`) : Number.NaN;
  return Number.isFinite(time) && new Date(time).toISOString().startsWith(text);
}
