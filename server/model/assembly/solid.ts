import { type Motion, moved } from '../../geometry/motion/motion.ts';
import { type Mesh, MeshTree } from '../../geometry/motion/tree.ts';
import type { Vector } from '../../geometry/surface/vector.ts';
import { pause } from '../../incremental/steps.ts';
import { ofThing } from '../per-spec.ts';
import type { PlacedBody } from './pose.ts';
import { sameData } from './seat.ts';
import { type Shape, shapeOf } from './shape.ts';

/*
 * What a placed plate is to one that could meet it: its middle as a tree of triangles, where it stands, and how thick it is.
 */

export interface Solid {
  readonly tree: MeshTree;
  readonly motion: Motion;
  /** Half its thickness, mm. */
  readonly half: number;
  /** A number for the mesh: the same one for the same mesh. */
  readonly id: number;
}

/** Nothing for a piece without a shape. */
export function solidOf({ body: { piece }, motion, mirrored }: PlacedBody): Solid | undefined {
  const shape = shapeOf(piece);
  if (!shape?.triangles.length) return undefined;
  const solid = { ...treesOf(shape)[mirrored ? 'mirrored' : 'plain'](), motion, half: (piece.thickness() ?? 0) / 2 };
  // The tree is kept: a build may have dozens.
  pause();
  return solid;
}

type Kept = Pick<Solid, 'tree' | 'id'>;

/** Dear arithmetic on plain numbers: kept as long as the mesh is. */
const trees = new WeakMap<Float64Array, { plain(): Kept; mirrored(): Kept }>();
let made = 0;

function treesOf({ positions, triangles }: Shape) {
  let found = trees.get(positions);
  if (!found) {
    const [id, other] = [made + 1, made + 2];
    made += 2;
    let [plain, mirrored]: (Kept | undefined)[] = [];
    found = {
      plain: () => {
        plain ??= { tree: new MeshTree(positions, triangles), id };
        return plain;
      },
      mirrored: () => {
        if (mirrored) return mirrored;
        const flipped = mirrorOf({ positions, triangles });
        mirrored = { tree: new MeshTree(flipped.positions, flipped.triangles), id: other };
        return mirrored;
      },
    };
    trees.set(positions, found);
  }
  return found;
}

/** Left and right changed, its triangles turned so that they look outward again. */
function mirrorOf({ positions, triangles }: Mesh): Mesh {
  return {
    positions: positions.map((x, i) => (i % 3 ? x : -x)),
    triangles: triangles.map((_, i, all) => all[i - (i % 3) + ((3 - (i % 3)) % 3)]!),
  };
}

/** Least and greatest x, y and z of a piece's middle in its own frame. */
type Extent = readonly [least: Vector, most: Vector];

const extentIn = ofThing(
  'piece',
  undefined,
  (piece) => {
    const positions = shapeOf(piece)?.positions;
    return positions?.length ? extentOf(positions) : undefined;
  },
  { same: sameData },
);

function extentOf(positions: Float64Array): Extent {
  const [least, most] = [
    [Infinity, Infinity, Infinity],
    [-Infinity, -Infinity, -Infinity],
  ];
  for (let i = 0; i < positions.length; i++) {
    least[i % 3] = Math.min(least[i % 3]!, positions[i]!);
    most[i % 3] = Math.max(most[i % 3]!, positions[i]!);
  }
  return [least, most] as unknown as Extent;
}

/** A box in the frame of the group. */
export interface Room {
  readonly middle: Vector;
  readonly half: Vector;
}

/** A box round a placed plate, its faces with it; kept small, so that plates that are far apart are never meshed anew. */
export function roomOf({ body: { piece }, motion, mirrored }: PlacedBody): Room | undefined {
  const extent = extentIn(piece);
  if (!extent) return undefined;
  const [least, most] = extent;
  const own = [0, 1, 2].map((k) => (least[k]! + most[k]!) / 2) as unknown as Vector;
  const size = [0, 1, 2].map((k) => (most[k]! - least[k]!) / 2);
  const faces = (piece.thickness() ?? 0) / 2;
  const half = motion.turn.map(
    (row) => Math.abs(row[0]) * size[0]! + Math.abs(row[1]) * size[1]! + Math.abs(row[2]) * size[2]! + faces,
  ) as unknown as Vector;
  return { middle: moved(motion, [mirrored ? -own[0] : own[0], own[1], own[2]]), half };
}

export const meet = (a: Room, b: Room, by = 0): boolean =>
  a.middle.every((x, k) => Math.abs(x - b.middle[k]!) <= a.half[k]! + b.half[k]! + by);
