import { SelectionRangeRequest } from 'vscode-languageserver';
import type { Position, SelectionRange } from 'vscode-languageserver-types';
import type { Expression, Span } from '../../../grammar/tree.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import { expressionsIn, spotAt } from '../workspace/spot.ts';
import type { View } from '../workspace/workspace.ts';
import { endOfContent } from './symbols.ts';

export const feature: Feature = {
  capability: () => ({ selectionRangeProvider: true }),
  requests: [
    aboutOne(SelectionRangeRequest.type, {
      what: 'selection',
      empty: [],
      answer: (view, { positions }) => selectionRangesAt(view, positions),
    }),
  ],
};

/** From the word under the cursor out to its argument, phrase, line, section and file. */
export function selectionRangesAt(view: View, positions: readonly Position[]): SelectionRange[] {
  return positions.map((position) => {
    const spot = spotAt(view, view.offsetAt(position));
    const { section, line, single, at } = spot;
    const phrase = line?.phrases.find((each) => each.from <= at && at <= each.to);
    const value = single?.kind === 'let' ? single.value : undefined;
    const item = spot.item ?? value;
    const text = item?.kind === 'text' ? item : single?.kind === 'use' ? single.path : section.title;
    const spans: Span[] = [
      spot.number,
      spot.word,
      ...(item ? expressionsIn(item).flatMap((each) => [...expressionsAround(each, at)]) : []),
      text && { from: text.from + 1, to: text.to - 1 },
      text,
      item,
      spot.comment,
      spot.slot?.filled,
      phrase,
      line,
      single,
      section.header,
      section.header ? { from: section.notes[0]?.from ?? section.header.from, to: endOfContent(section) } : undefined,
      { from: 0, to: section.text.length },
      { from: -section.start, to: view.text.length - section.start },
    ]
      .filter((span) => span !== undefined)
      .filter(({ from, to }) => from <= at && at <= to);
    let range: SelectionRange | undefined;
    for (const span of spans.reverse()) {
      const next = view.range(section.start + span.from, section.start + span.to);
      const inside =
        !range ||
        (view.offsetAt(range.range.start) <= section.start + span.from &&
          section.start + span.to <= view.offsetAt(range.range.end));
      const same = range && JSON.stringify(range.range) === JSON.stringify(next);
      if (inside && !same) range = { range: next, ...(range ? { parent: range } : {}) };
    }
    return range ?? { range: { start: position, end: position } };
  });
}

/** Arithmetic round a place, from the innermost out. */
function* expressionsAround(expression: Expression, at: number): Generator<Span> {
  if (at < expression.from || expression.to < at) return;
  const parts =
    expression.kind === 'binary'
      ? [expression.left, expression.right]
      : expression.kind === 'negate'
        ? [expression.of]
        : expression.kind === 'call'
          ? expression.arguments
          : [];
  for (const part of parts) yield* expressionsAround(part, at);
  yield expression;
}
