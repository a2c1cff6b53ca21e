// npm run test:editor [-- --grep TEXT] [--packed]: runs test/client inside the extension host of a real VS Code, on the
// extension exactly as it ships: the packed .vsix, unpacked. --packed takes the .vsix that is there.
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { build, findBrowser, main, node, pack, packagePath, root, SetupError } from '../../.scripts/setup.mjs';
import { unpackExtension } from '../../.scripts/zip.mjs';
import { followFile } from './follow-file.mjs';
import { installWorkbench, launchBrowser, startWorkbench } from './workbench.mjs';

const { values: options } = parseArgs({ options: { grep: { type: 'string' }, packed: { type: 'boolean' } } });
const timeLimit = Number(process.env.EDITOR_TESTS_SECONDS ?? 420) * 1000;

await main(async () => {
  const chromium = findBrowser();
  if (!chromium) throw new SetupError('The editor tests need Chromium; the CHROMIUM variable may name one.');
  if (!options.packed) {
    await build();
    await pack();
  }
  await node(['.scripts/bundle.mjs', '--tests']);
  await installWorkbench();

  const folder = mkdtempSync(path.join(tmpdir(), 'planish-editor-tests-'));
  const extension = path.join(folder, 'extension');
  const workspace = path.join(folder, 'workspace');
  const output = path.join(folder, 'mocha.txt');
  mkdirSync(workspace);
  unpackExtension(packagePath(), extension);

  const workbench = await startWorkbench({
    testing: true,
    env: { PLANISH_TEST_OUT: output, ...(options.grep ? { PLANISH_TEST_GREP: options.grep } : {}) },
  });
  const following = followFile(output);
  let page;
  let brokeOff = false;
  let pageLog = '';
  try {
    const browser = await launchBrowser(chromium);
    page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    const ended = new Promise((resolve, reject) => {
      page.on('crash', () => reject(new Error('the page of the workbench crashed')));
      setTimeout(() => reject(new Error(`no end after ${timeLimit / 1000} s`)), timeLimit).unref();
      // The workbench calls this when the extension host has run the tests.
      page.exposeFunction('codeAutomationExit', resolve);
    });
    await page.exposeFunction('codeAutomationLog', (_kind, parts) => {
      pageLog += `${parts.map((part) => (typeof part === 'string' ? part : JSON.stringify(part))).join(' ')}\n`;
    });
    await page.goto(
      workbench.page(workspace, [
        ['extensionDevelopmentPath', workbench.remote(extension)],
        ['extensionTestsPath', workbench.remote('dist/test/index.cjs')],
      ]),
      { waitUntil: 'commit' },
    );
    process.exitCode = (await ended) ? 1 : 0;
    await browser.close();
  } catch (error) {
    brokeOff = true;
    console.error(`  The run of the editor tests broke off: ${error.message}`);
    const picture = path.join(root, '.ci-output/editor-tests-failure.png');
    await page?.screenshot({ path: picture }).then(
      () => console.error(`  What was on the screen: ${picture}`),
      () => {},
    );
    await page
      ?.context()
      .browser()
      .close()
      .catch(() => {});
  }
  following.stop();
  if (!brokeOff && !following.wrote()) {
    brokeOff = true;
    console.error('  The editor tests wrote nothing: the extension host did not get as far as mocha.');
  }
  if (brokeOff) {
    process.exitCode = 1;
    console.error(`${pageLog}\n${workbench.log()}`.trim().split('\n').slice(-30).join('\n'));
  }
  workbench.stop();
  rmSync(folder, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
});
