import { alongEdge, besidePlace, type FormPlace } from '../../geometry/surface/place.ts';
import { apart, dot, minus, NOWHERE, plus, type Vector } from '../../geometry/surface/vector.ts';
import { pause, Recent } from '../../incremental/steps.ts';
import { NONE } from '../forms/answers.ts';
import { kindOf } from '../forms/index.ts';
import { ownOutline, placeInBox, placeOfLine, placeOnOutline } from '../shapes/places.ts';
import { keyOf, type Surfaced } from '../shapes/surface.ts';
import type { Opening } from '../things/piece.ts';

/* Where single holes, slots and rows of holes lie on a piece, so that one can be held against the other. */

/** What is asked of a piece that has holes. */
export interface Holed extends Surfaced {
  openings(): readonly Opening[];
  isClosedEdge(edge: string): boolean;
}

/** A row of holes: how far along which edge each stands, and how far in, mm. */
export interface Row {
  readonly edge: string;
  readonly inset: number;
  readonly stations: readonly number[];
}

/** The row that an opening is; nothing where it is none. `unknown` is how long an edge is that the piece does not know. */
export function rowOf(
  piece: Pick<Holed, 'edgeLength' | 'isClosedEdge'>,
  { line, count }: Pick<Opening, 'line' | 'count'>,
  unknown?: number,
): Row | undefined {
  const edge = line.text('edge', 'along');
  const length = edge === undefined ? undefined : (piece.edgeLength(edge)?.value ?? unknown);
  if (!line.has('along') || edge === undefined || length === undefined) return undefined;
  const inset = line.length('inset', 'inset') ?? 0;
  const [from, to] = [line.length('from', 'from'), line.length('to', 'from')];
  const isPart = from !== undefined && to !== undefined;
  const closed = !isPart && piece.isClosedEdge(edge);
  const [start, end] = isPart
    ? [Math.min(from, to), Math.min(Math.max(from, to), length)]
    : closed
      ? [0, length]
      : [inset, length - inset];
  const step = closed ? (end - start) / count : count > 1 ? (end - start) / (count - 1) : 0;
  const first = count === 1 && !closed ? (start + end) / 2 : start;
  return { edge, inset, stations: Array.from({ length: count }, (_, i) => first + i * step) };
}

/** A hole or a slot where it lies: the line along its middle, and how far it reaches from that, mm. */
export interface Lying {
  readonly opening: Opening;
  readonly spine: readonly Vector[];
  readonly radius: number;
}

/**
 * The holes and slots of a piece and those of its rows, on its form or, where that is flat or rolls out to a rectangle, on
 * the flat. Those whose place is not known are left out, and so are all but the first `most`.
 */
export const holesOn = (piece: Holed, most: number): readonly Lying[] => holesIn(piece, most, spinesOf);

/** The same on the form as it stands in its own frame, rolled as it is. */
export const holesStanding = (piece: Holed, most: number): readonly Lying[] => holesIn(piece, most, spinesStanding);

function holesIn(piece: Holed, most: number, spines: typeof spinesOf): readonly Lying[] {
  const found: Lying[] = [];
  for (const opening of piece.openings()) {
    if (opening.kind === 'breaths' || found.length + opening.count > most) continue;
    const radius = Math.min(opening.long, opening.wide) / 2;
    for (const spine of spines(piece, opening)) found.push({ opening, spine, radius });
  }
  return found;
}

function spinesOf(piece: Holed, opening: Opening): readonly (readonly Vector[])[] {
  const { line, long, wide, round } = opening;
  const half = round ? 0 : Math.abs(long - wide) / 2;
  const isLevel = long >= wide;
  const upright = (x: number, y: number): Vector => [x, y, 0];
  const flat = (x: number, y: number): readonly Vector[] =>
    half ? [-half, half].map((by) => (isLevel ? upright(x + by, y) : upright(x, y + by))) : [upright(x, y)];
  const outline = ownOutline(piece);
  if (outline) {
    const at = placeOnOutline(outline, line);
    return at ? [flat(at.x, at.y)] : [];
  }
  const form = piece.form();
  const square = form ? kindOf(form).square(form) : NONE;
  const row = opening.kind === 'holes' ? rowOf(piece, opening) : undefined;
  if (square !== NONE && square.wide !== undefined) {
    const { wide: across, high } = square;
    if (row)
      return row.stations.flatMap((station) => {
        const at = besideSquare(row, station, across, high);
        return at ? [[at]] : [];
      });
    const at = placeInBox(line, across, high);
    return at ? [flat(at.x ?? across / 2, at.y ?? high / 2)] : [];
  }
  return spinesOnForm(piece, opening);
}

