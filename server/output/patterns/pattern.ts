import type { Path } from '../../trade/outline/path.ts';

/**
 * The 1:1 pattern of one piece as a plain document: everything that a paper or a cutter's file shows, and nothing of
 * how it looks. mm, x right, y up; the outline may lie anywhere.
 */
export interface Pattern {
  readonly piece: string;
  /** `left`, `right` for a mirrored pair's copies that differ; nothing for pieces all alike. */
  readonly copy?: 'left' | 'right';
  /** How many to cut as drawn, and how many turned over. */
  readonly count: number;
  readonly turned: number;
  /** As read out: `mild steel 1.5 mm`. */
  readonly material: string;
  /** Words beside the drawing: method, range, what the outline holds for. */
  readonly notes: readonly string[];
  readonly cut: PatternPath[];
  readonly marks: readonly PatternMark[];
  readonly labels: readonly PatternLabel[];
  /** Direction of the grain in degrees from x, where it matters. */
  readonly grain?: number;
}

/** What a cutter's layer or a pen's colour tells apart. */
export type Layer = 'cut' | 'drill' | 'mark' | 'bend';

export interface PatternPath {
  readonly path: Path;
  readonly layer: Layer;
}

/** A place or a line that is marked, not cut. */
export interface PatternMark {
  readonly kind:
    | 'hole before forming'
    | 'hole after forming'
    | 'centre'
    | 'fold'
    | 'crease'
    | 'seam'
    | 'trim'
    | 'match';
  readonly path: Path;
  /** Seam letter, hole size… */
  readonly text?: string;
}

export interface PatternLabel {
  readonly x: number;
  readonly y: number;
  /** Degrees from x. */
  readonly turn: number;
  readonly text: string;
  readonly what: 'edge' | 'seam' | 'piece';
}
