import { say } from '../../../l10n/say.ts';
import { after, type Motion, moved, turned, turnedAbout } from '../../geometry/motion/motion.ts';
import type { Axis, Closest } from '../../geometry/motion/sweep.ts';
import { cross, dot, minus, plus, size, unit, type Vector } from '../../geometry/surface/vector.ts';
import { usual } from '../../trade/usual/practice.ts';
import { ofThing } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import type { JointModel } from '../things/joint.ts';
import { centreOfAll } from './centre.ts';
import { type Pivoted, pivotedBy } from './pivoted.ts';
import { groupOf, type PlacedBody, unitMotion } from './pose.ts';
import { sameData } from './seat.ts';
import { type End, type Meeting, meetingsOf, type Parts, partsOf, sweep } from './sweeping.ts';
import { MOST_LOOKED_AT } from './through.ts';

/*
 * How far something swings on its pivots until metal meets metal, with all that hangs on it, how near it comes to what stands still,
 * and where its weight lies meanwhile. Angles in degrees, above nought its front up.
 */

export interface Lift {
  readonly down: End;
  readonly up: End;
  /** Within the swing that is asked for; nothing where nothing is near. */
  readonly least?: Near;
}

export interface Near {
  /** Between the faces, mm: nought where they touch. */
  readonly clear: number;
  readonly angle: number;
  readonly between: string;
  /** From the middle of the pivots, to the right, to the front and up, mm. */
  readonly at: Vector;
}

/** What swings, in the frame of its group; or in words why it is not known. */
export interface Swinging extends Parts {
  readonly axis: Axis;
  readonly pivoted: Pivoted;
}

export function swingingOf(joint: JointModel, model: Model): Swinging | string {
  const swinging = swingingAlone(joint, model);
  const clears = joint.clears();
  if (typeof swinging === 'string' || !clears) return swinging;
  const other = swingingAlone(clears.joint, model);
  if (typeof other === 'string') return say`joint “${clears.joint.name}”, which swings before it: ${other}`;
  const gone = new Map(turnedBodies(other, clears.joint, clears.angle).map((body) => [body.body.id, body]));
  return { ...swinging, still: swinging.still.map((body) => gone.get(body.body.id) ?? body) };
}

function swingingAlone(joint: JointModel, model: Model): Swinging | string {
  const pivoted = pivotedBy(joint);
  if (typeof pivoted === 'string') return pivoted;
  const { plate, on } = pivoted;
  const group = groupOf(model).get(on.unit);
  const pose = unitMotion(model, on.unit);
  if (!group || !pose) return say`“${on.piece.name}” has no place`;
  const parts = partsOf(model, group, {
    turns: { piece: plate.piece.named.word.key, unit: plate.unit },
    stays: { piece: on.piece.named.word.key, unit: on.unit },
    cut: joint.named.word.key,
  });
  if (!parts) return say`“${plate.piece.name}” is held to “${on.piece.name}” by more than its pivots`;
  const { axis } = pivoted;
  return {
    ...parts,
    pivoted,
    axis: { point: moved(pose.motion, axis.point), along: turned(pose.motion, axis.along) },
  };
}

function turnedBodies({ axis, turning }: Swinging, joint: JointModel, angle: number): PlacedBody[] {
  const turn: Motion = turnedAbout(axis.point, axis.along, radians(angle));
  return turning.map((body) => ({ ...body, motion: after(turn, body.motion), by: `joint ${joint.name}` }));
}

/** In words why it is not known. */
export const liftOf = ofThing('joint', '' as Lift | string, (joint, model) => liftFor(model, joint), {
  same: sameData,
  what: 'joint swung',
});

function liftFor(model: Model, joint: JointModel): Lift | string {
  const swinging = swingingOf(joint, model);
  if (typeof swinging === 'string') return swinging;
  const { axis } = swinging;
  if (swinging.still.length + swinging.turning.length > MOST_LOOKED_AT)
    return say`more than ${MOST_LOOKED_AT} plates hang together`;
  const all = meetingsOf(swinging, axis, usual('pivot-boss'), usual('plates-give'));
  const through = all.find(({ isThrough }) => isThrough);
  if (through) return say`“${through.names[1]}” runs through “${through.names[0]}” as they stand`;
  const stopAt = (way: 1 | -1): End => {
    const { stop } = sweep(axis, all, 0, way * Math.PI, 'stop');
    return stop ? { angle: degrees(stop.angle), meets: all[stop.which]!.names[0] } : { angle: way * 180 };
  };
  const [down, up] = [stopAt(-1), stopAt(1)];
  const asked = joint.swing() ?? { from: down.angle, to: up.angle };
  const [from, to] = [Math.max(asked.from, down.angle), Math.min(asked.to, up.angle)].map(radians) as [number, number];
  // Here it counts where faces touch, before they spring.
  const faces = all.map((meeting): Meeting => ({ ...meeting, touching: meeting.faces }));
  const near = faces.length && from <= to ? sweep(axis, faces, from, to, 'least').least : undefined;
  return { down, up, ...(near ? { least: nearIn(near, faces, swinging) } : {}) };
}

const nearIn = ({ clear, angle, which, at }: Closest, all: readonly Meeting[], { axis }: Swinging): Near => ({
  clear: Math.max(0, clear),
  angle: degrees(angle) + 0,
  between: all[which]!.names.join(' and '),
  at: minus(at, middleOf(axis)),
});

/** Where the line of the pivots passes the middle of the wearer. */
function middleOf({ point, along }: Axis): Vector {
  return Math.abs(along[0]) > 0.1 ? plus(point, along, -point[0] / along[0]) : point;
}

const degrees = (angle: number): number => (angle * 180) / Math.PI;
const radians = (angle: number): number => (angle * Math.PI) / 180;

/** What swings, at an angle, in the frame of the group; and what stands still. */
export function swungBodies(joint: JointModel, model: Model, angle: number): Parts | undefined {
  const swinging = swingingOf(joint, model);
  if (typeof swinging === 'string') return undefined;
  return { still: swinging.still, turning: turnedBodies(swinging, joint, angle) };
}

/** Where the mass of what swings lies about its line. */
export interface Weighing {
  /** From the line to the middle of mass, mm, and how far above the level front that lies at 0°. */
  readonly radius: number;
  readonly angle: number;
  readonly mass: number;
  /** By name, what has no mass or no place in it. */
  readonly without: readonly string[];
}

export function weighingOf(joint: JointModel, model: Model): Weighing | undefined {
  const swinging = swingingOf(joint, model);
  const centre = typeof swinging === 'string' ? undefined : centreOfAll(swinging.turning);
  if (!centre || typeof swinging === 'string') return undefined;
  const { point, along } = swinging.axis;
  const front = cross([0, 0, 1], along);
  // About an upright line nothing is lifted.
  if (size(front) < 0.1) return undefined;
  const ahead = unit(front);
  const upward = cross(along, ahead);
  const from = minus(centre.at, point);
  const [out, up] = [dot(from, ahead), dot(from, upward)];
  return {
    radius: Math.hypot(out, up),
    angle: degrees(Math.atan2(up, out)),
    mass: centre.mass,
    without: centre.without,
  };
}
