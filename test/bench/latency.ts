/*
 * How long an editor waits: over standard input and output, from the sending of a change to the diagnostics of that
 * very version, settling time and all; hovers, completions, outline and colours of the newest text.
 *   tsx test/bench/latency.ts [--json] [--lines 2000] [--cpu-prof]
 * The server is bundled first, as it is shipped.
 */
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { build } from 'esbuild';
import { Client } from '../editor/stdio.ts';

const root = path.resolve(import.meta.dirname, '../..');

export interface Row {
  readonly server: 'planish';
  readonly what: string;
  readonly lines: number;
  readonly median: number;
  readonly p95: number;
  readonly unit: 'ms';
}

/** A spec of so many lines as a large build has them: stock, then group after group of plates, seams and a finish. */
export function longSpec(lines: number): string {
  const out = STOCK.split('\n');
  for (let group = 1; ; group++) {
    const next = groupOf(group).split('\n');
    if (out.length + next.length > lines) break;
    out.push(...next);
  }
  while (out.length < lines) out.push('# To be looked at with the next build.');
  return `${out.join('\n')}\n`;
}

const STOCK = `planish 1

build "Company of the long gate"
  for "a stage production"
  duty display
  make 2

shop bench
  gauges US
  heat torch

wearer guard
  head round 585 mm
  upper arm round 340 mm

material plate
  mild steel 16 ga
  sheet 1220 x 2440 mm

material thin-plate
  mild steel 18 ga
  sheet 1220 x 2440 mm

material edge-wire
  mild steel wire 1/8 in

material leather
  veg-tan leather 7 oz
  hide 2.2 m2

rivet small
  mild steel 1/8 x 5/16 in, domed

rivet long
  mild steel 1/8 x 1/2 in, domed
  washer 10 x 0.8 mm

let ease = 6 mm
`;

const groupOf = (n: number): string => `
let arm-round-${n} = guard.upper-arm-round + 2 * pi * (10 mm + ease)

## Dished over the stump, planished on the mushroom stake.
piece cop-${n}
  from plate
  make 2
  dome 150 mm, deep 45 mm
  dish
  planish
  edge rim rolled over edge-wire, outward
  holes liner-${n} 6 of 3/16 in, along rim, inset 20 mm

piece cuff-${n}
  from thin-plate
  make 2, mirrored
  cylinder round arm-round-${n}, high 120 mm, wrap 300 deg
  edge top rolled over edge-wire, outward
  edge bottom hemmed 6 mm

piece band-${n}
  from plate
  strip 300 x 40 mm

piece tab-${n}
  from leather
  make 4
  plate 120 x 40 mm

## The band lies outside.
seam band-line-${n}
  joins band-${n}, cuff-${n}
  along band-${n}.bottom
  rivets small, every 25 mm, inset 10 mm, peened domed

seam tab-line-${n}
  joins cuff-${n}, tab-${n}
  along tab-${n}.left
  rivets long, count 2, inset 10 mm, peened domed, washer inside

finish bright-${n}
  on cop-${n} outside, cuff-${n} outside, band-${n}
  grind 80 grit
  sand 120, 180, 240 grit
  wax
`;

interface Options {
  readonly lines?: readonly number[];
  readonly profile?: boolean;
  readonly rounds?: number;
}

export async function latency({ lines = [1000, 2000, 10_000], profile, rounds = 60 }: Options = {}): Promise<Row[]> {
  const program = path.join(root, 'dist/bench/server.cjs');
  mkdirSync(path.dirname(program), { recursive: true });
  await build({
    entryPoints: [path.join(root, 'server/main.ts')],
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    mainFields: ['module', 'main'],
    minify: !profile,
    keepNames: process.env['KEEP'] === '1',
    outfile: program,
    logLevel: 'error',
  });
  const rows: Row[] = [];
  for (const count of lines) {
    const node = profile ? ['--cpu-prof', `--cpu-prof-dir=${path.dirname(program)}`] : [];
    const client = await Client.start({ program, node });
    rows.push(...(await measure(client, count, rounds)));
    await client.stop();
  }
  return rows;
}

