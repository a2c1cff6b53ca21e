import { Buffers } from './buffers.ts';
import type { Symbolic, Topology } from './topology.ts';

/**
 * A symmetric matrix over the vertices that does the same to x and to y: one number where a `BlockMatrix` has a block, and an
 * eighth of its work.
 */
export class EvenMatrix {
  /** By place in the order of elimination. */
  readonly diagonal: Float64Array;
  /** Row of the earlier vertex, column of the later one. */
  readonly upper: Float64Array;

  constructor(private readonly topology: Topology) {
    this.diagonal = new Float64Array(topology.symbolic.size);
    this.upper = new Float64Array(topology.symbolic.row.length);
  }

  addOwn(vertex: number, value: number): void {
    this.diagonal[this.topology.symbolic.place[vertex]!]! += value;
  }

  /** To both of the two places where the ends of an edge meet. */
  addPair(edge: number, value: number): void {
    this.upper[this.topology.symbolic.edgeBlock[edge]!]! += value;
  }

  /** Fixes vertices: their rows and columns become those of the unit matrix. What they pulled at goes to `right`, x and y per vertex. */
  fix(fixed: Uint8Array, values: Float64Array, right: Float64Array): void {
    const { edges, symbolic } = this.topology;
    const pull = (vertex: number, by: number, value: number) => {
      right[2 * vertex]! -= value * values[2 * by]!;
      right[2 * vertex + 1]! -= value * values[2 * by + 1]!;
    };
    for (let e = 0; e < edges.length; e += 2) {
      const one = edges[e]!;
      const other = edges[e + 1]!;
      if (!fixed[one] && !fixed[other]) continue;
      const at = symbolic.edgeBlock[e / 2]!;
      const value = this.upper[at]!;
      if (!fixed[one]) pull(one, other, value);
      else if (!fixed[other]) pull(other, one, value);
      this.upper[at] = 0;
    }
    for (let vertex = 0; vertex < fixed.length; vertex++) {
      if (!fixed[vertex]) continue;
      this.diagonal[symbolic.place[vertex]!] = 1;
      right[2 * vertex] = values[2 * vertex]!;
      right[2 * vertex + 1] = values[2 * vertex + 1]!;
    }
  }
}

const buffers = new Buffers();

/** The factors L·D·Lᵀ of an {@link EvenMatrix}, as those of a `BlockMatrix`: good until the next is worked out. */
export class EvenFactor {
  private readonly inverse: Float64Array;
  private readonly lower: Float64Array;
  private readonly lowerRow: Uint32Array;
  private readonly filled: Uint32Array;
  private readonly work: Float64Array;

  constructor(private readonly symbolic: Symbolic) {
    const { size, rowColumns } = symbolic;
    buffers.begin();
    this.inverse = buffers.floats(size);
    this.lower = buffers.floats(rowColumns.length);
    this.lowerRow = buffers.whole(rowColumns.length);
    this.filled = buffers.whole(size);
    this.work = buffers.floats(2 * size);
  }

  /** @returns false where a pivot is not positive: the matrix is then not positive definite and nothing may be solved. */
  of({ diagonal, upper }: EvenMatrix): boolean {
    const { size, start, row, rowStart, rowColumns, columnStart } = this.symbolic;
    const { inverse, lower, lowerRow, filled, work } = this;
    filled.set(columnStart.subarray(0, size));
    work.fill(0);
    for (let k = 0; k < size; k++) {
      for (let p = start[k]!; p < start[k + 1]!; p++) work[row[p]!] = upper[p]!;
      let pivot = diagonal[k]!;
      for (let r = rowStart[k]!; r < rowStart[k + 1]!; r++) {
        const i = rowColumns[r]!;
        const value = work[i]!;
        work[i] = 0;
        const end = filled[i]!;
        for (let p = columnStart[i]!; p < end; p++) work[lowerRow[p]!]! -= lower[p]! * value;
        const share = value * inverse[i]!;
        pivot -= share * value;
        lower[end] = share;
        lowerRow[end] = k;
        filled[i] = end + 1;
      }
      if (!(pivot > 0)) return false;
      inverse[k] = 1 / pivot;
    }
    return true;
  }

  /** Solves for `right`, x and y per vertex, which the answer replaces. */
  solve(right: Float64Array): void {
    const { size, place, columnStart } = this.symbolic;
    const { inverse, lower, lowerRow, filled, work: b } = this;
    for (let vertex = 0; vertex < size; vertex++) {
      b[2 * place[vertex]!] = right[2 * vertex]!;
      b[2 * place[vertex]! + 1] = right[2 * vertex + 1]!;
    }
    for (let i = 0; i < size; i++) {
      const x = b[2 * i]!;
      const y = b[2 * i + 1]!;
      for (let p = columnStart[i]!; p < filled[i]!; p++) {
        const to = 2 * lowerRow[p]!;
        b[to]! -= lower[p]! * x;
        b[to + 1]! -= lower[p]! * y;
      }
    }
    for (let i = size - 1; i >= 0; i--) {
      let x = inverse[i]! * b[2 * i]!;
      let y = inverse[i]! * b[2 * i + 1]!;
      for (let p = columnStart[i]!; p < filled[i]!; p++) {
        const from = 2 * lowerRow[p]!;
        x -= lower[p]! * b[from]!;
        y -= lower[p]! * b[from + 1]!;
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
