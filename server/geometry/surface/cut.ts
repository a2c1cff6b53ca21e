import Delaunator from 'delaunator';
import { say } from '../../../l10n/say.ts';
import { oneByOne, type Steps } from '../../incremental/steps.ts';
import type { Chart, Spot } from './chart.ts';
import { type Fineness, type FlatMesh, foldedColumns, foldedRows, pathLength, rowsInSteps } from './mesh.ts';
import { apart } from './vector.ts';

/**
 * A bay taken out of a form's outline, mm along the finished surface. On one edge `from` is measured from the edge's
 * start and `to` from its end; on two edges that meet, each from the corner where they do; else from their starts.
 */
export interface Bay {
  readonly name: string;
  readonly from: { readonly edge: string; readonly at: number };
  readonly to: { readonly edge: string; readonly at: number };
  /** How far it goes into the plate beyond the straight line between its ends. */
  readonly deep: number;
  /** The same again on the other side of the middle. */
  readonly mirrored?: boolean;
}

/** A bay that cannot be cut, by its name, and why. */
export interface BayRefusal {
  readonly name: string;
  readonly why: string;
}

export interface CutForm {
  /** The outline that is left, anticlockwise, in stretches. */
  readonly stretches: readonly Stretch[];
  readonly refused: readonly BayRefusal[];
}

/** A part of the outline: of one of the form's own edges, or a bay. */
export interface Stretch {
  /** `top`, `top 2`, `armhole`. */
  readonly name: string;
  /** The edge or the bay that it is of. */
  readonly of: string;
  /** Whether it runs as its edge is measured; against it where not. */
  readonly forward: boolean;
  /** From its start to its end as the outline runs, a share 0…1 of the way. */
  at(share: number): Spot;
}

/**
 * The outline of a form with bays in it. The bay is an arc of a circle through its two ends, half an oval where it goes
 * deeper than half its width, drawn on the form laid out along its own lines ({@link Chart.sheet}).
 */
export function cutForm(chart: Chart, bays: readonly Bay[]): CutForm {
  const sides = sidesOf(chart);
  const round = sides.reduce((sum, side) => sum + side.length, 0);
  const refused: BayRefusal[] = [];
  const taken: Taken[] = [];
  for (const bay of bays.flatMap((each) => (each.mirrored ? [each, mirrorOf(each)] : [each]))) {
    const refuse = (why: string) => {
      if (!refused.some((each) => each.name === bay.name)) refused.push({ name: bay.name, why });
    };
    const ends = endsOf(sides, bay);
    if (typeof ends === 'string') refuse(ends);
    else {
      // The shorter way round is what is taken out.
      const gap = (((ends.to - ends.from) % round) + round) % round;
      const forward = gap <= round / 2;
      const from = (forward ? ends.from : ends.to) % round;
      const to = from + (forward ? gap : round - gap);
      if (!(to - from > 1e-6 * round)) refuse('its ends meet');
      else if (!(bay.deep > 0)) refuse('its depth must be more than nothing');
      else if (taken.some((other) => overlap(other, { from, to }, round))) refuse('it runs into another one');
      else {
        const arc = arcOf(chart, spotAt(sides, from), spotAt(sides, to), bay.deep);
        const points = Array.from({ length: ARC_CHORDS + 1 }, (_, i) => arc(i / ARC_CHORDS));
        const leaves = points.slice(1, -1).some(([u, v]) => u < -1e-9 || u > 1 + 1e-9 || v < -1e-9 || v > 1 + 1e-9);
        const drawn = points.map(([u, v]) => chart.sheet(u, v));
        if (leaves) refuse('it goes right through the plate, or out of its side');
        else if (taken.some((other) => cross(other.drawn, drawn))) refuse('it runs into another one');
        else taken.push({ from, to, name: bay.name, arc, forward, drawn });
      }
    }
  }
  if (!taken.length) return { stretches: wholeSides(sides), refused };
  taken.sort((a, b) => a.from - b.from);
  const stretches: Omit<Stretch, 'name'>[] = [];
  for (const [i, bay] of taken.entries()) {
    stretches.push({ of: bay.name, forward: bay.forward, at: bay.arc });
    const next = i + 1 < taken.length ? taken[i + 1]!.from : taken[0]!.from + round;
    stretches.push(...between(sides, bay.to, next, round));
  }
  return { stretches: named(stretches), refused };
}

