import { plus, type Vector } from '../../geometry/surface/vector.ts';
import { type Field, fieldInSteps, type Screen } from '../../geometry/view/field.ts';
import { kept } from '../../incremental/memo.ts';
import { Dear } from '../../incremental/steps.ts';
import { pupils } from '../../trade/fit/head.ts';
import { BARE, DEEP_EYES } from '../../trade/fit/view.ts';
import { holesStanding } from '../figures/rows.ts';
import { perModel } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import { placeIn } from './body.ts';
import { type HeadIn, headsIn } from './head.ts';
import type { PlacedBody } from './pose.ts';
import { shapeOf } from './shape.ts';
import { solidOf } from './solid.ts';

/* What a wearer sees past the placed plates and through their slots and holes. */

export interface Sight {
  readonly head: HeadIn;
  /** With the eyes at the brow, and so much deeper. */
  readonly near: Field;
  readonly deep: Field;
}

/** Of every head that stands in a helm. */
export const sights = perModel((model: Model): (() => readonly Sight[]) =>
  kept(() => headsIn(model).map((head) => ({ head, near: fieldOf(head, 0), deep: fieldOf(head, DEEP_EYES) }))),
);

/** The last fields, by all that they hang on. */
const fields = new Dear<Field>(32);
/** So many holes of one plate are looked through. */
const MOST_HOLES = 100;

function fieldOf({ bodies, at, measures }: HeadIn, behind: number): Field {
  const [left, right] = pupils(measures, behind).map((eye) => plus(at, eye)) as [Vector, Vector];
  const plates = bodies.flatMap((placed) => {
    const [solid, shape] = [solidOf(placed), shapeOf(placed.body.piece)];
    return solid && shape ? [{ placed, solid, shape, holes: holesIn(placed) }] : [];
  });
  const key = JSON.stringify([
    left,
    right,
    plates.map(({ solid: { id, half, motion }, holes }) => [id, half, motion, holes]),
  ]);
  return fields.get(key, () =>
    fieldInSteps(
      [left, right],
      plates.map(({ placed, shape, solid, holes }): Screen => {
        const { positions, triangles } = shape;
        const standing = new Float64Array(positions.length);
        for (let i = 0; i < positions.length; i += 3)
          standing.set(placeIn(placed, [positions[i]!, positions[i + 1]!, positions[i + 2]!]), i);
        return { positions: standing, triangles, thickness: 2 * solid.half, holes };
      }),
      BARE,
    ),
  );
}

const holesIn = (placed: PlacedBody): Screen['holes'] =>
  holesStanding(placed.body.piece, MOST_HOLES).map(({ spine, radius }) => ({
    spine: spine.map((point) => placeIn(placed, point)),
    radius,
  }));
