// What a benchmark gives: rows, as a table or as JSON.

export interface Row {
  readonly server: string;
  readonly what: string;
  readonly lines: number;
  readonly median: number;
  readonly p95: number;
  readonly unit: 'ms' | 'MB' | 'MB/s' | 'memos';
}

export function rowOf(
  server: string,
  what: string,
  lines: number,
  values: readonly number[],
  unit: Row['unit'] = 'ms',
): Row {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
  return { server, what, lines, median: round(at(0.5)), p95: round(at(0.95)), unit };
}

const round = (value: number): number => Number(value.toPrecision(3));

export function print(rows: readonly Row[]): void {
  if (process.argv.includes('--json')) {
    console.log(JSON.stringify(rows, undefined, 2));
    return;
  }
  console.log('| what | lines | server | median | p95 | beside JSON |\n|---|---|---|---|---|---|');
  for (const { what, lines, server, median, p95, unit } of rows) {
    const json = rows.find((row) => row.server === 'json' && row.what === what && row.lines === lines);
    const beside = json && server !== 'json' ? `× ${(median / json.median).toFixed(2)}` : '';
    console.log(`| ${what} | ${lines} | ${server} | ${median} ${unit} | ${p95} | ${beside} |`);
  }
}

/** `--lines 1000,10000` */
export function linesAsked(usual: readonly number[]): readonly number[] {
  const at = process.argv.indexOf('--lines');
  return at > 0 ? process.argv[at + 1]!.split(',').map(Number) : usual;
}

/** `--only json`: beside which others. `--only none`: beside none. */
export function peersAsked(): readonly string[] | undefined {
  const at = process.argv.indexOf('--only');
  return at > 0 ? process.argv[at + 1]!.split(',') : undefined;
}
