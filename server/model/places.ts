import { type Distance, type FormPlace, spotOf } from '../trade/surface/place.ts';
import { tangents } from '../trade/surface/walk.ts';
import type { PieceModel } from './piece.ts';
import type { LineReading } from './reading.ts';

/** Where an opening or another thing sits on the form, as its `at` says, or in words why there is no such place. */
export function placeOfLine(piece: PieceModel, line: LineReading): FormPlace | string | undefined {
  const chart = piece.chart();
  if (!chart || !line.has('at')) return undefined;
  const first = distanceOf(line, 'across', 'way', 'line');
  if (!first) return undefined;
  const spot = spotOf(chart, first, distanceOf(line, 'along', 'way2', 'line2'));
  if (typeof spot === 'string') return spot;
  const [across] = tangents(chart, spot);
  return { spot, across };
}

function distanceOf(line: LineReading, slot: string, way: string, edge: string): Distance | undefined {
  const distance = line.length(slot, 'at');
  const name = line.text(edge, 'at');
  if (distance === undefined || name === undefined) return undefined;
  const side = line.text(way, 'at') ?? (['above', 'below'] as const).find((word) => line.word(word, 'at'));
  return { distance, line: name, way: (side ?? 'from') as Distance['way'] };
}
