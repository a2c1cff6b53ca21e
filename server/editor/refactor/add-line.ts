import {
  type CodeAction,
  CodeActionKind,
  type Diagnostic,
  type Position,
  StringValue,
  type WorkspaceEdit,
} from 'vscode-languageserver-types';
import { unmetNeeds } from '../../../grammar/needs.ts';
import type { LineWord, Need } from '../../../grammar/pattern.ts';
import { readSection } from '../../../grammar/reader.ts';
import { lineSnippet, wantedSnippet, withDefaults } from '../../../grammar/snippets.ts';
import type { Section } from '../../../grammar/tree.ts';
import { say } from '../../../l10n/say.ts';
import type { Problem } from '../../checks/check.ts';
import { isNamed, namesKnown } from '../workspace/known-names.ts';
import { slotsOf } from '../workspace/names.ts';
import type { View } from '../workspace/workspace.ts';

/** For a section that lacks a line it needs: that line, with its usual words and with names that are there, to be changed. */
export function addLineActions(view: View, problem: Problem, mended: readonly Diagnostic[]): CodeAction[] {
  if (problem.code !== 'line-missing') return [];
  const { section } = problem.place;
  const header = section.header;
  if (!header) return [];
  const end = view.positionAt(section.start + Math.max(header.to, section.lines[section.lines.length - 1]?.to ?? 0));
  const at = endOfRow(view, end.line);
  const texts = new Set(wordsMissing(section).flatMap((word) => linesOf(view, section, word)));
  return [...texts].map((text) => {
    return {
      title: say`Add: ${text.split('\n')[0]}`,
      kind: CodeActionKind.QuickFix,
      edit: {
        changes: { [view.uri]: [{ range: { start: at, end: at }, newText: `\n  ${text.replaceAll('\n', '\n  ')}` }] },
      },
      ...(mended.length ? { diagnostics: [...mended] } : {}),
    };
  });
}

/**
 * For a line that says too little: what it wants besides, in each way in which it can be said. Where the editor takes snippets
 * the measures are selected, to be typed over: they are examples and no advice.
 */
export function addFactActions(
  view: View,
  problem: Problem,
  mended: readonly Diagnostic[],
  snippetEdits: boolean,
): CodeAction[] {
  if (problem.code !== 'line-unfinished') return [];
  const { section, from, to } = problem.place;
  const line = section.lines.find(({ head }) => head?.from === from && head.to === to);
  const { word, head } = line ?? {};
  if (!line || !word || !head) return [];
  const unmet = unmetNeeds(line, section.lines);
  const known = namesKnown(view, section);
  const seen = new Set<string>();
  return waysThrough(unmet).flatMap((facts) => {
    const wanted = wantedSnippet(word, facts, known);
    if (!wanted) return [];
    const plain = withDefaults(wanted.snippet);
    if (wanted.where === 'in' && !namesOnlyWhatIs(view, section, section.text.slice(head.from, head.to) + plain))
      return [];
    const title = say`Add: ${plain.replace(/^[\s,]+/, '').split('\n')[0]}`;
    if (seen.has(title)) return [];
    seen.add(title);
    const end = view.positionAt(section.start + (wanted.where === 'in' ? head.to : line.to));
    const at = wanted.where === 'below' ? endOfRow(view, end.line) : end;
    const inPlace = (text: string) => (wanted.where === 'below' ? `\n  ${text.replaceAll('\n', '\n  ')}` : text);
    const range = { start: at, end: at };
    const edit: WorkspaceEdit = snippetEdits
      ? {
          documentChanges: [
            {
              textDocument: { uri: view.uri, version: null },
              edits: [{ range, snippet: StringValue.createSnippet(inPlace(wanted.snippet)) }],
            },
          ],
        }
      : { changes: { [view.uri]: [{ range, newText: inPlace(plain) }] } };
    return [{ title, kind: CodeActionKind.QuickFix, edit, ...(mended.length ? { diagnostics: [...mended] } : {}) }];
  });
}

/** All facts that would finish a line: one way of each need, the first need in all of its ways. */
function waysThrough([first, ...rest]: readonly Need[]): string[][] {
  return (first?.ways ?? []).map((way) => [...new Set([...way, ...rest.flatMap(({ ways }) => ways[0] ?? [])])]);
}

/** The line as it can stand there: with each of the first few names that fit, and not at all where none does. */
function linesOf(view: View, section: Section, word: LineWord): string[] {
  const known = namesKnown(view, section);
  // Of several in a row no choice is likelier than another.
  const most = word.pattern.elements.some((element) => element.kind === 'slot' && element.list) ? 1 : 3;
  return [0, 1, 2]
    .slice(0, most)
    .map((skipped) => withDefaults(lineSnippet(word, (type, slot) => known(type, slot).slice(skipped))))
    .filter((text) => namesOnlyWhatIs(view, section, text));
}

function namesOnlyWhatIs(view: View, section: Section, text: string): boolean {
  const [line] = readSection(`${section.kind?.kind} one\n  ${text}`).lines;
  return [...(line ? slotsOf(line) : [])].every(
    ({ filled }) => !isNamed(filled.type) || view.file.find(filled.text) !== undefined,
  );
}

function endOfRow(view: View, row: number): Position {
  const from = view.offsetAt({ line: row, character: 0 });
  const text = view.text.slice(from).split(/\r\n|\r|\n/, 1)[0] ?? '';
  return view.positionAt(from + text.length);
}

/** The first word of each need that no line meets. */
function wordsMissing(section: Section): LineWord[] {
  const kind = section.kind;
  if (!kind) return [];
  return kind.needs.flatMap(({ any }) => {
    const fits = (word: LineWord) => any.includes(word.id) || any.includes(`@${word.group}`);
    if (section.lines.some(({ word }) => word && fits(word))) return [];
    return kind.lines.filter(fits).slice(0, 3);
  });
}
