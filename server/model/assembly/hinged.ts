import { say } from '../../../l10n/say.ts';
import { bestMotion, leftBy, type Pair, type Pairs } from '../../geometry/motion/match.ts';
import { after, moved, turned, turnedAbout } from '../../geometry/motion/motion.ts';
import type { Axis } from '../../geometry/motion/sweep.ts';
import { cross, dot, minus, NOWHERE, plus, unit, type Vector } from '../../geometry/surface/vector.ts';
import { ofThing } from '../per-spec.ts';
import type { HingeModel } from '../things/hinge.ts';
import type { PieceModel } from '../things/piece.ts';
import type { Link } from './link.ts';
import type { Station } from './rail.ts';
import { isHalves, isPair, type Row, rowOn, sideOf } from './row.ts';

/*
 * What a hinge says of where its leaves stand: their edges lie on each other over its width, and at 0° the one plate goes on as the
 * other ends. It hangs on the two pieces alone.
 */

/** Two leaves on one pin. */
export interface HingeLink extends Link {
  readonly copies: readonly [string, string];
  /** The pin, in the frame of the first leaf's unit: above nought it turns the second leaf outward. Nothing where none is known. */
  readonly axis?: Axis;
  /** From the pin to the line where the leaves meet, across, mm. */
  readonly radius: number;
  /** At which angle the second leaf stands as it is drawn and weighed, rad. */
  readonly angle: number;
}

export type Hinged = { readonly links: readonly HingeLink[]; readonly why?: string };

export const hingedBy = ofThing('hinge', { links: [] } as Hinged, linksOf, { what: 'hinge matched' });

function linksOf(hinge: HingeModel): Hinged {
  const [one, other, ...more] = hinge.leaves();
  if (!one || !other) return { links: [] };
  if (more.length) return { links: [], why: 'it joins more than two leaves' };
  const found = copiesOf(one, other).map(({ leaves, copies }) => linkOf(hinge, leaves, copies));
  const why = found.find((each): each is string => typeof each === 'string');
  return {
    links: found.filter((each): each is HingeLink => typeof each !== 'string'),
    ...(why === undefined ? {} : { why }),
  };
}

export interface Leaf {
  readonly piece: PieceModel;
  readonly edge: string;
}
type Leaves = readonly [Leaf, Leaf];
interface Hung {
  readonly leaves: Leaves;
  readonly copies: readonly [string, string];
}

/** A pair on one plate is hinged on its left and, as in a mirror, on its right. */
function copiesOf(one: Leaf, other: Leaf): Hung[] {
  const [first, second] = [one, other].map(({ piece }) => isPair(piece) || isHalves(piece));
  if (one.piece === other.piece) return [{ leaves: [one, other], copies: first ? ['left', 'right'] : ['', ''] }];
  const left = [first ? 'left' : '', second ? 'left' : ''] as const;
  if (first === second) return [{ leaves: [one, other], copies: left }];
  const right = [first ? 'right' : '', second ? 'right' : ''] as const;
  const leaves: Leaves = [first ? one : mirrorOf(one), second ? other : mirrorOf(other)];
  return [
    { leaves: [one, other], copies: left },
    { leaves, copies: right },
  ];
}

const MIRRORED: Readonly<Record<string, string>> = { left: 'right', right: 'left' };
const mirrorOf = ({ piece, edge }: Leaf): Leaf => ({ piece, edge: MIRRORED[edge] ?? edge });

const PARTS = 6;