/**
 * The cut form as a mesh: the rows of the whole form where they are clear of the outline, joined to it anew by Delaunay
 * triangles. Where a triangle would lie across the outline or a line, that gets one more vertex, until none does.
 */
export function* cutMeshInSteps(chart: Chart, { stretches }: CutForm, fineness: Fineness = {}): Steps<FlatMesh> {
  const whole = yield* rowsInSteps(chart, fineness);
  const side = whole.side / (fineness.refine ?? 1);
  const spots: Spot[] = [];
  const flat: [number, number][] = [];
  const add = (spot: Spot): number => {
    flat.push([...chart.sheet(spot[0], spot[1])]);
    return spots.push(spot) - 1;
  };
  const tracks = [...chart.lines, ...upright(chart.folds)];
  const marks = [...new Set(tracks.flatMap(([, track]) => track.map(([u]) => u)))];
  // The outline, each stretch in even steps, and through every line that it crosses.
  const outline = yield* oneByOne(stretches, (stretch): Run => {
    const count = Math.min(MOST_ALONG, Math.max(1, Math.round(wayLength(chart, stretch.at) / side)));
    const crossings = marks.flatMap(
      (mark) => crossingOf((share) => offColumn(chart, stretch.at(share)[0], mark)) ?? [],
    );
    // What lies too near to a line makes way for the place where the outline crosses it.
    const free = Array.from({ length: count }, (_, i) => i / count).filter(
      (share) => share === 0 || crossings.every((crossing) => Math.abs(crossing - share) > 0.5 / count),
    );
    const shares = [...new Set([...free, ...crossings.filter((crossing) => crossing > 0)])].sort((a, b) => a - b);
    return { at: stretch.at, shares, vertices: shares.map((share) => add(stretch.at(share))) };
  });
  for (const [i, run] of outline.entries()) {
    run.shares.push(1);
    run.vertices.push(outline[(i + 1) % outline.length]!.vertices[0]!);
  }
  const clear = insideOf(
    outline.flatMap(({ vertices }) => vertices.slice(1).map((to, i) => [flat[vertices[i]!]!, flat[to]!] as const)),
  );
  const kept = new Map<number, number>();
  for (const [i, spot] of whole.spots.entries()) {
    if (clear(chart.sheet(spot[0], spot[1]), 0.6 * side)) kept.set(i, add(spot));
    if (i % AT_A_TIME === AT_A_TIME - 1) yield undefined;
  }
  const lines = new Map<string, Run>();
  const chains = new Map([...whole.lines, ...whole.folds]);
  for (const [name, track] of tracks) {
    const chain = chains.get(name)!;
    const own = [...chain].flatMap((vertex) => kept.get(vertex) ?? []);
    const run = lineRun(
      chart,
      track,
      own,
      outline.flatMap(({ vertices }) => vertices.slice(1)),
      spots,
    );
    if (run) lines.set(name, run);
  }
  // Lines along the outline take its vertices as they come; the others are held like the outline itself.
  const held = [...outline, ...new Set([...lines.values()].filter(({ shares }) => shares.length))];
  let net = triangulated(flat);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    yield undefined;
    const isHeld = new Uint8Array(spots.length);
    for (const { vertices } of held) for (const vertex of vertices) isHeld[vertex] = 1;
    const sides = new Set<number>();
    for (let i = 0; i < net.corners.length; i++) {
      const a = net.corners[i]!;
      const b = net.corners[after(i)]!;
      if (isHeld[a] && isHeld[b]) sides.add(Math.min(a, b) * MOST_VERTICES + Math.max(a, b));
    }
    const before = spots.length;
    const added = new Map<number, number>();
    for (const run of held)
      for (let i = run.vertices.length - 1; i > 0; i--) {
        const [a, b] = [run.vertices[i - 1]!, run.vertices[i]!];
        const key = Math.min(a, b) * MOST_VERTICES + Math.max(a, b);
        if (sides.has(key)) continue;
        const share = (run.shares[i - 1]! + run.shares[i]!) / 2;
        const vertex = added.get(key) ?? add(run.at(share));
        added.set(key, vertex);
        run.shares.splice(i, 0, share);
        run.vertices.splice(i, 0, vertex);
      }
    if (spots.length === before || spots.length > MOST_SPOTS) break;
    net = triangulated(flat);
  }
  const triangles = leftOf(
    outline.flatMap(({ vertices }) => vertices.slice(1).map((to, i) => [vertices[i]!, to] as const)),
    net,
  );
  return {
    spots,
    triangles,
    edges: new Map(
      stretches.map(({ name, forward }, i) => {
        const { vertices } = outline[i]!;
        return [name, Uint32Array.from(forward ? vertices : [...vertices].reverse())] as const;
      }),
    ),
    lines: new Map(chainsOf([...chart.lines.keys()])),
    folds: new Map(chainsOf([...(chart.folds?.keys() ?? [])])),
    side: whole.side,
  };

  function chainsOf(names: readonly string[]): (readonly [string, Uint32Array])[] {
    return names.flatMap((name) => {
      const run = lines.get(name);
      return run ? [[name, Uint32Array.from(run.vertices)] as const] : [];
    });
  }
}

