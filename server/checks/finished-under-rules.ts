import { rulebook, strictest } from '../model/rulebook.ts';
import { show } from '../model/show.ts';
import type { Check } from './check.ts';
import { thickening } from './stock.ts';
import { placeIn } from './writing.ts';

export const check: Check = {
  code: 'finished-under-rules',
  title: 'A plate under what the rulebook asks',
  family: 'Fit',
  severity: 'error',
  what: 'The stock of a plate is thinner than the rulebook lets it start, or a plate that is not domed ends under what it asks of a finished one. Gauge numbers are taken at their real thickness: 16 ga mild steel is 1.52 mm, not 1.6.',
  why: 'The inspector measures the plate, not the name it was sold under.',
  todo: 'Take the next thicker stock.',
  formula: 't ≥ t(asked)',
  source: 'The spec’s own rules, as their user entered them',
  example: `build "Knee"
  duty contact, rules list-book
rules list-book
  book "Rules of the list", dated 2026-01-01
  finished at least 1.6 mm
material plate
  mild steel 16 ga
piece cop
  from plate
  plate 120 x 100 mm
`,
  better: `build "Knee"
  duty contact, rules list-book
rules list-book
  book "Rules of the list", dated 2026-01-01
  finished at least 1.6 mm
material plate
  mild steel 14 ga
piece cop
  from plate
  plate 120 x 100 mm
`,
  piece(piece, report, model) {
    const rules = rulebook(model);
    if (!rules) return;
    const system = model.units();
    const material = piece.material();
    const start = piece.thickness();
    if (!material?.metal() || start === undefined || material.kind() !== 'sheet') return;
    const first = strictest(rules.start, piece);
    // What forming leaves of a dome is the matter of crown-too-thin.
    const last = piece.figure('thickness.crown') ? undefined : strictest(rules.finished, piece);
    const left = piece.figure('thickness.least')?.value ?? start;
    const broken =
      first && start < first.value - 0.005
        ? { limit: first, has: start, word: 'starts from' }
        : last && left < last.value - 0.005
          ? { limit: last, has: left, word: 'ends at' }
          : undefined;
    if (!broken) return;
    report(placeIn(piece, piece.line('from')), {
      message: `“${piece.name}” ${broken.word} ${show(broken.has, 'mm', system)}, and “${rules.name}” asks for ${show(broken.limit.value, 'mm', system)}.`,
      fixes: thickening(material, (start * broken.limit.value) / broken.has),
      related: [
        { uri: rules.named.file.uri, place: broken.limit.line.place, message: rules.title },
        ...(material.stock()
          ? [{ uri: material.named.file.uri, place: material.stock()!.place, message: `material ${material.name}` }]
          : []),
      ],
    });
  },
};
