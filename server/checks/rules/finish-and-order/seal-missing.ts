import { say } from '../../../../l10n/say.ts';
import { layerOf } from '../../../model/operations/steps.ts';
import { addingLine, type Check } from '../../check.ts';
import { stepName } from '../../support/finishes.ts';

export const check: Check = {
  code: 'seal-missing',
  title: 'A finish that ends without a seal',
  family: 'Finish and order',
  severity: 'information',
  what: 'A finish on bare carbon steel, or one with a patina, a blue or a blackening, ends without oil, wax, lacquer or paint.',
  why: 'Bare and coloured metal rusts from the first damp glove, and a patina rubs off on whatever it touches.',
  todo: 'End it with oil or wax, and again after every wearing.',
  source: 'Workshop practice: colour, then oil or wax',
  example: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
finish dark
  on brow
  sand 120, 180 grit
  blacken, cold
`,
  better: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
finish dark
  on brow
  sand 120, 180 grit
  blacken, cold
  oil
`,
  finish(finish, report, model) {
    const last = finish.steps[finish.steps.length - 1];
    // A primer alone waits for its paint, or for a liner: it keeps the damp off.
    if (!last || finish.steps.some((step) => layerOf(step) === 'coat')) return;
    const rusts = finish.on.some(({ named }) => {
      const stock =
        named?.kind === 'piece'
          ? model.pieceOf(named).material()
          : named?.kind === 'rivet'
            ? model.rivetOf(named)
            : undefined;
      return stock?.metal()?.family === 'carbon steel' && !stock.plating() && !stock.zincCoated();
    });
    const colour = finish.steps.find((step) => layerOf(step) === 'colour');
    if (!rusts && !colour) return;
    report(last.place, {
      message: colour
        ? say`“${finish.named.word.text}” ends on ${stepName(colour)}, with nothing over it: oil, wax or lacquer keeps it.`
        : say`“${finish.named.word.text}” leaves bare steel: oil or wax it last.`,
      fixes: [addingLine(model.file.uri, 'End with wax', last.place, 'wax')],
    });
  },
};
