import type { Path } from '../../../geometry/outline/path.ts';
import type { System } from '../../../model/values/show.ts';

/**
 * The 1:1 pattern of one piece as a plain document: everything that a paper or a cutter's file shows, and nothing of
 * how it looks. mm, x right, y up, seen from outside; the outline may lie anywhere.
 */
export interface Pattern {
  readonly piece: string;
  /** How many one build takes as drawn, and how many turned over. */
  readonly count: number;
  readonly turned: number;
  /** One is enough for all builds: a template. */
  readonly once?: true;
  /** As read out: `mild steel 1.5 mm`. */
  readonly material: string;
  /** `268 × 240 mm` */
  readonly size: string;
  /** What the smith must know of this pattern, a sentence each: method, range, what is not drawn. */
  readonly notes: readonly string[];
  /** So many openings and holes are narrower than the kerf, and not cut. */
  readonly lostToKerf?: number;
  /** The first is the outline to cut. */
  readonly lines: readonly PatternLine[];
  readonly labels: readonly PatternLabel[];
  /** Direction of the stock's grain in degrees from x, where it matters. */
  readonly grain?: number;
}

/** What a cutter's layer tells apart; `note` is writing, for people only. */
export const LAYERS = ['cut', 'drill', 'bend', 'mark', 'note'] as const;
export type Layer = (typeof LAYERS)[number];

/** What a line is for, and the layer it goes to. */
export const LINES = {
  /** Where the blank is cut. */
  outline: 'cut',
  /** An opening that is cut in the flat. */
  opening: 'cut',
  /** A round hole that is made in the flat. */
  hole: 'drill',
  bend: 'bend',
  /** Where a roll or a hem begins. */
  fold: 'bend',
  crease: 'bend',
  /** The finished edge, inside what is left for rolling, hemming or trimming. */
  finished: 'mark',
  /** An opening that is made after forming, where it comes about. */
  later: 'mark',
  /** A rivet whose hole is drilled through the plate that lies over, or after forming. */
  rivet: 'mark',
  centre: 'mark',
  /** The ends of a seam, and where an edge is measured from. */
  match: 'mark',
  /** A line that the flattening adds: where to stretch, where to shrink, where to trim. */
  guide: 'mark',
  /** The edge of the sheet that blanks are laid on: for people, since nobody cuts it. */
  sheet: 'note',
} as const satisfies Readonly<Record<string, Layer>>;
export type LineKind = keyof typeof LINES;

export interface PatternLine {
  readonly kind: LineKind;
  readonly path: Path;
}

/** Words at a place; where exactly they stand is for who draws, so that none lies on another. */
export type PatternLabel =
  | {
      readonly what: 'edge' | 'line' | 'guide';
      readonly text: string;
      /** Set alongside this line, on the side that is named. */
      readonly along: Path;
      readonly side: 'left' | 'right';
    }
  | {
      readonly what: 'seam' | 'hole' | 'end';
      readonly text: string;
      readonly x: number;
      readonly y: number;
      /** Kept clear about the place, mm. */
      readonly clear: number;
    };

/** The patterns of a build, and what stands at the head of every paper of it. */
export interface Patterns {
  readonly title: string;
  /** The spec's own file, without folders. */
  readonly file: string;
  /** The language version that the spec was read by, and a fingerprint of its text and of the files it uses. */
  readonly version: string;
  readonly client?: string;
  readonly duty?: 'display' | 'stage' | 'contact';
  readonly rules?: string;
  readonly units: System;
  /** The day the patterns are made, `2027-03-01`. */
  readonly date: string;
  readonly make: number;
  readonly spare: number;
  readonly cautions: readonly { readonly code: string; readonly title: string; readonly text: string }[];
  /** What cannot be made as it is written. */
  readonly errors: readonly { readonly line: number; readonly text: string }[];
  readonly patterns: readonly Pattern[];
  /** Pieces that have none, and why. */
  readonly missing: readonly { readonly piece: string; readonly reason: string }[];
  /** Letters of the seams: the same letter stands at every edge that a seam joins. */
  readonly seams: readonly { readonly letter: string; readonly seam: string; readonly pieces: readonly string[] }[];
}
