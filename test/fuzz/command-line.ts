import assert from 'node:assert/strict';
import {
  chmodSync,
  existsSync,
  linkSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import fc from 'fast-check';
import { commands } from '../../server/cli/commands/all.ts';
import { inside } from '../cli/support.ts';
import { editedSpec, randomSpec, soup } from '../grammar/support.ts';

/*
 * Random lines as one types them, over random trees of files with odd names, within this process. Whatever is typed, it ends with 0, 1
 * or 2 and in words; what was read stays as it is, and nothing is written but where it was asked for.
 */

const STOCK = 'material plate\n  mild steel 1.5 mm\n  sheet 1000 x 2000 mm\n';
const SVG =
  '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40"><path d="M5 5H55V35H5Z"/></svg>';

const NAMES = [
  'a.planish',
  'b.planish',
  'deep/a.planish',
  '..foo/stock.planish',
  'stock.planish',
  'badge.svg',
  'a.badge.svg',
  'a.cut-list.md',
  'a.patterns.svg',
  'with blank.planish',
  '-o.planish',
  'Ärmel鎧😀.planish',
  'a\u001b[31m\u009b.planish',
  'line\nbreak.planish',
  '\u202egpj.planish',
  `${'x'.repeat(247)}.planish`,
  '.hidden/a.planish',
  'no ending',
];

const name = fc.constantFrom(...NAMES);
const linked = (used: string, drawn: string, piece: string): string =>
  [
    `use "${used}"\n\n${STOCK}`,
    `piece ${piece}\n  from plate\n  plate 300 x 40 mm\n`,
    `piece drawn\n  from plate\n  outline "${drawn}"\n`,
  ].join('\n');
/** What a spec uses is written by these alone, so that it is known here as well. */
const unlinked = (text: string): string => text.replaceAll(/"|“|”/g, '');

const content = fc.oneof(
  { weight: 3, arbitrary: fc.constant(STOCK) },
  {
    weight: 6,
    arbitrary: fc
      .tuple(name, name, fc.constantFrom('brow', 'badge', `brow${'x'.repeat(300)}`))
      .map(([used, drawn, piece]) => linked(used, drawn, piece)),
  },
  { weight: 2, arbitrary: fc.constant(SVG) },
  { weight: 2, arbitrary: soup.map(unlinked) },
  { weight: 1, arbitrary: fc.oneof(randomSpec, editedSpec).map(unlinked) },
  { weight: 1, arbitrary: fc.uint8Array({ maxLength: 60 }).map((bytes) => Buffer.from(bytes)) },
  { weight: 1, arbitrary: fc.constant('   material plate\n         mild steel 1.5 mm\n') },
);

type Thing =
  | { readonly kind: 'file'; readonly content: string | Uint8Array; readonly readOnly: boolean }
  | { readonly kind: 'link'; readonly to: string }
  | { readonly kind: 'second name'; readonly to: string }
  | { readonly kind: 'folder' };

const thing: fc.Arbitrary<Thing> = fc.oneof(
  {
    weight: 8,
    arbitrary: fc.record({
      kind: fc.constant('file' as const),
      content,
      readOnly: fc.constantFrom(false, false, true),
    }),
  },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('link' as const), to: name }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('second name' as const), to: name }) },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('link' as const),
      to: fc.constantFrom('../outside/kept.planish', '.', 'nowhere'),
    }),
  },
  { weight: 1, arbitrary: fc.constant({ kind: 'folder' as const }) },
);

const tree = fc
  .tuple(
    fc.dictionary(name, thing, { maxKeys: 7 }),
    fc.tuple(fc.constantFrom('stock.planish', 'b.planish'), fc.constantFrom('badge.svg', 'a.badge.svg')),
  )
  .map(([things, [used, drawn]]) => ({
    'badge.svg': { kind: 'file' as const, content: SVG, readOnly: false },
    'a.planish': { kind: 'file' as const, content: linked(used, drawn, 'brow'), readOnly: false },
    ...things,
  }));

const target = fc.oneof(
  { weight: 4, arbitrary: name },
  {
    weight: 3,
    arbitrary: fc.constantFrom(
      '-',
      'new.md',
      'out/',
      'deep',
      '.',
      '/dev/null',
      'not/there.md',
      `${'y'.repeat(300)}.md`,
    ),
  },
);
const values: Readonly<Record<string, fc.Arbitrary<string>>> = {
  output: target,
  root: fc.constantFrom('.', 'deep', 'nowhere'),
  date: fc.constantFrom('2027-03-01', '2027-02-30', 'today'),
  piece: fc.constantFrom('brow', 'drawn', 'borw', '\u001b[0m'),
};

