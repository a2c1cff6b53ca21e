import { say } from '../../../../l10n/say.ts';
import { addingLine, type Check } from '../../check.ts';
import { isOwn, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'hardened-not-tempered',
  title: 'Hardened and left glass-hard',
  family: 'Forming',
  severity: 'warning',
  what: 'A piece is hardened, and no temper line follows.',
  why: 'As quenched, carbon steel is brittle: a blow, or a fall on the floor, breaks it.',
  todo: 'Temper it straight after the quench.',
  source: 'Workshop practice; tempers of 200 to 600 °C for 1050 (from memory)',
  example: `material plate
  spring steel 1.5 mm, grade "1050"
piece brow
  from plate
  strip 300 x 40 mm
  harden 830 C, quench oil
`,
  better: `material plate
  spring steel 1.5 mm, grade "1050"
piece brow
  from plate
  strip 300 x 40 mm
  harden 830 C, quench oil
  temper 290 C
`,
  piece(piece, report) {
    const lines = piece.lines();
    const at = lines.findIndex((line) => line.id === 'harden');
    const line = lines[at];
    if (!line || !piece.material()?.metal()?.hardens) return;
    if (lines.some((each, i) => each.id === 'temper' && (i > at || !isOwn(piece, each)))) return;
    report(placeIn(piece, line), {
      message: say`“${piece.name}” is hardened and not tempered: as quenched it breaks like glass.`,
      fixes: isOwn(piece, line) ? [addingLine(line.file.uri, 'Temper it at 290 °C', line.place, 'temper 290 C')] : [],
    });
  },
};
