import { oneByOne, type Steps } from '../../incremental/steps.ts';
import type { Chart, Spot, Track } from './chart.ts';
import type { Surface } from './surface.ts';
import { apart } from './vector.ts';

export interface Fineness {
  /** About how many vertices; 900 where left out. */
  readonly vertices?: number;
  /** Every count of rows and columns this many times over: 2 halves each triangle's sides exactly. */
  readonly refine?: number;
}

/** A mesh still in the square of its chart, every vertex by its u and v. */
export interface FlatMesh {
  readonly spots: Spot[];
  readonly triangles: number[];
  readonly edges: ReadonlyMap<string, Uint32Array>;
  readonly lines: ReadonlyMap<string, Uint32Array>;
  readonly folds: ReadonlyMap<string, Uint32Array>;
  /** Side of its triangles where it is not refined, mm. */
  readonly side: number;
}

/** The mesh of a chart with the true points and normals of its vertices. */
export function* raisedInSteps(chart: Chart, mesh: FlatMesh): Steps<Surface> {
  const count = mesh.spots.length;
  const positions = new Float64Array(3 * count);
  const normals = new Float64Array(3 * count);
  const parameters = new Float64Array(2 * count);
  for (const [i, [u, v]] of mesh.spots.entries()) {
    positions.set(chart.point(u, v), 3 * i);
    normals.set(chart.normal(u, v), 3 * i);
    parameters.set(chart.sheet(u, v), 2 * i);
    if (i % AT_A_TIME === AT_A_TIME - 1) yield undefined;
  }
  return {
    positions,
    normals,
    parameters,
    triangles: Uint32Array.from(mesh.triangles),
    edges: mesh.edges,
    lines: mesh.lines,
    folds: mesh.folds,
  };
}

/** Vertices that are placed between two stops: some of them want a way measured. */
const AT_A_TIME = 10;

/**
 * The chart triangulated: rows of as many vertices as the form is wide there, each joined to the next. Toward a pole the
 * rows thin out, so that triangles keep their size.
 */
