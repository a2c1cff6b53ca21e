import { inches, isInches, type System } from './show.ts';

/**
 * Words of ours with their lengths in the units of the build: `1 mm or more` is `0.039 in or more` where that is in inches. What stands
 * in quotes or in code was written by the smith and stays. A range or a size has one unit behind it: `3 to 6 mm`.
 */
export function inUnits(text: string, system: System): string {
  if (!isInches(system) || !text.includes('mm')) return text;
  return text
    .split(/(“[^”]*”|`[^`]*`)/u)
    .map((part, i) => (i % 2 ? part : part.replace(LENGTHS, (written) => inInches(written, system))))
    .join('');
}

/** Numbers that share one `mm`, not of an area or a stress, nor of what is sold by the metre. */
const LENGTHS = /(?<![\p{L}\d.])\d+(?:\.\d+)?(?:\s*(?:to|and|or|×|x|–|±)\s*\d+(?:\.\d+)?)*\s?mm(?![\p{L}\d²³/])/gu;

const inInches = (written: string, system: System): string =>
  `${written.replace(/\s?mm$/, '').replace(/\d+(?:\.\d+)?/g, (number) => inches(Number(number), system))} in`;

/** As it begins a sentence. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
