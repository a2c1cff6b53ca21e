import { say } from '../../../l10n/say.ts';
import { reckon } from '../reckoning/reckon.ts';
import type { Result, Unit } from '../reckoning/result.ts';
import { PRACTICE } from './practice.ts';

/** What a build must bear, as its `duty` line says. */
export type DutyId = 'display' | 'stage' | 'contact';

export interface Threshold {
  readonly id: string;
  readonly what: string;
  readonly unit: Unit;
  /** At least so much, or at most. */
  readonly sense: 'least' | 'most';
  readonly display: number;
  readonly stage: number;
  readonly contact: number;
  readonly source: string;
}

/**
 * What is usual for each duty: the one place where such numbers stand. Every one of them is common practice without a
 * source unless its row names one. A group's rulebook, as its user entered it, always comes before them; none of them says
 * that a thing is safe.
 */
export const dutyTable: readonly Threshold[] = [
  least('head-plate', 'Thinnest place of a plate over the head', 'mm', 0.7, 0.9, 1.4),
  least('body-plate', 'Thinnest place of a plate over the body', 'mm', 0.6, 0.8, 1.1),
  least('limb-plate', 'Thinnest place of a plate over a limb or a hand', 'mm', 0.5, 0.7, 0.9),
  least('edge-round', 'Round of a plain edge', 'mm', 0.5, 1, 1),
  least('rivet-shank', 'Shank of a rivet that holds plates', 'mm', 2, 2.4, 3),
  most('rivet-pitch', 'From rivet to rivet along a seam', 'mm', 80, 60, 50.8, {
    source: `${PRACTICE}; for contact a published equipment standard of one group: 1/8 in rivets at most 2 in apart`,
  }),
  least('head-liner', 'Liner of a helm, worn', 'mm', 0, 6, 12),
  least('head-clearance', 'Room between head and plate, liner and ease together', 'mm', 6, 10, 15),
  least('overlap-left', 'Overlap that moving plates keep at the ends of their range', 'mm', 3, 5, 5),
  least('slide-gap', 'Gap under a sliding plate', 'mm', 0.5, 1, 1),
  most('helm-mass', 'Mass of a helm', 'g', 3000, 3000, 4500),
  most('helm-front', 'Balance of a helm in front of the middle of the head', 'mm', 40, 30, 25),
  least('view-wide', 'Seen across, with either eye', 'deg', 60, 90, 90),
  least('view-high', 'Seen up and down', 'deg', 8, 12, 10),
  most('thinning-mind', 'Thinning of soft steel that wants watching, without an anneal', 'percent', 15, 15, 15),
  most('thinning-stop', 'Thinning of soft steel that goes too far, without an anneal', 'percent', 25, 25, 25),
];

/** The threshold of a row of the table for a duty; nothing for a row that there is not. */
export function dutyLimit(duty: DutyId, id: string): Result | undefined {
  const row = dutyTable.find((each) => each.id === id);
  return (
    row &&
    reckon({
      value: row[duty],
      unit: row.unit,
      formula: say`${row.sense === 'least' ? say`at least` : say`at most`} {x${row.unit === 'mm' ? say`|mm` : ''}} for ${duty}`,
      symbols: { x: row[duty] },
      basis: 'common practice',
      source: row.source,
      note: 'A rulebook that the build names comes before this. It says nothing of safety.',
    })
  );
}

type More = { readonly source?: string };

function least(id: string, what: string, unit: Unit, display: number, stage: number, contact: number): Threshold {
  return { id, what, unit, sense: 'least', display, stage, contact, source: PRACTICE };
}

function most(
  id: string,
  what: string,
  unit: Unit,
  display: number,
  stage: number,
  contact: number,
  { source = PRACTICE }: More = {},
): Threshold {
  return { id, what, unit, sense: 'most', display, stage, contact, source };
}
