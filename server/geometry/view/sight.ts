import type { Steps } from '../../incremental/steps.ts';
import { dot, plus, type Vector } from '../surface/vector.ts';

/*
 * What of several plates is seen from one side: their outlines, edges and lines, cut into what lies in front and what is hidden.
 * Which plate is in front is told by a grid of cells, each with the triangle that is nearest to the viewer there; how far that is is
 * then reckoned at the place itself, in the triangle's own plane.
 */

/** A plate where it stands, mm: its middle as a mesh. */
export interface Standing {
  readonly positions: Float64Array;
  /** Unit normals, outward. */
  readonly normals: Float64Array;
  readonly triangles: Uint32Array;
  readonly edges: readonly Uint32Array[];
  readonly lines: readonly Uint32Array[];
  /** mm: its faces lie half of it out and in. */
  readonly thickness: number;
}

/** From where one looks: the directions that run right and up on the paper; the viewer stands along their cross product. */
export interface Side {
  readonly right: Vector;
  readonly up: Vector;
}

export type Flat = readonly [x: number, y: number];
/** A stroke on the paper, mm, y up. */
export type Stroke = readonly Flat[];

/** What is seen of one plate. */
export interface Sight {
  /** Where it ends against what lies behind it, and its own edges. */
  readonly edges: readonly Stroke[];
  /** Those of them that something lies before. */
  readonly hidden: readonly Stroke[];
  /** Lines on it, as far as they are seen. */
  readonly lines: readonly Stroke[];
  /** Middle of what is seen of it; nothing where that is next to nothing. */
  readonly middle?: Flat;
}

/** Longest side of the grid, in cells. */
const CELLS = 420;
/** How far before its own surface a stroke is looked at, mm: less than the thinnest plate, more than a chord stands off its arc. */
const BEFORE = 0.35;

/** Every plate as it is seen from one side. */
export function* sightsInSteps(all: readonly Standing[], { right, up }: Side): Steps<Sight[]> {
  const toward: Vector = [
    right[1] * up[2] - right[2] * up[1],
    right[2] * up[0] - right[0] * up[2],
    right[0] * up[1] - right[1] * up[0],
  ];
  const seen = all.map((plate) => projected(plate, right, up, toward));
  const grid = new Grid(seen);
  for (const [i, each] of seen.entries()) {
    yield undefined;
    for (let t = 0; t < each.triangles.length; t += 3) {
      if (t % 1500 === 1497) yield undefined;
      grid.fill(i, t);
    }
  }
  const sights: Sight[] = [];
  for (const [i, plate] of seen.entries()) {
    yield undefined;
    const [edges, hidden, lines]: Stroke[][] = [[], [], []];
    for (const chain of plate.edges) sort(grid, chainOf(plate, chain), edges!, hidden!);
    for (const rim of plate.rims) sort(grid, rim, edges!, hidden!);
    for (const chain of plate.lines) sort(grid, chainOf(plate, chain), lines!, []);
    const middle = grid.middleOf(i);
    sights.push({
      edges: joined(edges!),
      hidden: joined(hidden!),
      lines: joined(lines!),
      ...(middle ? { middle } : {}),
    });
  }
  return sights;
}

/** A plate on the paper: x and y of each vertex, how near its face is to the viewer, and where it turns away. */
interface Projected {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  /** Nearness of the face that looks at the viewer, mm. */
  readonly near: Float64Array;
  readonly triangles: Uint32Array;
  readonly edges: readonly Uint32Array[];
  readonly lines: readonly Uint32Array[];
  readonly rims: readonly Place[][];
}

/** A place of a stroke, with its nearness. */
interface Place {
  readonly x: number;
  readonly y: number;
  readonly near: number;
  /** Where one looks whether something lies before it: a little beside a rim, since the plate itself begins there. */
  readonly lookX: number;
  readonly lookY: number;
}

