import { type CodeAction, CodeActionKind, type TextEdit } from 'vscode-languageserver-types';
import { readSection } from '../../../grammar/reader.ts';
import type { Edit, NumberExpression, Section } from '../../../grammar/tree.ts';
import type { Steps } from '../../incremental/steps.ts';
import { literal, numberOf } from '../../model/values/quantity.ts';
import { inchFraction, show, trim } from '../../model/values/show.ts';
import type { View } from '../workspace/workspace.ts';
import { runsIn, type Unit } from './convert-unit.ts';
import { confirmed, edited, placed } from './edits.ts';
import type { ElsewhereOptions } from './elsewhere.ts';

/** To what a length is rounded, mm, and how that is said. */
const STEPS: readonly { readonly to: Unit; readonly kind: string; readonly step: number; readonly said: string }[] = [
  { to: 'in', kind: 'in.16', step: 25.4 / 16, said: 'inches, to the nearest 1/16' },
  { to: 'in', kind: 'in.32', step: 25.4 / 32, said: 'inches, to the nearest 1/32' },
  { to: 'mm', kind: 'mm.half', step: 0.5, said: 'millimetres, to the nearest 0.5' },
];

/** What is bought keeps the size that it is sold in. */
const BOUGHT = new Set(['material', 'rivet', 'part', 'shop', 'order', 'log']);

/** By a larger share no length is changed unasked: a gap, a hole for a rivet, a thickness. */
const MOST_CHANGED = 1 / 20;

/**
 * The build with its lengths in the other system, each to the nearest mark of a rule. Values change by that, so the largest change
 * is said, and where the editor can it shows them all before it makes them.
 */
export function* roundFileActions(view: View, { confirmsEdits = false }: ElsewhereOptions): Steps<CodeAction[]> {
  const actions: CodeAction[] = [];
  for (const { to, kind, step, said } of STEPS) {
    const edits: TextEdit[] = [];
    let converted = 0;
    let left = 0;
    let largest: { readonly by: number; readonly of: NumberExpression; readonly section: Section } | undefined;
    for (const section of view.spec.sections) {
      yield undefined;
      const runs = runsIn(section).filter(([first]) => first!.unit?.id !== to);
      const done = BOUGHT.has(section.kind?.kind ?? '')
        ? []
        : runs.filter((run) => run.every((each) => bears(each, step)));
      const own = done.flatMap((run) => run.map((each) => editOf(each, to, step)));
      if (!isReadAlike(section, own)) {
        left += runs.flat().length;
        continue;
      }
      left += runs.flat().length - own.length;
      converted += own.length;
      for (const of of done.flat()) {
        const by = Math.abs(rounded(of, step) - lengthOf(of));
        if (!largest || by > largest.by) largest = { by, of, section };
      }
      for (const edit of placed(view, section, [...own, ...unitsLine(view, section, to)])) edits.push(edit);
    }
    if (!converted || !largest) continue;
    const { by, of, section } = largest;
    const written = `${section.text.slice(of.from, of.to).trim()} ${of.unit!.id}`;
    const line = view.positionAt(section.start + of.from).line + 1;
    const most = by < 0.005 ? 'none changes' : `largest change ${show(by, 'mm')}, ${written} in line ${line}`;
    const title = `Round the lengths of this file to ${said} (${converted}; ${most}${left ? `; ${left} stay` : ''})`;
    const changes = { [view.uri]: edits };
    actions.push({
      title,
      kind: `${CodeActionKind.RefactorRewrite}.rounded.${kind}`,
      edit: confirmsEdits ? confirmed(changes, title) : { changes },
    });
  }
  return actions;
}

const lengthOf = (number: NumberExpression): number => {
  const quantity = literal(number);
  return quantity ? numberOf(quantity) : Number.NaN;
};

const rounded = (number: NumberExpression, step: number): number => Math.round(lengthOf(number) / step) * step;

const bears = (number: NumberExpression, step: number): boolean => {
  const value = lengthOf(number);
  return Math.abs(rounded(number, step) - value) <= MOST_CHANGED * Math.abs(value);
};

function editOf(number: NumberExpression, to: Unit, step: number): Edit {
  const value = rounded(number, step);
  const text = to === 'mm' ? trim(value, 1) : inchFraction(value, 32).replace(/ in$/, '');
  return number.unitAt
    ? { from: number.from, to: Math.max(number.to, number.unitAt.to), text: `${text} ${to}` }
    : { from: number.from, to: number.to, text };
}

/** A build says in what it is told: `units in`, in the place of what stood there or under its header. */
function unitsLine(view: View, section: Section, to: Unit): Edit[] {
  if (section.kind?.kind !== 'build' || view.model.buildSection() !== section) return [];
  const line = section.lines.find(({ word }) => word?.id === 'units');
  if (line) return [{ from: line.from, to: line.to, text: `units ${to}` }];
  const end = section.header?.to;
  return end === undefined || to === view.model.writtenUnits() ? [] : [{ from: end, to: end, text: `\n  units ${to}` }];
}

/** The section as it would be has as many numbers in it, and nothing in it that is not read. */
function isReadAlike(section: Section, edits: readonly Edit[]): boolean {
  const after = readSection(edited(section.text, edits));
  return (
    after.problems.length <= section.problems.length && runsIn(after).flat().length === runsIn(section).flat().length
  );
}
