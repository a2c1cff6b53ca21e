import { say } from '../../../l10n/say.ts';
import { alongTo, type Flat, turnedFlat } from '../../geometry/motion/lap.ts';
import { after } from '../../geometry/motion/motion.ts';
import type { Axis } from '../../geometry/motion/sweep.ts';
import type { Spot } from '../../geometry/surface/chart.ts';
import { linesWhereInSteps, type PointGrid, pointGridInSteps } from '../../geometry/surface/contour.ts';
import { cross, dot, minus, NOWHERE, plus, size, unit, type Vector } from '../../geometry/surface/vector.ts';
import { directionOut } from '../../geometry/surface/walk.ts';
import { atOnce, Dear, pause } from '../../incremental/steps.ts';
import { ofThing } from '../per-spec.ts';
import { keyOf } from '../shapes/surface.ts';
import type { JointModel, JointPair } from '../things/joint.ts';
import type { PieceModel } from '../things/piece.ts';
import { directionIn, type Frame, placeIn } from './body.ts';
import { frameIn, jointLinks, noEnd } from './joint-link.ts';
import {
  lapOf,
  lineThrough,
  type MeasuredRivet,
  measuredOn,
  meetingPlate,
  pivotSpots,
  rivetSpots,
  upOn,
} from './lap.ts';
import { endOf, onMiddle, type PlateEnd } from './plate-end.ts';

/*
 * How two plates of a joint turn on each other. All is told in the frame of the upper one's unit, at bend 0; the upper one stays, the
 * lower one turns by its share of the bend.
 */

export interface Turning {
  readonly pair: JointPair;
  readonly upper: TurningPlate;
  readonly lower: TurningPlate;
  /** The line that it turns about; by the right hand the joint opens in the middle. */
  readonly axis: Axis;
  /** How far the middle of the overlap lies from that line, mm. */
  readonly radius: number;
  /** The way from it to the middle, and what lies to the left of that in the planes across the line. */
  readonly out: Vector;
  /** As far along the line as its plates reach on either side of the middle. */
  readonly halfSpan: number;
  /** As assembled, mm. */
  readonly lap: number;
  readonly pivots: readonly MeasuredRivet[];
  readonly slides: readonly MeasuredRivet[];
  /** The plate on which its rivets are measured. */
  readonly measured: 'upper' | 'lower';
}

export interface TurningPlate {
  readonly piece: PieceModel;
  readonly end: PlateEnd;
  /** Into the frame of the upper one's unit. */
  readonly frame: Frame;
}

/** The turning of each pair, or in words why it is not known; kept for each joint. */
export const turningsOf = ofThing(
  'joint',
  [] as readonly (Turning | string)[],
  (joint) => joint.pairs().map((pair) => turningOf(joint, pair)),
  { what: 'joint turned' },
);

/** Those that are known. */
export const knownTurnings = (joint: JointModel): readonly Turning[] =>
  turningsOf(joint).filter((each): each is Turning => typeof each !== 'string');

function turningOf(joint: JointModel, pair: JointPair): Turning | string {
  const [one, other] = [frameIn(pair, 'upper'), frameIn(pair, 'lower')];
  if (typeof one === 'string') return one;
  if (typeof other === 'string') return other;
  const [upper, lower] = [meetingPlate(pair, 'upper'), meetingPlate(pair, 'lower')];
  if (!upper || !lower) return noEnd((upper ? pair.lower : pair.upper).piece.name);
  const lap = lapOf(joint);
  const at = measuredOn(pair);
  if (!lap || !at) return 'how far its plates lie over each other is not known';
  const frame = inUpper(joint, pair, one, other);
  if (typeof frame === 'string') return frame;
  const plates = {
    upper: { piece: upper.piece, end: upper.end, frame: one },
    lower: { piece: lower.piece, end: lower.end, frame },
  };
  const up = upOn(pair, at.which, lap.value);
  const pivots = pivotSpots(joint, at, up);
  if (typeof pivots === 'string') return pivots;
  const slides = rivetSpots(joint.slides(), at, up);
  if (typeof slides === 'string') return slides;
  const measured = plates[at.which];
  const middle = onMiddle(at.end, lap.value / 2);
  const { chart } = at.end;
  const [point, outward] = [chart.point(...middle), directionOut(chart, middle)];
  const line = pivots.length
    ? lineThrough(
        at.end,
        pivots.map(({ spot }) => spot),
      )
    : joint.line('leathers')
      ? { point, along: unit(cross(outward, upFrom(at.end, point))) }
      : undefined;
  if (!line) return 'it has no pivots and no leathers to turn on';
  const axis = { point: placeIn(measured.frame, line.point), along: directionIn(measured.frame, line.along) };
  const [on, normal] = [placeIn(measured.frame, point), directionIn(measured.frame, outward)];
  const far = farEnd(plates.lower);
  // Bent so that its far end swings in: then the plates part in the middle.
  const swings = dot(cross(axis.along, minus(far, axis.point)), normal);
  const along = swings > 0 ? plus(NOWHERE, axis.along, -1) : axis.along;
  const foot = plus(axis.point, along, dot(minus(on, axis.point), along));
  const away = minus(on, foot);
  const sides = pivots.map(({ spot }) =>
    Math.abs(dot(minus(placeIn(measured.frame, chart.point(...spot)), foot), along)),
  );
  return {
    pair,
    ...plates,
    axis: { point: foot, along },
    radius: size(away),
    out: size(away) > LEAST_RADIUS ? unit(away) : normal,
    halfSpan: sides.length ? Math.max(...sides) : 0,
    lap: lap.value,
    pivots,
    slides,
    measured: at.which,
  };
}
/** Nearer to the line that it turns about the middle of a plate says nothing of the way out, mm. */
const LEAST_RADIUS = 0.5;

