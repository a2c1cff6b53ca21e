import type { Steps } from '../../incremental/steps.ts';
import { seenInJson } from '../../model/values/seen.ts';
import { unitOf } from '../../model/values/show.ts';
import type { Job } from '../documents/cut-list.ts';

/** What the numbers in the JSON are in, said in the file itself. */
const NUMBERS = {
  length: 'mm',
  area: 'mm2',
  mass: 'g',
  angle: 'deg',
  share: '0 to 1',
} as const;

/** A whole document as data: raw numbers, under its own keys. `sort` is what it is: `cut list`. */
export function* writeJson(sort: string, { currency, ...rest }: Job): Steps<string> {
  const whole = {
    planish: 1,
    paper: sort,
    numbers: { ...NUMBERS, money: currency ?? 'currency not said' },
    ...rest,
    // How the words in it are told.
    units: unitOf(rest.units),
  };
  // Field by field, and the lists among them entry by entry: as long as the build, they are most of it.
  const fields: string[] = [];
  for (const [name, value] of Object.entries(whole) as [string, unknown][]) {
    if (value === undefined) continue;
    yield undefined;
    fields.push(`  ${JSON.stringify(name)}: ${Array.isArray(value) ? yield* listOf(value) : written(value, 1)}`);
  }
  return `{\n${fields.join(',\n')}\n}\n`;
}

function* listOf(values: readonly unknown[]): Steps<string> {
  if (!values.length) return '[]';
  const entries: string[] = [];
  for (const value of values) {
    yield undefined;
    entries.push(`    ${written(value, 2)}`);
  }
  return `[\n${entries.join(',\n')}\n  ]`;
}

/** As it stands so deep in the whole. Line breaks are those of the layout alone: in a text they are escaped. */
function written(value: unknown, depth: number): string {
  const text = JSON.stringify(
    value,
    (_, each: unknown) => (typeof each === 'number' && !Number.isFinite(each) ? null : each),
    2,
  );
  return seenInJson(text ?? 'null').replaceAll('\n', `\n${'  '.repeat(depth)}`);
}
