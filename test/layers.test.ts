import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { cruise, type ICruiseResult, type IForbiddenRuleType } from 'dependency-cruiser';

/** A small house of what is forbidden, each file with what it imports, and by which rule it is found. */
const PLANTED: Readonly<Record<string, readonly string[]>> = {
  'grammar/tree.ts': ["import type { A } from './pattern.ts';", 'export type B = A;'],
  'grammar/pattern.ts': ["import type { B } from './tree.ts';", 'export type A = B | 1;'],
  'server/geometry/path.ts': ["import { rivet } from '../trade/rivet/rivet.ts';", 'export const path = rivet;'],
  'server/model/things/seam.ts': [
    "import { reckon } from '../../trade/reckoning/reckon.ts';",
    'export const seam = reckon;',
  ],
  'server/trade/reckoning/reckon.ts': ['export const reckon = 1;'],
  'server/trade/rivet/rivet.ts': ["import { readFileSync } from 'node:fs';", 'export const rivet = readFileSync;'],
  'server/model/values/show.ts': ["export const show = async () => import('../things/piece.ts');"],
  'server/model/things/piece.ts': ["import type { E } from 'vscode-languageserver';", 'export type Piece = E;'],
  'server/checks/rules/fit/one.ts': ["export { two } from '../rivets/two.ts';"],
  'server/checks/rules/rivets/two.ts': ['export const two = 2;'],
  'server/requests.ts': ['export interface Asked {}', 'export const runs = 1;'],
  'client/one.ts': ["import { runs } from '../server/requests.ts';", 'export const one = runs;'],
  'client/two.ts': ["import type { Asked } from '../server/requests.ts';", 'export type Two = Asked;'],
};

const FOUND = [
  'client/one.ts → server/requests.ts: the client takes types only',
  'grammar/pattern.ts → grammar/tree.ts: no circle',
  'server/checks/rules/fit/one.ts → server/checks/rules/rivets/two.ts: a check knows no other check',
  'server/geometry/path.ts → server/trade/rivet/rivet.ts: server/geometry points down',
  'server/model/things/piece.ts → vscode-languageserver: the protocol at the edge',
  'server/model/things/seam.ts → server/trade/reckoning/reckon.ts: formulas stand in the trade',
  'server/model/values/show.ts → server/model/things/piece.ts: server/model/values points down',
  'server/trade/rivet/rivet.ts → fs: Node at the edge',
];

/** A formula, or one with its numbers put in, that is written out beside a number. */
const WRITTEN_OUT = /(^|[{,(])\s*(formula|worked):\s*[^;]*['"`]/;
/** What a check says of itself is its documentation. */
const isDocumented = (file: string) => file.startsWith('server/trade/') || file.startsWith('server/checks/rules/');

describe('the layers', () => {
  it('have no formula outside the trade', () => {
    const root = path.join(import.meta.dirname, '..');
    const files = readdirSync(path.join(root, 'server'), { recursive: true, encoding: 'utf8' })
      .map((file) => `server/${file.replaceAll(path.sep, '/')}`)
      .filter((file) => file.endsWith('.ts') && !isDocumented(file));
    assert.ok(files.length > 200, `${files.length} files`);
    const found = files.flatMap((file) =>
      readFileSync(path.join(root, file), 'utf8')
        .split('\n')
        .flatMap((line, i) => (WRITTEN_OUT.test(line) ? [`${file}:${i + 1} ${line.trim()}`] : [])),
    );
    assert.deepEqual(found, []);
    for (const planted of [
      "  formula: 'A = {l} × {w}',",
      '({ value, worked: `2 + 2` })',
      "formula: round ? 'a' : 'b',",
    ])
      assert.match(planted, WRITTEN_OUT);
  });

  it('are held: a circle, of types too, and every arrow that does not point down is found', async () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'planish-layers-'));
    try {
      for (const [file, lines] of Object.entries(PLANTED)) {
        mkdirSync(path.join(folder, path.dirname(file)), { recursive: true });
        writeFileSync(path.join(folder, file), `${lines.join('\n')}\n`);
      }
      const { default: rules } = (await import(new URL('../.dependency-cruiser.mjs', import.meta.url).href)) as {
        default: { forbidden: IForbiddenRuleType[]; options: { tsConfig: unknown } };
      };
      const { tsConfig: _, ...options } = rules.options;
      const { output } = await cruise(['grammar', 'server', 'client'], {
        ...options,
        baseDir: folder,
        validate: true,
        ruleSet: { forbidden: rules.forbidden },
      });
      const { violations } = (output as ICruiseResult).summary;
      assert.deepEqual(violations.map(({ from, to, rule }) => `${from} → ${to}: ${rule.name}`).sort(), FOUND);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
