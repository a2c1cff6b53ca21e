import { say } from '../../../../l10n/say.ts';
import { soundMetal } from '../../../model/figures/forming.ts';
import { type Limit, rulebook, strictest } from '../../../model/figures/rulebook.ts';
import type { Figure } from '../../../model/values/figure.ts';
import { show } from '../../../model/values/show.ts';
import { intervalOf } from '../../../trade/reckoning/interval.ts';
import type { Check } from '../../check.ts';
import { thickening } from '../../support/stock.ts';
import { inWords, isUnder } from '../../support/sure.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'finished-under-rules',
  title: 'A plate under what the rulebook asks',
  family: 'Fit',
  severity: 'error',
  what: 'The stock of a plate is thinner than the rulebook lets it start, or a plate that is not domed ends under what it asks of a finished one. Gauge numbers are taken at their real thickness: 16 ga mild steel is 1.52 mm, not 1.6. Zinc does not count as steel, and planishing takes 2 to 5 %. Where only the thin end of a tolerance is under it, it is a warning; of what a mill may deliver, information.',
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
    const start = material?.thickness();
    if (!material?.metal() || !start || material.kind() !== 'sheet') return;
    const first = strictest(rules.start, piece);
    // What forming leaves of a dome is the matter of crown-too-thin.
    const last = piece.figure('thickness.crown') ? undefined : strictest(rules.finished, piece);
    const left = piece.figure('thickness.finished') ?? start;
    const sold = soundMetal(material, start);
    const under = (
      limit: Limit | undefined,
      has: Pick<Figure, 'value' | 'low' | 'high'>,
      surely: string,
      perhaps: string,
    ) => {
      const sure = limit && isUnder(has, limit.value, 0.005);
      return sure && { sure, limit, has, word: inWords(sure, surely, perhaps) };
    };
    const broken = under(first, sold, 'starts from', 'may start from') ?? under(last, left, 'ends at', 'may end at');
    if (!broken) return;
    const least = intervalOf(broken.has).low;
    const told = broken.sure === 'may' ? least : broken.has.value;
    report(placeIn(piece, piece.line('from')), {
      severity:
        broken.sure === 'cannot'
          ? undefined
          : broken.sure === 'may' && material.figures().get('tolerance')
            ? 'information'
            : 'warning',
      message: say`“${piece.name}” ${broken.word} ${show(told, 'mm', system)}, and “${rules.name}” asks for ${show(broken.limit.value, 'mm', system)}.`,
      fixes: thickening(piece, (start.value * broken.limit.value) / least, model),
      related: [
        { uri: rules.named.file.uri, place: broken.limit.line.place, message: rules.title },
        ...(material.stock()
          ? [{ uri: material.named.file.uri, place: material.stock()!.place, message: say`material ${material.name}` }]
          : []),
      ],
    });
  },
};
