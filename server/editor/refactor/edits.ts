import type { AnnotatedTextEdit, TextEdit, WorkspaceEdit } from 'vscode-languageserver-types';
import type { Edit, Section } from '../../../grammar/tree.ts';
import type { View } from '../workspace/workspace.ts';

/** Edits of a section's text as edits of its file. */
export const placed = (view: View, section: Section, edits: readonly Edit[]): TextEdit[] =>
  edits.map(({ from, to, text }) => ({ range: view.rangeOf({ section, from, to }), newText: text }));

/** A text after edits that do not touch each other. */
export function edited(text: string, edits: readonly Edit[]): string {
  let out = '';
  let at = 0;
  for (const edit of [...edits].sort((a, b) => a.from - b.from)) {
    out += text.slice(at, edit.from) + edit.text;
    at = edit.to;
  }
  return out + text.slice(at);
}

/** Edits that the editor shows before it makes them. */
export function confirmed(changes: NonNullable<WorkspaceEdit['changes']>, label: string): WorkspaceEdit {
  const annotationId = 'shown';
  return {
    changeAnnotations: { [annotationId]: { label, needsConfirmation: true } },
    documentChanges: Object.entries(changes).map(([uri, edits]) => ({
      textDocument: { uri, version: null },
      edits: edits.map((each): AnnotatedTextEdit => ({ ...each, annotationId })),
    })),
  };
}
