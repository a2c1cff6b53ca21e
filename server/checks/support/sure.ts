import { translated } from '../../../l10n/say.ts';
import { type Interval, intervalOf } from '../../trade/reckoning/interval.ts';

/**
 * How surely something goes past its limit, both with all that is left open about them: `cannot` hold even at the kind ends
 * of both, is `likely` not to by what is thought, or `may` not at the unkind ends.
 */
export type Sure = 'cannot' | 'likely' | 'may';

type Ranged = number | Parameters<typeof intervalOf>[0];

const intervalIn = (of: Ranged): Interval => (typeof of === 'number' ? intervalOf({ value: of }) : intervalOf(of));

/** Whether a figure is more than its limit by more than `slack`; nothing where it surely is not. */
export function isOver(figure: Ranged, limit: Ranged, slack = 0): Sure | undefined {
  const [has, most] = [intervalIn(figure), intervalIn(limit)];
  if (has.low > most.high + slack) return 'cannot';
  if (has.value > most.value + slack) return 'likely';
  return has.high > most.low + slack ? 'may' : undefined;
}

/** Whether a figure is less than its limit by more than `slack`. */
export const isUnder = (figure: Ranged, limit: Ranged, slack = 0): Sure | undefined => isOver(limit, figure, slack);

/** The words of a sure finding, or of one that is not. */
export const inWords = (sure: Sure, surely: string, perhaps: string): string =>
  translated(sure === 'cannot' ? surely : perhaps);
