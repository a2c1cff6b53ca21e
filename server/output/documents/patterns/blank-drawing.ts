import { outlineOf, placeOf as placeOnFlat } from '../../../geometry/flatten/flatten.ts';
import { offset } from '../../../geometry/outline/allowance.ts';
import { flattened } from '../../../geometry/outline/chords.ts';
import {
  anticlockwise,
  contains,
  distanceTo,
  lengthOfPath,
  nearestOn,
  reversed,
} from '../../../geometry/outline/measure.ts';
import type { Path, Vertex } from '../../../geometry/outline/path.ts';
import type { Spot } from '../../../geometry/surface/chart.ts';
import { pathLength } from '../../../geometry/surface/mesh.ts';
import { type AlongEdge, alongEdge, besidePlace, type FormPlace, pointOf } from '../../../geometry/surface/place.ts';
import { manyByMany, type Steps } from '../../../incremental/steps.ts';
import { LAID_FLAT, NOT_KNOWN } from '../../../model/forms/answers.ts';
import type { Blank } from '../../../model/forms/blank.ts';
import type { Layout } from '../../../model/forms/form.ts';
import { kindOf } from '../../../model/forms/index.ts';
import type { LineReading } from '../../../model/names/line-reading.ts';
import { placeInBox, placeOfLine, placeOnOutline } from '../../../model/shapes/places.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import {
  along,
  arc,
  beside,
  distance,
  line,
  moved,
  oval,
  type Point,
  radians,
  rectangle,
  ring,
  type Station,
  turned,
} from './paths.ts';

/*
 * The flat of a piece with the places of its finished surface on it. Exact for flat pieces and for what is only bent or
 * rolled; for a dome a place is a guide, since the hammer moves it.
 */

export interface FlatEdge {
  readonly name: string;
  /** The finished edge in the flat, the way it is measured: see {@link EDGES_RUN}. */
  readonly path: Path;
  /** The side of its way on which the piece lies. */
  readonly inside: 'left' | 'right';
  /** What is left beyond it, mm. */
  readonly allowance: number;
}

/** How edges are measured, said once: on the paper and in the manual. */
export const EDGES_RUN =
  'Edges are measured seen from outside: top and bottom from the left, left and right from the bottom, a rim anticlockwise from the mark.';

export interface Flat {
  readonly cut: Path;
  /** The finished edge all round, where metal is left beyond it. */
  readonly finished?: Path;
  /** What the drawing that the outline comes from cuts out of it. */
  readonly openings?: readonly Path[];
  readonly edges: readonly FlatEdge[];
  readonly centres: readonly Path[];
  /** Places keep their distances: nothing is stretched or shrunk. */
  readonly exact: boolean;
  /** A place so far along an edge and so far in from it, measured on the finished surface. */
  inFrom(edge: string, station: number, inset: number): Station | undefined;
  /** The place that a line's `at` gives, and the way that "across" runs there. */
  at(line: LineReading): Station | undefined;
  /** Where a spot of the finished form lies in the flat. */
  spot?(spot: Spot): Point | undefined;
  /** A small shape, drawn about nought as it is seen on the finished piece, laid at one of these places. */
  laid?(place: Station, shape: Path): Steps<Path>;
  /** The place so far to the right and so far up from another, along the finished surface. */
  beside?(place: Station, right: number, up: number): Station | undefined;
  /** A line across the flat at a distance from an edge. */
  across(edge: string, distance: number): Steps<Path | undefined>;
  /** The line or the fold of this name on the form: `middle`, `flute 1 left`. */
  named(name: string): Path | undefined;
  readonly notes: readonly string[];
}

/** Of a shape whose edges are no straight lines to go across from. */
function* notAcross(): Steps<undefined> {
  yield undefined;
}

