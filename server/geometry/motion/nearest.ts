import type { Vector } from '../surface/vector.ts';
import type { Motion } from './motion.ts';
import { BOX, type MeshTree } from './tree.ts';
import { type Corners, crossingOf, nearestOf, planeGap } from './triangles.ts';

/** Where two meshes come nearest to each other, in the frame of the first. */
export interface Nearest {
  /** mm; nought where they run through each other. */
  readonly apart: number;
  readonly one: Vector;
  readonly other: Vector;
  /** Triangles of both, as their trees have them: where to look first when they have moved a little. */
  readonly pair: readonly [number, number];
}

/**
 * The least distance of two meshes, of which the other is moved; nothing where it is not below `within`. Exact but for rounding, or
 * too great by `slack` at most.
 *
 * `first` are triangles to begin with. Source: two trees of boxes gone down together, the nearer pair first; separation along the
 * six axes of two boxes (Gottschalk 1996, from memory), distance of triangles by their edges and corners (derived).
 */
export function nearestBetween(
  one: MeshTree,
  other: MeshTree,
  motion: Motion,
  {
    within = Number.POSITIVE_INFINITY,
    first,
    slack = 0,
  }: { within?: number; first?: readonly [number, number] | undefined; slack?: number } = {},
): Nearest | undefined {
  if (one.isEmpty || other.isEmpty) return undefined;
  const meeting = new Meeting(one, other, motion);
  let best = within;
  let found: Nearest | undefined;
  const look = (i: number, j: number) => {
    const [a, b] = [meeting.cornersOf(i), meeting.otherCornersOf(j)];
    if (planeGap(a, b) >= best - slack) return;
    const touch = nearestOf(a, b, best);
    if (!touch || !(touch.apart < best)) return;
    best = touch.apart;
    found = { ...touch, pair: [i, j] };
  };
  if (first) look(...first);
  meeting.goDown((bound) => bound < best - slack, look);
  return found;
}

/** A stretch along which two meshes run through each other, in the frame of the first. */
export interface Crossing {
  readonly from: Vector;
  readonly to: Vector;
}

/** Every stretch along which they run through each other. */
export function crossingsBetween(one: MeshTree, other: MeshTree, motion: Motion): Crossing[] {
  if (one.isEmpty || other.isEmpty) return [];
  const meeting = new Meeting(one, other, motion);
  const found: Crossing[] = [];
  meeting.goDown(
    (bound) => bound <= 0,
    (i, j) => {
      const [a, b] = [meeting.cornersOf(i), meeting.otherCornersOf(j)];
      if (planeGap(a, b) > 0) return;
      const crossing = crossingOf(a, b);
      if (crossing) found.push(crossing);
    },
  );
  return found;
}

/** The least distance of a point from a mesh; nothing where it is not below `within`. */
export function nearestTo(tree: MeshTree, [x, y, z]: Vector, within = Number.POSITIVE_INFINITY): Nearest | undefined {
  const point: Corners = { at: Float64Array.of(x, y, z, x, y, z, x, y, z), normal: Float64Array.of(0, 0, 0) };
  if (tree.isEmpty) return undefined;
  const meeting = new Meeting(tree, tree, undefined);
  let best = within;
  let found: Nearest | undefined;
  const open = [0];
  for (let node = open.pop(); node !== undefined; node = open.pop()) {
    if (!(meeting.boundTo(node, x, y, z) < best)) continue;
    const from = tree.first[node]!;
    const count = tree.count[node]!;
    for (let i = from; i < from + count; i++) {
      const touch = nearestOf(meeting.cornersOf(i), point, best);
      if (!touch || !(touch.apart < best)) continue;
      best = touch.apart;
      found = { ...touch, pair: [i, 0] };
    }
    if (count) continue;
    const [a, b] = [meeting.boundTo(from, x, y, z), meeting.boundTo(from + 1, x, y, z)];
    open.push(...(a < b ? [from + 1, from] : [from, from + 1]));
  }
  return found;
}

