import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { rivetHoleOf } from '../../support/limits.ts';
import { lengthShown } from '../../support/rivets.ts';
import { changingLength, isOwn, nextUp, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'hole-does-not-fit-rivet',
  title: 'Holes that do not fit their rivets',
  family: 'Rivets',
  severity: 'warning',
  what: 'A piece has a row of holes along an edge, and a riveted seam runs along the same edge at the same distance: the holes are those of its rivets. Under the shank nothing goes in (an error); far over it the shank does not fill them; a tight one is information.',
  why: 'A shank that does not fill its hole bends before it swells, and the plates shift on each other ever after.',
  todo: 'Take the hole that the seam’s figure gives.',
  formula: 'D < d ≤ hole + 0.3 mm',
  usual: ['hole-slack'],
  source: 'FAA handbook drills (inch), DIN practice (metric, from memory); the slack is common practice (no source)',
  example: `material plate
  mild steel 1.5 mm
rivet small
  brass 4 x 10 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
  holes row 5 of 5.5 mm, along top, inset 9 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, count 5, inset 9 mm, peened domed
`,
  better: `material plate
  mild steel 1.5 mm
rivet small
  brass 4 x 10 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
  holes row 5 of 4.2 mm, along top, inset 9 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, count 5, inset 9 mm, peened domed
`,
  riveted({ seam, rivet, size }, report, model) {
    const system = model.units();
    const inset = seam.inset();
    const hole = rivetHoleOf(size.shank);
    if (inset === undefined) return;
    for (const { piece, edge } of seam.along()) {
      for (const { line, kind, long } of piece.openings()) {
        if (kind !== 'holes' || line.text('edge', 'along') !== edge) continue;
        const from = line.length('inset', 'inset');
        if (from === undefined || Math.abs(from - inset) > SAME_ROW) continue;
        const most = (hole.high ?? hole.value) + usual('hole-slack');
        const cannot = long < size.shank - 0.02;
        const tight = long < (hole.low ?? hole.value) - 0.02;
        if (!tight && long <= most + 0.02) continue;
        const shank = lengthShown(size.shank, system, rivet);
        report(placeIn(piece, line, line.filled('holes')), {
          severity: cannot ? 'error' : tight ? 'information' : undefined,
          message: say`${show(long, 'mm', system)} holes ${cannot ? say`do not take` : tight ? say`are tight for` : say`are too large for`} “${rivet.name}” of “${seam.name}”, whose shank is ${shank}: ${show(hole.value, 'mm', system)} fits.`,
          fixes: isOwn(piece, line)
            ? changingLength(
                line,
                { slot: 'holes' },
                nextUp(hole.value, line.expressions('holes')[0], 0.1),
                (text) => say`Make the holes ${text}`,
                true,
              )
            : [],
          related: [{ uri: seam.named.file.uri, place: seam.place, message: say`seam ${seam.name}` }],
        });
      }
    }
  },
};

/** Rows this near each other, mm, are one row: their holes would run into each other. */
const SAME_ROW = 1;
