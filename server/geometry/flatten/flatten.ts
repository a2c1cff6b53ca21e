import type { Steps } from '../../incremental/steps.ts';
import { flattened } from '../outline/chords.ts';
import { crossingOf, signedArea } from '../outline/measure.ts';
import type { Path } from '../outline/path.ts';
import { regionsOf } from '../outline/regions.ts';
import type { Surface, SurfacePoint } from '../surface/surface.ts';
import { boxOfPoints, chordsOf, denseOutline, lengthThrough, type Outline, pathThrough } from './curve.ts';
import type { Energy } from './energy.ts';
import { bulge, circularStart, conformalLog, conformalStart, lengthKeeping, twiceAreas } from './laplace.ts';
import { minimise } from './newton.ts';
import { type Rest, restOf } from './rest.ts';
import { atVertices, type Strains, strainsOf } from './strain.ts';
import { type Topology, topologyOf } from './topology.ts';
import type { Way } from './way.ts';

/** What is to be laid flat, and how. */
export interface Job {
  readonly surface: Surface;
  readonly way: Way;
  /** Edges that mate with another piece: how far in a place lies is told from the others. */
  readonly seams?: readonly string[];
  /** Edges that keep their formed length at every point, since they mate with one that is finished. */
  readonly held?: readonly string[];
  /** Thickness asked for, as a share of the start, by triangle; instead of what the way of working gathers. */
  readonly thickness?: Float64Array;
  /** The same surface with the same seams laid flat by another way of working, to begin from. */
  readonly from?: Flat;
}

/** A formed plate laid flat. */
export interface Flat {
  readonly surface: Surface;
  readonly way: Way;
  readonly topology: Topology;
  readonly rest: Rest;
  /** x, y of every vertex, mm; the form's up is the sheet's up, a whole dome's front lies to the right. */
  readonly positions: Float64Array;
  readonly strains: Strains;
  /** Thickness as a share of the start, by vertex. */
  readonly thickness: Float64Array;
  /** How far in from the free border, by vertex: 0 there, 1 at the crown. */
  readonly depth: Float64Array;
  /** mm² */
  readonly formedArea: number;
  readonly flatArea: number;
  /** Box of the outline as it is laid, mm. */
  readonly long: number;
  readonly wide: number;
  /** Formed and flat length of every named edge and line, mm. */
  readonly lengths: ReadonlyMap<string, { readonly formed: number; readonly flat: number }>;
  /** Gauss curvature in all, steradians. */
  readonly curvature: number;
  /** The greatest ln of thickness that was asked for, of the least too where that is further from nought. */
  readonly asked: number;
  /** Energy by square millimetre of surface, and the Newton steps that led to it. */
  readonly energy: number;
  readonly steps: number;
}

/** Why a form cannot be laid flat in one piece, in words for a smith. */
export interface Refusal {
  readonly refused: string;
}

/** Past this the first flat shape folds over itself and the answer is not to be trusted (tried on caps of a sphere). */
const MOST_CURVATURE = 3 * Math.PI;
/** Of a held edge, in square roots of the area: leaves less than a thousandth of its length. */
const BAR_STIFFNESS = 300;

/**
 * Lays a triangulated form flat, with the metal moving as the way of working says.
 *
 * Exact for what rolls out flat (within 0.01 mm at 16 triangles a side). Range: a piece that is a disc in the sense of
 * topology, with no more than 3π steradians of curvature. Source of the method: energy.ts; nothing was tested on metal.
 */
