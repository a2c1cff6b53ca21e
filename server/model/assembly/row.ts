import { say } from '../../../l10n/say.ts';
import { cross, dot, minus } from '../../geometry/surface/vector.ts';
import type { PieceModel } from '../things/piece.ts';
import type { Along, SeamModel, Stack } from '../things/seam.ts';
import { type Frame, frameOf, stationIn } from './body.ts';
import { type Rail, railOf, type Station } from './rail.ts';
import { overlapOf, seatOf } from './seat.ts';

/** The row of a seam on one of its pieces, in the frame of that piece's unit; shares of the row run from 0 to 1. */
export interface Row {
  readonly unit: string;
  readonly piece: PieceModel;
  readonly edge: string;
  readonly length: number;
  readonly isClosed: boolean;
  at(share: number, inset: number): Station | undefined;
}

/** The row on one copy of a piece; or in words why it cannot be measured. */
export function rowOn(along: Along, copy: string): Row | string {
  const { piece, edge } = along;
  const frame = frameOf(piece, copy);
  if (typeof frame === 'string') return say`“${piece.name}” has no place: ${frame}`;
  const rail = railOf(piece, edge);
  if (typeof rail === 'string') return rail;
  const stretch = stretchOf(along, rail);
  if (typeof stretch === 'string') return stretch;
  const { from, to, isWhole } = stretch;
  return {
    unit: frame.unit,
    piece,
    edge,
    length: to - from,
    isClosed: isWhole && rail.isClosed,
    at: (share, inset) => placed(frame, rail.at(from + share * (to - from), inset)),
  };
}

/** The rows on both halves of a form as one, where the two meet in the middle of it; or why not. */
export function rowOverHalves(along: Along): Row | string {
  const [left, right] = [rowOn(along, 'left'), rowOn(along, 'right')];
  if (typeof left === 'string') return left;
  if (typeof right === 'string') return right;
  const [start, end] = [left.at(0, 0), left.at(1, 0)];
  if (!start || !end) return say`the row on “${along.piece.name}” runs off the plate`;
  // The halves meet where the row comes nearest to the plane between them.
  const meetsAtEnd = Math.abs(end.point[0]) < Math.abs(start.point[0]);
  const share = (part: number) => (meetsAtEnd ? part : 1 - part);
  return {
    ...left,
    length: 2 * left.length,
    isClosed: false,
    at: (at, inset) => (at < 0.5 ? left.at(share(2 * at), inset) : right.at(share(2 - 2 * at), inset)),
  };
}

const placed = (frame: Frame, station: Station | undefined): Station | undefined =>
  station && stationIn(frame, station);

function stretchOf(
  { from, to, piece, edge }: Along,
  { length }: Rail,
): { readonly from: number; readonly to: number; readonly isWhole: boolean } | string {
  if (from === undefined || to === undefined) return { from: 0, to: length, isWhole: true };
  const end = Math.min(to, length);
  return end - from > 0
    ? { from, to: end, isWhole: false }
    : say`the row on “${piece.name}” begins beyond the end of “${edge}”`;
}

/** Where on a row one looks: at its rivets, or at equal shares where it has none. */
export function sharesOf(seam: SeamModel, row: Row, isOverHalves: boolean): number[] {
  const count = seam.rivetsLine() && !isOverHalves ? seam.rivetCount()?.value : undefined;
  if (count !== undefined && count > 0) {
    if (row.isClosed) return thinned(Array.from({ length: count }, (_, i) => i / count));
    if (count === 1) return [0.5];
    const margin = Math.min(0.5, seam.endMargin() / row.length);
    return thinned(Array.from({ length: count }, (_, i) => margin + ((1 - 2 * margin) * i) / (count - 1)));
  }
  return Array.from({ length: row.isClosed ? PARTS : PARTS + 1 }, (_, i) => i / PARTS);
}
/** Equal parts of a row without rivets. */
export const PARTS = 20;

/** Not so many that a long row is dear: its ends and those evenly between them. */
function thinned(shares: readonly number[]): number[] {
  const many = shares.length - 1;
  if (many < MOST_STATIONS) return [...shares];
  return Array.from({ length: MOST_STATIONS }, (_, i) => shares[Math.round((many * i) / (MOST_STATIONS - 1))]!);
}
const MOST_STATIONS = 49;

/** How far in from each edge the row stands, and how far the other piece's middle lies inside that of the first, mm. */
export interface Lap {
  readonly insets: readonly [number, number];
  readonly inside: number;
}

/** Nothing where one of the thicknesses between is not known. */
export function lapOf(seam: SeamModel, stack: Stack, one: PieceModel, other: PieceModel): Lap | undefined {
  const overlap = overlapOf(seam);
  const inset = seam.rivetsLine() ? seam.inset() : undefined;
  // What is welded or laced without an overlap meets edge to edge.
  if (inset === undefined && overlap === undefined) return { insets: [0, 0], inside: 0 };
  const first = inset ?? (overlap ?? 0) / 2;
  const second = overlap === undefined ? first : Math.max(0, overlap - first);
  const at = (piece: PieceModel) => stack.layers.findIndex((layer) => layer.piece === piece);
  const [from, to] = [at(one), at(other)];
  const between = stack.layers.slice(Math.min(from, to), Math.max(from, to) + 1);
  const thick = between.map(({ thickness }) => thickness?.value);
  if (thick.some((each) => each === undefined)) return undefined;
  const apart = thick.reduce<number>((sum, each, i) => sum + each! * (i === 0 || i === thick.length - 1 ? 0.5 : 1), 0);
  return { insets: [first, second], inside: from < to ? apart : -apart };
}

/**
 * On which side of the way a row runs the plate lies, as seen from outside: above nought on the left; nought where the row is a
 * line within the plate.
 */
export function sideOf(stations: readonly Station[]): number {
  let sum = 0;
  for (let i = 1; i < stations.length; i++) {
    const [before, here] = [stations[i - 1]!, stations[i]!];
    const ahead = minus(here.point, before.point);
    for (const { normal, inward } of [before, here]) if (inward) sum += dot(inward, cross(normal, ahead));
  }
  return Math.sign(sum);
}

export const isHalves = (piece: PieceModel): boolean => {
  const seat = seatOf(piece);
  return seat.kind !== 'none' && seat.copies === 'halves';
};
export const isPair = (piece: PieceModel): boolean => {
  const seat = seatOf(piece);
  return seat.kind !== 'none' && seat.copies === 'pair';
};
