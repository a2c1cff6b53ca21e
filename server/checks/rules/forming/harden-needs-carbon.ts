import { say } from '../../../../l10n/say.ts';
import type { Check } from '../../check.ts';
import { isOwn, placeIn, removingLine } from '../../support/writing.ts';

export const check: Check = {
  code: 'harden-needs-carbon',
  title: 'A metal that no quench hardens',
  family: 'Forming',
  severity: 'error',
  what: 'A piece is to be hardened, and its metal has too little carbon, or is of a kind that quenching does not harden.',
  why: 'The heat scales and warps the piece and leaves it as soft as it was, or softer.',
  todo: 'Take a spring or alloy steel such as grade "1050", or leave the line out.',
  source: 'The metal table',
  example: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
  harden 830 C, quench oil
  temper 290 C
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
    const line = piece.line('harden');
    const metal = piece.material()?.metal();
    if (!line || !metal || metal.hardens) return;
    report(placeIn(piece, line), {
      message: say`Quenching does not harden ${metal.title}${metal.grade ? say` (${metal.grade})` : ''}: take a spring or alloy steel, such as grade "1050".`,
      fixes: isOwn(piece, line) ? [removingLine(line, 'Leave the hardening out')] : [],
    });
  },
};