export function flatOf(piece: PieceModel): Flat | undefined {
  const blank = piece.blank();
  if (!blank) return undefined;
  const layout = layoutOf(piece);
  if (blank.overridden) return givenFlat(blank, layout, piece);
  const left = allowances(blank);
  if (piece.laidFlat()) return numericFlat(piece, blank);
  if (!layout || layout === NOT_KNOWN) return undefined;
  switch (layout.kind) {
    case 'curved strip': {
      const cut = pathOfBlank(blank);
      const middle = blank.shape.kind === 'outline' ? blank.shape.middle : undefined;
      return cut && middle ? curvedFlat(cut, middle, layout.wide, left) : straightOf(blank, left);
    }
    case 'square':
      return straightOf(blank, left);
    case 'sector':
      return coneFlat(layout, piece, left, pathOfBlank(blank));
    case 'round':
      return roundFlat(layout, blank, left('rim'), piece);
    case 'rimmed':
      return rimmedFlat(layout.outer, left('rim'), pathOfBlank(blank), layout.openings);
    case LAID_FLAT:
      return undefined;
  }
}

function layoutOf(piece: PieceModel): Layout | typeof NOT_KNOWN | undefined {
  const form = piece.form();
  return form && kindOf(form).layout(form);
}

/** The blank's own outline, where it has one with its arcs. */
const pathOfBlank = ({ shape }: Blank): Path | undefined => (shape.kind === 'outline' ? shape.path : undefined);

type Left = (edge: string) => number;

const allowances =
  (blank: Blank): Left =>
  (edge) =>
    blank.allowances.filter((each) => each.edge === edge).reduce((sum, each) => sum + each.figure.value, 0);

// ---- plates, strips and rolled-out cylinders -----------------------------------------------------------------------

const straightOf = (blank: Blank, left: Left): Flat =>
  straightFlat(blank.long - left('left') - left('right'), blank.wide - left('top') - left('bottom'), left);

function straightFlat(wide: number, high: number, left: Left): Flat {
  const cut = rectangle(-left('left'), -left('bottom'), wide + left('right'), high + left('top'));
  const corner = (x: number, y: number): Point => ({ x, y });
  const edges: FlatEdge[] = [
    { name: 'top', path: line(corner(0, high), corner(wide, high)), inside: 'right', allowance: left('top') },
    { name: 'bottom', path: line(corner(0, 0), corner(wide, 0)), inside: 'left', allowance: left('bottom') },
    { name: 'left', path: line(corner(0, 0), corner(0, high)), inside: 'right', allowance: left('left') },
    { name: 'right', path: line(corner(wide, 0), corner(wide, high)), inside: 'left', allowance: left('right') },
  ];
  const middle = line(corner(wide / 2, 0), corner(wide / 2, high));
  return {
    cut,
    ...(edges.some((edge) => edge.allowance) ? { finished: rectangle(0, 0, wide, high) } : {}),
    edges,
    centres: [middle],
    exact: true,
    inFrom: (edge, station, inset) => inFromEdge(edges, edge, station, inset),
    at: (reading) => {
      const place = placeInBox(reading, wide, high);
      return place && { x: place.x ?? wide / 2, y: place.y ?? high / 2, turn: 0 };
    },
    spot: ([u, v]) => corner(u * wide, v * high),
    *across(edge, distance) {
      yield undefined;
      switch (edge) {
        case 'top':
          return line(corner(0, high - distance), corner(wide, high - distance));
        case 'bottom':
          return line(corner(0, distance), corner(wide, distance));
        case 'left':
          return line(corner(distance, 0), corner(distance, high));
        case 'right':
          return line(corner(wide - distance, 0), corner(wide - distance, high));
        default:
          return undefined;
      }
    },
    named: (name) => (name === 'middle' ? middle : edges.find((edge) => edge.name === name)?.path),
    notes: [],
  };
}

function inFromEdge(edges: readonly FlatEdge[], name: string, station: number, inset: number): Station | undefined {
  const edge = edges.find((each) => each.name === name);
  if (!edge) return undefined;
  const on = along(edge.path, station);
  return { ...beside(on, edge.inside === 'left' ? inset : -inset), turn: on.turn };
}

// ---- strips cut curved ---------------------------------------------------------------------------------------------

