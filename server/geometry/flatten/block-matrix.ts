import { Buffers } from './buffers.ts';
import type { EvenMatrix } from './even-matrix.ts';
import type { Symbolic, Topology } from './topology.ts';

/** A symmetric matrix of 2 × 2 blocks, one row and column a vertex, with a block wherever an edge of the mesh joins two. */
export class BlockMatrix {
  /** xx, xy, yy of every vertex's own block, by place in the order of elimination. */
  readonly diagonal: Float64Array;
  /** Upper blocks: row of the earlier vertex, column of the later one; xx, xy, yx, yy. */
  readonly upper: Float64Array;
  private readonly symbolic: Symbolic;

  constructor(private readonly topology: Topology) {
    this.symbolic = topology.symbolic;
    this.diagonal = new Float64Array(3 * this.symbolic.size);
    this.upper = new Float64Array(4 * this.symbolic.row.length);
  }

  /** One that does to x and to y what the other does. */
  static of(topology: Topology, even: EvenMatrix): BlockMatrix {
    const matrix = new BlockMatrix(topology);
    for (const [i, value] of even.diagonal.entries()) {
      matrix.diagonal[3 * i] = value;
      matrix.diagonal[3 * i + 2] = value;
    }
    for (const [i, value] of even.upper.entries()) {
      matrix.upper[4 * i] = value;
      matrix.upper[4 * i + 3] = value;
    }
    return matrix;
  }

  clear(): void {
    this.diagonal.fill(0);
    this.upper.fill(0);
  }

  addOwn(vertex: number, xx: number, xy: number, yy: number): void {
    const at = 3 * this.symbolic.place[vertex]!;
    this.diagonal[at]! += xx;
    this.diagonal[at + 1]! += xy;
    this.diagonal[at + 2]! += yy;
  }

  /** Adds to the block whose row is `from`, whose column is `to`, and to its mirror. `edge` joins the two. */
  addPair(edge: number, from: number, to: number, xx: number, xy: number, yx: number, yy: number): void {
    const { place, edgeBlock } = this.symbolic;
    const at = 4 * edgeBlock[edge]!;
    const straight = place[from]! < place[to]!;
    this.upper[at]! += xx;
    this.upper[at + 1]! += straight ? xy : yx;
    this.upper[at + 2]! += straight ? yx : xy;
    this.upper[at + 3]! += yy;
  }

  /** Fixes vertices: their rows and columns become those of the unit matrix. What they pulled at goes to `right`, per vertex. */
  fix(fixed: Uint8Array, values: Float64Array, right: Float64Array): void {
    const { edges, symbolic } = this.topology;
    const { place, edgeBlock } = symbolic;
    for (let e = 0; e < edges.length; e += 2) {
      const at = 4 * edgeBlock[e / 2]!;
      const early = place[edges[e]!]! < place[edges[e + 1]!]! ? edges[e]! : edges[e + 1]!;
      const late = early === edges[e]! ? edges[e + 1]! : edges[e]!;
      if (!fixed[early] && !fixed[late]) continue;
      const [xx, xy, yx, yy] = [this.upper[at]!, this.upper[at + 1]!, this.upper[at + 2]!, this.upper[at + 3]!];
      if (!fixed[early]) {
        right[2 * early]! -= xx * values[2 * late]! + xy * values[2 * late + 1]!;
        right[2 * early + 1]! -= yx * values[2 * late]! + yy * values[2 * late + 1]!;
      } else if (!fixed[late]) {
        right[2 * late]! -= xx * values[2 * early]! + yx * values[2 * early + 1]!;
        right[2 * late + 1]! -= xy * values[2 * early]! + yy * values[2 * early + 1]!;
      }
      this.upper.fill(0, at, at + 4);
    }
    for (let vertex = 0; vertex < fixed.length; vertex++) {
      if (!fixed[vertex]) continue;
      const at = 3 * place[vertex]!;
      this.diagonal[at] = 1;
      this.diagonal[at + 1] = 0;
      this.diagonal[at + 2] = 1;
      right[2 * vertex] = values[2 * vertex]!;
      right[2 * vertex + 1] = values[2 * vertex + 1]!;
    }
  }
}

const buffers = new Buffers();

/**
 * The factors L·D·Lᵀ of a {@link BlockMatrix}, worked out row by row (up-looking; Davis 2005, from memory). All of them lie in the
 * same memory, so one is good until the next is worked out: solve before you stop.
 */
export class Factor {
  private readonly inverse: Float64Array;
  private readonly lower: Float64Array;
  private readonly lowerRow: Uint32Array;
  private readonly filled: Uint32Array;
  private readonly work: Float64Array;
  private readonly right: Float64Array;

  constructor(private readonly symbolic: Symbolic) {
    const { size, rowColumns } = symbolic;
    buffers.begin();
    this.inverse = buffers.floats(3 * size);
    this.lower = buffers.floats(4 * rowColumns.length);
    this.lowerRow = buffers.whole(rowColumns.length);
    this.filled = buffers.whole(size);
    this.work = buffers.floats(4 * size);
    this.right = buffers.floats(2 * size);
  }

