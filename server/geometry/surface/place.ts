import { say } from '../../../l10n/say.ts';
import { Dear, Recent, type Steps } from '../../incremental/steps.ts';
import { type Measured, measured, measuredInSteps, straight, wayOf } from './along.ts';
import type { Chart, Spot } from './chart.ts';
import type { Stretch } from './cut.ts';
import type { Surface, SurfacePoint } from './surface.ts';
import { apart, dot, minus, NOWHERE, plus, unit, type Vector } from './vector.ts';
import { directionOut, leftOf, straightOn } from './walk.ts';

/** One measure of a place: so far from an edge or a line, mm, to one side of it where that is said. */
export interface Distance {
  readonly distance: number;
  readonly line: string;
  /** As seen from outside; `from` goes into the plate from an edge. */
  readonly way: 'from' | 'left' | 'right' | 'up' | 'down' | 'above' | 'below' | 'front' | 'back';
}

/**
 * Where a place lies on a form, or in plain words why there is none.
 *
 * Both measures go along the form's own lines: up and down along a column from the bottom edge or the rim, or from the
 * top; left and right along a level. With one measure alone the place lies on the form's middle, of a whole dome on its
 * front. From the seam of a half dome one measures on the side where the seam begins, at the front.
 */
export function spotOf(chart: Chart, first: Distance, second?: Distance): Spot | string {
  const all = second ? [first, second] : [first];
  for (const { line, distance } of all) {
    if (!chart.edges.has(line) && !chart.lines.has(line)) return say`the form has no edge or line “${line}”`;
    if (!Number.isFinite(distance)) return 'its distance is not a number';
  }
  const up = all.find((each) => rowOf(chart, each) !== undefined);
  const across = all.find((each) => each !== up && columnOf(chart, each) !== undefined);
  if (all.length === 2 && (!up || !across)) return 'its two distances run the same way';
  let spot: Spot = [across ? columnOf(chart, across)! : chart.closed ? 0 : 0.5, up ? rowOf(chart, up)! : 0.5];
  // Each measure moves the line along which the other is taken; a few turns settle both.
  for (let turn = 0; turn < 40; turn++) {
    const before = spot;
    if (up) {
      const row = rowOf(chart, up)!;
      const column = measured(chart, straight([spot[0], row], [spot[0], 1 - row]), 128);
      if (!column.reaches(up.distance))
        return say`it lies off the plate: from “${up.line}” there are only ${said(column.length)}`;
      spot = column.at(up.distance);
    }
    if (across) {
      const from = columnOf(chart, across)!;
      const toRight = rightward(chart, across);
      const reach = chart.closed ? from + (toRight ? 0.5 : -0.5) : toRight ? 1 : 0;
      const level = measured(chart, straight([from, spot[1]], [reach, spot[1]]), 128);
      if (!level.reaches(across.distance))
        return say`it lies off the plate: from “${across.line}” there are only ${said(level.length)}`;
      const at = level.at(across.distance);
      spot = [chart.closed ? at[0] - Math.floor(at[0]) : at[0], at[1]];
    }
    if (Math.abs(spot[0] - before[0]) + Math.abs(spot[1] - before[1]) < 1e-12) break;
  }
  return spot;
}

/** A place on a form, with the way in the surface that its things lie along: across, or along the edge. */
export interface FormPlace {
  readonly spot: Spot;
  readonly across: Vector;
}

/** A place reached by less than this share of its inset has come to the outline: a curve's chord is never so short. */
const SHORT = 0.6;

/** Finds the place so far along an edge and so far in from it. */
export type AlongEdge = (station: number, inset: number) => FormPlace | string;

/**
 * Along an edge, a bay or a line, and straight in from it along the surface. Where bays leave an edge in parts, what is left
 * of it counts, one part after the other. Nothing where the form has no such edge.
 */
export function alongEdge(chart: Chart, edge: string, stretches: readonly Stretch[] = NO_BAYS): AlongEdge | undefined {
  let ways = waysOf.get(chart);
  if (ways?.stretches !== stretches) {
    ways = { stretches, byEdge: new Dear(MOST_EDGES) };
    waysOf.set(chart, ways);
  }
  return ways.byEdge.get(edge, () => wayAlong(chart, edge, stretches));
}

const NO_BAYS: readonly Stretch[] = [];
/** The ways along the edges of a chart, as long as it lives: measuring one is dear, and each rivet asks for it. */
const waysOf = new WeakMap<
  Chart,
  { readonly stretches: readonly Stretch[]; readonly byEdge: Dear<AlongEdge | undefined> }
