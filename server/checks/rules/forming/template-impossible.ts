import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { changingLength, isOwn, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'template-impossible',
  title: 'A template for which the piece has no section',
  family: 'Forming',
  severity: 'error',
  what: 'A template is asked for at a height to which the piece does not reach, along a line that it has not or that does not lie in one upright plane, or of a piece that is flat.',
  why: 'No board can be cut to a section that is not there.',
  todo: 'Give a height between the lowest and the highest place of the piece, or a line up its middle, its front or its side.',
  source: 'Geometry of the form',
  example: `material plate
  mild steel 1.5 mm
piece cop
  from plate
  dome 150 mm, deep 40 mm
  dish
  template at 60 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece cop
  from plate
  dome 150 mm, deep 40 mm
  dish
  template at 30 mm
`,
  piece(piece, report, model) {
    for (const { line, height, refused } of piece.templates()) {
      if (!refused) continue;
      const { why, nearest } = refused;
      const asked = height === undefined ? '' : say` at ${show(height, 'mm', model.units())}`;
      report(placeIn(piece, line, line.filled('height') ?? line.filled('edge')), {
        message: say`“${piece.name}” has no section${asked} for a template: ${why}.`,
        fixes:
          nearest !== undefined && isOwn(piece, line)
            ? changingLength(line, { slot: 'height' }, nearest, (text) => say`Take it at ${text}`)
            : [],
      });
    }
  },
};
