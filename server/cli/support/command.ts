import { speak } from '../../../l10n/say.ts';
import { textsOnDisk } from '../../disk-texts.ts';
import { INCH_STEPS } from '../../model/values/show.ts';
import type { Arguments, Option } from './arguments.ts';
import { CommandError, readText, Specs } from './files.ts';
import type { Terminal } from './terminal.ts';

/** 0 clean, 1 errors found, 2 could not read or bad arguments. */
export type ExitCode = 0 | 1 | 2;

export interface Command {
  readonly name: string;
  /** What stands behind the name. */
  readonly usage: string;
  readonly doc: string;
  /** More, for the command's own help. */
  readonly more?: readonly string[];
  readonly options: Readonly<Record<string, Option>>;
  run(args: Arguments, terminal: Terminal, version: string): Promise<ExitCode> | ExitCode;
}

// What several commands take.
export const output: Option = { value: 'path', short: 'o', doc: 'Where to write; - is standard output.' };
export const force: Option = { doc: 'Replace a file that is already there.' };
export const root: Option = {
  value: 'folder',
  doc: 'The workspace: `use` reads nothing outside it. Otherwise this folder or the repository that the spec lies in.',
};

export const inches: Option = {
  value: 'step',
  choices: INCH_STEPS,
  doc: 'To what lengths of a build in inches are told, where it does not say itself: 1/32 (as usual), 1/16 or decimal.',
};

export const language: Option = {
  value: 'language',
  choices: ['en', 'de'],
  doc: 'In which language findings and figures are told: en (as usual) or de.',
};

/** From now on in the language that is asked for. */
export function speakAs(options: ReadonlyMap<string, string>): void {
  const asked = options.get('language') ?? 'en';
  speak(asked === 'en' ? undefined : textsOnDisk(asked));
}

export function wanted(named: readonly string[], what: string): readonly string[] {
  if (!named.length) throw new CommandError(`Say ${what}.`);
  return named;
}

export function open(file: string, options: ReadonlyMap<string, string>): Specs {
  readText(file);
  return new Specs([file], options);
}
