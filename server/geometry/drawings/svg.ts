import { SaxesParser } from 'saxes';
import { type ArcCommand, type Command, SVGPathData, SVGPathDataParser, SVGPathDataTransformer } from 'svg-pathdata';
import { say } from '../../../l10n/say.ts';
import type { Steps } from '../../incremental/steps.ts';
import { type Point, radians, type Span, vertex } from '../outline/span.ts';
import { after, applied, type Matrix, moving, SAME, scaling, turning } from '../outline/transform.ts';
import { cubicSpans, ellipseSpans, ellipseThrough } from './curves.ts';
import { type Drawing, isPlace, MOST_SPANS, Sketch, type Stroke, type Unreadable, type Where } from './drawing.ts';

/*
 * Outlines of an SVG drawing (Scalable Vector Graphics 2, W3C). What is drawn is read: paths and basic shapes, through
 * nested groups, `use` and transforms, in true size by `width`, `height` and `viewBox`. How it looks is not.
 */

interface Element {
  readonly tag: string;
  /** Where in the file it begins. */
  readonly line: number;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: Element[];
}

const MOST_ELEMENTS = 50_000;
const MOST_GROUPS = 200;
/** A `use` may lead to a `use`; deeper than this it is a circle. */
const DEEPEST = 30;
/** CSS Values and Units 4, absolute lengths: an inch is 96 px, 25.4 mm. */
const PX_OF: Readonly<Record<string, number>> = {
  '': 1,
  px: 1,
  in: 96,
  cm: 96 / 2.54,
  mm: 96 / 25.4,
  q: 96 / 101.6,
  pt: 96 / 72,
  pc: 16,
};
const MM_OF_PX = 25.4 / 96;

/** Names of elements that hold things for use elsewhere, or that are never cut. */
const UNDRAWN = new Set(['defs', 'symbol', 'clippath', 'mask', 'pattern', 'marker', 'style', 'script', 'metadata']);

/** Reads the text of an SVG file. Never throws; never follows an address out of the file. */
export function* readSvg(text: string): Steps<Drawing | Unreadable> {
  const root = yield* parse(text);
  if ('unreadable' in root) return root;
  const { matrix, assumed } = sizeOf(root.element);
  const sketch = new Sketch();
  yield* walk({ ...root, sketch }, { ...root.element, tag: 'g' }, { matrix, names: [], depth: 0 });
  return sketch.drawing(assumed);
}

interface Parsed {
  readonly element: Element;
  readonly byId: ReadonlyMap<string, Element>;
}

/** Where elements are drawn: through which matrix, in what groups, and how deep. */
interface Drawn {
  readonly matrix: Matrix;
  readonly names: readonly string[];
  readonly depth: number;
}

/** What one goes on with below a `use`: ten of them in each other are a circle. */
const USE = 10;

