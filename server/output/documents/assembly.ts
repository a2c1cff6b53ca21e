import type { Motion } from '../../geometry/motion/motion.ts';
import type { Vector } from '../../geometry/surface/vector.ts';
import type { Field } from '../../geometry/view/field.ts';
import { oneByOne, patiently, type Steps } from '../../incremental/steps.ts';
import { boxOf } from '../../model/assembly/assembled.ts';
import { bodyName } from '../../model/assembly/body.ts';
import { type HeadRoom, headRooms } from '../../model/assembly/head.ts';
import { turningsOf } from '../../model/assembly/joint.ts';
import { jointAxes, plateBodies } from '../../model/assembly/joint-poses.ts';
import { type Lift, liftOf } from '../../model/assembly/lift.ts';
import { greatestOf, type Misfit, misfitsOf } from '../../model/assembly/misfit.ts';
import { assemblyOf, type PlacedBody, type PlacedGroup } from '../../model/assembly/pose.ts';
import { sights } from '../../model/assembly/sight.ts';
import type { End } from '../../model/assembly/sweeping.ts';
import { swingOf } from '../../model/assembly/swing.ts';
import { throughs } from '../../model/assembly/through.ts';
import type { Model } from '../../model/spec.ts';
import type { HingeModel } from '../../model/things/hinge.ts';
import type { JointModel } from '../../model/things/joint.ts';
import type { SeamModel } from '../../model/things/seam.ts';
import { HEAD_WORDS } from '../../trade/fit/head.ts';

/* Where every piece of a build is, as data for other programs. mm; z up, y to the front, x to the wearer's right. */

export interface AssemblyData {
  readonly planish: 1;
  readonly file: string;
  /** What hangs together, each in a frame of its own. */
  readonly groups: readonly GroupData[];
  readonly unplaced: readonly UnplacedData[];
  /** Seams that give an edge of both pieces. */
  readonly seams: readonly SeamData[];
  /** Hinges whose swing is known. */
  readonly hinges: readonly HingeData[];
  readonly joints: readonly JointData[];
  /** Pieces whose metal runs through each other, away from the row that joins them. */
  readonly through: readonly ThroughData[];
  /** Heads in the pieces that fit them, with the room round each. */
  readonly heads: readonly HeadData[];
}

export interface HeadData {
  readonly wearer: string;
  /** The piece that fits it, and where on it the brow is. */
  readonly piece: string;
  readonly level: string;
  /** Whether a line says so; else it was taken. */
  readonly said: boolean;
  /** Middle of the head at the brow, in the frame of the group, mm. */
  readonly at: readonly number[];
  /** What the head is made from, mm, and which of it is estimated. */
  readonly measures: Readonly<Record<string, number>>;
  readonly estimated: readonly string[];
  /** Nearest metal: mm from the skin, liner not taken off, and for heads at the ends of what is estimated. */
  readonly least: {
    readonly apart: number;
    readonly low: number;
    readonly high: number;
    readonly piece: string;
    readonly at: readonly number[];
  };
  /** Degrees from straight ahead, with the eyes at the brow; and the share of what is seen without a helm, 0 to 1. */
  readonly sight?: Readonly<Record<'left' | 'right' | 'up' | 'down' | 'both' | 'share', number>>;
  /** Inner faces: x, y, z in the frame of the group and mm from the skin; below nought within the head, 200 at most. */
  readonly plates: readonly { readonly name: string; readonly points: readonly (readonly number[])[] }[];
}

export interface HingeData {
  readonly name: string;
  /** Degrees from where the leaves go on into each other, outward above nought: until metal meets metal. */
  readonly inward: EndData;
  readonly outward: EndData;
  /** The least room as it swings, mm, and at which angle. */
  readonly least?: { readonly clear: number; readonly angle: number; readonly between: string };
}

export interface EndData {
  readonly angle: number;
  readonly meets?: string;
}

export interface ThroughData {
  readonly one: string;
  readonly other: string;
  /** mm */
  readonly deep: number;
  /** In the frame of their group. */
  readonly at: readonly number[];
}

export interface GroupData {
  /** The piece that keeps its own frame. */
  readonly root: string;
  /** Whether it is worn: its root fits a wearer. */
  readonly worn: boolean;
  /** Least and greatest x, y and z of the outer faces. */
  readonly box?: readonly (readonly [number, number])[];
  readonly pieces: readonly PlacedData[];
}

