import { offsetIn } from '../../../geometry/outline/allowance.ts';
import type { Steps } from '../../../incremental/steps.ts';
import { type System, show } from '../../../model/values/show.ts';
import type { LineKind, Pattern, PatternLine } from './pattern.ts';

/** What the cutter follows, and on which side of it the waste lies. */
const CUT: Partial<Record<LineKind, 1 | -1>> = { outline: 1, opening: -1, hole: -1 };

/**
 * The pattern for a cutter that follows its lines blindly: everything that is cut is moved half the kerf into the waste, so that the
 * part comes out as it is drawn. Outer corners are gone round on an arc, which leaves them sharp.
 */
export function* asideOfKerf(pattern: Pattern, kerf: number, system: System): Steps<Pattern> {
  if (!(kerf > 0)) return { ...pattern, notes: [...pattern.notes, kerfNote(kerf, system)] };
  let lost = 0;
  let tooFine = 0;
  const lines: PatternLine[] = [];
  for (const [i, line] of pattern.lines.entries()) {
    if (i % AT_ONCE === AT_ONCE - 1) yield undefined;
    const side = CUT[line.kind];
    const moved = side && line.path.closed ? yield* offsetIn(line.path, (side * kerf) / 2) : [line.path];
    if (!moved) tooFine++;
    else if (!moved.length) lost++;
    for (const path of moved ?? [line.path]) lines.push({ ...line, path });
  }
  const notes = [
    ...pattern.notes,
    kerfNote(kerf, system),
    ...(lost ? [lostNote(lost)] : []),
    ...(tooFine ? [`Too finely drawn to be moved aside of the kerf, and cut where the part ends: ${tooFine}.`] : []),
  ];
  return { ...pattern, lines, notes, ...(lost ? { lostToKerf: lost } : {}) };
}

/** Lines that are moved before others may go first. */
const AT_ONCE = 20;

/** Where the cut lines lie: whoever sets the cutter must know. */
export const kerfNote = (kerf: number, system: System): string =>
  kerf > 0
    ? `Cut lines lie half the kerf of ${show(kerf, 'mm', system)} in the waste: the cutter must not allow for it again.`
    : 'Its material says no kerf: cut lines lie where the part ends.';

export const lostNote = (lost: number): string => `Narrower than the kerf and left out: ${lost}.`;
