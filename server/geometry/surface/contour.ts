import { oneByOne, type Steps } from '../../incremental/steps.ts';
import { lengthThrough } from '../flatten/curve.ts';
import { contains } from '../outline/measure.ts';
import type { Point } from '../outline/span.ts';
import { straight, wayOf } from './along.ts';
import { type Chart, levelAt, type Spot, type Track } from './chart.ts';
import type { CutForm } from './cut.ts';
import { foldedColumns, foldedRows, pathLength } from './mesh.ts';
import { apart, dot, plus, type Vector } from './vector.ts';
import { directionOut, tangent } from './walk.ts';

/*
 * Sections of a formed plate in one plane: what a template is cut to. A level is seen from above with the front up, a
 * profile from the side with the form's axis up.
 */

/** A section, from left to right as the form is seen from outside: the outside lies to the right of the way it runs. mm. */
export interface Contour {
  readonly points: readonly Point[];
  /** Points where it turns sharply: on a ridge. */
  readonly corners: ReadonlySet<number>;
  /** Goes all the way round: the first point stands again at the end. */
  readonly closed: boolean;
  /**
   * First and last of the points of each stretch of metal. Between them lies a bay, over which the line runs on as the
   * form did before it was cut, or nothing, which it crosses straight.
   */
  readonly metal: readonly (readonly [first: number, last: number])[];
  /** The way in the form that runs right in the drawing. */
  readonly right: Vector;
}

export interface ContourOptions {
  /** Moves the surface along its normals, outward above nought: half the thickness for a template that lies outside. */
  readonly out?: number;
  /** What bays leave of the form. */
  readonly cut?: CutForm | undefined;
}

/** How far up a form reaches, mm at the middle of the thickness. */
export interface Reach {
  readonly low: number;
  readonly high: number;
}

/** Columns lie no further apart than this, mm, but for very long forms. */
const COLUMN = 4;
const [FEWEST, MOST] = [48, 240];
const ROWS = 24;
/** Points nearer than this are one, mm. */
const ONE = 0.02;
/** An edge that is so even, mm, lies in a level itself. */
const LEVEL = 0.01;

const REACH = 12;

/** Lowest and highest place of a form. */
export function reachOf(chart: Chart): Reach {
  let [low, high] = [Infinity, -Infinity];
  for (let j = 0; j <= REACH; j++)
    for (let i = 0; i <= REACH; i++) {
      const z = chart.point(i / REACH, j / REACH)[2];
      low = Math.min(low, z);
      high = Math.max(high, z);
    }
  return { low, high };
}

/**
 * The section at a height, in the heights of the chart; nothing where the form is nowhere so high.
 *
 * It is the true section of the surface that is moved out, not the moved section: the two differ where the wall slopes.
 * An edge that lies in a level is carried straight on by a little, so that its own height has a section whichever way the
 * wall leans there.
 */
export function* contourInSteps(
  chart: Chart,
  height: number,
  { out = 0, cut }: ContourOptions = {},
): Steps<Contour | undefined> {
  const face = (u: number, v: number): Vector => {
    const row = Math.min(1, Math.max(0, v));
    const on = plus(chart.point(u, row), directionOut(chart, [u, row]), out);
    return row === v ? on : plus(on, tangent(chart, [u, row], 1), v - row);
  };
  const grid = gridOf(chart, Math.abs(out));
  yield undefined;
  const chains = yield* chainsOn(grid, chart.closed, (u, v) => face(u, v)[2] - height);
  const runs = chains
    .map((chain): Run => {
      const spots = withoutTwins(chain.map((spot) => ({ spot, at: face(...spot) })));
      const flat = spots.map(({ spot, at }): Placed => ({ spot, x: at[0], y: at[1] }));
      return outsideRight(chart, flat) ? flat : flat.reverse();
    })
    .filter((run) => run.length > 2);
  yield undefined;
  runs.sort((a, b) => a[a.length >> 1]!.spot[0] - b[b.length >> 1]!.spot[0]);
  return runs.length ? contourOf(chart, runs, cut, [1, 0, 0]) : undefined;
}