>();
const MOST_EDGES = 64;
/** Places kept for each of them: those of its rows and of a few lines beside it. */
const MOST_STATIONS = 1_000;

function* wayAlong(chart: Chart, edge: string, stretches: readonly Stretch[]): Steps<AlongEdge | undefined> {
  const parts: (Part & { readonly way: Measured })[] = [];
  for (const part of partsOf(chart, stretches, edge))
    parts.push({ ...part, way: yield* measuredInSteps(chart, part.at) });
  if (!parts.length) return undefined;
  const whole = parts.reduce((sum, { way }) => sum + way.length, 0);
  const places = new Recent<FormPlace | string>(MOST_STATIONS);
  const placeAt: AlongEdge = (station, inset) => {
    let left = station;
    let part = parts[0]!;
    for (const next of parts.slice(1)) {
      if (left <= part.way.length) break;
      left -= part.way.length;
      part = next;
    }
    const { way, forward } = part;
    if (!(left >= -1e-6 && left <= way.length * (1 + 1e-4))) return say`“${edge}” is only ${said(whole)} long`;
    const spot = way.at(left);
    const step = way.length * 1e-4;
    if (inset > 0 && isCrown(chart, spot)) return overPole(chart, way, left, inset);
    const across = minus(chart.point(...way.at(left + step)), chart.point(...way.at(left - step)));
    if (inset === 0) return { spot, across };
    const inward = leftOf(chart, spot, unit(forward ? across : minus(NOWHERE, across)));
    const reached = straightOn(chart, spot, inward, inset);
    // It stops at the outline, where that is nearer.
    const gone = apart(chart.point(...spot), chart.point(...reached));
    return gone < SHORT * inset ? say`so far in from “${edge}” it lies off the plate` : { spot: reached, across };
  };
  // The patterns and the layouts draw the same rows, folds and holes.
  return (station, inset) => places.get(`${station} ${inset}`, () => placeAt(station, inset));
}

/** How near to the crown a place is taken to lie on it, mm. */
const AT_CROWN = 1;

function isCrown(chart: Chart, [u, v]: Spot): boolean {
  const row = v < 0.5 ? 0 : 1;
  const { bottom, top } = chart.poles;
  return (row ? top : bottom) && apart(chart.point(u, v), chart.point(u, row)) < AT_CROWN;
}

/** From a crown that an edge runs over there is no straight way in the chart: down the column half way between the edge's two. */
function overPole(chart: Chart, way: Measured, station: number, inset: number): FormPlace {
  const [before, after] = [way.at(station - way.length * 0.01), way.at(station + way.length * 0.01)];
  const [column, row] = [(before[0] + after[0]) / 2, before[1] > 0.5 ? 1 : 0];
  const down = measured(chart, straight([column, row], [column, 1 - row]));
  return { spot: down.at(inset), across: minus(chart.point(...after), chart.point(...before)) };
}

/** The place so far across and so far up from another, as its things lie there. */
export function besidePlace(chart: Chart, { spot, across }: FormPlace, right: number, up: number): Spot {
  const length = Math.hypot(right, up);
  if (length === 0) return spot;
  const out = directionOut(chart, spot);
  const ahead = unit(plus(across, out, -dot(across, out)));
  const direction = plus(plus(NOWHERE, ahead, right / length), leftOf(chart, spot, ahead), up / length);
  return straightOn(chart, spot, direction, length);
}

/** The bottom, and what runs up on the right: the plate lies on the left of these. */
function runsWithOutline(chart: Chart, edge: string): boolean {
  const track = chart.edges.get(edge) ?? chart.lines.get(edge)!;
  const [from, to] = [track[0]!, track[1] ?? track[0]!];
  if (from[1] === to[1]) return from[1] < 0.5 === to[0] > from[0];
  return from[0] > 0.5 === to[1] > from[1];
}

interface Part {
  at(share: number): Spot;
  /** Whether the plate lies on its left. */
  readonly forward: boolean;
}

/** An edge or a line, what bays leave of it, or a bay itself, in the order and the direction in which it is measured. */
function partsOf(chart: Chart, stretches: readonly Stretch[], edge: string): Part[] {
  const own = stretches.filter(({ of, name }) => of === edge || name === edge);
  if (!own.length) {
    const track = chart.edges.get(edge) ?? chart.lines.get(edge);
    return track && track.length > 1 ? [{ at: wayOf(chart, track), forward: runsWithOutline(chart, edge) }] : [];
  }
  const parts = own.map(({ at, forward }): Part => ({ forward, at: forward ? at : (share: number) => at(1 - share) }));
  const track = chart.edges.get(edge);
  const [start, end] = [track?.[0], track?.at(-1)];
  if (!start || !end || parts.length < 2) return parts;
  const order = ({ at }: Part) => {
    const [u, v] = at(0.5);
    return (u - start[0]) * (end[0] - start[0]) + (v - start[1]) * (end[1] - start[1]);
  };
  return parts.sort((a, b) => order(a) - order(b));
}

