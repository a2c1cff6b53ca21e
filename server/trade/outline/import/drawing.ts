import type { Span } from '../span.ts';

/** One run of lines and arcs of a drawing file, mm, y up. */
export interface Stroke {
  readonly spans: readonly Span[];
  /** Ends where it begins because the file says so. */
  readonly closed: boolean;
  /** What it may be asked for by: its own name in the file, and those of the groups, layers or blocks that it is in. */
  readonly names: readonly string[];
}

/** What a drawing file holds, whatever its format. */
export interface Drawing {
  readonly strokes: readonly Stroke[];
  /** Every name that something to be cut bears, in the order of the file. */
  readonly names: readonly string[];
  /** Set where the file does not say how large it is: how it was read, in words. */
  readonly assumed?: string;
}

/** Why a file cannot be read, in words for a smith. */
export interface Unreadable {
  readonly unreadable: string;
}

export const isDrawing = (answer: Drawing | Unreadable): answer is Drawing => !('unreadable' in answer);

/** Strokes with every name among them, each once. */
export function drawingOf(strokes: readonly Stroke[], assumed?: string): Drawing {
  const real = strokes.filter(({ spans }) =>
    spans.every(({ from, to, bulge }) => [from.x, from.y, to.x, to.y, bulge].every(Number.isFinite)),
  );
  return {
    strokes: real,
    names: [...new Set(real.flatMap(({ names }) => names))],
    ...(assumed === undefined ? {} : { assumed }),
  };
}

/** More than a plate's outline ever needs: past it a file is something else, and would hold up the editor. */
export const MOST_SPANS = 100_000;
