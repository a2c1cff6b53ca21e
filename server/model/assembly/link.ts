import { say } from '../../../l10n/say.ts';
import { bestMotion, leftBy, type Pair, type Pairs } from '../../geometry/motion/match.ts';
import { AT_REST, type Motion } from '../../geometry/motion/motion.ts';
import { NOWHERE, plus, type Vector } from '../../geometry/surface/vector.ts';
import { ofThing } from '../per-spec.ts';
import type { PieceModel } from '../things/piece.ts';
import type { Along, SeamModel, Stack } from '../things/seam.ts';
import type { Station } from './rail.ts';
import { isHalves, isPair, lapOf, PARTS, type Row, rowOn, rowOverHalves, sharesOf, sideOf } from './row.ts';

/*
 * What a seam with two `along` lines says: stations on the one edge, and those that must meet them on the other. It hangs on the two
 * pieces alone, not on where they stand.
 */

/** A place of a seam on both its pieces, each in the frame of its own unit. */
export interface Meeting {
  readonly share: number;
  /** On the first piece, carried through the stack to where the other's middle should be. */
  readonly one: Station;
  readonly other: Station;
}

/** Two pieces joined by a seam that gives an edge of each. */
export interface Link {
  readonly one: Row;
  readonly other: Row;
  readonly meetings: readonly Meeting[];
  readonly isClosed: boolean;
  /** `from` on the other piece, `to` on the first. */
  readonly pairs: Pairs;
  /** Of the other piece's unit into the frame of the first one's. */
  readonly motion: Motion;
  /** What nobody has said and was taken. */
  readonly assumed?: string;
}

/** Why a seam places nothing, or its links. */
export type Linked = { readonly links: readonly Link[]; readonly why?: string };

export const linkedBy = ofThing('seam', { links: [] } as Linked, linksOf, { what: 'seam matched', stops: true });

const NOTHING: Linked = { links: [] };

/** Straps give way: only what holds edge to edge places anything. */
export const isStiff = (seam: SeamModel): boolean => !seam.line('strap');

function linksOf(seam: SeamModel): Linked {
  const [first, ...others] = seam.along();
  if (!first || !isStiff(seam)) return NOTHING;
  const halves = seam
    .along()
    .flatMap((along) => (isHalves(along.piece) ? seam.stacks().flatMap((stack) => halvesMeet(stack, along)) : []));
  if (!others.length) return halves.length ? { links: halves } : NOTHING;
  const found = others.flatMap((other) =>
    seam.stacks().flatMap((stack) => {
      const copies = copiesIn(stack, first, other);
      return copies ? [linkOf(seam, stack, first, other, copies)] : [];
    }),
  );
  const why = found.find((each): each is string => typeof each === 'string');
  return {
    links: [...found.filter((each): each is Link => typeof each !== 'string'), ...halves],
    ...(why === undefined ? {} : { why }),
  };
}

/** Where the two halves of one form meet: they stand in one frame already, and it is only looked at whether they do. */
function halvesMeet({ layers }: Stack, along: Along): Link[] {
  const { piece } = along;
  const has = (copy: 'left' | 'right') => layers.some((layer) => layer.piece === piece && layer.copy === copy);
  if (!has('left') || !has('right')) return [];
  const [one, other] = [rowOn(along, 'left'), rowOn(along, 'right')];
  if (typeof one === 'string' || typeof other === 'string') return [];
  const meetings = Array.from({ length: PARTS + 1 }, (_, i) => i / PARTS).flatMap((share): Meeting[] => {
    const [a, b] = [one.at(share, 0), other.at(share, 0)];
    return a && b ? [{ share, one: a, other: b }] : [];
  });
  return [{ one, other, meetings, isClosed: false, pairs: { places: [], directions: [] }, motion: AT_REST }];
}

type Copies = readonly [string, string];

/** Which copies of two pieces a stack joins; nothing where it does not join both. */
function copiesIn(stack: Stack, first: Along, other: Along): Copies | undefined {
  const [one, two] = [first, other].map(({ piece }) => stack.layers.find((layer) => layer.piece === piece));
  if (!one?.piece || !two?.piece || one.piece === two.piece || one.soft || two.soft) return undefined;
  return [one.copy ?? '', two.copy ?? ''];
}