const said = (value: number) => `${Math.round(value * 10) / 10} mm`;

/** The row that a measure starts from, 0 or 1; nothing where it runs along a level. */
function rowOf(chart: Chart, { line, way }: Distance): number | undefined {
  const track = chart.edges.get(line) ?? chart.lines.get(line)!;
  if (way === 'left' || way === 'right') return undefined;
  if (track.length === 1) return track[0]![1];
  const [from, to] = [track[0]!, track[1]!];
  return from[1] === to[1] && (from[1] === 0 || from[1] === 1) ? from[1] : undefined;
}

/** The column that a measure starts from; nothing where it runs up and down. */
function columnOf(chart: Chart, { line }: Distance): number | undefined {
  const track = chart.edges.get(line) ?? chart.lines.get(line)!;
  return track.length > 1 && track[0]![0] === track[1]![0] ? track[0]![0] : undefined;
}

/** Whether a measure along a level goes to the right, as u does. */
function rightward(chart: Chart, distance: Distance): boolean {
  const column = columnOf(chart, distance)!;
  switch (distance.way) {
    case 'left':
      return false;
    case 'right':
      return true;
    // The wearer's left side lies on the right of the front.
    case 'front':
      return column > 0.5 && chart.closed;
    case 'back':
      return !(column > 0.5 && chart.closed);
    default:
      return column < 1;
  }
}

/** The point of a mesh at a spot of its chart; nothing where the mesh has a bay there. */
export function pointOf(surface: Surface, chart: Chart, spot: Spot): SurfacePoint | undefined {
  const [x, y] = chart.sheet(...spot);
  const { parameters, triangles } = surface;
  let best: { point: SurfacePoint; least: number } | undefined;
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [2 * triangles[i]!, 2 * triangles[i + 1]!, 2 * triangles[i + 2]!];
    const [ax, ay] = [parameters[a]! - x, parameters[a + 1]! - y];
    const [bx, by] = [parameters[b]! - x, parameters[b + 1]! - y];
    const [cx, cy] = [parameters[c]! - x, parameters[c + 1]! - y];
    const [wa, wb, wc] = [bx * cy - cx * by, cx * ay - ax * cy, ax * by - bx * ay];
    const sum = wa + wb + wc;
    if (!(sum > 0)) continue;
    const least = Math.min(wa, wb, wc) / sum;
    if (!best || least > best.least)
      best = { least, point: { triangle: i / 3, weights: [wa / sum, wb / sum, wc / sum] } };
  }
  // A place on a curved edge may lie a hair outside its chord.
  return best && best.least > -0.2 ? best.point : undefined;
}

/** How near a place lies to an edge, along the surface. */
export interface NearEdge {
  readonly edge: string;
  /** mm */
  readonly distance: number;
  /** The way there, degrees from across, anticlockwise as seen from outside. */
  readonly turn: number;
}

/** Points of an edge of which the nearest is looked for first. */
const TRIED = 48;

/** An edge with its points on the form laid out along its lines. */
interface Tried {
  readonly name: string;
  at(share: number): Spot;
  readonly points: readonly (readonly [x: number, y: number])[];
}

/** Of a form, or of what bays leave of it: the same for every place on it. */
const tried = new WeakMap<object, readonly Tried[]>();

function triedOf(chart: Chart, stretches: readonly Stretch[] | undefined): readonly Tried[] {
  const have = tried.get(stretches ?? chart);
  if (have) return have;
  const ways = stretches
    ? stretches.map(({ name, at }) => ({ name, at }))
    : [...chart.edges]
        .filter(([, track]) => track.length > 1)
        .map(([name, track]) => ({ name, at: wayOf(chart, track) }));
  const made = ways.map(({ name, at }) => ({
    name,
    at,
    points: Array.from({ length: TRIED + 1 }, (_, i) => chart.sheet(...at(i / TRIED))),
  }));
  tried.set(stretches ?? chart, made);
  return made;
}

/** Where an edge is nearest on the form laid out along its lines, and how far away there: true to about a third. */
interface Rough {
  readonly edge: Tried;
  readonly share: number;
  readonly away: number;
}

