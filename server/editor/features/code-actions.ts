import { CodeActionRequest } from 'vscode-languageserver';
import {
  type AnnotatedTextEdit,
  type CodeAction,
  CodeActionKind,
  type Diagnostic,
  type Range,
  type SnippetTextEdit,
  StringValue,
  TextDocumentEdit,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver-types';
import { URI, Utils } from 'vscode-uri';
import { readSection } from '../../../grammar/reader.ts';
import { say, translated } from '../../../l10n/say.ts';
import type { Problem } from '../../checks/check.ts';
import { atOnce, oneByOne, type Steps } from '../../incremental/steps.ts';
import type { FindingFix } from '../../model/values/figure.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import { addFactActions, addLineActions } from '../refactor/add-line.ts';
import { convertActions, convertFileActions } from '../refactor/convert-unit.ts';
import { edited } from '../refactor/edits.ts';
import { type ElsewhereOptions, seenElsewhere } from '../refactor/elsewhere.ts';
import { extractLetActions } from '../refactor/extract-let.ts';
import { moveSectionActions } from '../refactor/move-section.ts';
import { roundFileActions } from '../refactor/round-units.ts';
import { sortLinesActions } from '../refactor/sort-lines.ts';
import { unknownNameActions } from '../refactor/unknown-name.ts';
import type { View } from '../workspace/workspace.ts';

export const feature: Feature = {
  capability: () => ({ codeActionProvider: { codeActionKinds: [...CODE_ACTION_KINDS] } }),
  requests: [
    aboutOne(CodeActionRequest.type, {
      what: 'code actions',
      empty: [],
      judged: true,
      answer: (view, { range, context }, { client }) =>
        codeActionsInSteps(view, range, context.diagnostics, context.only, client),
    }),
  ],
};

export const FIX_ALL = `${CodeActionKind.SourceFixAll}.planish`;
const CODE_ACTION_KINDS: readonly string[] = [
  CodeActionKind.QuickFix,
  CodeActionKind.RefactorExtract,
  CodeActionKind.RefactorRewrite,
  FIX_ALL,
];

export interface CodeActionOptions extends ElsewhereOptions {
  /** The editor makes files that an edit asks for. */
  readonly createsFiles: boolean;
  /** Edits may hold snippets. */
  readonly snippetEdits: boolean;
}

/**
 * What can be done about a range: fixes of its problems, all sure fixes at once, a measure in other units.
 *
 * @tests in one go: who may not wait asks for the steps
 */
export const codeActionsIn = (
  view: View,
  range: Range,
  diagnostics: readonly Diagnostic[],
  only: readonly string[] | undefined,
  options: CodeActionOptions = { createsFiles: true, snippetEdits: true },
): CodeAction[] => atOnce(codeActionsInSteps(view, range, diagnostics, only, options));

function* codeActionsInSteps(
  view: View,
  range: Range,
  diagnostics: readonly Diagnostic[],
  only: readonly string[] | undefined,
  options: CodeActionOptions,
): Steps<CodeAction[]> {
  const wants = (kind: string) =>
    !only || only.some((each) => kind === each || kind.startsWith(`${each}.`) || each === '');
  const actions: CodeAction[] = [];
  if (wants(CodeActionKind.QuickFix))
    for (const fix of yield* quickFixes(view, range, diagnostics, options)) actions.push(fix);
  if (wants(CodeActionKind.RefactorRewrite))
    actions.push(...convertActions(view, range), ...sortLinesActions(view, range));
  // The whole file is read for it, so it stands in the refactor menu and not in the bulb of every line.
  if (only?.length && wants(CodeActionKind.RefactorRewrite))
    actions.push(...(yield* convertFileActions(view)), ...(yield* roundFileActions(view, options)));
  if (wants(CodeActionKind.RefactorExtract)) {
    actions.push(...extractLetActions(view, range));
    if (options.createsFiles) actions.push(...moveSectionActions(view, range));
  }
  // Offered only where it is asked for by name, as on saving: not in the bulb's list.
  if (only && wants(FIX_ALL)) actions.push(...(yield* fixAll(view)));
  const inText: CodeAction[] = [];
  for (const action of actions) {
    yield undefined;
    inText.push(withLineEnds(view, { ...action, title: translated(action.title) }));
  }
  return inText;
}

function* quickFixes(
  view: View,
  range: Range,
  diagnostics: readonly Diagnostic[],
  options: CodeActionOptions,
): Steps<CodeAction[]> {
  const { snippetEdits } = options;
  const from = view.offsetAt(range.start);
  const to = view.offsetAt(range.end);
  const actions: CodeAction[] = [];
  const told = new Map<string, Diagnostic[]>();
  for (const each of diagnostics) {
    const key = keyOf(each);
    const same = told.get(key);
    if (same) same.push(each);
    else told.set(key, [each]);
  }
  let marks = 0;
  for (const problem of view.problems()) {
    const start = problem.place.section.start;
    if (start + problem.place.from > to || start + problem.place.to < from) continue;
    yield undefined;
    if (++marks > MOST_MARKS) break;
    const mended = told.get(keyOf({ code: problem.code, range: view.rangeOf(problem.place) })) ?? [];
    for (const fix of yield* readingBest(problem)) {
      const edit = editOf(view, fix);
      if (!edit) continue;
      const action: CodeAction = {
        title: fix.title,
        kind: CodeActionKind.QuickFix,
        edit,
        ...(mended.length ? { diagnostics: mended } : {}),
        ...(isPreferred(problem, fix) ? { isPreferred: true } : {}),
      };
      actions.push(yield* seenElsewhere(view, fix, action, options));
    }
    actions.push(...(yield* unknownNameActions(view, problem, mended)));
    if (options.commands) actions.push(...openFolderActions(view, problem, mended));
    actions.push(...addLineActions(view, problem, mended), ...addFactActions(view, problem, mended, snippetEdits));
    const excuse = excuseFor(view, problem, snippetEdits);
    if (excuse) actions.push({ ...excuse, ...(mended.length ? { diagnostics: mended } : {}) });
  }
  return actions;
}

/** A used file that lies beyond the open folder: the folder that holds both can be opened. */
function openFolderActions(view: View, { code, place }: Problem, mended: readonly Diagnostic[]): CodeAction[] {
  if (code !== 'use-missing') return [];
  const path = place.section.singles.flatMap((single) =>
    single.kind === 'use' && single.path?.from === place.from ? [single.path.value] : [],
  )[0];
  if (path === undefined || !view.file.notRead(path).isOutside) return [];
  const own = URI.parse(view.uri);
  const used = Utils.joinPath(own, '..', path);
  let folder = Utils.dirname(own);
  while (!used.path.startsWith(`${folder.path.replace(/\/$/, '')}/`)) folder = Utils.dirname(folder);
  const title = say`Open the folder that holds both: ${Utils.basename(folder) || folder.path}`;
  return [
    {
      title,
      kind: CodeActionKind.QuickFix,
      command: { title, command: OPEN_FOLDER_COMMAND, arguments: [folder.toString()] },
      ...(mended.length ? { diagnostics: [...mended] } : {}),
    },
  ];
}
const OPEN_FOLDER_COMMAND = 'planish.openFolder';

/** Of more, nobody reads through what could be done about each: what surely mends them all is another action. */
const MOST_MARKS = 500;

/** Of several ways to write something those that leave the least unread: `1, 220` only where a list may stand. */
function* readingBest({ fixes, place: { section } }: Problem): Steps<readonly FindingFix[]> {
  if (fixes.length < 2 || fixes.some(({ edits }) => edits.some(({ place }) => place.section !== section))) return fixes;
  const left = yield* oneByOne(fixes, ({ edits }) => {
    const after = edited(
      section.text,
      edits.map(({ place, text }) => ({ from: place.from, to: place.to, text })),
    );
    return readSection(after).problems.length;
  });
  const least = Math.min(...left);
  return fixes.filter((_, i) => left[i] === least);
}

/** Edits in the line ends of the text that they go into. */
function withLineEnds(view: View, action: CodeAction): CodeAction {
  const { edit } = action;
  if (!edit) return action;
  const inText = <T extends TextEdit | AnnotatedTextEdit | SnippetTextEdit>(uri: string, edits: readonly T[]): T[] => {
    const { lineEnd } = view.workspace.view(uri) ?? view;
    if (lineEnd === '\n') return [...edits];
    return edits.map((each) =>
      'newText' in each
        ? { ...each, newText: each.newText.replace(/\r?\n/g, lineEnd) }
        : { ...each, snippet: { ...each.snippet, value: each.snippet.value.replace(/\r?\n/g, lineEnd) } },
    );
  };
  const { changes, documentChanges } = edit;
  return {
    ...action,
    edit: {
      ...edit,
      ...(changes
        ? { changes: Object.fromEntries(Object.entries(changes).map(([uri, edits]) => [uri, inText(uri, edits)])) }
        : {}),
      ...(documentChanges
        ? {
            documentChanges: documentChanges.map((change) =>
              TextDocumentEdit.is(change)
                ? { ...change, edits: inText(change.textDocument.uri, change.edits) }
                : change,
            ),
          }
        : {}),
    },
  };
}

/** The one fix that is surely meant: marked so, or the only way to right a slip of writing. */
const isPreferred = (problem: Problem, fix: FindingFix): boolean =>
  fix.preferred === true || (problem.fixes.length === 1 && SLIPS.has(problem.code));

const SLIPS = new Set(['unknown-word', 'sign-spacing', 'text-open', 'comma-stray', 'number-form', 'unknown-name']);

/** What may be mended unasked: only what cannot change the meaning of anything that was understood. */
const SURE = new Set(['sign-spacing', 'comma-stray', 'mark-unknown']);

/** By which a diagnostic that the editor has is known again. */
const keyOf = ({ code, range: { start, end } }: Pick<Diagnostic, 'code' | 'range'>): string =>
  `${code} ${start.line}:${start.character} ${end.line}:${end.character}`;

function editOf(view: View, fix: FindingFix): WorkspaceEdit | undefined {
  const changes = view.editsOf(fix);
  return changes && Object.keys(changes).length ? { changes } : undefined;
}

/** A trailing `# allow`, for what is worth knowing but was decided. Never for an error of writing or a safety caution. */
function excuseFor(view: View, problem: Problem, snippetEdits: boolean): CodeAction | undefined {
  const { check, severity, place } = problem;
  if (!check || check.caution || severity === 'error' || check.family === 'Language') return undefined;
  const { section } = place;
  const line = section.lines.find((each) => each.from < place.to && place.from < each.to);
  if (!line || line.excuse) return undefined;
  const rest = /^[^\r\n]*/.exec(section.text.slice(line.to))?.[0] ?? '';
  if (rest.trim()) return undefined;
  const at = view.positionAt(section.start + line.to);
  const range = { start: at, end: at };
  const newText = ` # allow ${problem.code}: `;
  // Why it is right is for the smith to say: the words are selected, to be typed over.
  const reason: SnippetTextEdit = { range, snippet: StringValue.createSnippet(`${newText}\${1:why}`) };
  const edit: WorkspaceEdit = snippetEdits
    ? { documentChanges: [{ textDocument: { uri: view.uri, version: null }, edits: [reason] }] }
    : { changes: { [view.uri]: [{ range, newText }] } };
  return { title: say`Allow ${problem.code} on this line`, kind: CodeActionKind.QuickFix, edit };
}

function* fixAll(view: View): Steps<CodeAction[]> {
  /** In the order of the text; none touches another. */
  const edits: { from: number; edit: TextEdit; to: number }[] = [];
  const after = (from: number) => {
    let low = 0;
    let high = edits.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (edits[middle]!.from >= from) high = middle;
      else low = middle + 1;
    }
    return low;
  };
  const touches = ({ from, to }: { from: number; to: number }) => {
    const at = after(from);
    const [before, behind] = [edits[at - 1], edits[at]];
    return (before !== undefined && before.to >= from) || (behind !== undefined && behind.from <= to);
  };
  for (const problem of view.problems()) {
    yield undefined;
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
    if (own.some(touches)) continue;
    for (const one of own) edits.splice(after(one.from), 0, one);
  }
  if (!edits.length) return [];
  return [
    {
      title: 'Mend all that is surely meant',
      kind: FIX_ALL,
      edit: { changes: { [view.uri]: edits.map(({ edit }) => edit) } },
    },
  ];
}
