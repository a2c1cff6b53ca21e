import { say, translated } from '../../../l10n/say.ts';
import { type Figure, formulaIn, shown, workedIn } from '../../model/values/figure.ts';
import { inUnits } from '../../model/values/prose.ts';
import type { System } from '../../model/values/show.ts';
import { code, plainText } from './markdown.ts';

/** A figure with its working: what it is, how it comes about, on what ground. */
export function figureText(figure: Figure, system: System): string {
  const lines = [`**${plainText(figure.title)}**: ${shown(figure, system)}`, workedText(figure, system)];
  lines.push(
    figure.basis === 'from the spec'
      ? `*${translated(figure.basis)}*`
      : `*${translated(figure.basis)} · ${plainText(inUnits(figure.source, system))}*`,
  );
  if (figure.note) lines.push(plainText(inUnits(figure.note, system)));
  if (figure.outside) lines.push(say`⚠ Not to be trusted: ${plainText(inUnits(figure.outside, system))}.`);
  return lines.filter(Boolean).join('  \n');
}

/** What a figure comes to, how, and on what ground: short enough to be read in passing. */
export function figureAnswer(figure: Figure, system: System): string {
  const worked = isWorked(figure) ? outcome(figure, system) : '';
  const source = shortened(inUnits(figure.source, system).split(/[;:]/, 1)[0]!.trim(), MOST_SOURCE);
  return [
    `**${plainText(figure.title)}: ${shown(figure, system)}**`,
    worked && worked.length <= MOST_WORKED ? code(worked) : '',
    figure.basis === 'from the spec' ? '' : `*${translated(figure.basis)} · ${plainText(source)}*`,
    figure.outside ? say`⚠ Not to be trusted: ${plainText(inUnits(figure.outside, system))}.` : '',
  ]
    .filter(Boolean)
    .join('  \n');
}
const MOST_SOURCE = 80;
const MOST_WORKED = 100;

const shortened = (text: string, most: number): string =>
  text.length <= most ? text : `${text.slice(0, text.lastIndexOf(' ', most - 1))} …`;

/** A number as written needs no working. */
const isWorked = (figure: Figure): boolean => /[+×÷√(/*−]/.test(figure.worked) && figure.basis !== 'from the spec';

function workedText(figure: Figure, system: System): string {
  const formula = formulaIn(figure, system);
  const worked = workedIn(figure, system);
  // `L = L` says nothing.
  const [left, right] = formula.split(' = ', 2);
  if (right !== undefined && left === right) return '';
  if (formula === worked)
    return isPlain(worked) ? '' : code(isWorked(figure) ? `${worked} = ${shown(figure, system, false)}` : worked);
  return isWorked(figure) ? `${code(formula)}  \n${code(outcome(figure, system))}` : code(formula);
}

/** The sum with what it comes to. */
const outcome = (figure: Figure, system: System): string =>
  `${workedIn(figure, system)} = ${shown(figure, system, false)}`;

const isPlain = (text: string): boolean => /^[\d.,\s/]*(?:[a-z%°²³]+(?:\/[a-z0-9²³]+)?)?$/i.test(text);

/** One line for a list of what a thing comes to. */
export const figureLine = (figure: Figure, system: System): string =>
  `- ${plainText(figure.title)}: ${shown(figure, system)}`;
