import { inARow, say } from '../../../l10n/say.ts';
import {
  bindingBend,
  closingGap,
  leastOverlap,
  overlapAsBuilt,
  pivotRadius,
  rodBetween,
  shareOfBend,
  slideTravel,
  slotLength,
  wholeBend,
  worstOverlap,
} from '../../trade/joint/joint.ts';
import { sumOf } from '../../trade/reckoning/readings.ts';
import { holeFor } from '../../trade/rivet/rivet.ts';
import { usual } from '../../trade/usual/practice.ts';
import { knownTurnings, type Turning, turningsOf } from '../assembly/joint.ts';
import { meetsOf, widestGap } from '../assembly/joint-meets.ts';
import { type JointRange, keepsTo, type LapAt, leastOver, rangeOf } from '../assembly/joint-range.ts';
import { type Slide, slidesOf, stopsIn } from '../assembly/joint-rivets.ts';
import { askedLap, lapOf, takenLap } from '../assembly/lap.ts';
import { homeOf } from '../spec.ts';
import type { JointModel } from '../things/joint.ts';
import { FigureSet } from '../values/figure-set.ts';
import { CUT } from '../values/show.ts';
import { jointLeathers, jointRivets } from './joint-hardware.ts';
import { addSwinging, addWeighing, SWINGING, WEIGHING } from './lift.ts';

/** What a joint does over its range. */
const MOVING = /^(overlap(-least|-worst)?|reach|share|radius)$/;
const SLIDING = /^(travel|slot)(-\d+)?$/;
const MEETING = /^(binds|gap|rod)$/;
const HARDWARE = /^(rivets|hole(-\d+)?|rivet-length(-\d+)?|leather(-\d+)?)$/;

export const jointFigures = (joint: JointModel): FigureSet =>
  new FigureSet(`joint ${joint.name}`, joint.name)
    .and(MOVING, (set) => addMoving(joint, set))
    .and(SLIDING, (set) => addSliding(joint, set))
    .and(MEETING, (set) => addMeeting(joint, set))
    .and(SWINGING, (set) => addSwinging(joint, set))
    .and(WEIGHING, (set) => addWeighing(joint, set))
    .and(HARDWARE, (set) => addHardware(joint, set));

/** `upper-2 and cop` */
export const pairName = ({ pair }: Turning): string => say`${pair.upper.piece.name} and ${pair.lower.piece.name}`;

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
      pivotRadius(
        widest.radius,
        turnings.map((each) => say`${pairName(each)}: ${each.radius.toFixed(1)} mm.`).join(' '),
      ),
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
      note: inARow(!lap.isSaid && `${takenLap(lap.value)}.`, ...new Set(whyNot)) || undefined,
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
        say`Of ${pairName(least.turning)}, bent by ${round(least.bend)}° of its own${least.isMiddle ? '' : say`, beside the middle`}.`,
        ...pairs.map((each) => say`${pairName(each.turning)}: ${round(each.least.lap)} mm.`),
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
      say`${pairName(worst.turning)}, bent by ${round(worst.bend)}° while the others stand still: plates take up a bend one at a time as well as together. Slots and leathers stop them, as long as the range needs; that metal may meet metal before is not counted.`,
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
        say`${pairName(reach.turning)} comes down to ${round(asked.value)} mm first (${asked.said}).`,
      ),
      place,
      [`${joint.name}.overlap`],
      { decimals: 1 },
    );
}

/** `` for the first of a kind, `-2` for the second. */
const nthOf = (i: number): string => (i === 0 ? '' : `-${i + 1}`);

function addSliding(joint: JointModel, set: FigureSet): void {
  const slides = slidesOf(joint);
  for (const [i, { line, rivet, play }] of joint.slides().entries()) {
    const own = slides.filter(({ rivets }) => rivets.line === line);
    const most = own.reduce<Slide | undefined>(
      (one, other) => (one && one.travel >= other.travel ? one : other),
      undefined,
    );
    if (!most) continue;
    const travel = set.add(
      `travel${nthOf(i)}`,
      'how far its rivet slides',
      {
        ...slideTravel({ radius: most.radius, bend: most.to - most.from }),
        note: say`Between ${pairName(most.turning)}, where it is the most.`,
      },
      line.place,
      [],
      { decimals: 1 },
    );
    const shank = rivet?.size()?.shank;
    if (!travel || shank === undefined) continue;
    set.add(
      `slot${nthOf(i)}`,
      'slot, end to end',
      {
        ...slotLength({ travel: Math.max(play ?? 0, most.travel), shank }),
        note:
          play !== undefined && play > most.travel
            ? 'For the play that is said: the range needs less.'
            : 'For what the range needs.',
      },
      line.place,
      [travel.name, `${rivet!.name}.shank`],
      { decimals: 1 },
    );
  }
}