/** A strip along a curve: its stations count along its middle, as the line that it follows does. */
function curvedFlat(cut: Path, middle: Path, wide: number, left: Left): Flat {
  const length = lengthOfPath(middle);
  const stations = [...Array(middle.vertices.length).keys()].map((i) => (length * i) / (middle.vertices.length - 1));
  const on = (station: number, up: number): Station => {
    const at = along(middle, station);
    return { ...beside(at, up), turn: at.turn };
  };
  const level = (up: number): Path => ({
    vertices: stations.map((station) => vertexOf(on(station, up))),
    closed: false,
  });
  const upright = (station: number): Path => line(on(station, -wide / 2), on(station, wide / 2));
  const edges: FlatEdge[] = [
    { name: 'top', path: level(wide / 2), inside: 'right', allowance: left('top') },
    { name: 'bottom', path: level(-wide / 2), inside: 'left', allowance: left('bottom') },
    { name: 'left', path: upright(0), inside: 'right', allowance: left('left') },
    { name: 'right', path: upright(length), inside: 'left', allowance: left('right') },
  ];
  const [top, bottom, start, end] = edges.map(({ path }) => path) as [Path, Path, Path, Path];
  return {
    cut: anticlockwise(cut),
    ...(edges.some((edge) => edge.allowance) ? { finished: ring([bottom, end, reversed(top), reversed(start)]) } : {}),
    edges,
    centres: [upright(length / 2)],
    exact: true,
    inFrom: (edge, station, inset) => {
      switch (edge) {
        case 'top':
          return on(station, wide / 2 - inset);
        case 'bottom':
          return on(station, inset - wide / 2);
        default:
          return inFromEdge(edges, edge, station, inset);
      }
    },
    at: (reading) => {
      const place = placeInBox(reading, length, wide);
      return place && on(place.x ?? length / 2, (place.y ?? wide / 2) - wide / 2);
    },
    *across(edge, distance) {
      yield undefined;
      switch (edge) {
        case 'top':
          return level(wide / 2 - distance);
        case 'bottom':
          return level(distance - wide / 2);
        case 'left':
          return upright(distance);
        case 'right':
          return upright(length - distance);
        default:
          return undefined;
      }
    },
    named: (name) => (name === 'middle' ? upright(length / 2) : edges.find((edge) => edge.name === name)?.path),
    notes: [],
  };
}

const vertexOf = ({ x, y }: Point): Vertex => ({ x, y });

// ---- cones ---------------------------------------------------------------------------------------------------------