/** Why there is no profile along a line. */
export type NoProfile = 'no such line' | 'not in one plane';

/** How far the surface along a line may lean out of the plane that the line lies in, mm. */
const IN_PLANE = 0.1;

/**
 * The section along an edge or a line of the form that lies in one upright plane, square to the surface. The outside of
 * a single column lies to the right of the drawing; a line over the crown runs over it from right to left.
 */
export function profileAlong(chart: Chart, name: string, { out = 0, cut }: ContourOptions = {}): Contour | NoProfile {
  const found = planeAlong(chart, name);
  if (typeof found === 'string') return found;
  const { track, across } = found;
  const way = wayOf(chart, track);
  const length = pathLength(
    chart,
    Array.from({ length: 33 }, (_, i) => way(i / 32)),
    1,
  );
  // Even in number, so that a line over the crown has a point on it.
  const steps = 2 * Math.min(MOST, Math.max(FEWEST, Math.ceil(length / COLUMN / 2)));
  const even = Array.from({ length: steps + 1 }, (_, i) => way(i / steps));
  const run: Placed[] = [];
  for (const spot of throughFolds(chart, even)) {
    const at = plus(chart.point(...spot), directionOut(chart, spot), out);
    const placed = { spot, x: dot(at, across), y: at[2] };
    const last = run.at(-1);
    if (!last || Math.hypot(placed.x - last.x, placed.y - last.y) > ONE) run.push(placed);
  }
  return contourOf(chart, [run], cut, across);
}

/** Way along the metal of a section, mm: smooth curves through its points. */
export function contourLength({ points, corners, metal }: Contour): number {
  let length = 0;
  for (const [first, last] of metal) {
    const stops = [first, ...[...corners].filter((i) => i > first && i < last).sort((a, b) => a - b), last];
    for (const [i, to] of stops.slice(1).entries()) {
      const run = points.slice(stops[i], to + 1).flatMap(({ x, y }) => [x, y]);
      length += lengthThrough(Float64Array.from(run), 2);
    }
  }
  return length;
}

/** From where to where the metal of a section reaches across or up, mm: the summit of the curve, not its highest point. */
function contourSpan({ points, corners, metal }: Contour, axis: 'x' | 'y'): readonly [least: number, most: number] {
  let [least, most] = [Infinity, -Infinity];
  for (const [first, last] of metal)
    for (let i = first; i <= last; i++) {
      const own = points[i]![axis];
      const [before, after] = [points[i - 1]?.[axis], points[i + 1]?.[axis]];
      let summit = own;
      if (i > first && i < last && !corners.has(i) && before !== undefined && after !== undefined) {
        const bend = after - 2 * own + before;
        // A parabola through it and its neighbours, where it is the highest or the lowest of the three.
        if ((after - own) * (own - before) <= 0 && bend !== 0) summit = own - (after - before) ** 2 / (8 * bend);
      }
      least = Math.min(least, summit);
      most = Math.max(most, summit);
    }
  return [least, most];
}

/** What a section measures; nothing where it has no metal. */
export interface ContourMeasures {
  readonly length: number;
  /** Stretches of metal that it is made of. */
  readonly parts: number;
  /** Points that the length is reckoned through. */
  readonly points: number;
  readonly x: readonly [least: number, most: number];
  readonly y: readonly [least: number, most: number];
}

export function measuresOf(contour: Contour): ContourMeasures | undefined {
  if (!contour.metal.length) return undefined;
  return {
    length: contourLength(contour),
    parts: contour.metal.length,
    points: contour.metal.reduce((sum, [first, last]) => sum + last - first + 1, 0),
    x: contourSpan(contour, 'x'),
    y: contourSpan(contour, 'y'),
  };
}

