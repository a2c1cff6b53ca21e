import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver-types';
import { endOfContent } from './symbols.ts';
import type { View } from './workspace.ts';

/** Sections fold to their header, runs of comment and of uses to their first line. */
export function foldingRangesOf(view: View): FoldingRange[] {
  const ranges: FoldingRange[] = [];
  const lineAt = (offset: number) => view.positionAt(offset).line;
  for (const section of view.spec.sections) {
    if (section.header) {
      const startLine = lineAt(section.start + section.header.from);
      const endLine = lineAt(section.start + endOfContent(section));
      if (endLine > startLine) ranges.push({ startLine, endLine, kind: FoldingRangeKind.Region });
    }
    const uses = section.singles.filter(({ kind }) => kind === 'use').map(({ from }) => lineAt(section.start + from));
    for (const startLine of uses.filter((line) => !uses.includes(line - 1))) {
      let endLine = startLine;
      while (uses.includes(endLine + 1)) endLine++;
      if (endLine > startLine) ranges.push({ startLine, endLine, kind: FoldingRangeKind.Imports });
    }
    let first = -1;
    let last = -1;
    const finish = () => {
      if (last > first) ranges.push({ startLine: first, endLine: last, kind: FoldingRangeKind.Comment });
      first = -1;
    };
    for (const comment of section.comments) {
      const line = lineAt(section.start + comment.from);
      const alone = /(^|[\r\n])[^\S\r\n]*$/.test(section.text.slice(0, comment.from));
      if (!alone) continue;
      if (first >= 0 && line === last + 1) last = line;
      else {
        finish();
        first = line;
        last = line;
      }
    }
    finish();
  }
  return ranges.sort((a, b) => a.startLine - b.startLine);
}
