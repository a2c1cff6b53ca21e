// What the panel of figures and its page tell each other: types only.
import type { ExplainedFigure } from '../../server/requests.ts';

export interface ToPage {
  /** `piece skull`; empty where the cursor is on nothing that has figures. */
  readonly of: string;
  readonly figures: readonly ExplainedFigure[];
  /** The line that the cursor is on, from 1: its figures are marked. */
  readonly line: number;
}

export type FromPage =
  | { readonly kind: 'ready' }
  | { readonly kind: 'copy'; readonly text: string }
  /** Both count from 1. */
  | { readonly kind: 'go'; readonly line: number; readonly column: number };
