import type { OutlineIn } from '../trade/outline/import/outline-in.ts';
import type { Extent } from '../trade/surface/cover.ts';
import type { LoftShape } from '../trade/surface/loft.ts';
import type { Named } from './file.ts';
import type { LineReading } from './reading.ts';

/**
 * The finished shape of a piece, measures at the middle of the thickness, mm and degrees.
 * `unread` stands for a form whose line is not finished; `later` for one that is not computed yet.
 */
export type Form = { readonly line: LineReading } & (
  | { readonly kind: 'plate' | 'strip'; readonly wide: number; readonly high: number }
  | { readonly kind: 'disc'; readonly diameter: number }
  | { readonly kind: 'oval'; readonly long: number; readonly wide: number }
  | { readonly kind: 'outline'; readonly points: readonly OutlineCorner[] }
  /** An outline out of a drawing file. */
  | { readonly kind: 'drawing'; readonly outline: OutlineIn; readonly file: string }
  | { readonly kind: 'dome'; readonly diameter: number; readonly deep: number }
  | { readonly kind: 'oval dome'; readonly long: number; readonly wide: number; readonly deep: number }
  | { readonly kind: 'half dome'; readonly long: number; readonly wide: number; readonly deep: number }
  | {
      readonly kind: 'cylinder';
      readonly girth: number;
      readonly high: number;
      readonly wrap: number;
      readonly neighbour?: Named;
    }
  | {
      readonly kind: 'cone';
      readonly top: number;
      readonly bottom: number;
      readonly high: number;
      readonly wrap: number;
    }
  | {
      readonly kind: 'gore dome';
      readonly long: number;
      readonly wide: number;
      readonly deep: number;
      readonly gores: number;
    }
  /** Given by its levels; an oval cylinder or cone, and a lame under one of these, have two. */
  | { readonly kind: 'loft'; readonly shape: LoftShape; readonly neighbour?: Named }
  /** Lies on a part of its neighbour, `apart` outside the middle of that one's thickness, or inside below nought. */
  | { readonly kind: 'cover'; readonly neighbour: Named; readonly apart: number; readonly extent: Extent }
  | {
      readonly kind: 'comb';
      readonly along: string;
      readonly length: number;
      readonly high: number;
      /** Width of each foot. */
      readonly foot: number;
      readonly radius: number;
      readonly neighbour: Named;
    }
  | {
      readonly kind: 'trim';
      readonly along: string;
      readonly length: number;
      readonly wide: number;
      readonly neighbour: Named;
    }
  | { readonly kind: 'later' }
);

/** Kinds of forms that are flat all over. */
export const FLAT: ReadonlySet<Form['kind']> = new Set(['plate', 'strip', 'disc', 'oval', 'outline', 'drawing']);

export interface OutlineCorner {
  readonly x: number;
  readonly y: number;
  /** Of the arc that leads here; above nought bulges to the left of the way one goes. */
  readonly radius?: number;
}

/** The edges and lines that a form has, by the names of the language. */
export const EDGES: Readonly<Record<Form['kind'] | 'unread', readonly string[]>> = {
  plate: ['top', 'bottom', 'left', 'right'],
  strip: ['top', 'bottom', 'left', 'right'],
  disc: ['rim'],
  oval: ['rim'],
  outline: ['rim'],
  drawing: ['rim'],
  dome: ['rim'],
  'oval dome': ['rim'],
  'half dome': ['rim', 'middle'],
  'gore dome': ['rim', 'left', 'right'],
  loft: ['top', 'bottom', 'left', 'right'],
  cover: ['top', 'bottom', 'left', 'right'],
  comb: ['top', 'bottom', 'left', 'right'],
  cylinder: ['top', 'bottom', 'left', 'right'],
  cone: ['top', 'bottom', 'left', 'right'],
  trim: ['top', 'bottom', 'left', 'right'],
  later: ['top', 'bottom', 'left', 'right', 'rim'],
  unread: ['top', 'bottom', 'left', 'right', 'rim'],
};

/** Lines on a form that a thing can run along or be measured from, besides its edges. */
export const LINES: readonly string[] = ['front', 'back', 'side', 'middle', 'crown', 'centre'];
