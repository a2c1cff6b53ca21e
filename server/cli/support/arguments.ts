import { parseArgs } from 'node:util';
import { anyOf, nearest } from '../../../grammar/nearest.ts';
import { CommandError } from './files.ts';

export interface Option {
  /** `--to` takes a value; a switch takes none. */
  readonly value?: string;
  readonly short?: string;
  readonly doc: string;
  /** The only values there are. */
  readonly choices?: readonly string[];
}

export interface Arguments {
  readonly named: readonly string[];
  /** A switch that is there has the value ''. */
  readonly options: ReadonlyMap<string, string>;
}

/** Reads a command's arguments. @throws {CommandError} with the nearest right word for a wrong one. */
export function readArguments(
  command: string,
  args: readonly string[],
  options: Readonly<Record<string, Option>>,
): Arguments {
  const { tokens } = parseArgs({
    args: [...args],
    strict: false,
    allowPositionals: true,
    tokens: true,
    options: Object.fromEntries(
      Object.entries(options).map(([name, { value, short }]) => [
        name,
        { type: value ? 'string' : 'boolean', ...(short ? { short } : {}) },
      ]),
    ),
  });
  const named: string[] = [];
  const found = new Map<string, string>();
  for (const token of tokens) {
    if (token.kind === 'positional') named.push(token.value);
    if (token.kind !== 'option') continue;
    const option = Object.hasOwn(options, token.name) ? options[token.name] : undefined;
    const help = `planish ${command} --help lists them.`;
    if (!option) {
      const near = nearest(token.name, Object.keys(options));
      throw new CommandError(
        `planish ${command} has no option ${token.rawName}${near ? `: did you mean --${near}?` : `. ${help}`}`,
      );
    }
    const written = `--${token.name}`;
    if (found.has(token.name)) throw new CommandError(`${written} is said twice.`);
    if (!option.value) {
      if (token.value !== undefined) throw new CommandError(`${written} takes no value.`);
      found.set(token.name, '');
      continue;
    }
    // A value that looks like an option is one whose value was forgotten.
    const isOption = !token.inlineValue && token.value !== '-' && token.value?.startsWith('-');
    if (!token.value || isOption) throw new CommandError(`${written} needs its ${option.value}.`);
    if (option.choices && !option.choices.includes(token.value)) {
      const near = nearest(token.value, option.choices);
      throw new CommandError(
        `${written} takes ${anyOf(option.choices)}, not ${token.value}${near ? `: did you mean ${near}?` : '.'}`,
      );
    }
    found.set(token.name, token.value);
  }
  return { named, options: found };
}
