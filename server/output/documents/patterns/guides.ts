import { levelLines } from '../../../geometry/flatten/levels.ts';
import { lengthOfPath } from '../../../geometry/outline/measure.ts';
import type { Path } from '../../../geometry/outline/path.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import { show } from '../../../model/values/show.ts';
import { levelsOf } from '../strain-map.ts';
import type { PatternLabel, PatternLine } from './pattern.ts';

/** What a pattern shows of how its metal is to be stretched and gathered. */
export interface Guides {
  readonly lines: readonly PatternLine[];
  readonly labels: readonly PatternLabel[];
  readonly notes: readonly string[];
}

/** More lines than this hide the pattern. */
const MOST = 4;
/** A line shorter than this says nothing, mm. */
const SHORTEST = 30;

/** The lines of even thickness on a piece that is laid flat by numbers: where the metal is thinned and where it is gathered. */
export function guidesOf(piece: PieceModel): Guides | undefined {
  const flattening = piece.flattening();
  const thickness = piece.material()?.thickness()?.value;
  if (!flattening || 'refused' in flattening || !flattening.formed || thickness === undefined) return undefined;
  const { flat } = flattening;
  const units = piece.model.units();
  const values = flat.thickness.map((share) => share * thickness);
  const lines: PatternLine[] = [];
  const labels: PatternLabel[] = [];
  for (const level of levelsOf(values, { thickness, system: units, most: MOST }))
    for (const { points, closed } of levelLines(flat, values, level)) {
      const vertices = (closed ? points.slice(0, -1) : points).map(([x, y]) => ({ x, y }));
      const path: Path = { vertices, closed };
      if (lengthOfPath(path) < SHORTEST) continue;
      lines.push({ kind: 'guide', path });
      labels.push({ what: 'guide', text: show(level, 'mm', units), along: path, side: 'left' });
    }
  if (!lines.length) return undefined;
  const notes = [
    `Fine lines with a thickness: what forming leaves of ${show(thickness, 'mm', units)} there. Stretch where it is less, gather where it is more.`,
  ];
  return { lines, labels, notes };
}