/** Points of a form by its columns and rows, from which its sections in any plane are begun. */
export interface PointGrid extends Grid {
  readonly points: readonly (readonly Vector[])[];
}

export function* pointGridInSteps(chart: Chart): Steps<PointGrid> {
  const { columns, rows } = gridOf(chart, 0);
  const own = rows.filter((v) => v >= 0 && v <= 1);
  return {
    columns,
    rows: own,
    points: yield* oneByOne(own, (v) => columns.map((u) => chart.point(u, v))),
  };
}

/** The lines on the metal of a form along which a function of its points is nought, each as spots in order. */
export function* linesWhereInSteps(
  chart: Chart,
  grid: PointGrid,
  of: (point: Vector) => number,
  cut?: CutForm,
): Steps<Spot[][]> {
  const values = grid.points.map((row) => row.map(of));
  const chains = yield* chainsOn(grid, chart.closed, (u, v) => of(chart.point(u, v)), values);
  const within = metalOf(chart, cut);
  return cut ? chains.flatMap((chain) => metalParts(chart, chain, within)) : chains;
}

function metalParts(chart: Chart, chain: readonly Spot[], within: (spot: Spot) => boolean): Spot[][] {
  const parts: Spot[][] = [];
  let part: Spot[] = [];
  for (const [i, spot] of chain.entries()) {
    const before = chain[i - 1];
    const is = within(spot);
    if (before && within(before) !== is) {
      const border = spotBetween(chart, before, spot, within);
      part.push(border);
      if (!is) {
        parts.push(part);
        part = [];
      }
    }
    if (is) part.push(spot);
  }
  if (part.length > 1) parts.push(part);
  return parts;
}

// ---- parts of the job ----------------------------------------------------------------------------------------------

interface Placed extends Point {
  readonly spot: Spot;
}
type Run = Placed[];

interface Grid {
  readonly columns: readonly number[];
  readonly rows: readonly number[];
}

/** Columns and rows of a chart, its own and its folds among them; one row more beyond an edge that lies in a level. */
function gridOf(chart: Chart, out: number): Grid {
  const wide = Math.max(...[0.25, 0.5, 0.75].map((v) => pathLength(chart, levelAt(v), 12)));
  const count = Math.min(MOST, Math.max(FEWEST, Math.ceil(wide / COLUMN)));
  const columns = withStops(count, [...chart.columns, ...foldedColumns(chart)]);
  const rows = withStops(ROWS, foldedRows(chart));
  const high = apart(chart.point(0.5, 0), chart.point(0.5, 1));
  const beyond = Math.min(0.2, (2 * out + 1) / Math.max(high, 1));
  const isLevel = (v: number) => {
    const heights = columns.map((u) => chart.point(u, v)[2]);
    return Math.max(...heights) - Math.min(...heights) < LEVEL;
  };
  if (!chart.poles.bottom && isLevel(0)) rows.unshift(-beyond);
  if (!chart.poles.top && isLevel(1)) rows.push(1 + beyond);
  return { columns, rows };
}

/** Even steps from 0 to 1, those next to a stop moved onto it. */
function withStops(count: number, stops: readonly number[]): number[] {
  const inner = stops.filter((stop) => stop > 1e-9 && stop < 1 - 1e-9);
  const even = Array.from({ length: count + 1 }, (_, i) => i / count);
  const clear = even.filter(
    (each) => each === 0 || each === 1 || inner.every((stop) => Math.abs(each - stop) > 0.3 / count),
  );
  return [...new Set([...clear, ...inner])].sort((a, b) => a - b);
}