function coneFlat(
  form: Layout & { kind: 'sector' },
  piece: PieceModel,
  left: Left,
  blank: Path | undefined,
): Flat | undefined {
  const [slant, sector] = ['slant', 'sector'].map((name) => piece.figure(name)?.value);
  if (slant === undefined || sector === undefined || !blank) return undefined;
  const radii = [piece.figure('outer-radius')?.value, piece.figure('inner-radius')?.value] as const;
  // Ends that are the same, or nearly so, have no radius that a pattern could be drawn by.
  if (radii[0] === undefined || radii[1] === undefined || radii[0] > FLATTEST) {
    return straightFlat((Math.max(form.top, form.bottom) * form.wrap) / 360, slant, left);
  }
  const widensUp = form.top > form.bottom;
  const up = widensUp ? 1 : -1;
  const half = radians(sector / 2);
  const [outer, inner] = radii;
  // Heights along the slant from the bottom; the apex is the origin, below or above.
  const radiusAt = (height: number) => (widensUp ? inner + height : outer - height);
  const on = (angle: number, radius: number): Point => ({
    x: radius * Math.sin(angle),
    y: up * radius * Math.cos(angle),
  });
  // Left to right. Angles count from upright, to the right.
  const level = (height: number, from = -half, to = half): Path => {
    const radius = radiusAt(height);
    if (radius < 1e-6) return line({ x: 0, y: 0 }, { x: 0, y: 0 });
    const start = up * (Math.PI / 2 - from);
    return arc({ x: 0, y: 0 }, radius, start, -up * (to - from));
  };
  // The blank is laid with the lowest point of its larger end at the origin.
  const lowered = moved(blank, 0, -(widensUp ? outer + left('top') : outer + left('bottom')));
  const side = (angle: number): Path => line(on(angle, radiusAt(0)), on(angle, radiusAt(slant)));
  const edges: FlatEdge[] = [
    { name: 'top', path: level(slant), inside: 'right', allowance: left('top') },
    { name: 'bottom', path: level(0), inside: 'left', allowance: left('bottom') },
    { name: 'left', path: side(-half), inside: 'right', allowance: left('left') },
    { name: 'right', path: side(half), inside: 'left', allowance: left('right') },
  ];
  const middle = line(on(0, radiusAt(0)), on(0, radiusAt(slant)));
  return {
    cut: widensUp ? turned(lowered, 180) : lowered,
    ...(edges.some((edge) => edge.allowance)
      ? { finished: ring([level(0), side(half), reversed(level(slant)), reversed(side(-half))]) }
      : {}),
    edges,
    centres: [middle],
    exact: true,
    inFrom: (edge, station, inset) => inFromEdge(edges, edge, station, inset),
    at: (reading) => {
      const place = placeInBox(reading, 0, slant);
      if (!place) return undefined;
      const height = place.y ?? slant / 2;
      const radius = radiusAt(height);
      // With no width, left and right are both nought: the length itself says how far from which side.
      const from = (['line', 'line2'] as const)
        .map((name) => reading.text(name, 'at'))
        .find((name) => name === 'left' || name === 'right' || name === 'middle');
      const start = from === 'left' ? -half : from === 'right' ? half : 0;
      const angle = start + (place.x ?? 0) / radius;
      return { ...on(angle, radius), turn: (-up * angle * 180) / Math.PI };
    },
    spot: ([u, v]) => on(half * (2 * u - 1), radiusAt(v * slant)),
    *across(edge, distance) {
      yield undefined;
      if (edge === 'top') return level(slant - distance);
      if (edge === 'bottom') return level(distance);
      const found = edges.find((each) => each.name === edge);
      if (!found) return undefined;
      const [from, to] = [0, lengthOfPath(found.path)].map((station) => inFromEdge(edges, edge, station, distance)!);
      return line(from!, to!);
    },
    named: (name) => (name === 'middle' ? middle : edges.find((edge) => edge.name === name)?.path),
    notes: [],
  };
}

/** A radius that no paper shows as other than straight, mm. */
const FLATTEST = 1e6;

// ---- discs, ovals and domes ----------------------------------------------------------------------------------------

type Round = Layout & { kind: 'round' };

