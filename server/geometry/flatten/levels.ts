import type { Flat } from './flatten.ts';

/** A line on the flat blank along which a value is the same, mm. */
export interface LevelLine {
  readonly points: readonly (readonly [x: number, y: number])[];
  /** Ends where it begins: the first point stands again at its end. */
  readonly closed: boolean;
}

/** The lines along which values given at the vertices reach a level, straight across each triangle. */
export function levelLines({ topology, positions }: Flat, values: Float64Array, level: number): LevelLine[] {
  const { triangles, sides } = topology;
  /** Crossings by the edge of the mesh, and which edges a line joins. */
  const at = new Map<number, readonly [number, number]>();
  const joined = new Map<number, number[]>();
  for (let t = 0; t < triangles.length; t += 3) {
    const crossed: number[] = [];
    for (let i = 0; i < 3; i++) {
      const from = triangles[t + i]!;
      const to = triangles[t + ((i + 1) % 3)]!;
      const [a, b] = [values[from]! - level, values[to]! - level];
      if (a >= 0 === b >= 0) continue;
      const share = a / (a - b);
      const edge = sides[t + i]!;
      const between = (k: 0 | 1) =>
        positions[2 * from + k]! + share * (positions[2 * to + k]! - positions[2 * from + k]!);
      at.set(edge, [between(0), between(1)]);
      crossed.push(edge);
    }
    if (crossed.length !== 2) continue;
    for (const [one, other] of [crossed, [...crossed].reverse()] as [number, number][])
      joined.set(one, [...(joined.get(one) ?? []), other]);
  }
  return chainsOf(joined).map((chain) => ({
    points: chain.map((edge) => at.get(edge)!),
    closed: chain.length > 2 && chain[0] === chain.at(-1),
  }));
}

function chainsOf(joined: Map<number, number[]>): number[][] {
  const left = new Set(joined.keys());
  const chains: number[][] = [];
  const walk = (start: number): number[] => {
    const chain = [start];
    left.delete(start);
    for (let at = start; ; ) {
      const next = joined.get(at)!.find((edge) => left.has(edge));
      if (next === undefined) break;
      left.delete(next);
      chain.push(next);
      at = next;
    }
    return chain;
  };
  // Open ones from their ends; what is left then are rings.
  for (const [edge, others] of joined) if (others.length === 1 && left.has(edge)) chains.push(walk(edge));
  for (const edge of joined.keys()) {
    if (!left.has(edge)) continue;
    const ring = walk(edge);
    chains.push([...ring, ring[0]!]);
  }
  return chains;
}
