import { strict as assert } from 'node:assert';
import type { Result } from '../../server/trade/reckoning/result.ts';
import { cited, type WorkId } from './works.ts';

/**
 * How sure the outside figure is.
 * - `seen`: the very figure was read in the source
 * - `rule seen`: the rule was read in the source; the numbers put into it are ours
 * - `from memory`: quoted without the book at hand
 * - `worked`: worked out apart from this code, by hand or by script
 * - `common practice`: has no source
 */
export type Status = 'seen' | 'rule seen' | 'from memory' | 'worked' | 'common practice';

/**
 * What a row shows.
 * - `table`: a constant copied from a table, beside the same constant in the code: a slip of the finger is found, no more
 * - `hand sum`: the code's own formula worked out again
 * - `own two ways`: two programs of ours beside each other
 * - `worked example`: what a source puts in and what it says comes out
 * - `other method`: found in the test by another way than the code's, or by somebody else's program
 * - `physical limit`: a law that holds whatever the method: areas and volumes kept, what rolls out flat, the whole curvature
 *
 * Only the last three say that a computation is right.
 */
export type Kind = 'table' | 'hand sum' | 'own two ways' | 'worked example' | 'other method' | 'physical limit';

/** What a row shows where neither it nor its group says. */
const USUAL: Readonly<Record<Status, Kind>> = {
  seen: 'table',
  'rule seen': 'hand sum',
  'from memory': 'table',
  worked: 'hand sum',
  'common practice': 'hand sum',
};

/** What another program has to say first. */
type Later = () => number | Promise<number>;
type Figure = number | Result | undefined;

/** One outside figure beside ours. */
export interface Row {
  readonly kind?: Kind;
  readonly what: string;
  /** The work that the figure, the law or the method is from; `source` then is the place in it. */
  readonly work?: WorkId;
  readonly source: string;
  readonly status: Status;
  readonly ours: Figure | (() => Figure | Promise<Figure>);
  readonly theirs: number | Later;
  /** How far ours may lie from theirs: half of the last digit that the source prints, unless the row says why not. */
  readonly within: number;
}

/*
 * Every row of every file read so far, for the test that counts them. Mocha requires some files and imports others, each with
 * a copy of this one: so the list is no copy's own.
 */
const shared = globalThis as { planishRows?: KindRow[] };
shared.planishRows ??= [];
export const allRows: KindRow[] = shared.planishRows;

export type KindRow = Row & { readonly kind: Kind };

/** Where a row is from, as its test tells it. */
const toldSource = ({ work, source }: Pick<Row, 'work' | 'source'>): string =>
  work === undefined ? source : cited(work, source);

/** One test a row, named after the row, so that a failure says which source is contradicted. */
export function holdsAgainst(title: string, rows: readonly Row[], kind?: Kind): void {
  for (const row of rows) allRows.push({ ...row, kind: row.kind ?? kind ?? USUAL[row.status] });
  describe(title, () => {
    for (const row of rows) {
      const told = typeof row.theirs === 'number' ? row.theirs : 'as it is told';
      it(`${row.what}: ${told} (${toldSource(row)}; ${row.status})`, async () => {
        const ours = typeof row.ours === 'function' ? await row.ours() : row.ours;
        const theirs = typeof row.theirs === 'function' ? await row.theirs() : row.theirs;
        assert.ok(ours !== undefined, 'we have no figure at all');
        const value = typeof ours === 'number' ? ours : ours.value;
        if (typeof ours !== 'number') assert.equal(ours.outside, undefined);
        const error = Math.abs(value - theirs);
        assert.ok(error <= row.within, `ours is ${value}, theirs ${theirs}, allowed ${row.within}`);
      });
    }
  });
}

/** Millimetres to inches, for figures that their source prints in inches. */
export function inches(figure: Result | undefined): number {
  return (figure?.value ?? Number.NaN) / 25.4;
}
