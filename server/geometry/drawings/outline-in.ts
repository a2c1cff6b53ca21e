import { say } from '../../../l10n/say.ts';
import type { Steps } from '../../incremental/steps.ts';
import { anticlockwise, boxOfPath, contains, crossingIn, meetings, reversed, signedArea } from '../outline/measure.ts';
import type { Path } from '../outline/path.ts';
import { around, type Box, type Point, pathOf, reversedSpan, type Span, spansOf } from '../outline/span.ts';
import { BoxIndex } from '../outline/span-index.ts';
import { moving, transformed } from '../outline/transform.ts';
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

type Why = 'unreadable' | 'nothing' | 'no such name' | 'open' | 'crosses itself' | 'several' | 'too large' | 'too fine';

/** How large an outline may be. */
export interface Bounds {
  /** Of what: `piece` */
  readonly of: string;
  /** Of its sides, mm. */
  readonly longest: number;
  /** Of its box, mm². */
  readonly largest?: number;
}

/** Why a file gives no outline. `text` ends a sentence that begins with the file. */
export interface NoOutline {
  readonly why: Why;
  readonly text: string;
  /** Names that could be asked for. */
  readonly names: readonly string[];
}

export const isOutline = (answer: OutlineIn | CutOut | NoOutline): answer is OutlineIn => 'outer' in answer;

/** Reads a drawing file by the ending of its name, with stops. */
export function* drawingRead(name: string, text: string): Steps<Drawing | Unreadable> {
  const ending = /\.([a-z0-9]+)$/i.exec(name)?.[1]?.toLowerCase();
  if (ending === 'svg') return yield* readSvg(text);
  if (ending === 'dxf') return yield* readDxf(text);
  return { unreadable: 'only SVG and DXF drawings can be read' };
}

/** Ends that are nearer than this meet, mm: drawing programs round to some hundredths. */
const MEETS = 0.05;

/**
 * The outline in a drawing, by its name in the file where one is given: the largest closed run of lines and arcs, with
 * those that lie in it as openings. With stops.
 */
export function* outlineFound(
  drawing: Drawing | Unreadable,
  name: string | undefined,
  bounds: Bounds,
): Steps<OutlineIn | NoOutline> {
  const read = yield* loopsIn(drawing, name, bounds);
  if ('why' in read) return read;
  const { loops, open, names, assumed } = read;
  const [outer, ...rest] = loops as [Path, ...Path[]];
  const outside: Path[] = [];
  for (const [i, path] of rest.entries()) {
    if (i % AT_ONCE === AT_ONCE - 1) yield undefined;
    if (!contains(outer, path.vertices[0]!)) outside.push(path);
  }
  if (outside.length) {
    const count = outside.length + 1;
    return { why: 'several', text: say`has ${count} outlines beside each other: say which with \`named\``, names };
  }
  const { left, bottom } = boxOfPath(outer);
  const home = (path: Path) => transformed(path, moving(-left, -bottom), MEETS);
  const openings = yield* eachIn(rest, (path) => home(reversed(path)));
  return {
    outer: home(outer),
    openings,
    leftOut: open,
    ...(assumed === undefined ? {} : { assumed }),
  };
}

/** Shapes, or runs of lines, that are looked at before others may go first. */
const AT_ONCE = 200;
/** The same of what is only handed on. */
const MANY_AT_ONCE = 5_000;

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

/** Everything closed in a drawing, as pierced work: by its name in the file where one is given. With stops. */
export function* cutOutFound(
  drawing: Drawing | Unreadable,
  name: string | undefined,
  bounds: Bounds,
): Steps<CutOut | NoOutline> {
  const read = yield* loopsIn(drawing, name, bounds);
  if ('why' in read) return read;
  const { loops, open, names, assumed } = read;
  const at = yield* crossingBetween(loops);
  if (at === 'too many') return tooFine(names);
  const boxes = loops.map(boxOfPath);
  const box = boxes.reduce(around);
  if (at) return { why: 'crosses itself', text: say`has shapes that cross each other, ${place(at, box)}`, names };
  const shapes = yield* outermost(loops, boxes);
  const home = moving(-(box.left + box.right) / 2, -(box.bottom + box.top) / 2);
  return {
    shapes: yield* eachIn(shapes, (path) => transformed(path, home, MEETS)),
    long: box.right - box.left,
    wide: box.top - box.bottom,
    falling: loops.length - shapes.length,
    leftOut: open,
    ...(assumed === undefined ? {} : { assumed }),
  };
}

/** What is made of each, with stops. */
function* eachIn<T, R>(all: readonly T[], made: (one: T) => R): Steps<R[]> {
  const list: R[] = [];
  for (const one of all) if (list.push(made(one)) % AT_ONCE === 0) yield undefined;
  return list;
}

