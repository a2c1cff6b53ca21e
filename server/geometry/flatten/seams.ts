import type { Steps } from '../../incremental/steps.ts';
import type { Surface } from '../surface/surface.ts';
import { flattenInSteps, isFlat } from './flatten.ts';
import { percentile } from './strain.ts';
import type { Way } from './way.ts';

/** A cut that was tried: from edge to edge, or from an edge to a point inside. */
export interface Cut {
  readonly kind: 'split' | 'dart';
  /** The named line that it follows. */
  readonly line: string;
  /** A dart of half the line only, from its first or its last end. */
  readonly half?: 'first' | 'last';
  /** Effective strain that nineteen twentieths of the metal stay below after it. */
  readonly strain: number;
}

/**
 * Every cut along a named line of the form, the one that spares the metal most first. Each is tried by laying the cut form
 * flat; a cut after which it still cannot be laid flat is left out. The point of a dart strains the metal much more than
 * the figure says: it wants a round hole. With stops.
 */
export function* cutsInSteps(surface: Surface, way: Way): Steps<Cut[]> {
  const seen = new Set<string>();
  const cuts: Cut[] = [];
  for (const { path, ...cut } of candidates(surface)) {
    const key = [...path].sort((a, b) => a - b).join();
    if (seen.has(key)) continue;
    seen.add(key);
    const strain = yield* strainOf(cutAlong(surface, path), way);
    if (strain !== undefined) cuts.push({ ...cut, strain });
  }
  return cuts.sort((a, b) => a.strain - b.strain);
}

type Candidate = Omit<Cut, 'strain'> & { readonly path: Uint32Array };

/** The whole of each line between two points of the border, and darts in from the border. */
function candidates(surface: Surface): Candidate[] {
  const border = borderOf(surface.triangles);
  return [...surface.lines].flatMap(([line, path]): Candidate[] => {
    if (path.length < 3) return [];
    const inside = path.subarray(1, path.length - 1).every((vertex) => !border.has(vertex));
    const ends = [path[0]!, path[path.length - 1]!].map((vertex) => border.has(vertex));
    if (!inside || path[0] === path[path.length - 1]) return [];
    if (!ends[0] && !ends[1]) return [];
    if (!ends[0] || !ends[1]) return [{ kind: 'dart', line, path }];
    const middle = path.length >> 1;
    return [
      { kind: 'split', line, path },
      { kind: 'dart', line, half: 'first', path: path.subarray(0, middle + 1) },
      { kind: 'dart', line, half: 'last', path: path.subarray(middle) },
    ];
  });
}

function borderOf(triangles: Uint32Array): Set<number> {
  const sides = new Map<string, number>();
  eachSide(triangles, (from, to) => {
    const key = from < to ? `${from} ${to}` : `${to} ${from}`;
    sides.set(key, (sides.get(key) ?? 0) + 1);
  });
  const border = new Set<number>();
  for (const [key, count] of sides) if (count === 1) for (const vertex of key.split(' ')) border.add(Number(vertex));
  return border;
}

function eachSide(triangles: Uint32Array, visit: (from: number, to: number, corner: number, next: number) => void) {
  for (let i = 0; i < triangles.length; i++) {
    const next = i % 3 === 2 ? i - 2 : i + 1;
    visit(triangles[i]!, triangles[next]!, i, next);
  }
}

/** The 95th percentile of effective strain over all parts; nothing where a part cannot be laid flat. */
function* strainOf(parts: readonly Surface[], way: Way): Steps<number | undefined> {
  const strains: number[] = [];
  const areas: number[] = [];
  for (const surface of parts) {
    const flat = yield* flattenInSteps({ surface, way });
    if (!isFlat(flat)) return undefined;
    strains.push(...flat.strains.effective);
    areas.push(...flat.rest.areas);
  }
  return percentile(Float64Array.from(strains), Float64Array.from(areas), 0.95);
}

/** The surface cut open along a path of vertices, in the parts that it falls into. Named edges and lines are not kept. */
export function cutAlong(surface: Surface, path: Uint32Array): Surface[] {
  const { triangles } = surface;
  const cut = new Set<string>();
  const key = (a: number, b: number) => (a < b ? `${a} ${b}` : `${b} ${a}`);
  for (let i = 0; i + 1 < path.length; i++) cut.add(key(path[i]!, path[i + 1]!));
  // Corners of triangles that meet across a side that is not cut are one vertex.
  const corners = new Sets(triangles.length);
  const whole = new Sets(triangles.length / 3);
  const open = new Map<string, [number, number]>();
  eachSide(triangles, (from, to, corner, next) => {
    const side = key(from, to);
    if (cut.has(side)) return;
    const other = open.get(side);
    if (!other) {
      open.set(side, from < to ? [corner, next] : [next, corner]);
      return;
    }
    corners.join(other[0], from < to ? corner : next);
    corners.join(other[1], from < to ? next : corner);
    whole.join(Math.floor(corner / 3), Math.floor(other[0] / 3));
  });
  const parts = new Map<number, number[]>();
  for (let t = 0; t < triangles.length / 3; t++) {
    const part = whole.of(t);
    const list = parts.get(part);
    if (list) list.push(t);
    else parts.set(part, [t]);
  }
  return [...parts.values()].map((members) => {
    const numbers = new Map<number, number>();
    const old: number[] = [];
    const own = members.flatMap((t) =>
      [3 * t, 3 * t + 1, 3 * t + 2].map((corner) => {
        const root = corners.of(corner);
        let number = numbers.get(root);
        if (number === undefined) {
          number = old.length;
          numbers.set(root, number);
          old.push(triangles[corner]!);
        }
        return number;
      }),
    );
    const take = (values: Float64Array, size: number) =>
      Float64Array.from(old.flatMap((vertex) => [...values.subarray(size * vertex, size * vertex + size)]));
    return {
      positions: take(surface.positions, 3),
      normals: take(surface.normals, 3),
      parameters: take(surface.parameters, 2),
      triangles: Uint32Array.from(own),
      edges: new Map(),
      lines: new Map(),
    };
  });
}

/** Disjoint sets of numbers. */
class Sets {
  private readonly up: Int32Array;

  constructor(size: number) {
    this.up = Int32Array.from({ length: size }, (_, i) => i);
  }

  of(one: number): number {
    let at = one;
    while (this.up[at] !== at) {
      this.up[at] = this.up[this.up[at]!]!;
      at = this.up[at]!;
    }
    return at;
  }

  join(one: number, other: number): void {
    this.up[this.of(one)] = this.of(other);
  }
}