/** The folds that run up the form: those along a row are left to the triangles. */
const upright = (folds: Chart['folds']) =>
  [...(folds ?? [])].filter(([, [from, to]]) => from && to && from[0] === to[0]);

/** Vertices along a way, with their shares of it. */
interface Run {
  readonly at: (share: number) => Spot;
  readonly shares: number[];
  readonly vertices: number[];
}

const MOST_ROUNDS = 12;
/** Vertices that are looked at between two stops. */
const AT_A_TIME = 200;
/** An outline that still is not held with so many vertices never will be: what is left of it is not to be laid flat, and is not. */
const MOST_SPOTS = 12_000;
/** So many vertices a stretch has at most before it is refined. */
const MOST_ALONG = 400;
/** Two vertices make one key below this. */
const MOST_VERTICES = 2 ** 26;

/** What is left of a line: its clear vertices, and those of the outline on which it ends. */
function lineRun(
  chart: Chart,
  track: readonly Spot[],
  own: readonly number[],
  loop: readonly number[],
  spots: readonly Spot[],
): Run | undefined {
  const free = (vertices: number[]): Run => ({ at: () => track[0]!, shares: [], vertices });
  if (track.length === 1) return own.length ? free([...own]) : undefined;
  if (!chart.closed && track.every(([u]) => u === 0 || u === 1)) {
    // It is a side of the form: what is left of it lies along the outline.
    const left = track.slice(1).flatMap(([u, v], leg) => {
      const [from, before] = track[leg]!;
      if (from !== u) return [];
      return loop
        .filter((vertex) => spots[vertex]![0] === u)
        .sort((a, b) => (spots[a]![1] - spots[b]![1]) * (v - before));
    });
    const vertices = left.filter((vertex, i) => vertex !== left[i - 1]);
    return vertices.length > 1 ? free(vertices) : undefined;
  }
  if (!own.length) return undefined;
  /** The vertex of the outline on which an end of the line lies: none where it ends at a pole. */
  const end = ([u, v]: Spot, last: number): number[] => {
    if ((v === 1 && chart.poles.top) || (v === 0 && chart.poles.bottom)) return [];
    const on = loop.filter((vertex) => Math.abs(offColumn(chart, spots[vertex]![0], u)) < 1e-9);
    const near = (vertex: number) => Math.abs(spots[vertex]![1] - spots[last]![1]);
    return on.sort((a, b) => near(a) - near(b)).slice(0, 1);
  };
  const vertices = [...end(track[0]!, own[0]!), ...own, ...end(track.at(-1)!, own.at(-1)!)];
  // Where the line goes over a pole, both sides of it share the pole's vertex: a share runs along the row of vertices.
  const places = vertices.map((vertex) => spots[vertex]!);
  return {
    at: (share) => {
      const i = Math.min(places.length - 2, Math.floor(share));
      const [a, b] = [places[i]!, places[i + 1]!];
      const column = chart.poles.top && a[1] === 1 ? b[0] : a[0];
      return [column, a[1] + (b[1] - a[1]) * (share - i)];
    },
    shares: vertices.map((_, i) => i),
    vertices,
  };
}