/** The lines in a grid along which a function is nought, each as spots in order; a ring repeats its first one. */
function* chainsOn(
  { columns, rows }: Grid,
  closed: boolean,
  at: (u: number, v: number) => number,
  known?: number[][],
): Steps<Spot[][]> {
  const wide = columns.length;
  const values = known ?? (yield* oneByOne(rows, (v) => columns.map((u) => at(u, v))));
  // Where the form closes, its last column is its first again.
  if (closed) for (const row of values) row[wide - 1] = row[0]!;
  const column = (i: number) => (closed && i === wide - 1 ? 0 : i);
  const spots = new Map<number, Spot>();
  const joined = new Map<number, number[]>();
  const crossing = (i: number, j: number, upward: boolean): number | undefined => {
    const [a, b] = [values[j]![i]!, upward ? values[j + 1]![i]! : values[j]![i + 1]!];
    if (a >= 0 === b >= 0) return undefined;
    const key = 2 * (j * wide + (upward ? column(i) : i)) + (upward ? 1 : 0);
    if (!spots.has(key)) {
      const from: Spot = [columns[i]!, rows[j]!];
      const to: Spot = upward ? [columns[i]!, rows[j + 1]!] : [columns[i + 1]!, rows[j]!];
      spots.set(key, noughtBetween(at, from, to, a, b));
    }
    return key;
  };
  const join = (one: number, other: number) => {
    joined.set(one, [...(joined.get(one) ?? []), other]);
    joined.set(other, [...(joined.get(other) ?? []), one]);
  };
  for (let j = 0; j + 1 < rows.length; j++) {
    yield undefined;
    for (let i = 0; i + 1 < wide; i++) {
      // Round the cell: below, right, above, left.
      const crossed = [
        crossing(i, j, false),
        crossing(i + 1, j, true),
        crossing(i, j + 1, false),
        crossing(i, j, true),
      ];
      const found = crossed.filter((each) => each !== undefined);
      if (found.length === 2) join(found[0]!, found[1]!);
      if (found.length !== 4) continue;
      // Two lines pass: the middle tells which corners lie together.
      const middle = at((columns[i]! + columns[i + 1]!) / 2, (rows[j]! + rows[j + 1]!) / 2) >= 0;
      const [below, right, above, left] = found as [number, number, number, number];
      if (middle === values[j]![i]! >= 0) {
        join(below, right);
        join(above, left);
      } else {
        join(left, below);
        join(right, above);
      }
    }
  }
  return chained(joined).map((chain) => chain.map((key) => spots.get(key)!));
}

/** Where a function is nought between two spots, by false position (the Illinois rule). */
function noughtBetween(at: (u: number, v: number) => number, from: Spot, to: Spot, a: number, b: number): Spot {
  const on = straight(from, to);
  let [low, high] = [0, 1];
  let [atLow, atHigh] = [a, b];
  let share = 0.5;
  let kept = 0;
  for (let i = 0; i < 60 && high - low > 1e-12; i++) {
    share = atLow === atHigh ? (low + high) / 2 : low - (atLow * (high - low)) / (atHigh - atLow);
    const value = at(...on(share));
    if (Math.abs(value) < 1e-9) break;
    // An end that stays twice over counts for half, so that it moves too.
    if (value >= 0 === atLow >= 0) {
      [low, atLow] = [share, value];
      if (kept === 1) atHigh /= 2;
      kept = 1;
    } else {
      [high, atHigh] = [share, value];
      if (kept === -1) atLow /= 2;
      kept = -1;
    }
  }
  return on(share);
}

function chained(joined: ReadonlyMap<number, number[]>): number[][] {
  const left = new Set(joined.keys());
  const walk = (start: number): number[] => {
    const chain: number[] = [];
    for (let at: number | undefined = start; at !== undefined; at = joined.get(at)!.find((each) => left.has(each))) {
      left.delete(at);
      chain.push(at);
    }
    return chain;
  };
  // Open ones from their ends; what is left then are rings.
  const open = [...joined].filter(([, others]) => others.length === 1).map(([key]) => key);
  const chains = open.flatMap((key) => (left.has(key) ? [walk(key)] : []));
  for (const key of joined.keys()) if (left.has(key)) chains.push([...walk(key), key]);
  return chains;
}

