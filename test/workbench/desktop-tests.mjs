// npm run test:desktop [-- --grep TEXT]: the same suite as test:editor in a desktop VS Code: the one that VSCODE_PATH
// names, otherwise one that @vscode/test-electron downloads.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { runTests } from '@vscode/test-electron';
import { build, main, node, pack, packagePath, root, SetupError } from '../../.scripts/setup.mjs';
import { unpackExtension } from '../../.scripts/zip.mjs';
import { followFile } from './follow-file.mjs';
import { quietSettings } from './workbench.mjs';

const { values: options } = parseArgs({ options: { grep: { type: 'string' } } });

await main(async () => {
  await build();
  await pack();
  await node(['.scripts/bundle.mjs', '--tests']);
  // A short name: some systems allow no socket with a path of over 103 characters.
  const folder = mkdtempSync(path.join(tmpdir(), 'planish-'));
  const place = (name) => path.join(folder, name);
  unpackExtension(packagePath(), place('extension'));
  for (const name of ['workspace', 'data/User']) mkdirSync(place(name), { recursive: true });
  writeFileSync(place('data/User/settings.json'), JSON.stringify(quietSettings));
  const following = followFile(place('mocha.txt'));
  try {
    process.exitCode = await runTests({
      ...(process.env.VSCODE_PATH ? { vscodeExecutablePath: process.env.VSCODE_PATH } : {}),
      extensionDevelopmentPath: place('extension'),
      extensionTestsPath: path.join(root, 'dist/test/index.cjs'),
      cachePath: path.join(root, '.workbench/desktop-tests'),
      launchArgs: [
        place('workspace'),
        '--disable-extensions',
        `--user-data-dir=${place('data')}`,
        `--extensions-dir=${place('extensions')}`,
      ],
      extensionTestsEnv: {
        PLANISH_TEST_OUT: place('mocha.txt'),
        ...(options.grep ? { PLANISH_TEST_GREP: options.grep } : {}),
      },
    });
  } catch (error) {
    throw new SetupError(
      `No desktop VS Code ran the tests (${error.message}). VSCODE_PATH may name its executable; ` +
        '`npm run test:editor` needs none.',
    );
  } finally {
    following.stop();
    rmSync(folder, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
  }
});