function projected(plate: Standing, right: Vector, up: Vector, toward: Vector): Projected {
  const { positions, normals, triangles, thickness } = plate;
  const count = positions.length / 3;
  const [xs, ys, near, facing] = [0, 1, 2, 3].map(() => new Float64Array(count)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const at = (of: Float64Array, i: number): Vector => [of[3 * i]!, of[3 * i + 1]!, of[3 * i + 2]!];
  for (let i = 0; i < count; i++) {
    const normal = at(normals, i);
    facing[i] = dot(normal, toward);
    const face = plus(at(positions, i), normal, (facing[i]! < 0 ? -1 : 1) * (thickness / 2));
    xs[i] = dot(face, right);
    ys[i] = dot(face, up);
    near[i] = dot(face, toward);
  }
  // Where the normal turns past the line of sight the plate ends for the eye.
  const rims: Place[][] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const corners = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!] as const;
    const ends: Place[] = [];
    for (const [a, b] of [
      [corners[0], corners[1]],
      [corners[1], corners[2]],
      [corners[2], corners[0]],
    ] as const) {
      const [fa, fb] = [facing[a]!, facing[b]!];
      if (fa < 0 === fb < 0 || Math.abs(fa - fb) > 1) continue;
      const share = fa / (fa - fb);
      const middle = plus(plus([0, 0, 0], at(positions, a), 1 - share), at(positions, b), share);
      const out = plus(plus([0, 0, 0], at(normals, a), 1 - share), at(normals, b), share);
      const place = plus(middle, out, thickness / 2);
      const look = plus(middle, out, thickness / 2 + 2 * BEFORE);
      ends.push({
        x: dot(place, right),
        y: dot(place, up),
        near: dot(middle, toward),
        lookX: dot(look, right),
        lookY: dot(look, up),
      });
    }
    if (ends.length === 2) rims.push(ends);
  }
  return { xs, ys, near, triangles, edges: plate.edges, lines: plate.lines, rims };
}

const chainOf = ({ xs, ys, near }: Projected, chain: Uint32Array): Place[] =>
  Array.from(chain, (i) => ({ x: xs[i]!, y: ys[i]!, near: near[i]! + BEFORE, lookX: xs[i]!, lookY: ys[i]! }));

/** The plates on a grid over the paper. */
class Grid {
  private readonly left: number;
  private readonly bottom: number;
  private readonly cell: number;
  private readonly wide: number;
  private readonly high: number;
  private readonly plates: Int32Array;
  private readonly corners: Int32Array;
  private readonly nearest: Float64Array;

  constructor(private readonly seen: readonly Projected[]) {
    const ends = (of: 'xs' | 'ys') => {
      let [least, most] = [Infinity, -Infinity];
      for (const each of seen)
        for (const value of each[of]) {
          least = Math.min(least, value);
          most = Math.max(most, value);
        }
      return [least, most] as const;
    };
    const [x, y] = [ends('xs'), ends('ys')];
    const span = Math.max(x[1] - x[0], y[1] - y[0], 1);
    this.cell = span / CELLS;
    this.left = x[0] - this.cell;
    this.bottom = y[0] - this.cell;
    this.wide = Math.ceil((x[1] - x[0]) / this.cell) + 3;
    this.high = Math.ceil((y[1] - y[0]) / this.cell) + 3;
    const count = Math.max(0, this.wide * this.high) || 0;
    this.plates = new Int32Array(count).fill(-1);
    this.corners = new Int32Array(count);
    this.nearest = new Float64Array(count).fill(-Infinity);
  }

  get step(): number {
    return this.cell;
  }

  fill(plate: number, corner: number): void {
    const { xs, ys, near, triangles } = this.seen[plate]!;
    const [a, b, c] = [triangles[corner]!, triangles[corner + 1]!, triangles[corner + 2]!];
    const plane = planeOf(xs, ys, near, a, b, c);
    if (!plane) return;
    const column = (x: number) => (x - this.left) / this.cell;
    const row = (y: number) => (y - this.bottom) / this.cell;
    const [i0, i1] = [column(Math.min(xs[a]!, xs[b]!, xs[c]!)), column(Math.max(xs[a]!, xs[b]!, xs[c]!))];
    const [j0, j1] = [row(Math.min(ys[a]!, ys[b]!, ys[c]!)), row(Math.max(ys[a]!, ys[b]!, ys[c]!))];
    for (let j = Math.max(0, Math.ceil(j0)); j <= Math.min(this.high - 1, j1); j++)
      for (let i = Math.max(0, Math.ceil(i0)); i <= Math.min(this.wide - 1, i1); i++) {
        const [x, y] = [this.left + i * this.cell, this.bottom + j * this.cell];
        if (!plane.holds(x, y)) continue;
        const at = j * this.wide + i;
        const depth = plane.near(x, y);
        if (!(depth > this.nearest[at]!)) continue;
        this.nearest[at] = depth;
        this.plates[at] = plate;
        this.corners[at] = corner;
      }
  }

  /** Whether something lies before a place. */
  covers({ lookX, lookY, near }: Place): boolean {
    const i = Math.round((lookX - this.left) / this.cell);
    const j = Math.round((lookY - this.bottom) / this.cell);
    if (i < 0 || j < 0 || i >= this.wide || j >= this.high) return false;
    const at = j * this.wide + i;
    const plate = this.plates[at]!;
    if (plate < 0 || !(this.nearest[at]! > near)) return false;
    const { xs, ys, near: nears, triangles } = this.seen[plate]!;
    const corner = this.corners[at]!;
    const plane = planeOf(xs, ys, nears, triangles[corner]!, triangles[corner + 1]!, triangles[corner + 2]!);
    return plane !== undefined && plane.near(lookX, lookY) > near;
  }

