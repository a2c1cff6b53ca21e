import { say } from '../../../l10n/say.ts';
import { AT_REST, type Motion, shiftedBy } from '../../geometry/motion/motion.ts';
import { jointsWith } from '../figures/joints-with.ts';
import { seamsAlong } from '../figures/seams-along.ts';
import { NONE } from '../forms/answers.ts';
import type { Form } from '../forms/index.ts';
import { kindOf } from '../forms/index.ts';
import { ofThing } from '../per-spec.ts';
import { homeOf } from '../spec.ts';
import type { JointModel, JointPair } from '../things/joint.ts';
import type { PieceModel } from '../things/piece.ts';
import type { SeamModel } from '../things/seam.ts';
import { lapOf, takenLap } from './lap.ts';

/** How a piece stands to others by its own lines, before any seam is looked at. */
export type Seat =
  /** In a frame of its own; halves and gores of one form all in one. */
  | { readonly kind: 'own'; readonly copies: Copies }
  /** In its neighbour's frame, moved so. */
  | {
      readonly kind: 'on';
      readonly neighbour: string;
      readonly motion: Motion;
      readonly copies: Copies;
      /** `lies under cuff` */
      readonly by: string;
      /** What nobody has said and was taken. */
      readonly assumed?: string;
    }
  /** Nowhere, and why. */
  | { readonly kind: 'none'; readonly why: string };

/** One, a mirrored pair that stands apart, the two halves of one form, or so many gores of it. */
export type Copies = 'one' | 'pair' | 'halves' | { readonly gores: number };

export const sameData = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Of a piece; kept, since it hangs on little and much hangs on it. */
export const seatOf = ofThing('piece', { kind: 'none', why: 'it is no piece' } as Seat, seatFor, { same: sameData });

function seatFor(piece: PieceModel): Seat {
  const form = piece.form();
  if (!form) return { kind: 'none', why: 'its form is not known yet' };
  if (piece.material()?.kind() === 'soft')
    return { kind: 'none', why: 'it is soft, and takes the shape of what it hangs on' };
  // Whether it has a surface is asked by who needs one: making it is dear.
  if (form.kind === 'later') return { kind: 'none', why: 'its form has no surface yet' };
  const copies = copiesOf(piece, form);
  const neighbour = neighbourOf(piece, form);
  if (!neighbour || homeOf(neighbour) !== homeOf(piece)) return { kind: 'own', copies };
  const by = saidBy(piece, form, neighbour);
  const at = { kind: 'on', neighbour: neighbour.named.word.key, copies, by } as const;
  if (kindOf(form).liesOn(form) !== NONE || kindOf(form).follows(form) !== NONE) return { ...at, motion: AT_REST };
  // A lame: on its neighbour's axis. Where a seam gives both edges, that says how far it reaches under.
  if (seamsAlong(piece).some((seam) => seam.along().some((along) => along.piece === neighbour)))
    return { kind: 'own', copies };
  const other = neighbour.form();
  const inJoint = jointPair(piece, neighbour);
  if (other && kindOf(other).domed(other) !== NONE)
    // A joint ties the two at their pivots.
    return inJoint
      ? { kind: 'own', copies }
      : { kind: 'none', why: say`where along the limb it lies under “${neighbour.name}” is not said` };
  const [chart, own] = [neighbour.chart(), piece.chart()];
  if (!chart || !own) return { kind: 'none', why: say`“${neighbour.name}” has no surface yet` };
  const lap = inJoint ? lapInJoint(inJoint.joint) : lapWith(piece, neighbour);
  // In a joint it may come before its neighbour: then it reaches under that one's upper end.
  const isAbove = inJoint?.pair.upper.piece === piece;
  const deep = lap?.by ?? 0;
  const up = isAbove
    ? chart.point(0.5, 1)[2] - own.point(0.5, 0)[2] - deep
    : chart.point(0.5, 0)[2] - own.point(0.5, 1)[2] + deep;
  return {
    ...at,
    motion: shiftedBy([0, offsetOf(neighbour, isAbove ? 'top' : 'bottom'), up]),
    ...(lap?.isSaid ? {} : { assumed: lap?.taken ?? NO_LAP }),
  };
}

const NO_LAP = 'its overlap is not said: edge to edge is taken';

interface Lap {
  readonly by: number;
  readonly isSaid: boolean;
  /** What was taken where nothing is said. */
  readonly taken?: string;
}

/** Two plates that follow each other in a joint. */
function jointPair(
  piece: PieceModel,
  neighbour: PieceModel,
): { readonly joint: JointModel; readonly pair: JointPair } | undefined {
  for (const joint of jointsWith(piece)) {
    const pair = joint
      .pairs()
      .find(({ upper, lower }) => [upper.piece, lower.piece].every((each) => each === piece || each === neighbour));
    if (pair) return { joint, pair };
  }
  return undefined;
}

function lapInJoint(joint: JointModel): Lap | undefined {
  const lap = lapOf(joint);
  return lap && { by: lap.value, isSaid: lap.isSaid, taken: takenLap(lap.value) };
}

/** How far a lame and its neighbour lie over each other, by the seam that joins them. */
function lapWith(piece: PieceModel, neighbour: PieceModel): Lap | undefined {
  for (const seam of seamsAlong(piece)) {
    if (!seam.stacks().some(({ layers }) => layers.some((layer) => layer.piece === neighbour))) continue;
    const said = overlapOf(seam);
    if (said !== undefined) return { by: said, isSaid: true };
    const inset = seam.rivetsLine() ? seam.inset() : undefined;
    if (inset !== undefined)
      return { by: 2 * inset, isSaid: false, taken: 'its overlap is not said: twice the inset of its row is taken' };
  }
  return undefined;
}

/** How far the pieces of a seam lie over each other, as it says, mm. */
export const overlapOf = (seam: SeamModel): number | undefined => seam.line('overlap')?.length('overlap');

/** How far in front of the axis the section at an end of a form stands, mm. */
function offsetOf(piece: PieceModel, end: 'top' | 'bottom'): number {
  const levels = [...(piece.levels() ?? [])].sort((a, b) => a.level.high - b.level.high);
  return (end === 'top' ? levels.at(-1) : levels[0])?.level.offset ?? 0;
}

/** Nobody makes a dome of more; of a slip of the finger one stands for all. */
const MOST_GORES = 48;

function copiesOf(piece: PieceModel, form: Form): Copies {
  const isRound = form.kind === 'gore dome' && form.long === form.wide && form.gores <= MOST_GORES;
  if (isRound && piece.make() >= form.gores) return { gores: form.gores };
  const isHalf = form.kind === 'half dome' || (form.kind === 'loft' && form.shape.wrap === 'half');
  if (isHalf && piece.make() >= 2 && (piece.mirrored() || form.kind === 'half dome')) return 'halves';
  return piece.mirrored() ? 'pair' : 'one';
}

/** The piece whose frame it is made in. */
function neighbourOf(piece: PieceModel, form: Form): PieceModel | undefined {
  const named = 'neighbour' in form ? form.neighbour : undefined;
  return named ? homeOf(piece).pieceOf(named) : undefined;
}

function saidBy(piece: PieceModel, form: Form, neighbour: PieceModel): string {
  if (form.kind === 'trim' || form.kind === 'comb') return say`${form.kind} along ${form.along}`;
  return say`lies ${piece.formLine()?.word('over') ? say`over` : say`under`} ${neighbour.name}`;
}
