/*
 * What depends on the triangles alone and not on where their corners lie: neighbours, border, and the order in which the
 * unknowns are eliminated. An edit of a measure keeps the triangles, so all this is worked out once for a kind of form.
 */

/** A triangulation made ready for the solver. */
export interface Topology {
  readonly vertices: number;
  readonly triangles: Uint32Array;
  /** Closed loops of border vertices, each anticlockwise about the surface; the first vertex is not repeated. */
  readonly loops: readonly Uint32Array[];
  /** Every edge once, as pairs of vertices. */
  readonly edges: Uint32Array;
  /** Edge of each side of each triangle: side i leads from corner i to corner i + 1. */
  readonly sides: Uint32Array;
  /** Whether the triangles hang together, and bound a disc: no handle, no hole, no edge of three triangles. */
  readonly isDisc: boolean;
  readonly symbolic: Symbolic;
}

/** Where the 2 × 2 blocks of a matrix over the vertices, and of its factor, are kept. */
export interface Symbolic {
  readonly size: number;
  /** Place of every vertex in the order of elimination. */
  readonly place: Uint32Array;
  /** Upper blocks by column: rows above the diagonal in `row`, from `start[k]` to `start[k + 1]`. */
  readonly start: Uint32Array;
  readonly row: Uint32Array;
  /** Block of every edge's off-diagonal. */
  readonly edgeBlock: Uint32Array;
  /** Rows of the factor: columns that stand in row k, ascending, from `rowStart[k]` to `rowStart[k + 1]`. */
  readonly rowStart: Uint32Array;
  readonly rowColumns: Uint32Array;
  /** Where each column of the factor begins. */
  readonly columnStart: Uint32Array;
}

const MOST_KEPT = 12;
const kept: Topology[] = [];

/** The topology of these triangles; one of the last few is handed out again. `parameters` steer the order of elimination. */
export function topologyOf(triangles: Uint32Array, parameters: Float64Array): Topology {
  const vertices = parameters.length / 2;
  const at = kept.findIndex((each) => each.vertices === vertices && same(each.triangles, triangles));
  const found = at < 0 ? makeTopology(Uint32Array.from(triangles), parameters) : kept.splice(at, 1)[0]!;
  kept.unshift(found);
  kept.length = Math.min(kept.length, MOST_KEPT);
  return found;
}

function same(one: Uint32Array, other: Uint32Array): boolean {
  if (one.length !== other.length) return false;
  for (let i = 0; i < one.length; i++) if (one[i] !== other[i]) return false;
  return true;
}

function makeTopology(triangles: Uint32Array, parameters: Float64Array): Topology {
  const vertices = parameters.length / 2;
  const { edges, sides, uses } = edgesOf(triangles, vertices);
  const { loops, tidy } = loopsOf(triangles, sides, uses, vertices);
  const euler = vertices - uses.length + triangles.length / 3;
  // A piece that hangs together, with one border and the Euler number of a disc.
  const isDisc = tidy && loops.length === 1 && euler === 1 && uses.every((count) => count <= 2);
  return { vertices, triangles, loops, edges, sides, isDisc, symbolic: symbolicOf(edges, vertices, parameters) };
}

function edgesOf(triangles: Uint32Array, vertices: number) {
  const numbers = new Map<number, number>();
  const sides = new Uint32Array(triangles.length);
  const edges: number[] = [];
  const uses: number[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    for (let i = 0; i < 3; i++) {
      const from = triangles[t + i]!;
      const to = triangles[t + ((i + 1) % 3)]!;
      const key = Math.min(from, to) * vertices + Math.max(from, to);
      let edge = numbers.get(key);
      if (edge === undefined) {
        edge = uses.length;
        numbers.set(key, edge);
        edges.push(from, to);
        uses.push(0);
      }
      uses[edge]!++;
      sides[t + i] = edge;
    }
  }
  return { edges: Uint32Array.from(edges), sides, uses };
}

function loopsOf(triangles: Uint32Array, sides: Uint32Array, uses: readonly number[], vertices: number) {
  const next = new Int32Array(vertices).fill(-1);
  let tidy = true;
  for (let i = 0; i < triangles.length; i++) {
    if (uses[sides[i]!] !== 1) continue;
    const from = triangles[i]!;
    // Two borders that meet in one vertex: no plate has that.
    if (next[from] !== -1) tidy = false;
    next[from] = triangles[i % 3 === 2 ? i - 2 : i + 1]!;
  }
  const loops: Uint32Array[] = [];
  for (let first = 0; first < vertices; first++) {
    if (next[first]! < 0) continue;
    const loop: number[] = [];
    for (let at = first; next[at]! >= 0; ) {
      const to = next[at]!;
      loop.push(at);
      next[at] = -1;
      at = to;
    }
    loops.push(Uint32Array.from(loop));
  }
  return { loops, tidy };
}

// ---- order of elimination ------------------------------------------------------------------------------------------

