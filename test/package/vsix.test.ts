import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { readZip, tightened } from '../../.scripts/zip.mjs';

const root = path.resolve(import.meta.dirname, '../..');
const manifest = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
const vsix = path.join(root, `planish-${manifest.version}.vsix`);

describe('the package', () => {
  let files: Map<string, Uint8Array>;
  before(() => {
    // npm test has packed already; alone, this test looks after itself.
    if (!existsSync(vsix)) execFileSync(process.execPath, ['.scripts/package.mjs'], { cwd: root });
    files = readZip(readFileSync(vsix));
  });

  it('holds what runs, what explains it and nothing else', () => {
    const inside = [...files.keys()].filter((name) => name.startsWith('extension/'));
    assert.deepEqual(inside.map((name) => name.slice('extension/'.length).toLowerCase()).sort(), [
      'changelog.md',
      'client/icons/file-dark.svg',
      'client/icons/file-light.svg',
      'client/icons/icon.png',
      'client/l10n/bundle.l10n.de.json',
      'client/language-configuration.json',
      'client/snippets.json',
      'client/walkthrough/cut.svg',
      'client/walkthrough/mend.svg',
      'client/walkthrough/new.svg',
      'client/walkthrough/read.svg',
      'dist/cli.cjs',
      'dist/client-web.js',
      'dist/client.cjs',
      'dist/de.json',
      'dist/figures-page.js',
      'dist/notices.txt',
      'dist/notosans-bold.ttf',
      'dist/notosans-regular.ttf',
      'dist/paper-page.js',
      'dist/pdf.js',
      'dist/planish.cjs',
      'dist/server-web.js',
      'dist/server.cjs',
      'dist/start.cjs',
      'grammar/planish.tmlanguage.json',
      'license.txt',
      'package.json',
      'package.nls.de.json',
      'package.nls.json',
      'readme.md',
    ]);
    assert.deepEqual([...files.keys()].filter((name) => !name.startsWith('extension/')).sort(), [
      '[Content_Types].xml',
      'extension.vsixmanifest',
    ]);
  });

  it('can be loaded by an editor in a browser, which loads no modules', () => {
    const shipped = JSON.parse(Buffer.from(files.get('extension/package.json')!).toString('utf8'));
    const { type, ...ours } = manifest;
    assert.equal(type, 'module');
    assert.deepEqual(shipped, ours);
  });

  it('is as tight as it can be, and the same again when it is tightened once more', () => {
    const packed = readFileSync(vsix);
    assert.ok(tightened(packed).equals(packed));
  });

  it('is under 2.2 MB', () => {
    assert.ok(statSync(vsix).size < 2_200_000, `${statSync(vsix).size} bytes`);
  });

  it('carries no source map, and no path of the machine that made it', () => {
    for (const [name, content] of files) {
      if (!name.startsWith('extension/dist/')) continue;
      const text = Buffer.from(content).toString('latin1');
      assert.ok(!text.includes('sourceMappingURL='), name);
      assert.ok(!text.includes(root), name);
    }
  });
});
