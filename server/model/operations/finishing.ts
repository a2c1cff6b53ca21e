import type { Section } from '../../../grammar/tree.ts';
import { rateOf, type WorkKind } from '../../trade/usual/rates.ts';
import type { LineReading } from '../names/line-reading.ts';
import { gathered } from '../per-spec.ts';
import type { Finish, Model } from '../spec.ts';
import { type Arrow, type Operation, operation, quantityOf, times } from './operation.ts';
import { isHotFinish, type Layer, layerOf } from './steps.ts';

/** One step of a finish, on all that the finish is on. */
export interface FinishStep {
  readonly operation: Operation;
  readonly layer: Layer;
  readonly isHot: boolean;
  /** Oil and wax, on which nothing holds. */
  readonly isGreasy: boolean;
}

export interface FinishWork {
  readonly section: Section;
  readonly pieces: readonly Section[];
  readonly rivets: readonly Section[];
  readonly steps: readonly FinishStep[];
  readonly arrows: readonly Arrow[];
}

export const finishWork = gathered('finish', (finish, model) => [workOf(finish, model)]);

function workOf(finish: Finish, model: Model): FinishWork {
  const { named } = finish;
  const area = model.figuresOf(named)?.get('area');
  let nth = 0;
  const steps = finish.steps.flatMap((line): FinishStep[] => {
    const kind = line.id as WorkKind;
    const coats = line.is('paint') ? (line.count('coats', 'coats') ?? 1) : 1;
    const grits = gritsOf(line);
    const made = Array.from({ length: Math.min(coats, MOST_COATS) }, (_, coat) =>
      operation({
        of: { kind: 'finish', name: named.word.text },
        section: named.section,
        place: line.place,
        kind,
        title: `${rateOf(kind).does}, finish ${named.word.text}`,
        quantity: area && times(quantityOf(area), Math.max(1, grits.length)),
        says: [...grits.map((grit) => `${grit} grit`), ...(coats > 1 ? [`coat ${coat + 1} of ${coats}`] : [])],
        nth: ++nth,
      }),
    );
    const layer = layerOf(line);
    const isHot = isHotFinish(line);
    const isGreasy = line.id === 'oil' || line.id === 'wax';
    return made.map((operation) => ({ operation, layer, isHot, isGreasy }));
  });
  return {
    section: named.section,
    pieces: sectionsOf(finish, 'piece'),
    rivets: sectionsOf(finish, 'rivet'),
    steps,
    arrows: steps.slice(1).map(({ operation }, i) => ({
      from: steps[i]!.operation,
      to: operation,
      reason: 'as-written',
      place: operation.place,
    })),
  };
}

const MOST_COATS = 99;

const sectionsOf = ({ on }: Finish, kind: 'piece' | 'rivet'): Section[] => [
  ...new Set(on.flatMap(({ named }) => (named?.kind === kind ? [named.section] : []))),
];

function gritsOf(line: LineReading): number[] {
  if (!line.is('grind') && !line.is('sand')) return [];
  return line.measures('grit', 'grits') ?? [];
}
