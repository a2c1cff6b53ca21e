// What npm start, npm test and the single scripts share: steps that print one line each, and the set-up of a fresh
// clone. Plain Node without a single dependency, because it runs before there are any.
import { spawn } from 'node:child_process';
import {
  accessSync,
  constants,
  copyFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createServer } from 'node:net';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { tightened } from './zip.mjs';

export const root = fileURLToPath(new URL('..', import.meta.url)).replace(/[\\/]$/, '');

/** A step that failed in a way the reader can act on: printed without a stack trace. */
export class SetupError extends Error {}

/** Prints what is being done, does it, and prints how long it took where that was worth knowing. */
export async function step(title, work) {
  const started = Date.now();
  console.log(`- ${title}`);
  const result = await work();
  const seconds = (Date.now() - started) / 1000;
  if (seconds >= 5) console.log(`  done in ${seconds.toFixed(0)} s`);
  return result;
}

/**
 * Runs a program to its end. Quiet programs are heard only when they fail; `loud` ones write straight to the terminal.
 * Gives the exit code and what was written; throws on a failure unless `mayFail`.
 */
export function run(program, args, { cwd = root, env = {}, loud = false, mayFail = false } = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, {
      cwd,
      env: { ...process.env, ...env },
      stdio: loud ? 'inherit' : ['ignore', 'pipe', 'pipe'],
      // Windows starts .cmd files through its shell only.
      shell: process.platform === 'win32' && !path.isAbsolute(program),
    });
    let output = '';
    child.stdout?.on('data', (data) => (output += data));
    child.stderr?.on('data', (data) => (output += data));
    child.on('error', (error) => reject(new SetupError(`${program} could not be started: ${error.message}`)));
    child.on('close', (exit, signal) => {
      const code = exit ?? 1;
      if (code === 0 || mayFail) return resolve({ code, output });
      if (!loud) process.stderr.write(output.endsWith('\n') || output === '' ? output : `${output}\n`);
      reject(new SetupError(`${program} ${args.join(' ')} ended with ${signal ?? `exit code ${code}`}.`));
    });
  });
}

/** Runs npm with the same npm that runs us, wherever it is installed. */
export function npm(args, options) {
  const own = process.env.npm_execpath;
  return own && /\.c?js$/.test(own) ? run(process.execPath, [own, ...args], options) : run('npm', args, options);
}

export const node = (args, options) => run(process.execPath, args, options);

/** Whether every package that the lock file names for this platform is installed in exactly that version. */
export function dependenciesFit(folder = root) {
  const installedList = path.join(folder, 'node_modules/.package-lock.json');
  if (!existsSync(installedList)) return false;
  const read = (file) => JSON.parse(readFileSync(file, 'utf8')).packages;
  const wanted = read(path.join(folder, 'package-lock.json'));
  const installed = read(installedList);
  return Object.entries(wanted).every(
    ([place, { version, optional }]) =>
      place === '' || (installed[place] ? installed[place].version === version : optional),
  );
}

export async function ensureDependencies() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 10))
    throw new SetupError(`Planish is built with Node 20.10 or newer; this is ${process.version}.`);
  if (dependenciesFit()) return;
  await step('Installing the packages of package-lock.json (npm ci)', () => npm(['ci', '--no-audit', '--no-fund']));
}

export const build = () => step('Building', () => node(['.scripts/bundle.mjs', '--minify']));

export const version = () => JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8')).version;
export const packagePath = () => path.join(root, `planish-${version()}.vsix`);

/** Packs what `build` has made into planish-<version>.vsix. */
export const pack = () =>
  step(`Packing ${path.basename(packagePath())}`, async () => {
    const folder = stage();
    await node(
      [
        path.join(root, 'node_modules/@vscode/vsce/vsce'),
        'package',
        '--no-dependencies',
        // The links of the README stay as they are: there is no address to put in front of them.
        '--no-rewrite-relative-links',
        '--allow-missing-repository',
        '--out',
        packagePath(),
      ],
      { cwd: folder },
    );
    writeFileSync(packagePath(), tightened(readFileSync(packagePath())));
  });

