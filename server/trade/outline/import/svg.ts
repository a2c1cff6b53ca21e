import { SaxesParser } from 'saxes';
import { type ArcCommand, type Command, SVGPathData } from 'svg-pathdata';
import { type Point, radians, type Span, vertex } from '../span.ts';
import { after, applied, type Matrix, moving, SAME, scaling, turning } from '../transform.ts';
import { cubicSpans, ellipseSpans, ellipseThrough } from './curves.ts';
import { type Drawing, drawingOf, MOST_SPANS, type Stroke, type Unreadable } from './drawing.ts';

/*
 * Outlines of an SVG drawing (Scalable Vector Graphics 2, W3C). What is drawn is read: paths and basic shapes, through
 * nested groups, `use` and transforms, in true size by `width`, `height` and `viewBox`. How it looks is not.
 */

interface Element {
  readonly tag: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: Element[];
}

const MOST_ELEMENTS = 50_000;
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
export function readSvg(text: string): Drawing | Unreadable {
  const root = parse(text);
  if ('unreadable' in root) return root;
  const size = sizeOf(root);
  const strokes: Stroke[] = [];
  const byId = new Map<string, Element>();
  const gather = (element: Element): void => {
    const id = element.attributes.get('id');
    if (id && !byId.has(id)) byId.set(id, element);
    for (const child of element.children) gather(child);
  };
  gather(root);
  let spans = 0;
  let fault: string | undefined;
  const walk = (element: Element, matrix: Matrix, names: readonly string[], depth: number): void => {
    if (fault || depth > DEEPEST * 10) return;
    const { attributes, tag } = element;
    if (attributes.get('display') === 'none' || /(^|;)\s*display\s*:\s*none/.test(attributes.get('style') ?? ''))
      return;
    const transform = attributes.get('transform') ?? '';
    const moved = transformOf(transform);
    if (!moved) {
      fault = `the transform “${short(transform)}” cannot be read`;
      return;
    }
    const here = after(matrix, moved);
    const id = attributes.get('id');
    const called = id ? [id, ...names] : names;
    if (tag === 'use') {
      const to = byId.get((attributes.get('href') ?? attributes.get('xlink:href') ?? '').replace(/^#/, ''));
      if (!to || depth > DEEPEST) return;
      const at = moving(px(attributes.get('x')) ?? 0, px(attributes.get('y')) ?? 0);
      // A symbol is drawn where it is used, and nowhere else.
      const used = to.tag === 'symbol' ? { ...to, tag: 'g' } : to;
      walk(used, after(here, at), called, depth + 10);
      return;
    }
    const made = shape(element, here);
    if (typeof made === 'string') fault = made;
    else {
      for (const stroke of made) {
        spans += stroke.spans.length;
        strokes.push({ ...stroke, names: called });
      }
      if (spans > MOST_SPANS) fault = 'there is more in it than an outline could need';
    }
    for (const child of element.children) if (!UNDRAWN.has(child.tag)) walk(child, here, called, depth + 1);
  };
  walk({ ...root, tag: 'g' }, size.matrix, [], 0);
  if (fault) return { unreadable: fault };
  return drawingOf(strokes, size.assumed);
}

function parse(text: string): Element | Unreadable {
  const parser = new SaxesParser({ xmlns: false, position: true });
  let root: Element | undefined;
  let fault: string | undefined;
  let count = 0;
  const stack: Element[] = [];
  parser.on('error', (error) => {
    fault ??= `it is not well-formed: ${error.message.replace(/\.$/, '')}`;
  });
  parser.on('opentag', (tag) => {
    if (++count > MOST_ELEMENTS) fault ??= 'there is more in it than an outline could need';
    const element: Element = {
      tag: tag.name.replace(/^svg:/, '').toLowerCase(),
      attributes: new Map(Object.entries(tag.attributes as Record<string, string>)),
      children: [],
    };
    if (stack.length < 200) stack.at(-1)?.children.push(element);
    else fault ??= 'its groups lie too deep in each other';
    root ??= element;
    stack.push(element);
  });
  parser.on('closetag', () => {
    stack.pop();
  });
  // In pieces, so that a file that is wrong at its beginning is not read to its end.
  try {
    for (let at = 0; at < text.length && !fault; at += 65_536) parser.write(text.slice(at, at + 65_536));
    if (!fault) parser.close();
  } catch (error) {
    fault ??= `it is not well-formed: ${(error as Error).message}`;
  }
  if (fault) return { unreadable: short(fault, 160) };
  return root?.tag === 'svg' ? root : { unreadable: 'it is not an SVG drawing' };
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

type Made = Omit<Stroke, 'names'>;

/** What an element draws; a fault in words. */
function shape({ tag, attributes }: Element, matrix: Matrix): Made[] | string {
  const of = (name: string) => px(attributes.get(name)) ?? 0;
  switch (tag) {
    case 'path':
      return pathStrokes(attributes.get('d') ?? '', matrix);
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
    case 'polyline':
    case 'polygon': {
      const numbers = (attributes.get('points') ?? '')
        .trim()
        .split(/[\s,]+/)
        .map(Number);
      if (numbers.some((each) => !Number.isFinite(each)))
        return 'a row of points has something in it that is no number';
      const points = Array.from(
        { length: numbers.length >> 1 },
        (_, i): Point => ({ x: numbers[2 * i]!, y: numbers[2 * i + 1]! }),
      );
      return strokeThrough(points, tag === 'polygon', matrix);
    }
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
  if (!(rx > 0) || !(ry > 0)) {
    const corners = [vertex({ x, y }), { x: x + wide, y }, { x: x + wide, y: y + high }, { x, y: y + high }];
    return strokeThrough(corners, true, matrix);
  }
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
  const spans = arcs.flatMap((arc, i) => [...arc, line(arc.at(-1)!.to, arcs[(i + 1) % 4]![0]!.from)]);
  return strokes(spans, true);
}

function pathStrokes(d: string, matrix: Matrix): Made[] | string {
  let commands: readonly Command[];
  try {
    commands = new SVGPathData(d).toAbs().normalizeHVZ(false).normalizeST().qtToC().annotateArcs().commands;
  } catch (error) {
    return `a path cannot be read: ${short((error as Error).message)}`;
  }
  const made: Made[] = [];
  let spans: Span[] = [];
  let start: Point = { x: 0, y: 0 };
  let here: Point = start;
  const end = (closed: boolean) => {
    if (closed) spans.push(line(applied(matrix, here), applied(matrix, start)));
    made.push(...strokes(spans, closed));
    spans = [];
    if (closed) here = start;
  };
  for (const command of commands) {
    switch (command.type) {
      case SVGPathData.MOVE_TO:
        end(false);
        start = here = { x: command.x, y: command.y };
        continue;
      case SVGPathData.CLOSE_PATH:
        end(true);
        continue;
      case SVGPathData.LINE_TO:
        spans.push(line(applied(matrix, here), applied(matrix, command)));
        break;
      case SVGPathData.CURVE_TO:
        spans.push(
          ...cubicSpans(
            applied(matrix, here),
            applied(matrix, { x: command.x1, y: command.y1 }),
            applied(matrix, { x: command.x2, y: command.y2 }),
            applied(matrix, command),
          ),
        );
        break;
      case SVGPathData.ARC:
        spans.push(...arcSpans(here, command, matrix));
        break;
      default:
        continue;
    }
    here = { x: command.x, y: command.y };
  }
  end(false);
  return made;
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
