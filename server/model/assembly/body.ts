import { say } from '../../../l10n/say.ts';
import { AT_REST, after, type Motion, moved, turnAbout, turned } from '../../geometry/motion/motion.ts';
import type { Vector } from '../../geometry/surface/vector.ts';
import { homeOf, type Model } from '../spec.ts';
import type { PieceModel } from '../things/piece.ts';
import type { Station } from './rail.ts';
import { seatOf } from './seat.ts';

/** One copy of a piece as it stands in the build: `skull`, `skull|right`, `gore|3`. */
export interface Body {
  readonly id: string;
  readonly piece: PieceModel;
  readonly copy: string;
}

export const idOf = (piece: PieceModel, copy = ''): string =>
  copy && copy !== 'left' && copy !== '1' ? `${piece.named.word.key}|${copy}` : piece.named.word.key;

export const bodyOf = (piece: PieceModel, copy = ''): Body => ({ id: idOf(piece, copy), piece, copy });

/** `right skull`, `gore 3` */
export const bodyName = ({ piece, copy }: Body): string =>
  copy === '' ? piece.name : /^\d/.test(copy) ? `${piece.name} ${copy}` : `${copy} ${piece.name}`;

/** A frame in which several bodies stand still to each other, and where in it a body is. */
export interface Frame {
  /** The id of the body whose own frame it is. */
  readonly unit: string;
  readonly motion: Motion;
  /** A right copy is the mirror image of the left one, before it is moved. */
  readonly mirrored: boolean;
  /** By what it stands so; nothing for the unit's own body. */
  readonly by?: string;
  readonly assumed?: string;
}

/** The piece that bears a name in the spec itself. */
export function pieceNamed(model: Model, key: string): PieceModel | undefined {
  const named = model.file.find(key);
  return named?.kind === 'piece' && named.file === model.file ? model.pieceOf(named) : undefined;
}

/** Where a copy of a piece stands to its unit; or why nobody knows. */
export function frameOf(piece: PieceModel, copy: string, depth = 0): Frame | string {
  const seat = seatOf(piece);
  if (seat.kind === 'none') return seat.why;
  if (depth > MOST_DEEP) return 'it hangs on itself';
  if (seat.kind === 'on') {
    const neighbour = pieceNamed(homeOf(piece), seat.neighbour);
    const under = neighbour && frameOf(neighbour, copy, depth + 1);
    if (!neighbour || under === undefined) return 'its neighbour is not known';
    if (typeof under === 'string') return say`“${neighbour.name}” has no place: ${under}`;
    const { assumed = under.assumed } = seat;
    return {
      unit: under.unit,
      motion: after(under.motion, under.mirrored ? mirrorOf(seat.motion) : seat.motion),
      mirrored: under.mirrored,
      by: seat.by,
      ...(assumed === undefined ? {} : { assumed }),
    };
  }
  const own = idOf(piece);
  if (seat.copies === 'halves') {
    if (copy !== 'right') return { unit: own, motion: AT_REST, mirrored: false };
    return { unit: own, motion: AT_REST, mirrored: true, by: say`the other half of left ${piece.name}` };
  }
  if (typeof seat.copies === 'object') {
    const nth = Math.max(1, Number(copy) || 1);
    const turn = turnAbout([0, 0, 1], (2 * Math.PI * (nth - 1)) / seat.copies.gores);
    return {
      unit: own,
      motion: { turn, shift: [0, 0, 0] },
      mirrored: false,
      ...(nth > 1 ? { by: say`gore ${nth} of ${seat.copies.gores}` } : {}),
    };
  }
  const isRight = copy === 'right' && seat.copies === 'pair';
  return { unit: isRight ? idOf(piece, 'right') : own, motion: AT_REST, mirrored: isRight };
}

const MOST_DEEP = 64;

/** The same motion in the mirror of left and right. */
function mirrorOf({ turn: [a, b, c], shift }: Motion): Motion {
  return {
    turn: [
      [a[0], -a[1], -a[2]],
      [-b[0], b[1], b[2]],
      [-c[0], c[1], c[2]],
    ],
    shift: [-shift[0], shift[1], shift[2]],
  };
}

const flipped = ([x, y, z]: Vector, mirrored: boolean): Vector => (mirrored ? [-x, y, z] : [x, y, z]);

type Standing = Pick<Frame, 'motion' | 'mirrored'>;

/** A place of the piece's own frame, in the frame that it stands in. */
export const placeIn = ({ motion, mirrored }: Standing, point: Vector): Vector =>
  moved(motion, flipped(point, mirrored));
export const directionIn = ({ motion, mirrored }: Standing, way: Vector): Vector =>
  turned(motion, flipped(way, mirrored));

export const stationIn = (frame: Frame, { point, normal, inward }: Station): Station => ({
  point: placeIn(frame, point),
  normal: directionIn(frame, normal),
  ...(inward ? { inward: directionIn(frame, inward) } : {}),
});
