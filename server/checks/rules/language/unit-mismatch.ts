import { say } from '../../../../l10n/say.ts';
import { type Check, replacing } from '../../check.ts';
import { placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'unit-mismatch',
  title: 'A unit that does not fit',
  family: 'Language',
  severity: 'error',
  what: 'A measure of one kind stands where another is wanted, two kinds are added, or a thickness is written in a measure that its material is not sold by: ga is for metal, oz for leather.',
  why: 'A length that is really an angle makes no blank, and a silent conversion would make a wrong one.',
  todo: 'Write the measure in a unit of the kind that is wanted.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 160 mm, deep 40 deg
`,
  better: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 160 mm, deep 40 mm
`,
  material(material, report, model) {
    const stock = material.stock();
    const kind = material.kind();
    const thickness = stock?.expressions('thickness')[0];
    if (!stock || !kind || !thickness) return;
    const dimension = stock.quantity('thickness')?.dimension;
    const wrong =
      kind === 'soft' && dimension === 'gauge'
        ? 'A gauge number is for metal: leather goes by oz or mm.'
        : kind !== 'soft' && dimension === 'ounce'
          ? 'An ounce is a thickness of leather: metal goes by ga, mm or in.'
          : undefined;
    if (!wrong) return;
    const unit = thickness.kind === 'number' ? thickness.unitAt : undefined;
    const right = kind === 'soft' ? 'oz' : 'ga';
    report(placeOf(stock, thickness), {
      message: wrong,
      fixes: unit ? [replacing(model.file.uri, say`Write ${right}`, placeOf(stock, unit), right)] : [],
    });
  },
};
