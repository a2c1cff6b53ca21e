import { after, type Motion, moved, turned, turnedAbout, undone } from '../../geometry/motion/motion.ts';
import type { Vector } from '../../geometry/surface/vector.ts';
import { homeOf } from '../spec.ts';
import type { JointModel } from '../things/joint.ts';
import { bodyOf, type Frame } from './body.ts';
import { knownTurnings, type Turning } from './joint.ts';
import { RADIANS } from './joint-range.ts';
import { swingingOf, swungBodies } from './lift.ts';
import type { PlacedBody } from './pose.ts';

/**
 * Where the plates of a joint stand at a bend, degrees, shared evenly, in the frame of the first one's unit; of one that swings all
 * that goes along, in the frame of the group. Nothing where how they turn is not known.
 */
export function plateBodies(joint: JointModel, bend: number): readonly PlacedBody[] | undefined {
  if (joint.swing()) return swungBodies(joint, homeOf(joint), bend)?.turning;
  const turnings = knownTurnings(joint);
  const count = joint.pairs().length;
  if (!count || turnings.length < count) return undefined;
  const frames = framesAt(
    turnings,
    turnings.map(() => bend / count),
  );
  return joint.plates().map(({ piece, copy }, i) => ({
    body: bodyOf(piece, copy),
    motion: frames[i]!.motion,
    mirrored: frames[i]!.mirrored,
    by: `joint ${joint.name}`,
  }));
}

/** The same for a bend of each pair of its own, degrees. */
export function framesAt(turnings: readonly Turning[], bends: readonly number[]): readonly Frame[] {
  const frames: Frame[] = [turnings[0]!.upper.frame];
  // The frame in which a pair is told, in that of the first one.
  let into: Motion | undefined;
  for (const [i, { axis, upper, lower }] of turnings.entries()) {
    const before = frames[i]!.motion;
    into = i === 0 ? undefined : after(before, undone(upper.frame.motion));
    const turned = after(turnedAbout(axis.point, axis.along, bends[i]! * RADIANS), lower.frame.motion);
    frames.push({ ...lower.frame, motion: into ? after(into, turned) : turned });
  }
  return frames;
}

/** The lines that the pairs of a joint turn about at bend 0, in the frame of the first plate's unit. */
export function jointAxes(
  joint: JointModel,
): readonly { readonly upper: string; readonly lower: string; readonly point: Vector; readonly along: Vector }[] {
  const swinging = joint.swing() ? swingingOf(joint, homeOf(joint)) : undefined;
  if (typeof swinging === 'object') {
    const { axis, pivoted } = swinging;
    return [{ upper: pivoted.plate.piece.name, lower: pivoted.on.piece.name, ...axis }];
  }
  const turnings = knownTurnings(joint);
  if (turnings.length < joint.pairs().length || !turnings.length) return [];
  const frames = framesAt(
    turnings,
    turnings.map(() => 0),
  );
  return turnings.map(({ axis, upper, lower }, i) => {
    const into = after(frames[i]!.motion, undone(upper.frame.motion));
    return {
      upper: upper.piece.name,
      lower: lower.piece.name,
      point: moved(into, axis.point),
      along: turned(into, axis.along),
    };
  });
}
