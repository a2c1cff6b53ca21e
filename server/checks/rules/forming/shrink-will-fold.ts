import { say } from '../../../../l10n/say.ts';
import { gatheringsOf } from '../../../model/figures/turning.ts';
import { show } from '../../../model/values/show.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { changingLength, isOwn, nextDown, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'shrink-will-fold',
  title: 'An edge that folds where it is turned',
  family: 'Forming',
  severity: 'warning',
  what: 'A flange or a hem is turned along an outside curve, the rim of a disc, an oval or a dome, and its edge has to gather by more than 5 %.',
  why: 'Metal that is to gather and is not held folds over itself, and a fold that is hammered flat is a crack.',
  todo: 'Make it narrower, work it down in tucks a little at a time, or cut notches.',
  formula: 'e = w × (1 − cos α) ÷ (R + w)',
  usual: ['edge-gather'],
  source: 'Way round before and after (derived); the limit is common practice (no source)',
  example: `material plate
  mild steel 1 mm
piece lid
  from plate
  disc 120 mm
  edge rim hemmed 6 mm
`,
  better: `material plate
  mild steel 1 mm
piece lid
  from plate
  disc 400 mm
  edge rim hemmed 5 mm
`,
  piece(piece, report, model) {
    const system = model.units();
    for (const { line, edge, strain, radius, width, turned, slot } of gatheringsOf(piece)) {
      const gathers = strain.outside === undefined ? -Math.expm1(strain.value) : 0;
      const most = usual('edge-gather') / 100;
      if (gathers <= most) continue;
      // w (1 − cos α) ÷ (R + w) is just the limit.
      const narrow = (most * radius) / (1 - Math.cos((turned * Math.PI) / 180) - most);
      report(placeIn(piece, line), {
        message: say`Turned ${show(width, 'mm', system)} wide round ${edge}, the edge has to gather by ${Math.round(gathers * 100)} %: past ${Math.round(most * 100)} % it folds unless it is worked in tucks.${narrow >= 1 ? say` Keep it under ${show(narrow, 'mm', system)}.` : ''}`,
        fixes:
          slot && isOwn(piece, line) && narrow >= 4 * (piece.thickness() ?? 0)
            ? changingLength(
                line,
                { slot },
                nextDown(narrow, line.expressions(slot)[0]),
                (text) => say`Make it ${text} wide`,
              )
            : [],
      });
    }
  },
};
