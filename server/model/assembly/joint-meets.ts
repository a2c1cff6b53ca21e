import { apartFlat, turnedFlat } from '../../geometry/motion/lap.ts';
import { after, moved, undone } from '../../geometry/motion/motion.ts';
import { nearestBetween } from '../../geometry/motion/nearest.ts';
import type { Vector } from '../../geometry/surface/vector.ts';
import { Dear, type Steps } from '../../incremental/steps.ts';
import { usual } from '../../trade/usual/practice.ts';
import { ofThing } from '../per-spec.ts';
import type { JointModel } from '../things/joint.ts';
import { cutAt, knownTurnings, type Turning } from './joint.ts';
import { framesAt, plateBodies } from './joint-poses.ts';
import { RADIANS } from './joint-range.ts';
import { type Solid, solidOf } from './solid.ts';

/*
 * Where the metal of a joint meets metal while it bends, and how near plates come to each other that do not lie on each other. On the
 * meshes of the placed plates; each bend is shared evenly.
 */

/** Two plates of a joint, by their places in its order. */
export interface PlatePair {
  readonly one: number;
  readonly other: number;
}

export interface Bind extends PlatePair {
  /** Of the whole joint, degrees. */
  readonly bend: number;
  /** In the frame of the first plate's unit. */
  readonly at: Vector;
}

export interface Pinch extends PlatePair {
  readonly bend: number;
  /** Between the faces there, and at bend 0, mm. */
  readonly gap: number;
  readonly before: number;
}

export interface JointMeets {
  /** Where metal first meets metal on the way to either end of the range: the nearer to bend 0. */
  readonly binds?: Bind;
  /** The nearest that two plates come which do not follow each other; nothing where none come within {@link NEAR}. */
  readonly pinch?: Pinch;
}

/** Plates that are further apart than this close on nothing, mm. */
const NEAR = 30;

/** Nothing where how the joint turns, or its range, is not known. */
export const meetsOf = ofThing('joint', undefined, meetsFor, { what: 'joint closed' });

/** Dear arithmetic on plain numbers, kept by all its inputs. */
const kept = new Dear<JointMeets>(16);

function meetsFor(joint: JointModel): JointMeets | undefined {
  const range = joint.range();
  const rest = range && plateBodies(joint, 0);
  const solids = rest?.map(solidOf);
  if (!range || !solids?.every((each) => each !== undefined) || solids.length > MOST_PLATES) return undefined;
  const turnings = knownTurnings(joint);
  const told = turnings.map(({ axis, upper, lower }) => [axis, upper.frame, lower.frame]);
  const key = JSON.stringify([range, solids.map(({ id, half }) => [id, half]), told]);
  const at = (bend: number): readonly Solid[] => {
    const shares = turnings.map(() => bend / turnings.length);
    return framesAt(turnings, shares).map(({ motion }, i) => ({ ...(solids[i] as Solid), motion }));
  };
  return kept.get(key, () => sweep(at, range));
}

/** Nobody makes a joint of more. */
const MOST_PLATES = 40;

function* sweep(
  at: (bend: number) => readonly Solid[],
  { from, to }: { readonly from: number; readonly to: number },
): Steps<JointMeets> {
  const found: Bind[] = [];
  let pinch: Pinch | undefined;
  const rest = at(0);
  const before = new Map<number, number>();
  for (const end of [to, from]) {
    const way = Math.sign(end);
    if (way === 0) continue;
    const steps = Math.max(1, Math.ceil(Math.abs(end) / STEP));
    const firsts = new Map<number, readonly [number, number]>();
    let last = 0;
    for (let i = 0; i <= steps; i++) {
      const bend = (end * i) / steps;
      const bind = yield* bindAt(at(bend), bend, firsts);
      if (bind) {
        found.push(i === 0 ? bind : yield* firstBind(at, last, bind));
        break;
      }
      last = bend;
    }
    const closed = found.find((each) => Math.sign(each.bend) === way)?.bend ?? end;
    const there = at(closed);
    for (const [pair, one, other] of apartPairs(there.length)) {
      yield undefined;
      const gap = gapBetween(there[one]!, there[other]!);
      if (gap === undefined || (pinch && gap >= pinch.gap)) continue;
      if (!before.has(pair)) before.set(pair, gapBetween(rest[one]!, rest[other]!) ?? NEAR);
      pinch = { one, other, bend: closed, gap: Math.max(0, gap), before: before.get(pair)! };
    }
  }
  const binds = found.reduce<Bind | undefined>(
    (least, each) => (least && Math.abs(least.bend) <= Math.abs(each.bend) ? least : each),
    undefined,
  );
  return { ...(binds ? { binds } : {}), ...(pinch ? { pinch } : {}) };
}