/** Up the middle line at an end. */
const upFrom = ({ chart, row, middle }: PlateEnd, point: Vector): Vector =>
  minus(row === 0 ? chart.point(middle, 1) : point, row === 0 ? point : chart.point(middle, 0));

/** The lower plate's frame in that of the upper one's unit. */
function inUpper(joint: JointModel, pair: JointPair, one: Frame, other: Frame): Frame | string {
  if (one.unit === other.unit) return other;
  const { links, why } = jointLinks(joint);
  const link = links.find((each) => each.one.piece === pair.upper.piece && each.other.piece === pair.lower.piece);
  if (!link) return why ?? say`how “${pair.lower.piece.name}” hangs on “${pair.upper.piece.name}” is not known`;
  return { ...other, motion: after(link.motion, other.motion) };
}

/** The middle of the end that a lower plate does not meet its upper one with. */
function farEnd({ piece, end, frame }: TurningPlate): Vector {
  const chart = piece.chart()!;
  const far = endOf(chart, 'bottom') ?? end;
  const spot: Spot =
    far.row === end.row && far.middle === end.middle ? [end.middle, 1 - end.row] : [far.middle, far.row];
  return placeIn(frame, chart.point(...spot));
}

// ---- in the planes across the line --------------------------------------------------------------------------------

/** A line of a plate in such a plane: x runs out to the middle, the line that it turns about is nought. */
export interface CutLine {
  readonly points: readonly Flat[];
  readonly spots: readonly Spot[];
}

/** Both plates cut so far along the line from the middle, at bend 0. */
export interface Cut {
  readonly at: number;
  readonly over: readonly CutLine[];
  readonly under: readonly CutLine[];
  /** From the end of the plate that lies over, up its line in the middle; nothing where it has none in this plane. */
  readonly overFront?: readonly Flat[];
  /** The end of the plate that lies under. */
  readonly underEnd?: Flat;
}

const grids = new Dear<PointGrid>(48);

export function cutAt(turning: Turning, at: number): Cut {
  const { pair, axis, out } = turning;
  const origin = plus(axis.point, axis.along, at);
  const left = cross(axis.along, out);
  const cut = (which: 'upper' | 'lower'): readonly CutLine[] => {
    const { piece, end, frame } = turning[which];
    const grid = grids.get(keyOf(piece), () => pointGridInSteps(end.chart));
    // The plane in the plate's own frame: points are many, planes few.
    const height = (point: Vector) => dot(minus(placeIn(frame, point), origin), axis.along);
    const chains = atOnce(linesWhereInSteps(end.chart, grid, height, piece.cutForm()));
    return chains.map((spots) => ({
      spots,
      points: spots.map((spot): Flat => {
        const d = minus(placeIn(frame, end.chart.point(...spot)), origin);
        return [dot(d, out), dot(d, left)];
      }),
    }));
  };
  const over = cut(pair.over);
  const under = cut(pair.over === 'upper' ? 'lower' : 'upper');
  pause();
  const overFront = fromEnd(over, turning[pair.over].end);
  const underFront = fromEnd(under, turning[pair.over === 'upper' ? 'lower' : 'upper'].end);
  return {
    at,
    over,
    under,
    ...(overFront ? { overFront } : {}),
    ...(underFront ? { underEnd: underFront[0]! } : {}),
  };
}

/** The line that begins at an end of a plate nearest to its middle. */
function fromEnd(lines: readonly CutLine[], { row, middle, chart }: PlateEnd): readonly Flat[] | undefined {
  let [best, least]: [readonly Flat[] | undefined, number] = [undefined, Number.POSITIVE_INFINITY];
  for (const { points, spots } of lines)
    for (const [i, line] of [[0, points] as const, [spots.length - 1, [...points].reverse()] as const]) {
      const [u, v] = spots[i]!;
      const round = Math.abs(u - middle);
      const off = chart.closed ? Math.min(round, 1 - round) : round;
      if (Math.abs(v - row) > ON_EDGE || off >= least) continue;
      [best, least] = [line, off];
    }
  return best;
}
const ON_EDGE = 1e-6;

/**
 * How far the plate beneath still lies under the other when the lower one has turned by an angle, rad, mm along the plate that lies
 * over; below nought where they have parted.
 */
export function lapIn(cut: Cut, turning: Turning, angle: number): number | undefined {
  if (!cut.overFront || !cut.underEnd) return undefined;
  const turned = turnedFlat(cut.underEnd, turning.pair.over === 'upper' ? angle : -angle);
  return alongTo(cut.overFront, turned);
}