function linkOf(seam: SeamModel, stack: Stack, first: Along, second: Along, copies: Copies): Link | string {
  const [one, other] = rowsOf(first, second, copies);
  if (typeof one === 'string') return one;
  if (typeof other === 'string') return other;
  const lap = lapOf(seam, stack, one.piece, other.piece);
  if (!lap) return 'how thick its plates are is not known';
  const isClosed = one.isClosed && other.isClosed;
  const shares = sharesOf(seam, isClosed ? one : { ...one, isClosed: false }, 'over' in one || 'over' in other);
  const on = (row: Row, at: (share: number) => number, inset: number): (Station | undefined)[] =>
    shares.map((share) => row.at(at(share), inset));
  const forward = (share: number) => share;
  const backward = (share: number) => (isClosed ? (1 - share) % 1 : 1 - share);
  const ones = on(one, forward, lap.insets[0]);
  const ahead = on(other, forward, lap.insets[1]);
  const [oneSide, otherSide] = [sideOf(known(ones)), sideOf(known(ahead))];
  // The plates lie on either side of their row: so one of them is run along the other way, unless they differ already.
  const ways =
    oneSide && otherSide && shares.length > 1 ? [oneSide === otherSide ? backward : forward] : [forward, backward];
  const scale = Math.max(one.length * LEAST_LAP, ...lap.insets);
  const tried = ways.flatMap((way): Link[] => {
    const others = way === forward ? ahead : on(other, way, lap.insets[1]);
    const meetings = shares.flatMap((share, i): Meeting[] => {
      const [a, b] = [ones[i], others[i]];
      if (!a || !b) return [];
      return [{ share, one: { ...a, point: plus(a.point, a.normal, -lap.inside) }, other: b }];
    });
    const pairs = pairsOf(meetings, scale);
    const motion = meetings.length ? bestMotion(pairs) : undefined;
    if (!motion) return [];
    // Edge to edge along a straight line only the plates' own faces are left to go by.
    const isHinged = !lap.insets.some((inset) => inset > 0) && !bestMotion({ ...pairs, directions: [] });
    return [{ one, other, meetings, isClosed, pairs, motion, ...(isHinged ? { assumed: NO_ANGLE } : {}) }];
  });
  const best = tried.sort((a, b) => leftBy(a.motion, a.pairs) - leftBy(b.motion, b.pairs))[0];
  return best ?? say`how “${other.piece.name}” lies along “${one.piece.name}” is left open by so short a row`;
}

/** What a wrong slope of a plate counts for where it has no lap, in lengths of the row: so little that it only tells like answers apart. */
const LEAST_LAP = 1 / 5000;

const NO_ANGLE = 'the angle along a straight seam is not said: one plate is taken to go on as the other ends';

const known = (all: readonly (Station | undefined)[]): Station[] => all.filter((each) => each !== undefined);

/** A slope counts for what it opens at the end of the lap. */
export function pairsOf(meetings: readonly Meeting[], lap: number): Pairs {
  const direction = (from: Vector, to: Vector): Pair => ({ from, to, weight: lap * lap });
  return {
    places: meetings.map(({ one, other }) => ({ from: other.point, to: one.point, weight: 1 })),
    directions: meetings.flatMap(({ one, other }) => [
      direction(other.normal, one.normal),
      ...(one.inward && other.inward ? [direction(other.inward, plus(NOWHERE, one.inward, -1))] : []),
    ]),
  };
}

function rowsOf(first: Along, second: Along, [a, b]: Copies): readonly [Row | string, Row | string] {
  // Who names one copy of a pair means that of the other as well.
  const [copyA, copyB] = [
    a || (isPair(first.piece) || isHalves(first.piece) ? b : ''),
    b || (isPair(second.piece) || isHalves(second.piece) ? a : ''),
  ];
  const [one, other] = [rowOn(first, copyA), rowOn(second, copyB)];
  if (typeof one === 'string' || typeof other === 'string' || a || b) return [one, other];
  // Both halves of a form may meet one long edge.
  if (isHalves(first.piece) && isWhole(second.piece) && isTwice(other.length, one.length))
    return [over(rowOverHalves(first)), other];
  if (isHalves(second.piece) && isWhole(first.piece) && isTwice(one.length, other.length))
    return [one, over(rowOverHalves(second))];
  return [one, other];
}

const over = (row: Row | string): (Row & { readonly over: 'halves' }) | string =>
  typeof row === 'string' ? row : { ...row, over: 'halves' };
const isWhole = (piece: PieceModel) => !isHalves(piece) && !isPair(piece);
const isTwice = (long: number, short: number) => Math.abs(long - 2 * short) < Math.abs(long - short);
