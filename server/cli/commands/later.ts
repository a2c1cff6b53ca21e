import type { Command } from '../support/command.ts';
import { CommandError } from '../support/files.ts';

/** Commands whose words are taken already. */
export const later: readonly Command[] = [notYet('quote', 'A price for the job.')];

export const isLater = (command: Command): boolean => command.doc.endsWith('Not built yet.');

function notYet(name: string, doc: string): Command {
  return {
    name,
    usage: 'FILE',
    doc: `${doc} Not built yet.`,
    options: {},
    run() {
      throw new CommandError(`planish ${name} is not built yet.`);
    },
  };
}
