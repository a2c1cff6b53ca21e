import { say } from '../../../l10n/say.ts';
import { bestMotion } from '../../geometry/motion/match.ts';
import type { Spot } from '../../geometry/surface/chart.ts';
import { plus } from '../../geometry/surface/vector.ts';
import { directionOut } from '../../geometry/surface/walk.ts';
import { ofThing } from '../per-spec.ts';
import { JOINT_SIDES, type JointModel, type JointPair, type JointRivets } from '../things/joint.ts';
import { type Frame, frameOf, stationIn } from './body.ts';
import { lapOf, type MeetingPlate, meetingPlate, takenLap, upOn } from './lap.ts';
import { type Link, type Linked, type Meeting, pairsOf } from './link.ts';
import { pivotedBy } from './pivoted.ts';
import { besideEdge, onColumn, onMiddle, type PlateEnd } from './plate-end.ts';
import type { Station } from './rail.ts';
import type { Row } from './row.ts';

/*
 * What a joint says of where its plates stand: two that follow each other meet at their pivots and in the middle, at the assembled
 * overlap, bend 0. A plate that lies on its neighbour by its own form needs no such tie.
 */

export const jointLinks = ofThing('joint', { links: [] } as Linked, linksOf, { what: 'joint matched', stops: true });

function linksOf(joint: JointModel): Linked {
  if (joint.line('swings')) {
    const found = pivotedBy(joint);
    return typeof found === 'string' ? { links: [], why: found } : { links: found.link ? [found.link] : [] };
  }
  const found = joint.pairs().flatMap((pair) => linkOf(joint, pair) ?? []);
  const why = found.find((each): each is string => typeof each === 'string');
  const links = found.filter((each): each is Link => typeof each !== 'string');
  return { links, ...(why === undefined ? {} : { why }) };
}

function linkOf(joint: JointModel, pair: JointPair): Link | string | undefined {
  const [one, other] = [frameIn(pair, 'upper'), frameIn(pair, 'lower')];
  if (typeof one === 'string') return one;
  if (typeof other === 'string') return other;
  if (one.unit === other.unit) return undefined;
  const [upper, lower] = [meetingPlate(pair, 'upper'), meetingPlate(pair, 'lower')];
  const lap = lapOf(joint);
  if (!upper || !lower || !lap) return noEnd(upper ? pair.lower.piece.name : pair.upper.piece.name);
  const [t, u] = [upper.piece.thickness(), lower.piece.thickness()];
  if (t === undefined || u === undefined) return 'how thick its plates are is not known';
  const inside = (pair.over === 'upper' ? 1 : -1) * ((t + u) / 2);
  const [ones, others] = [upper, lower].map((plate) =>
    stationsOn(joint, plate, upOn(pair, plate.which, lap.value)),
  ) as [Told[], Told[]];
  const meetings = ones.map(({ share, station }, i): Meeting => {
    const a = stationIn(one, station);
    return {
      share,
      one: { ...a, point: plus(a.point, a.normal, -inside) },
      other: stationIn(other, others[i]!.station),
    };
  });
  const pairs = pairsOf(meetings, lap.value);
  const motion = bestMotion(pairs);
  if (!motion) return say`how “${lower.piece.name}” hangs on “${upper.piece.name}” is left open`;
  const assumed = lap.isSaid ? {} : { assumed: takenLap(lap.value) };
  return { one: rowOf(upper, one), other: rowOf(lower, other), meetings, isClosed: false, pairs, motion, ...assumed };
}

export const noEnd = (name: string): string =>
  say`“${name}” has no end of which it is known how it meets the next plate`;

/** The frame of a plate of a pair, or why it has none. */
export function frameIn(pair: JointPair, which: 'upper' | 'lower'): Frame | string {
  const { piece, copy } = pair[which];
  const frame = frameOf(piece, copy);
  return typeof frame === 'string' ? say`“${piece.name}” has no place: ${frame}` : frame;
}

interface Told {
  readonly share: number;
  readonly station: Station;
}

/** Left, middle and right: at the insets of its rivets where they are told by sides, else at a sixth of the way round. */
function stationsOn(joint: JointModel, { end }: MeetingPlate, up: ReturnType<typeof upOn>): Told[] {
  const all = [...joint.pivots(), ...joint.slides()];
  const insetOf = ({ inset, sides }: JointRivets) => (sides.length ? inset : undefined);
  const first = all.find((each) => insetOf(each) !== undefined);
  const inFrom = up(first ?? {});
  const sideSpot = (side: 'left' | 'right'): Spot => {
    const told = all.find((each) => insetOf(each) !== undefined && each.sides.includes(side)) ?? first;
    const spot = told && besideEdge(end, side, told.inset!, up(told));
    return spot === undefined || typeof spot === 'string' ? onColumn(end, columnOf(end, side), inFrom) : spot;
  };
  const [left, right] = JOINT_SIDES.map(sideSpot) as [Spot, Spot];
  return [left, onMiddle(end, inFrom), right].map((spot, i) => ({ share: i / 2, station: stationAt(end, spot) }));
}

function columnOf({ chart, middle }: PlateEnd, side: 'left' | 'right'): number {
  const away = (side === 'left' ? -1 : 1) / (chart.closed ? 6 : 3);
  const column = middle + away;
  return chart.closed ? column - Math.floor(column) : column;
}

const stationAt = ({ chart }: PlateEnd, spot: Spot): Station => ({
  point: chart.point(...spot),
  normal: directionOut(chart, spot),
});

function rowOf({ piece, end }: MeetingPlate, frame: Frame): Row {
  return { unit: frame.unit, piece, edge: end.end, length: 0, isClosed: false, at: () => undefined };
}