  /**
   * Factors the matrix with `shift` added to its diagonal.
   *
   * @returns false where a pivot is not positive: the matrix is then not positive definite and nothing may be solved.
   */
  of(matrix: BlockMatrix, shift: number): boolean {
    const { size, start, row, rowStart, rowColumns, columnStart } = this.symbolic;
    const { inverse, lower, lowerRow, filled, work } = this;
    const { diagonal, upper } = matrix;
    filled.set(columnStart.subarray(0, size));
    work.fill(0);
    for (let k = 0; k < size; k++) {
      for (let p = start[k]!; p < start[k + 1]!; p++) {
        const at = 4 * row[p]!;
        work[at] = upper[4 * p]!;
        work[at + 1] = upper[4 * p + 1]!;
        work[at + 2] = upper[4 * p + 2]!;
        work[at + 3] = upper[4 * p + 3]!;
      }
      let xx = diagonal[3 * k]! + shift;
      let xy = diagonal[3 * k + 1]!;
      let yy = diagonal[3 * k + 2]! + shift;
      for (let r = rowStart[k]!; r < rowStart[k + 1]!; r++) {
        const i = rowColumns[r]!;
        const y = 4 * i;
        const a = work[y]!;
        const b = work[y + 1]!;
        const c = work[y + 2]!;
        const d = work[y + 3]!;
        work[y] = 0;
        work[y + 1] = 0;
        work[y + 2] = 0;
        work[y + 3] = 0;
        const end = filled[i]!;
        for (let p = columnStart[i]!; p < end; p++) {
          const l = 4 * p;
          const to = 4 * lowerRow[p]!;
          const l0 = lower[l]!;
          const l1 = lower[l + 1]!;
          const l2 = lower[l + 2]!;
          const l3 = lower[l + 3]!;
          work[to]! -= l0 * a + l1 * c;
          work[to + 1]! -= l0 * b + l1 * d;
          work[to + 2]! -= l2 * a + l3 * c;
          work[to + 3]! -= l2 * b + l3 * d;
        }
        const i0 = inverse[3 * i]!;
        const i1 = inverse[3 * i + 1]!;
        const i2 = inverse[3 * i + 2]!;
        // Row k of the factor: Yᵀ times the inverse of column i's pivot.
        const m0 = a * i0 + c * i1;
        const m1 = a * i1 + c * i2;
        const m2 = b * i0 + d * i1;
        const m3 = b * i1 + d * i2;
        xx -= m0 * a + m1 * c;
        xy -= m0 * b + m1 * d;
        yy -= m2 * b + m3 * d;
        lower[4 * end] = m0;
        lower[4 * end + 1] = m1;
        lower[4 * end + 2] = m2;
        lower[4 * end + 3] = m3;
        lowerRow[end] = k;
        filled[i] = end + 1;
      }
      const determinant = xx * yy - xy * xy;
      if (!(xx > 0) || !(determinant > 0)) return false;
      inverse[3 * k] = yy / determinant;
      inverse[3 * k + 1] = -xy / determinant;
      inverse[3 * k + 2] = xx / determinant;
    }
    return true;
  }

  /** Solves for `right`, x and y per vertex, which the answer replaces. */
  solve(right: Float64Array): void {
    const { size, place, columnStart } = this.symbolic;
    const { inverse, lower, lowerRow, filled, right: b } = this;
    for (let vertex = 0; vertex < size; vertex++) {
      b[2 * place[vertex]!] = right[2 * vertex]!;
      b[2 * place[vertex]! + 1] = right[2 * vertex + 1]!;
    }
    for (let i = 0; i < size; i++) {
      const x = b[2 * i]!;
      const y = b[2 * i + 1]!;
      for (let p = columnStart[i]!; p < filled[i]!; p++) {
        const to = 2 * lowerRow[p]!;
        b[to]! -= lower[4 * p]! * x + lower[4 * p + 1]! * y;
        b[to + 1]! -= lower[4 * p + 2]! * x + lower[4 * p + 3]! * y;
      }
    }
    for (let i = size - 1; i >= 0; i--) {
      let x = inverse[3 * i]! * b[2 * i]! + inverse[3 * i + 1]! * b[2 * i + 1]!;
      let y = inverse[3 * i + 1]! * b[2 * i]! + inverse[3 * i + 2]! * b[2 * i + 1]!;
      for (let p = columnStart[i]!; p < filled[i]!; p++) {
        const from = 2 * lowerRow[p]!;
        x -= lower[4 * p]! * b[from]! + lower[4 * p + 2]! * b[from + 1]!;
        y -= lower[4 * p + 1]! * b[from]! + lower[4 * p + 3]! * b[from + 1]!;
      }
      b[2 * i] = x;
      b[2 * i + 1] = y;
    }
    for (let vertex = 0; vertex < size; vertex++) {
      right[2 * vertex] = b[2 * place[vertex]!]!;
      right[2 * vertex + 1] = b[2 * place[vertex]! + 1]!;
    }
  }
}
