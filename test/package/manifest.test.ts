import assert from 'node:assert/strict';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

const root = path.resolve(import.meta.dirname, '../..');
const read = (file: string) => readFileSync(path.join(root, file), 'utf8');
const manifest = JSON.parse(read('package.json'));
const contributes = manifest.contributes;

describe('package.json', () => {
  it('names only files that exist', () => {
    const [language] = contributes.languages;
    const files = [
      manifest.icon,
      language.icon.light,
      language.icon.dark,
      language.configuration,
      ...contributes.grammars.map((grammar: { path: string }) => grammar.path),
    ];
    for (const file of files) assert.ok(existsSync(path.join(root, file)), file);
  });

  it('takes every text for the user from package.nls.json, and every text there is used', () => {
    const texts = JSON.parse(read('package.nls.json'));
    const used = [...read('package.json').matchAll(/"%([\w.]+)%"/g)].map((found) => found[1]);
    assert.deepEqual([...new Set(used)].sort(), Object.keys(texts).sort());
    for (const { title } of contributes.commands) assert.match(title, /^%/);
  });

  it('announces the commands that the client registers, and no others', () => {
    const source = readdirSync(path.join(root, 'client'))
      .filter((file) => file.endsWith('.ts'))
      .map((file) => read(`client/${file}`))
      .join('\n');
    const registered = [...source.matchAll(/command(?:<[^>]*>)?\(\s*'(planish\.\w+)'/g)].map((found) => found[1]);
    const announced = contributes.commands.map(({ command }: { command: string }) => command);
    assert.deepEqual(registered.sort(), announced.sort());
    for (const menu of Object.values<{ command: string }[]>(contributes.menus))
      for (const { command } of menu) assert.ok(announced.includes(command), command);
  });

  it('describes every setting', () => {
    for (const [name, setting] of Object.entries<{ markdownDescription?: string }>(
      contributes.configuration.properties,
    ))
      assert.ok(setting.markdownDescription, name);
  });

  it('is typed against the oldest editor it promises to run in', () => {
    const types = JSON.parse(read('node_modules/@types/vscode/package.json')).version;
    assert.equal(manifest.engines.vscode, `^${types}`);
  });
});

describe('lock files', () => {
  for (const file of ['package-lock.json', 'test/workbench/package-lock.json'])
    it(`${file} names no registry`, () => assert.ok(!read(file).includes('"resolved"')));
});
