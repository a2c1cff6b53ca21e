import { say } from '../../../../l10n/say.ts';
import { rulebook } from '../../../model/figures/rulebook.ts';
import type { LengthAt } from '../../../model/names/line-reading.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { changingLength, isOwn, nextDown, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'opening-over-rules',
  title: 'An opening wider than the rulebook allows',
  family: 'Fit',
  severity: 'warning',
  what: 'The narrower measure of an opening lets a rod of the size through that the rulebook forbids.',
  why: 'Rulebooks name a rod because that is what comes through.',
  todo: 'Make it narrower, or bar it.',
  formula: 'narrower measure < rod',
  source: 'The spec’s own rules, as their user entered them',
  example: `build "Visor"
  duty contact, rules list-book
rules list-book
  book "Rules of the list", dated 2026-01-01
  openings under 25.4 mm
material plate
  mild steel 2 mm
piece visor
  from plate
  plate 220 x 160 mm
  slot eye 110 x 30 mm, at 50 mm from top
`,
  better: `build "Visor"
  duty contact, rules list-book
rules list-book
  book "Rules of the list", dated 2026-01-01
  openings under 25.4 mm
material plate
  mild steel 2 mm
piece visor
  from plate
  plate 220 x 160 mm
  slot eye 110 x 20 mm, at 50 mm from top
`,
  piece(piece, report, model) {
    const rules = rulebook(model);
    const limit = rules?.openings;
    if (!rules || !limit) return;
    const system = model.units();
    for (const { line, kind, long, wide } of piece.openings()) {
      const narrow = Math.min(long, wide);
      if (narrow < limit.value - 0.005) continue;
      const at: LengthAt & { readonly index?: number } =
        kind === 'slot'
          ? { slot: 'size', index: wide <= long ? 1 : 0 }
          : { slot: kind === 'hole' ? 'diameter' : 'holes' };
      report(placeIn(piece, line, line.filledAt(at)), {
        message: say`This opening is ${show(narrow, 'mm', system)} at its narrowest, and “${rules.name}” lets no ${show(limit.value, 'mm', system)} rod through.`,
        fixes: isOwn(piece, line)
          ? changingLength(
              line,
              at,
              nextDown(limit.value - 0.3, line.expressionsAt(at)[0]),
              (text) => say`Make it ${text}`,
            )
          : [],
        related: [{ uri: rules.named.file.uri, place: limit.line.place, message: rules.title }],
      });
    }
  },
};
