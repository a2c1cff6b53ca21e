import { strict as assert } from 'node:assert';
import type { Result } from '../../server/trade/reckoning/result.ts';

/**
 * How sure the outside figure is.
 * - `seen`: the very figure was read in the source
 * - `rule seen`: the rule was read in the source; the numbers put into it are ours
 * - `from memory`: quoted without the book at hand
 * - `worked`: worked out apart from this code, by hand or by script
 * - `common practice`: has no source
 */
export type Status = 'seen' | 'rule seen' | 'from memory' | 'worked' | 'common practice';

/** One outside figure beside ours. */
export interface Row {
  readonly what: string;
  readonly source: string;
  readonly status: Status;
  readonly ours: number | Result | undefined;
  readonly theirs: number;
  /** How far ours may lie from theirs: half of the last digit that the source prints, unless the row says why not. */
  readonly within: number;
}

/*
 * Every row of every file read so far, for the test that counts them. Mocha requires some files and imports others, each with
 * a copy of this one: so the list is no copy's own.
 */
const shared = globalThis as { planishRows?: Row[] };
shared.planishRows ??= [];
export const allRows: Row[] = shared.planishRows;

/** One test a row, named after the row, so that a failure says which source is contradicted. */
export function holdsAgainst(title: string, rows: readonly Row[]): void {
  allRows.push(...rows);
  describe(title, () => {
    for (const row of rows) {
      it(`${row.what}: ${row.theirs} (${row.source}; ${row.status})`, () => {
        const { ours } = row;
        assert.ok(ours !== undefined, 'we have no figure at all');
        const value = typeof ours === 'number' ? ours : ours.value;
        if (typeof ours !== 'number') assert.equal(ours.outside, undefined);
        const error = Math.abs(value - row.theirs);
        assert.ok(error <= row.within, `ours is ${value}, theirs ${row.theirs}, allowed ${row.within}`);
      });
    }
  });
}

/** Millimetres to inches, for figures that their source prints in inches. */
export function inches(figure: Result | undefined): number {
  return (figure?.value ?? Number.NaN) / 25.4;
}
