import path from 'node:path';
import { formatSpec } from '../../../grammar/printer.ts';
import { type Command, type ExitCode, wanted } from '../support/command.ts';
import { CommandError, readFile, readText, shown, specFiles } from '../support/files.ts';
import { counted } from '../support/terminal.ts';
import { ChangedMeanwhile, clearAway, putInPlace } from '../support/writing.ts';

export const format: Command = {
  name: 'format',
  usage: 'FILE|FOLDER…',
  doc: 'Lays specs out as Planish does. What they mean never changes.',
  more: ['Files are changed in place. With --check nothing is written, and it ends with 1 where something would be.'],
  options: { check: { doc: 'Only say which files would change.' } },
  async run({ named, options }, terminal): Promise<ExitCode> {
    const { files, unread } = specFiles(wanted(named, 'a file or a folder'));
    // All are read before any is written: a file that cannot be read leaves the others as they are.
    if (unread[0]) throw new CommandError(unread[0].why);
    for (const file of files) readText(file);
    const only = options.has('check');
    if (!only) for (const folder of new Set(files.map((file) => path.dirname(file)))) clearAway(folder);
    let changed = 0;
    let left = 0;
    for (const file of files) {
      try {
        if (!layOut(file, only)) continue;
        changed++;
        await terminal.print(`${shown(file)}${only ? ' would change' : ' laid out'}`);
      } catch (error) {
        if (!(error instanceof CommandError)) throw error;
        left++;
        terminal.refuse(error.message);
      }
    }
    const same = files.length - changed;
    terminal.note(
      changed
        ? `${counted(changed, 'file')} ${only ? 'would change' : 'changed'}, ${same} as ${same === 1 ? 'it was' : 'they were'}.`
        : `${counted(files.length, 'file')}: ${left ? 'nothing changed' : 'nothing to change'}.`,
    );
    return left ? 2 : only && changed ? 1 : 0;
  },
};

/** Whether there is something to change. Somebody may save the file at the same time: what is laid out is what stands there now. */
function layOut(file: string, only: boolean): boolean {
  for (let tries = 3; ; tries--) {
    const { bytes } = readFile(file);
    // A mark of byte order stays.
    const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
    const made = formatSpec(text);
    if (made === text) return false;
    if (only) return true;
    try {
      putInPlace(file, made, { force: true, instead: bytes });
      return true;
    } catch (error) {
      if (!(error instanceof ChangedMeanwhile) || tries === 1) throw error;
    }
  }
}
