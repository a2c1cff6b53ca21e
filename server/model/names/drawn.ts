import type { Drawing, Unreadable } from '../../geometry/drawings/drawing.ts';
import {
  type Bounds,
  type CutOut,
  cutOutFound,
  drawingRead,
  type NoOutline,
  type OutlineIn,
  outlineFound,
} from '../../geometry/drawings/outline-in.ts';
import { offsetIn } from '../../geometry/outline/allowance.ts';
import type { Path } from '../../geometry/outline/path.ts';
import { Dear, type Steps } from '../../incremental/steps.ts';
import { OF_PIECE } from '../../trade/reckoning/bounds.ts';

/*
 * What drawings hold, read once for as long as they are asked for: a long one takes a second, and what names it is read again
 * at every key. All of it hangs on the text of the drawing alone.
 */

const drawings = new Dear<Drawing | Unreadable>(32);
const outlines = new Dear<OutlineIn | NoOutline>(64);
const cutOuts = new Dear<CutOut | NoOutline>(64);
const offsets = new Dear<Path | undefined>(32);

/** The drawing that a file of this name and text is. */
export const drawingFrom = (name: string, text: string): Drawing | Unreadable =>
  drawings.get(`${name.slice(-4).toLowerCase()}\n${text}`, () => drawingRead(name, text));

export const outlineOf = (
  drawing: Drawing | Unreadable,
  name: string | undefined,
  bounds: Bounds,
): OutlineIn | NoOutline => outlines.get(keyOf(drawing, [bounds, name]), () => outlineFound(drawing, name, bounds));

export const cutOutOf = (drawing: Drawing | Unreadable, name: string | undefined): CutOut | NoOutline =>
  cutOuts.get(keyOf(drawing, [name]), () => cutOutFound(drawing, name, OF_PIECE));

/**
 * An outline moved out by as much all round; nothing where it is too finely drawn for that. It is told by all its points, since
 * one that the spec gives is made anew whenever anybody asks; of a drawing the points are kept.
 */
export const movedOut = (path: Path, by: number, isKept: boolean): Path | undefined =>
  offsets.get(`${by} ${isKept ? numberOf(path) : JSON.stringify(path.vertices)}`, () => largestOf(path, by));

function* largestOf(path: Path, by: number): Steps<Path | undefined> {
  return (yield* offsetIn(path, by))?.[0];
}

const keyOf = (drawing: Drawing | Unreadable, more: readonly unknown[]): string =>
  `${numberOf(drawing)} ${JSON.stringify(more)}`;

const numbers = new WeakMap<object, number>();
let last = 0;

/** What is kept is as good as all that stands in it. */
function numberOf(kept: object): number {
  const have = numbers.get(kept);
  if (have !== undefined) return have;
  last++;
  numbers.set(kept, last);
  return last;
}