export function* rowsInSteps(chart: Chart, { vertices = 900, refine = 1 }: Fineness = {}): Steps<FlatMesh> {
  const sectors = chart.columns.slice(1).map((to, i) => [chart.columns[i]!, to] as const);
  const { coarse, wide, side } = yield* gridOf(chart, sectors, vertices);
  const rows = (coarse.length - 1) * refine;
  // Of the coarsest mesh, so that a finer one holds all its vertices.
  const levels = coarse.slice(1).flatMap((to, i) => {
    const from = coarse[i]!;
    return Array.from({ length: refine }, (_, j) => from + ((to - from) * j) / refine);
  });
  levels.push(1);
  const counts = levels.map((_, j) => {
    if (j === 0 && chart.poles.bottom) return sectors.map(() => 0);
    if (j === rows && chart.poles.top) return sectors.map(() => 0);
    const [low, high] = [Math.floor(j / refine), Math.ceil(j / refine)];
    return sectors.map((_, i) => {
      const count = wide[low]![i]!;
      const grown = low === high ? count : count + (j / refine - low) * (wide[high]![i]! - count);
      return Math.max(1, Math.round(refine * grown));
    });
  });
  const spots: Spot[] = [];
  const starts = counts.map((row, j) => {
    const v = levels[j]!;
    if (row[0] === 0) return [spots.push([0.5, v]) - 1];
    return row.map((count, i) => {
      const [from, to] = sectors[i]!;
      const first = spots.length;
      for (let k = 0; k < count; k++) spots.push([from + ((to - from) * k) / count, v]);
      if (i === row.length - 1 && !chart.closed) spots.push([1, v]);
      return first;
    });
  });
  /** The vertices of one sector of a row, both ends with it. */
  const run = (j: number, i: number): number[] => {
    const row = counts[j]!;
    const start = starts[j]!;
    if (row[0] === 0) return [start[0]!];
    const own = Array.from({ length: row[i]! }, (_, k) => start[i]! + k);
    const next = i < row.length - 1 ? start[i + 1]! : chart.closed ? start[0]! : start[i]! + row[i]!;
    return [...own, next];
  };
  const triangles: number[] = [];
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < sectors.length; i++)
      joined(run(j, i), run(j + 1, i), sectors[i]![0] + sectors[i]![1] > 1, triangles);

  const rowOf = (v: number): number =>
    levels.reduce((best, level, j) => (Math.abs(level - v) < Math.abs(levels[best]! - v) ? j : best), 0);
  const along = (track: Track): Uint32Array => {
    const chain: number[] = [];
    const push = (vertex: number) => {
      if (chain[chain.length - 1] !== vertex) chain.push(vertex);
    };
    if (track.length === 1) push(vertexAt(track[0]![0], rowOf(track[0]![1])));
    for (let leg = 1; leg < track.length; leg++) {
      const [[u0, v0], [u1, v1]] = [track[leg - 1]!, track[leg]!];
      if (u0 === u1)
        for (let step = 0; step <= rows; step++) {
          const row = v0 < v1 ? step : rows - step;
          const v = levels[row]!;
          if (v >= Math.min(v0, v1) && v <= Math.max(v0, v1)) push(vertexAt(u0, row));
        }
      else {
        const whole = sectors.flatMap((sector, i) =>
          sector[0] >= Math.min(u0, u1) && sector[1] <= Math.max(u0, u1) ? [run(rowOf(v0), i)] : [],
        );
        for (const vertex of u0 < u1 ? whole.flat() : whole.flat().reverse()) push(vertex);
      }
    }
    return Uint32Array.from(chain);
  };
  const vertexAt = (u: number, j: number): number => {
    if (counts[j]![0] === 0) return starts[j]![0]!;
    const i = sectors.findIndex((sector) => u >= sector[0] && u < sector[1]);
    return i >= 0 && u === sectors[i]![0] ? starts[j]![i]! : run(j, sectors.length - 1).at(-1)!;
  };
  const named = (tracks: ReadonlyMap<string, Track>) =>
    new Map([...tracks].map(([name, track]) => [name, along(track)] as const));
  return {
    spots,
    triangles,
    edges: named(chart.edges),
    lines: named(chart.lines),
    folds: named(chart.folds ?? new Map()),
    side,
  };
}

type Sectors = readonly (readonly [from: number, to: number])[];

interface Grid {
  /** Places of the rows, rising from 0 to 1. */
  readonly coarse: number[];
  /** Triangles along each row, sector by sector. */
  readonly wide: number[][];
  readonly side: number;
}

/**
 * Rows and their shares for a mesh of about so many vertices. How large a form is tells little where it is drawn out or
 * pinched: then the triangles are made larger until there are not many more.
 */
function* gridOf(chart: Chart, sectors: Sectors, vertices: number): Steps<Grid> {
  const kept = grids.get(chart) ?? new Map<number, Grid>();
  grids.set(chart, kept);
  const grid = kept.get(vertices) ?? (yield* gridFor(chart, sectors, vertices));
  kept.set(vertices, grid);
  return grid;
}

/** A mesh and one twice as fine have the same grid: as long as their chart lives. */
const grids = new WeakMap<Chart, Map<number, Grid>>();

function* gridFor(chart: Chart, sectors: Sectors, vertices: number): Steps<Grid> {
  const most = MOST_FOR_ONE * vertices + MOST_MORE;
  let side = triangleSide(chart, vertices);
  for (let round = 0; ; round++) {
    const grid = yield* gridWith(chart, sectors, side);
    const count = grid.wide.reduce((sum, row) => row.reduce((more, each) => more + each, sum), 0);
    if (count <= most || round === MOST_TRIES) return grid;
    side *= 1.1 * Math.sqrt(count / most);
  }
}

/** A mesh has at most this many vertices for one that was asked for, and so many more: flutes want each a few columns. */
const MOST_FOR_ONE = 3;
const MOST_MORE = 1_500;
const MOST_TRIES = 12;

