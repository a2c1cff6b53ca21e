import { boxOfPath } from '../../geometry/outline/measure.ts';
import type { Path } from '../../geometry/outline/path.ts';
import type { Chart } from '../../geometry/surface/chart.ts';
import { type Distance, type FormPlace, spotOf } from '../../geometry/surface/place.ts';
import { tangents } from '../../geometry/surface/walk.ts';
import { pause, Recent } from '../../incremental/steps.ts';
import { NONE } from '../forms/answers.ts';
import { kindOf } from '../forms/index.ts';
import type { LineReading } from '../names/line-reading.ts';
import type { Surfaced } from './surface.ts';

/** Where an opening or another thing sits on the form, as its `at` says, or in words why there is no such place. */
export function placeOfLine(piece: Surfaced, line: LineReading): FormPlace | string | undefined {
  // A surface is dear, and most lines have no place of their own on it.
  const chart = line.has('at') ? piece.chart() : undefined;
  if (!chart) return undefined;
  const first = distanceOf(line, 'across', 'way', 'line');
  if (!first) return undefined;
  const second = distanceOf(line, 'along', 'way2', 'line2');
  const places = placesOn.get(chart) ?? new Recent<FormPlace | string>(MOST_PLACES);
  placesOn.set(chart, places);
  let isNew = false;
  const place = places.get(JSON.stringify([first, second]), () => {
    isNew = true;
    return placeOn(chart, first, second);
  });
  if (isNew) pause();
  return place;
}

/** Places on a chart, as long as it lives: measuring one takes a millisecond, a plate may have hundreds, and many a check asks for all. */
const placesOn = new WeakMap<Chart, Recent<FormPlace | string>>();
const MOST_PLACES = 1_000;

function placeOn(chart: Chart, first: Distance, second: Distance | undefined): FormPlace | string {
  const spot = spotOf(chart, first, second);
  return typeof spot === 'string' ? spot : { spot, across: tangents(chart, spot)[0] };
}

function distanceOf(
  line: LineReading,
  slot: 'across' | 'along',
  way: 'way' | 'way2',
  edge: 'line' | 'line2',
): Distance | undefined {
  const distance = line.length(slot, 'at');
  const name = line.text(edge, 'at');
  if (distance === undefined || name === undefined) return undefined;
  const side = line.text(way, 'at') ?? (['above', 'below'] as const).find((word) => line.word(word, 'at'));
  return { distance, line: name, way: (side ?? 'from') as Distance['way'] };
}

/** The finished outline of a flat piece that has one of its own, anticlockwise; nothing for other forms. */
export function ownOutline(piece: Surfaced): Path | undefined {
  const form = piece.form();
  const outline = form && kindOf(form).outline(form);
  return outline === NONE ? undefined : outline;
}

/** What a place on such a piece is measured from, besides its rim: the sides of the box round its outline. */
export const BOX_SIDES: readonly string[] = ['left', 'right', 'top', 'bottom'];

/**
 * Where a line's `at` puts a thing on an outline: from the sides of its box (its leftmost place, its lowest one) and from the
 * upright and the level line through the middle of that. Nothing where it is measured from anything else.
 */
export function placeOnOutline(
  outline: Path,
  line: LineReading,
): { readonly x: number; readonly y: number } | undefined {
  const { left, right, bottom, top } = boxOfPath(outline);
  const [wide, high] = [right - left, top - bottom];
  const place = placeInBox(line, wide, high);
  return place && { x: left + (place.x ?? wide / 2), y: bottom + (place.y ?? high / 2) };
}

/**
 * What a line's `at` says, in mm from the left and from the bottom. A way that is not said is nothing: the middle.
 * Nothing at all where it is measured from a line that this flat does not know.
 */
export function placeInBox(reading: LineReading, wide: number, high: number): { x?: number; y?: number } | undefined {
  const place: { x?: number; y?: number } = {};
  for (const [distance, edge, way] of [
    ['across', 'line', 'way'],
    ['along', 'line2', 'way2'],
  ] as const) {
    const length = reading.length(distance, 'at');
    const from = reading.text(edge, 'at');
    if (length === undefined || from === undefined) continue;
    const side = reading.text(way, 'at');
    const up = reading.word('above', 'at') ? 1 : reading.word('below', 'at') ? -1 : undefined;
    if (from === 'left' || from === 'right') {
      if (up !== undefined) return undefined;
      const inward = from === 'left' ? 1 : -1;
      const sign = side === undefined ? inward : side === 'right' ? 1 : -1;
      place.x = (from === 'left' ? 0 : wide) + sign * length;
    } else if (from === 'top' || from === 'bottom') {
      if (side !== undefined) return undefined;
      const sign = up ?? (from === 'bottom' ? 1 : -1);
      place.y = (from === 'bottom' ? 0 : high) + sign * length;
    } else if (from === 'middle') {
      // A plain `from middle` of a single piece is to its right.
      if (up !== undefined) place.y = high / 2 + up * length;
      else place.x = wide / 2 + (side === 'left' ? -1 : 1) * length;
    } else return undefined;
  }
  return place.x === undefined && place.y === undefined ? undefined : place;
}
