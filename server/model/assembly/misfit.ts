import { after, moved, undone } from '../../geometry/motion/motion.ts';
import { dot, minus, size } from '../../geometry/surface/vector.ts';
import { misfit } from '../../trade/fit/misfit.ts';
import { ofThing } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import type { SeamModel } from '../things/seam.ts';
import type { FigureSet } from '../values/figure-set.ts';
import { type Link, linkedBy } from './link.ts';
import { unitMotion } from './pose.ts';
import { sameData } from './seat.ts';

export const MISFIT = /^misfit(-mean)?$/;

/** How two joined edges meet once the pieces are placed: what is left at each station. */
export interface Misfit {
  readonly one: JoinedEdge;
  readonly other: JoinedEdge;
  readonly isClosed: boolean;
  readonly gaps: readonly Gap[];
}

export interface JoinedEdge {
  readonly piece: string;
  readonly edge: string;
  /** Length of the row on it, mm. */
  readonly length: number;
}

export interface Gap {
  /** From 0 to 1 along the row of the first piece. */
  readonly share: number;
  /** mm */
  readonly apart: number;
  /** How far the first edge lies outside the other there, along its outward normal, mm. */
  readonly outside: number;
}

/** What a seam leaves open, for each two edges that it gives; kept for each seam. */
export const misfitsOf = ofThing(
  'seam',
  [] as readonly Misfit[],
  (seam, model) => linkedBy(seam).links.map((link) => misfitOf(model, link)),
  { same: sameData },
);

function misfitOf(model: Model, link: Link): Misfit {
  const { one, other, meetings, isClosed } = link;
  const [a, b] = [unitMotion(model, one.unit), unitMotion(model, other.unit)];
  // Where neither has a place in the build they still have one to each other.
  const motion = a && b ? after(undone(a.motion), b.motion) : link.motion;
  return {
    one: { piece: one.piece.name, edge: one.edge, length: one.length },
    other: { piece: other.piece.name, edge: other.edge, length: other.length },
    isClosed,
    gaps: meetings.map((meeting) => {
      const gap = minus(meeting.one.point, moved(motion, meeting.other.point));
      return { share: meeting.share, apart: size(gap), outside: dot(gap, meeting.one.normal) };
    }),
  };
}

export const greatestOf = (all: readonly Misfit[]): number =>
  all.reduce((most, { gaps }) => gaps.reduce((more, { apart }) => Math.max(more, apart), most), 0);

/** Adds `misfit` and `misfit-mean`, mm. */
export function addMisfit(seam: SeamModel, set: FigureSet): void {
  const all = misfitsOf(seam);
  const gaps = all.flatMap((each) => each.gaps);
  const place = (seam.along()[1] ?? seam.along()[0])?.line.place;
  if (!gaps.length || !place) return;
  const inputs = all.flatMap(({ one, other }) => [one, other].map(({ piece, edge }) => `${piece}.${edge}.length`));
  const made = misfit(
    gaps.map(({ apart }) => apart),
    seam.rivetsLine()
      ? 'Stations at the rivets, at the middles of the plates, the stack between them left out. A thin plate gives: bending may take it up.'
      : 'Stations at equal shares of the length. A thin plate gives: bending may take it up.',
  );
  const shape = { decimals: 1 };
  set.add('misfit', 'greatest gap of the joined edges', made.greatest, place, inputs, shape);
  set.add('misfit-mean', 'mean gap of the joined edges', made.mean, place, inputs, shape);
}
