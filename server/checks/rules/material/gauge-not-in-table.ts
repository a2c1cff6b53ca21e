import { say } from '../../../../l10n/say.ts';
import { gaugeTables, gaugeThickness } from '../../../trade/metal/gauges.ts';
import { type Check, replacing } from '../../check.ts';
import { nearestOf } from '../../support/nearest-number.ts';
import { placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'gauge-not-in-table',
  title: 'A gauge number that its table does not have',
  family: 'Material',
  severity: 'error',
  what: 'The number is not in the gauge table of that metal, or the metal is not sold by gauge at all, as titanium is not.',
  why: 'Without a table the number stands for no thickness, and nothing of the piece can be worked out.',
  todo: 'Take a number that the table has, or write the thickness in mm or in.',
  source: 'The gauge tables: 15 U.S.C. 206, Manufacturers’ Standard Gauge, Galvanized Sheet Gauge, Brown & Sharpe, SWG',
  example: `material plate
  mild steel 160 ga
piece cap
  from plate
  disc 120 mm
`,
  better: `material plate
  mild steel 16 ga
piece cap
  from plate
  disc 120 mm
`,
  material(material, report, model) {
    const stock = material.stock();
    const gauge = material.gauge();
    const at = stock?.expressions('thickness')[0];
    if (!stock || !gauge || !at) return;
    if (!gauge.table) {
      report(placeOf(stock, at), {
        message: say`${material.metal()?.title ?? say`This metal`} is sold by thickness, not by gauge: write it in mm or in.`,
      });
      return;
    }
    if (gaugeThickness(gauge.table, gauge.number)) return;
    const { title, numbers } = gaugeTables[gauge.table];
    const near = nearestOf(numbers, gauge.number);
    const digit = at.kind === 'number' ? { from: at.from, to: at.from + at.written.length } : undefined;
    report(placeOf(stock, at), {
      message: say`There is no ${gauge.number} ga in the ${title}: it runs from ${numbers[0]} to ${numbers[numbers.length - 1]}${near === undefined ? '' : say`, and the nearest is ${near}`}.`,
      fixes:
        near === undefined || near < 1 || !digit
          ? []
          : [replacing(model.file.uri, say`Change to ${near} ga`, placeOf(stock, digit), String(near))],
    });
  },
};
