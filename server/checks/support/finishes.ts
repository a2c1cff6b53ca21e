import type { LineReading } from '../../model/names/line-reading.ts';
import { isHotFinish } from '../../model/operations/steps.ts';
import type { Finish } from '../../model/spec.ts';

/* Steps of finishing, as the checks tell of them. */

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
