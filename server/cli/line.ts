import { anyOf, nearest } from '../../grammar/nearest.ts';
import about from '../../package.json' with { type: 'json' };
import { commands } from './commands/all.ts';
import { readArguments } from './support/arguments.ts';
import type { Command, ExitCode } from './support/command.ts';
import { CommandError } from './support/files.ts';
import { clean, columns, type Terminal } from './support/terminal.ts';

/** One line as it is typed, without the name of the program. Never throws: what hinders is said, and ends with 2. */
export async function runLine(args: readonly string[], terminal: Terminal): Promise<ExitCode> {
  try {
    return await understood(args, terminal);
  } catch (error) {
    if (error instanceof CommandError) terminal.refuse(error.message);
    else terminal.broken(error);
    return 2;
  } finally {
    terminal.clearProgress();
  }
}

async function understood(args: readonly string[], terminal: Terminal): Promise<ExitCode> {
  const [first, ...rest] = args;
  if (first === undefined || first === 'help' || first === '--help' || first === '-h') {
    const asked = first === 'help' ? commands.find(({ name }) => name === rest[0]) : undefined;
    await terminal.write(asked ? commandHelp(asked) : help());
    return first === undefined ? 2 : 0;
  }
  if (first === '--version' || first === '-v') {
    await terminal.print(about.version);
    return 0;
  }
  const command = commands.find(({ name }) => name === first);
  if (command && rest.some((each) => each === '--help' || each === '-h')) {
    await terminal.write(commandHelp(command));
    return 0;
  }
  return runCommand(first, rest, terminal, about.version);
}

async function runCommand(
  name: string,
  args: readonly string[],
  terminal: Terminal,
  version: string,
): Promise<ExitCode> {
  const command = commands.find((each) => each.name === name);
  if (!command) {
    const near = nearest(
      name,
      commands.map((each) => each.name),
    );
    throw new CommandError(
      `There is no command ${clean(name)}${near ? `: did you mean ${near}?` : `. There are ${anyOf(commands.map((each) => each.name))}.`}`,
    );
  }
  return command.run(readArguments(name, args, command.options), terminal, version);
}

function help(): string {
  const row = (command: Command) => [`  planish ${command.name}`, command.doc];
  return [
    'planish: build specs for armour, checked and worked out.',
    '',
    ...columns(commands.map(row)),
    '',
    'planish COMMAND --help says more of one. planish --version says which this is.',
    'It ends with 0 where all is well, 1 where a spec has errors, 2 where it could not read or understand.',
    '',
  ].join('\n');
}

function commandHelp(command: Command): string {
  const options = Object.entries(command.options).map(([name, { value, short, doc }]) => [
    `  ${short ? `-${short}, ` : ''}--${name}${value ? ` ${value.toUpperCase()}` : ''}`,
    doc,
  ]);
  return [
    `planish ${command.name} ${command.usage}`,
    '',
    command.doc,
    ...(command.more ?? []),
    ...(options.length ? ['', ...columns(options)] : []),
    '',
  ].join('\n');
}