function symbolicOf(edges: Uint32Array, size: number, parameters: Float64Array): Symbolic {
  const neighbours = neighboursOf(edges, size);
  const place = nestedDissection(neighbours, size, parameters);
  const count = new Uint32Array(size + 1);
  for (let e = 0; e < edges.length; e += 2) count[Math.max(place[edges[e]!]!, place[edges[e + 1]!]!) + 1]!++;
  const start = runningSum(count);
  const cursor = start.slice();
  const row = new Uint32Array(edges.length / 2);
  const edgeBlock = new Uint32Array(edges.length / 2);
  for (let e = 0; e < edges.length; e += 2) {
    const one = place[edges[e]!]!;
    const other = place[edges[e + 1]!]!;
    const block = cursor[Math.max(one, other)]!++;
    row[block] = Math.min(one, other);
    edgeBlock[e / 2] = block;
  }
  return { size, place, start, row, edgeBlock, ...factorPattern(start, row, size) };
}

function neighboursOf(edges: Uint32Array, size: number): { start: Uint32Array; list: Uint32Array } {
  const count = new Uint32Array(size + 1);
  for (const vertex of edges) count[vertex + 1]!++;
  const start = runningSum(count);
  const cursor = start.slice();
  const list = new Uint32Array(edges.length);
  for (let e = 0; e < edges.length; e += 2) {
    list[cursor[edges[e]!]!++] = edges[e + 1]!;
    list[cursor[edges[e + 1]!]!++] = edges[e]!;
  }
  return { start, list };
}

/** Small enough to be eliminated in any order. */
const LEAF = 12;

/**
 * Nested dissection by bisecting the generator's parameters: both halves first, what parts them last (George 1973, from
 * memory). The parameter whose cut is the shorter one is taken.
 */
function nestedDissection(
  { start, list }: { start: Uint32Array; list: Uint32Array },
  size: number,
  parameters: Float64Array,
): Uint32Array {
  const place = new Uint32Array(size);
  const side = new Uint8Array(size);
  let last = size;
  const cut = (members: Uint32Array): void => {
    if (members.length <= LEAF) {
      for (const vertex of members) place[vertex] = --last;
      return;
    }
    const [first, second] = [0, 1].map((way) => halves(members, way)) as [Halves, Halves];
    const best = worth(second) < worth(first) ? second : first;
    if (!best.low.length || !best.high.length) {
      for (const vertex of members) place[vertex] = --last;
      return;
    }
    for (const vertex of best.between) place[vertex] = --last;
    cut(best.high);
    cut(best.low);
  };
  interface Halves {
    low: Uint32Array;
    high: Uint32Array;
    between: number[];
  }
  const worth = ({ low, high, between }: Halves) =>
    !low.length || !high.length ? size : between.length + 0.1 * Math.abs(low.length - high.length);
  const halves = (members: Uint32Array, way: number): Halves => {
    const values = Float64Array.from(members, (vertex) => parameters[2 * vertex + way]!).sort();
    const middle = values[values.length >> 1]!;
    const low: number[] = [];
    const high: number[] = [];
    const between: number[] = [];
    for (const vertex of members) side[vertex] = parameters[2 * vertex + way]! < middle ? 1 : 2;
    for (const vertex of members) {
      if (side[vertex] === 1) {
        let parts = false;
        for (let i = start[vertex]!; i < start[vertex + 1]!; i++) if (side[list[i]!] === 2) parts = true;
        (parts ? between : low).push(vertex);
      } else high.push(vertex);
    }
    for (const vertex of members) side[vertex] = 0;
    return { low: Uint32Array.from(low), high: Uint32Array.from(high), between };
  };
  cut(Uint32Array.from({ length: size }, (_, vertex) => vertex));
  return place;
}

/** Pattern of the factor by the elimination tree (Liu 1990, from memory). */
function factorPattern(start: Uint32Array, row: Uint32Array, size: number) {
  const parent = new Int32Array(size).fill(-1);
  const mark = new Int32Array(size).fill(-1);
  const rowStart = new Uint32Array(size + 1);
  const columnCount = new Uint32Array(size + 1);
  const columns: number[] = [];
  for (let k = 0; k < size; k++) {
    mark[k] = k;
    const from = columns.length;
    for (let p = start[k]!; p < start[k + 1]!; p++) {
      for (let i = row[p]!; mark[i] !== k; i = parent[i]!) {
        if (parent[i] === -1) parent[i] = k;
        mark[i] = k;
        columns.push(i);
        columnCount[i + 1]!++;
      }
    }
    const own = columns.slice(from).sort((a, b) => a - b);
    for (let i = 0; i < own.length; i++) columns[from + i] = own[i]!;
    rowStart[k + 1] = columns.length;
  }
  return { rowStart, rowColumns: Uint32Array.from(columns), columnStart: runningSum(columnCount) };
}

function runningSum(count: Uint32Array): Uint32Array {
  for (let i = 1; i < count.length; i++) count[i]! += count[i - 1]!;
  return count;
}
