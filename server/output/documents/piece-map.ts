import type { Refusal } from '../../geometry/flatten/flatten.ts';
import type { Cut } from '../../geometry/flatten/seams.ts';
import { cutsTried, layFlat } from '../../model/shapes/flattening.ts';
import type { PieceModel } from '../../model/things/piece.ts';
import { inUnits } from '../../model/values/prose.ts';
import { type System, trim } from '../../model/values/show.ts';
import type { StrainMap } from './strain-map.ts';

/** The map of a piece, or why there is none. */
export function pieceMap(piece: PieceModel, system: System): StrainMap | Refusal {
  const thickness = piece.thickness();
  const laid = layFlat(piece);
  if (thickness === undefined) return { refused: 'the thickness of its sheet is not known' };
  if (!laid) return { refused: 'it has no formed surface' };
  if ('refused' in laid) return laid;
  const { flat, readings } = laid;
  const allowed = piece.material()?.metal()?.strainBeforeAnneal.value;
  const title = `${piece.name}, laid flat`;
  // What cannot be told apart from nothing where it is shown.
  if (readings.strain < 0.0005)
    return { flat, thickness, title, system, notes: ['It rolls out flat: nothing stretches and nothing shrinks.'] };
  const [best] = allowed !== undefined && readings.strain > allowed ? cutsTried(piece) : [];
  return {
    flat,
    thickness,
    title,
    system,
    notes: [
      inUnits(`Reckoned as ${flat.way.name}: ${flat.way.source}.`, system),
      `19/20 of the plate strain less than ${trim(readings.strain, 2)}${allowed === undefined ? '' : `; an anneal is due at ${trim(allowed, 2)}`}.`,
      ...(best && best.strain < readings.strain
        ? [`${cutInWords(best)} would bring that down to ${trim(best.strain, 2)}.`]
        : []),
    ],
  };
}

/** `A split along the middle`, `A dart along the front`. */
function cutInWords({ kind, line, half }: Cut): string {
  return `A ${kind} along ${half ? `half of the ${line}` : `the ${line}`}`;
}
