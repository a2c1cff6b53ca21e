import { say } from '../../../l10n/say.ts';
import type { Steps } from '../../incremental/steps.ts';
import { type Point, radians, type Span, spansOf } from '../outline/span.ts';
import { after, type Matrix, moving, scaling, transformed, turning } from '../outline/transform.ts';
import { ellipseSpans, splineSpans, WITHIN } from './curves.ts';
import { type Drawing, isPlace, Sketch, type Unreadable } from './drawing.ts';
import { type DxfFile, type Entity, tagged } from './dxf-tags.ts';

/*
 * Outlines of a DXF drawing: LINE, ARC, CIRCLE, ELLIPSE, LWPOLYLINE, POLYLINE, SPLINE and INSERT of its model space, in
 * the units that $INSUNITS gives. Layers and blocks give the names. Source: DXF reference, ENTITIES section.
 */

/** mm of one unit by $INSUNITS (DXF reference, HEADER section). */
const MM_OF: Readonly<Record<number, number>> = { 1: 25.4, 2: 304.8, 4: 1, 5: 10, 6: 1000, 10: 914.4, 14: 100 };
const DEEPEST = 12;

/** Reads the text of a DXF file. Never throws. */
export function* readDxf(text: string): Steps<Drawing | Unreadable> {
  const file = yield* tagged(text);
  if (!file) return { unreadable: 'it is not a DXF drawing in text' };
  const { unit, assumed } = unitOf(file.header);
  const sketch = new Sketch();
  yield* walk({ file, sketch }, file.entities, { matrix: scaling(unit), names: [], depth: 0 });
  return sketch.drawing(assumed);
}

/** Where entities are drawn: through which matrix, in what layers and blocks, and how many blocks deep. */
interface Drawn {
  readonly matrix: Matrix;
  readonly names: readonly string[];
  readonly depth: number;
}

interface Reading {
  readonly file: DxfFile;
  readonly sketch: Sketch;
}

function* walk(reading: Reading, entities: readonly Entity[], drawn: Drawn): Steps<void> {
  const { sketch } = reading;
  for (const [i, entity] of entities.entries()) {
    if (!sketch.part()) return;
    if (i % 100 === 99) yield undefined;
    // 67: drawn on the paper, not in the model.
    if (entity.number(67) === 1) continue;
    const layer = entity.text(8);
    const names = layer && !drawn.names.includes(layer) ? [...drawn.names, layer] : drawn.names;
    if (entity.kind === 'INSERT') yield* insert(reading, entity, { ...drawn, names });
    else yield* stroke(sketch, entity, { ...drawn, names });
  }
}

/** A block, once or in rows and columns. */
function* insert(reading: Reading, entity: Entity, { matrix, names, depth }: Drawn): Steps<void> {
  const { file, sketch } = reading;
  const name = entity.text(2) ?? '';
  const block = file.blocks.get(name.toLowerCase());
  if (!block) return;
  if (depth >= DEEPEST) {
    sketch.fault ??= say`its blocks lie too deep in each other, or block ${name} is drawn with itself`;
    return;
  }
  for (const place of placesOf(entity, block.base)) {
    if (!sketch.part()) return;
    yield undefined;
    yield* walk(reading, block.entities, { matrix: after(matrix, place), names: [name, ...names], depth: depth + 1 });
  }
}

function* stroke(sketch: Sketch, entity: Entity, { matrix, names }: Drawn): Steps<void> {
  if (!DRAWS.has(entity.kind) || !sketch.part(Math.floor(entity.size / GROUPS_A_PART))) return;
  const made = strokeOf(entity);
  if (typeof made === 'string') sketch.fault ??= made;
  if (typeof made !== 'object') return;
  const spans: Span[] = [];
  let count = 0;
  for (const span of made.spans) {
    const vertices = [{ ...span.from, bulge: span.bulge }, span.to];
    const placed =
      isPlace(span.from) && isPlace(span.to)
        ? spansOf(transformed({ vertices, closed: false }, matrix, WITHIN))
        : [span];
    if (!sketch.made(placed.length)) return;
    for (const each of placed) spans.push(each);
    if (++count % 200 === 0) yield undefined;
  }
  sketch.add(spans, made.closed, names, entity);
  yield undefined;
}

/** Groups of an entity that count as one part of the drawing: a corner has two or three. */
const GROUPS_A_PART = 2;

