import { DocumentOnTypeFormattingRequest, DocumentRangesFormattingRequest } from 'vscode-languageserver';
import type { Position, Range, TextEdit } from 'vscode-languageserver-types';
import { atOnce, type Steps } from '../../incremental/steps.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import type { View } from '../workspace/workspace.ts';
import { formattingInSteps } from './formatting.ts';

/** Several ranges at once are said with those of one: see formatting. */
export const feature: Feature = {
  capability: () => ({ documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n' } }),
  requests: [
    aboutOne(DocumentOnTypeFormattingRequest.type, {
      what: 'formatting',
      empty: [],
      answer: (view, { position }) => onTypeFormattingInSteps(view, position),
    }),
    aboutOne(DocumentRangesFormattingRequest.type, {
      what: 'formatting',
      empty: [],
      answer: (view, { ranges }) => rangesFormattingInSteps(view, ranges),
    }),
  ],
};

/**
 * After a new line: the line that was left is laid out; the one being written stays as it is.
 *
 * @tests in one go: who may not wait asks for the steps
 */
export const onTypeFormattingAt = (view: View, position: Position): TextEdit[] =>
  atOnce(onTypeFormattingInSteps(view, position));

export function* onTypeFormattingInSteps(view: View, position: Position): Steps<TextEdit[]> {
  if (position.line === 0) return [];
  const left = position.line - 1;
  const from = { line: left, character: 0 };
  const end = view.positionAt(view.offsetAt({ line: position.line, character: 0 }) - 1);
  const edits = yield* formattingInSteps(view, { start: from, end: end.line === left ? end : from });
  return edits.filter(({ range }) => range.start.line === left && range.end.line === left);
}

/** Several ranges at once, as one edit each. */
function* rangesFormattingInSteps(view: View, ranges: readonly Range[]): Steps<TextEdit[]> {
  const edits = new Map<string, TextEdit>();
  for (const range of ranges)
    for (const edit of yield* formattingInSteps(view, range)) edits.set(JSON.stringify(edit.range), edit);
  return [...edits.values()];
}