function roughly(chart: Chart, { spot }: FormPlace, stretches: readonly Stretch[] | undefined): Rough[] {
  const [x, y] = chart.sheet(...spot);
  return triedOf(chart, stretches).map((edge) => {
    const away = edge.points.map((point) => Math.hypot(point[0] - x, point[1] - y));
    const nearest = away.reduce((best, each, i) => (each < away[best]! ? i : best), 0);
    return { edge, share: nearest / TRIED, away: away[nearest]! };
  });
}

/**
 * How far a place lies from each edge of the form that its bays leave, straight there on the form laid out along its lines.
 * Edges that are clearly further than `within` mm are left out.
 */
export const distancesFrom = (
  chart: Chart,
  place: FormPlace,
  stretches?: readonly Stretch[],
  within = Number.POSITIVE_INFINITY,
): NearEdge[] =>
  roughly(chart, place, stretches)
    .filter(({ away }) => away * SURELY <= within)
    .map((rough) => distanceTo(chart, place, rough));

/** The edge to which the least is left of what `leftOf` makes of its distance: at most so much less than that. */
export function nearestEdge(
  chart: Chart,
  place: FormPlace,
  stretches: readonly Stretch[] | undefined,
  left: (near: NearEdge) => number,
  atMost: number,
): NearEdge | undefined {
  let best: { near: NearEdge; left: number } | undefined;
  for (const rough of roughly(chart, place, stretches).sort((a, b) => a.away - b.away)) {
    if (best && rough.away * SURELY - atMost > best.left) break;
    const near = distanceTo(chart, place, rough);
    if (!best || left(near) < best.left) best = { near, left: left(near) };
  }
  return best?.near;
}

function distanceTo(chart: Chart, { spot, across }: FormPlace, { edge: { name, at }, share }: Rough): NearEdge {
  const from = chart.sheet(...spot);
  const straightTo = (to: Spot) => {
    const end = chart.sheet(...to);
    return (part: number): Spot => chart.spot(from[0] + part * (end[0] - from[0]), from[1] + part * (end[1] - from[1]));
  };
  const distance = (each: number, steps: number) => measured(chart, straightTo(at(each)), steps).length;
  // Every step asks for a section of the form: few tell where the nearest place lies, all how far away it is.
  const [low, high] = [Math.max(0, share - 4 / TRIED), Math.min(1, share + 4 / TRIED)];
  const about = leastOf((each) => distance(each, FEW_STEPS), low, high);
  const nearest = dipOf((each) => distance(each, STEPS), about, (high - low) * NARROWED);
  const way = straightTo(at(nearest.x));
  const ahead = minus(chart.point(...way(0.02)), chart.point(...spot));
  const left = leftOf(chart, spot, across);
  return {
    edge: name,
    distance: nearest.value,
    turn: (Math.atan2(dot(ahead, left), dot(ahead, unit(across))) * 180) / Math.PI,
  };
}

/** A form laid out along its lines is true to less than this. */
const SURELY = 0.6;
const STEPS = 24;
const FEW_STEPS = 6;

/** How often a stretch is narrowed to find a dip, each time by the golden section. */
const NARROWINGS = 11;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
const NARROWED = GOLDEN ** NARROWINGS;

/** About where a function of one dip is least, by the golden section. */
function leastOf(of: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  let [c, d] = [b - GOLDEN * (b - a), a + GOLDEN * (b - a)];
  let [fc, fd] = [of(c), of(d)];
  for (let i = 0; i < NARROWINGS; i++) {
    if (fc < fd) {
      [b, d, fd] = [d, c, fc];
      c = b - GOLDEN * (b - a);
      fc = of(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + GOLDEN * (b - a);
      fd = of(d);
    }
  }
  return [a, (a + b) / 2, b].reduce((best, x) => (of(x) < of(best) ? x : best));
}

/** The least value of a function near a place, by the parabola through three of its points, within 0 to 1. */
function dipOf(of: (x: number) => number, near: number, step: number): { x: number; value: number } {
  const middle = Math.min(1 - step, Math.max(step, near));
  const three = [middle - step, middle, middle + step].map((x) => ({ x, value: of(x) }));
  const [before, at, after] = three.map(({ value }) => value) as [number, number, number];
  const bent = before - 2 * at + after;
  const shift = bent > 0 ? (step * (before - after)) / (2 * bent) : 0;
  const x = Math.min(1, Math.max(0, middle + Math.min(4 * step, Math.max(-4 * step, shift))));
  return [...three, { x, value: of(x) }].reduce((best, each) => (each.value < best.value ? each : best));
}