/** Pairs of nodes that wait, with their bounds: never more than both trees are deep, of which the greatest has 2³² leaves. */
const pairs = new Uint32Array(512);
const bounds = new Float64Array(256);

/** Two trees, the second moved into the frame of the first. */
class Meeting {
  private readonly moved: Float64Array;
  private readonly turn: readonly number[];
  private readonly shift: Vector;
  private readonly a: Corners = { at: new Float64Array(9), normal: new Float64Array(3) };
  private readonly b: Corners = { at: new Float64Array(9), normal: new Float64Array(3) };
  private readonly axes = new Float64Array(9);

  constructor(
    private readonly one: MeshTree,
    private readonly other: MeshTree,
    motion: Motion | undefined,
  ) {
    this.turn = motion ? motion.turn.flat() : [1, 0, 0, 0, 1, 0, 0, 0, 1];
    this.shift = motion?.shift ?? [0, 0, 0];
    this.moved = motion ? this.movedPoints() : other.positions;
  }

  private movedPoints(): Float64Array {
    const { positions } = this.other;
    const out = new Float64Array(positions.length);
    const [a0, a1, a2, b0, b1, b2, c0, c1, c2] = this.turn as unknown as Float64Array;
    const [sx, sy, sz] = this.shift;
    for (let i = 0; i < positions.length; i += 3) {
      const x = positions[i]!;
      const y = positions[i + 1]!;
      const z = positions[i + 2]!;
      out[i] = a0! * x + a1! * y + a2! * z + sx;
      out[i + 1] = b0! * x + b1! * y + b2! * z + sy;
      out[i + 2] = c0! * x + c1! * y + c2! * z + sz;
    }
    return out;
  }

  cornersOf(triangle: number): Corners {
    const { one, a } = this;
    fill(a, one.corners, one.positions, triangle);
    for (let k = 0; k < 3; k++) a.normal[k] = one.normals[3 * triangle + k]!;
    return a;
  }

  otherCornersOf(triangle: number): Corners {
    const { other, moved, turn, b } = this;
    fill(b, other.corners, moved, triangle);
    const x = other.normals[3 * triangle]!;
    const y = other.normals[3 * triangle + 1]!;
    const z = other.normals[3 * triangle + 2]!;
    for (let k = 0; k < 3; k++) b.normal[k] = turn[3 * k]! * x + turn[3 * k + 1]! * y + turn[3 * k + 2]! * z;
    return b;
  }

  /** Looks at every pair of triangles whose boxes, and all boxes round them, are worth it; the nearer first. */
  goDown(isWorth: (bound: number) => boolean, look: (i: number, j: number) => void): void {
    const { one, other } = this;
    // Pairs of nodes with their bounds, the next one last.
    let top = this.put(0, 0, 0, this.bound(0, 0));
    while (top > 0) {
      top--;
      const i = pairs[2 * top]!;
      const j = pairs[2 * top + 1]!;
      if (!isWorth(bounds[top]!)) continue;
      const own = one.count[i]!;
      const its = other.count[j]!;
      if (own > 0 && its > 0) {
        const p = one.first[i]!;
        const q = other.first[j]!;
        for (let k = p; k < p + own; k++) for (let l = q; l < q + its; l++) look(k, l);
        continue;
      }
      const splitsOne = own === 0 && (its > 0 || one.boxes[BOX * i + 12]! > other.boxes[BOX * j + 12]!);
      const i1 = splitsOne ? one.first[i]! : i;
      const j1 = splitsOne ? j : other.first[j]!;
      const i2 = splitsOne ? i1 + 1 : i;
      const j2 = splitsOne ? j : j1 + 1;
      const b1 = this.bound(i1, j1);
      const b2 = this.bound(i2, j2);
      const isNearer = b1 < b2;
      top = isNearer ? this.put(top, i2, j2, b2) : this.put(top, i1, j1, b1);
      top = isNearer ? this.put(top, i1, j1, b1) : this.put(top, i2, j2, b2);
    }
  }

  private put(top: number, i: number, j: number, bound: number): number {
    pairs[2 * top] = i;
    pairs[2 * top + 1] = j;
    bounds[top] = bound;
    return top + 1;
  }

