import { pathThrough } from '../../geometry/flatten/curve.ts';
import { flattened } from '../../geometry/outline/chords.ts';
import { anticlockwise, boxOfPath, crossingOf } from '../../geometry/outline/measure.ts';
import type { Path } from '../../geometry/outline/path.ts';
import type { Point } from '../../geometry/outline/span.ts';
import type { Contour, ContourMeasures } from '../../geometry/surface/contour.ts';
import { reckon } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

/** Least width of a board behind the edge that meets the work, mm: narrower it bends. Common practice (no source). */
export const BOARD = 30;

/** A template as it is cut out, mm, where its section lies. */
export interface Board {
  readonly outline: Path;
  /** The section of a piece that closes round, cut out of the board. */
  readonly hole?: Path;
  /** The edge that meets the work, as the section runs. */
  readonly edge: Path;
  /** Marks across the edge where the metal begins and ends within it. */
  readonly ends: readonly Path[];
  /** The section goes back on itself: the board cannot be put to it whole. */
  readonly grips: boolean;
}

/**
 * The board for a section: its edge the section itself, its back a straight frame round it. One for the outside leaves
 * the section hollow, one for the inside fills it. Nothing where the board would cross itself.
 *
 * Within 0.02 mm of the smooth line through the section's points.
 */
export function boardOf(contour: Contour, side: 'outside' | 'inside'): Board | undefined {
  const { points, closed } = contour;
  const edge = edgeOf(contour);
  const ends = endsOf(contour, side);
  if (closed) {
    const section = anticlockwise({ ...edge, closed: true, vertices: edge.vertices.slice(0, -1) });
    const { left, right, bottom, top } = boxOfPath(section);
    const frame = rectangle(left - BOARD, bottom - BOARD, right + BOARD, top + BOARD);
    return side === 'inside'
      ? { outline: section, edge, ends, grips: false }
      : { outline: frame, hole: section, edge, ends, grips: true };
  }
  const box = boxOfPath(edge);
  const frame = { left: box.left - BOARD, right: box.right + BOARD, bottom: box.bottom - BOARD, top: box.top + BOARD };
  const [first, last] = [points[0]!, points.at(-1)!];
  const ways =
    side === 'outside'
      ? ([outward(points, 'first'), outward(points, 'last')] as const)
      : ([back(points), back(points)] as const);
  const [out, home] = [exit(last, ways[1], frame), exit(first, ways[0], frame)];
  const round = side === 'outside' ? 'clockwise' : 'anticlockwise';
  const vertices = [...edge.vertices, out, ...cornersBetween(out, home, frame, round), home];
  const outline = anticlockwise({ vertices, closed: true });
  return crossingOf(outline) ? undefined : { outline, edge, ends, grips: grips(points) };
}

/** How far a section may come back on itself where a board is put to it, mm: it springs open by more. */
const SPRINGS = 1;

/** Whether it is narrower at its mouth than within, looked at square to the line between its ends. */
function grips(points: readonly Point[]): boolean {
  const [first, last] = [points[0]!, points.at(-1)!];
  const mouth = Math.hypot(last.x - first.x, last.y - first.y);
  if (mouth === 0) return true;
  let [most, back] = [-Infinity, 0];
  for (const { x, y } of points) {
    const along = ((x - first.x) * (last.x - first.x) + (y - first.y) * (last.y - first.y)) / mouth;
    most = Math.max(most, along);
    back = Math.max(back, most - along);
  }
  return back > SPRINGS;
}

/** Lines and arcs through the section, its corners kept. */
function edgeOf({ points, corners, closed }: Contour): Path {
  const flat = Float64Array.from(points.flatMap(({ x, y }) => [x, y]));
  if (closed) {
    const inner = new Set([...corners].filter((i) => i < points.length - 1));
    const { vertices } = pathThrough({ points: flat.subarray(0, -2), corners: inner }, NEAR);
    const { x, y } = vertices[0]!;
    return { vertices: [...vertices, { x, y }], closed: false };
  }
  // The line back from its end to its start is left out again.
  const { vertices } = pathThrough({ points: flat, corners: new Set([0, ...corners, points.length - 1]) }, NEAR);
  return { vertices, closed: false };
}

const NEAR = 0.02;