/** Of the whole bend, degrees. */
const STEP = 2;
const FINE = 0.02;

/** Any two of the plates, each with a number of its own. */
function* pairsOf(count: number): Generator<readonly [pair: number, one: number, other: number]> {
  for (let i = 0; i < count; i++) for (let j = i + 1; j < count; j++) yield [i * count + j, i, j];
}

/** Those that do not follow each other. */
const apartPairs = (count: number) => [...pairsOf(count)].filter(([, one, other]) => other > one + 1);

/** Which two plates press into each other by more than they spring; nothing where none do. */
function* bindAt(
  solids: readonly Solid[],
  bend: number,
  firsts: Map<number, readonly [number, number]>,
): Steps<Bind | undefined> {
  for (const [pair, one, other] of pairsOf(solids.length)) {
    yield undefined;
    const [a, b] = [solids[one]!, solids[other]!];
    // Plates thinner than what springs still may not run through each other.
    const touching = Math.max(LEAST, a.half + b.half - usual('plates-give'));
    const nearest = nearestBetween(a.tree, b.tree, after(undone(a.motion), b.motion), {
      within: touching,
      first: firsts.get(pair),
    });
    if (!nearest) continue;
    firsts.set(pair, nearest.pair);
    return { one, other, bend, at: moved(a.motion, nearest.one) };
  }
  return undefined;
}
const LEAST = 1e-6;

/** The bend at which metal first meets, by halves, between one that is free and one that is not. */
function* firstBind(at: (bend: number) => readonly Solid[], from: number, bind: Bind): Steps<Bind> {
  let free = from;
  let meeting = bind;
  while (Math.abs(meeting.bend - free) > FINE) {
    const bend = (free + meeting.bend) / 2;
    const found = yield* bindAt(at(bend), bend, new Map());
    if (found) meeting = found;
    else free = bend;
  }
  return meeting;
}

/** Between the faces of two plates, mm; nothing where they are far apart. */
function gapBetween(a: Solid, b: Solid): number | undefined {
  const nearest = nearestBetween(a.tree, b.tree, after(undone(a.motion), b.motion), { within: NEAR + a.half + b.half });
  return nearest && nearest.apart - a.half - b.half;
}

/** The widest opening of a pair in the middle over a range of its own, degrees: what rod passes between the edge and the plate beneath. */
export function widestGap(
  turning: Turning,
  { from, to }: { readonly from: number; readonly to: number },
): { readonly gap: number; readonly bend: number } | undefined {
  const { over, under, overFront } = cutAt(turning, 0);
  const { pair, upper, lower } = turning;
  const [t, u] = [upper.piece.thickness(), lower.piece.thickness()];
  if (!over.length || !overFront || t === undefined || u === undefined) return undefined;
  const edge = overFront[0]!;
  let widest: { gap: number; bend: number } | undefined;
  const steps = Math.max(1, Math.ceil((to - from) / 1));
  for (let i = 0; i <= steps; i++) {
    const bend = from + ((to - from) * i) / steps;
    const angle = (pair.over === 'upper' ? -1 : 1) * bend * RADIANS;
    // The edge as the plate beneath sees it.
    const point = turnedFlat(edge, angle);
    const away = Math.min(...under.map(({ points }) => apartFlat(points, [point, point])));
    const gap = Math.max(0, away - (t + u) / 2);
    if (!widest || gap > widest.gap) widest = { gap, bend };
  }
  return widest;
}
