import { readFileSync } from 'node:fs';

/** Ten pixels to the millimetre. */
export const DPI = 254;

/** One rendered page; places are in mm from its lower left corner. */
export class Page {
  private readonly pixels: Buffer;
  private readonly wide: number;
  private readonly high: number;

  constructor(file: string) {
    const bytes = readFileSync(file);
    const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 40).toString('latin1'))!;
    [this.wide, this.high] = [Number(head[1]), Number(head[2])];
    this.pixels = bytes.subarray(head[0].length);
  }

  private isDark(column: number, row: number): boolean {
    return (
      column >= 0 && row >= 0 && column < this.wide && row < this.high && this.pixels[row * this.wide + column]! < 140
    );
  }

  /** Runs of ink along a level, mm: where each begins and ends. */
  across(y: number, from = 0, to = this.wide / 10): [number, number][] {
    const row = Math.round(this.high - y * 10);
    return runs(Math.round(from * 10), Math.round(to * 10), (column) => this.isDark(column, row));
  }

  /** Runs of ink up a line, mm from below. */
  up(x: number, from: number, to: number): [number, number][] {
    const column = Math.round(x * 10);
    return runs(Math.round(from * 10), Math.round(to * 10), (k) => this.isDark(column, this.high - k));
  }
}

function runs(from: number, to: number, isDark: (at: number) => boolean): [number, number][] {
  const found: [number, number][] = [];
  for (let at = from; at <= to; at++) {
    if (!isDark(at)) continue;
    const last = found.at(-1);
    if (last && last[1] * 10 >= at - 1.5) last[1] = at / 10;
    else found.push([at / 10, at / 10]);
  }
  return found;
}
