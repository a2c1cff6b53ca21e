import type { Filled } from '../../../grammar/pattern.ts';
import type { Word } from '../../../grammar/tree.ts';
import type { LineById, LinesOf } from '../../../grammar/typed-line.ts';
import { LineReading } from '../names/line-reading.ts';
import type { Named } from '../names/spec-file.ts';
import { ofModel } from '../per-spec.ts';
import type { Model } from '../spec.ts';

/** A step in an order of work. */
export interface Step {
  readonly line: LineReading;
  readonly filled: Filled;
  readonly named: Named | undefined;
  /** `raise`, `weld`; nothing for a finish or a seam that stands for itself. */
  readonly operation: string | undefined;
  /** What it is told apart by. */
  readonly key: string;
}

/** Every `first …, then …` of the spec, step by step. */
export const orders = ofModel((model): readonly (readonly Step[])[] =>
  model.file.sectionsOf('order').flatMap((section) =>
    section.lines.flatMap((line): Step[][] => {
      if (line.word?.id !== 'first' || !line.head) return [];
      const reading = new LineReading(model.file, line);
      const filled = [
        ...(line.head.slots.get('first') ?? []),
        ...line.qualifiers.flatMap((bound) => bound.slots.get('then') ?? []),
      ];
      return [filled.map((each) => stepOf(model, reading, each))];
    }),
  ),
);

function stepOf(model: Model, line: LineReading, filled: Filled): Step {
  const words = filled.items.filter((item): item is Word => item.kind === 'word');
  const own = filled.copy ? words.slice(1) : words;
  const named = own[0] && model.file.find(own[0].key);
  const operation = own
    .slice(1)
    .map((word) => word.key)
    .join(' ');
  return { line, filled, named, operation: operation || undefined, key: words.map((word) => word.key).join(' ') };
}

/** Hours that the smith gives a step, of one build. */
export const saidHours = ofModel((model): readonly { readonly step: Step; readonly minutes: number }[] =>
  model.file.sectionsOf('order').flatMap((section) =>
    section.lines.flatMap((line) => {
      if (line.word?.id !== 'hours') return [];
      const reading = new LineReading<LineById<LinesOf<'order'>, 'hours'>>(model.file, line);
      const [step, minutes] = [reading.filled('step'), reading.measure('time', 'time')];
      return step && minutes !== undefined ? [{ step: stepOf(model, reading, step), minutes }] : [];
    }),
  ),
);
