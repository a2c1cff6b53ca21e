import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import { gaugeThickness } from '../../../trade/metal/gauges.ts';
import type { Check } from '../../check.ts';
import { placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'gauge-odd-for-metal',
  title: 'A gauge number that means another thickness in this metal',
  family: 'Material',
  severity: 'information',
  what: 'The same number is more than 5 % thicker or thinner in this metal’s own table than in uncoated steel; or it is an odd number of steel sheet, which is rarely sold from 13 up.',
  why: '18 ga runs from 1.02 mm in brass to 1.31 mm in galvanised steel. Who orders brass by the steel number gets metal a sixth too thin.',
  todo: 'Compare both thicknesses, and write the one that is meant in mm or in.',
  source: 'The gauge tables; odd numbers are common practice (no source)',
  example: `material binding
  brass 18 ga
piece cap
  from binding
  disc 120 mm
`,
  better: `material binding
  brass 1.2 mm
piece cap
  from binding
  disc 120 mm
`,
  material(material, report, model) {
    const system = model.units();
    const stock = material.stock();
    const gauge = material.gauge();
    const at = stock?.expressions('thickness')[0];
    const own = material.thickness()?.value;
    if (!stock || !gauge?.table || !at || own === undefined || material.kind() !== 'sheet') return;
    const steel = gauge.table === 'SWG' ? undefined : gaugeThickness('MSG', gauge.number)?.value;
    const differs = steel !== undefined && gauge.table !== 'MSG' && Math.abs(own - steel) / steel > 0.05;
    const odd = gauge.number % 2 === 1 && gauge.number >= 13 && material.metal()?.family === 'carbon steel';
    if (!differs && !odd) return;
    report(placeOf(stock, at), {
      message: differs
        ? say`${gauge.number} ga is ${show(own, 'mm', system)} in ${material.metal()!.title}, and ${show(steel, 'mm', system)} in uncoated steel: which one is meant?`
        : say`${gauge.number} ga (${show(own, 'mm', system)}) is rarely sold: steel sheet goes by even numbers from 12 up.`,
    });
  },
};