export function* flattenInSteps(job: Job): Steps<Flat | Refusal> {
  const { surface, way } = job;
  const topology = topologyOf(surface.triangles, surface.parameters);
  if (!topology.isDisc)
    return { refused: 'it closes on itself, or has a hole: it needs a seam before it can be laid flat' };
  yield undefined;
  const from = job.from?.surface === surface ? job.from : undefined;
  const rest = from?.rest ?? restOf(surface, topology);
  if (!rest) return { refused: 'a part of the form has no area: look at its measures' };
  const curvature = rest.curvature.reduce((sum, each) => sum + each, 0);
  const bent = rest.curvature.reduce((sum, each) => sum + Math.abs(each), 0);
  if (bent > MOST_CURVATURE)
    return { refused: 'it is too round for one plate: its faces turn through more than three quarters of a ball' };

  yield undefined;
  const border = topology.loops[0]!;
  const rim = freeBorder(surface, topology, job.seams ?? []);
  const depth = from?.depth ?? bulge(topology, rest, rim.size ? rim : border);
  const q = job.thickness ? job.thickness.map(Math.log) : gathered(topology, rest, way);
  if (!depth || !q) return { refused: 'the form is too thin or too crooked to reckon with' };
  const energy: Energy = {
    topology,
    rest,
    k: way.k,
    q,
    bars: barsOf(surface, topology, job.held ?? []),
    stiffness: BAR_STIFFNESS * Math.sqrt(rest.area),
  };
  yield undefined;
  const start = from?.positions ?? (yield* firstShape(topology, rest));
  const found = start && (yield* minimise(energy, start));
  if (!found) return { refused: 'no flat shape was found: the form may be too crooked for one plate' };

  yield undefined;
  let flat = found.flat;
  if (way.rim === 'held') {
    const scale = rimScale(surface, topology, flat, rim);
    flat = flat.map((each) => each * scale);
  }
  flat = laidStraight(surface, topology, rest, flat);
  const shape = outlineShape(surface, topology, flat);
  // With no triangle turned over, a border that does not cross itself has nothing overlapping inside it either.
  if (crossingOf(chordsOf(shape))) return { refused: 'laid flat it would overlap itself: it needs a seam' };
  const strains = strainsOf(topology, rest, flat);
  return {
    surface,
    way,
    topology,
    rest,
    positions: flat,
    strains,
    thickness: atVertices(topology, flat, strains.thickness.map(Math.log)).map(Math.exp),
    depth,
    formedArea: rest.area,
    flatArea: twiceAreas(topology, flat).reduce((sum, each) => sum + each, 0) / 2,
    ...boxOfPoints(denseOutline(shape)),
    lengths: lengthsOf(surface, flat),
    curvature,
    asked: q.reduce((most, each) => (Math.abs(each) > Math.abs(most) ? each : most), 0),
    energy: found.energy / rest.area,
    steps: found.steps,
  };
}

export const isFlat = (answer: Flat | Refusal): answer is Flat => !('refused' in answer);

/** What is cut out for a flat plate. */
export interface CutOutline {
  /** Lines and arcs, anticlockwise, mm. */
  readonly path: Path;
  /** Its points as the mesh has them, mm. */
  readonly points: readonly (readonly [x: number, y: number])[];
  /** Box as it is laid, mm, and area, mm². */
  readonly long: number;
  readonly wide: number;
  readonly area: number;
}

/**
 * The outline to cut: within 0.05 mm of the smooth curve through the border, and so much further out along each edge as
 * `more` says, mm by the edge's name. Vertices that `border` names lie where it says.
 */
export function outlineOf(
  flat: Flat,
  more: ReadonlyMap<string, number> = new Map(),
  border?: ReadonlyMap<number, readonly [x: number, y: number]>,
): CutOutline {
  const own = outlineShape(flat.surface, flat.topology, flat.positions);
  const shape = border ? movedTo(own, flat.topology, border) : own;
  const grown = more.size ? grownOutline(flat, shape, more) : shape;
  const path = pathThrough(grown, 0.05);
  if (more.size && crossingOf(path)) {
    // In a hollow narrower than what it needs the grown line runs over itself.
    const [whole] = regionsOf([path]).sort((a, b) => signedArea(b) - signedArea(a));
    if (whole) {
      const points = flattened(whole, 0.05).map(({ x, y }) => [x, y] as const);
      return { path: whole, points, ...boxOfPoints(Float64Array.from(points.flat())), area: signedArea(whole) };
    }
  }
  const points = Array.from({ length: grown.points.length / 2 }, (_, i): [number, number] => [
    grown.points[2 * i]!,
    grown.points[2 * i + 1]!,
  ]);
  const dense = denseOutline(grown);
  return { path, points, ...boxOfPoints(dense), area: areaWithin(dense) };
}

function movedTo(
  { points, corners }: Outline,
  { loops }: Topology,
  border: ReadonlyMap<number, readonly [number, number]>,
): Outline {
  const moved = points.slice();
  loops[0]!.forEach((vertex, i) => {
    const to = border.get(vertex);
    if (to) moved.set(to, 2 * i);
  });
  return { points: moved, corners };
}