/** An option of a command, mostly as it is to be. */
const optionsOf = (command: string): fc.Arbitrary<string[]> => {
  const all = Object.entries(commands.find((each) => each.name === command)?.options ?? {});
  // Most that is typed says what to write, and many where.
  const one = all.map(([option, { value, choices }]) => {
    if (!value) return fc.constant([`--${option}`]);
    const said = choices
      ? fc.constantFrom(...choices.filter((each) => each !== 'pdf'), 'nothing')
      : (values[option] ?? name);
    return said.map((each) => [`--${option}`, each]);
  });
  return one.length
    ? fc.uniqueArray(fc.oneof(...one), { selector: ([option]) => option, maxLength: 5 }).map((some) => some.flat())
    : fc.constant([]);
};

const line = fc
  .oneof(
    { weight: 30, arbitrary: fc.constantFrom(...commands.map((each) => each.name).filter((each) => each !== 'serve')) },
    { weight: 1, arbitrary: fc.oneof(name, fc.constantFrom('--help', '--version', 'chekc', '')) },
  )
  .chain((command) =>
    fc.tuple(
      fc.constant([command]),
      fc.array(
        fc.oneof(
          { weight: 8, arbitrary: fc.constant('a.planish') },
          { weight: 8, arbitrary: name },
          { weight: 2, arbitrary: fc.constantFrom('.', '-', 'brow', 'drawn', 'nowhere') },
        ),
        {
          maxLength: 2,
        },
      ),
      optionsOf(command),
      fc.oneof(
        { weight: 12, arbitrary: fc.constant([]) },
        { weight: 1, arbitrary: fc.constantFrom(['--'], ['--nothing'], ['-x'], ['--force=1']) },
      ),
    ),
  )
  .map((parts) => parts.flat());

const input = fc.oneof(fc.constant(STOCK), soup);

export interface CommandLineRun {
  readonly runs: number;
  readonly seed?: number;
}

/** @returns how many lines were typed, by the code that each ended with. */
export async function fuzzCommandLine({ runs, seed }: CommandLineRun): Promise<ReadonlyMap<number, number>> {
  const ended = new Map<number, number>();
  await fc.assert(
    fc.asyncProperty(tree, fc.array(line, { minLength: 1, maxLength: 3 }), input, async (things, lines, typed) => {
      const outer = mkdtempSync(path.join(tmpdir(), 'planish-fuzz-'));
      try {
        const folder = path.join(outer, 'work');
        mkdirSync(path.join(outer, 'outside'));
        writeFileSync(path.join(outer, 'outside/kept.planish'), STOCK);
        mkdirSync(folder);
        grow(folder, things);
        for (const args of lines) {
          const code = await typedRight(outer, folder, args, typed);
          ended.set(code, (ended.get(code) ?? 0) + 1);
        }
      } finally {
        rmSync(outer, { recursive: true, force: true });
      }
    }),
    { numRuns: runs, ...(seed === undefined ? {} : { seed }) },
  );
  return ended;
}

function grow(folder: string, things: Readonly<Record<string, Thing>>): void {
  for (const [at, each] of Object.entries(things)) {
    const file = path.join(folder, at);
    try {
      mkdirSync(path.dirname(file), { recursive: true });
      if (each.kind === 'folder') mkdirSync(file);
      else if (each.kind === 'link') symlinkSync(each.to, file);
      else if (each.kind === 'second name') linkSync(path.join(folder, each.to), file);
      else {
        writeFileSync(file, each.content);
        if (each.readOnly) chmodSync(file, 0o444);
      }
    } catch {
      // What cannot be made there, such as a second name for what is not there, is left out.
    }
  }
}