/** The triangles that lie on the left of an outline, whose every side is one of theirs. */
function leftOf(outline: readonly (readonly [number, number])[], { corners, across }: Net): number[] {
  const keyOf = (from: number, to: number) => from * MOST_VERTICES + to;
  const inside = new Set(outline.map(([from, to]) => keyOf(from, to)));
  const isOn = new Set(outline.flat());
  const isWall = new Uint8Array(corners.length);
  const open: number[] = [];
  for (let i = 0; i < corners.length; i++) {
    const from = corners[i]!;
    if (!isOn.has(from)) continue;
    const to = corners[after(i)]!;
    const isInside = inside.has(keyOf(from, to));
    if (isInside) open.push(Math.floor(i / 3));
    if (isInside || inside.has(keyOf(to, from))) isWall[i] = 1;
  }
  const isReached = new Uint8Array(corners.length / 3);
  for (let triangle = open.pop(); triangle !== undefined; triangle = open.pop()) {
    if (isReached[triangle]) continue;
    isReached[triangle] = 1;
    for (let i = 3 * triangle; i < 3 * triangle + 3; i++) if (!isWall[i] && across[i]! >= 0) open.push(across[i]!);
  }
  const left: number[] = [];
  for (let i = 0; i < corners.length; i++) if (isReached[Math.floor(i / 3)]) left.push(corners[i]!);
  return left;
}

/** Delaunay triangles of points, anticlockwise. */
/** Triangles by their corners; a side is known by the corner that it starts from. */
interface Net {
  readonly corners: Uint32Array;
  /** The triangle across each side; below nought where there is none. */
  readonly across: Int32Array;
}

const after = (side: number): number => (side % 3 === 2 ? side - 2 : side + 1);

function triangulated(points: [number, number][]): Net {
  const { triangles, halfedges } = Delaunator.from(points);
  // They all turn one way, which where y runs up is clockwise: read backward, a side starts from where it ended.
  const last = triangles.length - 1;
  const across = Int32Array.from(halfedges, (_, i) => {
    const at = last - i;
    const other = halfedges[at % 3 === 0 ? at + 2 : at - 1]!;
    return other < 0 ? -1 : Math.floor((last - other) / 3);
  });
  return { corners: triangles.reverse(), across };
}

/** Steps into which a way is cut at the finest, to measure it. */
export const WAY_STEPS = 96;

/** Length of a way on a chart, mm: chords, doubled twice and carried on to the limit. Ten digits on a smooth way. */
export function wayLength(chart: Chart, at: (share: number) => Spot): number {
  const points = Array.from({ length: WAY_STEPS + 1 }, (_, i) => chart.point(...at(i / WAY_STEPS)));
  const chords = (steps: number) => {
    const by = WAY_STEPS / steps;
    let length = 0;
    for (let i = by; i <= WAY_STEPS; i += by) length += apart(points[i - by]!, points[i]!);
    return length;
  };
  const [coarse, fine, finest] = [chords(WAY_STEPS / 4), chords(WAY_STEPS / 2), chords(WAY_STEPS)] as [
    number,
    number,
    number,
  ];
  const [once, twice] = [fine + (fine - coarse) / 3, finest + (finest - fine) / 3];
  return twice + (twice - once) / 15;
}

