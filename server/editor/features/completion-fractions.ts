import { type CompletionItem, CompletionItemKind, type Position } from 'vscode-languageserver-types';
import { trim } from '../../model/values/show.ts';
import type { View } from '../workspace/workspace.ts';

const PARTS = [2, 4, 8, 16, 32, 64] as const;

/** Behind `3/` or `2 3/`: the fractions of an inch that a rule and a drill index know, each with its millimetres. */
export function fractionsAt(view: View, position: Position): CompletionItem[] {
  const before = view.text.slice(view.offsetAt({ line: position.line, character: 0 }), view.offsetAt(position));
  const found = /(?:^|[\s(,])(?:(\d+) )?(\d+)\/(\d*)$/.exec(before);
  if (!found || before.includes('#') || before.includes('"')) return [];
  const [, whole = '', over = '', under = ''] = found;
  const top = Number(over);
  if (top % 2 === 0) return [];
  const start = view.positionAt(view.offsetAt(position) - over.length - 1 - under.length);
  return PARTS.filter((part) => part > top && String(part).startsWith(under)).map((part, i) => {
    const text = `${top}/${part}`;
    return {
      label: `${text} in`,
      kind: CompletionItemKind.Value,
      detail: `${trim((Number(whole) + top / part) * 25.4, 3)} mm`,
      filterText: text,
      sortText: `0${i}`,
      textEdit: { range: { start, end: position }, newText: `${text} in` },
    };
  });
}
