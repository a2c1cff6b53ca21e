import type { Steps } from '../../incremental/steps.ts';
import { cross, dot, minus, plus, size, type Vector } from '../surface/vector.ts';

/*
 * What two eyes see between and through plates: rays from each, by angles from straight ahead. A plate is its middle as triangles with
 * its thickness; a hole in it is a line on that middle and how far it reaches from it. y is straight ahead, x to the right, z up.
 */

export interface Screen {
  readonly positions: Float64Array;
  readonly triangles: Uint32Array;
  readonly thickness: number;
  readonly holes: readonly { readonly spine: readonly Vector[]; readonly radius: number }[];
}

/** How far one eye sees with nothing before it, degrees from straight ahead. */
export interface Reach {
  readonly inward: number;
  readonly outward: number;
  readonly up: number;
  readonly down: number;
}

/** Degrees from straight ahead: how far to each side at about the height of the eyes, and up and down about straight ahead. */
export interface Field {
  readonly left: number;
  readonly right: number;
  readonly up: number;
  readonly down: number;
  /** Across, with both eyes at once. */
  readonly both: number;
  /** Of the directions that are seen with nothing before the eyes, 0 to 1. */
  readonly share: number;
}

/** Degrees between rays, across and up; what lies between is halved until it is as near as {@link FINE}. */
const ACROSS = 2;
const UP = 1;
const FINE = 0.005;
/** How far from the middle a ray may lie to count as level, or as straight ahead, degrees. */
const ABOUT = 20;

type Sees = (across: number, up: number) => boolean;

/** Where nothing is seen all measures are nought. Range: eyes that look along y. Source: rays (derived). */
export function* fieldInSteps(eyes: readonly [Vector, Vector], screens: readonly Screen[], reach: Reach): Steps<Field> {
  const each: Sees[] = [];
  for (const [i, eye] of eyes.entries()) {
    const open = new Eye(eye);
    for (const screen of screens) {
      yield undefined;
      open.put(screen);
    }
    const own = within(reach, i === 0 ? 'left' : 'right');
    each.push((across, up) => own(across, up) && open.sees(across, up));
  }
  const [left, right] = each as [Sees, Sees];
  const bare = [within(reach, 'left'), within(reach, 'right')] as const;
  const either: Sees = (across, up) => left(across, up) || right(across, up);
  const both: Sees = (across, up) => left(across, up) && right(across, up);
  let [seen, all] = [0, 0];
  const level = { either: new Ends(), both: new Ends() };
  const ahead = new Ends();
  for (let up = -reach.down; up <= reach.up; up += UP) {
    yield undefined;
    const weight = Math.cos((up * Math.PI) / 180);
    for (let across = -reach.outward; across <= reach.outward; across += ACROSS) {
      if (!bare[0](across, up) && !bare[1](across, up)) continue;
      all += weight;
      if (!either(across, up)) continue;
      seen += weight;
      if (Math.abs(up) <= ABOUT) level.either.take(across, up);
      if (Math.abs(up) <= ABOUT && both(across, up)) level.both.take(across, up);
      if (Math.abs(across) <= ABOUT) ahead.take(up, across);
    }
  }
  if (!seen) return { left: 0, right: 0, up: 0, down: 0, both: 0, share: 0 };
  const [from, to] = level.either.edges((along, at) => either(along, at), ACROSS);
  const [near, far] = level.both.edges((along, at) => both(along, at), ACROSS);
  const [below, above] = ahead.edges((along, at) => either(at, along), UP);
  return { left: -from, right: to, up: above, down: -below, both: Math.max(0, far - near), share: seen / all };
}

const within =
  ({ inward, outward, up: above, down }: Reach, side: 'left' | 'right'): Sees =>
  (across, up) => {
    const out = side === 'left' ? -across : across;
    return out <= outward && out >= -inward && up <= above && up >= -down;
  };

/** The furthest both ways that is seen, and on which rows it is. */
class Ends {
  private readonly least = { along: Number.POSITIVE_INFINITY, rows: [] as number[] };
  private readonly most = { along: Number.NEGATIVE_INFINITY, rows: [] as number[] };

  take(along: number, row: number): void {
    for (const [end, isFurther] of [
      [this.least, along < this.least.along],
      [this.most, along > this.most.along],
    ] as const) {
      if (isFurther) {
        end.along = along;
        end.rows.length = 0;
      }
      if (along === end.along) end.rows.push(row);
    }
  }

  /** The same between the rays. */
  edges(sees: Sees, step: number): readonly [number, number] {
    const end = ({ along, rows }: typeof this.least, by: number) =>
      rows.map((row) => {
        let [seen, hidden] = [along, along + by];
        while (Math.abs(hidden - seen) > FINE) {
          const middle = (seen + hidden) / 2;
          if (sees(middle, row)) seen = middle;
          else hidden = middle;
        }
        return seen;
      });
    const [least, most] = [end(this.least, -step), end(this.most, step)];
    return least.length ? [Math.min(...least), Math.max(...most)] : [0, 0];
  }
}

