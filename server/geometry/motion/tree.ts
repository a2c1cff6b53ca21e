import { cross, NOWHERE, unit, type Vector } from '../surface/vector.ts';

/** Triangles as numbers: x, y, z of every vertex, and the three corners of every triangle. */
export interface Mesh {
  readonly positions: Float64Array;
  readonly triangles: Uint32Array;
}

/** Numbers of one box: its middle, three unit axes, and half its size along each. */
export const BOX = 15;
/** Triangles of a leaf at most. */
const LEAF = 4;

/**
 * A mesh by boxes within boxes, each turned as its part of the mesh lies: a thin one round a thin patch, so that plates that lie side
 * by side are told apart after few of them.
 *
 * Source: S. Gottschalk, M. Lin, D. Manocha, “OBBTree”, SIGGRAPH 1996 (from memory); axes by the mean normal and the greatest spread
 * across it, halves by the median.
 */
export class MeshTree {
  /** Corners of every triangle, those of a leaf side by side. */
  readonly corners: Uint32Array;
  /** Unit normals of these. */
  readonly normals: Float64Array;
  readonly boxes: Float64Array;
  /** Of a leaf its first triangle, of another its first child; the second follows it. */
  readonly first: Int32Array;
  /** Triangles of a leaf; nought for another. */
  readonly count: Int32Array;

  constructor(
    readonly positions: Float64Array,
    triangles: Uint32Array,
  ) {
    const n = triangles.length / 3;
    const order = Uint32Array.from({ length: n }, (_, i) => i);
    // A leaf holds two at least.
    const most = Math.max(1, n);
    this.boxes = new Float64Array(BOX * most);
    this.first = new Int32Array(most);
    this.count = new Int32Array(most);
    const areas = new Float64Array(3 * n);
    for (let i = 0; i < n; i++) areas.set(areaNormal(positions, triangles, 3 * i), 3 * i);
    const centres = centresOf(positions, triangles);
    let nodes = 1;
    const open: [node: number, from: number, to: number][] = n ? [[0, 0, n]] : [];
    for (let next = open.pop(); next; next = open.pop()) {
      const [node, from, to] = next;
      const along = this.boxRound(node, areas, triangles, order, from, to);
      if (to - from <= LEAF) {
        this.first[node] = from;
        this.count[node] = to - from;
        continue;
      }
      const middle = (from + to) >> 1;
      halve(order, from, to, middle, centres, along);
      this.first[node] = nodes;
      open.push([nodes, from, middle], [nodes + 1, middle, to]);
      nodes += 2;
    }
    this.corners = new Uint32Array(3 * n);
    this.normals = new Float64Array(3 * n);
    for (let i = 0; i < n; i++) {
      const from = 3 * order[i]!;
      for (let k = 0; k < 3; k++) this.corners[3 * i + k] = triangles[from + k]!;
      this.normals.set(unit([areas[from]!, areas[from + 1]!, areas[from + 2]!]), 3 * i);
    }
  }

  get isEmpty(): boolean {
    return this.corners.length === 0;
  }