/** What has an outline of its own stands upright in its frame. */
function spinesStanding(piece: Holed, opening: Opening): readonly (readonly Vector[])[] {
  if (!ownOutline(piece)) return spinesOnForm(piece, opening);
  return spinesOf(piece, opening).map((spine) => spine.map(([x, y]): Vector => [-x, 0, y]));
}

function spinesOnForm(piece: Holed, opening: Opening): readonly (readonly Vector[])[] {
  const { line, long, wide, round } = opening;
  const half = round ? 0 : Math.abs(long - wide) / 2;
  const isLevel = long >= wide;
  const row = opening.kind === 'holes' ? rowOf(piece, opening) : undefined;
  const chart = piece.chart();
  if (!chart) return [];
  const spine = (place: FormPlace | string | undefined): (readonly Vector[])[] => {
    if (place === undefined || typeof place === 'string') return [];
    const parts = half ? Math.max(1, Math.ceil((2 * half) / CHORD)) : 0;
    const offs = Array.from({ length: parts + 1 }, (_, i) => (parts ? half * ((2 * i) / parts - 1) : 0));
    return [
      offs.map((by) =>
        chart.point(...(by ? besidePlace(chart, place, isLevel ? by : 0, isLevel ? 0 : by) : place.spot)),
      ),
    ];
  };
  if (!row) return spine(placeOfLine(piece, line));
  return row.stations.flatMap((station) => spine(placeAlong(piece, row, station)));
}

/** A slot on a curved form is followed by chords no longer than this, mm. */
const CHORD = 8;

/** Along an edge of a rectangle, as its stations are told. */
function besideSquare({ edge, inset }: Row, station: number, wide: number, high: number): Vector | undefined {
  switch (edge) {
    case 'top':
      return [station, high - inset, 0];
    case 'bottom':
      return [station, inset, 0];
    case 'left':
      return [inset, station, 0];
    case 'right':
      return [wide - inset, station, 0];
    default:
      return undefined;
  }
}

/** A place of a row on the form: each takes a way over the surface, so what was found is kept. */
function placeAlong(piece: Holed, { edge, inset }: Row, station: number): FormPlace | string | undefined {
  const chart = piece.chart();
  let isNew = false;
  const place = places.get(`${edge} ${station} ${inset} ${keyOf(piece)}`, () => {
    isNew = true;
    return chart && alongEdge(chart, edge.toLowerCase(), piece.cutForm()?.stretches)?.(station, inset);
  });
  if (isNew) pause();
  return place;
}
const places = new Recent<FormPlace | string | undefined>(1_000);

/** The distance of two broken lines, mm: good where they do not cross, or cross at less than the length of a part. */
export function between(a: readonly Vector[], b: readonly Vector[]): number {
  const from = (points: readonly Vector[], line: readonly Vector[]) =>
    Math.min(...points.map((point) => distanceTo(point, line)));
  return Math.min(from(a, b), from(b, a));
}

function distanceTo(point: Vector, line: readonly Vector[]): number {
  let least = apart(point, line[0] ?? NOWHERE);
  for (let i = 1; i < line.length; i++) {
    const [from, to] = [line[i - 1]!, line[i]!];
    const way = minus(to, from);
    const whole = dot(way, way);
    const share = whole > 0 ? Math.min(1, Math.max(0, dot(minus(point, from), way) / whole)) : 0;
    least = Math.min(least, apart(point, plus(from, way, share)));
  }
  return least;
}
