import type { Place } from '../../../grammar/tree.ts';
import type { LineReading } from '../../model/names/line-reading.ts';
import { orders } from '../../model/operations/orders.ts';
import { isHotFinish } from '../../model/operations/steps.ts';
import { ofModel } from '../../model/per-spec.ts';
import type { Finish, Model } from '../../model/spec.ts';
import type { PieceModel } from '../../model/things/piece.ts';
import type { RivetModel } from '../../model/things/rivet.ts';
import type { SeamModel } from '../../model/things/seam.ts';
import { finishes, pieces, seams } from './things.ts';
import { placeIn, placeOf } from './writing.ts';

/* Every step of a spec that makes metal hot, and what gets hot with it. */

export interface HotStep {
  readonly kind: 'anneal' | 'harden' | 'temper' | 'weld' | 'solder' | 'blue' | 'blacken';
  readonly line: LineReading;
  readonly place: Place;
  readonly pieces: readonly PieceModel[];
  readonly rivets: readonly RivetModel[];
}

/** Every hot step of a spec: of its pieces, then of its seams, then of its finishes. */
export const hotSteps = ofModel((model): readonly HotStep[] => [
  ...ofPieces(model),
  ...ofSeams(model),
  ...ofFinishes(model),
  ...ofOrders(model),
]);

/** Hot work that only an order names: what the piece itself says is told there. */
const ofOrders = (model: Model): HotStep[] =>
  orders(model)
    .flat()
    .flatMap(({ line, filled, named, operation }): HotStep[] => {
      const kind = HOT.find((each) => each === operation);
      if (!kind || named?.kind !== 'piece') return [];
      const piece = model.pieceOf(named);
      const isSaid = piece.lines().some(({ id }) => id === kind);
      return isSaid ? [] : [{ kind, line, place: placeOf(line, filled), pieces: [piece], rivets: [] }];
    });
const HOT = ['anneal', 'harden', 'temper', 'weld', 'solder'] as const;

export const hotStepsOfPiece = (piece: PieceModel): HotStep[] =>
  piece.lines().flatMap((line): HotStep[] => {
    const { id } = line;
    return id === 'anneal' || id === 'harden' || id === 'temper'
      ? [{ kind: id, line, place: placeIn(piece, line), pieces: [piece], rivets: [] }]
      : [];
  });

export function hotStepsOfSeam(seam: SeamModel): HotStep[] {
  const line = seam.line('weld') ?? seam.line('solder');
  if (!line) return [];
  const pieces = seam.stacks().flatMap((stack) => stack.layers.flatMap((layer) => layer.piece ?? []));
  const kind = line.id as 'weld' | 'solder';
  return [{ kind, line, place: line.place, pieces: [...new Set(pieces)], rivets: [] }];
}

export function hotStepsOfFinish(finish: Finish, model: Model): HotStep[] {
  const hot = finish.steps.filter(isHotFinish);
  if (!hot.length) return [];
  const named = finish.on.flatMap((each) => each.named ?? []);
  const pieces = named.flatMap((each) => (each.kind === 'piece' ? [model.pieceOf(each)] : []));
  const rivets = named.flatMap((each) => (each.kind === 'rivet' ? [model.rivetOf(each)] : []));
  return hot.map((line) => ({ kind: line.id as 'blue' | 'blacken', line, place: line.place, pieces, rivets }));
}

const ofPieces = pieces.list(hotStepsOfPiece);
const ofSeams = seams.list(hotStepsOfSeam);
const ofFinishes = finishes.list(hotStepsOfFinish);
