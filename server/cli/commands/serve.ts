import { spawn } from 'node:child_process';
import { existsSync, realpathSync } from 'node:fs';
import path from 'node:path';
import type { Command } from '../support/command.ts';
import { CommandError } from '../support/files.ts';

export const serve: Command = {
  name: 'serve',
  usage: '--stdio',
  doc: 'Starts the language server for an editor.',
  options: { stdio: { doc: 'Speak over standard input and output: the one way there is.' } },
  run({ named, options }) {
    if (named.length) throw new CommandError('planish serve takes no file.');
    if (!options.has('stdio')) throw new CommandError('planish serve speaks over --stdio: say so.');
    // The server is a program of its own beside this one; from source, it is started as this one was.
    const here = path.dirname(realpathSync(process.argv[1]!));
    const bundled = path.join(here, 'server.cjs');
    const [file, how] = existsSync(bundled) ? [bundled, []] : [path.join(here, 'main.ts'), process.execArgv];
    if (!existsSync(file)) throw new CommandError('The language server is not beside this program.');
    const child = spawn(process.execPath, [...how, file, '--stdio'], { stdio: 'inherit' });
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => child.kill(signal));
    return new Promise((resolve) => {
      child.on('error', () => resolve(2));
      child.on('exit', (code) => resolve(code === 0 ? 0 : 2));
    });
  },
};
