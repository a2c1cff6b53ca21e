import { ofThing } from '../per-spec.ts';
import type { JointModel } from '../things/joint.ts';
import { cutAt, knownTurnings, lapIn, type Turning } from './joint.ts';
import { FURTHEST } from './lap.ts';

/* What is left of the overlap of a joint over its range. Angles in degrees. */

/** The overlap of a pair at a bend of its own, where it is least. */
export interface LapAt {
  readonly turning: Turning;
  /** mm */
  readonly lap: number;
  /** Of this pair. */
  readonly bend: number;
  /** In the middle, or to one side of it. */
  readonly isMiddle: boolean;
}

export interface JointRange {
  /** What each pair takes of the range. */
  readonly from: number;
  readonly to: number;
  readonly pairs: readonly PairRange[];
}

export interface PairRange {
  readonly turning: Turning;
  /** At bend 0, in the middle. */
  readonly assembled: number;
  /** Over its share of the range. */
  readonly least: LapAt;
  /** The overlap at a bend of this pair, least of all planes. */
  at(bend: number): LapAt;
}

/** Nothing where how one of its pairs turns, or its range, is not known. */
export const rangeOf = ofThing('joint', undefined, rangeFor, { what: 'joint swept' });

function rangeFor(joint: JointModel): JointRange | undefined {
  const range = joint.range();
  const turnings = knownTurnings(joint);
  const count = joint.pairs().length;
  if (!range || !count || turnings.length < count) return undefined;
  const [from, to] = [range.from / count, range.to / count];
  const pairs = turnings.map((turning) => pairRange(turning, from, to));
  const known = pairs.filter((each) => each !== undefined);
  return known.length < count ? undefined : { from, to, pairs: known };
}

/** Planes that are looked at, in shares of the way from the middle to the pivots. */
const PLANES = [0, 0.3, -0.3, 0.6, -0.6];
/** From one bend that is looked at to the next. */
const STEP = 0.5;

export const RADIANS = Math.PI / 180;

function pairRange(turning: Turning, from: number, to: number): PairRange | undefined {
  const cuts = PLANES.filter((share) => share === 0 || turning.halfSpan > 0)
    .map((share) => cutAt(turning, share * turning.halfSpan))
    .filter((cut) => cut.overFront && cut.underEnd);
  const [middle] = cuts;
  if (middle?.at !== 0) return undefined;
  const at = (bend: number): LapAt => {
    const laps = cuts.map((cut) => lapIn(cut, turning, bend * RADIANS)!);
    const lap = Math.min(...laps);
    // A hair less to one side is rounding.
    const isMiddle = laps[0]! <= lap + EVEN;
    return { turning, lap: isMiddle ? laps[0]! : lap, bend, isMiddle };
  };
  return { turning, assembled: lapIn(middle, turning, 0)!, least: leastOver(at, from, to), at };
}
const EVEN = 0.01;

/** The least overlap from one bend to another. */
export function leastOver(at: (bend: number) => LapAt, from: number, to: number): LapAt {
  const steps = Math.max(1, Math.ceil((to - from) / STEP));
  let least = at(from);
  for (let i = 1; i <= steps; i++) {
    const next = at(from + ((to - from) * i) / steps);
    if (next.lap < least.lap) least = next;
  }
  return least;
}

/** The bend of a pair, opening, to which it keeps an overlap; nothing where it keeps it as far as anything bends. */
export function keepsTo(at: (bend: number) => LapAt, lap: number): number | undefined {
  if (at(0).lap < lap - 1e-9) return 0;
  for (let bend = STEP; bend <= FURTHEST; bend += STEP) {
    if (at(bend).lap >= lap) continue;
    let [low, high] = [bend - STEP, bend];
    for (let i = 0; i < 40; i++) {
      const middle = (low + high) / 2;
      if (at(middle).lap >= lap) low = middle;
      else high = middle;
    }
    return low;
  }
  return undefined;
}