  /** Sets the box round some triangles; its longest axis. */
  private boxRound(
    node: number,
    areas: Float64Array,
    triangles: Uint32Array,
    order: Uint32Array,
    from: number,
    to: number,
  ): Vector {
    const { positions } = this;
    let [nx, ny, nz] = [0, 0, 0];
    for (let i = from; i < to; i++) {
      const at = 3 * order[i]!;
      nx += areas[at]!;
      ny += areas[at + 1]!;
      nz += areas[at + 2]!;
    }
    const mean = unit([nx, ny, nz]);
    const w = mean === NOWHERE ? UP : mean;
    const p = unit(cross(Math.abs(w[0]) < 0.6 ? [1, 0, 0] : [0, 1, 0], w));
    const q = cross(w, p);
    // The greatest spread across the normal, of the corners.
    let [count, sp, sq, pp, pq, qq] = [0, 0, 0, 0, 0, 0];
    for (let i = from; i < to; i++)
      for (let k = 0; k < 3; k++) {
        const at = 3 * triangles[3 * order[i]! + k]!;
        const a = positions[at]! * p[0] + positions[at + 1]! * p[1] + positions[at + 2]! * p[2];
        const b = positions[at]! * q[0] + positions[at + 1]! * q[1] + positions[at + 2]! * q[2];
        count++;
        sp += a;
        sq += b;
        pp += a * a;
        pq += a * b;
        qq += b * b;
      }
    const turn = 0.5 * Math.atan2(2 * (pq - (sp * sq) / count), pp - (sp * sp) / count - qq + (sq * sq) / count);
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const u: Vector = [c * p[0] + s * q[0], c * p[1] + s * q[1], c * p[2] + s * q[2]];
    const axes = [u, cross(w, u), w] as const;
    const ends = axes.map((axis) => endsAlong(axis, positions, triangles, order, from, to));
    const box = BOX * node;
    let longest = 0;
    for (let j = 0; j < 3; j++) {
      const [least, greatest] = ends[j]!;
      const middle = (least + greatest) / 2;
      for (let k = 0; k < 3; k++) {
        this.boxes[box + k]! += middle * axes[j]![k]!;
        this.boxes[box + 3 + 3 * j + k] = axes[j]![k]!;
      }
      this.boxes[box + 12 + j] = (greatest - least) / 2;
      if (this.boxes[box + 12 + j]! > this.boxes[box + 12 + longest]!) longest = j;
    }
    return axes[longest]!;
  }
}

const UP: Vector = [0, 0, 1];

function endsAlong(
  axis: Vector,
  positions: Float64Array,
  triangles: Uint32Array,
  order: Uint32Array,
  from: number,
  to: number,
): readonly [number, number] {
  const ax = axis[0];
  const ay = axis[1];
  const az = axis[2];
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (let i = from; i < to; i++)
    for (let k = 0; k < 3; k++) {
      const at = 3 * triangles[3 * order[i]! + k]!;
      const far = positions[at]! * ax + positions[at + 1]! * ay + positions[at + 2]! * az;
      if (far < least) least = far;
      if (far > greatest) greatest = far;
    }
  return [least, greatest];
}

function areaNormal(positions: Float64Array, triangles: Uint32Array, from: number): Vector {
  const [a, b, c] = [3 * triangles[from]!, 3 * triangles[from + 1]!, 3 * triangles[from + 2]!];
  const [x, y, z] = [positions[a]!, positions[a + 1]!, positions[a + 2]!];
  return cross(
    [positions[b]! - x, positions[b + 1]! - y, positions[b + 2]! - z],
    [positions[c]! - x, positions[c + 1]! - y, positions[c + 2]! - z],
  );
}

function centresOf(positions: Float64Array, triangles: Uint32Array): Float64Array {
  const centres = new Float64Array(triangles.length);
  for (let i = 0; i < triangles.length; i += 3)
    for (let k = 0; k < 3; k++)
      centres[i + k] =
        (positions[3 * triangles[i]! + k]! +
          positions[3 * triangles[i + 1]! + k]! +
          positions[3 * triangles[i + 2]! + k]!) /
        3;
  return centres;
}

/** Those that lie less far along an axis into the first half: the median is found, no more is put in order (Hoare’s selection). */
function halve(
  order: Uint32Array,
  from: number,
  to: number,
  middle: number,
  centres: Float64Array,
  axis: Vector,
): void {
  const far = (i: number) => {
    const at = 3 * order[i]!;
    return centres[at]! * axis[0] + centres[at + 1]! * axis[1] + centres[at + 2]! * axis[2];
  };
  let [low, high] = [from, to - 1];
  while (low < high) {
    const pivot = far((low + high) >> 1);
    let [i, j] = [low, high];
    while (i <= j) {
      while (far(i) < pivot) i++;
      while (far(j) > pivot) j--;
      if (i > j) break;
      const swap = order[i]!;
      order[i++] = order[j]!;
      order[j--] = swap;
    }
    if (middle <= j) high = j;
    else if (middle >= i) low = i;
    else break;
  }
}