/** One side of the square, as the outline runs. */
interface Side {
  readonly edge: string;
  readonly from: Spot;
  readonly to: Spot;
  readonly length: number;
  /** Way along the outline at which it begins, mm. */
  readonly start: number;
  /** Runs as its edge is measured, and how much of the edge comes before it. */
  readonly forward: boolean;
  readonly before: number;
  readonly edgeLength: number;
  at(length: number): Spot;
}

function sidesOf(chart: Chart): Side[] {
  const corners: readonly (readonly [Spot, Spot])[] = [
    ...(chart.poles.bottom
      ? []
      : ([
          [
            [0, 0],
            [1, 0],
          ],
        ] as const)),
    ...(chart.closed
      ? []
      : ([
          [
            [1, 0],
            [1, 1],
          ],
        ] as const)),
    ...(chart.poles.top
      ? []
      : ([
          [
            [1, 1],
            [0, 1],
          ],
        ] as const)),
    ...(chart.closed
      ? []
      : ([
          [
            [0, 1],
            [0, 0],
          ],
        ] as const)),
  ];
  let start = 0;
  return corners.map(([from, to]) => {
    const same = (a: Spot, b: Spot) => a[0] === b[0] && a[1] === b[1];
    for (const [edge, track] of chart.edges) {
      let before = 0;
      for (let leg = 1; leg < track.length; leg++) {
        const [a, b] = [track[leg - 1]!, track[leg]!];
        const forward = same(a, from) && same(b, to);
        if (forward || (same(a, to) && same(b, from))) {
          const table = tableOf(chart, from, to);
          const side = {
            edge,
            from,
            to,
            length: table.length,
            start,
            forward,
            before,
            edgeLength: pathLength(chart, track, STEPS),
            at: table.at,
          };
          start += table.length;
          return side;
        }
        if (!isPole(chart, a, b)) before += pathLength(chart, [a, b], STEPS);
      }
    }
    throw new Error('a side of the chart has no name');
  });
}

const STEPS = 400;
const isPole = (chart: Chart, a: Spot, b: Spot) =>
  a[1] === b[1] && ((a[1] === 1 && chart.poles.top) || (a[1] === 0 && chart.poles.bottom));

function tableOf(chart: Chart, from: Spot, to: Spot) {
  const at = (share: number): Spot => [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
  const lengths = [0];
  for (let i = 0; i < STEPS; i++)
    lengths.push(lengths[i]! + pathLength(chart, [at(i / STEPS), at((i + 1) / STEPS)], 1));
  const length = lengths[STEPS]!;
  return {
    length,
    at(way: number): Spot {
      if (way <= 0) return from;
      if (way >= length) return to;
      let [low, high] = [0, STEPS];
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (lengths[middle]! <= way) low = middle;
        else high = middle;
      }
      return at((low + (way - lengths[low]!) / (lengths[high]! - lengths[low]!)) / STEPS);
    },
  };
}

/** Where both ends lie along the outline, mm; or why there is no such place. */
function endsOf(sides: readonly Side[], bay: Bay): { from: number; to: number } | string {
  const { from, to } = bay;
  const lengthOf = (edge: string) => sides.find((side) => side.edge === edge)?.edgeLength;
  for (const end of [from, to]) {
    const length = lengthOf(end.edge);
    if (length === undefined) return say`the form has no edge “${end.edge}”`;
    if (!(end.at >= 0 && end.at <= length)) return say`“${end.edge}” is only ${Math.round(length * 10) / 10} mm long`;
  }
  /** Way along the outline of a way along an edge. */
  const place = (edge: string, way: number): number => {
    const own = sides.filter((side) => side.edge === edge).sort((a, b) => a.before - b.before);
    const side = own.findLast((each) => way >= each.before) ?? own[0]!;
    const on = Math.min(side.length, way - side.before);
    return side.start + (side.forward ? on : side.length - on);
  };
  if (from.edge === to.edge) return { from: place(from.edge, from.at), to: place(to.edge, lengthOf(to.edge)! - to.at) };
  // Where one edge ends and the other begins is the corner, and each is measured from it.
  const around = sides.reduce((sum, side) => sum + side.length, 0);
  const ends = (edge: string) => [0, lengthOf(edge)!].map((way) => ({ way, along: place(edge, way) % around }));
  for (const a of ends(from.edge))
    for (const b of ends(to.edge)) {
      const gap = Math.abs(a.along - b.along);
      if (Math.min(gap, around - gap) < 1e-6 * around)
        return {
          from: place(from.edge, Math.abs(a.way - from.at)),
          to: place(to.edge, Math.abs(b.way - to.at)),
        };
    }
  return { from: place(from.edge, from.at), to: place(to.edge, to.at) };
}

