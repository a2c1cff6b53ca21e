import { say } from '../../../../l10n/say.ts';
import { numberOf } from '../../../model/values/quantity.ts';
import { trim } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'leather-weight-odd',
  title: 'A leather weight that is rarely sold',
  family: 'Material',
  severity: 'information',
  what: 'The ounces lie outside what that leather is usually sold in, or the material is not sold by the ounce.',
  why: 'An ounce is 1/64 in: 40 oz would be a hide 16 mm thick, and such a slip goes through every stack.',
  todo: 'Correct the weight, or write the thickness in mm.',
  formula: 't = oz ÷ 64 × 25.4',
  source: 'Common practice (no source) for the usual weights; published leather charts for the ounce',
  example: `material flap-leather
  veg-tan leather 40 oz
piece flap
  from flap-leather
  plate 120 x 60 mm
`,
  better: `material flap-leather
  veg-tan leather 4 oz
piece flap
  from flap-leather
  plate 120 x 60 mm
`,
  material(material, report) {
    const stock = material.stock();
    const at = stock?.expressions('thickness')[0];
    const quantity = stock?.quantity('thickness');
    const soft = material.soft();
    if (!stock || !at || !soft || quantity?.dimension !== 'ounce') return;
    const value = numberOf(quantity);
    const usual = soft.usualOunces;
    if (usual && value >= usual.low && value <= usual.high) return;
    const thick = `${trim((value / 64) * 25.4, 2)} mm`;
    report(placeOf(stock, at), {
      message: usual
        ? say`${trim(value, 2)} oz is ${thick}: ${soft.title} is usually sold from ${usual.low} to ${usual.high} oz.`
        : say`${soft.title[0]!.toUpperCase()}${soft.title.slice(1)} is not sold by the ounce: ${trim(value, 2)} oz would be ${thick}.`,
    });
  },
};
