import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { webLeastOf } from '../../support/limits.ts';
import { changingLength, isOwn, nextUp, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'web-too-thin',
  title: 'Too little metal between breathing holes',
  family: 'Holes',
  severity: 'warning',
  what: 'Breathing holes stand so close that less than two thicknesses of metal are left between them; holes that run into each other are an error.',
  why: 'Thin webs tear from hole to hole, and the punch pulls the last one open.',
  todo: 'Set them wider apart, or make them smaller.',
  usual: ['web'],
  formula: 'p − d ≥ 2 × t',
  source: 'Common practice (no source)',
  example: `material plate
  mild steel 1.5 mm
piece cheek
  from plate
  plate 140 x 100 mm
  breaths cheek-breaths 24 of 5 mm, rows 4, pitch 6.5 mm, at 50 mm from left and 50 mm from bottom
`,
  better: `material plate
  mild steel 1.5 mm
piece cheek
  from plate
  plate 140 x 100 mm
  breaths cheek-breaths 24 of 5 mm, rows 4, pitch 12 mm, at 70 mm from left and 50 mm from bottom
`,
  piece(piece, report, model) {
    const system = model.units();
    const thickness = piece.thickness();
    if (thickness === undefined || piece.material()?.kind() !== 'sheet') return;
    const least = webLeastOf(thickness).value;
    for (const { line, kind, long } of piece.openings()) {
      const pitch = kind === 'breaths' ? line.length('pitch', 'pitch') : undefined;
      if (pitch === undefined || pitch - long >= least - 0.02) continue;
      report(placeIn(piece, line, line.bound('pitch')), {
        severity: pitch <= long ? 'error' : undefined,
        message:
          pitch <= long
            ? `${show(long, 'mm', system)} holes ${show(pitch, 'mm', system)} apart run into each other.`
            : `Only ${show(pitch - long, 'mm', system)} is left between the holes: at least ${show(least, 'mm', system)} (2 t).`,
        fixes: isOwn(piece, line)
          ? changingLength(
              line,
              { slot: 'pitch', qualifier: 'pitch' },
              nextUp(long + least, line.expressions('pitch', 'pitch')[0]),
              (text) => `Set them ${text} apart`,
              true,
            )
          : [],
      });
    }
  },
};
