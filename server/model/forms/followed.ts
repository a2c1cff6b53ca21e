import type { Word } from '../../../grammar/tree.ts';
import { turnAlong } from '../../geometry/flatten/strip.ts';
import type { SurfaceLine } from '../../geometry/surface/walk.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import type { LineReading } from '../names/line-reading.ts';
import type { Named } from '../names/spec-file.ts';
import { NOT_KNOWN, type NotKnown } from './answers.ts';
import { type EdgeRun, lineRun } from './edge-run.ts';
import type { Shaped } from './form.ts';

/** A long edge of what follows a line turns with the surface as that line does. */
export function runAlong(length: number, piece: Shaped): EdgeRun | NotKnown {
  const line = piece.baseLine();
  return line ? lineRun(line.points, line.normals, length) : NOT_KNOWN;
}

/** The edge or line of another piece that a line names, and how long it is; nothing while it is being written. */
export function followedBy(
  line: LineReading,
  piece: Shaped,
):
  | {
      readonly named: Named;
      readonly neighbour: Shaped;
      readonly word: Word;
      readonly edge: string;
      readonly length: Result | undefined;
    }
  | undefined {
  const word = line.filled('edge')?.items[0];
  if (word?.kind !== 'word') return undefined;
  const [pieceKey, edge] = word.key.split('.');
  const named = edge ? piece.named.file.find(pieceKey!) : undefined;
  const neighbour = named?.kind === 'piece' ? piece.pieceNamed(named) : undefined;
  return named && neighbour && neighbour !== piece
    ? { named, neighbour, word, edge: edge!, length: neighbour.edgeLength(edge!) }
    : undefined;
}

/** How far a line turns in its surface, degrees; nothing for one that is not known. */
export const turnOf = (line: SurfaceLine | undefined): number | undefined =>
  line && turnAlong(Float64Array.from(line.points.flat()), Float64Array.from(line.normals.flat()));