  /** The cell of a plate nearest to the middle of all that is seen of it. */
  middleOf(plate: number): Flat | undefined {
    let [sumI, sumJ, count] = [0, 0, 0];
    const each = (then: (i: number, j: number) => void) => {
      for (let j = 0; j < this.high; j++)
        for (let i = 0; i < this.wide; i++) if (this.plates[j * this.wide + i] === plate) then(i, j);
    };
    each((i, j) => {
      sumI += i;
      sumJ += j;
      count++;
    });
    if (count < LEAST_SEEN) return undefined;
    let best: readonly [number, number] = [0, 0];
    let least = Infinity;
    each((i, j) => {
      const away = (i - sumI / count) ** 2 + (j - sumJ / count) ** 2;
      if (away < least) [best, least] = [[i, j], away];
    });
    return [this.left + best[0] * this.cell, this.bottom + best[1] * this.cell];
  }
}

/** Cells in which a plate must be seen to be named there. */
const LEAST_SEEN = 60;

function planeOf(xs: Float64Array, ys: Float64Array, near: Float64Array, a: number, b: number, c: number) {
  const [ax, ay] = [xs[a]!, ys[a]!];
  const [ux, uy] = [xs[b]! - ax, ys[b]! - ay];
  const [vx, vy] = [xs[c]! - ax, ys[c]! - ay];
  const area = ux * vy - uy * vx;
  // Seen from its side a triangle covers nothing.
  if (!(Math.abs(area) > 1e-9)) return undefined;
  const [na, nu, nv] = [near[a]!, near[b]! - near[a]!, near[c]! - near[a]!];
  const weights = (x: number, y: number) => {
    const [px, py] = [x - ax, y - ay];
    return [(px * vy - py * vx) / area, (ux * py - uy * px) / area] as const;
  };
  return {
    holds(x: number, y: number): boolean {
      const [s, t] = weights(x, y);
      return s >= -1e-9 && t >= -1e-9 && s + t <= 1 + 1e-9;
    },
    near(x: number, y: number): number {
      const [s, t] = weights(x, y);
      return na + s * nu + t * nv;
    },
  };
}

/** Cuts a stroke into what is seen and what something lies before, cell by cell. */
function sort(grid: Grid, chain: readonly Place[], seen: Stroke[], hidden: Stroke[]): void {
  const mix = (a: Place, b: Place, s: number): Place => ({
    x: a.x + s * (b.x - a.x),
    y: a.y + s * (b.y - a.y),
    near: a.near + s * (b.near - a.near),
    lookX: a.lookX + s * (b.lookX - a.lookX),
    lookY: a.lookY + s * (b.lookY - a.lookY),
  });
  for (let k = 1; k < chain.length; k++) {
    const [a, b] = [chain[k - 1]!, chain[k]!];
    const parts = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / (2 * grid.step)));
    let [from, isCovered] = [0, grid.covers(mix(a, b, 0.5 / parts))];
    const end = (to: number) => {
      const [p, q] = [mix(a, b, from / parts), mix(a, b, to / parts)];
      (isCovered ? hidden : seen).push([
        [p.x, p.y],
        [q.x, q.y],
      ]);
    };
    for (let part = 1; part < parts; part++) {
      const next = grid.covers(mix(a, b, (part + 0.5) / parts));
      if (next === isCovered) continue;
      end(part);
      [from, isCovered] = [part, next];
    }
    end(parts);
  }
}

/** Short strokes that begin where another ends, as one. */
function joined(strokes: readonly Stroke[]): Stroke[] {
  const key = ([x, y]: Flat) => `${Math.round(x * 20)} ${Math.round(y * 20)}`;
  const ends = new Map<string, Set<Flat[]>>();
  const note = (stroke: Flat[]) => {
    for (const end of [stroke[0]!, stroke.at(-1)!]) {
      const at = ends.get(key(end)) ?? new Set();
      ends.set(key(end), at.add(stroke));
    }
  };
  const all = strokes.filter(([a, b]) => key(a!) !== key(b!)).map((stroke) => [...stroke]);
  for (const stroke of all) note(stroke);
  const used = new Set<Flat[]>();
  const made: Stroke[] = [];
  for (const start of all) {
    if (used.has(start)) continue;
    used.add(start);
    let chain: Flat[] = [...start];
    for (let turn = 0; turn < 2; turn++) {
      for (;;) {
        const tail = chain.at(-1)!;
        const next = [...(ends.get(key(tail)) ?? [])].find((each) => !used.has(each));
        if (!next) break;
        used.add(next);
        const forward = key(next[0]!) === key(tail);
        chain.push(...(forward ? next.slice(1) : next.slice(0, -1).reverse()));
      }
      chain = chain.reverse();
    }
    made.push(chain);
  }
  return made;
}