/** Degrees a side of the cells in which triangles are looked for. */
const CELL = 4;
const CELLS = 360 / CELL;

/** Quarters of quarters of a triangle that are looked at. */
const DEEPEST = 5;

interface Put {
  readonly screen: Screen;
  readonly triangle: number;
}

const middleOf = (a: Vector, b: Vector): Vector => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];

/** One eye with the triangles before it, by the cells of directions in which they lie. */
class Eye {
  private readonly cells = new Map<number, Put[]>();

  constructor(private readonly eye: Vector) {}

  put(screen: Screen): void {
    const { positions, triangles } = screen;
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => minus(cornerOf(positions, triangles[t + k]!), this.eye)) as [
        Vector,
        Vector,
        Vector,
      ];
      this.putIn({ screen, triangle: t }, a, b, c, 0);
    }
  }

  /** Into every cell in which a part of its triangle may lie; what is large is looked at in quarters, since an eye sees its sides bent. */
  private putIn(put: Put, a: Vector, b: Vector, c: Vector, depth: number): void {
    const turns = [a, b, c].map(anglesOf);
    const [across, up] = [0, 1].map((k) => turns.map((turn) => turn[k]!)) as [number[], number[]];
    const [left, right, low, high] = [Math.min(...across), Math.max(...across), Math.min(...up), Math.max(...up)];
    if (depth < DEEPEST && (right - left > 2 * CELL || high - low > 2 * CELL)) {
      const [ab, bc, ca] = [middleOf(a, b), middleOf(b, c), middleOf(c, a)];
      this.putIn(put, a, ab, ca, depth + 1);
      this.putIn(put, ab, b, bc, depth + 1);
      this.putIn(put, ca, bc, c, depth + 1);
      this.putIn(put, ab, bc, ca, depth + 1);
      return;
    }
    // Across the back of the head: no eye looks there.
    if (right - left > 180) return;
    for (let i = Math.floor(left / CELL) - 1; i <= Math.floor(right / CELL) + 1; i++)
      for (let k = Math.floor(low / CELL) - 1; k <= Math.floor(high / CELL) + 1; k++) {
        const cell = this.cells.get(i + CELLS * k);
        if (!cell) this.cells.set(i + CELLS * k, [put]);
        else if (cell.at(-1) !== put) cell.push(put);
      }
  }

  sees(across: number, up: number): boolean {
    const cell = this.cells.get(Math.floor(across / CELL) + CELLS * Math.floor(up / CELL));
    if (!cell) return true;
    const [a, e] = [(across * Math.PI) / 180, (up * Math.PI) / 180];
    const way: Vector = [Math.sin(a) * Math.cos(e), Math.cos(a) * Math.cos(e), Math.sin(e)];
    return !cell.some(({ screen, triangle }) => isStopped(this.eye, way, screen, triangle));
  }
}

const cornerOf = (positions: Float64Array, i: number): Vector => [
  positions[3 * i]!,
  positions[3 * i + 1]!,
  positions[3 * i + 2]!,
];

const anglesOf = ([x, y, z]: Vector): readonly [across: number, up: number] => [
  (Math.atan2(x, y) * 180) / Math.PI,
  (Math.atan2(z, Math.hypot(x, y)) * 180) / Math.PI,
];

/** Whether a ray meets a triangle (Möller and Trumbore 1997) and no hole lets it through there, at both faces of the plate. */
function isStopped(eye: Vector, way: Vector, { positions, triangles, thickness, holes }: Screen, t: number): boolean {
  const a = cornerOf(positions, triangles[t]!);
  const [ab, ac] = [minus(cornerOf(positions, triangles[t + 1]!), a), minus(cornerOf(positions, triangles[t + 2]!), a)];
  const p = cross(way, ac);
  const det = dot(ab, p);
  if (Math.abs(det) < 1e-12) return false;
  const from = minus(eye, a);
  const u = dot(from, p) / det;
  if (u < -EDGE || u > 1 + EDGE) return false;
  const q = cross(from, ab);
  const v = dot(way, q) / det;
  if (v < -EDGE || u + v > 1 + EDGE) return false;
  const far = dot(ac, q) / det;
  if (far <= 0) return false;
  if (!holes.length) return true;
  const at = plus(eye, way, far);
  const square = cross(ab, ac);
  const n = plus([0, 0, 0], square, 1 / size(square));
  // How far aside the ray has gone at either face.
  const aside = plus(plus([0, 0, 0], way, 1 / dot(way, n)), n, -1);
  return ![-thickness / 2, thickness / 2].every((by) => holes.some((hole) => isIn(plus(at, aside, by), hole)));
}
/** Two triangles that meet leave no crack between them. */
const EDGE = 1e-9;

function isIn(point: Vector, { spine, radius }: Screen['holes'][number]): boolean {
  return spine.some((to, i) => {
    const start = spine[Math.max(0, i - 1)]!;
    const way = minus(to, start);
    const whole = dot(way, way);
    const share = whole > 0 ? Math.min(1, Math.max(0, dot(minus(point, start), way) / whole)) : 0;
    return size(minus(point, plus(start, way, share))) <= radius;
  });
}
