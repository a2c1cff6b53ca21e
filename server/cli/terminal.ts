import { stripVTControlCharacters } from 'node:util';
import type { Severity } from '../model/figure.ts';

/* What a person sees in a terminal. Text from a spec may hold anything: what would steer the terminal is taken out. */

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

export class Terminal {
  private readonly started = Date.now();
  private shown = false;

  constructor(
    private readonly out: NodeJS.WriteStream,
    private readonly errors: NodeJS.WriteStream,
    private readonly environment: NodeJS.ProcessEnv,
  ) {}

  /** Written to standard output as it is. */
  async write(content: string | Uint8Array): Promise<void> {
    this.clearProgress();
    await new Promise<void>((resolve, reject) => {
      this.out.write(content, (error) => (error ? reject(error) : resolve()));
    });
  }

  print(line = ''): Promise<void> {
    return this.write(`${line}\n`);
  }

  /** What is not the answer itself goes to standard error, so that a pipe holds only the answer. */
  note(line: string): void {
    this.clearProgress();
    this.errors.write(`${line}\n`);
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

  colourNote(text: string, ...colours: readonly Colour[]): string {
    return this.coloured(this.errors) ? painted(text, colours) : text;
  }

  /** NO_COLOR counts when it is set to anything at all. */
  private coloured(stream: NodeJS.WriteStream): boolean {
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

/** Text of a spec on one line, without anything that would steer a terminal. */
export function clean(text: string): string {
  return stripVTControlCharacters(text)
    .replace(/\s+/gu, ' ')
    .replace(/[\p{Cc}\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu, '');
}

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
