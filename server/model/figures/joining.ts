import { inARow } from '../../../l10n/say.ts';
import { ends, intervalOf } from '../../trade/reckoning/interval.ts';
import { fromSpec } from '../../trade/reckoning/readings.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import {
  burrDiameter,
  countersinkDepth,
  drillFor,
  edgeDistance,
  flushLeastThickness,
  holeFor,
  jointStrength,
  softEdgeDistance,
} from '../../trade/rivet/rivet.ts';
import { homeOf } from '../spec.ts';
import type { Layer, SeamModel, Stack } from '../things/seam.ts';
import type { FigureSet } from '../values/figure-set.ts';

/* What riveting asks besides the length: drill, punch, sink, washer, distance from the edge; and what it carries. */

export const JOINING =
  /^(drill|punch|countersink|countersink-least|edge-distance|edge-distance-least|washer|strength|strength-.*)$/;

export function addJoining(seam: SeamModel, set: FigureSet): void {
  const line = seam.rivetsLine();
  const rivet = seam.rivet();
  const size = rivet?.size();
  if (!line || !rivet || !size) return;
  const { place } = line;
  const { shank } = size;
  const shankName = `${rivet.name}.shank`;
  const hole = holeFor(shank);
  set.add('drill', 'drill for the rivet', drillFor(hole), place, [`${seam.name}.hole`]);
  const punch = punchFor(seam, shank, hole);
  if (punch) set.add('punch', 'punch of the shop that fits', punch, place, [`${seam.name}.hole`]);
  if (seam.head() === 'flush' || rivet.head() === 'countersunk') {
    set.add('countersink', 'depth of the sink', countersinkDepth(shank), place, [shankName]);
    set.add('countersink-least', 'thinnest plate to sink it in', flushLeastThickness(shank), place, [shankName]);
  }
  const inset = seam.inset();
  const layers = seam.stacks().flatMap((stack) => stack.layers);
  if (inset !== undefined && inset > 0)
    set.add('edge-distance', 'from the middle of a rivet to the edge', fromSpec(inset, 'mm', 'e'), place, []);
  const least = layers.some((layer) => layer.soft) ? softEdgeDistance(shank) : edgeDistance(shank).least;
  set.add('edge-distance-least', 'least from the middle of a rivet to the edge', least, place, [shankName]);
  if (seam.stacks().some((stack) => outerIsSoft(stack)) || seam.washer())
    set.add('washer', 'washer or burr, across', burrDiameter(shank), place, [shankName]);
  addStrength(seam, set, hole);
}

const outerIsSoft = ({ layers }: Stack): boolean => Boolean(layers[0]?.soft || layers[layers.length - 1]?.soft);

/** A punch as wide as the shank or a little wider than the drilled hole may be. */
function punchFor(seam: SeamModel, shank: number, hole: Result): Result | undefined {
  const sizes = homeOf(seam).shopLine('punch')?.measures('length', 'sizes') ?? [];
  const size = sizes
    .filter((each) => each >= shank && each <= (hole.high ?? hole.value) + 0.15)
    .sort((a, b) => a - b)[0];
  return size === undefined
    ? undefined
    : { ...fromSpec(size, 'mm', 'punch'), note: 'Punch flat and before forming; deburr the back.' };
}

/** What one rivet carries where it holds metal to metal, for work that is struck or played in. */
function addStrength(seam: SeamModel, set: FigureSet, hole: Result): void {
  const duty = homeOf(seam).duty();
  if (duty !== 'stage' && duty !== 'contact') return;
  const rivet = seam.rivet();
  const size = rivet?.size();
  const metal = rivet?.metal();
  const pitch = set.get('pitch');
  const edge = seam.inset();
  const line = seam.rivetsLine();
  if (!rivet || !size || !metal || !pitch || edge === undefined || !line) return;
  const ways = new Map<string, Result>();
  for (const stack of seam.stacks()) {
    const plates = stack.layers.flatMap((layer) => plateOf(layer) ?? []);
    if (plates.length < 2) continue;
    const at = (end: 'value' | 'low' | 'high') =>
      jointStrength({
        shank: size.shank,
        thickness: plates.map(({ thickness }) => intervalOf(thickness)[end]),
        tensile: plates.map(({ tensile }) => intervalOf(tensile)[end]),
        shear: intervalOf(metal.shear)[end],
        pitch: pitch.value,
        edge,
        hole: hole.value,
      });
    const [now, weak, strong] = [at('value'), at('low'), at('high')];
    for (const [way, suffix] of WAYS) {
      const made = now[way];
      const have = ways.get(suffix);
      if (have && have.value <= made.value) continue;
      const range = ends({
        value: made.value,
        low: Math.min(made.value, weak[way].low ?? weak[way].value),
        high: Math.max(made.value, strong[way].high ?? strong[way].value),
      });
      ways.set(suffix, { ...made, ...range });
    }
  }
  const inputs = [pitch.name, `${rivet.name}.shank`];
  for (const [, suffix, title] of WAYS) {
    const made = ways.get(suffix);
    if (made) set.add(suffix, title, { ...made, note: inARow(made.note, PROMISE) }, line.place, inputs);
  }
}

const PROMISE = 'A figure to compare seams by, never a promise of protection.';

const WAYS = [
  ['governing', 'strength', 'what one rivet carries'],
  ['shear', 'strength-shear', 'until the rivet shears'],
  ['bearing', 'strength-bearing', 'until the plate is crushed behind it'],
  ['tearing', 'strength-tearing', 'until the plate tears from hole to hole'],
  ['shearOut', 'strength-edge', 'until it tears out through the edge'],
] as const;

function plateOf(layer: Layer): { thickness: Result; tensile: Result } | undefined {
  const tensile = layer.piece?.material()?.figures().get('tensile');
  return !layer.soft && layer.thickness && tensile ? { thickness: layer.thickness, tensile } : undefined;
}
