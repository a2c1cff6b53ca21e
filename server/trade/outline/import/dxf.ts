import type { IDxf, IEntity } from 'dxf-parser';
import * as library from 'dxf-parser';
import { type Point, type Span, spansOf } from '../span.ts';
import { after, type Matrix, moving, scaling, transformed, turning } from '../transform.ts';
import { ellipseSpans, splineSpans, WITHIN } from './curves.ts';
import { type Drawing, drawingOf, MOST_SPANS, type Stroke, type Unreadable } from './drawing.ts';

/*
 * Outlines of a DXF drawing: LINE, ARC, CIRCLE, ELLIPSE, LWPOLYLINE, POLYLINE, SPLINE and INSERT of its model space, in
 * the units that $INSUNITS gives. Layers and blocks give the names.
 */

/** mm of one unit by $INSUNITS (DXF reference, HEADER section). */
const MM_OF: Readonly<Record<number, number>> = { 1: 25.4, 2: 304.8, 4: 1, 5: 10, 6: 1000, 10: 914.4, 14: 100 };
const DEEPEST = 12;

// The package offers its class in two ways, by who loads it.
const { DxfParser } = (library as unknown as { default?: typeof library }).default ?? library;

/** Reads the text of a DXF file. Never throws. */
export function readDxf(text: string): Drawing | Unreadable {
  let file: IDxf | null;
  try {
    file = new DxfParser().parseSync(text);
  } catch (error) {
    return { unreadable: `it is not a DXF drawing in text: ${(error as Error).message}` };
  }
  if (!file?.entities) return { unreadable: 'it is not a DXF drawing in text' };
  const { unit, assumed } = unitOf(file);
  const strokes: Stroke[] = [];
  let spans = 0;
  let fault: string | undefined;
  const walk = (entities: readonly IEntity[], matrix: Matrix, names: readonly string[], depth: number): void => {
    for (const entity of entities) {
      if (fault) return;
      const called = entity.layer && !names.includes(entity.layer) ? [...names, entity.layer] : names;
      if (entity.type === 'INSERT') {
        const insert = entity as unknown as Insert;
        const block = file?.blocks?.[insert.name];
        if (!block?.entities) continue;
        if (depth >= DEEPEST) {
          fault = `its blocks lie too deep in each other, or block ${insert.name} is drawn with itself`;
          return;
        }
        for (const place of placesOf(insert, block.position))
          walk(block.entities, after(matrix, place), [insert.name, ...called], depth + 1);
        continue;
      }
      const made = strokeOf(entity);
      if (typeof made === 'string') fault = made;
      if (typeof made !== 'object') continue;
      const placed = transformed({ vertices: verticesOf(made), closed: false }, matrix, WITHIN);
      const found = spansOf(placed);
      spans += found.length;
      if (spans > MOST_SPANS) fault = 'there is more in it than an outline could need';
      if (found.length) strokes.push({ spans: found, closed: made.closed, names: called });
    }
  };
  walk(file.entities, scaling(unit), [], 0);
  return fault ? { unreadable: fault } : drawingOf(strokes, assumed);
}

function unitOf({ header }: IDxf): { unit: number; assumed?: string } {
  const said = MM_OF[Number(header?.['$INSUNITS'])];
  if (said) return { unit: said };
  const measurement = header?.['$MEASUREMENT'];
  if (measurement === 0)
    return { unit: 25.4, assumed: 'it does not name its unit: read as inches, since it says it is not metric' };
  return { unit: 1, assumed: 'it does not name its unit: read as millimetres' };
}

// The types of the package leave out what may be missing in a file.
interface Insert {
  readonly name: string;
  readonly position?: Point;
  readonly xScale?: number;
  readonly yScale?: number;
  readonly rotation?: number;
  readonly columnCount?: number;
  readonly rowCount?: number;
  readonly columnSpacing?: number;
  readonly rowSpacing?: number;
}

/** Where an insert draws its block: once, or in rows and columns. */
function placesOf(insert: Insert, base: Point | undefined): Matrix[] {
  const { position, xScale = 1, yScale = 1, rotation = 0, columnSpacing = 0, rowSpacing = 0 } = insert;
  const columns = Math.max(1, Math.min(insert.columnCount ?? 1, 1000));
  const rows = Math.max(1, Math.min(insert.rowCount ?? 1, 1000));
  const own = after(scaling(xScale, yScale), moving(-(base?.x ?? 0), -(base?.y ?? 0)));
  return Array.from({ length: columns * rows }, (_, i) => {
    const step = moving((i % columns) * columnSpacing, Math.floor(i / columns) * rowSpacing);
    return after(moving(position?.x ?? 0, position?.y ?? 0), after(turning(rotation), after(step, own)));
  });
}

