// What a benchmark gives: rows, as a table or as JSON.

export interface Row {
  readonly server: string;
  readonly what: string;
  readonly lines: number;
  readonly median: number;
  readonly p95: number;
  /** Median of the time on the processor, of the program's main thread; only where the system tells it. */
  readonly processor?: number;
  readonly unit: 'ms' | 'MB' | 'MB/s' | 'memos';
}

export function rowOf(
  server: string,
  what: string,
  lines: number,
  values: readonly number[],
  unit: Row['unit'] = 'ms',
  worked: readonly number[] = [],
): Row {
  const row = { server, what, lines, median: round(shareOf(values, 0.5)), p95: round(shareOf(values, 0.95)), unit };
  return worked.length ? { ...row, processor: round(shareOf(worked, 0.5)) } : row;
}

/** The value that so large a share of them does not pass. */
function shareOf(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}

const round = (value: number): number => Number(value.toPrecision(3));

export function print(rows: readonly Row[]): void {
  if (process.argv.includes('--json')) {
    console.log(JSON.stringify(rows, undefined, 2));
    return;
  }
  console.log(
    '| what | lines | server | median | p95 | processor | beside JSON | by processor |\n|---|---|---|---|---|---|---|---|',
  );
  for (const { what, lines, server, median, p95, processor, unit } of rows) {
    const json = rows.find((row) => row.server === 'json' && row.what === what && row.lines === lines);
    const beside = (own?: number, its?: number) =>
      own && its && server !== 'json' ? `× ${(own / its).toFixed(2)}` : '';
    console.log(
      `| ${what} | ${lines} | ${server} | ${median} ${unit} | ${p95} | ${processor ?? ''} | ` +
        `${beside(median, json?.median)} | ${beside(processor, json?.processor)} |`,
    );
  }
}

/** What stands behind `--option`, a list. */
export function asked(option: string): readonly string[] | undefined {
  const at = process.argv.indexOf(`--${option}`);
  return at > 0 ? process.argv[at + 1]!.split(',') : undefined;
}

/** `--lines 1000,10000` */
export const linesAsked = (usual: readonly number[]): readonly number[] => asked('lines')?.map(Number) ?? usual;

/** `--only json`: beside which others. `--only none`: beside none. */
export const peersAsked = (): readonly string[] | undefined => asked('only');
