import { say } from '../../../../l10n/say.ts';
import { show, showSize } from '../../../model/values/show.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { isOwn, placeIn, removingLine } from '../../support/writing.ts';

export const check: Check = {
  code: 'blank-too-large',
  title: 'A blank of your own that is far too large',
  family: 'Blanks',
  severity: 'warning',
  what: 'The blank line is longer or wider than the most that the form can use, or is cut to, with what its edges need and something to trim. A form takes no more metal than it needs: what stands over is trimmed off and does not make it thicker.',
  why: 'It is a slip of the finger more often than a wish, and otherwise metal and work at the edge that go into the bin.',
  todo: 'Cut it smaller, or leave the line out and take the blank that is worked out.',
  usual: ['blank-over'],
  formula: 'long ≤ most × (1 + 15 %), each way',
  source:
    'Geometry; hammered forms: least energy of the way of working; what is too large is common practice (no source)',
  example: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 180 mm, deep 50 mm
  dish
  blank disc 280 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 180 mm, deep 50 mm
  dish
  blank disc 215 mm
`,
  piece(piece, report, model) {
    const system = model.units();
    const line = piece.line('blank');
    const blank = line && piece.blank();
    const worked = line && piece.workedBlank();
    if (!line || !blank?.overridden || !worked) return;
    const { blank: computed, most = computed } = worked;
    const sides = (size: { long: number; wide: number }) =>
      [Math.max(size.long, size.wide), Math.min(size.long, size.wide)] as const;
    const [long, wide] = sides(blank);
    const [mostLong, mostWide] = sides({
      long: Math.max(computed.long, most.long),
      wide: Math.max(computed.wide, most.wide),
    });
    const over = 1 + usual('blank-over') / 100;
    if (long <= mostLong * over && wide <= mostWide * over) return;
    const size = (each: readonly [number, number]) =>
      Math.abs(each[0] - each[1]) < 0.05 ? show(each[0], 'mm', system) : showSize(each[0], each[1], system);
    report(placeIn(piece, line), {
      message: say`This blank is ${size([long, wide])}, and “${piece.name}” can use ${size([mostLong, mostWide])} at the most: the rest is trimmed off.`,
      fixes: isOwn(piece, line) ? [removingLine(line, 'Take the blank that is worked out')] : [],
    });
  },
};
