import { anticlockwise, around, boxOfPath, contains, crossingOf, meetings, reversed, signedArea } from '../measure.ts';
import type { Path } from '../path.ts';
import { type Box, type Point, pathOf, reversedSpan, type Span, spansOf } from '../span.ts';
import { moving, transformed } from '../transform.ts';
import { type Drawing, isDrawing, type Stroke, type Unreadable } from './drawing.ts';
import { readDxf } from './dxf.ts';
import { readSvg } from './svg.ts';

/** The outline that a drawing file gives a piece, its box's lower left corner at the origin. */
export interface OutlineIn {
  /** Anticlockwise, lines and arcs, mm. */
  readonly outer: Path;
  /** What is cut out of it, clockwise. */
  readonly openings: readonly Path[];
  /** The file does not say how large it is: how it was read, in words. */
  readonly assumed?: string;
  /** How many runs of lines enclose nothing and were left out. */
  readonly leftOut: number;
}

/** Why a file gives no outline. `text` ends a sentence that begins with the file. */
export interface NoOutline {
  readonly why: 'unreadable' | 'nothing' | 'no such name' | 'open' | 'crosses itself' | 'several';
  readonly text: string;
  /** Names that could be asked for. */
  readonly names: readonly string[];
}

export const isOutline = (answer: OutlineIn | CutOut | NoOutline): answer is OutlineIn => 'outer' in answer;

/** Reads a drawing file by the ending of its name. */
export function readDrawing(name: string, text: string): Drawing | Unreadable {
  const ending = /\.([a-z0-9]+)$/i.exec(name)?.[1]?.toLowerCase();
  if (ending === 'svg') return readSvg(text);
  if (ending === 'dxf') return readDxf(text);
  return { unreadable: 'only SVG and DXF drawings can be read' };
}

/** Ends that are nearer than this meet, mm: drawing programs round to some hundredths. */
const MEETS = 0.05;

/**
 * The outline in a drawing, by its name in the file where one is given: the largest closed run of lines and arcs, with
 * those that lie in it as openings.
 */
export function outlineIn(drawing: Drawing | Unreadable, name?: string): OutlineIn | NoOutline {
  const read = loopsIn(drawing, name);
  if ('why' in read) return read;
  const { loops, open, names, assumed } = read;
  const [outer, ...rest] = loops as [Path, ...Path[]];
  const outside = rest.filter((path) => !contains(outer, path.vertices[0]!));
  if (outside.length) {
    const count = outside.length + 1;
    return { why: 'several', text: `has ${count} outlines beside each other: say which with \`named\``, names };
  }
  const { left, bottom } = boxOfPath(outer);
  const home = (path: Path) => transformed(path, moving(-left, -bottom), MEETS);
  return {
    outer: home(outer),
    openings: rest.map((path) => home(reversed(path))),
    leftOut: open,
    ...(assumed === undefined ? {} : { assumed }),
  };
}

/** What a drawing cuts out of a plate, about the middle of its box. */
export interface CutOut {
  /** Anticlockwise, lines and arcs, mm; none lies in another. */
  readonly shapes: readonly Path[];
  /** Box of them all, mm. */
  readonly long: number;
  readonly wide: number;
  /** Closed lines inside a shape: what they enclose falls out with it. */
  readonly falling: number;
  readonly assumed?: string;
  readonly leftOut: number;
}

export const isCutOut = (answer: OutlineIn | CutOut | NoOutline): answer is CutOut => 'shapes' in answer;

/** Everything closed in a drawing, as pierced work: by its name in the file where one is given. */
export function cutOutIn(drawing: Drawing | Unreadable, name?: string): CutOut | NoOutline {
  const read = loopsIn(drawing, name);
  if ('why' in read) return read;
  const { loops, open, names, assumed } = read;
  const at = crossingBetween(loops);
  const box = loops.map(boxOfPath).reduce(around);
  if (at) return { why: 'crosses itself', text: `has shapes that cross each other, ${place(at, box)}`, names };
  const shapes: Path[] = [];
  // The largest first: what lies in one of them is no shape of its own.
  for (const loop of loops) if (!shapes.some((shape) => contains(shape, loop.vertices[0]!))) shapes.push(loop);
  const home = moving(-(box.left + box.right) / 2, -(box.bottom + box.top) / 2);
  return {
    shapes: shapes.map((path) => transformed(path, home, MEETS)),
    long: box.right - box.left,
    wide: box.top - box.bottom,
    falling: loops.length - shapes.length,
    leftOut: open,
    ...(assumed === undefined ? {} : { assumed }),
  };
}

interface Loops {
  /** Anticlockwise, the largest first; none crosses itself. */
  readonly loops: readonly Path[];
  /** Runs of lines that enclose nothing. */
  readonly open: number;
  readonly names: readonly string[];
  readonly assumed?: string;
}

