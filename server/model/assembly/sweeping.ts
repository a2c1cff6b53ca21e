import { after, moved, turned, undone } from '../../geometry/motion/motion.ts';
import { nearestBetween } from '../../geometry/motion/nearest.ts';
import {
  type Axis,
  clearOf,
  type Encounter,
  reachAbout,
  type Swept,
  sweptInSteps,
} from '../../geometry/motion/sweep.ts';
import { MeshTree } from '../../geometry/motion/tree.ts';
import { Dear, pause } from '../../incremental/steps.ts';
import type { Model } from '../spec.ts';
import type { PieceModel } from '../things/piece.ts';
import { bodyName, pieceNamed } from './body.ts';
import { bondNamed } from './bonds.ts';
import { type Group, listed, type PlannedBody } from './plan.ts';
import { type PlacedBody, placedGroup } from './pose.ts';
import { seatOf } from './seat.ts';
import { type Solid, solidOf } from './solid.ts';

/* What turns with a plate about a line, what stands still, and what of the two could meet. Of hinges, and of what swings on pivots. */

/** Where a swing ends, and what it meets there. */
export interface End {
  /** Degrees. */
  readonly angle: number;
  readonly meets?: string;
}

export interface Parts {
  readonly still: readonly PlacedBody[];
  readonly turning: readonly PlacedBody[];
}

/**
 * What of a group goes along with a plate when it turns, and what stays with another: through everything that holds plates together
 * but the bond that is `cut`; where the way round leads back to what stays, through seams alone. Nothing where it does so still.
 */
export function partsOf(
  model: Model,
  group: Group,
  { turns, stays, cut }: { readonly turns: PlannedPlate; readonly stays: PlannedPlate; readonly cut: string },
): Parts | undefined {
  const edges = edgesOf(model, group);
  const isSeam = (bond: string) => model.file.find(bond)?.kind === 'seam';
  // A plate that lies on the other by its own form swings on it all the same.
  const isOwn = ({ one, other }: BodyEdge) =>
    (isPlate(one, turns) && isPlate(other, stays)) || (isPlate(one, stays) && isPlate(other, turns));
  const from = group.bodies.filter((body) => isPlate(body, turns)).map(({ id }) => id);
  const goes = [() => true, isSeam]
    .map((isKept) =>
      reached(
        edges.filter((edge) => (edge.bond === undefined ? !isOwn(edge) : edge.bond !== cut && isKept(edge.bond))),
        from,
      ),
    )
    .find((ids) => !group.bodies.some((body) => isPlate(body, stays) && ids.has(body.id)));
  if (!goes?.size) return undefined;
  const placed = placedGroup(model, group).bodies;
  return {
    turning: placed.filter(({ body }) => goes.has(body.id)),
    still: placed.filter(({ body }) => !goes.has(body.id)),
  };
}

/** A piece of a unit of a group: of a pair on either side there is one in each. */
export interface PlannedPlate {
  readonly piece: string;
  readonly unit: string;
}

const isPlate = (body: PlannedPlate, plate: PlannedPlate): boolean =>
  body.piece === plate.piece && body.unit === plate.unit;

/** Two plates that stand still to each other: by a bond, or by their own forms. */
interface BodyEdge {
  readonly one: PlannedBody;
  readonly other: PlannedBody;
  readonly bond?: string;
}

function edgesOf(model: Model, group: Group): BodyEdge[] {
  const inUnit = listed(group.bodies, ({ unit }) => [unit]);
  const bodiesOf = (unit: string, piece: PieceModel) =>
    (inUnit.get(unit) ?? []).filter((body) => body.piece === piece.named.word.key);
  const byForm = [...inUnit.values()].flatMap((bodies) =>
    bodies.flatMap((one): BodyEdge[] => {
      const piece = pieceNamed(model, one.piece);
      const seat = piece && seatOf(piece);
      const neighbour = seat?.kind === 'on' ? seat.neighbour : undefined;
      return bodies
        .filter((other) => other !== one && (other.piece === neighbour || other.piece === one.piece))
        .map((other) => ({ one, other }));
    }),
  );
  const byBonds = group.ties.flatMap(({ seam: bond, nth }): BodyEdge[] => {
    const link = bondNamed(model, bond)?.links[nth];
    if (!link) return [];
    const [ones, others] = [link.one, link.other].map(({ unit, piece }) => bodiesOf(unit, piece)) as [
      PlannedBody[],
      PlannedBody[],
    ];
    return ones.flatMap((one) => others.map((other) => ({ one, other, bond })));
  });
  return [...byForm, ...byBonds];
}

