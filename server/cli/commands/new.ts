import path from 'node:path';
import { starter, starters } from '../../starters.ts';
import type { Option } from '../support/arguments.ts';
import { type Command, type ExitCode, force, wanted } from '../support/command.ts';
import { CommandError, shown, typed } from '../support/files.ts';
import { columns } from '../support/terminal.ts';
import { makeFolder, type Output, putAllInPlace } from '../support/writing.ts';

export const create: Command = {
  name: 'new',
  usage: 'FOLDER [--from NAME]',
  doc: 'Begins a build: a spec that already checks clean, and a stock file to put your own rack in.',
  get more() {
    return ['Starters:', ...columns(starters().map(({ id, description }) => [`  ${id}`, description]))];
  },
  options: {
    get from(): Option {
      return {
        value: 'starter',
        choices: starters().map(({ id }) => id),
        doc: 'Which starter; helm where it is left out.',
      };
    },
    force,
  },
  async run({ named, options }, terminal): Promise<ExitCode> {
    const folders = wanted(named, 'a folder');
    if (folders.length > 1) throw new CommandError('planish new takes one folder.');
    const folder = folders[0]!;
    const files = starter(options.get('from') ?? 'helm') ?? [];
    const outputs = files.map(
      (each): Output => ({
        file: path.join(folder, ...each.path.split('/')),
        content: each.text,
      }),
    );
    for (const { file } of outputs) makeFolder(path.dirname(file));
    putAllInPlace(outputs, { force: options.has('force') });
    for (const { file } of outputs) await terminal.print(typed(file));
    terminal.note(`Next: planish check ${shown(folder)}`);
    return 0;
  },
};
