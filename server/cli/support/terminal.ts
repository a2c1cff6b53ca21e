import { stripVTControlCharacters } from 'node:util';
import type { Severity } from '../../model/values/figure.ts';
import { seen } from '../../model/values/seen.ts';

/* What a person sees in a terminal. Text from a spec, and names of files, may hold anything: what would steer the terminal is shown instead. */

export type Colour = 'red' | 'yellow' | 'cyan' | 'green' | 'dim' | 'bold';

const CODES: Readonly<Record<Colour, readonly [number, number]>> = {
  red: [31, 39],
  yellow: [33, 39],
  cyan: [36, 39],
  green: [32, 39],
  dim: [2, 22],
  bold: [1, 22],
};

export const SEVERITY_COLOUR: Readonly<Record<Severity, Colour>> = {
  error: 'red',
  warning: 'yellow',
  information: 'cyan',
  hint: 'dim',
};

/** A terminal, a file or a pipe. */
export type Screen = NodeJS.WritableStream & { readonly isTTY?: boolean; readonly columns?: number };

export class Terminal {
  private readonly started = Date.now();
  private shown = false;

  constructor(
    private readonly out: Screen,
    private readonly errors: Screen,
    private readonly environment: NodeJS.ProcessEnv,
    private readonly input: () => AsyncIterable<Uint8Array> = () => process.stdin,
  ) {}

  /** All of standard input; nothing where it is more than this many bytes. */
  async read(most: number): Promise<Uint8Array | undefined> {
    const chunks: Uint8Array[] = [];
    let length = 0;
    for await (const chunk of this.input()) {
      length += chunk.length;
      if (length > most) return undefined;
      chunks.push(chunk);
    }
    return Buffer.concat(chunks);
  }

  /** Written to standard output as it is. */
  async write(content: string | Uint8Array): Promise<void> {
    this.clearProgress();
    await new Promise<void>((resolve, reject) => {
      this.out.write(content, (error) => (error ? reject(error) : resolve()));
    });
  }

  print(line: string): Promise<void> {
    return this.write(`${seen(line)}\n`);
  }

  /** What is not the answer itself goes to standard error, so that a pipe holds only the answer. */
  note(line: string, ...colours: readonly Colour[]): void {
    this.clearProgress();
    this.errors.write(`${this.coloured(this.errors) ? painted(seen(line), colours) : seen(line)}\n`);
  }

  /** What hinders. */
  refuse(message: string): void {
    this.clearProgress();
    const name = this.coloured(this.errors) ? painted('planish:', ['red']) : 'planish:';
    this.errors.write(`${name} ${seen(message)}\n`);
  }

  /** A fault of ours, not of whoever typed: the trace helps to mend it, and is asked for. */
  broken(error: unknown): void {
    this.refuse(`something broke in Planish itself: ${error instanceof Error ? error.message : error}`);
    if (this.environment['PLANISH_TRACE'] && error instanceof Error)
      for (const line of error.stack?.split('\n') ?? []) this.note(line);
  }

  /** A line that is there while something takes longer than a second, and gone afterwards. */
  progress(line: string): void {
    if (!this.errors.isTTY || this.environment['TERM'] === 'dumb' || Date.now() - this.started < 1000) return;
    this.clearProgress();
    const columns = this.errors.columns || 80;
    this.errors.write(clean(line).slice(0, columns - 1));
    this.shown = true;
  }

  clearProgress(): void {
    if (!this.shown) return;
    this.errors.write('\r\u001b[2K');
    this.shown = false;
  }

  colour(text: string, ...colours: readonly Colour[]): string {
    return this.coloured(this.out) ? painted(text, colours) : text;
  }

  /** NO_COLOR counts when it is set to anything at all. */
  private coloured(stream: Screen): boolean {
    const { NO_COLOR, TERM } = this.environment;
    return Boolean(stream.isTTY) && !NO_COLOR && TERM !== 'dumb';
  }
}

function painted(text: string, colours: readonly Colour[]): string {
  return colours.reduce((done, colour) => {
    const [on, off] = CODES[colour];
    return `\u001b[${on}m${done}\u001b[${off}m`;
  }, text);
}

/** Text of a spec on one line, in which everything can be seen. */
export const clean = (text: string): string => seen(stripVTControlCharacters(text).replace(/\s+/gu, ' '));

/** Lines up columns with two blanks between them; the last one runs free. */
export function columns(rows: readonly (readonly string[])[], indent = ''): string[] {
  const widths: number[] = [];
  for (const row of rows)
    for (const [i, cell] of row.entries()) widths[i] = Math.max(widths[i] ?? 0, stripVTControlCharacters(cell).length);
  return rows.map((row) =>
    `${indent}${row
      .map((cell, i) =>
        i === row.length - 1 ? cell : cell + ' '.repeat(widths[i]! - stripVTControlCharacters(cell).length),
      )
      .join('  ')}`.trimEnd(),
  );
}

export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;