interface Made {
  readonly spans: readonly Span[];
  readonly closed: boolean;
}

const verticesOf = ({ spans }: Made) => [
  ...spans.map(({ from, bulge }) => ({ ...from, bulge })),
  ...(spans.length ? [spans.at(-1)!.to] : []),
];

interface Corner extends Point {
  readonly bulge?: number;
}

interface Drawn {
  readonly vertices?: readonly Corner[];
  readonly shape?: boolean;
  readonly center?: Point;
  readonly radius?: number;
  readonly startAngle?: number;
  readonly endAngle?: number;
  readonly majorAxisEndPoint?: Point;
  readonly axisRatio?: number;
  readonly controlPoints?: readonly Point[];
  readonly knotValues?: readonly number[];
  readonly degreeOfSplineCurve?: number;
  readonly rational?: boolean;
  readonly closed?: boolean;
  readonly includesSplineFitVertices?: boolean;
  readonly extrusionDirectionZ?: number;
  readonly extrusionDirection?: { readonly z: number };
}

/** What an entity draws; a fault in words; nothing for text, dimensions and the like. */
function strokeOf(entity: IEntity): Made | string | undefined {
  const drawn = entity as unknown as Drawn;
  // Drawn from below: the plane's own x runs the other way (DXF reference, object coordinate system).
  const mirrored = (drawn.extrusionDirectionZ ?? drawn.extrusionDirection?.z ?? 1) < 0;
  const seen = (made: Made | undefined): Made | undefined =>
    made && mirrored
      ? {
          ...made,
          spans: made.spans.map(({ from, to, bulge }) => ({
            from: { x: -from.x, y: from.y },
            to: { x: -to.x, y: to.y },
            bulge: -bulge,
          })),
        }
      : made;
  switch (entity.type) {
    case 'LINE':
      return polyline(drawn.vertices ?? [], false);
    case 'LWPOLYLINE':
      return seen(polyline(drawn.vertices ?? [], drawn.shape === true));
    case 'POLYLINE':
      return seen(polyline(drawn.vertices ?? [], drawn.shape === true));
    case 'CIRCLE':
      return seen(round(drawn, 0, 2 * Math.PI, true));
    case 'ARC': {
      const start = drawn.startAngle ?? 0;
      let end = drawn.endAngle ?? 0;
      while (end <= start) end += 2 * Math.PI;
      return seen(round(drawn, start, end, false));
    }
    case 'ELLIPSE': {
      const { center, majorAxisEndPoint: u, axisRatio = 1 } = drawn;
      if (!center || !u) return undefined;
      const start = drawn.startAngle ?? 0;
      let end = drawn.endAngle ?? 2 * Math.PI;
      if (end <= start) end += 2 * Math.PI;
      const v = { x: -u.y * axisRatio, y: u.x * axisRatio };
      return seen({
        spans: ellipseSpans({ centre: center, u, v, start, end }),
        closed: end - start >= 2 * Math.PI - 1e-9,
      });
    }
    case 'SPLINE': {
      if (drawn.rational) return 'a curve in it is weighted (a rational spline): save it as arcs or plain splines';
      const { controlPoints = [], knotValues = [], degreeOfSplineCurve = 3 } = drawn;
      const spans = splineSpans(controlPoints, degreeOfSplineCurve, knotValues);
      return spans ? { spans, closed: false } : 'a spline in it has no control points that go with its knots';
    }
    default:
      return undefined;
  }
}

function polyline(corners: readonly Corner[], closed: boolean): Made | undefined {
  const vertices = corners.map(({ x, y, bulge }) => ({ x, y, ...(bulge ? { bulge } : {}) }));
  const spans = spansOf({ vertices, closed });
  return spans.length ? { spans, closed } : undefined;
}

function round({ center, radius = 0 }: Drawn, start: number, end: number, closed: boolean): Made | undefined {
  if (!center || !(radius > 0)) return undefined;
  const spans = ellipseSpans({ centre: center, u: { x: radius, y: 0 }, v: { x: 0, y: radius }, start, end });
  return { spans, closed };
}