function* walk(reading: Parsed & { sketch: Sketch }, element: Element, drawn: Drawn): Steps<void> {
  const { sketch, byId } = reading;
  const { attributes, tag } = element;
  if (!sketch.part() || drawn.depth > DEEPEST * USE || !isShown(element)) return;
  const transform = attributes.get('transform') ?? '';
  const moved = transformOf(transform);
  if (!moved) {
    sketch.fault = say`the transform “${short(transform)}” cannot be read`;
    return;
  }
  const matrix = after(drawn.matrix, moved);
  const id = attributes.get('id');
  const names = id ? [id, ...drawn.names] : drawn.names;
  if (tag === 'use') {
    const to = byId.get((attributes.get('href') ?? attributes.get('xlink:href') ?? '').replace(/^#/, ''));
    if (!to || drawn.depth > DEEPEST) return;
    const at = moving(px(attributes.get('x')) ?? 0, px(attributes.get('y')) ?? 0);
    // A symbol is drawn where it is used, and nowhere else.
    const used = to.tag === 'symbol' ? { ...to, tag: 'g' } : to;
    yield* walk(reading, used, { matrix: after(matrix, at), names, depth: drawn.depth + USE });
    return;
  }
  yield* shape(sketch, element, matrix, names);
  let count = 0;
  for (const child of element.children) {
    if (UNDRAWN.has(child.tag)) continue;
    yield* walk(reading, child, { matrix, names, depth: drawn.depth + 1 });
    if (sketch.fault !== undefined) return;
    if (++count % 100 === 0) yield undefined;
  }
}

const isShown = ({ attributes }: Element): boolean =>
  attributes.get('display') !== 'none' && !/(^|;)\s*display\s*:\s*none/.test(attributes.get('style') ?? '');

/** Letters of a file that are read before others may go first. */
const AT_ONCE = 65_536;

function* parse(text: string): Steps<Parsed | Unreadable> {
  const parser = new SaxesParser({ xmlns: false, position: true });
  let root: Element | undefined;
  let fault: string | undefined;
  let count = 0;
  let line = 1;
  const stack: Element[] = [];
  const byId = new Map<string, Element>();
  parser.on('error', (error) => {
    fault ??= say`it is not well-formed: ${error.message.replace(/\.$/, '')}`;
  });
  parser.on('opentagstart', () => {
    line = parser.line;
  });
  parser.on('opentag', (tag) => {
    if (++count > MOST_ELEMENTS) fault ??= 'there is more in it than an outline could need';
    const element: Element = {
      tag: tag.name.replace(/^svg:/, '').toLowerCase(),
      line,
      attributes: new Map(Object.entries(tag.attributes as Record<string, string>)),
      children: [],
    };
    const id = element.attributes.get('id');
    if (id && !byId.has(id)) byId.set(id, element);
    if (stack.length < MOST_GROUPS) stack.at(-1)?.children.push(element);
    else fault ??= 'its groups lie too deep in each other';
    root ??= element;
    stack.push(element);
  });
  parser.on('closetag', () => {
    stack.pop();
  });
  // In pieces, so that a file that is wrong at its beginning is not read to its end.
  try {
    for (let at = 0; at < text.length && !fault; at += AT_ONCE) {
      parser.write(text.slice(at, at + AT_ONCE));
      yield undefined;
    }
    if (!fault) parser.close();
  } catch (error) {
    fault ??= say`it is not well-formed: ${(error as Error).message}`;
  }
  if (fault) return { unreadable: short(fault, 160) };
  return root?.tag === 'svg' ? { element: root, byId } : { unreadable: 'it is not an SVG drawing' };
}

// ---- size ------------------------------------------------------------------------------------------------------------

/** From the drawing's own units to mm, with y turned up. */
function sizeOf({ attributes }: Element): { matrix: Matrix; assumed?: string } {
  const wide = px(attributes.get('width'));
  const high = px(attributes.get('height'));
  const box = (attributes.get('viewBox') ?? '')
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const hasBox = box.length === 4 && box.every(Number.isFinite) && box[2]! > 0 && box[3]! > 0;
  const saysUnit = /(mm|cm|in|pt|pc|q)\s*$/i.test(attributes.get('width') ?? attributes.get('height') ?? '');
  const assumed = saysUnit
    ? {}
    : { assumed: 'its width and height have no unit such as mm: read as 96 to the inch, as SVG has it' };
  let [x, y] = [1, 1];
  if (hasBox) {
    const across = wide === undefined ? undefined : wide / box[2]!;
    const up = high === undefined ? undefined : high / box[3]!;
    [x, y] = [across ?? up ?? 1, up ?? across ?? 1];
    // Only where the drawing says so is it stretched more one way than the other.
    if (!/^\s*none/.test(attributes.get('preserveAspectRatio') ?? '')) [x, y] = [Math.min(x, y), Math.min(x, y)];
  }
  const toMm = scaling(x * MM_OF_PX, -y * MM_OF_PX);
  return { matrix: hasBox ? after(toMm, moving(-box[0]!, -box[1]!)) : toMm, ...assumed };
}

/** A length in px; nothing where there is none, or one that hangs on the page or the typeface. */
function px(text: string | undefined): number | undefined {
  const match = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*([a-z]*)\s*$/i.exec(text ?? '');
  const factor = match && PX_OF[match[2]!.toLowerCase()];
  return factor ? Number(match[1]) * factor : undefined;
}

// ---- transforms ------------------------------------------------------------------------------------------------------

function transformOf(text: string): Matrix | undefined {
  let matrix: Matrix = SAME;
  let rest = text.trim();
  while (rest) {
    const match = /^([a-zA-Z]+)\s*\(([^()]*)\)\s*,?\s*/.exec(rest);
    if (!match) return undefined;
    const given = match[2]!.trim()
      ? match[2]!
          .trim()
          .split(/\s*,\s*|\s+/)
          .map(Number)
      : [];
    const next = given.every(Number.isFinite) ? oneTransform(match[1]!, given) : undefined;
    if (!next) return undefined;
    matrix = after(matrix, next);
    rest = rest.slice(match[0].length);
  }
  return matrix;
}

function oneTransform(kind: string, given: readonly number[]): Matrix | undefined {
  const [a, b, c] = given;
  if (a === undefined) return undefined;
  switch (kind) {
    case 'matrix':
      return given.length === 6 ? (given as unknown as Matrix) : undefined;
    case 'translate':
      return moving(a, b ?? 0);
    case 'scale':
      return scaling(a, b ?? a);
    case 'rotate':
      return b === undefined ? turning(a) : after(moving(b, c ?? 0), after(turning(a), moving(-b, -(c ?? 0))));
    case 'skewX':
      return [1, 0, Math.tan(radians(a)), 1, 0, 0];
    case 'skewY':
      return [1, Math.tan(radians(a)), 0, 1, 0, 0];
    default:
      return undefined;
  }
}

// ---- shapes ----------------------------------------------------------------------------------------------------------

type Made = Pick<Stroke, 'spans' | 'closed'>;

/** What an element draws. */
function* shape(sketch: Sketch, element: Element, matrix: Matrix, names: readonly string[]): Steps<void> {
  const where: Where = { kind: element.tag, line: element.line };
  if (element.tag === 'path') {
    yield* path(sketch, element.attributes.get('d') ?? '', matrix, names, where);
    return;
  }
  const row = ROWS.get(element.tag);
  const made = row
    ? strokeThrough(yield* pointsIn(sketch, element.attributes.get('points') ?? ''), row === 'closed', matrix)
    : simple(element, matrix);
  for (const { spans, closed } of made) if (sketch.made(spans.length)) sketch.add(spans, closed, names, where);
}

const ROWS: ReadonlyMap<string, 'open' | 'closed'> = new Map([
  ['polyline', 'open'],
  ['polygon', 'closed'],
]);

function* pointsIn(sketch: Sketch, text: string): Steps<Point[]> {
  const points: Point[] = [];
  let x: number | undefined;
  for (const [number] of text.matchAll(/[^\s,]+/g)) {
    const value = Number(number);
    if (!Number.isFinite(value)) {
      sketch.fault ??= 'a row of points has something in it that is no number';
      return [];
    }
    if (x === undefined) {
      x = value;
      continue;
    }
    points.push({ x, y: value });
    x = undefined;
    if (points.length % 1000 === 0) yield undefined;
    if (points.length > MOST_SPANS) break;
  }
  return points;
}

/** What a basic shape draws. */
function simple({ tag, attributes }: Element, matrix: Matrix): Made[] {
  const of = (name: string) => px(attributes.get(name)) ?? 0;
  switch (tag) {
    case 'rect':
      return rectangle(
        of('x'),
        of('y'),
        of('width'),
        of('height'),
        px(attributes.get('rx')),
        px(attributes.get('ry')),
        matrix,
      );
    case 'circle':
      return ring({ x: of('cx'), y: of('cy') }, of('r'), of('r'), matrix);
    case 'ellipse':
      return ring({ x: of('cx'), y: of('cy') }, of('rx'), of('ry'), matrix);
    case 'line':
      return strokeThrough(
        [
          { x: of('x1'), y: of('y1') },
          { x: of('x2'), y: of('y2') },
        ],
        false,
        matrix,
      );
    default:
      return [];
  }
}

function strokeThrough(points: readonly Point[], closed: boolean, matrix: Matrix): Made[] {
  const placed = points.map((point) => applied(matrix, point));
  const spans = placed.slice(1).map((to, i) => line(placed[i]!, to));
  if (closed && placed.length > 1) spans.push(line(placed.at(-1)!, placed[0]!));
  return strokes(spans, closed);
}

const line = (from: Point, to: Point): Span => ({ from, to, bulge: 0 });

/** Without what has no length; nothing where nothing is left. */
function strokes(spans: readonly Span[], closed: boolean): Made[] {
  const real = spans.filter(({ from, to }) => from.x !== to.x || from.y !== to.y);
  return real.length ? [{ spans: real, closed }] : [];
}

function ring(centre: Point, rx: number, ry: number, matrix: Matrix): Made[] {
  if (!(rx > 0) || !(ry > 0)) return [];
  const whole = { centre, u: { x: rx, y: 0 }, v: { x: 0, y: ry }, start: 0, end: 2 * Math.PI };
  return strokes(ellipseSpans(ellipseThrough(matrix, whole)), true);
}

/** A rectangle with its corners rounded: by one radius where only one is said (SVG 2, 10.2). */
function rectangle(
  x: number,
  y: number,
  wide: number,
  high: number,
  givenRx: number | undefined,
  givenRy: number | undefined,
  matrix: Matrix,
): Made[] {
  if (!(wide > 0) || !(high > 0)) return [];
  const rx = Math.min(Math.max(0, givenRx ?? givenRy ?? 0), wide / 2);
  const ry = Math.min(Math.max(0, givenRy ?? givenRx ?? 0), high / 2);
  const square = () => {
    const corners = [vertex({ x, y }), { x: x + wide, y }, { x: x + wide, y: y + high }, { x, y: y + high }];
    return strokeThrough(corners, true, matrix);
  };
  if (!(rx > 0) || !(ry > 0)) return square();
  const corner = (cx: number, cy: number, start: number): Span[] =>
    ellipseSpans(
      ellipseThrough(matrix, {
        centre: { x: cx, y: cy },
        u: { x: rx, y: 0 },
        v: { x: 0, y: ry },
        start,
        end: start + Math.PI / 2,
      }),
    );
  const arcs = [
    corner(x + wide - rx, y + ry, -Math.PI / 2),
    corner(x + wide - rx, y + high - ry, 0),
    corner(x + rx, y + high - ry, Math.PI / 2),
    corner(x + rx, y + ry, Math.PI),
  ];
  // Beside a very large rectangle a small round is none.
  if (arcs.some((arc) => !arc.length)) return square();
  const spans = arcs.flatMap((arc, i) => [...arc, line(arc.at(-1)!.to, arcs[(i + 1) % 4]![0]!.from)]);
  return strokes(spans, true);
}

function* path(sketch: Sketch, d: string, matrix: Matrix, names: readonly string[], where: Where): Steps<void> {
  let spans: Span[] = [];
  let start: Point = { x: 0, y: 0 };
  let here: Point = start;
  const end = (closed: boolean) => {
    if (closed) spans.push(line(applied(matrix, here), applied(matrix, start)));
    for (const made of strokes(spans, closed)) sketch.add(made.spans, closed, names, where);
    spans = [];
    if (closed) here = start;
  };
  let count = 0;
  for (const command of commandsIn(d)) {
    if (typeof command === 'string') {
      sketch.fault ??= command;
      return;
    }
    if (command.type === SVGPathData.MOVE_TO) {
      end(false);
      start = here = { x: command.x, y: command.y };
    } else if (command.type === SVGPathData.CLOSE_PATH) end(true);
    else {
      const made = spansOfCommand(here, command, matrix);
      if (!sketch.made(made.length)) return;
      for (const span of made) spans.push(span);
      here = { x: command.x, y: command.y };
    }
    if (++count % 100 === 0) yield undefined;
  }
  end(false);
  yield undefined;
}

/** Letters of a path that are read at once. */
const CHUNK = 4096;

/** The commands of a path as they are asked for: a path may be longer than anybody wants to read. A fault in words. */
function* commandsIn(d: string): Generator<Command | string> {
  const parser = new SVGPathDataParser();
  const { TO_ABS, NORMALIZE_HVZ, NORMALIZE_ST, QT_TO_C, ANNOTATE_ARCS } = SVGPathDataTransformer;
  const turnings = [TO_ABS(), NORMALIZE_HVZ(false), NORMALIZE_ST(), QT_TO_C(), ANNOTATE_ARCS()];
  for (let at = 0; at <= d.length; at += CHUNK) {
    const written: unknown[] = [];
    const commands: unknown[] = [];
    let fault: string | undefined;
    const attempt = (work: () => void) => {
      try {
        work();
      } catch (error) {
        // The reader of paths quotes numbers as a machine writes them.
        const why = (error as Error).message.replace(/-?\d[\d.]*e[+-]?\d+/gi, 'a number without end');
        fault ??= say`a path cannot be read: ${short(why)}`;
      }
    };
    attempt(() => {
      parser.parse(d.slice(at, at + CHUNK), written);
      if (at + CHUNK > d.length) parser.finish(written);
    });
    // A path that does not begin with a place is refused only here.
    attempt(() => {
      for (const one of written)
        commands.push(...turnings.reduce<unknown[]>((all, turning) => all.flatMap((each) => turning(each)), [one]));
    });
    yield* commands as Command[];
    if (fault) yield fault;
  }
}

type Going = Exclude<Command, { type: typeof SVGPathData.MOVE_TO } | { type: typeof SVGPathData.CLOSE_PATH }>;

function spansOfCommand(here: Point, command: Going, matrix: Matrix): Span[] {
  const from = applied(matrix, here);
  const to = applied(matrix, command);
  if (command.type === SVGPathData.ARC) {
    // Refused for where its circle would have to reach, or for where it begins or ends.
    const radii = { x: command.rX, y: command.rY };
    const outside = [radii, from, to].find((each) => !isPlace(each));
    return outside ? [line(from, outside)] : arcSpans(here, command, matrix);
  }
  if (command.type !== SVGPathData.CURVE_TO) return [line(from, to)];
  const [one, other] = [
    applied(matrix, { x: command.x1, y: command.y1 }),
    applied(matrix, { x: command.x2, y: command.y2 }),
  ];
  const outside = [from, one, other].find((each) => !isPlace(each));
  // The line to where it cannot be drawn is refused for it.
  return outside ? [line(from, outside), line(outside, to)] : cubicSpans(from, one, other, to);
}

/** An elliptic arc: centre and angles as the library finds them (SVG 2, appendix B.2). No radius: a straight line. */
function arcSpans(from: Point, command: ArcCommand, matrix: Matrix): Span[] {
  const { cX, cY, phi1, phi2, rX, rY, xRot } = command;
  const to = applied(matrix, command);
  if (!(Math.abs(rX) > 0) || !(Math.abs(rY) > 0) || cX === undefined || cY === undefined || phi1 === undefined)
    return [line(applied(matrix, from), to)];
  const turn = radians(xRot);
  const spans = ellipseSpans(
    ellipseThrough(matrix, {
      centre: { x: cX, y: cY },
      u: { x: Math.abs(rX) * Math.cos(turn), y: Math.abs(rX) * Math.sin(turn) },
      v: { x: -Math.abs(rY) * Math.sin(turn), y: Math.abs(rY) * Math.cos(turn) },
      start: radians(phi1),
      end: radians(phi2!),
    }),
  );
  // The ends are the file's own, to the last digit, so that what meets there meets.
  const last = spans.length - 1;
  return spans.map((span, i) => ({
    ...span,
    ...(i === 0 ? { from: applied(matrix, from) } : {}),
    ...(i === last ? { to } : {}),
  }));
}

/** The beginning of a text from the file, on one line. */
const short = (text: string, most = 60): string => {
  const flat = text.replace(/\s+/g, ' ').trim();
  return flat.length > most ? `${flat.slice(0, most - 1)}…` : flat;
};
