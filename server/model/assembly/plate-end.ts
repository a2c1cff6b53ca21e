import { say } from '../../../l10n/say.ts';
import { measured, straight } from '../../geometry/surface/along.ts';
import type { Chart, Spot } from '../../geometry/surface/chart.ts';
import { spotOf } from '../../geometry/surface/place.ts';
import type { JointSide } from '../things/joint.ts';

/* The end of a plate at which it meets the next one of a joint, and places on it. */

export type End = 'top' | 'bottom';

export interface PlateEnd {
  readonly chart: Chart;
  readonly end: End;
  /** The row of the chart that it is, and the column of the middle. */
  readonly row: 0 | 1;
  readonly middle: number;
}

/**
 * An end of a form; nothing where it has none. A dome stands with its crown to the front and its front downward: its rim at the
 * back is its upper end.
 */
export function endOf(chart: Chart, end: End): PlateEnd | undefined {
  const edge = chart.edges.get(end);
  if (edge) {
    const row = edge[0]![1] < 0.5 ? 0 : 1;
    return { chart, end, row, middle: 0.5 };
  }
  return chart.edges.has('rim') && chart.closed ? { chart, end, row: 0, middle: end === 'top' ? 0.5 : 0 } : undefined;
}

/** On the middle line, so far in from the end, mm. */
export const onMiddle = ({ chart, row, middle }: PlateEnd, inset: number): Spot =>
  inset === 0 ? [middle, row] : measured(chart, straight([middle, row], [middle, 1 - row]), 128).at(inset);

/** So far in from a side edge and from the end, mm; or in words why there is no such place. */
export function besideEdge({ chart, end, row }: PlateEnd, side: JointSide, inset: number, up: number): Spot | string {
  if (chart.edges.has(side))
    return spotOf(chart, { distance: inset, line: side, way: 'from' }, { distance: up, line: end, way: 'from' });
  if (!chart.closed) return say`it has no ${side} edge`;
  // What goes all round, as a dome does, is widest there. The left as seen from outside is the wearer's right.
  const column = side === 'left' ? 0.75 : 0.25;
  const way = measured(chart, straight([column, row], [column, 1 - row]), 128);
  return way.reaches(inset) ? way.at(inset) : `so far in from its rim it lies off the plate`;
}

/** A share of the way round, from the left, so far in from the end, mm. */
export function onColumn({ chart, row }: PlateEnd, column: number, inset: number): Spot {
  return measured(chart, straight([column, row], [column, 1 - row]), 128).at(inset);
}
