import { after, moved, turned, turnedAbout, undone } from '../../geometry/motion/motion.ts';
import type { Spot } from '../../geometry/surface/chart.ts';
import { nearestSpot } from '../../geometry/surface/nearest.ts';
import { apart, cross, dot, minus, NOWHERE, plus, size, unit, type Vector } from '../../geometry/surface/vector.ts';
import { straightOn } from '../../geometry/surface/walk.ts';
import { ofThing } from '../per-spec.ts';
import type { JointLeather, JointModel, JointRivets } from '../things/joint.ts';
import type { PieceModel } from '../things/piece.ts';
import type { RivetModel } from '../things/rivet.ts';
import { type Frame, placeIn } from './body.ts';
import { knownTurnings, type Turning, type TurningPlate } from './joint.ts';
import { RADIANS } from './joint-range.ts';
import { type MeasuredRivet, underIn } from './lap.ts';
import { pivotedBy } from './pivoted.ts';
import { endOf, onMiddle } from './plate-end.ts';

/* Where the rivets of a joint pass its plates: measured on one of two, carried to the other through the stack, so that both are
 * drilled from one place. */

export interface Drilled {
  readonly what: 'pivot' | 'slide' | 'leather';
  readonly piece: PieceModel;
  /** The other plate, or the leather. */
  readonly to: string;
  readonly rivet?: RivetModel;
  readonly spot: Spot;
  /** A slot instead of a hole: where its middle lies, how far its rivet slides, and a spot ahead along it. */
  readonly slot?: { readonly middle: Spot; readonly ahead: Spot; readonly travel: number };
}

/** How a rivet slides in the plate that lies under. */
export interface Slide {
  readonly turning: Turning;
  readonly rivets: JointRivets;
  /** From the line that the plates turn about, mm. */
  readonly radius: number;
  /** What the pair turns through, degrees. */
  readonly from: number;
  readonly to: number;
  /** How far it slides over that, mm. */
  readonly travel: number;
  readonly rivet: MeasuredRivet;
}

/** Every slide of a joint, pair by pair; nothing is known of them without a range. */
export function slidesOf(joint: JointModel): readonly Slide[] {
  const range = joint.range();
  const count = joint.pairs().length;
  if (!range || !count) return [];
  const [from, to] = [range.from / count, range.to / count];
  return knownTurnings(joint).flatMap((turning) =>
    turning.slides.map((rivet): Slide => {
      const arm = armOf(turning, rivet);
      const radius = size(arm);
      return { turning, rivets: rivet.rivets, radius, from, to, travel: radius * (to - from) * RADIANS, rivet };
    }),
  );
}

/** From the line that a pair turns about to one of its rivets, in the frame of the upper plate's unit. */
function armOf(turning: Turning, { spot }: MeasuredRivet): Vector {
  const { axis, measured } = turning;
  const { end, frame } = turning[measured];
  const arm = minus(placeIn(frame, end.chart.point(...spot)), axis.point);
  return plus(arm, axis.along, -dot(arm, axis.along));
}

/** The bends of a pair, degrees, at which a slot or a leather stops it; without any as far as anything bends. */
export type StopsOf = (turning: Turning) => { readonly from: number; readonly to: number };

export function stopsIn(joint: JointModel): StopsOf {
  const slides = slidesOf(joint);
  const leathers = leatherPlaces(joint);
  const turnings = knownTurnings(joint);
  const share = (joint.range()?.to ?? 0) / (turnings.length || 1);
  return (turning) => {
    let [from, to] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    for (const slide of slides) {
      if (slide.turning !== turning || slide.radius < ON_LINE) continue;
      // What the slot has over is left at both its ends.
      const over = Math.max(0, ((slide.rivets.play ?? slide.travel) - slide.travel) / 2 / slide.radius / RADIANS);
      from = Math.max(from, slide.from - over);
      to = Math.min(to, slide.to + over);
    }
    // A leather is cut as long as the range needs.
    if (leathers.some(({ isTaut }) => isTaut[turnings.indexOf(turning)])) to = Math.min(to, share);
    return { from, to };
  };
}
/** A rivet nearer to the line than this, mm, stops nothing. */
const ON_LINE = 2;