/** Front, where a rim is measured from, lies to the right; the wearer's left is up. */
function roundFlat(form: Round, blank: Blank, rim: number, piece: PieceModel): Flat {
  const isFlat = !piece.domed();
  const outcome = piece.outcome();
  // Of a dome what its form takes of the blank: beyond that, and what the rim needs, it is trimmed off.
  const [a, b] = outcome
    ? [outcome.value.long / 2, outcome.value.wide / 2]
    : [blank.long / 2 - rim, blank.wide / 2 - rim];
  const radiusAt = (share: number) =>
    outcome?.by.radiusAt ? outcome.by.radiusAt(Math.max(0, share)) : Math.max(0, share);
  const formed = [form.long, form.wide] as const;
  // From the rim to the crown over the surface, along both ways.
  const middle = piece.figure('middle.length')?.value;
  const reach: readonly [number, number] =
    isFlat || middle === undefined ? [a, b] : [middle / 2, (middle / 2) * (b / a)];
  const finishedRim = oval(formed[0], formed[1]);
  const edge: FlatEdge = { name: 'rim', path: oval(2 * a, 2 * b), inside: 'left', allowance: rim };
  const [cutA, cutB] = [blank.long / 2, blank.wide / 2];
  const [level, upright] = [line({ x: -cutA, y: 0 }, { x: cutA, y: 0 }), line({ x: 0, y: -cutB }, { x: 0, y: cutB })];
  const inFromRim = (station: number, inset: number): Station => {
    if (isFlat) {
      const on = along(edge.path, station);
      return { ...beside(on, inset), turn: on.turn };
    }
    const on = along(finishedRim, station);
    const angle = Math.atan2(on.y / formed[1], on.x / formed[0]);
    const way = 1 / Math.hypot(Math.cos(angle) / reach[0], Math.sin(angle) / reach[1]);
    const share = radiusAt(1 - inset / way);
    const turn = (Math.atan2(b * Math.cos(angle), -a * Math.sin(angle)) * 180) / Math.PI;
    return { x: a * share * Math.cos(angle), y: b * share * Math.sin(angle), turn };
  };
  return {
    cut: pathOfBlank(blank) ?? oval(blank.long, blank.wide),
    ...(rim || a + rim < cutA - SHOWN ? { finished: edge.path } : {}),
    edges: [edge],
    centres: [level, upright],
    exact: isFlat,
    inFrom: (name, station, inset) => {
      if (name === 'rim') return inFromRim(station, inset);
      if (name !== 'middle' || middle === undefined) return undefined;
      return { x: -a + (2 * a * station) / middle, y: inset, turn: 0 };
    },
    at: (reading) => {
      const [rimward, sideways] = [measureFrom(reading, ['rim']), measureFrom(reading, ['middle'])];
      const crown = measureFrom(reading, ['crown', 'centre']);
      if (!rimward && !crown && !sideways) return undefined;
      const x = rimward
        ? a * radiusAt(1 - rimward.distance / reach[0])
        : crown
          ? a * radiusAt(crown.distance / reach[0])
          : 0;
      const y = sideways ? (sideways.way === 'left' ? -1 : 1) * sideways.distance : 0;
      return { x, y, turn: 90 };
    },
    spot: (spot) => {
      const chart = piece.chart();
      if (!chart?.closed) return undefined;
      // Its share of the way to the crown.
      const [u, _v] = spot;
      const share = radiusAt(
        pathLength(chart, [spot, [u, 1]]) /
          pathLength(chart, [
            [u, 0],
            [u, 1],
          ]),
      );
      return { x: a * share * Math.cos(2 * Math.PI * u), y: b * share * Math.sin(2 * Math.PI * u) };
    },
    across: notAcross,
    named: (name) => (name === 'middle' ? level : name === 'rim' ? edge.path : undefined),
    notes: [],
  };
}

/** A line that lies nearer to another than this, mm, is not drawn beside it. */
const SHOWN = 0.05;

/** One of a line's two distances, from a line of one of these names. */
function measureFrom(reading: LineReading, names: readonly string[]): { distance: number; way?: string } | undefined {
  for (const [distance, edge, way] of [
    ['across', 'line', 'way'],
    ['along', 'line2', 'way2'],
  ] as const) {
    const length = reading.length(distance, 'at');
    if (length === undefined || !names.includes(reading.text(edge, 'at') ?? '')) continue;
    const said = reading.text(way, 'at');
    return { distance: length, ...(said === undefined ? {} : { way: said }) };
  }
  return undefined;
}

// ---- outlines ------------------------------------------------------------------------------------------------------

/** A flat shape of one edge, and what is cut out of it. */
function rimmedFlat(
  finished: Path,
  rim: number,
  blank: Path | undefined,
  openings: readonly Path[] = [],
): Flat | undefined {
  if (!blank) return undefined;
  const cut = rim ? blank : finished;
  const edge: FlatEdge = { name: 'rim', path: finished, inside: 'left', allowance: rim };
  const rows = new Map<number, Path | undefined>();
  return {
    cut,
    ...(rim ? { finished } : {}),
    openings,
    edges: [edge],
    centres: [],
    exact: true,
    inFrom: (name, station, inset) => {
      const place = inFromEdge([edge], name, station, inset);
      if (!place || inset <= 0 || distanceTo(finished, place) > inset - 0.01) return place;
      // Near a corner it would lie too near the other side: in the corner of the row itself, then.
      if (!rows.has(inset)) rows.set(inset, offset(finished, -inset)[0]);
      const row = rows.get(inset);
      const nearest = row && nearestOn(row, place);
      return nearest ? { ...nearest.at, turn: place.turn } : place;
    },
    at: (reading) => {
      const place = placeOnOutline(finished, reading);
      return place && { ...place, turn: 0 };
    },
    across: notAcross,
    named: (name) => (name === 'rim' ? finished : undefined),
    notes: [],
  };
}

