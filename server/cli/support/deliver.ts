import path from 'node:path';
import type { Problem } from '../../checks/check.ts';
import { seenInJson } from '../../model/values/seen.ts';
import type { Arguments } from './arguments.ts';
import type { ExitCode } from './command.ts';
import { type Specs, shown } from './files.ts';
import { counted, type Terminal } from './terminal.ts';
import { fileNameFor, isStandardOutput, makeFolder, type Output, putAllInPlace, putInPlace } from './writing.ts';

export interface Delivery {
  readonly options: Arguments['options'];
  readonly terminal: Terminal;
  /** What was read for it. */
  readonly specs: Specs;
  readonly target?: string;
  readonly what?: string;
}

/** To standard output, or to a file, whole or not at all. */
export async function deliver(
  content: string | Uint8Array,
  { options, terminal, specs, target = options.get('output') ?? '-', what = '' }: Delivery,
): Promise<void> {
  if (target === '-' || isStandardOutput(target)) return terminal.write(content);
  putInPlace(target, content, { force: options.has('force'), madeFrom: specs.read });
  terminal.note(`${what ? `${what} written` : 'Written'} to ${shown(target)}.`);
}

/** Files into a folder, all or none: new ones beside old ones would be worse than none. */
export function deliverAll(
  outputs: readonly Output[],
  folder: string,
  { options, specs }: Pick<Delivery, 'options' | 'specs'>,
) {
  makeFolder(folder);
  putAllInPlace(outputs, { force: options.has('force'), madeFrom: specs.read });
}

/** How the files are called that are made of the parts of one spec: each otherwise, also where a disk does not tell `A` from `a`. */
export function namesIn(folder: string, spec: string, ending: string): (part: string) => string {
  const taken = new Set<string>();
  return (part) => {
    for (let number = 1; ; number++) {
      const name = fileNameFor(`${baseOf(spec)}.${part}${number > 1 ? ` (${number})` : ''}`, ending);
      const key = name.normalize('NFC').toLowerCase();
      if (taken.has(key)) continue;
      taken.add(key);
      return path.join(folder, name);
    }
  };
}

export const hasErrors = (problems: readonly Problem[]): boolean =>
  problems.some(({ severity }) => severity === 'error');

export function errorsNoted(file: string, problems: readonly Problem[], terminal: Terminal): ExitCode {
  const errors = problems.filter(({ severity }) => severity === 'error').length;
  if (!errors) return 0;
  terminal.note(`${shown(file)} has ${counted(errors, 'error')}: planish check ${shown(file)} lists them.`, 'red');
  return 1;
}

export const posix = (file: string): string => file.split(path.sep).join('/');

export const baseOf = (file: string): string => path.basename(file).replace(/\.planish$/i, '');

export const isOnScreen = (options: Arguments['options']): boolean =>
  !options.has('output') || options.get('output') === '-';

export const json = (data: unknown): string => `${seenInJson(JSON.stringify(data, null, 2))}\n`;