async function measure(client: Client, lines: number, rounds: number): Promise<Row[]> {
  const rows: Row[] = [];
  const text = longSpec(lines);
  const uri = `file:///bench/long-${lines}.planish`;
  const document = { textDocument: { uri } };
  const at = (needle: string, from: number) => {
    const before = text.slice(0, text.indexOf(needle, from)).split('\n');
    return { line: before.length - 1, character: before[before.length - 1]!.length };
  };
  const opened = performance.now();
  await client.open(uri, text);
  await client.diagnosticsOf(uri);
  rows.push({
    server: 'planish',
    what: 'open',
    lines,
    median: performance.now() - opened,
    p95: Number.NaN,
    unit: 'ms',
  });

  const record = async (what: string, run: (i: number) => Promise<void>, count = rounds) => {
    for (let i = 0; i < 6; i++) await run(i);
    const times: number[] = [];
    for (let i = 0; i < count; i++) {
      const start = performance.now();
      await run(i);
      times.push(performance.now() - start);
    }
    times.sort((a, b) => a - b);
    rows.push({
      server: 'planish',
      what,
      lines,
      median: times[times.length >> 1]!,
      p95: times[Math.floor(times.length * 0.95)]!,
      unit: 'ms',
    });
  };
  const edit = async (position: { line: number; character: number }, letters: string) => {
    const end = { line: position.line, character: position.character + letters.length };
    let there = false;
    return async () => {
      await (there
        ? client.change(uri, { start: position, end }, '')
        : client.change(uri, { start: position, end: position }, letters));
      there = !there;
      await client.diagnosticsOf(uri);
    };
  };
  const middle = text.length >> 1;
  await record('diagnostics', await edit(at('deep 45 mm', middle), 'x'));
  // Everything cut from this plate is worked out again.
  await record('diagnostics after an edit of the stock', await edit(at('6 ga', 0), '0'));
  const place = at('rivets small', middle);
  await record('hover', async () => {
    await client.request('textDocument/hover', { ...document, position: place });
  });
  await record('completion', async () => {
    await client.request('textDocument/completion', { ...document, position: place });
  });
  // An editor asks for these after every change: the text is another one each time.
  const typed = at('deep 45 mm', middle);
  const afterEdit = (method: string, params: object) => async (i: number) => {
    const end = { ...typed, character: typed.character + 1 };
    await (i % 2
      ? client.change(uri, { start: typed, end }, '')
      : client.change(uri, { start: typed, end: typed }, 'x'));
    await client.request(method, { ...document, ...params });
  };
  await record('hover after an edit', afterEdit('textDocument/hover', { position: place }));
  await record('completion after an edit', afterEdit('textDocument/completion', { position: place }));
  await record('symbols after an edit', afterEdit('textDocument/documentSymbol', {}));
  const range = { start: { line: place.line, character: 0 }, end: { line: place.line + 60, character: 0 } };
  await record('semantic tokens after an edit', afterEdit('textDocument/semanticTokens/full', {}));
  await record('inlay hints after an edit', afterEdit('textDocument/inlayHint', { range }));
  return rows;
}

if (process.argv[1]?.endsWith('latency.ts')) {
  const asked = process.argv.indexOf('--lines');
  const rows = await latency({
    ...(asked > 0 ? { lines: process.argv[asked + 1]!.split(',').map(Number) } : {}),
    profile: process.argv.includes('--cpu-prof'),
  });
  if (process.argv.includes('--json')) console.log(JSON.stringify(rows, undefined, 2));
  else {
    console.log('| lines | what | median ms | p95 ms |\n|---|---|---|---|');
    for (const { lines, what, median, p95 } of rows)
      console.log(`| ${lines} | ${what} | ${median.toFixed(1)} | ${Number.isNaN(p95) ? '–' : p95.toFixed(1)} |`);
  }
}
