import { say } from '../../../l10n/say.ts';
import { reckon } from '../reckoning/reckon.ts';
import type { Result, Unit } from '../reckoning/result.ts';

/** A rule of thumb that holds whatever the duty: at least, or at most, so much. */
export interface Practice {
  readonly what: string;
  readonly unit: Unit;
  readonly sense: 'least' | 'most';
  readonly value: number;
}

/** Of every row: nobody has written them down, so that every message can say where its number comes from. */
export const PRACTICE = 'common practice (no source)';

/**
 * Rules of thumb of the trade: with the table of duties (duty.ts) the one place where limits without a source stand. Limits
 * that a book or a guide gives stand with their formula instead.
 */
export const practiceTable = {
  'edge-curve': most('Change of length of a lip that is rolled on a curve', 'percent', 15),
  'edge-gather': most('Gathering of an edge that is turned on an outside curve, without tucks', 'percent', 5),
  'opening-moves': most('Strain of a plate where an opening is cut before forming', 'percent', 5),
  'crown-left': least('Share of the sheet that a dished crown keeps', 'percent', 50),
  'wire-sheets': most('A wire, in thicknesses of the sheet round it', 'ratio', 6),
  'wire-grip': least('A wire, in thicknesses of the sheet round it', 'ratio', 1.5),
  'hem-width': least('Width of a hem, in thicknesses', 'ratio', 4),
  'roll-hollow': least('Inside diameter of a hollow roll, in thicknesses', 'ratio', 2),
  'flute-walls': most('Depth of a flute, in widths: deeper, its walls stand past upright', 'ratio', 0.5),
  'seam-length': most('Difference of two edges that are joined, beside what lying on each other takes', 'mm', 1),
  'seam-misfit': most('Gap of two joined edges that clamps draw in', 'mm', 3),
  'stack-gap': most('Gap between plates that a rivet pulls together', 'mm', 0.3),
  'hole-slack': most('A hole over its shank, beyond the largest usual hole', 'mm', 0.3),
  'rivet-over': most(
    'A rivet over the length that its seam needs, in shanks: longer, it bends before it upsets',
    'ratio',
    1.5,
  ),
  'rivet-yield': most('Yield of a soft rivet, in yields of its plate', 'ratio', 1.5),
  web: least('Metal between two holes, in thicknesses', 'ratio', 2),
  'grit-step': most('Grain of one grit, in grains of the next', 'ratio', 2),
  'pin-plates': least('Pin of a hinge, in thicknesses of its leaves', 'ratio', 2),
  'plates-give': most('How far plates that turn on each other press into each other: they spring', 'mm', 0.5),
  'pivot-boss': most(
    'From the line of the pivots, as far as plates that swing on each other are fitted by hand to lie on each other',
    'mm',
    15,
  ),
  'skin-gap': least('Gap that plates leave as they close on the inner side of a joint', 'mm', 5),
  'hinge-sag': most('How far the line of a hinge stands off a straight pin', 'mm', 0.3),
  'grain-bend': least('Inside radius of a bend along the grain, in the tightest that the stock takes', 'ratio', 2),
  'polish-grit': least('Grit of the last paper before a polish', 'count', 240),
  'harden-least': least('Heat at which steel is hardened; it must pass 727 °C, where its structure changes', 'C', 740),
  'harden-most': most('Heat at which steel is hardened: past it the grain grows and the edges burn', 'C', 1150),
  'temper-least': least('Heat at which hardened steel is tempered: below it nothing gives', 'C', 100),
  'temper-most': most('Heat at which hardened steel is tempered: past it the hardening is lost', 'C', 700),
  'anneal-least': least('Heat at which steel is annealed', 'C', 500),
  'blue-least': least('Heat at which bare steel takes a colour', 'C', 190),
  'blue-most': most('Heat at which bare steel takes a colour: past it the colour is grey', 'C', 400),
  'blank-over': most('A blank of one’s own over the most that its form can use, each way', 'percent', 15),
  'bench-radius': most(
    'A radius that is struck with a trammel on the bench: past it an arc is told by chord and rise',
    'mm',
    600,
  ),
  'measure-slip': most('A body measure beyond all but one in a hundred people', 'percent', 10),
} as const satisfies Readonly<Record<string, Practice>>;

export type PracticeId = keyof typeof practiceTable;

/** The number of a row. */
export const usual = (id: PracticeId): number => practiceTable[id].value;

/**
 * A row as a number that can be questioned.
 *
 * @tests every row of the table is gone through
 */
export function practiceLimit(id: PracticeId): Result {
  const { value, unit, sense } = practiceTable[id];
  return reckon({
    value,
    unit,
    formula: say`at ${sense} {x${unit === 'mm' ? say`|mm` : ''}}`,
    symbols: { x: value },
    basis: 'common practice',
    source: PRACTICE,
  });
}

function least(what: string, unit: Unit, value: number): Practice {
  return { what, unit, sense: 'least', value };
}

function most(what: string, unit: Unit, value: number): Practice {
  return { what, unit, sense: 'most', value };
}
