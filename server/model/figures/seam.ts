import { holeFor } from '../../trade/rivet/rivet.ts';
import { addMisfit, MISFIT } from '../assembly/misfit.ts';
import type { Layer, SeamModel } from '../things/seam.ts';
import type { Figure } from '../values/figure.ts';
import { FigureSet } from '../values/figure-set.ts';
import { CUT } from '../values/show.ts';
import { addJoining, JOINING } from './joining.ts';

/** Every figure of a seam. */
export const seamFigures = (seam: SeamModel): FigureSet =>
  lengthsAndStacks(seam)
    .and(JOINING, (set) => addJoining(seam, set))
    .and(MISFIT, (set) => addMisfit(seam, set));

function lengthsAndStacks(seam: SeamModel): FigureSet {
  const set = new FigureSet(`seam ${seam.name}`, seam.name);
  const length = seam.length();
  const along = seam.along()[0];
  if (length && along)
    set.add('length', 'length of the seam', length, along.line.place, [`${along.piece.name}.${along.edge}.length`]);
  const line = seam.rivetsLine();
  if (!line) return set;
  const { place } = line;
  const count = seam.rivetCount();
  if (count) set.add('rivets', 'rivets in one row', count, place, length ? [`${seam.name}.length`] : []);
  const pitch = seam.pitch();
  if (pitch) set.add('pitch', 'from rivet to rivet', pitch, place, [`${seam.name}.length`, `${seam.name}.rivets`]);
  for (const [i, stack] of seam.stacks().entries()) {
    const suffix = i === 0 ? '' : `-${i + 1}`;
    const inputs = stack.layers.flatMap((layer) => (layer.piece ? [inputOf(layer)] : []));
    if (stack.total) set.add(`stack${suffix}`, 'stack that the shank passes', stack.total, stack.line.place, inputs);
    if (stack.needed)
      set.add(
        `rivet-length${suffix}`,
        'rivet length needed',
        stack.needed,
        place,
        [`${seam.name}.stack${suffix}`, `${seam.rivet()!.name}.shank`],
        CUT,
      );
  }
  const size = seam.rivet()?.size();
  if (size) set.add('hole', 'hole for the rivet', holeFor(size.shank), place, [`${seam.rivet()!.name}.shank`]);
  return set;
}

function inputOf(layer: Layer): string {
  const thickness = layer.thickness as Partial<Figure> | undefined;
  return thickness?.name ?? `${layer.piece!.material()?.name ?? layer.name}.thickness`;
}
