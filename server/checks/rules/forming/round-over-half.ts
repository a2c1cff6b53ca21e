import { say } from '../../../../l10n/say.ts';
import { show, trim } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { changingLength, downTo, isOwn, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'round-over-half',
  title: 'An edge rounded to more than half its thickness',
  family: 'Forming',
  severity: 'warning',
  what: 'The corners of a plain edge are to be rounded to a radius of more than half the thickness of the plate.',
  why: 'Two corners of half the thickness make the edge fully round. A greater radius comes to a point again.',
  todo: 'Half the thickness at most; for a blunter edge roll or hem it, or take thicker plate.',
  formula: 'r ≤ t / 2',
  source: 'Geometry',
  example: `material plate
  mild steel 1.2 mm
piece brow
  from plate
  strip 300 x 40 mm
  edges rounded 1 mm
`,
  better: `material plate
  mild steel 1.2 mm
piece brow
  from plate
  strip 300 x 40 mm
  edges rounded 0.6 mm
`,
  piece(piece, report, model) {
    const thickness = piece.thickness();
    if (thickness === undefined) return;
    const system = model.units();
    for (const { line, round } of piece.rounds()) {
      if (round === undefined || round <= thickness / 2 + 0.02) continue;
      const most = downTo(thickness / 2, 0.05);
      report(placeIn(piece, line, line.filled('radius')), {
        message: say`Rounded to ${show(round, 'mm', system)}: ${show(thickness, 'mm', system)} plate is fully round at ${show(thickness / 2, 'mm', system)}.`,
        fixes: isOwn(piece, line)
          ? changingLength(line, { slot: 'radius' }, Number(trim(most, 2)), (text) => say`Round it to ${text}`, true)
          : [],
      });
    }
  },
};