function reached(edges: readonly BodyEdge[], from: readonly string[]): ReadonlySet<string> {
  const beside = new Map<string, string[]>();
  for (const { one, other } of edges)
    for (const [a, b] of [
      [one.id, other.id],
      [other.id, one.id],
    ] as const)
      beside.set(a, [...(beside.get(a) ?? []), b]);
  const found = new Set(from);
  for (const id of found) for (const next of beside.get(id) ?? []) found.add(next);
  return found;
}

export interface Meeting extends Encounter {
  readonly names: readonly [still: string, turning: string];
  readonly pieces: readonly [PieceModel, PieceModel];
  /** How far apart the middles are where the faces touch, mm: `touching` is less where they may press into each other. */
  readonly faces: number;
  /** Whether they run through each other as they stand: then what meets what as they turn says nothing. */
  readonly isThrough: boolean;
  /** All that it hangs on. */
  readonly key: string;
}

/** Every two plates that could meet, without what lies so near to the line, mm, that it is the pin's own; they spring by `give`. */
export function meetingsOf({ still, turning }: Parts, axis: Axis, radius: number, give = 0): Meeting[] {
  const parts = (bodies: readonly PlacedBody[]) =>
    bodies.flatMap((placed) => {
      const solid = solidOf(placed);
      if (!solid) return [];
      const own: Axis = {
        point: moved(undone(solid.motion), axis.point),
        along: turned(undone(solid.motion), axis.along),
      };
      const tree = freeOf(solid, own, radius);
      return [{ placed, solid, tree, reach: reachAbout(own, tree) }];
    });
  const others = parts(turning);
  return parts(still).flatMap((one) =>
    others.flatMap((other): Meeting[] => {
      const touching = one.solid.half + other.solid.half;
      const isNear = (['away', 'along'] as const).every(
        (of) => one.reach[of][0] <= other.reach[of][1] + touching && other.reach[of][0] <= one.reach[of][1] + touching,
      );
      if (!isNear) return [];
      const motion = after(undone(one.solid.motion), other.solid.motion);
      const near = nearestBetween(one.tree, other.tree, motion, { within: touching + RUBS });
      // What lies on each other as it stands may go on to do so.
      const free = Math.min(touching - give, near ? near.apart - RUBS : touching);
      return [
        {
          still: one.tree,
          stillAt: one.solid.motion,
          turning: other.tree,
          turningAt: other.solid.motion,
          touching: Math.max(free, LEAST),
          faces: touching,
          isThrough: near !== undefined && near.apart < touching / 2,
          names: [bodyName(one.placed.body), bodyName(other.placed.body)],
          pieces: [one.placed.body.piece, other.placed.body.piece],
          key: JSON.stringify([one.solid.id, one.solid.motion, other.solid.id, other.solid.motion, axis, radius]),
        },
      ];
    }),
  );
}

/** What triangles in place of curves may hide, mm. */
const RUBS = 0.3;
const LEAST = 1e-6;

const free = new WeakMap<MeshTree, Map<string, MeshTree>>();

function freeOf({ tree }: Solid, axis: Axis, radius: number): MeshTree {
  const key = JSON.stringify([axis, radius]);
  const known = free.get(tree) ?? new Map<string, MeshTree>();
  free.set(tree, known);
  let found = known.get(key);
  if (!found) {
    const isNear = reachAbout(axis, tree).away[0] < radius;
    const { positions, triangles } = isNear
      ? clearOf({ positions: tree.positions, triangles: tree.corners }, axis, radius)
      : NO_MESH;
    found = isNear ? new MeshTree(positions, triangles) : tree;
    known.clear();
    known.set(key, found);
    pause();
  }
  return found;
}
const NO_MESH = { positions: new Float64Array(), triangles: new Uint32Array() };

/** The last sweeps, by all that they hang on. */
const sweeps = new Dear<Swept>(64);

export const sweep = (axis: Axis, all: readonly Meeting[], from: number, to: number, wants: 'stop' | 'least') =>
  sweeps.get(JSON.stringify([all.map(({ key, touching }) => [key, touching]), from, to, wants]), () =>
    sweptInSteps(axis, all, from, to, wants),
  );
