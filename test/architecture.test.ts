import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '..');

/** What each layer may import from; arrows point down only. */
const BELOW = ['incremental', 'geometry', 'trade', 'model', 'checks', 'nest', 'output'].map(
  (layer) => `server/${layer}`,
);
const upTo = (layer: string): string[] => BELOW.slice(0, BELOW.indexOf(`server/${layer}`) + 1);
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  grammar: ['grammar'],
  'server/incremental': upTo('incremental'),
  'server/geometry': upTo('geometry'),
  'server/trade': upTo('trade'),
  'server/model': [...upTo('model'), 'grammar'],
  'server/checks': [...upTo('checks'), 'grammar'],
  'server/nest': [...upTo('model'), 'server/nest', 'grammar'],
  'server/output': [...upTo('output'), 'grammar'],
  'server/editor': [...upTo('output'), 'server', 'server/editor', 'grammar'],
  client: ['client'],
};

/** Types that both ends of a request share, which is all that the client takes from the server. */
const SHARED_TYPES = 'server/requests.ts';

/** Only the Node entry points and their file host may know files and processes: the rest runs in a browser worker too. */
const NODE_ONLY = new Set(['main', 'cli', 'disk-files', 'disk-fonts', 'disk-text'].map((name) => `server/${name}.ts`));
const LAYERS = Object.keys(MAY_IMPORT);

const layerOf = (path: string): string =>
  LAYERS.find((layer) => path === layer || path.startsWith(`${layer}/`)) ?? path.split('/')[0]!;

function sources(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = `${folder}/${entry.name}`;
    if (entry.isDirectory()) return entry.name === 'node_modules' ? [] : sources(path);
    return /\.(ts|mts)$/.test(entry.name) ? [path] : [];
  });
}

const importsOf = (path: string): string[] =>
  [
    ...readFileSync(join(root, path), 'utf8').matchAll(
      /^\s*(?:import|export)\b[^'"]*?from\s+'([^']+)'|^\s*import\s+'([^']+)'|\bimport\('([^']+)'\)/gm,
    ),
  ].map((match) => (match[1] ?? match[2] ?? match[3])!);

describe('the house', () => {
  const files = ['grammar', 'server', 'client'].flatMap(sources);

  it('has its layers, each with something in it', () => {
    for (const layer of LAYERS)
      assert.ok(
        files.some((path) => layerOf(path) === layer),
        `${layer} is empty`,
      );
  });

  it('imports downward only', () => {
    const upward: string[] = [];
    for (const path of files) {
      const may = MAY_IMPORT[layerOf(path)];
      if (!may) continue;
      for (const name of importsOf(path)) {
        if (!name.startsWith('.')) continue;
        const target = relative(root, resolve(root, dirname(path), name))
          .split(sep)
          .join('/');
        if (path.startsWith('client/') && target === SHARED_TYPES) continue;
        if (!may.includes(layerOf(target))) upward.push(`${path} → ${target}`);
      }
    }
    assert.deepEqual(upward, []);
  });

  it('lets client and server share types, and nothing that runs', () => {
    assert.doesNotMatch(
      readFileSync(join(root, SHARED_TYPES), 'utf8'),
      /^(?:export )?(?:const|let|function|class|enum)\b/m,
    );
    for (const path of files.filter((each) => each.startsWith('client/')))
      assert.doesNotMatch(readFileSync(join(root, path), 'utf8'), /^import (?!type )[^;]*server\/requests/m, path);
  });

  it('keeps Node out of everything but the entry points', () => {
    const found = files.filter(
      (path) =>
        !path.startsWith('client/') &&
        !NODE_ONLY.has(path) &&
        !path.startsWith('server/cli/') &&
        importsOf(path).some((name) => name.startsWith('node:')),
    );
    assert.deepEqual(found, []);
  });

  it('keeps the editor protocol in the editor layer', () => {
    const found = files.filter(
      (path) =>
        /^(grammar|server\/(incremental|geometry|trade|model|checks|nest|output))\//.test(path) &&
        importsOf(path).some((name) => name.startsWith('vscode-language')),
    );
    assert.deepEqual(found, []);
  });
});