export interface PlacedData {
  readonly name: string;
  readonly piece: string;
  readonly copy?: string;
  /** Rows of the rotation from the piece's own frame; a mirrored copy is mirrored in x before. */
  readonly turn: readonly (readonly number[])[];
  readonly shift: readonly number[];
  readonly mirrored: boolean;
  /** By what it came there. */
  readonly by: string;
  /** What nobody has said and was taken. */
  readonly assumed?: string;
}

export interface UnplacedData {
  readonly piece: string;
  readonly copy?: string;
  readonly why: string;
  /** The seam that would place it if it gave an edge of both pieces. */
  readonly seam?: string;
}

/** A joint through its range, the bend shared evenly; or what swings on it as one. */
export interface JointData {
  readonly name: string;
  /** Of what swings: until metal meets metal, degrees, its front up above nought; and the least room within what is asked for, mm. */
  readonly swing?: {
    readonly down: EndData;
    readonly up: EndData;
    readonly least?: {
      readonly clear: number;
      readonly angle: number;
      readonly between: string;
      /** From the middle of the pivots: right, front, up. */
      readonly at: readonly number[];
    };
  };
  /** Why how it moves is not known; then there are no steps. */
  readonly why?: readonly string[];
  /** What each two plates turn about at bend 0, in the frame of the first plate; of what swings in that of the group. */
  readonly axes: readonly {
    readonly upper: string;
    readonly lower: string;
    readonly point: readonly number[];
    readonly along: readonly number[];
  }[];
  /** From one end of the range to the other; of what swings only what goes along, in the frame of the group. */
  readonly steps: readonly {
    /** Degrees. */
    readonly bend: number;
    readonly plates: readonly Pick<PlacedData, 'name' | 'piece' | 'turn' | 'shift' | 'mirrored'>[];
  }[];
}

export interface SeamData {
  readonly name: string;
  /** mm */
  readonly misfit: number;
  readonly misfitMean: number;
  readonly edges: readonly {
    readonly one: string;
    readonly other: string;
    readonly lengths: readonly [number, number];
    /** Along the row of the first, 0 to 1: how far apart, and how far the first lies outside the other, mm. */
    readonly stations: readonly { readonly at: number; readonly apart: number; readonly outside: number }[];
  }[];
}

/** The poses and misfits of a spec; `file` is what it is called. */
export function* assemblyInSteps(model: Model, file: string): Steps<AssemblyData> {
  const { groups, unplaced } = yield* patiently(() => assemblyOf(model));
  const seams = yield* oneByOne(model.seams(), seamData);
  const hinges = yield* oneByOne(model.hinges(), hingeData);
  const joints = yield* oneByOne(model.joints(), jointData);
  const through = yield* patiently(() => throughs(model));
  const heads = yield* patiently(() => headRooms(model));
  const seen = yield* patiently(() => sights(model));
  return {
    planish: 1,
    file,
    groups: yield* oneByOne(groups, groupData),
    unplaced: unplaced.map(({ piece, copy, why, seam }) => ({
      piece: piece.name,
      ...(copy === '' ? {} : { copy }),
      why,
      ...(seam ? { seam: seam.name } : {}),
    })),
    seams: seams.flat(),
    hinges: hinges.flat(),
    joints,
    through: through.map(({ names: [one, other], deep, at }) => ({ one, other, deep: exact(deep), at: numbers(at) })),
    heads: heads.map((room) => headData(room, seen.find(({ head }) => head === room.head)?.near)),
  };
}

function headData({ head, plates, least, low, high }: HeadRoom, sight: Field | undefined): HeadData {
  const { fit, piece, level, said, at, measures, estimated } = head;
  return {
    wearer: fit.wearer.name,
    piece,
    level,
    said,
    at: numbers(at),
    measures: Object.fromEntries(
      Object.entries(measures).map(([key, value]) => [HEAD_WORDS[key as keyof typeof HEAD_WORDS], exact(value)]),
    ),
    estimated,
    least: { apart: exact(least.apart), low: exact(low), high: exact(high), piece: least.piece, at: numbers(least.at) },
    ...(sight ? { sight: fieldData(sight) } : {}),
    plates: plates.map(({ name, points }) => ({ name, points: points.map((point) => point.map(tenth)) })),
  };
}
const fieldData = ({ left, right, up, down, both, share }: Field): NonNullable<HeadData['sight']> => ({
  left: tenth(left),
  right: tenth(right),
  up: tenth(up),
  down: tenth(down),
  both: tenth(both),
  share: exact(share),
});
const tenth = (value: number) => Math.round(value * 10) / 10 + 0;

