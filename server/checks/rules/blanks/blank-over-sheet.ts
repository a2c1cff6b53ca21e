import { say } from '../../../../l10n/say.ts';
import { showSize } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { overSheet } from '../../support/sheets.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'blank-over-sheet',
  title: 'A blank larger than every sheet',
  family: 'Blanks',
  severity: 'error',
  what: 'The blank fits on no sheet and no offcut of its material, less the margin, whichever way round it is laid. Where a rim that draws in less would let it fit, it is a warning.',
  why: 'It cannot be cut in one piece from what is named.',
  todo: 'Name a larger sheet, or split the piece with a seam.',
  formula: 'long ≤ L − 2m and wide ≤ W − 2m',
  source: 'Geometry: bounding sizes laid square to the sheet',
  example: `material plate
  mild steel 1.5 mm
  sheet 500 x 500 mm
piece back
  from plate
  plate 620 x 400 mm
`,
  better: `material plate
  mild steel 1.5 mm
  sheet 1000 x 2000 mm
piece back
  from plate
  plate 620 x 400 mm
`,
  piece(piece, report, model) {
    const system = model.units();
    const over = overSheet(piece);
    if (!over) return;
    const { blank, largest, isStrip, isSure } = over;
    if (isStrip) return;
    const material = piece.material()!;
    report(placeIn(piece, piece.line('blank') ?? piece.formLine()), {
      severity: isSure ? undefined : 'warning',
      message: say`The blank of “${piece.name}” ${isSure ? say`is` : say`may be`} ${showSize(blank.long, blank.wide, system)}, and the largest sheet of “${material.name}” gives ${showSize(largest.long, largest.wide, system)}${material.margin() ? say` within its margin` : ''}: a larger sheet, or a seam.`,
      related: [{ uri: material.named.file.uri, place: largest.line.place, message: 'The largest sheet' }],
    });
  },
};
