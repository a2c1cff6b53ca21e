import { say, translated } from '../../../../l10n/say.ts';
import { trim } from '../../../model/values/show.ts';
import { METRIC_SHEETS } from '../../../trade/metal/stock.ts';
import { type Check, replacing } from '../../check.ts';
import { placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'thickness-not-stocked',
  title: 'A sheet thickness that is rarely kept',
  family: 'Material',
  severity: 'information',
  what: 'A metal sheet in millimetres whose thickness is none of those that metric merchants keep, and of which the spec names no sheet or offcut.',
  why: 'A thickness that has to be ordered holds the job up, and the next one over changes every stack.',
  todo: 'Take a thickness that is kept, or say which sheet you have.',
  source: 'Common practice (no source): 0.5 to 1.0 by tenths, 1.2, 1.25, 1.5, 1.6, 1.75, 2, 2.5, 3 mm',
  example: `material plate
  mild steel 1.35 mm
piece cap
  from plate
  disc 120 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  disc 120 mm
`,
  material(material, report, model) {
    const stock = material.stock();
    const at = stock?.expressions('thickness')[0];
    if (!stock || material.kind() !== 'sheet' || at?.kind !== 'number' || at.unit?.id !== 'mm') return;
    if (material.sheets().length || material.offcuts().length) return;
    const value = material.thickness()?.value;
    if (value === undefined || METRIC_SHEETS.some((each) => Math.abs(each - value) < 0.011)) return;
    const below = METRIC_SHEETS.filter((each) => each < value).pop();
    const above = METRIC_SHEETS.find((each) => each > value);
    const near = [below, above].flatMap((each) => (each === undefined ? [] : [`${trim(each, 2)} mm`]));
    report(placeOf(stock, at), {
      message: say`${trim(value, 3)} mm is rarely kept: the next ${near.length > 1 ? say`ones are` : say`one is`} ${near.join(translated(' and '))}.`,
      fixes: near.map((text) =>
        replacing(model.file.uri, say`Change to ${text}`, placeOf(stock, at), at.unitAt ? text : text.slice(0, -3)),
      ),
    });
  },
};
