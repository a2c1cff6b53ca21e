import type { Place } from '../../grammar/tree.ts';
import type { RivetModel } from '../model/fastener.ts';
import type { Model } from '../model/model.ts';
import type { PieceModel } from '../model/piece.ts';
import type { LineReading } from '../model/reading.ts';
import { placeIn } from './writing.ts';

/* Every step of a spec that makes metal hot, and what gets hot with it. */

export interface HotStep {
  readonly kind: 'anneal' | 'harden' | 'temper' | 'weld' | 'solder' | 'blue' | 'blacken';
  readonly line: LineReading;
  readonly place: Place;
  readonly pieces: readonly PieceModel[];
  readonly rivets: readonly RivetModel[];
}

export function hotSteps(model: Model): readonly HotStep[] {
  let steps = stepsOf.get(model);
  if (!steps) {
    steps = find(model);
    stepsOf.set(model, steps);
  }
  return steps;
}
const stepsOf = new WeakMap<Model, readonly HotStep[]>();

/** Steps of a finish that are done by heat. */
export const isHotFinish = (step: LineReading): boolean =>
  step.id === 'blue' || (step.id === 'blacken' && step.has('hot'));

function find(model: Model): HotStep[] {
  const steps: HotStep[] = [];
  for (const piece of model.pieces()) {
    for (const line of piece.lines()) {
      const { id } = line;
      if (id === 'anneal' || id === 'harden' || id === 'temper')
        steps.push({ kind: id, line, place: placeIn(piece, line), pieces: [piece], rivets: [] });
    }
  }
  for (const seam of model.seams()) {
    const line = seam.line('weld') ?? seam.line('solder');
    if (!line) continue;
    const pieces = seam.stacks().flatMap((stack) => stack.layers.flatMap((layer) => layer.piece ?? []));
    steps.push({
      kind: line.id as 'weld' | 'solder',
      line,
      place: line.place,
      pieces: [...new Set(pieces)],
      rivets: [],
    });
  }
  for (const finish of model.finishes()) {
    const hot = finish.steps.filter(isHotFinish);
    if (!hot.length) continue;
    const named = finish.on.flatMap((each) => each.named ?? []);
    const pieces = named.flatMap((each) => (each.kind === 'piece' ? [model.pieceOf(each)] : []));
    const rivets = named.flatMap((each) => (each.kind === 'rivet' ? [model.rivetOf(each)] : []));
    for (const line of hot)
      steps.push({ kind: line.id as 'blue' | 'blacken', line, place: line.place, pieces, rivets });
  }
  return steps;
}