  /** No point of the one box is nearer than so to one of the other: how far they part along the axes of either. */
  private bound(i: number, j: number): number {
    const { turn: t, axes } = this;
    const p = this.one.boxes;
    const q = this.other.boxes;
    const a = BOX * i;
    const b = BOX * j;
    const { shift } = this;
    const dx = t[0]! * q[b]! + t[1]! * q[b + 1]! + t[2]! * q[b + 2]! + shift[0] - p[a]!;
    const dy = t[3]! * q[b]! + t[4]! * q[b + 1]! + t[5]! * q[b + 2]! + shift[1] - p[a + 1]!;
    const dz = t[6]! * q[b]! + t[7]! * q[b + 1]! + t[8]! * q[b + 2]! + shift[2] - p[a + 2]!;
    for (let k = 0; k < 9; k += 3) {
      const at = b + 3 + k;
      axes[k] = t[0]! * q[at]! + t[1]! * q[at + 1]! + t[2]! * q[at + 2]!;
      axes[k + 1] = t[3]! * q[at]! + t[4]! * q[at + 1]! + t[5]! * q[at + 2]!;
      axes[k + 2] = t[6]! * q[at]! + t[7]! * q[at + 1]! + t[8]! * q[at + 2]!;
    }
    let mine = 0;
    let s0 = q[b + 12]!;
    let s1 = q[b + 13]!;
    let s2 = q[b + 14]!;
    const h0 = s0;
    const h1 = s1;
    const h2 = s2;
    for (let k = 0; k < 3; k++) {
      const at = a + 3 + 3 * k;
      const x = p[at]!;
      const y = p[at + 1]!;
      const z = p[at + 2]!;
      const half = p[a + 12 + k]!;
      const r0 = Math.abs(x * axes[0]! + y * axes[1]! + z * axes[2]!);
      const r1 = Math.abs(x * axes[3]! + y * axes[4]! + z * axes[5]!);
      const r2 = Math.abs(x * axes[6]! + y * axes[7]! + z * axes[8]!);
      const gap = Math.abs(x * dx + y * dy + z * dz) - half - h0 * r0 - h1 * r1 - h2 * r2;
      if (gap > 0) mine += gap * gap;
      s0 += half * r0;
      s1 += half * r1;
      s2 += half * r2;
    }
    const g0 = Math.abs(axes[0]! * dx + axes[1]! * dy + axes[2]! * dz) - s0;
    const g1 = Math.abs(axes[3]! * dx + axes[4]! * dy + axes[5]! * dz) - s1;
    const g2 = Math.abs(axes[6]! * dx + axes[7]! * dy + axes[8]! * dz) - s2;
    const its = (g0 > 0 ? g0 * g0 : 0) + (g1 > 0 ? g1 * g1 : 0) + (g2 > 0 ? g2 * g2 : 0);
    return Math.sqrt(Math.max(mine, its)) - ROUNDING;
  }

  /** The same for a point. */
  boundTo(node: number, x: number, y: number, z: number): number {
    const p = this.one.boxes;
    const a = BOX * node;
    let sum = 0;
    for (let k = 0; k < 3; k++) {
      const at = a + 3 + 3 * k;
      const far = p[at]! * (x - p[a]!) + p[at + 1]! * (y - p[a + 1]!) + p[at + 2]! * (z - p[a + 2]!);
      const gap = Math.abs(far) - p[a + 12 + k]!;
      if (gap > 0) sum += gap * gap;
    }
    return Math.sqrt(sum) - ROUNDING;
  }
}

/** Of sums of lengths of a metre, mm. */
const ROUNDING = 1e-9;

function fill({ at }: Corners, corners: Uint32Array, positions: Float64Array, triangle: number): void {
  for (let k = 0; k < 3; k++) {
    const from = 3 * corners[3 * triangle + k]!;
    at[3 * k] = positions[from]!;
    at[3 * k + 1] = positions[from + 1]!;
    at[3 * k + 2] = positions[from + 2]!;
  }
}
