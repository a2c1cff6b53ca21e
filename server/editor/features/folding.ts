import { FoldingRangeRequest } from 'vscode-languageserver';
import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver-types';
import { atOnce, type Steps } from '../../incremental/steps.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import type { View } from '../workspace/workspace.ts';
import { endOfContent } from './symbols.ts';

export const feature: Feature = {
  capability: () => ({ foldingRangeProvider: true }),
  requests: [
    aboutOne(FoldingRangeRequest.type, { what: 'folding', empty: [], answer: (view) => foldingRangesInSteps(view) }),
  ],
};

/**
 * Sections fold to their header, runs of comment and of uses to their first line.
 *
 * @tests in one go: who may not wait asks for the steps
 */
export const foldingRangesOf = (view: View): FoldingRange[] => atOnce(foldingRangesInSteps(view));

function* foldingRangesInSteps(view: View): Steps<FoldingRange[]> {
  const ranges: FoldingRange[] = [];
  const lineAt = (offset: number) => view.positionAt(offset).line;
  for (const section of view.spec.sections) {
    yield undefined;
    if (section.header) {
      const startLine = lineAt(section.start + section.header.from);
      const endLine = lineAt(section.start + endOfContent(section));
      if (endLine > startLine) ranges.push({ startLine, endLine, kind: FoldingRangeKind.Region });
    }
    const uses = new Set(
      section.singles.filter(({ kind }) => kind === 'use').map(({ from }) => lineAt(section.start + from)),
    );
    for (const startLine of [...uses].filter((line) => !uses.has(line - 1))) {
      let endLine = startLine;
      while (uses.has(endLine + 1)) endLine++;
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
      if (!isAlone(section.text, comment.from)) continue;
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

/** Nothing but white space stands before it on its row. */
function isAlone(text: string, from: number): boolean {
  let at = from;
  while (at > 0 && /[^\S\r\n]/.test(text[at - 1]!)) at--;
  return at === 0 || text[at - 1] === '\n' || text[at - 1] === '\r';
}
