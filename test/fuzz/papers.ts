import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parse as parseCsv } from 'csv-parse/sync';
import DxfParser from 'dxf-parser';
import fc from 'fast-check';
import { parse as parseHtml } from 'parse5';
import { SaxesParser } from 'saxes';
import { readOf } from '../../server/editor/features/exports.ts';
import { type View, Workspace } from '../../server/editor/workspace/workspace.ts';
import { atOnce } from '../../server/incremental/steps.ts';
import { explainInSteps } from '../../server/output/documents/explain.ts';
import { exports } from '../../server/output/exports.ts';
import type { Written } from '../../server/output/writers/papers.ts';
import { editedSpec, randomSpec } from '../grammar/support.ts';
import { indented, SHAPES, STOCK } from '../hostile/specs.ts';

/*
 * Random builds through every paper in every format, each read back by a reader that is not ours: what is written can be read, says
 * the title that it was given, and holds no number that is none.
 */

const { resolve } = createRequire(import.meta.url);
const face = (file: string) => new Uint8Array(readFileSync(resolve(`@expo-google-fonts/noto-sans/${file}`)));
const fonts = { regular: face('400Regular/NotoSans_400Regular.ttf'), bold: face('700Bold/NotoSans_700Bold.ttf') };

const uri = 'file:///build/spec.planish';
const DATE = '2027-03-01';
/** A PDF takes as long as all else together. */
const PDF_EVERY = 8;

// ---- what is written about -----------------------------------------------------------------------------------------

/** Words that mean something to one format or another. */
const word = fc.constantFrom(
  'brow',
  '=1+1',
  '@sum(a1)',
  '<script>alert(1)</script>',
  '&amp;',
  "'",
  '|',
  '`x`',
  '[a](b)',
  '%%d',
  '\\P',
  ';-2',
  '\t',
  '\u001b[31m',
  '\u202e',
  'ß鎧😀',
  '\ud800',
  ']]>',
  '--',
  '\u0000',
  'EOF',
  'https://example.org',
);
const words = fc.array(word, { maxLength: 6 }).map((parts) => parts.join(' '));
/** How much larger or smaller a measure comes out: mostly a little, seldom far out. */
const factor = fc.oneof(
  { weight: 12, arbitrary: fc.double({ min: 0.6, max: 1.6, noNaN: true }) },
  { weight: 1, arbitrary: fc.constantFrom(0, 0.01, 20, 1000, 1e6, 1e40) },
);

const shape = fc
  .tuple(fc.constantFrom(...Object.values(SHAPES)), fc.array(factor, { minLength: 24, maxLength: 24 }))
  .map(([lines, factors]) => {
    let i = 0;
    return lines.map((line) =>
      line.replace(/\d+/g, (number) => {
        const made = Number(number) * factors[i++ % factors.length]!;
        return made > 1e15
          ? `1${'0'.repeat(Math.round(Math.log10(made)))}`
          : String(Number(made.toFixed(Number(number) < 25 ? 0 : 4)));
      }),
    );
  });