/** The files that .vscodeignore names, by themselves: among all of a working folder the packer looks for minutes. */
function stage() {
  const folder = path.join(root, 'dist/package');
  rmSync(folder, { recursive: true, force: true });
  const list = readFileSync(path.join(root, '.vscodeignore'), 'utf8');
  const named = list.split('\n').flatMap((line) => (line.startsWith('!') ? [line.slice(1).trim()] : []));
  for (const file of ['.vscodeignore', ...named]) {
    mkdirSync(path.dirname(path.join(folder, file)), { recursive: true });
    copyFileSync(path.join(root, file), path.join(folder, file));
  }
  writeFileSync(path.join(folder, 'package.json'), shippedManifest());
  return folder;
}

/** Without `type`, which is for the sources: a web editor of 1.100 or newer refuses to load anything from a module. */
function shippedManifest() {
  const { type, ...manifest } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
  return `${JSON.stringify(manifest, null, 2)}\n`;
}

/** Where a program of one of these names lies on the PATH. */
export function findProgram(...names) {
  const endings = process.platform === 'win32' ? ['.cmd', '.exe', ''] : [''];
  for (const folder of (process.env.PATH ?? '').split(path.delimiter))
    for (const name of names)
      for (const ending of endings) {
        const file = path.join(folder, name + ending);
        try {
          accessSync(file, constants.X_OK);
          return file;
        } catch {
          // not here: look on
        }
      }
  return undefined;
}

/** The browser that shows the workbench to tests and screenshots; CHROMIUM may name another. */
export const findBrowser = () =>
  process.env.CHROMIUM ?? findProgram('chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable');

/** What the tests need from the system. Installed by apt where that is possible, otherwise asked for. */
export async function ensureSystemPackages() {
  const missing = [
    findBrowser() ? undefined : 'chromium',
    process.platform !== 'linux' || existsSync('/usr/share/fonts/truetype/dejavu') ? undefined : 'fonts-dejavu-core',
    findProgram('pdftotext') ? undefined : 'poppler-utils',
    process.platform !== 'linux' || existsSync('/usr/lib/python3/dist-packages/ezdxf') ? undefined : 'python3-ezdxf',
  ].filter(Boolean);
  if (missing.length > 0 && !canInstall())
    throw new SetupError(
      `The tests need ${missing.join(', ')}. On Debian: sudo apt-get install ${missing.join(' ')}. ` +
        'A Chromium elsewhere may be named by the CHROMIUM variable.',
    );
  if (missing.length > 0)
    await step(`Installing ${missing.join(', ')} with apt`, async () => {
      await run('apt-get', ['update'], { env: APT });
      await run('apt-get', [...INSTALL, ...missing], { env: APT });
    });
  await installOtherEditors();
}

/** The editors of client/OTHER-EDITORS.md. Where they are not to be had their tests are skipped, and say so. */
async function installOtherEditors() {
  const hasEglot = ['--batch', '--funcall', 'package-initialize', '--load', 'eglot'];
  const wanted = [
    findProgram('nvim') ? undefined : ['neovim'],
    findProgram('emacs') && (await run('emacs', hasEglot, { mayFail: true })).code === 0
      ? undefined
      : // From Emacs 29 on eglot comes with it.
        ['emacs-nox', 'elpa-eglot'],
  ].filter(Boolean);
  if (wanted.length === 0 || !canInstall()) return;
  await step(`Installing ${wanted.flat().join(', ')} with apt`, async () => {
    await run('apt-get', ['update'], { env: APT, mayFail: true });
    for (const name of wanted.flat()) {
      const { code } = await run('apt-get', [...INSTALL, name], { env: APT, mayFail: true });
      if (code !== 0) console.log(`  ${name} is not to be had`);
    }
  });
}

const APT = { DEBIAN_FRONTEND: 'noninteractive' };
const INSTALL = ['install', '-y', '--no-install-recommends'];
const canInstall = () => findProgram('apt-get') && process.getuid?.() === 0;

/** The wished port if nobody listens there, otherwise any free one. */
export function freePort(wished = 0) {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', (error) => (wished ? freePort(0).then(resolve, reject) : reject(error)));
    probe.listen(wished, '127.0.0.1', () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}

/** Runs a script's main function: a SetupError is a message, anything else is a fault of ours and shows its stack. */
export async function main(work) {
  try {
    await work();
  } catch (error) {
    console.error(error instanceof SetupError ? error.message : error);
    process.exitCode = 1;
  }
}
