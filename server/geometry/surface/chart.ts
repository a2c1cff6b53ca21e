import type { Vector } from './vector.ts';

/** A point of a chart: u runs from left to right as seen from outside, v from the bottom up, both 0…1. */
export type Spot = readonly [u: number, v: number];

/** A way along a chart's sides or columns: straight from spot to spot. */
export type Track = readonly Spot[];

/** All the way up a column, and all the way along a level. */
export const columnAt = (u: number): Track => [
  [u, 0],
  [u, 1],
];
export const levelAt = (v: number): Track => [
  [0, v],
  [1, v],
];

/**
 * A smooth surface over the unit square, before it is triangulated: the middle of a formed plate's thickness, mm.
 *
 * u goes round the form from the left edge to the right one, v from the bottom up. Where a side is a `pole`, all its
 * points are one.
 */
export interface Chart {
  point(u: number, v: number): Vector;
  /** Unit normal, outward; nought where the surface has none: at the tip of a cone, or on a ridge. */
  normal(u: number, v: number): Vector;
  /** u = 1 is u = 0 again: a whole dome. */
  readonly closed: boolean;
  readonly poles: { readonly bottom: boolean; readonly top: boolean };
  /** Columns that must be lines of the mesh, rising from 0 to 1. The sectors between them are meshed by themselves. */
  readonly columns: readonly number[];
  /** Which share of the way up a form its columns are, where they are cut from one: they bend by no more than that share of it. */
  readonly rising?: number;
  /** Columns and rows along which the surface is folded: sides of flutes, ridges of creases, where a flare begins. */
  readonly folds?: ReadonlyMap<string, Track>;
  /** The edges by name, each along sides of the square, in the direction in which they are measured. */
  readonly edges: ReadonlyMap<string, Track>;
  /** The named lines, along columns. */
  readonly lines: ReadonlyMap<string, Track>;
  /** The chart laid out flat along its own lines, nearly true to scale, mm: bays are drawn in it. */
  sheet(u: number, v: number): readonly [x: number, y: number];
  /** The other way round; outside the chart where the answer is not 0…1. */
  spot(x: number, y: number): Spot;
}