const build = fc
  .record({
    title: words,
    note: words,
    units: fc.constantFrom('mm', 'in'),
    make: fc.constantFrom(1, 2, 7),
    shapes: fc.array(shape, { minLength: 1, maxLength: 4 }),
    every: fc.integer({ min: 5, max: 60 }),
  })
  .map(({ title, note, units, make, shapes, every }) => {
    const said = title.replaceAll(/["\\\n]/g, '');
    const head = STOCK.replace('Hostile', said).replace('duty stage', `duty stage\n  units ${units}\n  make ${make}`);
    const pieces = shapes.map(
      (lines, i) => `## ${note}\npiece p${i}\n  from plate\n${indented(lines.map((line) => line))}\n`,
    );
    const seam =
      shapes.length > 1
        ? `seam s\n  joins p0, p1\n  along p0.${shapes[0]!.join().includes('dome') ? 'rim' : 'top'}\n  rivets small, every ${every} mm, inset 8 mm\n`
        : '';
    return head + pieces.join('') + seam;
  });

const specs = fc.oneof(
  { weight: 8, arbitrary: build },
  { weight: 1, arbitrary: editedSpec },
  { weight: 1, arbitrary: randomSpec },
);

// ---- writing and reading back --------------------------------------------------------------------------------------

export interface PapersRun {
  readonly runs: number;
  readonly seed: number;
}

/** @returns how many papers were read back, by their format. */
export async function fuzzPapers({ runs, seed }: PapersRun): Promise<ReadonlyMap<string, number>> {
  const counts = new Map<string, number>();
  const read = (what: string) => counts.set(what, (counts.get(what) ?? 0) + 1);
  await fc.assert(
    fc.asyncProperty(specs, fc.noBias(fc.nat(PDF_EVERY - 1)), async (text, turn) => {
      const workspace = new Workspace({ mayRead: () => true, read: () => null });
      workspace.open(uri, 1, text);
      await eachPaper(workspace.view(uri)!, turn === 0, read);
    }),
    { numRuns: runs, seed, endOnFailure: true },
  );
  return counts;
}

async function eachPaper(view: View, withPdf: boolean, read: (what: string) => void): Promise<void> {
  const check = (what: string, { text, bytes }: Written) => {
    readBack[what]!(text ?? '', bytes);
    read(what);
  };
  const explained = atOnce(explainInSteps(view.model, { file: uri, problems: view.problems() }));
  readBack['json']!(JSON.stringify(explained), undefined);
  const wanted = (to: string) => to !== 'pdf' || withPdf;
  for (const row of exports) {
    const made = atOnce(readOf(row, view, { date: DATE, kerf: !row.whole }));
    for (const to of row.formats.filter(wanted)) {
      const ask = { to, fonts, run: atOnce };
      if (row.whole) check(to, await row.whole(made, ask));
      else for (const part of row.parts?.(made).slice(0, 2) ?? []) check(to, await part.write(ask));
    }
  }
}

/** What no number of a paper looks like. */
const NO_NUMBER = /\bNaN\b|\bInfinity\b|\bundefined\b|\de\+\d/;

function noNumber(text: string): void {
  const found = NO_NUMBER.exec(text);
  if (found) assert.fail(`a number that is none: …${text.slice(Math.max(0, found.index - 200), found.index + 60)}…`);
}

const readBack: Readonly<Record<string, (text: string, bytes: Uint8Array | undefined) => void>> = {
  json: (text) => {
    JSON.parse(text);
    noNumber(text);
    const none = /:null|\[null|,null/.exec(text);
    if (none) assert.fail(`null: …${text.slice(Math.max(0, none.index - 200), none.index + 60)}…`);
  },
  csv: (text) => {
    // Strict: every row as wide as the first, no quote out of place.
    const rows = parseCsv(text, { bom: true }) as string[][];
    assert.ok(rows.length > 0);
    for (const cell of rows.flat()) {
      noNumber(cell);
      assert.ok(!/^\s*[=+@-]/.test(cell) || Number.isFinite(Number(cell)), `a spreadsheet runs “${cell}”`);
    }
  },
  md: (text) => {
    assert.ok(text.trim());
    noNumber(text);
    assert.doesNotMatch(text, /<script/i);
  },
  html: (text) => {
    const wrong: string[] = [];
    const document = parseHtml(text, { onParseError: ({ code }) => wrong.push(code) });
    assert.deepEqual(wrong, []);
    for (const { nodeName, attrs } of elementsOf(document)) {
      assert.ok(!['script', 'iframe', 'object', 'embed', 'link', 'base'].includes(nodeName), nodeName);
      assert.ok(!attrs?.some(({ name }) => name.startsWith('on')), nodeName);
    }
    noNumber(text);
  },
  svg: (text) => {
    const parser = new SaxesParser({ xmlns: true });
    parser.on('error', (error) => {
      throw error;
    });
    let count = 0;
    parser.on('opentag', ({ name, attributes }) => {
      count++;
      assert.ok(!['script', 'foreignObject', 'image'].includes(name), name);
      for (const [key, { value }] of Object.entries(attributes)) {
        assert.ok(!key.startsWith('on'), key);
        if (key !== 'id' && !key.startsWith('data-')) noNumber(value);
      }
    });
    parser.write(text).close();
    assert.ok(count > 0);
  },
  dxf: (text) => {
    const drawing = new DxfParser().parseSync(text);
    assert.ok(drawing);
    assert.doesNotMatch(JSON.stringify(drawing.entities), /:null/, 'a place that is none');
    noNumber(text);
  },
  pdf: (_, bytes) => {
    const folder = mkdtempSync(path.join(tmpdir(), 'planish-papers-'));
    try {
      const file = path.join(folder, 'a.pdf');
      writeFileSync(file, bytes!);
      const said = execFileSync('pdfinfo', [file], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
      assert.match(said, /^Pages: +[1-9]/m);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
};

interface Node {
  readonly nodeName: string;
  readonly attrs?: readonly { readonly name: string }[];
  readonly childNodes?: readonly Node[];
}

function* elementsOf(node: Node): Generator<Node> {
  yield node;
  for (const child of node.childNodes ?? []) yield* elementsOf(child);
}
