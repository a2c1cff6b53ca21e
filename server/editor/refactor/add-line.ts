import { type CodeAction, CodeActionKind, type Diagnostic } from 'vscode-languageserver-types';
import type { LineWord } from '../../../grammar/pattern.ts';
import { readSection } from '../../../grammar/reader.ts';
import { lineSnippet, withDefaults } from '../../../grammar/snippets.ts';
import type { Section } from '../../../grammar/tree.ts';
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
  const from = view.offsetAt({ line: end.line, character: 0 });
  const row = view.text.slice(from).split(/\r\n|\r|\n/, 1)[0] ?? '';
  const at = view.positionAt(from + row.length);
  const texts = new Set(wordsMissing(section).flatMap((word) => linesOf(view, section, word)));
  return [...texts].map((text) => {
    return {
      title: `Add: ${text}`,
      kind: CodeActionKind.QuickFix,
      edit: { changes: { [view.uri]: [{ range: { start: at, end: at }, newText: `\n  ${text}` }] } },
      ...(mended.length ? { diagnostics: [...mended] } : {}),
    };
  });
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