function linkOf(hinge: HingeModel, leaves: Leaves, copies: readonly [string, string]): HingeLink | string {
  const line = hinge.line('joins')!;
  const [one, other] = leaves.map((leaf, i) => rowOn({ ...leaf, line }, copies[i]!)) as [Row | string, Row | string];
  if (typeof one === 'string') return one;
  if (typeof other === 'string') return other;
  const wide = Math.min(hinge.wide() ?? Number.POSITIVE_INFINITY, one.length, other.length);
  const on = (row: Row, way: 1 | -1): Station[] =>
    Array.from({ length: PARTS + 1 }, (_, i) => row.at(0.5 + (way * (i / PARTS - 0.5) * wide) / row.length, 0)).filter(
      (each) => each !== undefined,
    );
  const ones = on(one, 1);
  const ahead = on(other, 1);
  const [oneSide, otherSide] = [sideOf(ones), sideOf(ahead)];
  const [thick, its] = [one.piece.thickness(), other.piece.thickness()];
  if (thick === undefined || its === undefined) return 'how thick its leaves are is not known';
  const tried = (oneSide && otherSide ? [oneSide === otherSide ? -1 : 1] : [1, -1]).flatMap((way) => {
    const others = way === 1 ? ahead : on(other, -1);
    if (others.length !== ones.length) return [];
    // The faces that lie against the pin are in one plane.
    const meetings = ones.map((station, i) => ({
      share: 0.5 + ((i / PARTS - 0.5) * wide) / one.length,
      one: { ...station, point: plus(station.point, station.normal, (thick - its) / 2) },
      other: others[i]!,
    }));
    const pairs = pairsOf(meetings, wide / 2);
    const motion = bestMotion(pairs);
    return motion ? [{ meetings, pairs, motion }] : [];
  });
  const best = tried.sort((a, b) => leftBy(a.motion, a.pairs) - leftBy(b.motion, b.pairs))[0];
  if (!best) return say`how “${other.piece.name}” hangs on “${one.piece.name}” is left open`;
  const angle = restingAt(hinge);
  const axis = axisOf(hinge, ones, thick);
  const turn = axis && angle ? turnedAbout(axis.point, axis.along, angle) : undefined;
  return {
    one,
    other,
    copies,
    isClosed: false,
    radius: hinge.pinAway(thick) ?? 0,
    angle: turn ? angle : 0,
    ...(axis ? { axis } : {}),
    ...(turn
      ? {
          meetings: [],
          motion: after(turn, best.motion),
          pairs: {
            places: best.pairs.places.map((pair) => ({ ...pair, to: moved(turn, pair.to) })),
            directions: best.pairs.directions.map((pair) => ({ ...pair, to: turned(turn, pair.to) })),
          },
        }
      : best),
  };
}

/** A slope counts for what it opens at the ends of the hinge. */
function pairsOf(meetings: Link['meetings'], arm: number): Pairs {
  const direction = (from: Vector, to: Vector): Pair => ({ from, to, weight: arm * arm });
  return {
    places: meetings.map(({ one, other }) => ({ from: other.point, to: one.point, weight: 1 })),
    directions: meetings.flatMap(({ one, other }) => [
      direction(other.normal, one.normal),
      ...(one.inward && other.inward ? [direction(other.inward, plus(NOWHERE, one.inward, -1))] : []),
    ]),
  };
}

/** Where the leaves stand as drawn: at 0°, where they go on into each other, or in the middle of a swing that does not come there. */
function restingAt(hinge: HingeModel): number {
  const swing = hinge.swing();
  if (!swing || (swing.from <= 0 && swing.to >= 0)) return 0;
  return (((swing.from + swing.to) / 2) * Math.PI) / 180;
}

/** Along the edge, outside it, so that it turns the second leaf outward. */
function axisOf(hinge: HingeModel, stations: readonly Station[], thick: number): Axis | undefined {
  const away = hinge.pinAway(thick);
  const [first, last] = [stations[0], stations.at(-1)];
  const middle = stations[Math.floor(stations.length / 2)];
  if (away === undefined || !first || !last || !middle?.inward) return undefined;
  const edge = unit(minus(last.point, first.point));
  // The second leaf goes away from the first: turned about this it rises along the outward normal.
  const out = plus(NOWHERE, middle.inward, -1);
  const rises = dot(cross(edge, out), middle.normal) > 0;
  return { point: plus(middle.point, middle.normal, away), along: rises ? edge : plus(NOWHERE, edge, -1) };
}