const OTHER: Readonly<Record<string, string>> = { left: 'right', right: 'left' };

/** The same bay on the other side: left for right, and along top and bottom from the other end. */
function mirrorOf(bay: Bay): Bay {
  const turned = (edge: string) => OTHER[edge] ?? edge;
  return {
    ...bay,
    name: `${bay.name} mirrored`,
    from: { ...bay.from, edge: turned(bay.from.edge) },
    to: { ...bay.to, edge: turned(bay.to.edge) },
    ...(bay.from.edge === bay.to.edge
      ? {
          from: { edge: turned(bay.to.edge), at: bay.to.at },
          to: { edge: turned(bay.from.edge), at: bay.from.at },
        }
      : {}),
  };
}

/** A bay that can be cut: where it leaves the outline and comes back to it, mm along it. */
interface Taken {
  readonly from: number;
  readonly to: number;
  readonly name: string;
  readonly arc: (share: number) => Spot;
  readonly forward: boolean;
  /** On the sheet, in short chords. */
  readonly drawn: readonly (readonly [number, number])[];
}

const ARC_CHORDS = 48;

/** Whether two lines of chords cross. */
function cross(one: Taken['drawn'], other: Taken['drawn']): boolean {
  const turn = (a: Taken['drawn'][number], b: Taken['drawn'][number], c: Taken['drawn'][number]) =>
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
  return one.slice(1).some((b, i) =>
    other.slice(1).some((d, k) => {
      const [a, c] = [one[i]!, other[k]!];
      return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
    }),
  );
}

function overlap(one: { from: number; to: number }, other: { from: number; to: number }, round: number): boolean {
  return [-round, 0, round].some((turn) => one.from < other.to + turn - 1e-9 && other.from + turn < one.to - 1e-9);
}

function spotAt(sides: readonly Side[], along: number): Spot {
  const round = sides.reduce((sum, side) => sum + side.length, 0);
  const way = ((along % round) + round) % round;
  const side = sides.findLast((each) => way >= each.start) ?? sides[0]!;
  return side.at(way - side.start);
}

/** The bay's curve from one spot of the outline to another, into the plate, which lies on the left. */
function arcOf(chart: Chart, from: Spot, to: Spot, deep: number): (share: number) => Spot {
  const [ax, ay] = chart.sheet(from[0], from[1]);
  const [bx, by] = chart.sheet(to[0], to[1]);
  const half = Math.hypot(bx - ax, by - ay) / 2;
  const [ex, ey] = [(bx - ax) / (2 * half), (by - ay) / (2 * half)];
  const [mx, my] = [(ax + bx) / 2, (ay + by) / 2];
  const oval = deep >= half;
  const radius = (half * half + deep * deep) / (2 * deep);
  const turn = oval ? Math.PI / 2 : Math.asin(half / radius);
  return (share) => {
    if (share <= 0) return from;
    if (share >= 1) return to;
    const angle = turn * (2 * share - 1);
    const forward = (oval ? half : radius) * Math.sin(angle);
    const left = oval ? deep * Math.cos(angle) : radius * (Math.cos(angle) - Math.cos(turn));
    return chart.spot(mx + forward * ex - left * ey, my + forward * ey + left * ex);
  };
}

