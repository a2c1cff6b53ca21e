import Fraction from 'fraction.js';
import { type CodeAction, CodeActionKind, type Range, type TextEdit } from 'vscode-languageserver-types';
import { readSection } from '../../../grammar/reader.ts';
import type { Edit, NumberExpression, Section } from '../../../grammar/tree.ts';
import { say } from '../../../l10n/say.ts';
import type { Steps } from '../../incremental/steps.ts';
import { literal } from '../../model/values/quantity.ts';
import { expressionsIn, numbersIn, spotAt } from '../workspace/spot.ts';
import type { View } from '../workspace/workspace.ts';
import { edited, placed } from './edits.ts';

export type Unit = 'mm' | 'in';

/** The measure under the cursor in inches or in millimetres, where that says exactly the same. */
export function convertActions(view: View, range: Range): CodeAction[] {
  const spot = spotAt(view, view.offsetAt(range.start));
  const { number, section } = spot;
  if (number?.unit?.dimension !== 'length') return [];
  const to: Unit = number.unit.id === 'in' ? 'mm' : 'in';
  const run = runsIn(section).find((each) => each.includes(number));
  const edits = run && editsOf(run, to);
  if (!edits || !saysTheSame(section, edits)) return [];
  const shown = `${run.map((each) => inUnit(each, to)).join(' x ')} ${to}`;
  return [
    {
      title: say`Write it as ${shown}`,
      kind: CodeActionKind.RefactorRewrite,
      edit: { changes: { [view.uri]: placed(view, section, edits) } },
    },
  ];
}

/** Every length of the file in the other system. Only what comes out exactly is touched: no value changes by a hair. */
export function* convertFileActions(view: View): Steps<CodeAction[]> {
  const actions: CodeAction[] = [];
  for (const to of ['mm', 'in'] as const) {
    let converted = 0;
    let left = 0;
    const changes: TextEdit[] = [];
    for (const section of view.spec.sections) {
      yield undefined;
      const runs = runsIn(section).filter(([first]) => first!.unit?.id !== to);
      const all = runs.flatMap((run) => editsOf(run, to) ?? []);
      // Nearly always all of them come out: then the section is read once, and not once for each.
      const together = saysTheSame(section, all);
      const edits: Edit[] = [];
      for (const run of runs) {
        const own = editsOf(run, to);
        if (!together) yield undefined;
        if (own && (together || saysTheSame(section, own))) {
          edits.push(...own);
          converted += run.length;
        } else left += run.length;
      }
      for (const change of placed(view, section, edits)) changes.push(change);
    }
    if (!converted) continue;
    const rest = left ? say`; ${left} that would not come out exactly stay` : '';
    actions.push({
      title: say`Write the lengths of this file in ${to === 'in' ? say`inches` : say`millimetres`} (${converted}${rest})`,
      kind: `${CodeActionKind.RefactorRewrite}.units.${to}`,
      edit: { changes: { [view.uri]: changes } },
    });
  }
  return actions;
}

/** Lengths that share one written unit, in the order of the text: `120 x 80 mm`, `690 to 820 mm`, `1/8, 3/16, 1/4 in`. */
export function runsIn(section: Section): NumberExpression[][] {
  const runs: NumberExpression[][] = [];
  for (const numbers of numbersByLine(section)) {
    let run: NumberExpression[] = [];
    for (const number of numbers) {
      if (number.unit?.dimension !== 'length' || (run[0] && run[0].unit !== number.unit)) run = [];
      if (number.unit?.dimension !== 'length') continue;
      run.push(number);
      if (!number.unitAt) continue;
      runs.push(run);
      run = [];
    }
  }
  return runs;
}

function* numbersByLine(section: Section): Generator<NumberExpression[]> {
  const sorted = (numbers: NumberExpression[]) => numbers.sort((a, b) => a.from - b.from);
  for (const line of section.lines)
    yield sorted(
      line.phrases.flatMap(({ items }) =>
        items.flatMap((item) => expressionsIn(item).flatMap((each) => [...numbersIn(each)])),
      ),
    );
  for (const single of section.singles)
    if (single.kind === 'let' && single.value)
      yield sorted(expressionsIn(single.value).flatMap((each) => [...numbersIn(each)]));
}

function editsOf(run: readonly NumberExpression[], to: Unit): Edit[] | undefined {
  const edits: Edit[] = [];
  for (const number of run) {
    const text = inUnit(number, to);
    if (text === undefined) return undefined;
    // A number without a unit of its own ends at its last digit, the blank after it left as it is.
    edits.push(
      number.unitAt
        ? { from: number.from, to: Math.max(number.to, number.unitAt.to), text: `${text} ${to}` }
        : { from: number.from, to: number.to, text },
    );
  }
  return edits;
}

/** Reads the section as it would be, and compares every number of it: what is offered changes nothing but the spelling. */
function saysTheSame(section: Section, edits: readonly Edit[]): boolean {
  const before = valuesIn(section);
  const after = valuesIn(readSection(edited(section.text, edits)));
  return before.length === after.length && before.every((value, i) => value === after[i]);
}

const valuesIn = (section: Section): string[] =>
  [...numbersByLine(section)].flat().map((number) => {
    const value = literal(number);
    return value ? `${String(value.value)} ${value.dimension}` : number.written;
  });

/** Exactly the same length in another unit: fractions to 1/64 in, decimals to a ten-thousandth. */
function inUnit(number: NumberExpression, unit: Unit): string | undefined {
  const value = literal(number)?.value;
  if (!(value instanceof Fraction)) return undefined;
  if (unit === 'mm') return decimal(value);
  const inches = value.div(127).mul(5);
  const parts = inches.mul(64);
  if (parts.d === 1n) {
    const whole = inches.floor();
    const rest = inches.sub(whole);
    if (rest.n === 0n) return whole.toFraction();
    return whole.n === 0n ? rest.toFraction() : `${whole.toFraction()} ${rest.toFraction()}`;
  }
  return decimal(inches);
}

/** As a decimal of at most four places; nothing where that would round. */
function decimal(value: Fraction): string | undefined {
  const scaled = value.mul(10_000);
  if (scaled.d !== 1n) return undefined;
  return value.toString();
}