/** From one step of a joint's motion to the next, degrees; and the most of them. */
const JOINT_STEP = 5;
const MOST_STEPS = 72;

function jointData(joint: JointModel): JointData {
  const { from, to } = joint.range() ?? joint.swing() ?? { from: 0, to: 0 };
  const count = Math.max(1, Math.min(MOST_STEPS, Math.ceil((to - from) / JOINT_STEP)));
  const bends = [...new Set(Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count))];
  const lift = joint.line('swings') ? liftOf(joint) : undefined;
  const why = [...new Set([...turningsOf(joint), lift].filter((each) => typeof each === 'string'))];
  return {
    name: joint.name,
    ...(why.length ? { why } : {}),
    ...(typeof lift === 'object' ? { swing: swingData(lift) } : {}),
    axes: jointAxes(joint).map(({ upper, lower, point, along }) => ({
      upper,
      lower,
      point: numbers(point),
      along: along.map(cosine),
    })),
    steps: bends.flatMap((bend) => {
      const plates = plateBodies(joint, bend)?.map(placedData);
      return plates
        ? [
            {
              bend: exact(bend),
              plates: plates.map(({ name, piece, turn, shift, mirrored }) => ({ name, piece, turn, shift, mirrored })),
            },
          ]
        : [];
    }),
  };
}

const swingData = ({ down, up, least }: Lift): NonNullable<JointData['swing']> => ({
  down: endData(down),
  up: endData(up),
  ...(least
    ? { least: { ...least, clear: exact(least.clear), angle: exact(least.angle), at: numbers(least.at) } }
    : {}),
});

const endData = ({ angle, meets }: End): EndData => ({ angle: exact(angle), ...(meets ? { meets } : {}) });

function groupData({ root, fits, bodies }: PlacedGroup): GroupData {
  const box = boxOf(bodies);
  const rootBody = bodies.find(({ body }) => body.id === root);
  return {
    root: rootBody ? bodyName(rootBody.body) : root,
    worn: fits,
    ...(box ? { box: box.map(([least, most]) => [exact(least), exact(most)] as const) } : {}),
    pieces: bodies.map(placedData),
  };
}

function placedData({ body, motion, mirrored, by, assumed }: PlacedBody): PlacedData {
  return {
    name: bodyName(body),
    piece: body.piece.name,
    ...(body.copy === '' ? {} : { copy: body.copy }),
    ...numbersOf(motion),
    mirrored,
    by,
    ...(assumed === undefined ? {} : { assumed }),
  };
}

const numbersOf = ({ turn, shift }: Motion) => ({ turn: turn.map((row) => row.map(cosine)), shift: numbers(shift) });
const numbers = (vector: Vector) => vector.map(exact);
/** To a millionth of a millimetre, and never −0. */
const exact = (value: number) => Math.round(value * 1e6) / 1e6 + 0;
const cosine = (value: number) => Math.round(value * 1e12) / 1e12 + 0;

function seamData(seam: SeamModel): SeamData[] {
  const all = misfitsOf(seam);
  const gaps = all.flatMap((each) => each.gaps);
  if (!gaps.length) return [];
  return [
    {
      name: seam.name,
      misfit: exact(greatestOf(all)),
      misfitMean: exact(gaps.reduce((sum, { apart }) => sum + apart, 0) / gaps.length),
      edges: all.map(edgesData),
    },
  ];
}

function hingeData(hinge: HingeModel): HingeData[] {
  const swing = swingOf(hinge);
  if (!swing) return [];
  const { inward, outward, least } = swing;
  return [
    {
      name: hinge.name,
      inward: endData(inward),
      outward: endData(outward),
      ...(least ? { least: { ...least, clear: exact(least.clear), angle: exact(least.angle) } } : {}),
    },
  ];
}

const edgesData = ({ one, other, gaps }: Misfit): SeamData['edges'][number] => ({
  one: `${one.piece}.${one.edge}`,
  other: `${other.piece}.${other.edge}`,
  lengths: [exact(one.length), exact(other.length)],
  stations: gaps.map(({ share, apart, outside }) => ({
    at: exact(share),
    apart: exact(apart),
    outside: exact(outside),
  })),
});