function addMeeting(joint: JointModel, set: FigureSet): void {
  const line = joint.line('bends');
  const range = rangeOf(joint);
  if (!line || !range) return;
  const names = joint.plates().map(({ piece }) => piece.name);
  const opened = range.pairs.flatMap(({ turning }) => {
    const gap = widestGap(turning, range);
    return gap ? [{ ...gap, turning }] : [];
  });
  if (opened.length) {
    const widest = opened.reduce((one, other) => (other.gap > one.gap ? other : one));
    set.add(
      'rod',
      'greatest rod that passes between two plates in the middle',
      rodBetween(
        widest.gap,
        widest.bend,
        say`Between ${pairName(widest.turning)}, bent by ${round(widest.bend)}° of its own.`,
      ),
      line.place,
      [],
      { decimals: 1 },
    );
  }
  const meets = meetsOf(joint);
  if (meets?.binds) {
    const { one, other, bend } = meets.binds;
    const note = say`“${names[one]}” meets “${names[other]}”.`;
    set.add(
      'binds',
      'bend at which metal first meets metal',
      bindingBend(bend, usual('plates-give'), note),
      line.place,
      [],
      {
        decimals: 1,
      },
    );
  }
  if (meets?.pinch) {
    const { one, other, bend, gap, before } = meets.pinch;
    const note = say`Between “${names[one]}” and “${names[other]}”, ${round(before)} mm at bend 0.`;
    set.add('gap', 'least gap of plates that do not follow each other', closingGap(gap, bend, note), line.place, [], {
      decimals: 1,
    });
  }
}

function addHardware(joint: JointModel, set: FigureSet): void {
  const model = homeOf(joint);
  const uses = jointRivets(model).filter((use) => use.joint === joint);
  const place = joint.line('plates')?.place ?? joint.place;
  if (uses.length)
    set.add(
      'rivets',
      'rivets in one joint',
      sumOf(
        uses.map(({ perJoint, at }) => ({ name: at, value: perJoint, times: 1 })),
        { unit: 'count', source: 'Pivots and slides of each pair, and each leather on each plate' },
        'n = Σ n',
      ),
      place,
      [],
    );
  for (const [i, { line, rivet }] of joint.riveting().entries()) {
    const size = rivet?.size();
    if (!size) continue;
    set.add(`hole${nthOf(i)}`, 'hole for the rivet', holeFor(size.shank), line.place, [`${rivet!.name}.shank`]);
    const own = uses.filter((use) => use.line === line && use.needed);
    const longest = own.reduce<(typeof own)[number] | undefined>(
      (one, other) => (one && one.needed!.value >= other.needed!.value ? one : other),
      undefined,
    );
    if (longest)
      set.add(
        `rivet-length${nthOf(i)}`,
        'rivet length needed, the longest',
        {
          ...longest.needed!,
          note: say`${longest.at}: ${longest.stack!.worked} = ${round(longest.stack!.value)} mm of stack.${line.id === 'leathers' ? '' : say` Headed without swelling in its hole, so that it turns.`}`,
        },
        line.place,
        [`${rivet!.name}.shank`],
        CUT,
      );
  }
  for (const [i, { leather, long }] of jointLeathers(model)
    .filter((use) => use.joint === joint)
    .entries())
    if (long) set.add(`leather${nthOf(i)}`, 'length of a leather as cut', long, leather.line.place, [], CUT);
}

const round = (value: number): number => Math.round(value * 10) / 10 + 0;

/** The least overlap of all pairs, each taking its share. */
export const leastIn = ({ pairs }: JointRange): LapAt =>
  pairs.map(({ least }) => least).reduce((one, other) => (other.lap < one.lap ? other : one));

/** The least overlap where one pair after the other takes all that it can of the range. */
export function worstIn(joint: JointModel, { pairs }: JointRange): LapAt {
  const { from, to } = joint.range()!;
  const stopsOf = stopsIn(joint);
  return pairs
    .map(({ turning, at }) => {
      const stops = stopsOf(turning);
      return leastOver(at, Math.max(from, stops.from), Math.min(to, stops.to));
    })
    .reduce((one, other) => (other.lap < one.lap ? other : one));
}

/** The pair that loses the asked overlap first, and its bend then; nothing where none does. */
function reachIn({ pairs }: JointRange, lap: number): { readonly turning: Turning; readonly bend: number } | undefined {
  const found = pairs.flatMap(({ turning, at }) => {
    const bend = keepsTo(at, lap);
    return bend === undefined ? [] : [{ turning, bend }];
  });
  return found.length ? found.reduce((one, other) => (other.bend < one.bend ? other : one)) : undefined;
}