function loopsIn(drawing: Drawing | Unreadable, name?: string): Loops | NoOutline {
  if (!isDrawing(drawing)) return { why: 'unreadable', text: `cannot be read: ${drawing.unreadable}`, names: [] };
  const { names, assumed } = drawing;
  const wanted = name === undefined ? drawing.strokes : named(drawing.strokes, name);
  if (!wanted.length) {
    if (name === undefined) return { why: 'nothing', text: 'has no line in it that could be cut', names };
    return { why: 'no such name', text: `has nothing named “${name}” in it`, names };
  }
  const { loops, open } = chained(wanted);
  if (!loops.length) return { why: 'open', text: openText(open), names };
  const paths = loops.map((spans) => anticlockwise(pathOf(spans, true))).sort((a, b) => signedArea(b) - signedArea(a));
  for (const path of paths) {
    const at = crossingOf(path);
    if (at)
      return {
        why: 'crosses itself',
        text: `has an outline that crosses itself, ${place(at, boxOfPath(paths[0]!))}`,
        names,
      };
  }
  return { loops: paths, open: open.length, names, ...(assumed === undefined ? {} : { assumed }) };
}

/** A place where two of the loops meet. */
function crossingBetween(loops: readonly Path[]): Point | undefined {
  const owners = loops.flatMap((path, i) => spansOf(path).map((span) => ({ span, i })));
  for (const { one, other, at } of meetings(owners.map(({ span }) => span)))
    if (owners[one]!.i !== owners[other]!.i) return at;
  return undefined;
}

/** What bears a name: as it is written, or else whatever the case of its letters. */
function named(strokes: readonly Stroke[], name: string): readonly Stroke[] {
  const same = strokes.filter((stroke) => stroke.names.includes(name));
  const key = name.toLowerCase();
  return same.length ? same : strokes.filter((stroke) => stroke.names.some((each) => each.toLowerCase() === key));
}

/** Strokes joined end to end where their ends meet, either way round. */
function chained(strokes: readonly Stroke[]): { loops: Span[][]; open: Span[][] } {
  const loops: Span[][] = [];
  const loose: Span[][] = [];
  for (const { spans, closed } of strokes) (closed || isRing(spans) ? loops : loose).push([...spans]);
  const open: Span[][] = [];
  const ends = new Ends(loose);
  for (const [i, first] of loose.entries()) {
    if (ends.isTaken(i)) continue;
    ends.take(i);
    let chain = first;
    for (let way = 0; way < 2 && !isRing(chain); way++) {
      for (let next = ends.near(chain.at(-1)!.to); next && !isRing(chain); next = ends.near(chain.at(-1)!.to)) {
        ends.take(next.run);
        chain.push(...(next.atStart ? loose[next.run]! : backwards(loose[next.run]!)));
      }
      // From the other end as well: the first run may have been in the middle.
      if (!isRing(chain)) chain = backwards(chain);
    }
    (isRing(chain) ? loops : open).push(chain);
  }
  return { loops: loops.map(closedUp), open };
}

const backwards = (spans: readonly Span[]): Span[] => [...spans].reverse().map(reversedSpan);
const distance = (a: Point, b: Point) => Math.hypot(a.x - b.x, a.y - b.y);

const isRing = (spans: readonly Span[]): boolean =>
  distance(spans[0]!.from, spans.at(-1)!.to) <= MEETS && (spans.length > 1 || spans[0]!.bulge !== 0);

/** Each span begins where the one before it ends: the small gaps that were passed over are taken up. */
function closedUp(spans: readonly Span[]): Span[] {
  return spans.map((span, i) => ({ ...span, to: spans[(i + 1) % spans.length]!.from }));
}

/** The ends of loose runs, found by where they lie. */
class Ends {
  private readonly cells = new Map<string, { run: number; atStart: boolean; point: Point }[]>();
  private readonly taken = new Set<number>();

  constructor(runs: readonly (readonly Span[])[]) {
    for (const [run, spans] of runs.entries()) {
      this.add(spans[0]!.from, run, true);
      this.add(spans.at(-1)!.to, run, false);
    }
  }

  private add(point: Point, run: number, atStart: boolean): void {
    const key = `${Math.round(point.x / MEETS)},${Math.round(point.y / MEETS)}`;
    const cell = this.cells.get(key);
    if (cell) cell.push({ run, atStart, point });
    else this.cells.set(key, [{ run, atStart, point }]);
  }

  isTaken(run: number): boolean {
    return this.taken.has(run);
  }

  take(run: number): void {
    this.taken.add(run);
  }

  /** The nearest end of a run that is still loose. */
  near(point: Point): { run: number; atStart: boolean } | undefined {
    const [column, row] = [Math.round(point.x / MEETS), Math.round(point.y / MEETS)];
    let best: { run: number; atStart: boolean; point: Point } | undefined;
    for (let x = column - 1; x <= column + 1; x++)
      for (let y = row - 1; y <= row + 1; y++)
        for (const end of this.cells.get(`${x},${y}`) ?? [])
          if (
            !this.taken.has(end.run) &&
            distance(end.point, point) <= MEETS &&
            (!best || distance(end.point, point) < distance(best.point, point))
          )
            best = end;
    return best;
  }
}

/** Where the widest gap is, for whoever has to close it. */
function openText(open: readonly (readonly Span[])[]): string {
  const [longest] = [...open].sort((a, b) => b.length - a.length);
  if (!longest) return 'has no closed outline in it';
  const gap = distance(longest[0]!.from, longest.at(-1)!.to);
  return `has no closed outline in it: its longest line ends ${gap.toFixed(gap < 1 ? 2 : 1)} mm from where it begins`;
}

function place({ x, y }: Point, { left, bottom }: Box): string {
  return `${(x - left).toFixed(1)} mm from its left and ${(y - bottom).toFixed(1)} mm from its bottom`;
}