/** What is drilled for the joints of a spec, by the name of the piece; kept for each joint. */
export const drilledFor = ofThing('joint', [] as readonly Drilled[], drillings, { what: 'joint drilled' });

function drillings(joint: JointModel): Drilled[] {
  if (joint.line('swings')) return pivotDrillings(joint);
  const slides = slidesOf(joint);
  return [
    ...knownTurnings(joint).flatMap((turning) => [
      ...turning.pivots.flatMap((rivet) => through(turning, rivet, 'pivot')),
      ...turning.slides.flatMap((rivet) =>
        through(
          turning,
          rivet,
          'slide',
          slides.find((each) => each.rivet === rivet),
        ),
      ),
    ]),
    ...leatherPlaces(joint).flatMap(({ leather, at }) =>
      at.map(
        ({ piece, spot }): Drilled => ({
          what: 'leather',
          piece,
          to: 'leather',
          spot,
          ...(leather.rivet ? { rivet: leather.rivet } : {}),
        }),
      ),
    ),
  ];
}

/** The pivots of what swings, on both plates; where it shares those of another joint that one has the holes in what stays. */
function pivotDrillings(joint: JointModel): Drilled[] {
  const found = pivotedBy(joint);
  if (typeof found === 'string') return [];
  const { plate, on, pivots } = found;
  const isShared = joint.pivotsOf() !== joint;
  return [plate, ...(isShared ? [] : [on])].flatMap((each) => {
    const isPlate = each === plate;
    return pivots.flatMap(({ rivets, side, ...spots }, i): Drilled[] => {
      const spot = isPlate ? spots.plate : spots.on;
      // Of halves one place stands for both.
      const isDrawn = pivots.slice(0, i).some((other) => samePlace(isPlate ? other.plate : other.on, spot));
      const { rivet } = rivets;
      return isDrawn
        ? []
        : [
            {
              what: 'pivot',
              piece: each.piece,
              to: (isPlate ? on : plate).piece.name,
              spot,
              ...(rivet ? { rivet } : {}),
            },
          ];
    });
  });
}

const samePlace = (a: Spot, b: Spot): boolean => Math.abs(a[0] - b[0]) + Math.abs(a[1] - b[1]) < 1e-9;

/** One rivet on both plates of a pair. */
function through(turning: Turning, measuredRivet: MeasuredRivet, what: 'pivot' | 'slide', slide?: Slide): Drilled[] {
  const { measured, pair } = turning;
  const other = measured === 'upper' ? 'lower' : 'upper';
  const { rivet } = measuredRivet.rivets;
  const point = placeIn(turning[measured].frame, turning[measured].end.chart.point(...measuredRivet.spot));
  return ([measured, other] as const).map((which): Drilled => {
    const plate = turning[which];
    const spot = which === measured ? measuredRivet.spot : nearestSpot(plate.end.chart, inPlate(plate, point));
    const isSlotted = slide && which === underIn(pair) && slide.radius >= ON_LINE;
    return {
      what,
      piece: plate.piece,
      to: turning[which === 'upper' ? 'lower' : 'upper'].piece.name,
      spot,
      ...(rivet ? { rivet } : {}),
      ...(isSlotted ? { slot: slotIn(turning, which, spot, slide) } : {}),
    };
  });
}

function inPlate({ frame }: TurningPlate, point: Vector): Vector {
  const [x, y, z] = moved(undone(frame.motion), point);
  return frame.mirrored ? [-x, y, z] : [x, y, z];
}

function directionInPlate({ frame }: TurningPlate, way: Vector): Vector {
  const [x, y, z] = turned(undone(frame.motion), way);
  return frame.mirrored ? [-x, y, z] : [x, y, z];
}

