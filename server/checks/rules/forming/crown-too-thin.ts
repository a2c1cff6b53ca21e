import { say } from '../../../../l10n/say.ts';
import { rulebook, strictest } from '../../../model/figures/rulebook.ts';
import type { Model } from '../../../model/spec.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { thickening } from '../../support/stock.ts';
import { plateRow, usualFor } from '../../support/usual.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'crown-too-thin',
  title: 'A domed plate ends too thin',
  family: 'Forming',
  severity: 'warning',
  what: 'The thinnest place of a dished or raised plate, less what planishing takes and without zinc, ends under what the rulebook asks of a finished plate; without a rulebook, under what is usual for the duty in steel, by what it fits. Cannot reach it: an error where the rulebook asks; likely not: a warning; may not: information.',
  why: 'Rulebooks measure the finished plate, and a forming crown is the first place a caliper goes to.',
  todo: 'Start from thicker stock, or raise instead of dishing.',
  usual: ['head-plate', 'body-plate', 'limb-plate'],
  formula: 't₀ ≥ t(asked) × t₀ ÷ t(crown)',
  source:
    'The spec’s own rules; otherwise common practice (no source). Thinning: least energy of the way of working, the metal kept',
  example: `build "Knee"
  duty contact, rules list-book
rules list-book
  book "Rules of the list", dated 2026-01-01
  finished at least 1.6 mm
material plate
  mild steel 1.6 mm
piece cop
  from plate
  dome 140 mm, deep 40 mm
  dish
`,
  better: `build "Knee"
  duty contact, rules list-book
rules list-book
  book "Rules of the list", dated 2026-01-01
  finished at least 1.6 mm
material plate
  mild steel 3 mm
piece cop
  from plate
  dome 140 mm, deep 40 mm
  dish
`,
  piece(piece, report, model) {
    const system = model.units();
    const start = piece.thickness();
    const material = piece.material();
    const limit = limitOf(model, piece);
    if (!limit || start === undefined || !material) return;
    if (!piece.figure('thickness.crown')) return;
    const least = piece.figure('thickness.finished');
    if (!least) return;
    const low = least.low ?? least.value;
    const high = least.high ?? least.value;
    if (low >= limit.value - 0.005) return;
    const sure = high < limit.value - 0.005 ? 'cannot' : least.value < limit.value - 0.005 ? 'likely' : 'may';
    const verb = { cannot: 'cannot end thicker than', may: 'may end at', likely: 'is likely to end at' }[sure];
    const shownValue = { cannot: high, may: low, likely: least.value }[sure];
    const needed = (start * limit.value) / low;
    report(placeIn(piece, piece.formLine()), {
      // What is only usual forbids nothing.
      severity: sure === 'may' ? 'information' : sure === 'cannot' && !limit.isUsual ? 'error' : undefined,
      message: say`“${piece.name}” ${verb} ${show(shownValue, 'mm', system)} at its thinnest, and ${limit.asks} ${show(limit.value, 'mm', system)}: to be sure, start from ${show(needed, 'mm', system)} or more.`,
      fixes: thickening(piece, needed * 1.002, model),
      related: limit.related,
    });
  },
};

function limitOf(model: Model, piece: PieceModel) {
  const rules = rulebook(model);
  const ruled = rules && strictest(rules.finished, piece);
  if (rules && ruled) {
    return {
      value: ruled.value,
      asks: say`“${rules.name}” asks for`,
      related: [{ uri: rules.named.file.uri, place: ruled.line.place, message: rules.title }],
      isUsual: false,
    };
  }
  const duty = model.duty();
  const family = piece.material()?.metal()?.family;
  const usual = usualFor(model, plateRow(piece));
  if (!usual || (family !== 'carbon steel' && family !== 'stainless steel')) return undefined;
  return { value: usual.value, asks: say`for ${duty} such steel is usually left at`, related: [], isUsual: true };
}
