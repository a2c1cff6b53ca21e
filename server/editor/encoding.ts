import type { TextDocument, TextDocumentContentChangeEvent } from 'vscode-languageserver-textdocument';
import type { Position } from 'vscode-languageserver-types';

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

/** Changes in the columns of the text itself. Each counts from the text that the one before it left. */
export function changed(
  document: TextDocument,
  changes: readonly TextDocumentContentChangeEvent[],
  version: number,
  encoding: Encoding,
  update: (document: TextDocument, changes: TextDocumentContentChangeEvent[], version: number) => TextDocument,
): TextDocument {
  if (encoding === 'utf-16') return update(document, [...changes], version);
  let now = document;
  for (const change of changes) {
    const inside = (position: Position) => now.positionAt(offsetAt(now, position, encoding));
    const own =
      'range' in change
        ? { range: { start: inside(change.range.start), end: inside(change.range.end) }, text: change.text }
        : change;
    now = update(now, [own], version);
  }
  return now;
}

/** How many units of a column one letter takes. A lone half of a letter is written as three bytes, as a replacement is. */
function unitsOf(code: number, encoding: Encoding): number {
  if (encoding === 'utf-32') return 1;
  return code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
}
