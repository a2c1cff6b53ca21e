import { say } from '../../../l10n/say.ts';
import { moved, shiftedBy, undone } from '../../geometry/motion/motion.ts';
import type { Axis } from '../../geometry/motion/sweep.ts';
import { measured, straight } from '../../geometry/surface/along.ts';
import type { Chart, Spot } from '../../geometry/surface/chart.ts';
import { nearestSpot } from '../../geometry/surface/nearest.ts';
import { apart, dot, minus, NOWHERE, plus, unit, type Vector } from '../../geometry/surface/vector.ts';
import { directionOut } from '../../geometry/surface/walk.ts';
import { ofThing } from '../per-spec.ts';
import { placeOfLine } from '../shapes/places.ts';
import { JOINT_SIDES, type JointModel, type JointPlate, type JointRivets, type JointSide } from '../things/joint.ts';
import type { PieceModel } from '../things/piece.ts';
import { directionIn, type Frame, frameOf, placeIn } from './body.ts';
import type { Link } from './link.ts';
import { besideEdge, endOf } from './plate-end.ts';
import type { Row } from './row.ts';

/*
 * A plate that swings on another as one, as a visor does on a skull: where its pivots pass both, and where it stands by them. All in
 * the frame of the unit of the plate that stays. It hangs on the two pieces alone.
 */

export interface Pivoted {
  readonly plate: Standing;
  /** What it swings on. */
  readonly on: Standing;
  /** Above nought it turns the front up. */
  readonly axis: Axis;
  readonly pivots: readonly Pivot[];
  /** What places the plate that swings; nothing where it stands in the other's frame already. */
  readonly link?: Link;
}

/** A rivet through both plates. */
export interface Pivot {
  readonly rivets: JointRivets;
  readonly side: JointSide;
  /** On either plate as it is drawn: of halves both sides are one place. */
  readonly plate: Spot;
  readonly on: Spot;
  /** Between the faces of the two plates along the line, mm; below nought they run into each other there. */
  readonly room: number;
  /** Whether the plate that swings lies outside the other there. */
  readonly isOutside: boolean;
}

/** A plate with its frame on each side: of halves there are two. */
export interface Standing {
  readonly piece: PieceModel;
  readonly chart: Chart;
  readonly unit: string;
  readonly half: number;
  frame(side: JointSide): Frame;
}

const NO_PAIR = 'what swings wants two plates: the one that swings, and the one that it swings on';

/** Or in words why it is not known. */
export const pivotedBy = ofThing('joint', NO_PAIR as Pivoted | string, pivotedFor, {
  what: 'pivots matched',
  stops: true,
});

function pivotedFor(joint: JointModel): Pivoted | string {
  const swinging = joint.swinging();
  if (!swinging) return NO_PAIR;
  const [plate, on] = [standing(swinging.plate), standing(swinging.on)];
  if (typeof plate === 'string') return plate;
  if (typeof on === 'string') return on;
  const told = toldOn(joint, on);
  if (typeof told === 'string') return told;
  const isPlaced = plate.unit === on.unit;
  if (isPlaced && told.length) return passing(plate, on, told, 'on');
  const beside = besideEdges(joint, plate, told);
  if (typeof beside === 'string') return beside;
  if (isPlaced) return passing(plate, on, beside, 'plate');
  if (!told.length) return say`where its pivots pass “${on.piece.name}” is not said: \`at …\``;
  return hungOn(plate, on, told, beside);
}

function standing({ piece, copy }: JointPlate): Standing | string {
  const frame = frameOf(piece, copy);
  if (typeof frame === 'string') return say`“${piece.name}” has no place: ${frame}`;
  // Halves, and a pair that lies on them, are one thing with two sides. The left as seen from outside is the wearer's right.
  const mirrored = copy === '' ? frameOf(piece, 'right') : frame;
  const left = typeof mirrored === 'string' || mirrored.unit !== frame.unit ? frame : mirrored;
  const [chart, thickness] = [piece.chart(), piece.thickness()];
  if (!chart) return say`“${piece.name}” has no surface yet`;
  if (thickness === undefined) return say`how thick “${piece.name}” is is not known`;
  return { piece, chart, unit: frame.unit, half: thickness / 2, frame: (side) => (side === 'left' ? left : frame) };
}

