import { moved } from '../../geometry/motion/motion.ts';
import { cross, minus, plus, size, type Vector } from '../../geometry/surface/vector.ts';
import { centreOf } from '../figures/plate-centre.ts';
import type { PlacedBody } from './pose.ts';
import { type Shape, shapeOf } from './shape.ts';

/** The middle of a placed plate's area in the frame of its group, where its mass lies if it is even in thickness; nothing without a shape. */
export function placedCentre({ body: { piece }, motion, mirrored }: PlacedBody): Vector | undefined {
  const shape = centreOf(piece) ? undefined : shapeOf(piece);
  const own = centreOf(piece) ?? (shape && middleOfArea(shape));
  return own && moved(motion, mirrored ? [-own[0], own[1], own[2]] : own);
}

/** Of a flat plate: exact. */
function middleOfArea({ positions, triangles }: Shape): Vector | undefined {
  const corner = (i: number): Vector => {
    const at = 3 * triangles[i]!;
    return [positions[at]!, positions[at + 1]!, positions[at + 2]!];
  };
  let [whole, sum]: [number, Vector] = [0, [0, 0, 0]];
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [corner(i), corner(i + 1), corner(i + 2)];
    const area = size(cross(minus(b, a), minus(c, a)));
    whole += area;
    for (const each of [a, b, c]) sum = plus(sum, each, area / 3);
  }
  return whole > 0 ? [sum[0] / whole, sum[1] / whole, sum[2] / whole] : undefined;
}

/** Where the whole of some placed plates balances, with what has no mass or no place in it left out by name. */
export function centreOfAll(
  bodies: readonly PlacedBody[],
): { readonly at: Vector; readonly mass: number; readonly without: readonly string[] } | undefined {
  let [mass, sum]: [number, Vector] = [0, [0, 0, 0]];
  const without = new Set<string>();
  for (const placed of bodies) {
    const own = placed.body.piece.figure('mass')?.value;
    const at = own === undefined ? undefined : placedCentre(placed);
    if (own === undefined || !at) {
      without.add(placed.body.piece.name);
      continue;
    }
    mass += own;
    sum = plus(sum, at, own);
  }
  return mass > 0 ? { at: [sum[0] / mass, sum[1] / mass, sum[2] / mass], mass, without: [...without] } : undefined;
}