// ---- forms laid flat by numbers ------------------------------------------------------------------------------------

function numericFlat(piece: PieceModel, blank: Blank): Flat | undefined {
  const flattening = piece.flattening();
  const cut = pathOfBlank(blank);
  const chart = piece.chart();
  if (!flattening || 'refused' in flattening || !cut || !chart) return undefined;
  const { flat } = flattening;
  const on = (run: Uint32Array | undefined): Path | undefined => {
    if (!run) return undefined;
    const closed = run.length > 2 && run[0] === run[run.length - 1];
    const vertices = Array.from(
      closed ? run.subarray(0, -1) : run,
      (vertex): Vertex => ({ x: flat.positions[2 * vertex]!, y: flat.positions[2 * vertex + 1]! }),
    );
    return { vertices, closed };
  };
  const left = allowances(blank);
  const finished = anticlockwise(outlineOf(flat).path);
  const edges = [...flat.surface.edges].flatMap(([name, vertices]): FlatEdge[] => {
    const path = on(vertices);
    if (!path || path.vertices.length < 2) return [];
    return [{ name, path, inside: insideOf(path, finished), allowance: left(name.replace(/ \d+$/, '')) }];
  });
  const middle = on(flat.surface.lines.get('middle') ?? flat.surface.lines.get('front'));
  const flatSpot = (spot: Spot): Point | undefined => {
    const point = pointOf(flat.surface, chart, spot);
    if (!point) return undefined;
    const [x, y] = placeOnFlat(flat, point);
    return { x, y };
  };
  const stationAt = (place: FormPlace | string | undefined): FormStation | undefined => {
    if (typeof place !== 'object') return undefined;
    const at = flatSpot(place.spot);
    return (
      at && {
        ...at,
        place,
        // Dear, and a round hole never asks.
        get turn() {
          const [from, to] = [-1, 1].map((by) => flatSpot(besidePlace(chart, place, by, 0)) ?? at);
          return turnOf(from!, to!);
        },
      }
    );
  };
  const ways = new Map<string, AlongEdge | undefined>();
  const inFrom = (name: string, station: number, inset: number): FormStation | undefined => {
    if (!ways.has(name)) ways.set(name, alongEdge(chart, name, piece.cutForm()?.stretches));
    const way = ways.get(name);
    if (!way) return undefined;
    if (inset >= 0) return stationAt(way(station, inset));
    // Beyond the edge there is no form: straight on out of it.
    const [edge, within] = [0, 1].map((by) => stationAt(way(station, by)));
    if (!edge || !within) return undefined;
    const size = distance(edge, within);
    const out = (from: number, to: number) => from + ((to - from) * inset) / size;
    return {
      x: out(edge.x, within.x),
      y: out(edge.y, within.y),
      get turn() {
        return edge.turn;
      },
    };
  };
  return {
    cut: anticlockwise(cut),
    ...(flattening.profile || edges.some((edge) => edge.allowance) ? { finished } : {}),
    edges,
    centres: middle ? [middle] : [],
    exact: flattening.formed === undefined,
    inFrom,
    at: (reading) => stationAt(placeOfLine(piece, reading)),
    spot: flatSpot,
    beside: (station, right, up) => {
      const { place } = station as FormStation;
      return place && stationAt({ ...place, spot: besidePlace(chart, place, right, up) });
    },
    *laid(station, shape) {
      const plain = laidPlainly(station, shape);
      const { place } = station as FormStation;
      if (!place) return plain;
      const points = flattened(shape, CARRIED_WITHIN);
      const carried = yield* manyByMany(points, ({ x, y }) => flatSpot(besidePlace(chart, place, x, y)), 1);
      const isWhole = carried.every((each): each is Point => each !== undefined);
      // What forming hardly changes stays a circle, for a drill or a punch.
      return isWhole && carried.some((each) => distanceTo(plain, each) > PLAIN_WITHIN)
        ? { vertices: carried, closed: true }
        : plain;
    },
    *across(name, distance) {
      yield undefined;
      const edge = edges.find((each) => each.name === name);
      if (!edge) return undefined;
      const length = lengthOfPath(edge.path);
      const formed = piece.edgeLength(name)?.value ?? length;
      const { closed } = edge.path;
      const shares = Array.from({ length: closed ? ACROSS : ACROSS + 1 }, (_, i) => i / ACROSS);
      // Each is a walk over the form: across flutes and a flare some milliseconds.
      const stations = yield* manyByMany(shares, (share) => inFrom(name, formed * share, distance), 1);
      const found = stations.filter((each): each is FormStation => each !== undefined);
      return found.length > 1 ? { vertices: found.map(vertexOf), closed } : undefined;
    },
    named: (name) =>
      on(flat.surface.lines.get(name) ?? flat.surface.folds?.get(name)) ??
      edges.find((edge) => edge.name === name)?.path,
    notes: [],
  };
}

