import assert from 'node:assert/strict';
import { type ChildProcess, execFileSync, spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { findProgram, packagePath } from '../../.scripts/setup.mjs';
import { unpackExtension } from '../../.scripts/zip.mjs';

/*
 * The configurations of client/OTHER-EDITORS.md, as they stand there, in the editors that they are for, against the packed server.
 */

const root = path.resolve(import.meta.dirname, '../..');
const page = readFileSync(path.join(root, 'client/OTHER-EDITORS.md'), 'utf8');

const SPEC = 'planish 1\n\nmaterial plate\n  mild steel 16 ga\n\npiece tab\n  from plat\n    disc   90 mm\n';
const MARK = /There is no material “plat”: did you mean “plate”\?/;
const HOVER = /thickness: 1\.519 mm/;
const COMPLETED = SPEC.replace('plat\n    disc', 'plate\n    disc');
const FORMATTED = COMPLETED.replace('    disc   90 mm', '  disc 90 mm');

describe('other editors', () => {
  const home = mkdtempSync(path.join(tmpdir(), 'planish-other-editors-'));
  const folder = path.join(home, 'specs');
  const env = { ...process.env, HOME: home, PATH: `${home}/.local/bin${path.delimiter}${process.env['PATH']}` };

  before(function () {
    if (process.platform === 'win32') this.skip();
    if (!existsSync(packagePath())) execFileSync(process.execPath, ['.scripts/package.mjs'], { cwd: root });
    // As the page has it, but for the unzipping: a bare machine has no program for that.
    unpackExtension(packagePath(), path.join(home, '.local/share/planish/extension'));
    const commands = block('sh').replace(/^unzip .*\n/, '');
    const version = execFileSync('sh', ['-e', '-c', commands], { env, encoding: 'utf8' });
    assert.match(version, /^\d+\.\d+\.\d+/);
    mkdirSync(folder);
  });
  beforeEach(() => writeFileSync(path.join(folder, 'tab.planish'), SPEC));
  after(() => rmSync(home, { recursive: true, force: true }));

  describe('Neovim', () => {
    let editor: ChildProcess;
    const socket = path.join(home, 'nvim');

    before(async function () {
      if (!findProgram('nvim')) skip(this, 'there is no nvim');
      const init = path.join(home, 'init.lua');
      writeFileSync(init, block('lua'));
      writeFileSync(path.join(folder, 'tab.planish'), SPEC);
      const args = ['--headless', '--clean', '-u', init, '--listen', socket, 'tab.planish'];
      editor = spawn('nvim', args, { cwd: folder, env, stdio: 'ignore' });
      await told(() => existsSync(socket));
    });
    after(() => editor?.kill());

    const nvim = (...args: string[]) => {
      const { stdout, stderr } = spawnSync('nvim', ['--server', socket, ...args], { env, encoding: 'utf8' });
      // 0.7 answers on standard error.
      return stdout || stderr;
    };
    const type = (keys: string) => nvim('--remote-send', keys);
    const ask = (expression: string) => JSON.parse(nvim('--remote-expr', `json_encode(${expression})`));
    const text = (): string => `${ask('getline(1, "$")').join('\n')}\n`;

    it('shows marks', async () => {
      const marks = await told(() => some(ask('luaeval("vim.diagnostic.get(0)")') as { message: string }[]));
      assert.equal(marks.length, 1);
      assert.match(marks[0]!.message, MARK);
    });

    it('shows the hover of K in a window of its own', async () => {
      type('4G$bbK');
      await told(() => ask('winnr("$")') === 2);
      assert.match(ask('getbufline(winbufnr(2), 1, "$")').join('\n'), HOVER);
      type('<Esc>');
    });

    it('completes a name', async () => {
      type('7GA<C-x><C-o>');
      const { items } = await told(() => {
        const offered = ask('complete_info(["items"])') as { items: { word: string }[] };
        return offered.items.length > 0 && offered;
      });
      assert.deepEqual(
        items.map(({ word }) => word),
        ['plate'],
      );
      type('<C-y><Esc>');
      assert.equal(text(), COMPLETED);
    });

    it('formats the file, and then has nothing to mark', async () => {
      type('gggqG');
      await told(() => text() !== COMPLETED);
      assert.equal(text(), FORMATTED);
      await told(() => ask('luaeval("#vim.diagnostic.get(0)")') === 0);
    });
  });

  describe('Emacs', () => {
    let said: { marks: string[]; hover: string; completed: string; formatted: string };

    before(function () {
      this.timeout(300_000);
      if (!findProgram('emacs')) skip(this, 'there is no emacs');
      // As every start but that of a batch does.
      const start = ['--batch', '--funcall', 'package-initialize'];
      if (spawnSync('emacs', [...start, '--load', 'eglot'], { env }).status !== 0) skip(this, 'it has no eglot');
      const init = path.join(home, 'init.el');
      writeFileSync(init, block('elisp'));
      writeFileSync(path.join(folder, 'tab.planish'), SPEC);
      const probe = path.join(import.meta.dirname, 'other-editors.el');
      const { stdout, stderr } = spawnSync('emacs', [...start, '--load', init, '--load', probe], {
        cwd: folder,
        env,
        encoding: 'utf8',
      });
      assert.match(stdout, /^\{/, stderr);
      said = JSON.parse(stdout);
    });

    it('shows marks', () => {
      assert.equal(said.marks.length, 1);
      assert.match(said.marks[0]!, MARK);
    });

    it('shows the hover', () => assert.match(said.hover, HOVER));

    it('completes a name', () => assert.equal(said.completed, COMPLETED));

    it('formats the file', () => assert.equal(said.formatted, FORMATTED));
  });
});

/** The one block of code of the page in this language. */
function block(language: string): string {
  const blocks = [...page.matchAll(/^```(\w+)\n(.*?)^```$/gms)].filter(([, of]) => of === language);
  assert.equal(blocks.length, 1, language);
  return blocks[0]![2]!;
}

/** Said where the tests are listed. */
function skip(context: Mocha.Context, why: string): never {
  context.test!.parent!.title += ` (not tried: ${why})`;
  context.skip();
}

/** What is asked for, as soon as it is there. */
async function told<T>(ask: () => T | false | undefined): Promise<T> {
  for (const until = Date.now() + 60_000; Date.now() < until; await pause(50)) {
    const answer = ask();
    if (answer) return answer;
  }
  throw new Error('It did not come within a minute.');
}

function some<T>(list: T[]): T[] | undefined {
  return list.length > 0 ? list : undefined;
}