/** Without points that lie on the one before; the ends stay. */
function withoutTwins(run: { spot: Spot; at: Vector }[]): { spot: Spot; at: Vector }[] {
  const kept: { spot: Spot; at: Vector }[] = [];
  for (const [i, each] of run.entries()) {
    const last = kept.at(-1);
    if (!last || apart(last.at, each.at) > ONE) kept.push(each);
    else if (i === run.length - 1 && kept.length > 1) kept[kept.length - 1] = each;
  }
  return kept;
}

/** A turn of so many radians is a corner on a fold; elsewhere, on a ridge, if it is so many times that of its neighbours. */
const SHARP = 0.1;
const SHARPER = 3;

function sharpIn(chart: Chart, run: Run): Set<number> {
  const [columns, rows] = [new Set(foldedColumns(chart)), new Set(foldedRows(chart))];
  const onFold = ({ spot: [u, v] }: Placed) => columns.has(u) || rows.has(v);
  const turns = run.map((at, i) => {
    const [before, after] = [run[i - 1], run[i + 1]];
    if (!before || !after) return 0;
    const [ax, ay, bx, by] = [at.x - before.x, at.y - before.y, after.x - at.x, after.y - at.y];
    return Math.abs(Math.atan2(ax * by - ay * bx, ax * bx + ay * by));
  });
  return new Set(
    turns.flatMap((turn, i) =>
      turn > SHARP && (onFold(run[i]!) || turn > SHARPER * Math.max(turns[i - 1] ?? 0, turns[i + 1] ?? 0)) ? [i] : [],
    ),
  );
}

/** Whether the surface's outside lies to the right of the way a run goes. */
function outsideRight(chart: Chart, run: Run): boolean {
  let right = 0;
  for (let i = 1; i < run.length; i++) {
    const [from, to] = [run[i - 1]!, run[i]!];
    const [u, v] = to.spot;
    const normal = chart.normal(u, Math.min(1, Math.max(0, v)));
    right += normal[0] * (to.y - from.y) - normal[1] * (to.x - from.x);
  }
  return right > 0;
}

/** Spots up or down columns, with one on every fold that is passed between two of them in place of the nearer one. */
function throughFolds(chart: Chart, spots: readonly Spot[]): Spot[] {
  const moved = spots.map(([u, v]): Spot => [u, v]);
  for (const fold of foldedRows(chart))
    for (const [i, from] of spots.entries()) {
      const to = spots[i + 1];
      if (!to || to[0] !== from[0] || (from[1] - fold) * (to[1] - fold) > 0) continue;
      const nearer = Math.abs(from[1] - fold) <= Math.abs(to[1] - fold) ? i : i + 1;
      if (nearer > 0 && nearer < spots.length - 1) moved[nearer] = [from[0], fold];
    }
  return moved;
}

/** An edge or a line that lies in one upright plane, and the direction, level, that runs right in its drawing. */
export function planeAlong(chart: Chart, name: string): { readonly track: Track; readonly across: Vector } | NoProfile {
  const track = chart.lines.get(name) ?? chart.edges.get(name);
  if (!track || track.length < 2) return 'no such line';
  const across = planeOf(chart, track);
  return across ? { track, across } : 'not in one plane';
}

function planeOf(chart: Chart, track: Track): Vector | undefined {
  const way = wayOf(chart, track);
  const spots = Array.from({ length: 17 }, (_, i) => way(i / 16));
  const points = spots.map((spot) => chart.point(...spot));
  const outward = spots.map((spot) => directionOut(chart, spot));
  const overCrown = new Set(track.map(([u]) => u)).size > 1;
  // A single column lies with its outside to the right, a line over the crown with its start there.
  const [start, end] = [points[0]!, points.at(-1)!];
  const [x, y] = overCrown
    ? [start[0] - end[0], start[1] - end[1]]
    : outward.reduce(([a, b], each) => [a + each[0], b + each[1]], [0, 0] as [number, number]);
  const long = Math.hypot(x, y);
  if (!(long > 1e-9)) return undefined;
  const across: Vector = [x / long, y / long, 0];
  const aside: Vector = [-across[1], across[0], 0];
  const off = points.map((point) => dot(point, aside));
  const lean = outward.map((each) => Math.abs(dot(each, aside)));
  const even = Math.max(...off) - Math.min(...off) < IN_PLANE;
  return even && Math.max(...lean) < IN_PLANE ? across : undefined;
}