/** A rivet on one of the plates, in the frame of its unit. */
interface Told {
  readonly rivets: JointRivets;
  readonly side: JointSide;
  readonly spot: Spot;
  readonly point: Vector;
  readonly out: Vector;
}

const toldAt = ({ chart, frame }: Standing, rivets: JointRivets, side: JointSide, spot: Spot): Told => ({
  rivets,
  side,
  spot,
  point: placeIn(frame(side), chart.point(...spot)),
  out: directionIn(frame(side), directionOut(chart, spot)),
});

/** The pivots on the plate that stays, as its own lines or those of the joint that it shares them with say. */
function toldOn(joint: JointModel, on: Standing): Told[] | string {
  const owner = joint.pivotsOf();
  if (!owner) return 'the joint whose pivots it shares has none of its own';
  if (owner !== joint) {
    const other = pivotedBy(owner);
    if (typeof other === 'string') return say`joint “${owner.name}”, whose pivots it shares: ${other}`;
    if (other.on.piece !== on.piece) return say`the pivots that it shares are not on “${on.piece.name}”`;
    return other.pivots.map((pivot) => toldAt(on, pivot.rivets, pivot.side, pivot.on));
  }
  const all: Told[] = [];
  for (const rivets of joint.pivots()) {
    const found = rivets.line.has('at') ? onBothSides(on, rivets) : [];
    if (typeof found === 'string') return found;
    all.push(...found);
  }
  return all;
}

/** Where an `at` says, and in a mirror on the other side. */
function onBothSides(on: Standing, rivets: JointRivets): Told[] | string {
  const { piece, chart } = on;
  const place = placeOfLine(piece, rivets.line);
  if (place === undefined || typeof place === 'string')
    return say`a pivot has no place on “${piece.name}”${place ? say`: ${place}` : ''}`;
  const said = rivets.line.text('side', 'side');
  const sides = JOINT_SIDES.filter((side) => said === undefined || side === said);
  if (on.frame('left').mirrored !== on.frame('right').mirrored)
    return sides.map((side) => toldAt(on, rivets, side, place.spot));
  const [x, y, z] = chart.point(...place.spot);
  const own: JointSide = x > 0 ? 'left' : 'right';
  const mirrored = nearestSpot(chart, [-x, y, z]);
  if (sides.some((side) => side !== own) && apart(chart.point(...mirrored), [-x, y, z]) > ON_LINE)
    return say`“${piece.name}” is not alike on both its sides, so that a pivot has no place in a mirror`;
  return sides.map((side) => toldAt(on, rivets, side, side === own ? place.spot : mirrored));
}
/** What is as good as on a surface, mm. */
const ON_LINE = 0.5;

/** So far in from the side edges of the plate that swings, and above its bottom. */
function besideEdges(joint: JointModel, plate: Standing, told: readonly Told[]): Told[] | string {
  const { piece, chart } = plate;
  const { inset, end: up } = joint.beside();
  const [rivets] = joint.pivotsOf()?.pivots() ?? [];
  if (!rivets) return 'it has no pivots';
  if (inset === undefined)
    return say`how far in from the sides of “${piece.name}” its pivots sit is not said: \`inset …\``;
  const end = endOf(chart, 'bottom');
  if (!end) return say`“${piece.name}” has no bottom to measure its pivots from`;
  const half = measured(chart, straight([0, 0], [0, 1]), 128).length / 2;
  const sides = told.length
    ? [...new Set(told.map(({ side }) => side))]
    : rivets.sides.length
      ? rivets.sides
      : JOINT_SIDES;
  const found: Told[] = [];
  for (const side of sides) {
    const spot = besideEdge(end, side, inset, up ?? half);
    if (typeof spot === 'string') return say`on “${piece.name}” a pivot has no place: ${spot}`;
    found.push(toldAt(plate, rivets, side, spot));
  }
  return found;
}

/** Through the pivots on both sides, or along the shank of a single one; by the right hand the front goes up. */
function axisThrough(told: readonly Told[]): Axis {
  const [first] = told as [Told];
  const other = told.find(({ side }) => side !== first.side);
  const along = other ? unit(minus(other.point, first.point)) : first.out;
  return { point: first.point, along: along[0] < 0 ? plus(NOWHERE, along, -1) : along };
}