/**
 * Where the border lies if the plate is cut to the length of its profile: every vertex of an edge as far from the crown as
 * `profile` says that it is along the surface, the way that it lies on the flat. Never further in than the flat plate.
 */
export function cutToProfile(
  { positions }: Flat,
  crown: number,
  profile: ReadonlyMap<number, number>,
): Map<number, readonly [x: number, y: number]> {
  const [cx, cy] = [positions[2 * crown]!, positions[2 * crown + 1]!];
  return new Map(
    [...profile].map(([vertex, length]) => {
      const [x, y] = [positions[2 * vertex]! - cx, positions[2 * vertex + 1]! - cy];
      const more = Math.max(1, length / Math.hypot(x, y));
      return [vertex, [cx + more * x, cy + more * y] as const] as const;
    }),
  );
}

/** Where a point of the form lies on the flat blank, mm. */
export function placeOf(flat: Flat, { triangle, weights }: SurfacePoint): readonly [x: number, y: number] {
  let [x, y] = [0, 0];
  for (let i = 0; i < 3; i++) {
    const vertex = flat.topology.triangles[3 * triangle + i]!;
    x += weights[i]! * flat.positions[2 * vertex]!;
    y += weights[i]! * flat.positions[2 * vertex + 1]!;
  }
  return [x, y];
}

// ---- parts of the job ----------------------------------------------------------------------------------------------

function* firstShape(topology: Topology, rest: Rest): Steps<Float64Array | undefined> {
  const conformal = conformalStart(topology, rest);
  yield undefined;
  const whole = conformal && twiceAreas(topology, conformal).every((each) => each > 0);
  const start = whole ? conformal : circularStart(topology, rest);
  yield undefined;
  // A conformal map of a whole dome makes its crown far too small: this halves the Newton steps.
  return start && lengthKeeping(topology, rest, start, 2);
}

/** Border vertices that are not on a seam. Where a seam meets the free border the vertex is free. */
function freeBorder(surface: Surface, topology: Topology, seams: readonly string[]): Set<number> {
  const inSeam = new Set<number>();
  for (const name of seams) {
    const along = surface.edges.get(name);
    if (along) for (const vertex of along.subarray(1, along.length - 1)) inSeam.add(vertex);
  }
  return new Set([...topology.loops[0]!].filter((vertex) => !inSeam.has(vertex)));
}

/** ln of the thickness that a way of working asks for, by triangle. */
function gathered(topology: Topology, rest: Rest, way: Way): Float64Array | undefined {
  const { triangles } = topology;
  if (!way.gather) return new Float64Array(rest.areas.length);
  const φ = conformalLog(topology, rest);
  if (!φ) return undefined;
  const most = Math.max(0, ...φ);
  return Float64Array.from(rest.areas, (_, t) => {
    const here = (φ[triangles[3 * t]!]! + φ[triangles[3 * t + 1]!]! + φ[triangles[3 * t + 2]!]!) / 3;
    return way.gather * (way.at === 'crown' ? here : most - here);
  });
}

function barsOf(surface: Surface, topology: Topology, held: readonly string[]): Uint32Array {
  if (!held.length) return new Uint32Array();
  const numbers = new Map<number, number>();
  const key = (a: number, b: number) => Math.min(a, b) * topology.vertices + Math.max(a, b);
  for (let e = 0; e < topology.edges.length; e += 2)
    numbers.set(key(topology.edges[e]!, topology.edges[e + 1]!), e / 2);
  const bars = new Set<number>();
  for (const name of held) {
    const along = surface.edges.get(name);
    for (let i = 0; along && i + 1 < along.length; i++) {
      const bar = numbers.get(key(along[i]!, along[i + 1]!));
      if (bar !== undefined) bars.add(bar);
    }
  }
  return Uint32Array.from(bars);
}

/** Formed over flat length of the free border. */
function rimScale(surface: Surface, { loops }: Topology, flat: Float64Array, rim: ReadonlySet<number>): number {
  const border = loops[0]!;
  let [formed, laid] = [0, 0];
  for (const run of runsWithin(border, rim)) {
    formed += lengthThrough(pick(surface.positions, run, 3), 3);
    laid += lengthThrough(pick(flat, run, 2), 2);
  }
  return laid > 0 ? formed / laid : 1;
}