/** The loops that lie in no other; they come the largest first, and none crosses another. */
function* outermost(loops: readonly Path[], boxes: readonly Box[]): Steps<Path[]> {
  const where = new BoxIndex(boxes);
  const isOuter: boolean[] = [];
  const shapes: Path[] = [];
  for (const [i, loop] of loops.entries()) {
    if (i % AT_ONCE === AT_ONCE - 1) yield undefined;
    const [start] = loop.vertices;
    const { x, y } = start!;
    const round = where.near({ left: x, right: x, bottom: y, top: y });
    isOuter[i] = !round.some((j) => j < i && isOuter[j] && contains(loops[j]!, start!));
    if (isOuter[i]) shapes.push(loop);
  }
  return shapes;
}

interface Loops {
  /** Anticlockwise, the largest first; none crosses itself. */
  readonly loops: readonly Path[];
  /** Runs of lines that enclose nothing. */
  readonly open: number;
  readonly names: readonly string[];
  readonly assumed?: string;
}

function* loopsIn(drawing: Drawing | Unreadable, name: string | undefined, bounds: Bounds): Steps<Loops | NoOutline> {
  if (!isDrawing(drawing)) return { why: 'unreadable', text: say`cannot be read: ${drawing.unreadable}`, names: [] };
  const { names, assumed } = drawing;
  const wanted = name === undefined ? drawing.strokes : named(drawing.strokes, name);
  if (!wanted.length) {
    if (name === undefined) return { why: 'nothing', text: 'has no line in it that could be cut', names };
    return { why: 'no such name', text: say`has nothing named “${name}” in it`, names };
  }
  const faulty = wanted.find(({ fault }) => fault !== undefined);
  if (faulty) return { why: 'unreadable', text: say`cannot be read: ${faulty.fault}`, names };
  const chains = yield* chained(wanted);
  if (!chains) return tooFine(names);
  const { loops, open } = chains;
  if (!loops.length) return { why: 'open', text: openText(open), names };
  const paths: { path: Path; area: number }[] = [];
  for (const [i, spans] of loops.entries()) {
    if (i % AT_ONCE === AT_ONCE - 1) yield undefined;
    const path = anticlockwise(pathOf(spans, true));
    paths.push({ path, area: signedArea(path) });
  }
  const sorted = paths.sort((a, b) => b.area - a.area).map(({ path }) => path);
  const boxes = yield* eachIn(sorted, boxOfPath);
  const large = tooLarge(boxes.reduce(around), bounds, names);
  if (large) return large;
  for (const [i, path] of sorted.entries()) {
    if (i % AT_ONCE === AT_ONCE - 1) yield undefined;
    const at = yield* crossingIn(path);
    if (at === 'too many') return tooFine(names);
    if (at)
      return {
        why: 'crosses itself',
        text: say`has an outline that crosses itself, ${place(at, boxOfPath(sorted[0]!))}`,
        names,
      };
  }
  return { loops: sorted, open: open.length, names, ...(assumed === undefined ? {} : { assumed }) };
}

function tooLarge(box: Box, { of, longest, largest }: Bounds, names: readonly string[]): NoOutline | undefined {
  const [wide, high] = [box.right - box.left, box.top - box.bottom];
  const isLong = Math.max(wide, high) > longest;
  if (!isLong && !(wide * high > (largest ?? Number.POSITIVE_INFINITY))) return undefined;
  const metres = (length: number) => Math.round(length / 10) / 100;
  const most = isLong ? say`longer than ${metres(longest)} m` : say`larger than ${Math.round(largest! / 1e6)} m²`;
  const text = say`is drawn ${metres(wide)} × ${metres(high)} m large, and no ${of} is ${most}: look at its unit`;
  return { why: 'too large', text, names };
}

/** Said of a drawing whose lines could not be told from each other in any time that one would wait. */
const tooFine = (names: readonly string[]): NoOutline => ({
  why: 'too fine',
  text: 'has too many lines that lie on, or close round, each other to be gone through: draw it with fewer',
  names,
});

/** A place where two of the loops meet. */
function* crossingBetween(loops: readonly Path[]): Steps<Point | 'too many' | undefined> {
  const spans: Span[] = [];
  const owners: number[] = [];
  for (const [i, path] of loops.entries())
    for (const span of spansOf(path)) {
      owners.push(i);
      if (spans.push(span) % MANY_AT_ONCE === 0) yield undefined;
    }
  for (const met of meetings(spans)) {
    if (met === 'too many') return met;
    if (met === 'stop') yield undefined;
    else if (owners[met.one] !== owners[met.other]) return met.at;
  }
  return undefined;
}

/** What bears a name: as it is written, or else whatever the case of its letters. */
function named(strokes: readonly Stroke[], name: string): readonly Stroke[] {
  const same = strokes.filter((stroke) => stroke.names.includes(name));
  const key = name.toLowerCase();
  return same.length ? same : strokes.filter((stroke) => stroke.names.some((each) => each.toLowerCase() === key));
}

