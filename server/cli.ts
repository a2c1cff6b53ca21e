// The command line: the engine of the editor without an editor. Node only.
import about from '../package.json' with { type: 'json' };
import { type Command, commands, type ExitCode, isLater, runCommand } from './cli/commands.ts';
import { CommandError } from './cli/files.ts';
import { columns, Terminal } from './cli/terminal.ts';

const terminal = new Terminal(process.stdout, process.stderr, process.env);

// A reader that goes away, such as `head`, is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  process.exit(error.code === 'EPIPE' ? 0 : 2);
});

async function main(args: readonly string[]): Promise<ExitCode> {
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

function help(): string {
  const row = (command: Command) => [`  planish ${command.name}`, command.doc];
  return [
    'planish: build specs for armour, checked and worked out.',
    '',
    ...columns(commands.filter((each) => !isLater(each)).map(row)),
    '',
    `Not built yet: ${commands
      .filter(isLater)
      .map(({ name }) => name)
      .join(', ')}.`,
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

main(process.argv.slice(2)).then(
  (code) => {
    terminal.clearProgress();
    process.exitCode = code;
  },
  (error: unknown) => {
    process.exitCode = 2;
    if (error instanceof CommandError) {
      terminal.note(`${terminal.colourNote('planish:', 'red')} ${error.message}`);
      return;
    }
    // A fault of ours, not of whoever typed: the trace helps to mend it, and is asked for.
    const trace = process.env['PLANISH_TRACE'] && error instanceof Error ? `\n${error.stack}` : '';
    terminal.note(
      `planish: something broke in Planish itself: ${error instanceof Error ? error.message : error}${trace}`,
    );
  },
);