type Way = readonly [x: number, y: number];
interface Frame {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/** Square to the section at one of its ends, to the side on which the outside lies, along x or y. */
function outward(points: readonly Point[], end: 'first' | 'last'): Way {
  const [from, to] = end === 'first' ? [points[0]!, points[1]!] : [points.at(-2)!, points.at(-1)!];
  return alongAxis(to.y - from.y, from.x - to.x);
}

/** Out of the hollow of a section, along x or y. */
function back(points: readonly Point[]): Way {
  const [first, last] = [points[0]!, points.at(-1)!];
  return alongAxis(first.y - last.y, last.x - first.x);
}

const alongAxis = (x: number, y: number): Way =>
  Math.abs(x) >= Math.abs(y) * (1 - 1e-9) ? [Math.sign(x), 0] : [0, Math.sign(y)];

function exit({ x, y }: Point, [right, up]: Way, frame: Frame): Point {
  if (right) return { x: right > 0 ? frame.right : frame.left, y };
  return { x, y: up > 0 ? frame.top : frame.bottom };
}

/** The corners of a frame that are passed on the way round it from one place on it to another. */
function cornersBetween(from: Point, to: Point, frame: Frame, round: 'clockwise' | 'anticlockwise'): Point[] {
  const { left, right, bottom, top } = frame;
  const [wide, high] = [right - left, top - bottom];
  const whole = 2 * (wide + high);
  // Anticlockwise from the lower left corner.
  const place = ({ x, y }: Point): number => {
    if (y === bottom) return x - left;
    if (x === right) return wide + y - bottom;
    return y === top ? wide + high + right - x : 2 * wide + high + top - y;
  };
  const corners: (readonly [number, Point])[] = [
    [0, { x: left, y: bottom }],
    [wide, { x: right, y: bottom }],
    [wide + high, { x: right, y: top }],
    [2 * wide + high, { x: left, y: top }],
  ];
  const turn = round === 'clockwise' ? -1 : 1;
  const gone = (at: number) => (((turn * (at - place(from))) % whole) + whole) % whole;
  return corners
    .map(([at, corner]) => [gone(at), corner] as const)
    .filter(([way]) => way > 1e-9 && way < gone(place(to)) - 1e-9)
    .sort(([a], [b]) => a - b)
    .map(([, corner]) => corner);
}

const MARK = 8;

/** Where the metal begins or ends on the edge, but for the edge's own ends. */
function endsOf({ points, metal, closed }: Contour, side: 'outside' | 'inside'): Path[] {
  const stops = [...new Set(metal.flat())].filter((i) => closed || (i > 0 && i < points.length - 1));
  const whole = closed && metal.length === 1 && metal[0]![1] - metal[0]![0] === points.length - 1;
  return (whole ? [] : stops).map((i): Path => {
    const [before, at, after] = [points[Math.max(0, i - 1)]!, points[i]!, points[Math.min(points.length - 1, i + 1)]!];
    const long = Math.hypot(after.x - before.x, after.y - before.y) || 1;
    const by = (side === 'outside' ? MARK : -MARK) / long;
    return {
      vertices: [
        { x: at.x, y: at.y },
        { x: at.x + by * (after.y - before.y), y: at.y - by * (after.x - before.x) },
      ],
      closed: false,
    };
  });
}

function rectangle(left: number, bottom: number, right: number, top: number): Path {
  return {
    vertices: [
      { x: left, y: bottom },
      { x: right, y: bottom },
      { x: right, y: top },
      { x: left, y: top },
    ],
    closed: true,
  };
}

/** The stretches of a straight line, along x or along y at a value of the other, that lie on a board. */
export function linesOn({ outline, hole }: Board, along: 'x' | 'y', value: number): Path[] {
  const across = along === 'x' ? 'y' : 'x';
  const crossings = [outline, ...(hole ? [hole] : [])].flatMap((path) => {
    const points = flattened(path, 0.002);
    return points.flatMap((from, i) => {
      const to = points[(i + 1) % points.length]!;
      if (from[across] >= value === to[across] >= value) return [];
      const share = (value - from[across]) / (to[across] - from[across]);
      return [from[along] + share * (to[along] - from[along])];
    });
  });
  crossings.sort((a, b) => a - b);
  const at = (place: number): Point => (along === 'x' ? { x: place, y: value } : { x: value, y: place });
  return Array.from({ length: crossings.length >> 1 }, (_, i) => ({
    vertices: [at(crossings[2 * i]!), at(crossings[2 * i + 1]!)],
    closed: false,
  }));
}

/** Length of the metal along a section, mm. Source: a smooth line through its points. */
export function sectionLength({ length, points }: ContourMeasures, source: string): Result {
  return reckon({
    value: length,
    unit: 'mm',
    formula: 'L = smooth line through {n|} points of the section',
    symbols: { n: points },
    basis: 'geometry',
    source,
  });
}
