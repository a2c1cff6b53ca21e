import { knuckleDevelopment } from '../../trade/hinge/hinge.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { homeOf } from '../spec.ts';
import type { HingeModel } from '../things/hinge.ts';
import type { PieceModel } from '../things/piece.ts';

/** What the knuckles of a hinge take of one of its leaves, beyond the line where their curl begins. */
export interface Knuckles {
  readonly hinge: HingeModel;
  readonly edge: string;
  readonly development: Result;
}

/** The knuckles at the straight edges of a piece: a curved one cannot be a hinge's. */
export function knucklesOf(piece: PieceModel): readonly Knuckles[] {
  const thickness = piece.thickness();
  if (!piece.form() || thickness === undefined || piece.material()?.kind() !== 'sheet') return [];
  return homeOf(piece)
    .hinges()
    .flatMap((hinge) => {
      const pin = hinge.pin()?.thickness();
      if (!pin) return [];
      const edges = new Set(hinge.leaves().flatMap((leaf) => (leaf.piece === piece ? [leaf.edge] : [])));
      return [...edges]
        .filter((edge) => SIDES.has(edge) && piece.edgeNames().includes(edge) && piece.isStraightEdge(edge))
        .map((edge) => ({ hinge, edge, development: knuckleDevelopment({ pin: pin.value, thickness }) }));
    });
}

const SIDES: ReadonlySet<string> = new Set(['top', 'bottom', 'left', 'right']);