/** Strokes joined end to end where their ends meet, either way round; nothing where too many ends lie on one spot. */
function* chained(strokes: readonly Stroke[]): Steps<{ loops: Span[][]; open: Span[][] } | undefined> {
  const loops: Span[][] = [];
  const loose: Span[][] = [];
  for (const [i, { spans, closed }] of strokes.entries()) {
    if (i % MANY_AT_ONCE === MANY_AT_ONCE - 1) yield undefined;
    (isRing(spans) || (closed && spans.length > 1) ? loops : loose).push([...spans]);
  }
  const open: Span[][] = [];
  const ends = new Ends(loose);
  yield undefined;
  let looked = 0;
  for (const [i, first] of loose.entries()) {
    if (i % AT_ONCE === AT_ONCE - 1 || ends.looked - looked > LOOKED_AT_ONCE) {
      looked = ends.looked;
      yield undefined;
    }
    if (ends.looked > MOST_LOOKED) return undefined;
    if (ends.isTaken(i)) continue;
    ends.take(i);
    let chain = first;
    for (let way = 0; way < 2 && !isRing(chain); way++) {
      for (let next = ends.near(chain.at(-1)!.to); next && !isRing(chain); next = ends.near(chain.at(-1)!.to)) {
        ends.take(next.run);
        if (ends.looked - looked > LOOKED_AT_ONCE) {
          looked = ends.looked;
          yield undefined;
        }
        for (const span of next.atStart ? loose[next.run]! : backwards(loose[next.run]!)) chain.push(span);
      }
      // From the other end as well: the first run may have been in the middle.
      if (!isRing(chain)) chain = backwards(chain);
    }
    (isRing(chain) ? loops : open).push(chain);
  }
  return { loops: yield* eachIn(loops, closedUp), open };
}

/** Ends of lines that are looked at to find the nearest: a few for each, where no more than a few meet. */
const MOST_LOOKED = 10_000_000;
const LOOKED_AT_ONCE = 50_000;

const backwards = (spans: readonly Span[]): Span[] => [...spans].reverse().map(reversedSpan);
const distance = (a: Point, b: Point) => Math.hypot(a.x - b.x, a.y - b.y);

const isRing = (spans: readonly Span[]): boolean =>
  distance(spans[0]!.from, spans.at(-1)!.to) <= MEETS && (spans.length > 1 || spans[0]!.bulge !== 0);

/** Each span begins where the one before it ends: the small gaps that were passed over are taken up. */
function closedUp(spans: readonly Span[]): Span[] {
  return spans.map((span, i) => ({ ...span, to: spans[(i + 1) % spans.length]!.from }));
}

interface End {
  readonly run: number;
  readonly atStart: boolean;
  readonly point: Point;
}

/** The ends of loose runs, found by where they lie. */
class Ends {
  private readonly cells = new Map<string, End[]>();
  private readonly taken = new Set<number>();
  /** Ends that were looked at. */
  looked = 0;

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

  /** The ends in a cell, without the first of them that are taken. */
  private looseIn(key: string): readonly End[] {
    const cell = this.cells.get(key);
    if (!cell) return [];
    const first = cell.findIndex(({ run }) => !this.taken.has(run));
    if (first > 0) cell.splice(0, first);
    else if (first < 0) this.cells.delete(key);
    return first < 0 ? [] : cell;
  }

  /** The nearest end of a run that is still loose. */
  near(point: Point): { run: number; atStart: boolean } | undefined {
    const [column, row] = [Math.round(point.x / MEETS), Math.round(point.y / MEETS)];
    let best: End | undefined;
    for (let x = column - 1; x <= column + 1; x++)
      for (let y = row - 1; y <= row + 1; y++)
        for (const end of this.looseIn(`${x},${y}`)) {
          this.looked++;
          if (this.taken.has(end.run)) continue;
          const away = distance(end.point, point);
          if (away > MEETS || (best && away >= distance(best.point, point))) continue;
          best = end;
          if (away === 0) return best;
        }
    return best;
  }
}

/** Where the widest gap is, for whoever has to close it. */
function openText(open: readonly (readonly Span[])[]): string {
  const [longest] = [...open].sort((a, b) => b.length - a.length);
  if (!longest) return 'has no closed outline in it';
  const gap = distance(longest[0]!.from, longest.at(-1)!.to);
  return say`has no closed outline in it: its longest line ends ${gap.toFixed(gap < 1 ? 2 : 1)} mm from where it begins`;
}

function place({ x, y }: Point, { left, bottom }: Box): string {
  return say`${(x - left).toFixed(1)} mm from its left and ${(y - bottom).toFixed(1)} mm from its bottom`;
}
