import { anticlockwise, lengthOfPath, reversed, signedArea } from '../../../geometry/outline/measure.ts';
import type { Path, Vertex } from '../../../geometry/outline/path.ts';
import { regionsOf } from '../../../geometry/outline/regions.ts';
import { knucklesOf } from '../../../model/figures/knuckles.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import { show } from '../../../model/values/show.ts';
import type { Flat } from './blank-drawing.ts';
import { radians } from './paths.ts';

/** How far what is cut away goes out beyond the blank, mm: its own edge must not lie along the blank's. */
const BEYOND = 5;
/** Points of one side of what is cut away, on an edge that is curved in the flat. */
const STEPS = 8;

/**
 * The outline of a blank with its knuckles standing out of the edges that a hinge joins. Between them the metal is cut away
 * until the barrel of the other leaf has room, and beside the hinge down to the line where the curl begins. The leaf that is
 * named first has the knuckles at both ends. A hinge sits in the middle of its edge. The outline as it is where there is no such hinge.
 */
export function withKnuckles(piece: PieceModel, flat: Flat): { readonly cut: Path; readonly notes: readonly string[] } {
  const notes: string[] = [];
  let cut = anticlockwise(flat.cut);
  // Past the ends of the edge what the next edges need ends with it.
  const past = BEYOND + Math.max(0, ...flat.edges.map(({ allowance }) => allowance));
  for (const { hinge, edge } of knucklesOf(piece)) {
    const line = hinge.line('knuckles');
    const [wide, count] = [line?.length('wide', 'wide'), line?.count('knuckles')];
    const [one, gap] = ['knuckle', 'gap'].map((name) => hinge.figures().get(name)?.value);
    const path = flat.edges.find(({ name }) => name === edge);
    if (!path || wide === undefined || !count || one === undefined || gap === undefined || !(one > 0)) continue;
    const length = piece.edgeLength(edge)?.value ?? lengthOfPath(path.path);
    if (!(path.allowance > 0) || wide > length) continue;
    const first = hinge.leaves().findIndex((leaf) => leaf.piece === piece && leaf.edge === edge) % 2;
    const start = (length - wide) / 2;
    const knuckles = Array.from({ length: count }, (_, i) => i)
      .filter((i) => i % 2 === first)
      .map((i) => [start + i * (one + gap), start + i * (one + gap) + one] as const);
    const free = [-past, ...knuckles.flat(), length + past];
    const out = path.allowance + BEYOND;
    const beside = Array.from({ length: free.length / 2 }, (_, i) =>
      strip(flat, edge, length, [free[2 * i]!, free[2 * i + 1]!], { inset: 0, out }),
    );
    // The barrel of the other leaf reaches in behind the line where this one begins to curl.
    const inset = hinge.notchIn({ piece, edge }) ?? 0;
    const notches = Array.from({ length: count }, (_, i) => i)
      .filter((i) => i % 2 !== first)
      .map((i) => [start + i * (one + gap) - gap, start + (i + 1) * (one + gap)] as const)
      .map(([from, to]) => strip(flat, edge, length, [from, to], { inset, out: BEYOND }));
    const waste = [...beside, ...notches];
    const left = regionsOf([cut, ...waste.flatMap((each) => (each ? [reversed(anticlockwise(each))] : []))]);
    const [whole] = left.sort((a, b) => signedArea(b) - signedArea(a));
    if (!whole || waste.some((each) => !each)) {
      notes.push(`The knuckles at ${edge} are not drawn.`);
      continue;
    }
    cut = whole;
    notes.push(
      `${knuckles.length} of the ${count} knuckles of ${hinge.name} stand at ${edge}, between notches ${show(inset, 'mm', piece.model.units())} deep for those of the other leaf: curl them round the pin before the piece is closed.`,
    );
  }
  return { cut, notes };
}

/** A strip along an edge from one station to another, from so far inside the edge to so far out of the piece; straight on past its ends. */
function strip(
  flat: Flat,
  edge: string,
  length: number,
  [from, to]: readonly [number, number],
  { inset, out }: { readonly inset: number; readonly out: number },
): Path | undefined {
  const at = (station: number, inset: number): Vertex | undefined => {
    const on = Math.min(length, Math.max(0, station));
    const found = flat.inFrom(edge, on, inset);
    const past = station - on;
    return (
      found && { x: found.x + past * Math.cos(radians(found.turn)), y: found.y + past * Math.sin(radians(found.turn)) }
    );
  };
  const side = (deep: number) =>
    Array.from({ length: STEPS + 1 }, (_, i) => at(from + ((to - from) * i) / STEPS, deep));
  const vertices = [...side(inset), ...side(-out).reverse()];
  return vertices.every((each) => each !== undefined) ? { vertices, closed: true } : undefined;
}
