import type { Range, TextEdit } from 'vscode-languageserver-types';
import { formatEdits } from '../../grammar/printer.ts';
import type { View } from './workspace.ts';

/** What to change for the formatter's layout, in the whole spec or in the lines that a range touches. */
export function formattingOf(view: View, range?: Range): TextEdit[] {
  const span = range && { from: view.offsetAt(range.start), to: view.offsetAt(range.end) };
  return formatEdits(view.text, span, view.spec).map((edit) => ({
    range: view.range(edit.from, edit.to),
    newText: edit.text,
  }));
}
