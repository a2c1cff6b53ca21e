import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { overSheet } from '../../support/sheets.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'strip-longer-than-sheet',
  title: 'A strip longer than its sheet',
  family: 'Blanks',
  severity: 'warning',
  what: 'A strip or a trim is longer than the longest sheet or offcut of its material.',
  why: 'It has to be joined from two lengths, and the join wants a lap, a rivet and a place where it does not show.',
  todo: 'Name a longer sheet, or make two pieces with a seam where the join is to be.',
  source: 'Geometry',
  example: `material binding
  brass 0.9 mm
  sheet 300 x 600 mm
piece trim
  from binding
  strip 720 x 18 mm
`,
  better: `material binding
  brass 0.9 mm
  sheet 600 x 1200 mm
piece trim
  from binding
  strip 720 x 18 mm
`,
  piece(piece, report, model) {
    const system = model.units();
    const over = overSheet(piece);
    if (!over) return;
    const { blank, largest, isStrip } = over;
    if (!isStrip) return;
    const material = piece.material()!;
    report(placeIn(piece, piece.line('blank') ?? piece.formLine()), {
      message: say`“${piece.name}” is ${show(Math.max(blank.long, blank.wide), 'mm', system)} long, and the longest sheet of “${material.name}” ${show(Math.max(largest.long, largest.wide), 'mm', system)}: join it from ${Math.ceil(Math.max(blank.long, blank.wide) / Math.max(largest.long, largest.wide))} lengths.`,
      related: [{ uri: material.named.file.uri, place: largest.line.place, message: 'The longest sheet' }],
    });
  },
};