async function typedRight(outer: string, folder: string, args: readonly string[], typed: string): Promise<number> {
  const before = looked(outer);
  const read = readBy(folder, args);
  const { code, out, err } = await inside(args, folder, typed);
  const after = looked(outer);
  const what = `planish ${args.map((each) => JSON.stringify(each)).join(' ')}\n${out.slice(0, 500)}\n${err}`;
  assert.ok(code === 0 || code === 1 || code === 2, what);
  assert.doesNotMatch(out + err, /something broke in Planish|\n\s+at .*:\d+:\d+\)?$/m, what);
  assert.doesNotMatch(out + err, STEERING, what);
  assert.ok(code !== 2 || err !== '' || args.length < 2, `2 without a word: ${what}`);
  assert.deepEqual(
    [...after.keys()].filter((file) => file.endsWith('.part')),
    [],
    what,
  );
  const isLaidOut = args[0] === 'format' && !args.includes('--check');
  for (const [file, was] of before) {
    const now = after.get(file);
    assert.ok(now !== undefined, `${file} is gone: ${what}`);
    if (now === was) continue;
    if (isLaidOut) assert.match(file, /^work\//, what);
    else {
      assert.ok(args.includes('--force'), `${file} was replaced unasked: ${what}`);
      assert.ok(!read.has(file), `${file} was read and replaced: ${what}`);
    }
  }
  const come = [...after.keys()].filter((file) => !before.has(file));
  assert.ok(
    come.every((file) => mayCome(file, args)),
    `${come.join()} came: ${what}`,
  );
  return code!;
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not come.
const STEERING = /(?!\n)[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/;

/** Every file and link below, by its path from there, with what it holds. */
function looked(outer: string): Map<string, string> {
  const found = new Map<string, string>();
  // Links to folders are not gone into: one may lead round and round.
  const look = (at: string) => {
    for (const entry of readdirSync(path.join(outer, at), { withFileTypes: true })) {
      const here = path.join(at, entry.name);
      const file = path.join(outer, here);
      if (entry.isDirectory()) look(here);
      else if (entry.isSymbolicLink()) found.set(here, `link to ${readlinkSync(file)}`);
      else found.set(here, `${lstatSync(file).mode} ${readFileSync(file).toString('base64')}`);
    }
  };
  look('');
  return found;
}

/** The specs that are named and what they use, by the files themselves: only those of which it is sure that they are read. */
function readBy(folder: string, args: readonly string[]): Set<string> {
  const [command, ...rest] = args;
  const found = new Set<string>();
  const drawings: string[] = [];
  const besides = (at: string, other: string) => path.join(path.dirname(at), other);
  if (rest.includes('--root') || command === 'format' || command === 'new') return found;
  const take = (at: string, isSpec = true) => {
    const file = whereIs(path.join(folder, at));
    if (file === undefined || !file.startsWith(`${realpathSync(folder)}${path.sep}`)) return;
    const key = path.relative(path.dirname(realpathSync(folder)), file);
    if (found.has(key)) return;
    found.add(key);
    if (!isSpec || !isText(file)) return;
    const text = readFileSync(file, 'utf8');
    if (found.size === 1)
      for (const [, drawn] of text.matchAll(/^ {2}outline "([^"]+)"$/gm)) drawings.push(besides(at, drawn!));
    // A used file is read as a spec whatever it is called; a drawing uses nothing.
    for (const [, used] of text.matchAll(/^use "([^"]+)"$/gm)) take(besides(at, used!));
  };
  const values = new Set([
    '-o',
    '--output',
    '--to',
    '--format',
    '--severity',
    '--date',
    '--paper',
    '--piece',
    '--from',
  ]);
  const named = rest.filter((each, i) => !each.startsWith('-') && !values.has(rest[i - 1] ?? ''));
  if (named[0] !== undefined) take(named[0]);
  for (const each of drawings) take(each, false);
  return found;
}

function whereIs(file: string): string | undefined {
  try {
    const real = realpathSync(file);
    return lstatSync(real).isFile() ? real : undefined;
  } catch {
    return undefined;
  }
}

function isText(file: string): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(file));
    return existsSync(file);
  } catch {
    return false;
  }
}

/** New files come where -o says, or beside the spec, or in the folder of a new build. */
function mayCome(file: string, args: readonly string[]): boolean {
  if (!file.startsWith('work/')) return false;
  if (args[0] === 'new') return true;
  // `-o.planish` is -o with its value.
  if (args.some((each) => /^-o./.test(each))) return true;
  const at = args.indexOf('--output');
  if (at < 0) return /\.(?:md|csv|json|html|svg|dxf)$/.test(file);
  return args[at + 1] !== '-' && args[at + 1] !== '/dev/null';
}
