import {
  leastOverlap,
  overlapAsBuilt,
  pivotRadius,
  shareOfBend,
  wholeBend,
  worstOverlap,
} from '../../trade/joint/joint.ts';
import { knownTurnings, type Turning, turningsOf } from '../assembly/joint.ts';
import { type JointRange, keepsTo, type LapAt, leastOver, rangeOf } from '../assembly/joint-range.ts';
import { askedLap, lapOf, takenLap } from '../assembly/lap.ts';
import type { JointModel } from '../things/joint.ts';
import { FigureSet } from '../values/figure-set.ts';

/** What a joint does over its range. */
const MOVING = /^(overlap(-least|-worst)?|reach|share|radius)$/;

export const jointFigures = (joint: JointModel): FigureSet =>
  new FigureSet(`joint ${joint.name}`, joint.name).and(MOVING, (set) => addMoving(joint, set));

/** `upper-2 and cop` */
export const pairName = ({ pair }: Turning): string => `${pair.upper.piece.name} and ${pair.lower.piece.name}`;

function addMoving(joint: JointModel, set: FigureSet): void {
  const plates = joint.line('plates');
  const lap = lapOf(joint);
  if (!plates || !lap) return;
  const whyNot = turningsOf(joint).filter((each) => typeof each === 'string');
  const turnings = knownTurnings(joint);
  const inputs = [...new Set(joint.plates().map(({ piece }) => `${piece.name}.area`))];
  const place = (joint.line('bends') ?? plates).place;
  const widest = turnings.reduce<Turning | undefined>(
    (most, each) => (most && most.radius >= each.radius ? most : each),
    undefined,
  );
  if (widest)
    set.add(
      'radius',
      'from the line of the pivots to the middle of the plates, the greatest',
      pivotRadius(widest.radius, turnings.map((each) => `${pairName(each)}: ${each.radius.toFixed(1)} mm.`).join(' ')),
      plates.place,
      inputs,
      { decimals: 1 },
    );
  const range = rangeOf(joint);
  set.add(
    'overlap',
    'overlap as assembled',
    overlapAsBuilt({
      overlap: range ? Math.min(...range.pairs.map(({ assembled }) => assembled)) : lap.value,
      lap: lap.value,
      isSaid: lap.isSaid,
      note: [lap.isSaid ? '' : `${takenLap(lap.value)}.`, ...new Set(whyNot)].filter(Boolean).join(' ') || undefined,
    }),
    (joint.line('lap') ?? plates).place,
    [],
    { decimals: 1 },
  );
  const bends = joint.line('bends');
  if (!range || !bends) return;
  const { pairs } = range;
  const whole = joint.range()!;
  const name = `${joint.name}.share`;
  set.add('share', 'what each pair takes of the bend', shareOfBend({ bend: whole.to, turns: pairs.length }), place, []);
  const least = leastIn(range);
  set.add(
    'overlap-least',
    'least overlap over the range, the bend shared evenly',
    leastOverlap(
      least.lap,
      range,
      [
        `Of ${pairName(least.turning)}, bent by ${round(least.bend)}° of its own${least.isMiddle ? '' : ', beside the middle'}.`,
        ...pairs.map((each) => `${pairName(each.turning)}: ${round(each.least.lap)} mm.`),
      ].join(' '),
    ),
    place,
    [name, `${joint.name}.overlap`],
    { decimals: 1 },
  );
  const worst = worstIn(joint, range);
  set.add(
    'overlap-worst',
    'overlap where one pair takes all of the bend that it can',
    worstOverlap(
      worst.lap,
      worst.bend,
      `${pairName(worst.turning)}, bent by ${round(worst.bend)}° while the others stand still: plates take up a bend one at a time as well as together.`,
    ),
    place,
    [`${joint.name}.overlap`],
    { decimals: 1 },
  );
  const asked = askedLap(joint);
  const reach = asked && reachIn(range, asked.value);
  if (asked && reach)
    set.add(
      'reach',
      'greatest bend that keeps the asked overlap, shared evenly',
      wholeBend(
        { bend: reach.bend, turns: pairs.length },
        `${pairName(reach.turning)} comes down to ${round(asked.value)} mm first (${asked.said}).`,
      ),
      place,
      [`${joint.name}.overlap`],
      { decimals: 1 },
    );
}

const round = (value: number): number => Math.round(value * 10) / 10 + 0;

/** The least overlap of all pairs, each taking its share. */
export const leastIn = ({ pairs }: JointRange): LapAt =>
  pairs.map(({ least }) => least).reduce((one, other) => (other.lap < one.lap ? other : one));

/** The least overlap where one pair after the other takes all that it can of the range. */
export function worstIn(joint: JointModel, { pairs }: JointRange): LapAt {
  const { from, to } = joint.range()!;
  return pairs.map(({ at }) => leastOver(at, from, to)).reduce((one, other) => (other.lap < one.lap ? other : one));
}

/** The pair that loses the asked overlap first, and its bend then; nothing where none does. */
function reachIn({ pairs }: JointRange, lap: number): { readonly turning: Turning; readonly bend: number } | undefined {
  const found = pairs.flatMap(({ turning, at }) => {
    const bend = keepsTo(at, lap);
    return bend === undefined ? [] : [{ turning, bend }];
  });
  return found.length ? found.reduce((one, other) => (other.bend < one.bend ? other : one)) : undefined;
}
