/*
 * How fast a spec is read: fresh, and again after one character has changed. By hand: tsx test/bench/parse.ts
 * The grammar is bundled first, as it is shipped: tsx names every function anew at run time, which costs a third.
 * What changes is in the middle of the text, and each edit differs from the last, so that nothing is taken from a cache.
 */
import fs from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { parseBlocks } from './peers/bare-chevrotain.ts';
import { blocks } from './peers/records.ts';
import { print, type Row } from './peers/rows.ts';

const spec = fs.readFileSync(new URL('../grammar/specs/kettle-hat.planish', import.meta.url), 'utf8');

/** A spec of so many lines, its names made different in every copy. */
export function specOf(lines: number): string {
  const out: string[] = [];
  for (let copy = 0; out.length < lines; copy++)
    out.push(...spec.replace(/^(piece|seam|material|rivet|finish) ([\w-]+)/gm, `$1 $2-${copy}`).split('\n'));
  return `${out.slice(0, lines).join('\n')}\n`;
}

function timesOf(count: number, run: (i: number) => void): { median: number; p95: number } {
  for (let i = 0; i < Math.min(10, count); i++) run(-1 - i);
  const times: number[] = [];
  for (let i = 0; i < count; i++) {
    const start = performance.now();
    run(i);
    times.push(performance.now() - start);
  }
  times.sort((a, b) => a - b);
  return { median: times[count >> 1]!, p95: times[Math.floor(count * 0.95)]! };
}

const ms = (value: number) => value.toFixed(value < 1 ? 3 : 1);

if (process.argv[1]?.endsWith('parse.ts')) await main();

interface Grammar {
  readSpec: typeof import('../../grammar/reader.ts').readSpec;
  formatEdits: typeof import('../../grammar/printer.ts').formatEdits;
}

async function bundledGrammar(): Promise<Grammar> {
  const outfile = fileURLToPath(new URL('../../dist/bench/grammar.mjs', import.meta.url));
  await build({
    stdin: {
      contents: `export { readSpec } from './grammar/reader.ts'; export { formatEdits } from './grammar/printer.ts';`,
      resolveDir: fileURLToPath(new URL('../..', import.meta.url)),
    },
    bundle: true,
    format: 'esm',
    platform: 'node',
    minify: true,
    outfile,
  });
  return (await import(pathToFileURL(outfile).href)) as Grammar;
}

async function main(): Promise<void> {
  const { readSpec, formatEdits } = await bundledGrammar();
  const all: Row[] = [];
  if (!process.argv.includes('--json'))
    console.log('| lines | what | median ms | p95 ms | lines/s | MB/s |\n|---|---|---|---|---|---|');
  for (const lines of [1000, 2000, 10_000]) {
    const text = specOf(lines);
    const rows: [string, { median: number; p95: number }][] = [];
    rows.push(['fresh', timesOf(lines > 5000 ? 30 : 60, () => readSpec(text))]);
    const middle = text.indexOf(' mm', text.length >> 1);
    let previous = readSpec(text);
    rows.push([
      'one character typed',
      timesOf(200, (i) => {
        previous = readSpec(`${text.slice(0, middle)}${Math.abs(i) % 10}${text.slice(middle)}`, previous);
      }),
    ]);
    const parsed = readSpec(text);
    const plain = blocks(lines);
    rows.push(['format, tree at hand', timesOf(20, () => formatEdits(text, undefined, parsed))]);
    rows.push(['bare chevrotain, its own little language', timesOf(lines > 5000 ? 30 : 60, () => parseBlocks(plain))]);
    for (const [what, { median, p95 }] of rows) {
      if (process.argv.includes('--json')) {
        all.push({ server: 'planish', what, lines, median, p95, unit: 'ms' });
        continue;
      }
      const rate = Math.round((lines / median) * 1000).toLocaleString('en');
      console.log(
        `| ${lines} | ${what} | ${ms(median)} | ${ms(p95)} | ${rate} | ${((what.startsWith('bare') ? plain : text).length / median / 1000).toFixed(1)} |`,
      );
    }
  }
  if (all.length) print(all);
}