/** The stretches of a loop whose vertices are all of a set; a whole loop closes on its first vertex. */
function runsWithin(loop: Uint32Array, within: ReadonlySet<number>): Uint32Array[] {
  const count = loop.length;
  const gap = loop.findIndex((vertex) => !within.has(vertex));
  if (gap < 0) return [Uint32Array.from([...loop, loop[0]!])];
  const runs: Uint32Array[] = [];
  let run: number[] = [];
  for (let i = 1; i <= count; i++) {
    const vertex = loop[(gap + i) % count]!;
    if (within.has(vertex)) run.push(vertex);
    else {
      if (run.length > 1) runs.push(Uint32Array.from(run));
      run = [];
    }
  }
  return runs;
}

const pick = (values: Float64Array, vertices: Uint32Array, dimensions: 2 | 3): Float64Array => {
  const picked = new Float64Array(dimensions * vertices.length);
  vertices.forEach((vertex, i) => {
    for (let axis = 0; axis < dimensions; axis++) picked[dimensions * i + axis] = values[dimensions * vertex + axis]!;
  });
  return picked;
};

/** Where the form rises, or goes to its front, by less than this share of the way on the flat, it has no one direction there. */
const NO_WAY = 0.1;

/** Turned so that the form's up is the sheet's up, or its front to the right, its middle at nought. */
function laidStraight(surface: Surface, topology: Topology, rest: Rest, flat: Float64Array): Float64Array {
  const weights = new Float64Array(topology.vertices);
  topology.triangles.forEach((vertex, i) => {
    weights[vertex]! += rest.areas[Math.floor(i / 3)]! / (3 * rest.area);
  });
  let [mx, my] = [0, 0];
  for (let v = 0; v < weights.length; v++) {
    mx += weights[v]! * flat[2 * v]!;
    my += weights[v]! * flat[2 * v + 1]!;
  }
  let [xx, xy, yy] = [0, 0, 0];
  for (let v = 0; v < weights.length; v++) {
    const [x, y] = [flat[2 * v]! - mx, flat[2 * v + 1]! - my];
    xx += weights[v]! * x * x;
    xy += weights[v]! * x * y;
    yy += weights[v]! * y * y;
  }
  const determinant = xx * yy - xy * xy;
  // The slope of the form over the flat by least squares: a plate whose corner is cut away stands as straight as the whole one.
  const wayOf = (axis: number): readonly [number, number] => {
    const at = (v: number) => surface.positions[3 * v + axis]!;
    const mean = weights.reduce((sum, weight, v) => sum + weight * at(v), 0);
    let [x, y] = [0, 0];
    for (let v = 0; v < weights.length; v++) {
      const along = weights[v]! * (at(v) - mean);
      x += along * (flat[2 * v]! - mx);
      y += along * (flat[2 * v + 1]! - my);
    }
    return determinant > 0 ? [(yy * x - xy * y) / determinant, (xx * y - xy * x) / determinant] : [0, 0];
  };
  const ways = [2, 1, 0].map(wayOf);
  const found = ways.findIndex(([x, y]) => Math.hypot(x, y) > NO_WAY);
  const way = ways[found] ?? [0, 1];
  const length = Math.hypot(way[0], way[1]);
  // Up is up; the front of what has none lies to the right, as of every round thing.
  const [c, s] = found === 1 ? [way[0] / length, -way[1] / length] : [way[1] / length, way[0] / length];
  const laid = new Float64Array(flat.length);
  for (let i = 0; i < flat.length; i += 2) {
    const [x, y] = [flat[i]! - mx, flat[i + 1]! - my];
    laid[i] = c * x - s * y;
    laid[i + 1] = s * x + c * y;
  }
  return laid;
}

/** A border may turn by this much at a vertex of the mesh before it is a corner, radians. */
const CORNER = 0.5;

