import type { Figure } from './figure.ts';
import type { PieceModel } from './piece.ts';
import type { LineReading } from './reading.ts';
import type { WearerModel } from './wearer.ts';

/** Whom a piece fits and with what between: its `fits` line. */
export interface Fit {
  readonly line: LineReading;
  readonly wearer: WearerModel;
  readonly region: string;
  readonly liner: number;
  readonly ease: number;
  measure(words: string): Figure | undefined;
}

export function fitOf(piece: PieceModel): Fit | undefined {
  const line = piece.line('fits');
  const named = line?.named('wearer');
  if (!line || named?.kind !== 'wearer') return undefined;
  const wearer = piece.model.wearerOf(named);
  return {
    line,
    wearer,
    region: line.text('region') ?? 'head',
    liner: Math.max(0, line.length('liner', 'liner') ?? 0),
    ease: Math.max(0, line.length('ease', 'ease') ?? 0),
    measure: (words) => wearer.measure(words),
  };
}