/** Both plates stand in one frame: the rivets are told on the one, and pass the other where their line does. */
function passing(plate: Standing, on: Standing, told: readonly Told[], of: 'plate' | 'on'): Pivoted | string {
  const axis = axisThrough(told);
  const other = of === 'plate' ? on : plate;
  const pivots: Pivot[] = [];
  for (const each of told) {
    const spot = crossing(other, axis, each);
    if (!spot) return say`the line of the pivots does not pass “${other.piece.name}”`;
    const there = toldAt(other, each.rivets, each.side, spot);
    pivots.push(of === 'plate' ? pivotAt(plate, on, axis, each, there) : pivotAt(plate, on, axis, there, each));
  }
  return { plate, on, axis, pivots };
}

/** Where a line crosses a plate near a place. */
function crossing({ chart, frame }: Standing, { along }: Axis, { point, side }: Told): Spot | undefined {
  const at = frame(side);
  const back = undone(at.motion);
  let on = point;
  let spot: Spot | undefined;
  for (let i = 0; i < 60; i++) {
    const [x, y, z] = moved(back, on);
    spot = nearestSpot(chart, at.mirrored ? [-x, y, z] : [x, y, z], spot);
    const found = placeIn(at, chart.point(...spot));
    const next = plus(point, along, dot(minus(found, point), along));
    if (apart(next, on) < 1e-7) return apart(found, next) < ON_LINE ? spot : undefined;
    on = next;
  }
  return undefined;
}

function pivotAt(plate: Standing, on: Standing, { along }: Axis, own: Told, its: Told): Pivot {
  const out = dot(its.out, along) < 0 ? -1 : 1;
  const away = out * dot(minus(own.point, its.point), along);
  return {
    rivets: its.rivets,
    side: its.side,
    plate: own.spot,
    on: its.spot,
    room: Math.abs(away) - plate.half - on.half,
    isOutside: away > 0,
  };
}

/** What has no other place: upright as it is drawn, its own pivots on the line of those that it hangs on, in the middle between them. */
function hungOn(plate: Standing, on: Standing, told: readonly Told[], beside: readonly Told[]): Pivoted | string {
  const axis = axisThrough(told);
  const pairs = told.flatMap((its) => {
    const own = beside.find(({ side }) => side === its.side);
    return own ? [{ own, its }] : [];
  });
  if (!pairs.length) return say`“${plate.piece.name}” has no pivot on the side of those of “${on.piece.name}”`;
  const middle = (of: (pair: (typeof pairs)[number]) => Vector): Vector =>
    pairs.reduce<Vector>((sum, pair) => plus(sum, of(pair), 1 / pairs.length), NOWHERE);
  // One alone lies on the other face to face.
  const lies = ({ its }: (typeof pairs)[number]): Vector =>
    pairs.length > 1 ? its.point : plus(its.point, its.out, plate.half + on.half);
  const shift = minus(
    middle(lies),
    middle(({ own }) => own.point),
  );
  const here = ({ own }: (typeof pairs)[number]): Told => ({ ...own, point: plus(own.point, shift) });
  const pivots = pairs.map((pair) => pivotAt(plate, on, axis, here(pair), pair.its));
  const links = pairs.map((pair) => ({ from: pair.own.point, to: here(pair).point, weight: 1 }));
  const upright = (
    [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ] as const
  ).map((way) => ({ from: way, to: way, weight: STIFF }));
  return {
    plate,
    on,
    axis,
    pivots,
    link: {
      one: rowOf(on),
      other: rowOf(plate),
      meetings: [],
      isClosed: false,
      pairs: { places: links, directions: upright },
      motion: shiftedBy(shift),
    },
  };
}
/** A slope of what hangs upright counts for what it opens at an arm's length, mm². */
const STIFF = 100 ** 2;

const rowOf = ({ unit: of, piece }: Standing): Row => ({
  unit: of,
  piece,
  edge: 'bottom',
  length: 0,
  isClosed: false,
  at: () => undefined,
});