function outlineShape(surface: Surface, topology: Topology, flat: Float64Array): Outline {
  const loop = topology.loops[0]!;
  const points = pick(flat, loop, 2);
  const at = new Map(Array.from(loop, (vertex, i) => [vertex, i]));
  const corners = new Set<number>();
  const turn = (i: number): number => {
    const n = loop.length;
    const [a, b, c] = [(i + n - 1) % n, i, (i + 1) % n];
    const before = Math.atan2(points[2 * b + 1]! - points[2 * a + 1]!, points[2 * b]! - points[2 * a]!);
    const after = Math.atan2(points[2 * c + 1]! - points[2 * b + 1]!, points[2 * c]! - points[2 * b]!);
    return Math.abs(Math.atan2(Math.sin(after - before), Math.cos(after - before)));
  };
  for (let i = 0; i < loop.length; i++) if (turn(i) > CORNER) corners.add(i);
  // Where an edge ends the border may turn by less and still be a corner.
  for (const along of surface.edges.values()) {
    if (along[0] === along[along.length - 1]) continue;
    for (const vertex of [along[0]!, along[along.length - 1]!]) {
      const i = at.get(vertex);
      if (i !== undefined) corners.add(i);
    }
  }
  return { points, corners };
}

/** Two new lines that meet further from their corner than this, in what the greater needs, are each cut off square there. */
const FAR = 2;

/** Every border vertex moved out by what the edges at it need; where two edges meet, to where the two new lines meet. */
function grownOutline(
  { surface, topology }: Flat,
  { points, corners }: Outline,
  more: ReadonlyMap<string, number>,
): Outline {
  const loop = topology.loops[0]!;
  const count = loop.length;
  const place = new Map(Array.from(loop, (vertex, i) => [vertex, i]));
  const needs = new Float64Array(count);
  for (const [name, along] of surface.edges) {
    // What a bay leaves of an edge is `top` and `top 2`.
    const need = more.get(name.replace(/ \d+$/, ''));
    if (!need) continue;
    for (let i = 0; i + 1 < along.length; i++) {
      const [a, b] = [place.get(along[i]!), place.get(along[i + 1]!)];
      if (a === undefined || b === undefined) continue;
      if ((a + 1) % count === b) needs[a] = need;
      else if ((b + 1) % count === a) needs[b] = need;
    }
  }
  const outward = (i: number): readonly [number, number] => {
    const j = (i + 1) % count;
    const [dx, dy] = [points[2 * j]! - points[2 * i]!, points[2 * j + 1]! - points[2 * i + 1]!];
    const length = Math.hypot(dx, dy);
    return [dy / length, -dx / length];
  };
  const grown: [number, number][] = [];
  const turned = new Set<number>();
  for (let i = 0; i < count; i++) {
    const before = (i + count - 1) % count;
    const [ax, ay] = outward(before);
    const [bx, by] = outward(i);
    const [p, q] = [needs[before]!, needs[i]!];
    const sine = ax * by - ay * bx;
    const straight = Math.abs(sine) < 0.05;
    const [px, py] = [points[2 * i]!, points[2 * i + 1]!];
    const put = (x: number, y: number) => {
      if (corners.has(i)) turned.add(grown.length);
      grown.push([px + x, py + y]);
    };
    // Along one edge, or where two go on from each other, the mean way out; at a corner the two lines' meeting.
    const [x, y] = straight
      ? [((ax + bx) * (p + q)) / 4, ((ay + by) * (p + q)) / 4]
      : [(p * by - q * ay) / sine, (q * ax - p * bx) / sine];
    if (sine > 0 && corners.has(i) && Math.hypot(x, y) > FAR * Math.max(p, q)) {
      put(p * ax, p * ay);
      put(q * bx, q * by);
    } else put(x, y);
  }
  return { points: Float64Array.from(grown.flat()), corners: turned };
}

function areaWithin(points: Float64Array): number {
  let twice = 0;
  for (let i = 0; i < points.length; i += 2) {
    const j = (i + 2) % points.length;
    twice += points[i]! * points[j + 1]! - points[j]! * points[i + 1]!;
  }
  return twice / 2;
}

function lengthsOf(surface: Surface, flat: Float64Array): Map<string, { formed: number; flat: number }> {
  const lengths = new Map<string, { formed: number; flat: number }>();
  for (const [name, vertices] of [...surface.lines, ...surface.edges]) {
    if (vertices.length < 2) continue;
    lengths.set(name, {
      formed: lengthThrough(pick(surface.positions, vertices, 3), 3),
      flat: lengthThrough(pick(flat, vertices, 2), 2),
    });
  }
  return lengths;
}
