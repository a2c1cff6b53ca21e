import { DocumentFormattingRequest, DocumentRangeFormattingRequest } from 'vscode-languageserver';
import type { Range, TextEdit } from 'vscode-languageserver-types';
import { formatEditsInSteps } from '../../../grammar/printer.ts';
import { atOnce, type Steps } from '../../incremental/steps.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import type { View } from '../workspace/workspace.ts';

export const feature: Feature = {
  capability: () => ({
    documentFormattingProvider: true,
    documentRangeFormattingProvider: { rangesSupport: true },
  }),
  requests: [
    aboutOne(DocumentFormattingRequest.type, {
      what: 'formatting',
      empty: [],
      answer: (view) => formattingInSteps(view),
    }),
    aboutOne(DocumentRangeFormattingRequest.type, {
      what: 'formatting',
      empty: [],
      answer: (view, { range }) => formattingInSteps(view, range),
    }),
  ],
};

/**
 * What to change for the formatter's layout, in the whole spec or in the lines that a range touches.
 *
 * @tests in one go: who may not wait asks for the steps
 */
export const formattingOf = (view: View, range?: Range): TextEdit[] => atOnce(formattingInSteps(view, range));

export function* formattingInSteps(view: View, range?: Range): Steps<TextEdit[]> {
  const span = range && { from: view.offsetAt(range.start), to: view.offsetAt(range.end) };
  const edits: TextEdit[] = [];
  for (const edit of yield* formatEditsInSteps(view.text, span, view.spec)) {
    if (edits.length % MANY === 0) yield undefined;
    edits.push({ range: view.range(edit.from, edit.to), newText: edit.text });
  }
  return edits;
}

/** So many edits are placed in a few milliseconds. */
const MANY = 1_000;
