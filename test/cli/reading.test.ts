import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { URI } from 'vscode-uri';
import { diskFiles } from '../../server/disk-files.ts';
import { ClientFiles } from '../../server/editor/workspace/client-files.ts';
import { Workspace } from '../../server/editor/workspace/workspace.ts';
import { inside, scratch, sweep } from './support.ts';

const STOCK = 'material plate\n  mild steel 1.5 mm\n';
const user = (file: string) => `use "${file}"\n\npiece brow\n  from plate\n  plate 300 x 40 mm\n`;
const drawer = (file: string) => `${STOCK}\npiece badge\n  from plate\n  outline "${file}"\n`;
const LATIN = Buffer.from('# gro\xdfe St\xfccke\nmaterial plate\n  mild steel 1.5 mm\n', 'latin1');

/** What the editor says of the same file, reading the same disk. */
function saidByEditor(folder: string, file: string): string[] {
  const root = URI.file(folder).toString();
  const nobody = { text: async () => null, entries: async () => [], specs: async () => [] };
  const workspace = new Workspace(diskFiles(() => [root], new ClientFiles(nobody)));
  return workspace
    .view(URI.file(path.join(folder, file)).toString())!
    .problems()
    .map(({ message }) => message);
}

describe('what the command line reads', function () {
  this.timeout(60_000);
  after(sweep);

  it('says of a used file or a drawing what it is, and never means its own name; the editor says the same', async function () {
    if (process.platform === 'win32') this.skip();
    const outside = scratch({ 'stock.planish': STOCK });
    const cases: [string, (at: string) => void, RegExp][] = [
      ['latin', (at) => writeFileSync(at, LATIN), /is not UTF-8 text: save it as UTF-8, and is not read/],
      [
        'wide',
        (at) => writeFileSync(at, `\ufeff${STOCK}`, 'utf16le'),
        /is not UTF-8 text but UTF-16: save it as UTF-8/,
      ],
      ['folder', (at) => mkdirSync(at), /is a folder, and is not read/],
      ['pipe', (at) => execFileSync('mkfifo', [at]), /is a pipe, and is not read/],
      ['loop', (at) => symlinkSync(at, at), /is a link that leads in a circle, and is not read/],
      ['dangling', (at) => symlinkSync('nowhere', at), /is a link to a file that is not there, and is not read/],
      [
        'huge',
        (at) => writeFileSync(at, `# ${' '.repeat(5_000_000)}`),
        /is larger than any spec \(over 5 MB\), and is not read/,
      ],
      ['away', (at) => symlinkSync(path.join(outside, 'stock.planish'), at), /(?:lies|leads) outside /],
    ];
    for (const [name, make, said] of cases)
      for (const [file, spec, code] of [
        [`${name}.planish`, user(`${name}.planish`), 'use-missing'],
        [`${name}.svg`, drawer(`${name}.svg`), 'drawing-missing'],
      ] as const) {
        const folder = scratch({ 'a.planish': spec });
        make(path.join(folder, file));
        const ran = await inside(['check', 'a.planish'], folder);
        const line = ran.out.split('\n').find((each) => each.includes(code))!;
        assert.equal(ran.code, 1, ran.out + ran.err);
        assert.match(line, said, name);
        assert.doesNotMatch(line, /did you mean/);
        const own = saidByEditor(folder, 'a.planish').find((each) => said.test(each));
        assert.ok(own && !/did you mean/.test(own), `${name}: ${saidByEditor(folder, 'a.planish').join('\n')}`);
      }
  });

  it('reads a DXF in the code page of old, as the editor does', async () => {
    const corners = [
      [0, 0],
      [60, 0],
      [60, 40],
      [0, 40],
    ];
    const line = ([x, y]: number[], i: number) => {
      const [to, up] = corners[(i + 1) % 4]!;
      return `0\nLINE\n8\nMa\xdf\n10\n${x}\n20\n${y}\n11\n${to}\n21\n${up}\n`;
    };
    const dxf = `0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n${corners.map(line).join('')}0\nENDSEC\n0\nEOF\n`;
    const folder = scratch({ 'a.planish': drawer('badge.dxf').replace('badge.dxf"', 'badge.dxf", named "Maß"') });
    writeFileSync(path.join(folder, 'badge.dxf'), Buffer.from(dxf, 'latin1'));
    const { code, out } = await inside(['explain', 'a.planish', 'badge.area'], folder);
    assert.match(out, /badge\.area +24 cm²/);
    assert.equal(code, 0, out);
    assert.deepEqual(
      saidByEditor(folder, 'a.planish').filter((each) => /badge\.dxf/.test(each)),
      [],
    );
  });

  it('takes a file in a folder that is called ..foo for one inside', async () => {
    const folder = scratch({ 'a.planish': user('..foo/stock.planish'), '..foo/stock.planish': STOCK });
    assert.equal((await inside(['check', 'a.planish', '--severity', 'error'], folder)).code, 0);
    assert.deepEqual(
      saidByEditor(folder, 'a.planish').filter((each) => /stock/.test(each)),
      [],
    );
  });

  it('checks the others where one cannot be read, and ends with 2', async () => {
    const folder = scratch({ 'good.planish': STOCK, 'wrong.planish': `${STOCK}  bogus 3\n` });
    writeFileSync(path.join(folder, 'latin.planish'), LATIN);
    const ran = await inside(['check', '.'], folder);
    assert.equal(ran.code, 2);
    assert.match(ran.err, /^planish: latin\.planish is not UTF-8 text: save it as UTF-8\.$/m);
    assert.match(ran.out, /^wrong\.planish:3:3 +error/m);
    assert.match(ran.out, /^2 files: .*1 could not be read$/m);
    const { files } = JSON.parse((await inside(['check', '.', 'gone.planish', '--format', 'json'], folder)).out);
    assert.deepEqual(
      files.map(({ file, problems, unread }: { file: string; problems: unknown[]; unread?: string }) => [
        file,
        problems.length > 0,
        unread,
      ]),
      [
        ['good.planish', false, undefined],
        ['wrong.planish', true, undefined],
        ['gone.planish', false, 'There is no gone.planish: did you mean good.planish?'],
        ['latin.planish', false, 'latin.planish is not UTF-8 text: save it as UTF-8.'],
      ],
    );
    const sarif = JSON.parse((await inside(['check', '.', '--format', 'sarif'], folder)).out);
    const [invocation] = sarif.runs[0].invocations;
    assert.equal(invocation.executionSuccessful, false);
    assert.match(invocation.toolExecutionNotifications[0].message.text, /latin\.planish is not UTF-8/);
    assert.ok(sarif.runs[0].results.length > 0);
  });

  it('reads standard input as -, beside files and with what it uses; nobody else does', async () => {
    const folder = scratch({ 'stock.planish': STOCK });
    const ran = await inside(
      ['check', '-', '--severity', 'error'],
      folder,
      user('stock.planish').replace('plate 300', 'plaet 300'),
    );
    assert.equal(ran.code, 1, ran.err);
    assert.match(ran.out, /^-:5:3 +error +unknown-word/);
    const both = await inside(['check', '-', 'stock.planish', '--format', 'json'], folder, user('stock.planish'));
    assert.deepEqual(
      JSON.parse(both.out).files.map(({ file }: { file: string }) => file),
      ['-', 'stock.planish'],
    );
    assert.match((await inside(['check', '--help'], folder)).out, /- stands for standard input/);
    const cutlist = await inside(['cutlist', '-', '--to', 'md'], folder, STOCK);
    assert.deepEqual(
      [cutlist.code, cutlist.err],
      [2, 'planish: Only planish check reads standard input: name a file.\n'],
    );
    const layouts = await inside(['layouts', 'stock.planish', '--to', 'svg', '-o', '-'], folder);
    assert.match(layouts.err, /layouts writes a file for each sheet: -o takes a folder/);
    const bytes = await inside(['check', '-'], folder, '\ufffd');
    assert.equal(bytes.code, 1);
  });

  it('lets no name of a file steer the terminal, and keeps it whole in data', async () => {
    const name = 'a\u001b[31m\u009b1m\u202eb\n\u0007.planish';
    const folder = scratch({ [name]: `${STOCK}  bogus 3\n`, [`x${name}`]: STOCK });
    writeFileSync(path.join(folder, `latin${name}`), LATIN);
    for (const args of [
      ['check', '.'],
      ['check', '.', '--format', 'json'],
      ['check', '.', '--format', 'sarif'],
      ['check', `gone${name}`],
      ['explain', name],
      ['explain', name, `no${name}`],
      ['cutlist', name, '--to', 'md'],
      ['cutlist', name, '--to', name],
      ['patterns', name, '--to', 'svg', '-o', `cut${name}/`],
      ['format', name, '--check'],
      ['draw', name, name],
      ['new', `dir${name}`],
      ['check', '.', '--root', name],
      [name],
      ['check', `--${name}`],
    ]) {
      const { out, err } = await inside(args, folder);
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not come.
      assert.doesNotMatch(out + err, /(?!\n)[\u0000-\u001f\u007f-\u009f\u202a-\u202e]/, args.join(' '));
    }
    const { out } = await inside(['check', name, '--format', 'json'], folder);
    assert.equal(JSON.parse(out).files[0].file, name);
    assert.match(
      (await inside(['check', name], folder)).out,
      /^a<U\+001B>\[31m<U\+009B>1m<U\+202E>b<U\+000A><U\+0007>\.planish:3:3/,
    );
  });
});
