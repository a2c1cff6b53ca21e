import { spawn } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Writable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { runLine } from '../../server/cli/line.ts';
import { Terminal } from '../../server/cli/support/terminal.ts';
import { builtProgram } from '../program.ts';

export const root = fileURLToPath(new URL('../../', import.meta.url));

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
  readonly bytes: Buffer;
}

/** The program as it ships, made once for all tests. */
let bundle: Promise<string> | undefined;

export function bundled(): Promise<string> {
  bundle ??= (async () => {
    const file = await builtProgram('cli', path.join(scratch(), 'dist'));
    // The typefaces lie beside it, as they do in the package.
    for (const [face, from] of [
      ['NotoSans-Regular.ttf', '400Regular/NotoSans_400Regular.ttf'],
      ['NotoSans-Bold.ttf', '700Bold/NotoSans_700Bold.ttf'],
    ] as const)
      copyFileSync(
        path.join(root, 'node_modules/@expo-google-fonts/noto-sans', from),
        path.join(path.dirname(file), face),
      );
    return file;
  })();
  return bundle;
}

export async function planish(args: readonly string[], cwd: string, env: NodeJS.ProcessEnv = {}): Promise<Ran> {
  return run([await bundled(), ...args], cwd, env);
}

/** The same within this process, which takes a hundredth of the time: for what does not hang on being a program of its own. */
export async function inside(args: readonly string[], cwd: string, input = ''): Promise<Ran> {
  const [out, err] = [new Kept(), new Kept()];
  const from = async function* () {
    yield Buffer.from(input);
  };
  const before = process.cwd();
  process.chdir(cwd);
  try {
    const code = await runLine(args, new Terminal(out, err, {}, from));
    return { code, bytes: out.bytes(), out: out.bytes().toString('utf8'), err: err.bytes().toString('utf8') };
  } finally {
    process.chdir(before);
  }
}

class Kept extends Writable {
  private readonly chunks: Buffer[] = [];

  override _write(chunk: Buffer, _encoding: BufferEncoding, done: () => void): void {
    this.chunks.push(chunk);
    done();
  }

  bytes(): Buffer {
    return Buffer.concat(this.chunks);
  }
}

/** `input` is what it finds on its standard input, which then stays open as an editor's does. */
export function run(args: readonly string[], cwd: string, env: NodeJS.ProcessEnv = {}, input?: string): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, args, {
      cwd,
      env: { ...process.env, ...env },
      stdio: 'pipe',
    });
    child.stdin.on('error', () => {});
    if (input === undefined) child.stdin.end();
    else child.stdin.write(input);
    const out: Buffer[] = [];
    const err: Buffer[] = [];
    child.stdout.on('data', (chunk: Buffer) => out.push(chunk));
    child.stderr.on('data', (chunk: Buffer) => err.push(chunk));
    child.on('error', reject);
    child.on('close', (code) => {
      const bytes = Buffer.concat(out);
      resolve({ code, bytes, out: bytes.toString('utf8'), err: Buffer.concat(err).toString('utf8') });
    });
  });
}

const folders: string[] = [];

/** A new empty folder, gone after the tests. */
export function scratch(files: Readonly<Record<string, string>> = {}): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'planish-cli-'));
  folders.push(folder);
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
    writeFileSync(path.join(folder, name), text);
  }
  return folder;
}

export function sweep(): void {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
  bundle = undefined;
}
