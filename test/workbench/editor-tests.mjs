// npm run test:editor [-- --grep TEXT] [--packed]: runs test/client inside the extension host of a real VS Code, on the
// extension exactly as it ships: the packed .vsix, unpacked. --packed takes the .vsix that is there.
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { format, parseArgs } from 'node:util';
import { build, findBrowser, main, node, pack, packagePath, SetupError } from '../../.scripts/setup.mjs';
import { unpackExtension } from '../../.scripts/zip.mjs';
import { followFile } from './follow-file.mjs';
import { runTestPage } from './test-page.mjs';
import { installWorkbench, startWorkbench } from './workbench.mjs';

const { values: options } = parseArgs({ options: { grep: { type: 'string' }, packed: { type: 'boolean' } } });

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
  let pageLog = '';
  const address = workbench.page(workspace, [
    ['extensionDevelopmentPath', workbench.remote(extension)],
    ['extensionTestsPath', workbench.remote('dist/test/index.cjs')],
  ]);
  const passed = await runTestPage(chromium, address, {
    picture: 'editor-tests-failure.png',
    hear(parts) {
      pageLog += `${format(...parts)}\n`;
    },
  });
  following.stop();
  const reported = following.wrote();
  if (passed !== undefined && !reported)
    console.error('  The editor tests wrote nothing: the extension host did not get as far as mocha.');
  if (passed === undefined || !reported)
    console.error(`${pageLog}\n${workbench.log()}`.trim().split('\n').slice(-30).join('\n'));
  process.exitCode = passed && reported ? 0 : 1;
  workbench.stop();
  rmSync(folder, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
});
