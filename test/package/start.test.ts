import assert from 'node:assert/strict';
import { execFileSync, spawnSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const dist = fileURLToPath(new URL('../../dist/', import.meta.url));

const PROGRAMS = [
  ...['start.cjs', 'cli.cjs', 'server.cjs', 'planish.cjs', 'pdf.js'],
  ...['NotoSans-Regular.ttf', 'NotoSans-Bold.ttf'],
];

describe('the start of the programs', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'planish-start-'));
  const kept = path.join(folder, '.cache');
  after(() => rmSync(folder, { recursive: true, force: true }));
  before(() => {
    // npm test has built already; alone, this test looks after itself.
    if (!existsSync(path.join(dist, 'start.cjs')))
      execFileSync(process.execPath, ['.scripts/bundle.mjs'], { cwd: path.dirname(dist) });
    mkdirSync(path.join(folder, 'dist'));
    for (const file of PROGRAMS) copyFileSync(path.join(dist, file), path.join(folder, 'dist', file));
  });
  const run = () => {
    const { status, stdout, stderr } = spawnSync(process.execPath, [path.join(folder, 'dist/cli.cjs'), '--version'], {
      encoding: 'utf8',
    });
    assert.equal(status, 0, stderr);
    assert.match(stdout, /^\d+\.\d+\.\d+/);
  };
  const files = () => readdirSync(kept).filter((name) => name.endsWith('.bin'));

  it('keeps what V8 has made of the program, for the next start', () => {
    run();
    const [file, ...others] = files();
    assert.match(file!, /^cli-/);
    assert.deepEqual(others, []);
    const { size, mtimeMs } = statSync(path.join(kept, file!));
    assert.ok(size > 100_000);
    run();
    assert.equal(statSync(path.join(kept, file!)).mtimeMs, mtimeMs, 'it was taken as it is');
  });

  it('compiles it anew where what is kept is spoilt', () => {
    const file = path.join(kept, files()[0]!);
    writeFileSync(file, 'not what V8 made');
    run();
    assert.ok(statSync(file).size > 100_000);
  });

  it('keeps one of each program alone, that of its newest file', () => {
    const old = files()[0]!;
    const program = path.join(folder, 'dist/planish.cjs');
    writeFileSync(program, `${readFileSync(program, 'utf8')}\n`);
    run();
    assert.equal(files().length, 1);
    assert.notEqual(files()[0], old);
  });

  it('loads the PDF writer later on, and says nothing of its own', () => {
    const spec = path.join(folder, 'a.planish');
    writeFileSync(spec, 'material plate\n  mild steel 1 mm\npiece tab\n  from plate\n  plate 60 x 40 mm\n');
    const args = [path.join(folder, 'dist/cli.cjs'), 'cutlist', spec, '--to', 'pdf', '-o', '-'];
    for (const { status, stdout, stderr } of [1, 2].map(() => spawnSync(process.execPath, args))) {
      assert.equal(status, 0, stderr.toString());
      assert.equal(stdout.subarray(0, 5).toString(), '%PDF-');
      assert.doesNotMatch(stderr.toString(), /warning/i);
    }
  });

  it('does without where nothing can be written', () => {
    rmSync(kept, { recursive: true });
    writeFileSync(kept, 'a file in the place of the folder');
    run();
    assert.ok(statSync(kept).isFile());
  });
});