/** The rivet stays in the plate over it: in this one it goes the other way than the plate itself. */
function slotIn(turning: Turning, which: 'upper' | 'lower', spot: Spot, slide: Slide): NonNullable<Drilled['slot']> {
  const plate = turning[which];
  const { chart } = plate.end;
  const arm = minus(placeIn(plate.frame, chart.point(...spot)), turning.axis.point);
  const ahead = unit(cross(turning.axis.along, arm));
  const way = directionInPlate(plate, plus(NOWHERE, ahead, which === 'lower' ? -1 : 1));
  const back = plus(NOWHERE, way, -1);
  const off = slide.radius * ((slide.from + slide.to) / 2) * RADIANS;
  const middle = off === 0 ? spot : straightOn(chart, spot, off > 0 ? way : back, Math.abs(off));
  return { middle, ahead: straightOn(chart, middle, way, 1), travel: Math.max(slide.travel, slide.rivets.play ?? 0) };
}

// ---- leathers ------------------------------------------------------------------------------------------------------

export interface LeatherPlaces {
  readonly leather: JointLeather;
  /** Of one of them: its rivet on each plate, in their order. */
  readonly at: readonly { readonly piece: PieceModel; readonly spot: Spot }[];
  /** From rivet to rivet, mm: the furthest that the range parts them. */
  readonly steps: readonly number[];
  /** Whether it is taut between two plates at the far end of the range: then it lets them open no further. */
  readonly isTaut: readonly boolean[];
}

/** Every inner leather, its rivets half way up each plate. */
export function leatherPlaces(joint: JointModel): readonly LeatherPlaces[] {
  const turnings = knownTurnings(joint);
  const pairs = joint.pairs();
  if (!pairs.length || turnings.length < pairs.length) return [];
  const range = joint.range() ?? { from: 0, to: 0 };
  const bends = [range.from, 0, range.to].map((bend) => bend / pairs.length);
  return joint.leathers().flatMap((leather) =>
    Array.from({ length: Math.min(leather.count, MOST_LEATHERS) }, (_, i): LeatherPlaces => {
      const share = (i + 0.5) / Math.min(leather.count, MOST_LEATHERS);
      const plates = [turnings[0]!.upper, ...turnings.map(({ lower }) => lower)];
      const at = plates.map(({ piece, end }) => ({ piece, spot: onPlate(piece, end.middle, end.chart.closed, share) }));
      const lengths = turnings.map((turning, k) => {
        const [from, to] = [at[k]!, at[k + 1]!];
        const start = placeIn(turning.upper.frame, from.piece.chart()!.point(...from.spot));
        const end = to.piece.chart()!.point(...to.spot);
        return bends.map((bend) => apart(start, placeIn(bent(turning, bend), end)));
      });
      const steps = lengths.map((all) => Math.max(...all));
      return { leather, at, steps, isTaut: lengths.map(([, rest, to], k) => to === steps[k] && to! > rest! + SLACK) };
    }),
  );
}
/** What a leather gives, mm. */
const SLACK = 1;
/** More leathers side by side than any plate has room for. */
const MOST_LEATHERS = 20;

/** The lower plate's frame at a bend of the pair, degrees. */
const bent = ({ axis, lower }: Turning, bend: number): Frame => ({
  ...lower.frame,
  motion: after(turnedAbout(axis.point, axis.along, bend * RADIANS), lower.frame.motion),
});

/** A share of the way across a plate, half way up it; of what goes all round, across its front half. */
function onPlate(piece: PieceModel, middle: number, isClosed: boolean, share: number): Spot {
  const chart = piece.chart()!;
  if (!isClosed) return [share, 0.5];
  // A dome, crown to the front: across it through the crown.
  const end = endOf(chart, middle === 0 ? 'bottom' : 'top');
  const column = share < 0.5 ? 0.75 : 0.25;
  const up = 1 - Math.abs(2 * share - 1);
  return end && up > 0.99 ? onMiddle(end, 1e9) : [column, up];
}
