import { say } from '../../../../l10n/say.ts';
import { LineReading } from '../../../model/names/line-reading.ts';
import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'currency-mixed',
  title: 'Prices in two currencies',
  family: 'Stock and money',
  severity: 'warning',
  what: 'Two shops that the spec can see state different currencies. A price has no currency of its own: all are taken to be in the first.',
  why: 'Added up, the total is in neither.',
  todo: 'Keep one shop, and bring the prices to its currency.',
  source: 'The language',
  example: `shop bench
  currency GBP
shop annexe
  currency EUR
`,
  better: `shop bench
  currency GBP
shop annexe
  currency GBP
`,
  run(model, report) {
    const lines = model.file
      .visibleOf('shop')
      .flatMap((named) =>
        named.section.lines
          .filter((line) => line.word?.id === 'currency')
          .map((line) => new LineReading(named.file, line)),
      );
    const first = lines[0]?.text('currency')?.toUpperCase();
    if (!first) return;
    for (const line of lines.slice(1)) {
      const currency = line.text('currency')?.toUpperCase();
      if (!currency || currency === first || line.file !== model.file) continue;
      report(line.place, {
        message: say`Prices here are in ${currency}, and in ${first} above: a total cannot hold both.`,
        related: [{ uri: lines[0]!.file.uri, place: lines[0]!.place, message: first }],
      });
    }
  },
};
