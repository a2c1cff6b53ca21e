import type { TextDocument, TextDocumentContentChangeEvent } from 'vscode-languageserver-textdocument';
import type { Position } from 'vscode-languageserver-types';
import type { Kept } from '../../../grammar/reader.ts';

/*
 * What a column counts: half a letter of an emoji, a letter, or a byte, as editor and server have agreed. Inside, all
 * is in the units of the text itself (UTF-16).
 */

export type Encoding = 'utf-8' | 'utf-16' | 'utf-32';

export function offsetAt(document: TextDocument, position: Position, encoding: Encoding): number {
  if (encoding === 'utf-16') return document.offsetAt(position);
  const start = document.offsetAt({ line: position.line, character: 0 });
  const end = document.offsetAt({ line: position.line, character: Number.MAX_SAFE_INTEGER });
  const text = document.getText();
  let at = start;
  let left = position.character;
  while (at < end && left > 0) {
    const code = text.codePointAt(at)!;
    left -= unitsOf(code, encoding);
    at += code > 0xffff ? 2 : 1;
  }
  return at;
}

export function positionAt(document: TextDocument, offset: number, encoding: Encoding): Position {
  const position = document.positionAt(offset);
  if (encoding === 'utf-16') return position;
  const text = document.getText();
  const end = document.offsetAt(position);
  let at = end - position.character;
  let character = 0;
  while (at < end) {
    const code = text.codePointAt(at)!;
    character += unitsOf(code, encoding);
    at += code > 0xffff ? 2 : 1;
  }
  return { line: position.line, character };
}

/** A text after some changes, of which each counts from the text that the one before it left; and what they left alone. */
export function changed(
  document: TextDocument,
  changes: readonly TextDocumentContentChangeEvent[],
  version: number,
  encoding: Encoding,
  update: (document: TextDocument, changes: TextDocumentContentChangeEvent[], version: number) => TextDocument,
): { readonly document: TextDocument; readonly kept: Kept } {
  let now = document;
  let { length } = document.getText();
  let kept: Kept = { before: length, after: length };
  for (const change of changes) {
    if (!('range' in change)) {
      now = update(now, [change], version);
      kept = { before: 0, after: 0 };
      length = now.getText().length;
      continue;
    }
    const start = offsetAt(now, change.range.start, encoding);
    const end = offsetAt(now, change.range.end, encoding);
    // An editor may give a range from its end to its start.
    const [from, to] = [Math.min(start, end), Math.max(start, end)];
    kept = { before: Math.min(kept.before, from), after: Math.min(kept.after, length - to) };
    const range = { start: now.positionAt(from), end: now.positionAt(to) };
    now = update(now, [{ range, text: change.text }], version);
    length = now.getText().length;
  }
  return { document: now, kept };
}

/** How many units of a column one letter takes. A lone half of a letter is written as three bytes, as a replacement is. */
function unitsOf(code: number, encoding: Encoding): number {
  if (encoding === 'utf-32') return 1;
  return code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
}