/** A place of the flat that knows where on the form it lies. */
interface FormStation extends Station {
  readonly place?: FormPlace;
}

/** Points of a line at a distance from an edge. */
const ACROSS = 48;
/** Chords of a shape that is carried through the flattening, mm off its arcs. */
const CARRIED_WITHIN = 0.1;
/** A shape that comes out nearer to its own than this, mm, is drawn as itself. */
const PLAIN_WITHIN = 0.25;

const turnOf = (from: Point, to: Point): number => (Math.atan2(to.y - from.y, to.x - from.x) * 180) / Math.PI;

/** A shape at a place where nothing stretches it. */
export const laidPlainly = (at: Station, shape: Path): Path => moved(turned(shape, at.turn), at.x, at.y);

/** On which side of its way an edge has the piece: the middle of the outline lies there, seen from the middle of the edge. */
function insideOf(path: Path, outline: Path): 'left' | 'right' {
  const on = along(path, lengthOfPath(path) / 2);
  return contains(outline, beside(on, 1)) ? 'left' : 'right';
}

// ---- the smith's own blank -----------------------------------------------------------------------------------------

const OWN = 'Your own blank, as the spec gives it.';

/** A blank of the smith's own, with what is worked out of the form laid in its middle. */
function givenFlat(blank: Blank, layout: ReturnType<typeof layoutOf>, piece: PieceModel): Flat {
  const worked = piece.workedBlank()?.blank;
  const left = worked ? allowances(worked) : () => 0;
  if (typeof layout === 'object' && layout.kind === 'round' && blank.shape.kind !== 'rectangle') {
    const flat = roundFlat(layout, blank, left('rim'), piece);
    return { ...flat, notes: [OWN] };
  }
  if (worked?.shape.kind === 'rectangle' && blank.shape.kind === 'rectangle') {
    const [overX, overY] = [(blank.long - worked.long) / 2, (blank.wide - worked.wide) / 2];
    if (overX >= 0 && overY >= 0) {
      const more: Left = (edge) => left(edge) + (edge === 'left' || edge === 'right' ? overX : overY);
      const wide = blank.long - more('left') - more('right');
      const high = blank.wide - more('top') - more('bottom');
      return { ...straightFlat(wide, high, more), notes: [`${OWN} The finished piece is drawn in its middle.`] };
    }
  }
  const cut = blank.shape.kind === 'rectangle' ? rectangle(0, 0, blank.long, blank.wide) : oval(blank.long, blank.wide);
  return {
    cut,
    edges: [],
    centres: [],
    exact: false,
    inFrom: () => undefined,
    at: () => undefined,
    across: notAcross,
    named: () => undefined,
    notes: [OWN],
  };
}
