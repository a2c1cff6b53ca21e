import type { Duty, Model } from '../model/model.ts';
import type { PieceModel } from '../model/piece.ts';
import { rulebook, strictest } from '../model/rulebook.ts';
import { show } from '../model/show.ts';
import type { Check } from './check.ts';
import { thickening } from './stock.ts';
import { placeIn } from './writing.ts';

/** What a domed steel plate is usually left with at its thinnest, mm: common practice (no source), and no rulebook. */
export const USUAL_CROWN: Readonly<Record<Duty, number>> = { display: 0, stage: 0.6, contact: 1.2 };

export const check: Check = {
  code: 'crown-too-thin',
  title: 'A domed plate ends too thin',
  family: 'Forming',
  severity: 'warning',
  what: 'The thinnest place of a dished or raised plate ends under what the rulebook asks of a finished plate; without a rulebook, under what is usual for the duty in steel (0.6 mm on stage, 1.2 mm in contact). Cannot reach it: an error; likely not: a warning; may not: information.',
  why: 'Rulebooks measure the finished plate, and a forming crown is the first place a caliper goes to.',
  todo: 'Start from thicker stock, or raise instead of dishing.',
  formula: 't₀ ≥ t(asked) × t₀ ÷ t(crown)',
  source: 'The spec’s own rules; otherwise common practice (no source). Thinning: volume constancy and the dome models',
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
    const least = piece.figure('thickness.least');
    const start = piece.thickness();
    const material = piece.material();
    if (!least || !piece.figure('thickness.crown') || start === undefined || !material) return;
    const limit = limitOf(model, piece);
    if (!limit) return;
    const low = least.low ?? least.value;
    const high = least.high ?? least.value;
    if (low >= limit.value - 0.005) return;
    const severity =
      high < limit.value - 0.005 ? 'error' : least.value < limit.value - 0.005 ? undefined : 'information';
    const verb = severity === 'error' ? 'cannot end thicker than' : severity ? 'may end at' : 'is likely to end at';
    const shownValue = severity === 'error' ? high : severity ? low : least.value;
    const needed = (start * limit.value) / low;
    report(placeIn(piece, piece.formLine()), {
      severity,
      message: `“${piece.name}” ${verb} ${show(shownValue, 'mm', system)} at its thinnest, and ${limit.asks} ${show(limit.value, 'mm', system)}: to be sure, start from ${show(needed, 'mm', system)} or more.`,
      fixes: thickening(material, needed * 1.002),
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
      asks: `“${rules.name}” asks for`,
      related: [{ uri: rules.named.file.uri, place: ruled.line.place, message: rules.title }],
    };
  }
  const duty = model.duty();
  const family = piece.material()?.metal()?.family;
  if (rules || !duty || !USUAL_CROWN[duty] || (family !== 'carbon steel' && family !== 'stainless steel'))
    return undefined;
  return { value: USUAL_CROWN[duty], asks: `for ${duty} steel is usually left at`, related: [] };
}
