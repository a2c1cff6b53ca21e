import type { Filled } from '../../../grammar/pattern.ts';
import type { Word } from '../../../grammar/tree.ts';
import { LineReading } from '../../model/names/line-reading.ts';
import type { Named } from '../../model/names/spec-file.ts';
import { ofModel } from '../../model/per-spec.ts';
import type { Finish, Model } from '../../model/spec.ts';

/* Steps of finishing, and the order of work. */

/** What a step leaves on the surface. */
export type Layer = 'bare' | 'colour' | 'coat';

/** Coats lie on the metal and burn or wipe off; colours are in its skin. */
export function layerOf(step: LineReading): Layer {
  switch (step.id) {
    case 'blacken':
    case 'blue':
    case 'patina':
      return 'colour';
    case 'prime':
    case 'paint':
    case 'lacquer':
    case 'wax':
    case 'oil':
    case 'dye':
      return 'coat';
    default:
      return 'bare';
  }
}

const STEP_NAMES: Readonly<Record<string, string>> = {
  grind: 'grinding',
  sand: 'sanding',
  polish: 'polishing',
  blacken: 'blackening',
  blue: 'bluing',
  patina: 'the patina',
  prime: 'the primer',
  paint: 'the paint',
  dye: 'the dye',
  oil: 'the oil',
  wax: 'the wax',
  lacquer: 'the lacquer',
};

/** Steps of a finish that are done by heat. */
export const isHotFinish = (step: LineReading): boolean =>
  step.id === 'blue' || (step.id === 'blacken' && step.has('hot'));

export const stepName = (step: LineReading): string =>
  step.id === 'blacken' && isHotFinish(step) ? 'blackening by heat' : (STEP_NAMES[step.id] ?? step.id);

/** Pairs of steps of one finish, earlier and later, for which a rule holds: each later step with the first such earlier one. */
export function outOfOrder(
  finish: Finish,
  isWrong: (earlier: LineReading, later: LineReading) => boolean,
): { earlier: LineReading; later: LineReading }[] {
  return finish.steps.flatMap((later, i) => {
    const earlier = finish.steps.slice(0, i).find((each) => isWrong(each, later));
    return earlier ? [{ earlier, later }] : [];
  });
}

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