function unitOf(header: ReadonlyMap<string, number>): { unit: number; assumed?: string } {
  const said = MM_OF[header.get('$INSUNITS') ?? 0];
  if (said) return { unit: said };
  if (header.get('$MEASUREMENT') === 0)
    return { unit: 25.4, assumed: 'it does not name its unit: read as inches, since it says it is not metric' };
  return { unit: 1, assumed: 'it does not name its unit: read as millimetres' };
}

const MOST_COPIES = 1000;
const DRAWS: ReadonlySet<string> = new Set(['LINE', 'LWPOLYLINE', 'POLYLINE', 'CIRCLE', 'ARC', 'ELLIPSE', 'SPLINE']);

/** Where an insert draws its block: once, or in rows and columns. */
function placesOf(insert: Entity, base: Point): Matrix[] {
  const of = (code: number, otherwise: number) => insert.number(code) ?? otherwise;
  const copies = (code: number) => Math.max(1, Math.min(Math.trunc(of(code, 1)) || 1, MOST_COPIES));
  const [columns, rows] = [copies(70), copies(71)];
  const own = after(scaling(of(41, 1), of(42, 1)), moving(-base.x, -base.y));
  return Array.from({ length: Math.min(columns * rows, MOST_COPIES) }, (_, i) => {
    const step = moving((i % columns) * of(44, 0), Math.floor(i / columns) * of(45, 0));
    return after(moving(of(10, 0), of(20, 0)), after(turning(of(50, 0)), after(step, own)));
  });
}

interface Made {
  readonly spans: Iterable<Span>;
  readonly closed: boolean;
}

/** What an entity draws; a fault in words; nothing for text, dimensions and the like. */
function strokeOf(entity: Entity): Made | string | undefined {
  const at = (code: number): Point => ({ x: entity.number(code) ?? 0, y: entity.number(code + 10) ?? 0 });
  switch (entity.kind) {
    case 'LINE':
      return polyline([at(10), at(11)], false);
    case 'LWPOLYLINE':
    case 'POLYLINE':
      return seen(entity, polyline(entity.corners(), ((entity.number(70) ?? 0) & 1) === 1));
    case 'CIRCLE':
      return seen(entity, round(at(10), entity.number(40), 0, 2 * Math.PI, true));
    case 'ARC': {
      const start = radians((entity.number(50) ?? 0) % 360);
      const end = radians((entity.number(51) ?? 0) % 360);
      return seen(entity, round(at(10), entity.number(40), start, end > start ? end : end + 2 * Math.PI, false));
    }
    case 'ELLIPSE': {
      const u = at(11);
      const ratio = entity.number(40) ?? 1;
      const start = entity.number(41) ?? 0;
      const end = entity.number(42) ?? 2 * Math.PI;
      const until = end > start ? end : end + 2 * Math.PI;
      const v = { x: -u.y * ratio, y: u.x * ratio };
      const spans = ellipseSpans({ centre: at(10), u, v, start, end: until });
      return seen(entity, { spans, closed: until - start >= 2 * Math.PI - 1e-9 });
    }
    case 'SPLINE': {
      if (new Set(entity.numbers(41)).size > 1)
        return 'a curve in it is weighted (a rational spline): save it as arcs or plain splines';
      const pieces = splineSpans(entity.points(10), entity.number(71) ?? 3, entity.numbers(40));
      return pieces
        ? { spans: eachOf(pieces), closed: false }
        : 'a spline in it has no control points that go with its knots';
    }
    default:
      return undefined;
  }
}

interface Eager extends Made {
  readonly spans: readonly Span[];
}

/** Piece by piece, as they are asked for. */
function* eachOf(pieces: Iterable<readonly Span[]>): Generator<Span> {
  for (const piece of pieces) yield* piece;
}

/** Drawn from below: the plane's own x runs the other way (DXF reference, object coordinate system). */
function seen(entity: Entity, made: Eager | undefined): Made | undefined {
  if (!made || (entity.number(230) ?? 1) >= 0) return made;
  const flip = ({ x, y }: Point): Point => ({ x: -x, y });
  return {
    ...made,
    spans: made.spans.map(({ from, to, bulge }) => ({ from: flip(from), to: flip(to), bulge: -bulge })),
  };
}

function polyline(vertices: readonly (Point & { readonly bulge?: number })[], closed: boolean): Eager | undefined {
  const spans = spansOf({ vertices, closed });
  return spans.length ? { spans, closed } : undefined;
}

function round(
  centre: Point,
  radius: number | undefined,
  start: number,
  end: number,
  closed: boolean,
): Eager | undefined {
  if (!radius || !(radius > 0)) return undefined;
  return { spans: ellipseSpans({ centre, u: { x: radius, y: 0 }, v: { x: 0, y: radius }, start, end }), closed };
}
