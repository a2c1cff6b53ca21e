import type { Drawing } from './drawing.ts';

/**
 * What stands on a paper, in order, before anyone decides how it looks. The HTML, PDF and Markdown writers each know
 * these few blocks and nothing of cut lists, so every paper of ours looks and reads alike.
 * All text here is raw: the writers escape it.
 */
export interface Paper {
  /** What sort of paper: `Cut list`. */
  readonly sort: string;
  readonly title: string;
  /** The day it was made, `2027-03-01`. */
  readonly date: string;
  readonly size: 'a4' | 'a3' | 'letter';
  /** Stands at the foot of every page. */
  readonly foot: string;
  readonly blocks: readonly Block[];
}

export type Block =
  | { readonly kind: 'heading'; readonly level: 2 | 3; readonly text: string }
  | { readonly kind: 'text'; readonly text: string; readonly quiet?: boolean }
  | { readonly kind: 'facts'; readonly facts: readonly { readonly name: string; readonly value: string }[] }
  | Notice
  | Table
  | { readonly kind: 'drawing'; readonly drawing: Drawing; readonly caption: string };

export interface Notice {
  readonly kind: 'notice';
  /** `stop`: do not cut yet. `caution`: look out. `statement`: what this paper is not. */
  readonly tone: 'stop' | 'caution' | 'statement';
  readonly title: string;
  readonly items: readonly { readonly title?: string; readonly text: string }[];
}

export interface Column {
  readonly title: string;
  readonly align?: 'left' | 'right';
  /** Names the row: read out before its other cells. */
  readonly head?: boolean;
}

/** A cell's first line is the fact, the lines below it say more, quietly. */
export type Cell = string | readonly string[];

export interface Table {
  readonly kind: 'table';
  readonly caption: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
  /** A box to tick at the start of each row, and what ticking it means: `Cut`. */
  readonly tick?: string;
  /** Many short rows: set close. */
  readonly dense?: boolean;
  /** Sums, under the rows. */
  readonly foot?: readonly Cell[];
}

export const linesOf = (cell: Cell): readonly string[] => (typeof cell === 'string' ? [cell] : cell);
