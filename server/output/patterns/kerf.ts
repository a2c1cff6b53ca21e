import { type System, show } from '../../model/show.ts';
import { offset } from '../../trade/outline/allowance.ts';
import type { LineKind, Pattern, PatternLine } from './pattern.ts';

/** What the cutter follows, and on which side of it the waste lies. */
const CUT: Partial<Record<LineKind, 1 | -1>> = { outline: 1, opening: -1, hole: -1 };

/**
 * The pattern for a cutter that follows its lines blindly: everything that is cut is moved half the kerf into the waste, so that the
 * part comes out as it is drawn. Outer corners are gone round on an arc, which leaves them sharp.
 */
export function asideOfKerf(pattern: Pattern, kerf: number, system: System): Pattern {
  if (!(kerf > 0)) return { ...pattern, notes: [...pattern.notes, kerfNote(kerf, system)] };
  let lost = 0;
  const lines = pattern.lines.flatMap((line): PatternLine[] => {
    const side = CUT[line.kind];
    if (!side || !line.path.closed) return [line];
    const moved = offset(line.path, (side * kerf) / 2);
    if (!moved.length) lost++;
    return moved.map((path) => ({ ...line, path }));
  });
  const notes = [...pattern.notes, kerfNote(kerf, system), ...(lost ? [lostNote(lost)] : [])];
  return { ...pattern, lines, notes, ...(lost ? { lostToKerf: lost } : {}) };
}

/** Where the cut lines lie: whoever sets the cutter must know. */
export const kerfNote = (kerf: number, system: System): string =>
  kerf > 0
    ? `Cut lines lie half the kerf of ${show(kerf, 'mm', system)} in the waste: the cutter must not allow for it again.`
    : 'Its material says no kerf: cut lines lie where the part ends.';

export const lostNote = (lost: number): string => `Narrower than the kerf and left out: ${lost}.`;