function* gridWith(chart: Chart, sectors: Sectors, side: number): Steps<Grid> {
  // Rows of equilateral triangles lie √3/2 of their side apart; a fold along a row is one of them.
  const breaks = [0, ...foldedRows(chart), 1];
  const coarse: number[] = [];
  for (const [i, to] of breaks.slice(1).entries()) {
    const from = breaks[i]!;
    let tall = 0;
    for (const [k, u] of chart.columns.entries()) {
      const way: Track = [
        [u, from],
        [u, to],
      ];
      tall = Math.max(tall, pathLength(chart, way));
      if (k % 8 === 7) yield undefined;
    }
    const count = between(breaks.length > 2 ? 1 : 2, Math.round(tall / (side * 0.866)), MOST);
    for (let j = 0; j < count; j++) coarse.push(from + ((to - from) * j) / count);
  }
  coarse.push(1);
  const wide = yield* oneByOne(coarse, (v) => sectors.map((sector) => segments(chart, sector, v, side)));
  return { coarse, wide, side };
}

/** Rows along which the surface is folded, rising. */
export function foldedRows({ folds }: Chart): number[] {
  const rows = [...(folds?.values() ?? [])].flatMap(([from, to]) => (from && to && from[1] === to[1] ? [from[1]] : []));
  return [...new Set(rows)].sort((a, b) => a - b);
}

/** Columns along which it is. */
export function foldedColumns({ folds }: Chart): number[] {
  const columns = [...(folds?.values() ?? [])].flatMap(([from, to]) =>
    from && to && from[0] === to[0] ? [from[0]] : [],
  );
  return [...new Set(columns)].sort((a, b) => a - b);
}

/** Side of the triangles of a mesh of so many vertices, mm. */
function triangleSide(chart: Chart, vertices: number): number {
  const bands = 12;
  let area = 0;
  for (let j = 0; j < bands; j++)
    area +=
      pathLength(chart, [
        [0, (j + 0.5) / bands],
        [1, (j + 0.5) / bands],
      ]) * pathLength(chart, MIDDLE_BAND(j / bands, (j + 1) / bands), 2);
  return Math.sqrt(area / (0.866 * Math.max(12, vertices)));
}

const MIDDLE_BAND = (from: number, to: number): Track => [
  [0.5, from],
  [0.5, to],
];

/** Length of the chords along a track, each leg in so many steps, mm. */
export function pathLength(chart: Chart, track: Track, steps = 32): number {
  let length = 0;
  for (let leg = 1; leg < track.length; leg++) {
    const [[u0, v0], [u1, v1]] = [track[leg - 1]!, track[leg]!];
    let from = chart.point(u0, v0);
    for (let step = 1; step <= steps; step++) {
      const to = chart.point(u0 + ((u1 - u0) * step) / steps, v0 + ((v1 - v0) * step) / steps);
      length += apart(from, to);
      from = to;
    }
  }
  return length;
}

/** More rows or columns than this make no better figure, only a slow one. */
const MOST = 400;

const between = (least: number, value: number, most: number) =>
  Number.isFinite(value) ? Math.min(most, Math.max(least, value)) : least;

function segments(chart: Chart, [from, to]: readonly [number, number], v: number, side: number): number {
  const wide = pathLength(
    chart,
    [
      [from, v],
      [to, v],
    ],
    // The narrower the sector, the fewer chords tell how wide it is.
    Math.min(12, Math.max(2, Math.round(48 * (to - from)))),
  );
  return between(1, Math.round(wide / side), MOST);
}

/** Joins two neighbouring rows of a sector; the sectors on the right mirror those on the left. */
function joined(low: readonly number[], high: readonly number[], mirror: boolean, triangles: number[]): void {
  const [m, n] = [low.length - 1, high.length - 1];
  const a = mirror ? [...low].reverse() : low;
  const b = mirror ? [...high].reverse() : high;
  const push = (x: number, y: number, z: number) => {
    if (mirror) triangles.push(x, z, y);
    else triangles.push(x, y, z);
  };
  let [i, j] = [0, 0];
  while (i < m || j < n) {
    // The row whose next vertex comes first goes on.
    if (j === n || (i < m && (i + 1) * n <= (j + 1) * m)) {
      push(a[i]!, a[i + 1]!, b[j]!);
      i++;
    } else {
      push(a[i]!, b[j + 1]!, b[j]!);
      j++;
    }
  }
}
