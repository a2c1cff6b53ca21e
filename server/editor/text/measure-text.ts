import type { NumberExpression } from '../../../grammar/tree.ts';
import type { UnitWord } from '../../../grammar/units.ts';
import { say, translated } from '../../../l10n/say.ts';
import { literal, numberOf, type Quantity, UNIT_OF_DIMENSION } from '../../model/values/quantity.ts';
import { inchFraction, type System, show, trim } from '../../model/values/show.ts';
import { FAR_OUT } from '../../trade/reckoning/result.ts';

/** What a unit is, and the number before it in the other system. */
export function measureText(number: NumberExpression): string | undefined {
  const { unit } = number;
  if (!unit) return undefined;
  const quantity = literal(number);
  const value = quantity && numberOf(quantity);
  const others = value !== undefined && Math.abs(value) < FAR_OUT ? conversions(value, unit) : [];
  const written = `${number.written} ${unit.id}`;
  const equals = others.length ? `**${written}** = ${others.join(' = ')}` : `**${written}**`;
  return `${equals}  \n${translated(unit.doc)}`;
}

function conversions(value: number, unit: UnitWord): string[] {
  switch (unit.dimension) {
    case 'length': {
      const mm = `${trim(value, 4)} mm`;
      const inches = `${trim(value / 25.4, 4)} in`;
      const parts = (value / 25.4) * 64;
      const whole = Math.round(parts);
      const fraction = whole > 0 && whole % 64 !== 0 ? inchFraction(value, 64) : '';
      const near =
        fraction &&
        (Math.abs(parts - whole) < 1e-6 ? fraction : Math.abs(parts - whole) < 0.3 ? say`about ${fraction}` : '');
      return unit.id === 'mm' ? [near || inches] : unit.id === 'in' ? [mm] : [mm, inches];
    }
    case 'area':
      return [unit.id === 'cm2' ? `${trim(value / 645.16, 3)} in²` : `${trim(value / 100, 2)} cm²`];
    case 'mass':
      return unit.id === 'lb' ? [`${trim(value, 1)} g`] : [`${trim(value / 453.59237, 3)} lb`];
    case 'temperature':
      return [unit.id === 'C' ? `${trim((value * 9) / 5 + 32, 0)} °F` : `${trim(value, 0)} °C`];
    case 'time':
      return unit.id === 'h' ? [`${trim(value, 0)} min`] : value >= 60 ? [`${trim(value / 60, 2)} h`] : [];
    case 'density':
      return unit.id === 'g/cm3' ? [`${trim(value * 1000, 0)} kg/m³`] : [`${trim(value, 3)} g/cm³`];
    case 'stress':
      return unit.id === 'ksi' ? [`${trim(value, 0)} MPa`] : [`${trim(value / 6.894757293, 1)} ksi`];
    case 'teeth':
      return value > 0 ? [say`a tooth every ${trim(25.4 / value, 2)} mm`] : [];
    case 'ounce':
      return [say`${trim((value * 25.4) / 64, 2)} mm on leather`];
    default:
      return [];
  }
}

/** What a measure comes to, as a build in these units says it. */
export function quantityText(quantity: Quantity, system: System): string {
  const unit = UNIT_OF_DIMENSION[quantity.dimension] ?? 'ratio';
  const text = show(numberOf(quantity), unit, system);
  return unit === 'ratio' && quantity.dimension !== 'number' ? `${text} ${quantity.dimension}` : text;
}
