import {
  type CodeAction,
  CodeActionKind,
  type Diagnostic,
  type Range,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver-types';
import type { Problem } from '../checks/check.ts';
import type { FindingFix } from '../model/figure.ts';
import { addLineActions } from './refactor/add-line.ts';
import { convertActions, convertFileActions } from './refactor/convert-unit.ts';
import { extractLetActions } from './refactor/extract-let.ts';
import { moveSectionActions } from './refactor/move-section.ts';
import { sortLinesActions } from './refactor/sort-lines.ts';
import type { View } from './workspace.ts';

export const FIX_ALL = `${CodeActionKind.SourceFixAll}.planish`;
export const CODE_ACTION_KINDS: readonly string[] = [
  CodeActionKind.QuickFix,
  CodeActionKind.RefactorExtract,
  CodeActionKind.RefactorRewrite,
  FIX_ALL,
];

export interface CodeActionOptions {
  /** The editor makes files that an edit asks for. */
  readonly createsFiles: boolean;
}

/** What can be done about a range: fixes of its problems, all sure fixes at once, a measure in other units. */
export function codeActionsIn(
  view: View,
  range: Range,
  diagnostics: readonly Diagnostic[],
  only: readonly string[] | undefined,
  options: CodeActionOptions = { createsFiles: true },
): CodeAction[] {
  const wants = (kind: string) =>
    !only || only.some((each) => kind === each || kind.startsWith(`${each}.`) || each === '');
  const actions: CodeAction[] = [];
  if (wants(CodeActionKind.QuickFix)) actions.push(...quickFixes(view, range, diagnostics));
  if (wants(CodeActionKind.RefactorRewrite))
    actions.push(...convertActions(view, range), ...sortLinesActions(view, range));
  // The whole file is read for it, so it stands in the refactor menu and not in the bulb of every line.
  if (only?.length && wants(CodeActionKind.RefactorRewrite)) actions.push(...convertFileActions(view));
  if (wants(CodeActionKind.RefactorExtract)) {
    actions.push(...extractLetActions(view, range));
    if (options.createsFiles) actions.push(...moveSectionActions(view, range));
  }
  // Offered only where it is asked for by name, as on saving: not in the bulb's list.
  if (only && wants(FIX_ALL)) actions.push(...fixAll(view));
  return actions;
}

function quickFixes(view: View, range: Range, diagnostics: readonly Diagnostic[]): CodeAction[] {
  const from = view.offsetAt(range.start);
  const to = view.offsetAt(range.end);
  const actions: CodeAction[] = [];
  for (const problem of view.problems()) {
    const start = problem.place.section.start;
    if (start + problem.place.from > to || start + problem.place.to < from) continue;
    for (const fix of problem.fixes) {
      const edit = editOf(view, fix);
      if (!edit) continue;
      const mended = diagnostics.filter((each) => isSame(view, each, problem));
      actions.push({
        title: fix.title,
        kind: CodeActionKind.QuickFix,
        edit,
        ...(mended.length ? { diagnostics: mended } : {}),
        ...(isPreferred(problem, fix) ? { isPreferred: true } : {}),
      });
    }
    actions.push(
      ...addLineActions(
        view,
        problem,
        diagnostics.filter((each) => isSame(view, each, problem)),
      ),
    );
    const excuse = excuseFor(view, problem);
    if (excuse) actions.push(excuse);
  }
  return actions;
}

/** The one fix that is surely meant: marked so, or the only way to right a slip of writing. */
const isPreferred = (problem: Problem, fix: FindingFix): boolean =>
  fix.preferred === true || (problem.fixes.length === 1 && SLIPS.has(problem.code));

const SLIPS = new Set(['unknown-word', 'sign-spacing', 'text-open', 'comma-stray', 'number-form', 'unknown-name']);

/** What may be mended unasked: only what cannot change the meaning of anything that was understood. */
const SURE = new Set(['sign-spacing', 'comma-stray', 'mark-unknown']);

function isSame(view: View, diagnostic: Diagnostic, problem: Problem): boolean {
  const { start, end } = view.rangeOf(problem.place);
  const { range } = diagnostic;
  return (
    diagnostic.code === problem.code &&
    range.start.line === start.line &&
    range.start.character === start.character &&
    range.end.line === end.line &&
    range.end.character === end.character
  );
}

function editOf(view: View, fix: FindingFix): WorkspaceEdit | undefined {
  const changes = view.editsOf(fix);
  return changes && Object.keys(changes).length ? { changes } : undefined;
}

/** A trailing `# allow`, for what is worth knowing but was decided. Never for an error of writing or a safety caution. */
function excuseFor(view: View, problem: Problem): CodeAction | undefined {
  const { check, severity, place } = problem;
  if (!check || check.caution || severity === 'error' || check.family === 'Language') return undefined;
  const { section } = place;
  const line = section.lines.find((each) => each.from < place.to && place.from < each.to);
  if (!line || line.excuse) return undefined;
  const rest = /^[^\r\n]*/.exec(section.text.slice(line.to))?.[0] ?? '';
  if (rest.trim()) return undefined;
  const at = view.positionAt(section.start + line.to);
  const newText = `  # allow ${problem.code}: `;
  return {
    title: `Allow ${problem.code} on this line`,
    kind: CodeActionKind.QuickFix,
    edit: { changes: { [view.uri]: [{ range: { start: at, end: at }, newText }] } },
  };
}

function fixAll(view: View): CodeAction[] {
  const edits: { from: number; edit: TextEdit; to: number }[] = [];
  for (const problem of view.problems()) {
    const fix =
      problem.fixes.find((each) => each.preferred && problem.severity !== 'information') ??
      (SURE.has(problem.code) && problem.fixes.length === 1 ? problem.fixes[0] : undefined);
    const changes = fix && view.editsOf(fix);
    // Only edits of this file: what a save does must not reach into another.
    if (!changes || Object.keys(changes).some((uri) => uri !== view.uri)) continue;
    const own = (changes[view.uri] ?? []).map((edit) => ({
      edit,
      from: view.offsetAt(edit.range.start),
      to: view.offsetAt(edit.range.end),
    }));
    if (own.some((one) => edits.some((have) => one.from <= have.to && have.from <= one.to))) continue;
    edits.push(...own);
  }
  if (!edits.length) return [];
  return [
    {
      title: 'Mend all that is surely meant',
      kind: FIX_ALL,
      edit: { changes: { [view.uri]: edits.sort((a, b) => a.from - b.from).map(({ edit }) => edit) } },
    },
  ];
}