/** Runs as one line, with where on it there is metal. */
function contourOf(chart: Chart, runs: readonly Run[], cut: CutForm | undefined, right: Vector): Contour {
  const within = metalOf(chart, cut);
  const points: Point[] = [];
  const corners = new Set<number>();
  const metal: [number, number][] = [];
  const closed = runs.length === 1 && isRing(runs[0]!);
  for (const run of runs) {
    const start = points.length;
    const sharp = sharpIn(chart, run);
    let first: number | undefined;
    for (const [i, placed] of run.entries()) {
      const is = within(placed.spot);
      const before = run[i - 1];
      if (before && within(before.spot) !== is) {
        points.push(borderBetween(chart, before, placed, within));
        if (is) first = points.length - 1;
        else if (first !== undefined) metal.push([first, points.length - 1]);
      } else if (!before && is) first = points.length;
      points.push({ x: placed.x, y: placed.y });
      if (sharp.has(i)) corners.add(points.length - 1);
      if (i === run.length - 1 && is) metal.push([first!, points.length - 1]);
    }
    // Where the next one is reached straight, the line turns.
    if (runs.length > 1) {
      corners.add(start);
      corners.add(points.length - 1);
    }
  }
  return { points, corners, closed, metal, right };
}

const isRing = (run: Run): boolean => {
  const [first, last] = [run[0]!, run.at(-1)!];
  return run.length > 3 && Math.hypot(last.x - first.x, last.y - first.y) < ONE;
};

/** Whether a spot lies on what the bays leave of a form. */
function metalOf(chart: Chart, cut: CutForm | undefined): (spot: Spot) => boolean {
  if (!cut?.stretches.some(({ of }) => !chart.edges.has(of))) return () => true;
  const vertices = cut.stretches.flatMap(({ at }) =>
    Array.from({ length: 64 }, (_, i) => {
      const [x, y] = chart.sheet(...at(i / 64));
      return { x, y };
    }),
  );
  const outline = { vertices, closed: true };
  // A little in from the sides of the form, on whose chords either answer may come.
  const inward = (share: number) => Math.min(0.999, Math.max(0.001, share));
  return ([u, v]) => {
    const [x, y] = chart.sheet(chart.closed ? u : inward(u), chart.poles.top && v > 0.5 ? v : inward(v));
    return contains(outline, { x, y });
  };
}

function borderBetween(chart: Chart, from: Placed, to: Placed, within: (spot: Spot) => boolean): Point {
  const { share } = borderOn(chart, from.spot, to.spot, within);
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
}

const spotBetween = (chart: Chart, from: Spot, to: Spot, within: (spot: Spot) => boolean): Spot => {
  const { on, share } = borderOn(chart, from, to, within);
  const [u, v] = on(share);
  return [chart.closed ? u - Math.floor(u) : u, v];
};

/** The share of the way between two spots at which the metal ends. */
function borderOn(chart: Chart, from: Spot, [u, v]: Spot, within: (spot: Spot) => boolean) {
  // Round a closed form the short way.
  const on = straight(from, [chart.closed ? u - Math.round(u - from[0]) : u, v]);
  const start = within(from);
  let [low, high] = [0, 1];
  for (let i = 0; i < 30; i++) {
    const middle = (low + high) / 2;
    if (within(on(middle)) === start) low = middle;
    else high = middle;
  }
  return { on, share: low };
}
