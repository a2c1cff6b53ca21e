import type { Section } from '../../../grammar/tree.ts';
import { say } from '../../../l10n/say.ts';
import { balancedInSteps, type Tie } from '../../geometry/motion/balance.ts';
import { AT_REST, after, type Motion, undone } from '../../geometry/motion/motion.ts';
import { kept } from '../../incremental/memo.ts';
import { atOnce } from '../../incremental/steps.ts';
import { fitOf } from '../figures/fit.ts';
import { perModel } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import type { PieceModel } from '../things/piece.ts';
import type { SeamModel } from '../things/seam.ts';
import { type Body, bodyOf, type Frame, frameOf, pieceNamed } from './body.ts';
import { type Bond, bondNamed, inWords } from './bonds.ts';
import { type Group, type Lost, planOf } from './plan.ts';
import { sameData } from './seat.ts';

/** Where a copy of a piece is in the frame of its group, and by what it came there. */
export interface Pose {
  /** From its own frame; of a mirrored copy after it was mirrored left and right. */
  readonly motion: Motion;
  readonly mirrored: boolean;
  readonly by: string;
  /** What nobody has said and was taken. */
  readonly assumed?: string;
}

export interface PlacedBody extends Pose {
  readonly body: Body;
}

export interface PlacedGroup {
  readonly root: string;
  /** Whether it is worn: its root fits a wearer. */
  readonly fits: boolean;
  readonly bodies: readonly PlacedBody[];
}

export interface Unplaced {
  readonly piece: PieceModel;
  readonly copy: string;
  readonly why: string;
  /** The seam that would place it if it gave an edge of it too. */
  readonly seam?: SeamModel;
}

/** Every piece of a build with its place, or why it has none. */
export interface Assembly {
  readonly groups: readonly PlacedGroup[];
  readonly unplaced: readonly Unplaced[];
}

/** All poses of a spec. Who looks at one piece or one seam asks for that alone: {@link unitMotion}, `misfitOf`. */
export const assemblyOf = perModel((model: Model): (() => Assembly) =>
  kept(() => {
    const { groups, seatless } = planOf(model);
    return {
      groups: groups.map((group) => placedGroup(model, group)),
      unplaced: [...groups.flatMap(({ lost }) => lost), ...seatless].flatMap((lost) => unplaced(model, lost)),
    };
  }),
);

/** Pieces by the seam that would place them if it gave an edge of both, all by their names. */
export const lostBy = perModel((model: Model) =>
  kept((): ReadonlyMap<string, readonly string[]> => {
    const found = new Map<string, string[]>();
    for (const { seam, piece } of planOf(model).groups.flatMap(({ lost }) => lost))
      if (seam !== undefined && !found.get(seam)?.includes(piece)) found.set(seam, [...(found.get(seam) ?? []), piece]);
    return found;
  }),
);

function unplaced(model: Model, { piece: key, copy, why, seam: seamKey }: Lost): Unplaced[] {
  const piece = pieceNamed(model, key);
  const seam = seamKey === undefined ? undefined : seamNamed(model, seamKey);
  return piece ? [{ piece, copy, why, ...(seam ? { seam } : {}) }] : [];
}

function seamNamed(model: Model, key: string): SeamModel | undefined {
  const named = model.file.find(key);
  return named?.kind === 'seam' && named.file === model.file ? model.seamOf(named) : undefined;
}

/** A group with the poses of its bodies: who looks at one group hangs on that alone. */
export function placedGroup(model: Model, group: Group): PlacedGroup {
  const bodies = group.bodies.flatMap(({ piece: key, copy }): PlacedBody[] => {
    const piece = pieceNamed(model, key);
    const frame = piece && frameOf(piece, copy);
    if (!piece || frame === undefined || typeof frame === 'string') return [];
    const unit = unitMotion(model, frame.unit);
    return unit ? [{ body: bodyOf(piece, copy), ...poseIn(frame, unit, group, model) }] : [];
  });
  return { root: group.root, fits: group.rootBy === 'fits', bodies };
}

function poseIn(frame: Frame, unit: UnitPose, group: Group, model: Model): Pose {
  const { by = unit.by ?? rootWords(group, model), assumed = unit.assumed } = frame;
  return {
    motion: after(unit.motion, frame.motion),
    mirrored: frame.mirrored,
    by,
    ...(assumed === undefined ? {} : { assumed }),
  };
}

