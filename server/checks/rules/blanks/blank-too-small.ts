import { say } from '../../../../l10n/say.ts';
import { show, showSize } from '../../../model/values/show.ts';
import { type Check, replacing } from '../../check.ts';
import { isOwn, placeIn, placeOf, upTo, written } from '../../support/writing.ts';

export const check: Check = {
  code: 'blank-too-small',
  title: 'A blank of your own that is too small',
  family: 'Blanks',
  severity: 'warning',
  what: 'The blank line is smaller than what the form needs with its edges, as it is worked. Where even a held rim, which is all stretch, needs more, or the form is only bent, it is an error.',
  why: 'Metal that was cut away does not come back: the rim ends short, or the crown pays for it.',
  todo: 'Cut it larger, or leave the line out and take the blank that is worked out.',
  formula: 'the blank that the form needs, and its allowances',
  source: 'Geometry; hammered forms: least energy of the way of working, with the held rim as the least',
  example: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 180 mm, deep 50 mm
  dish
  blank disc 190 mm
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
    const { needed, blank: computed } = worked;
    const long = Math.max(blank.long, blank.wide);
    const wide = Math.min(blank.long, blank.wide);
    const needLong = Math.max(needed.long, needed.wide);
    const needWide = Math.min(needed.long, needed.wide);
    if (long >= needLong - 0.05 && wide >= needWide - 0.05) return;
    const { least } = worked;
    const cannot =
      !least || long < Math.max(least.long, least.wide) - 0.05 || wide < Math.min(least.long, least.wide) - 0.05;
    const round = line.filled('diameter');
    const size = line.filled('size');
    const item = size?.items[0];
    const parts = line.expressions('size');
    const fixes =
      round && isOwn(piece, line)
        ? [written(upTo(computed.long, 1), line.expressions('diameter')[0])].map((text) =>
            replacing(line.file.uri, say`Cut it ${text}`, placeOf(line, round), text, true),
          )
        : item?.kind === 'measure' && parts.length === 2 && isOwn(piece, line)
          ? [
              `${upTo(Math.max(blank.long, computed.long), 1)} x ${upTo(Math.max(blank.wide, computed.wide), 1)} mm`,
            ].map((text) => replacing(line.file.uri, say`Cut it ${text}`, placeOf(line, item), text, true))
          : [];
    report(placeIn(piece, line), {
      severity: cannot ? 'error' : undefined,
      message: say`This blank is ${blank.shape.kind === 'round' ? show(long, 'mm', system) : showSize(long, wide, system)}, and “${piece.name}” ${cannot ? say`needs` : say`is likely to need`} ${Math.abs(needLong - needWide) < 0.05 ? show(needLong, 'mm', system) : showSize(needLong, needWide, system)}.`,
      fixes,
    });
  },
};