/** The form's own sides between two places along the outline. */
function between(sides: readonly Side[], from: number, to: number, round: number): Omit<Stretch, 'name'>[] {
  return [0, round].flatMap((turn) =>
    sides.flatMap((side): Omit<Stretch, 'name'>[] => {
      const start = Math.max(from, side.start + turn);
      const end = Math.min(to, side.start + turn + side.length);
      if (!(end - start > 1e-9 * round)) return [];
      const [a, b] = [start - side.start - turn, end - side.start - turn];
      return [{ of: side.edge, forward: side.forward, at: (share) => side.at(a + (b - a) * share) }];
    }),
  );
}

function wholeSides(sides: readonly Side[]): Stretch[] {
  return named(
    sides.map((side) => ({
      of: side.edge,
      forward: side.forward,
      at: (share: number) => side.at(side.length * share),
    })),
  );
}

/** Names the parts of each edge in the order in which it is measured. */
function named(stretches: readonly Omit<Stretch, 'name'>[]): Stretch[] {
  const count = new Map<string, number>();
  const ofEdge = (edge: string) => stretches.filter((each) => each.of === edge);
  return stretches.map((stretch) => {
    const own = ofEdge(stretch.of);
    const seen = (count.get(stretch.of) ?? 0) + 1;
    count.set(stretch.of, seen);
    const place = stretch.forward ? seen : own.length + 1 - seen;
    return { ...stretch, name: place === 1 ? stretch.of : `${stretch.of} ${place}` };
  });
}

/** How far a spot lies from a column, the shorter way round a closed form. */
function offColumn(chart: Chart, u: number, column: number): number {
  const off = u - column;
  return chart.closed ? off - Math.round(off) : off;
}

/** A way in the parts that the folds of the chart make of it: each is smooth. */
export function smoothParts(chart: Chart, at: (share: number) => Spot): ((share: number) => Spot)[] {
  const crossings = [
    ...foldedColumns(chart).flatMap((u) => crossingOf((share) => offColumn(chart, at(share)[0], u)) ?? []),
    ...foldedRows(chart).flatMap((v) => crossingOf((share) => at(share)[1] - v) ?? []),
  ];
  const ends = [...new Set([0, ...crossings, 1])].sort((a, b) => a - b);
  return ends.slice(1).map((to, i) => {
    const from = ends[i]!;
    return (share) => at(from + (to - from) * share);
  });
}

/** Where what is measured along a way is nought, as a share of it; nothing where it nowhere is, or only at its start. */
function crossingOf(off: (share: number) => number): number | undefined {
  const steps = 64;
  for (let i = 0; i < steps; i++) {
    let [low, high] = [i / steps, (i + 1) / steps];
    const start = off(low);
    if (start === 0) {
      if (i > 0) return low;
      continue;
    }
    const next = off(high);
    if (start * next > 0 || Math.abs(next - start) > 0.5) continue;
    for (let step = 0; step < 50; step++) {
      const middle = (low + high) / 2;
      if (off(middle) * start > 0) low = middle;
      else high = middle;
    }
    return high < 1 ? high : undefined;
  }
  return undefined;
}

/** Whether a point lies within an outline, and so far from it. */
function insideOf(segments: readonly (readonly [readonly [number, number], readonly [number, number]])[]) {
  // One after the other in plain numbers: every vertex of a mesh is held to all of them.
  const ends = Float64Array.from(segments.flatMap(([from, to]) => [...from, ...to]));
  return ([x, y]: readonly [number, number], clear: number): boolean => {
    let within = false;
    for (let i = 0; i < ends.length; i += 4) {
      const ax = ends[i]!;
      const ay = ends[i + 1]!;
      const bx = ends[i + 2]!;
      const by = ends[i + 3]!;
      if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) within = !within;
      const dx = bx - ax;
      const dy = by - ay;
      const share = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)));
      const ex = x - ax - share * dx;
      const ey = y - ay - share * dy;
      if (ex * ex + ey * ey < clear * clear) return false;
    }
    return within;
  };
}