function rootWords({ root, rootBy }: Group, model: Model): string {
  if (rootBy === 'alone') return 'stands alone';
  if (rootBy === 'area') return 'the largest piece of its group';
  const piece = pieceNamed(model, root.split('|')[0]!);
  const fit = piece && fitOf(piece);
  return fit ? say`fits ${fit.wearer.name} ${fit.region}` : 'the piece that fits the wearer';
}

/** Where a unit is in the frame of its group, and by which seam; the root by none. */
export interface UnitPose {
  readonly motion: Motion;
  readonly by?: string;
  readonly assumed?: string;
}

/** Of a unit by its id; nothing for one without a place. Kept by itself, so that an edit moves what hangs on it and no more. */
export const unitMotion = (model: Model, unit: string): UnitPose | undefined => unitPoses(model)(unit);

const unitPoses = perModel((model: Model) => {
  // The right copy of a pair is a unit of its own, with the same section.
  const [plain, right] = [
    model.eachSection<UnitPose | undefined>(sameData, 'pose'),
    model.eachSection<UnitPose | undefined>(sameData, 'pose'),
  ];
  const get = (unit: string): UnitPose | undefined => {
    const section = sectionOf(model, unit);
    return section && (unit.endsWith('|right') ? right : plain).get(section, () => poseOfUnit(model, unit));
  };
  return () => get;
});

const sectionOf = (model: Model, unit: string): Section | undefined =>
  pieceNamed(model, unit.split('|')[0]!)?.named.section;

/** Which group a unit is in; kept, since every pose asks. */
export const groupOf = perModel((model: Model) =>
  kept((): ReadonlyMap<string, Group> => {
    const found = new Map<string, Group>();
    for (const group of planOf(model).groups) for (const { unit } of group.units) found.set(unit, group);
    return found;
  }),
);

function poseOfUnit(model: Model, unit: string): UnitPose | undefined {
  const group = groupOf(model).get(unit);
  if (!group) return undefined;
  if (unit === group.root) return { motion: AT_REST };
  if (group.isRing && group.units.length <= MOST_BALANCED) return ringPoses(model)(group.root)?.get(unit);
  return treePose(model, group, unit, (parent) => unitMotion(model, parent)?.motion);
}

/** More things than this in one ring are left as the tree of their seams has them. */
const MOST_BALANCED = 60;

function treePose(
  model: Model,
  group: Group,
  unit: string,
  motionOf: (unit: string) => Motion | undefined,
): UnitPose | undefined {
  const by = group.units.find((each) => each.unit === unit)?.by;
  const bond = by && bondNamed(model, by.seam);
  const link = by && bond?.links[by.nth];
  const parent = by && motionOf(by.parent);
  if (!by || !bond || !link || !parent) return undefined;
  const step = by.parent === by.one ? link.motion : undone(link.motion);
  const { assumed } = link;
  return { motion: after(parent, step), by: inWords([bond]), ...(assumed ? { assumed } : {}) };
}

/** The poses of a group whose seams say more than enough: all at once. */
const ringPoses = perModel((model: Model) => {
  const each = model.eachSection<ReadonlyMap<string, UnitPose> | undefined>(undefined, 'ring');
  const get = (root: string) => {
    const section = sectionOf(model, root);
    return section && each.get(section, () => balancedGroup(model, root));
  };
  return () => get;
});

function balancedGroup(model: Model, root: string): ReadonlyMap<string, UnitPose> | undefined {
  const group = groupOf(model).get(root);
  if (!group) return undefined;
  const start = new Map<string, Motion>([[root, AT_REST]]);
  for (const { unit } of group.units.slice(1)) {
    const pose = treePose(model, group, unit, (parent) => start.get(parent));
    if (!pose) return undefined;
    start.set(unit, pose.motion);
  }
  const index = new Map([...start.keys()].map((unit, i) => [unit, i]));
  const bonds: Bond[] = [];
  const ties = group.ties.flatMap(({ seam: key, nth, one, other }): Tie[] => {
    const bond = bondNamed(model, key);
    const link = bond?.links[nth];
    const [a, b] = [index.get(one), index.get(other)];
    if (!bond || !link || a === undefined || b === undefined) return [];
    bonds.push(bond);
    // The pairs of a link go from the other piece to the first.
    return [{ one: b, other: a, pairs: link.pairs }];
  });
  const motions = atOnce(balancedInSteps([...start.values()], ties));
  const by = inWords(bonds);
  return new Map([...index].map(([unit, i]) => [unit, { motion: motions[i]!, ...(i === 0 ? {} : { by }) }]));
}
