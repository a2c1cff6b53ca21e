import { type CodeAction, CodeActionKind, type Range } from 'vscode-languageserver-types';
import { leadingWords } from '../../../grammar/pattern.ts';
import { readSection } from '../../../grammar/reader.ts';
import type { Edit, Expression, NumberExpression, Section } from '../../../grammar/tree.ts';
import { reservedNames } from '../../../grammar/vocabulary/index.ts';
import { say } from '../../../l10n/say.ts';
import { expressionsIn, numbersIn, type Spot, spotAt } from '../workspace/spot.ts';
import type { View } from '../workspace/workspace.ts';
import { runsIn } from './convert-unit.ts';
import { edited, placed } from './edits.ts';

/** The number or the arithmetic under the cursor as a measure with a name, to be changed in one place. */
export function extractLetActions(view: View, range: Range): CodeAction[] {
  const spot = spotAt(view, view.offsetAt(range.start));
  const { section, line, single } = spot;
  const own = single?.kind === 'let' ? single : undefined;
  const holder = line ?? own;
  if (!holder || spot.comment) return [];
  const items = line ? line.phrases.flatMap((phrase) => phrase.items) : own?.value ? [own.value] : [];
  const from = view.offsetAt(range.start) - section.start;
  const to = view.offsetAt(range.end) - section.start;
  const found = expressionAt(items.flatMap(expressionsIn), from, to);
  if (!found || found.kind === 'name' || !isPlain(found)) return [];
  // What a `let` names whole has its name.
  if (own?.value?.parts.includes(found)) return [];
  const span = { from: found.from, to: endOf(found) };
  const written = section.text.slice(span.from, span.to).trim();
  const unit = found.kind === 'number' && !found.unitAt && found.unit ? ` ${found.unit.id}` : '';
  const name = freeName(view, spot);
  const end = span.from + section.text.slice(span.from, span.to).trimEnd().length;
  const edits: Edit[] = [...unitsOf(section, found), { from: span.from, to: end, text: name }];
  // What the section then says is read before it is offered: a name where only a number may stand is no help.
  if (readSection(edited(section.text, edits)).problems.length > section.problems.length) return [];
  if (readSection(`let ${name} = ${written}${unit}`).problems.length) return [];
  const first = own ? (own.notes[0] ?? own) : (section.notes[0] ?? section.header ?? holder);
  const top = view.positionAt(section.start + first.from);
  const lineStart = { line: top.line, character: 0 };
  return [
    {
      title: say`Name this measure: let ${name} = ${written}${unit}`,
      kind: CodeActionKind.RefactorExtract,
      edit: {
        changes: {
          [view.uri]: [
            {
              range: { start: lineStart, end: lineStart },
              newText: `let ${name} = ${written}${unit}\n${own ? '' : '\n'}`,
            },
            ...placed(view, section, edits),
          ],
        },
      },
    },
  ];
}

/** A gauge means nothing without its metal, and a grit is no measure to reckon with. */
const isPlain = (found: Expression): boolean =>
  [...numbersIn(found)].every(({ unit }) => !unit || !NEEDS_MORE.has(unit.dimension));

const NEEDS_MORE = new Set<string>(['gauge', 'ounce', 'grit', 'teeth']);

/** `120 x 80 mm`, `1/8, 3/16, 1/4 in`: a unit does not reach over a name, so who shared it gets it for itself. */
const unitsOf = (section: Section, found: Expression): Edit[] =>
  (runsIn(section).find((run) => run.some((each) => each === found)) ?? [])
    .filter((each) => each !== found && !each.unitAt)
    .map((each) => ({ from: each.to, to: each.to, text: ` ${each.unit!.id}` }));

const endOf = (expression: Expression): number =>
  expression.kind === 'number' ? Math.max(expression.to, expression.unitAt?.to ?? 0) : lastOf(expression);

const lastOf = (expression: Expression): number => {
  switch (expression.kind) {
    case 'binary':
      return Math.max(expression.to, endOf(expression.right));
    case 'negate':
      return Math.max(expression.to, endOf(expression.of));
    default:
      return expression.to;
  }
};

/** The largest expression that a selection covers; at a bare cursor the number. */
function expressionAt(expressions: readonly Expression[], from: number, to: number): Expression | undefined {
  for (const expression of expressions) {
    const end = endOf(expression);
    // Of arithmetic in brackets they need not be selected.
    const [first, last] = expression.kind === 'binary' ? [expression.left, expression.right] : [expression, expression];
    if (from < to && from <= first.from && endOf(last) <= to + 1 && expression.from < to) return expression;
    if (expression.from > from || end < to) continue;
    switch (expression.kind) {
      case 'number':
        return expression as NumberExpression;
      case 'negate':
        return expressionAt([expression.of], from, to);
      case 'binary':
        return expressionAt([expression.left, expression.right], from, to);
      case 'call':
        return expressionAt(expression.arguments, from, to);
      case 'name':
        return undefined;
    }
  }
  return undefined;
}

/** A name in the words of the line: `skull-deep`; with a number behind it where that is taken. */
function freeName(view: View, spot: Spot): string {
  const { section, line, bound, single } = spot;
  const word = bound?.word ?? line?.word;
  const first = (word && leadingWords(word.pattern)) || 'measure';
  const of = single?.kind === 'let' ? single.name : section.name;
  const base = `${of?.text ?? 'the'}-${first}`.replace(/[^\p{L}\p{N}-]+/gu, '-').replace(/-+$/, '');
  const taken = (name: string) =>
    view.file.find(name.toLowerCase()) !== undefined || reservedNames.has(name.toLowerCase());
  let name = base;
  for (let i = 2; taken(name); i++) name = `${base}-${i}`;
  return name;
}
