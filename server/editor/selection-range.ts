import type { Position, SelectionRange } from 'vscode-languageserver-types';
import type { Span } from '../../grammar/tree.ts';
import { spotAt } from './spot.ts';
import { endOfContent } from './symbols.ts';
import type { View } from './workspace.ts';

/** From the word under the cursor out to its argument, phrase, line, section and file. */
export function selectionRangesAt(view: View, positions: readonly Position[]): SelectionRange[] {
  return positions.map((position) => {
    const spot = spotAt(view, view.offsetAt(position));
    const { section, line, single, at } = spot;
    const phrase = line?.phrases.find((each) => each.from <= at && at <= each.to);
    const spans: Span[] = [
      spot.number,
      spot.word,
      spot.item,
      spot.comment,
      spot.slot?.filled,
      phrase,
      line,
      single,
      spot.header ? section.header : undefined,
      section.header ? { from: section.notes[0]?.from ?? section.header.from, to: endOfContent(section) } : undefined,
      { from: -section.start, to: view.text.length - section.start },
    ].filter((span) => span !== undefined);
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
