import { type CodeAction, CodeActionKind, type Range } from 'vscode-languageserver-types';
import { say } from '../../../l10n/say.ts';
import type { View } from '../workspace/workspace.ts';

/** Sections whose lines mean the same in any order. Elsewhere the order is the order of the work. */
const UNORDERED = new Set(['build', 'wearer', 'material', 'rivet', 'part', 'rules', 'shop']);

/** The lines of a section in the order of the reference. Not where comments stand between them: nobody knows whose they are. */
export function sortLinesActions(view: View, range: Range): CodeAction[] {
  const section = view.sectionAt(view.offsetAt(range.start));
  const { kind, header, lines } = section;
  if (!kind || !header || !UNORDERED.has(kind.kind) || section.singles.length || lines.length < 2) return [];
  const at = view.offsetAt(range.start) - section.start;
  if (at < header.from || at > header.to) return [];
  if (section.comments.some((comment) => comment.from > header.to)) return [];
  if (lines.some(({ word }) => !word)) return [];
  const rank = (line: (typeof lines)[number]) => kind.lines.indexOf(line.word!);
  const sorted = lines.map((line, i) => ({ line, i })).sort((a, b) => rank(a.line) - rank(b.line) || a.i - b.i);
  if (sorted.every(({ i }, place) => i === place)) return [];
  const edits = lines.map((line, place) => {
    const from = sorted[place]!.line;
    return {
      range: view.rangeOf({ section, from: line.from, to: line.to }),
      newText: section.text.slice(from.from, from.to),
    };
  });
  return [
    {
      title: say`Put the lines of this ${kind.kind} in order`,
      kind: CodeActionKind.RefactorRewrite,
      edit: { changes: { [view.uri]: edits } },
    },
  ];
}
