import assert from 'node:assert/strict';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { withDefaults } from '../../grammar/snippets.ts';
import { planish } from '../cli/support.ts';
import { open } from '../editor/view.ts';

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
      ...contributes.snippets.map((snippets: { path: string }) => snippets.path),
      ...contributes.walkthroughs.flatMap(({ icon, steps }: { icon: string; steps: { media: { svg: string } }[] }) => [
        icon,
        ...steps.map(({ media }) => media.svg),
      ]),
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
    const source = readdirSync(path.join(root, 'client'), { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.ts'))
      .map((file) => read(`client/${file}`))
      .join('\n');
    // Those of the exports are registered from the list that is made of their table.
    const registered = [
      ...source.matchAll(
        /(?<!execute)[cC]ommand(?:<[^>]*>)?\(\s*'(planish\.\w+)'|^ {4}(?:command|show): '(planish\.\w+)'/gm,
      ),
    ].map((found) => found[1] ?? found[2]);
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

describe('translations', () => {
  const placeholders = (text: string) => [...text.matchAll(/\{\d\}/g)].map(String).sort();

  it('are whole: every text of the manifest, its links and its commands', () => {
    const texts = JSON.parse(read('package.nls.json'));
    const german = JSON.parse(read('package.nls.de.json'));
    assert.deepEqual(Object.keys(german), Object.keys(texts));
    const links = (text: string) => [...text.matchAll(/\(command:[^)]*\)|`[^`]+`/g)].map(String);
    for (const [key, text] of Object.entries<string>(texts)) assert.deepEqual(links(german[key]), links(text), key);
  });

  it('are whole: every text of the client, with its gaps, and none that is not there any more', () => {
    const source = readdirSync(path.join(root, 'client'), { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.ts'))
      .map((file) => read(`client/${file}`))
      .join('\n');
    const said = [...source.matchAll(/l10n\.t\(\s*'((?:[^'\\]|\\.)*)'/g)].map((found) => found[1]!);
    assert.equal(said.length, source.match(/l10n\.t\(/g)?.length, 'a text is not written out in its call');
    const german = JSON.parse(read(`${manifest.l10n}/bundle.l10n.de.json`));
    assert.deepEqual(Object.keys(german).sort(), [...new Set(said)].sort());
    for (const [text, other] of Object.entries<string>(german))
      assert.deepEqual(placeholders(other), placeholders(text), text);
  });
});

describe('what the manifest brings', () => {
  it('file templates are specs without an error', () => {
    const templates: Record<string, { body: string[] }> = JSON.parse(read('client/snippets.json'));
    for (const [name, { body }] of Object.entries(templates)) {
      const text = withDefaults(body.join('\n').replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, '$1'));
      const view = open(text).view;
      const wrong = view.problems().filter(({ severity }) => severity === 'error' || severity === 'warning');
      assert.deepEqual(
        wrong.map(({ message }) => message),
        [],
        name,
      );
    }
  });

  it('the problem matcher reads what the command line writes', async () => {
    const [matcher] = contributes.problemMatchers;
    const { out } = await planish(['check', 'samples/faults/rivet-too-short.planish'], root, { NO_COLOR: '1' });
    const found = out
      .split('\n')
      .map((line) => new RegExp(matcher.pattern.regexp).exec(line))
      .filter((match) => match !== null)
      .map((match) => [match[matcher.pattern.file], match[matcher.pattern.severity], match[matcher.pattern.code]]);
    assert.deepEqual(
      found.find(([, severity]) => severity === 'warning'),
      ['samples/faults/rivet-too-short.planish', 'warning', 'rivet-too-short'],
    );
    // Each finding once: the lines beneath it that say more are not findings.
    assert.ok(found.every(([file]) => !file!.startsWith(' ')));
  });

  it('asks for no trust that it does not need, and works on files of any kind', () => {
    assert.deepEqual(manifest.capabilities, { untrustedWorkspaces: { supported: true }, virtualWorkspaces: true });
    // Trust is not needed because nothing of a workspace is ever run: the one process is our own program.
    const client = readdirSync(path.join(root, 'client'), { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.ts'))
      .map((file) => read(`client/${file}`))
      .join('\n');
    assert.ok(!/child_process|ShellExecution|eval\(|createTelemetryLogger/.test(client));
  });
});

describe('lock files', () => {
  for (const file of ['package-lock.json', 'test/workbench/package-lock.json', 'test/workbench/web/package-lock.json'])
    it(`${file} names no registry`, () => assert.ok(!read(file).includes('"resolved"')));
});
