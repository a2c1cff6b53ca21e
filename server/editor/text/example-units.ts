import { inchFraction, trim, type UnitName } from '../../model/values/show.ts';
import { ounceThickness } from '../../trade/leather/leather.ts';
import { gaugeThickness } from '../../trade/metal/gauges.ts';

/*
 * What a snippet is filled with, as a build in these units would say it. It is an example to be typed over, so it need not
 * come to the same: it is the size that lies near and is usual.
 */
export const exampleIn = (units: UnitName, example: string): string =>
  units === 'in'
    ? example.replace(IN_MM, (_, numbers: string) => `${eachOf(numbers, inInches)} in`)
    : example
        .replace(IN_INCHES, (_, numbers: string) => `${eachOf(numbers, inMillimetres)} mm`)
        .replace(IN_GAUGE, (_, number: string) => `${trim(gaugeThickness('MSG', Number(number))?.value ?? 1.5, 1)} mm`)
        .replace(IN_OUNCES, (_, number: string) => `${trim(ounceThickness(Number(number)).value, 1)} mm`);

const NUMBERS = String.raw`(?<![\d.])(\d[\d./ ]*?(?: x \d[\d./ ]*?)*)`;
const IN_MM = new RegExp(`${NUMBERS} mm\\b`, 'g');
const IN_INCHES = new RegExp(`${NUMBERS} in\\b`, 'g');
const IN_GAUGE = /(\d+) ga\b/g;
const IN_OUNCES = /(\d+) oz\b/g;

const eachOf = (numbers: string, written: (number: string) => string): string =>
  numbers.split(' x ').map(written).join(' x ');

/** To the nearest fraction that is fine enough for its size. */
function inInches(mm: string): string {
  const value = Number(mm);
  const parts = value >= 6 ? 16 : value >= 1.5 ? 32 : 64;
  return inchFraction(Math.max(value, 25.4 / parts), parts).replace(/ in$/, '');
}

function inMillimetres(inches: string): string {
  const value = 25.4 * inches.split(' ').reduce((sum, part) => sum + quotient(part), 0);
  return trim(value >= 10 ? Math.round(value) : Math.max(0.5, Math.round(2 * value) / 2), 1);
}

function quotient(fraction: string): number {
  const [over = 0, under = 1] = fraction.split('/').map(Number);
  return over / under;
}
