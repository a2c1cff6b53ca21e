// Our programs as the tests start them: in one file, as they ship but for the minifying.
import { copyFileSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { build } from 'esbuild';

const root = path.resolve(import.meta.dirname, '..');

/**
 * Puts one of them into `folder`, and gives the file to start. What V8 makes of it is kept in `.cache` beside that folder, as
 * with the one that ships: half of each start. It is put into its place whole, and left there where it is the same, since
 * another process may be starting it.
 */
export async function builtProgram(which: 'server' | 'cli', folder: string): Promise<string> {
  const program = path.join(folder, 'planish.cjs');
  const fresh = `${program}.${process.pid}`;
  await build({
    stdin: { contents: `export const ${which} = () => import('./server/${sources[which]}');`, resolveDir: root },
    absWorkingDir: root,
    outfile: fresh,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    mainFields: ['module', 'main'],
    logLevel: 'error',
  });
  mkdirSync(folder, { recursive: true });
  if (textOf(program) === textOf(fresh)) rmSync(fresh);
  else renameSync(fresh, program);
  const start = path.join(folder, `${which}.cjs`);
  copyFileSync(path.join(root, 'server/start.cjs'), path.join(folder, 'start.cjs'));
  writeFileSync(start, `require('./start.cjs')('${which}');\n`);
  return start;
}

const sources = { server: 'main.ts', cli: 'cli.ts' };

function textOf(file: string): string | undefined {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return undefined;
  }
}
