import assert from 'node:assert/strict';
import { execFileSync, spawn } from 'node:child_process';
import {
  chmodSync,
  chownSync,
  existsSync,
  linkSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { bundled, inside, run, scratch, sweep } from './support.ts';

const STOCK = `material plate
  mild steel 1.5 mm
  sheet 1000 x 2000 mm
`;
const BADGE =
  '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40"><path d="M 5 5 H 55 V 35 H 5 Z"/></svg>\n';
const SPEC = `use "stock.planish"

build "Badge"
  units mm

piece badge
  from plate
  outline "badge.svg"

piece brow
  from plate
  plate 300 x 40 mm
`;
const CROOKED = STOCK.replace('  mild', '       mild');

const files = { 'a.planish': SPEC, 'stock.planish': STOCK, 'badge.svg': BADGE };
const text = (folder: string, file: string) => readFileSync(path.join(folder, file), 'utf8');
const nothingLeft = (folder: string) =>
  assert.deepEqual(
    readdirSync(folder).filter((name) => name.endsWith('.part')),
    [],
  );

describe('what the command line writes', function () {
  this.timeout(60_000);
  after(sweep);

  describe('never takes the place of what it was made from', () => {
    for (const [what, name] of [
      ['the spec', 'a.planish'],
      ['a used file', 'stock.planish'],
      ['a drawing', 'badge.svg'],
    ] as const)
      it(`${what}, by whichever path or link`, async () => {
        const folder = scratch({ ...files, 'deep/x.txt': '' });
        const at = (each: string) => path.join(folder, each);
        linkSync(at(name), at('second-name'));
        symlinkSync(at(name), at('link'));
        symlinkSync(folder, at('round'));
        const before = text(folder, name);
        for (const target of [name, `deep/../${name}`, at(name), 'second-name', 'link', `round/${name}`])
          for (const args of [
            ['check', 'a.planish', '--format', 'json'],
            ['explain', 'a.planish', 'brow.area'],
            ['cutlist', 'a.planish', '--to', 'md'],
            ['patterns', 'a.planish', '--to', 'svg'],
            ['draw', 'a.planish', 'brow'],
          ]) {
            const { code, err } = await inside([...args, '-o', target, '--force'], folder);
            if (args[0] === 'draw' && code === 2 && /cannot be drawn/.test(err)) continue;
            assert.equal(code, 2, `${args.join(' ')} -o ${target}: ${err}`);
            assert.match(err, /is one of the files that this is made from. Nothing was written/);
            assert.equal(text(folder, name), before);
          }
        assert.ok(lstatSync(at('link')).isSymbolicLink());
        nothingLeft(folder);
      });

    it('nor in a folder of patterns, of which then none is written', async () => {
      const folder = scratch({
        ...files,
        'a.planish': SPEC.replace('"badge.svg"', '"a.badge.svg"'),
        'a.badge.svg': BADGE,
      });
      const { code, err } = await inside(['patterns', 'a.planish', '--to', 'svg', '-o', './', '--force'], folder);
      assert.equal(code, 2);
      assert.match(err, /a\.badge\.svg is one of the files/);
      assert.equal(text(folder, 'a.badge.svg'), BADGE);
      assert.equal(existsSync(path.join(folder, 'a.brow.svg')), false);
    });
  });

  describe('goes to its place', () => {
    const write = (folder: string, target: string, ...more: string[]) =>
      inside(['cutlist', 'a.planish', '--to', 'md', '-o', target, ...more], folder);

    it('through a link, which stays, also to what is not there yet', async () => {
      const folder = scratch({ ...files, 'out/list.md': 'old' });
      symlinkSync('out/list.md', path.join(folder, 'list'));
      symlinkSync('out/new.md', path.join(folder, 'new'));
      symlinkSync('around', path.join(folder, 'around'));
      assert.equal((await write(folder, 'list')).code, 2, 'not without being told to');
      assert.equal((await write(folder, 'list', '--force')).code, 0);
      assert.match(text(folder, 'out/list.md'), /^# Badge/);
      assert.equal((await write(folder, 'new', '--force')).code, 0);
      assert.match(text(folder, 'out/new.md'), /^# Badge/);
      for (const link of ['list', 'new']) assert.ok(lstatSync(path.join(folder, link)).isSymbolicLink());
      const around = await write(folder, 'around', '--force');
      assert.equal(around.code, 2);
      assert.match(around.err, /links go in a circle/);
    });

    it('into a device or a pipe, which stays what it is; a folder is refused', async function () {
      if (process.platform === 'win32') this.skip();
      const folder = scratch({ ...files, 'deep/x.txt': '' });
      assert.equal((await write(folder, '/dev/null', '--force')).code, 0);
      assert.ok(statSync('/dev/null').isCharacterDevice());
      const full = await write(folder, '/dev/full');
      assert.deepEqual([full.code, /cannot be written: the disk is full/.test(full.err)], [2, true], full.err);
      const pipe = path.join(folder, 'pipe');
      execFileSync('mkfifo', [pipe]);
      const reader = spawn('cat', [pipe]);
      const read: Buffer[] = [];
      reader.stdout.on('data', (chunk: Buffer) => read.push(chunk));
      const [done] = await Promise.all([
        write(folder, 'pipe', '--force'),
        new Promise((ended) => reader.on('close', ended)),
      ]);
      assert.equal(done.code, 0, done.err);
      assert.match(Buffer.concat(read).toString(), /^# Badge/);
      assert.ok(lstatSync(pipe).isFIFO());
      const refused = await inside(['explain', 'a.planish', '-o', 'deep', '--force'], folder);
      assert.deepEqual([refused.code, refused.err], [2, 'planish: deep is a folder: nothing is written there.\n']);
    });

    it('as /dev/stdout too, wherever that leads', async function () {
      if (process.platform === 'win32') this.skip();
      const folder = scratch(files);
      const args = [await bundled(), 'cutlist', 'a.planish', '--to', 'md', '-o', '/dev/stdout'];
      const { code, out, err } = await run(args, folder);
      assert.deepEqual([code, err], [0, '']);
      assert.match(out, /^# Badge/);
      execFileSync('sh', ['-c', `"$0" "$@" > out.md`, process.execPath, ...args], { cwd: folder });
      assert.equal(text(folder, 'out.md'), out);
    });

    it('with the mode and the owner of what it replaces', async function () {
      if (process.platform === 'win32') this.skip();
      const folder = scratch({ ...files, 'list.md': 'old' });
      const list = path.join(folder, 'list.md');
      chmodSync(list, 0o640);
      const isRoot = process.getuid?.() === 0;
      if (isRoot) chownSync(list, 12345, 23456);
      const before = statSync(list);
      assert.equal((await write(folder, 'list.md', '--force')).code, 0);
      const after = statSync(list);
      assert.deepEqual([after.mode, after.uid, after.gid], [before.mode, before.uid, before.gid]);
      assert.match(text(folder, 'list.md'), /^# Badge/);
    });

    it('not where the file is read-only, be it by root', async () => {
      const folder = scratch({ ...files, 'list.md': 'old' });
      chmodSync(path.join(folder, 'list.md'), 0o444);
      const { code, err } = await write(folder, 'list.md', '--force');
      assert.deepEqual([code, text(folder, 'list.md')], [2, 'old']);
      assert.match(err, /list\.md is read-only, and was left as it is/);
      nothingLeft(folder);
    });

    it('whole or not at all where the disk is full', async function () {
      if (process.platform === 'win32') this.skip();
      const folder = scratch({ ...files, 'list.pdf': 'old' });
      const command = 'ulimit -f 4; exec "$0" "$@"';
      const limited = async (...args: string[]) => {
        const child = spawn('sh', ['-c', command, process.execPath, await bundled(), ...args], { cwd: folder });
        let err = '';
        child.stderr.on('data', (chunk: Buffer) => (err += chunk));
        const code = await new Promise((ended) => child.on('close', ended));
        return { code, err };
      };
      const one = await limited('cutlist', 'a.planish', '--to', 'pdf', '-o', 'list.pdf', '--force');
      assert.equal(one.code, 2, one.err);
      assert.match(one.err, /list\.pdf cannot be written: /);
      assert.equal(text(folder, 'list.pdf'), 'old');
      // Of several files the first would have had room.
      const many = await limited('patterns', 'a.planish', '--to', 'pdf', '-o', 'cut/');
      assert.equal(many.code, 2, many.err);
      assert.deepEqual(readdirSync(path.join(folder, 'cut')), []);
      nothingLeft(folder);
    });

    it('whole or not at all where it is killed, and the next run clears away', async function () {
      if (process.platform === 'win32') this.skip();
      const kill =
        "const fs = require('node:fs'); fs.renameSync = fs.linkSync = () => process.kill(process.pid, 'SIGKILL');\n";
      const folder = scratch({ ...files, 'list.md': 'old', 'kill.cjs': kill });
      for (const target of ['list.md', 'new.md']) {
        const args = ['cutlist', 'a.planish', '--to', 'md', '-o', target, '--force'];
        const killed = await run(['--require', path.join(folder, 'kill.cjs'), await bundled(), ...args], folder);
        assert.equal(killed.code, null);
      }
      assert.equal(text(folder, 'list.md'), 'old');
      assert.equal(existsSync(path.join(folder, 'new.md')), false);
      assert.equal(readdirSync(folder).filter((name) => name.endsWith('.part')).length > 0, true);
      // What is refused clears away as well; what somebody else called so stays.
      writeFileSync(path.join(folder, '.mine.part'), '');
      assert.equal((await write(folder, 'list.md', '--force')).code, 0);
      assert.deepEqual(
        readdirSync(folder).filter((name) => name.endsWith('.part')),
        ['.mine.part'],
      );
    });

    it('of two at once one after the other, never mixed', async () => {
      const folder = scratch(files);
      const program = await bundled();
      const args = (target: string, ...more: string[]) => [
        program,
        'cutlist',
        'a.planish',
        '--to',
        'md',
        '-o',
        target,
        ...more,
      ];
      const first = await Promise.all([1, 2, 3].map(() => run(args('list.md'), folder)));
      assert.deepEqual(first.map(({ code }) => code).sort(), [0, 2, 2], 'one of them was the first');
      const whole = text(folder, 'list.md');
      const again = await Promise.all([1, 2, 3].map(() => run(args('list.md', '--force'), folder)));
      assert.deepEqual(
        again.map(({ code }) => code),
        [0, 0, 0],
      );
      assert.equal(text(folder, 'list.md'), whole);
      nothingLeft(folder);
    });

    it('under a name that every disk takes, the same for the same piece', async () => {
      const long = `brow${'x'.repeat(296)}`;
      const spec = `${STOCK}piece ${long}a\n  from plate\n  plate 300 x 40 mm\n\npiece ${long}b\n  from plate\n  plate 300 x 40 mm\n`;
      const folder = scratch({ 'a.planish': spec });
      const args = ['patterns', 'a.planish', '--to', 'svg', '-o', 'cut/'];
      const { code, err } = await inside(args, folder);
      // Names so long are marked, and the patterns are written all the same.
      assert.equal(code, 1, err);
      const names = readdirSync(path.join(folder, 'cut'));
      assert.equal(names.length, 2);
      for (const name of names) assert.match(name, /^a\.browx{50,}-[0-9a-f]{8}\.svg$/);
      assert.equal((await inside([...args, '--force'], folder)).code, 1);
      assert.deepEqual(readdirSync(path.join(folder, 'cut')), names);
      // A spec whose own name fills the disk's measure.
      const longest = `${'y'.repeat(247)}.planish`;
      writeFileSync(path.join(folder, longest), `build "x"\n${spec}`);
      assert.equal((await inside(['cutlist', longest, '--to', 'md'], folder)).code, 1);
      assert.equal(readdirSync(folder).filter((name) => name.endsWith('.cut-list.md')).length, 1);
    });

    it('also where a piece is called with a stroke', async () => {
      const folder = scratch({
        'a.planish': `build "b"\n  units in\n\n${STOCK}piece bowl\n  from plate\n  dome 150 mm, deep 45 mm\n  template at 1/2 in\n`,
      });
      const { code, err } = await inside(['patterns', 'a.planish', '--to', 'svg', '-o', 'cut/'], folder);
      assert.equal(code, 0, err);
      for (const name of readdirSync(path.join(folder, 'cut'))) assert.doesNotMatch(name, /[\\/:*?"<>|]/);
    });
  });

  describe('format', () => {
    it('loses no edit that is saved while it runs', async () => {
      const folder = scratch({ 'a.planish': CROOKED });
      const edited = `${CROOKED}\n# mine\n`;
      const { code, err } = await savedWhileItRuns(folder, 'a.planish', edited);
      // Laid out anew with the edit in it, or left alone and said so.
      assert.equal(code, 0, err);
      assert.equal(text(folder, 'a.planish'), `${STOCK}\n# mine\n`);
      nothingLeft(folder);
    });

    it('leaves alone what changes all the time, says so and ends with 2; the others are laid out', async () => {
      const folder = scratch({ 'a.planish': CROOKED, 'b.planish': CROOKED });
      const { code, err } = await savedWhileItRuns(folder, 'a.planish', CROOKED, 'for ever');
      assert.equal(code, 2);
      assert.match(err, /a\.planish was changed by somebody else meanwhile, and was left as it is/);
      assert.match(text(folder, 'a.planish'), /^material plate\n {7}mild[\s\S]*# \d+\n$/);
      assert.equal(text(folder, 'b.planish'), STOCK);
    });

    it('leaves read-only files, writes through links, keeps mode and byte order mark', async function () {
      if (process.platform === 'win32') this.skip();
      const folder = scratch({ 'a.planish': CROOKED, 'b.planish': `\ufeff${CROOKED}`, 'real/c.txt': CROOKED });
      const at = (each: string) => path.join(folder, each);
      chmodSync(at('a.planish'), 0o444);
      chmodSync(at('b.planish'), 0o600);
      symlinkSync('real/c.txt', at('c.planish'));
      const { code, err } = await inside(['format', 'a.planish', 'b.planish', 'c.planish'], folder);
      assert.equal(code, 2);
      assert.match(err, /a\.planish is read-only, and was left as it is/);
      assert.equal(text(folder, 'a.planish'), CROOKED);
      assert.equal(text(folder, 'b.planish'), `\ufeff${STOCK}`);
      assert.equal(statSync(at('b.planish')).mode & 0o777, 0o600);
      assert.equal(text(folder, 'real/c.txt'), STOCK);
      assert.ok(lstatSync(at('c.planish')).isSymbolicLink());
    });
  });
});

/** Somebody saves at the worst of times: when what is laid out lies beside, before it takes its place. */
async function savedWhileItRuns(folder: string, file: string, saved: string, how: 'once' | 'for ever' = 'once') {
  const save = `
const fs = require('node:fs');
const { fsyncSync } = fs;
let saves = 0;
fs.fsyncSync = (handle) => {
  fsyncSync(handle);
  if (saves++ ${how === 'once' ? '=== 0' : '< 3'})
    fs.writeFileSync(${JSON.stringify(path.join(folder, file))}, ${JSON.stringify(saved)}${how === 'once' ? '' : " + '# ' + saves + '\\n'"});
};
`;
  mkdirSync(path.join(folder, '.aside'), { recursive: true });
  writeFileSync(path.join(folder, '.aside/save.cjs'), save);
  return run(['--require', path.join(folder, '.aside/save.cjs'), await bundled(), 'format', '.'], folder);
}
