import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { bundled, run, scratch, sweep } from './support.ts';

/*
 * A disk of 64 KiB and few names that is really full: its errors come when they do, in the middle of a file, at a folder, at
 * the second name. Nothing may be half written, and what was there stays.
 */

const SPEC = `planish 1

build "Badge"
  duty stage

material plate
  mild steel 1.5 mm
  sheet 1000 x 2000 mm

piece badge
  from plate
  disc 90 mm
  hole hang 4 mm, at 8 mm from rim

piece cap
  from plate
  dome 210 mm, deep 60 mm
  dish
`;
/** Lines that the formatter moves. */
const UNTIDY = SPEC.replaceAll(/^ {2}/gm, '      ');
const EXPORTS = [
  ['cutlist', 'a.planish', '--to', 'html'],
  ['cutlist', 'a.planish', '--to', 'pdf'],
  ['cutlist', 'a.planish', '--to', 'csv'],
  ['order', 'a.planish', '--to', 'md'],
  ['patterns', 'a.planish', '--to', 'svg'],
  ['patterns', 'a.planish', '--to', 'pdf'],
  ['patterns', 'a.planish', '--to', 'dxf', '-o', 'cut/'],
  ['layouts', 'a.planish', '--to', 'dxf'],
  ['explain', 'a.planish', '-o', 'a.json'],
  ['draw', 'a.planish', 'cap', '-o', 'cap.svg'],
] as const;

describe('on a disk that is full', () => {
  let disk = '';

  before(function () {
    disk = path.join(scratch(), 'disk');
    mkdirSync(disk);
    const why = whyNoDisk(disk);
    if (why === undefined) return;
    disk = '';
    // Said where the tests are listed: elsewhere `ulimit` and /dev/full stand in for it (files.test.ts).
    this.test!.parent!.title += ` (not tried: ${why})`;
    this.skip();
  });

  after(() => {
    if (disk) execFileSync('umount', [disk]);
    sweep();
  });

  beforeEach(() => {
    for (const name of readdirSync(disk)) rmSync(path.join(disk, name), { recursive: true });
    writeFileSync(path.join(disk, 'a.planish'), UNTIDY);
  });

  const planish = async (...args: readonly string[]) => run([await bundled(), ...args], disk);
  const spec = () => readFileSync(path.join(disk, 'a.planish'), 'utf8');
  /** All files in it, those in folders too. */
  const files = () =>
    readdirSync(disk, { recursive: true, withFileTypes: true }).flatMap((each) => (each.isFile() ? [each.name] : []));

  for (const [what, fill] of [
    ['no room', fillWithBytes],
    ['no names', fillWithNames],
  ] as const) {
    it(`with ${what} left every export says so, and leaves nothing half written`, async () => {
      fill(disk);
      const before = files();
      for (const args of EXPORTS) {
        const { code, err } = await planish(...args);
        assert.equal(code, 2, `${args.join(' ')}: ${err}`);
        assert.match(err, /cannot be (written|made): the disk is full/, args.join(' '));
        assert.deepEqual(files(), before, args.join(' '));
      }
      assert.equal(spec(), UNTIDY);
    });

    it(`with ${what} left the formatter says so, and leaves the spec as it is`, async () => {
      fill(disk);
      const before = files();
      const { code, err } = await planish('format', 'a.planish');
      assert.equal(code, 2, err);
      assert.match(err, /a\.planish cannot be written: the disk is full/);
      assert.equal(spec(), UNTIDY);
      assert.deepEqual(files(), before);
    });
  }

  it('what is replaced stays where there is no room for the new, and is replaced where there is', async () => {
    const old = path.join(disk, 'a.order-list.md');
    writeFileSync(old, 'old');
    const full = fillWithBytes(disk);
    const args = ['order', 'a.planish', '--to', 'md', '--force'];
    const { code, err } = await planish(...args);
    assert.deepEqual([code, readFileSync(old, 'utf8')], [2, 'old'], err);
    rmSync(full);
    assert.equal((await planish(...args)).code, 0);
    assert.match(readFileSync(old, 'utf8'), /^# Badge/);
    assert.equal((await planish('format', 'a.planish')).code, 0);
    assert.notEqual(spec(), UNTIDY);
  });

  it('of several files that do not all have room none is written', async () => {
    const full = fillWithBytes(disk);
    // Room for the first of the two, which is two pages long at least.
    writeFileSync(full, Buffer.alloc(readFileSync(full).length - 4096 * 4));
    const before = files();
    const { code, err } = await planish('patterns', 'a.planish', '--to', 'pdf', '-o', 'cut/');
    assert.equal(code, 2, err);
    assert.match(err, /the disk is full/);
    assert.deepEqual(files(), before);
  });
});

/** Why no such disk can be had; nothing where it has been put there. */
function whyNoDisk(folder: string): string | undefined {
  if (process.platform !== 'linux') return 'a small disk in memory is made on Linux only';
  if (process.getuid?.() !== 0) return 'only root may mount one';
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=64k,nr_inodes=24', 'tmpfs', folder], { stdio: 'pipe' });
    return undefined;
  } catch (error) {
    return `it cannot be mounted: ${String((error as { stderr?: unknown }).stderr ?? error).trim()}`;
  }
}

/** The file that takes all room. */
function fillWithBytes(disk: string): string {
  const file = path.join(disk, 'full');
  // Page by page, since what does not fit as a whole is not written at all.
  for (const page = Buffer.alloc(4096); ; )
    try {
      writeFileSync(file, page, { flag: 'a' });
    } catch {
      return file;
    }
}

function fillWithNames(disk: string): void {
  for (let i = 0; ; i++)
    try {
      writeFileSync(path.join(disk, `name${i}`), '');
    } catch {
      return;
    }
}
