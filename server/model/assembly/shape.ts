import earcut from 'earcut';
import type { Path } from '../../geometry/outline/path.ts';
import { lengthOf, pointOn, spansOf } from '../../geometry/outline/span.ts';
import type { Chart } from '../../geometry/surface/chart.ts';
import type { Surface } from '../../geometry/surface/surface.ts';
import { cross, dot, minus, NOWHERE, plus, unit, type Vector } from '../../geometry/surface/vector.ts';
import { directionOut, type SurfaceLine } from '../../geometry/surface/walk.ts';
import { Dear } from '../../incremental/steps.ts';
import { NONE, NOT_KNOWN } from '../forms/answers.ts';
import { kindOf } from '../forms/index.ts';
import { keyOf, meshed } from '../shapes/surface.ts';
import type { PieceModel } from '../things/piece.ts';
import { upright } from './rail.ts';

/** A formed piece as it can be drawn and measured from outside: its middle as a mesh, in its own frame, mm. */
export interface Shape {
  readonly positions: Float64Array;
  readonly normals: Float64Array;
  readonly triangles: Uint32Array;
  /** Vertices along each of its edges and the lines on it. */
  readonly edges: readonly Uint32Array[];
  readonly lines: readonly Uint32Array[];
}

/** About so many vertices of a form: enough to draw it, and to find where it reaches furthest. */
const VERTICES = 1200;

/** The last meshes, by all that they hang on. */
const meshes = new Dear<Surface>(48);

/** The shape of a piece; nothing where it has none. */
export function shapeOf(piece: PieceModel): Shape | undefined {
  const form = piece.form();
  if (!form) return undefined;
  const chart = piece.chart();
  if (chart) {
    const cut = piece.cutForm();
    const surface = meshes.get(keyOf(piece), () => meshed(chart, cut, { vertices: VERTICES }));
    const { positions, normals, triangles, edges, lines, folds } = surface;
    return {
      positions,
      normals,
      triangles,
      edges: [...edges.values()],
      lines: [...(folds?.values() ?? []), ...lines.values()].filter((chain) => chain.length > 1),
    };
  }
  if (kindOf(form).follows(form) !== NONE) return bandOf(piece);
  const layout = kindOf(form).layout(form);
  if (layout === NOT_KNOWN) return undefined;
  if (layout.kind === 'rimmed')
    return flatShape(
      pointsOf(layout.outer).map(([x, y]) => upright(x, y)),
      [0, 1, 0],
    );
  if (layout.kind !== 'round' || !kindOf(form).isFlat) return undefined;
  const { long, wide } = layout;
  const rim = Array.from({ length: ROUND }, (_, i): Vector => {
    const t = (2 * Math.PI * i) / ROUND;
    return [(-wide / 2) * Math.sin(t), (long / 2) * Math.cos(t), 0];
  });
  return flatShape(rim, [0, 0, 1]);
}

const ROUND = 96;

/** A strip or a comb along the line that it follows: as wide as it is made, lying on the surface or standing on it. */
function bandOf(piece: PieceModel): Shape | undefined {
  const form = piece.form()!;
  const line = piece.baseLine();
  if (!line) return undefined;
  if (form.kind === 'trim') {
    // With an inset its middle lies there; without, it ends with the edge that it follows.
    const from = form.line.has('inset') ? -form.wide / 2 : 0;
    return ribbon(line, ({ normal, left }) => [
      plus(NOWHERE, left, from),
      plus(NOWHERE, left, from + form.wide),
      normal,
    ]);
  }
  // Its sides stand up; the feet lie on the plate and are left out.
  return form.kind === 'comb'
    ? ribbon(line, ({ normal, left }) => [NOWHERE, plus(NOWHERE, normal, form.high), left])
    : undefined;
}

function ribbon(
  { points, normals }: SurfaceLine,
  across: (at: { normal: Vector; left: Vector }) => readonly [from: Vector, to: Vector, face: Vector],
): Shape {
  const positions: number[] = [];
  const faces: number[] = [];
  const triangles: number[] = [];
  const last = points.length - 1;
  for (const [i, point] of points.entries()) {
    const ahead = minus(points[Math.min(last, i + 1)]!, points[Math.max(0, i - 1)]!);
    const normal = normals[i]!;
    const [from, to, face] = across({ normal, left: unit(cross(normal, ahead)) });
    positions.push(...plus(point, from), ...plus(point, to));
    faces.push(...face, ...face);
    if (i > 0) triangles.push(2 * i - 2, 2 * i, 2 * i + 1, 2 * i - 2, 2 * i + 1, 2 * i - 1);
  }
  const along = (side: 0 | 1) => Uint32Array.from(points, (_, i) => 2 * i + side);
  return {
    positions: Float64Array.from(positions),
    normals: Float64Array.from(faces),
    triangles: Uint32Array.from(triangles),
    edges: [along(0), along(1), Uint32Array.of(0, 1), Uint32Array.of(2 * last, 2 * last + 1)],
    lines: [],
  };
}

/** The corners of an outline, its arcs cut into short chords. */
function pointsOf(path: Path): (readonly [number, number])[] {
  return spansOf(path).flatMap((span) => {
    const parts = span.bulge === 0 ? 1 : Math.min(48, Math.max(4, Math.ceil(lengthOf(span) / 4)));
    return Array.from({ length: parts }, (_, i) => {
      const { x, y } = pointOn(span, i / parts);
      return [x, y] as const;
    });
  });
}

/** A flat plate, its rim anticlockwise as seen from where its normal points. */
function flatShape(rim: readonly Vector[], normal: Vector): Shape {
  return {
    positions: Float64Array.from(rim.flat()),
    normals: Float64Array.from(rim.flatMap(() => normal)),
    triangles: Uint32Array.from(trianglesOf(rim, normal)),
    edges: [Uint32Array.from([...rim.keys(), 0])],
    lines: [],
  };
}

/** A flat polygon in triangles that turn as its rim does, seen along the axis that its normal is nearest to. */
function trianglesOf(rim: readonly Vector[], normal: Vector): number[] {
  const seenAlong = normal.findIndex((each) => Math.abs(each) === Math.max(...normal.map(Math.abs)));
  const corners = earcut(rim.flatMap((point) => point.filter((_, axis) => axis !== seenAlong)));
  for (let i = 0; i < corners.length; i += 3) {
    const [a, b, c] = [corners[i]!, corners[i + 1]!, corners[i + 2]!];
    const turns = dot(cross(minus(rim[b]!, rim[a]!), minus(rim[c]!, rim[b]!)), normal);
    if (turns < 0) [corners[i + 1], corners[i + 2]] = [c, b];
  }
  return corners;
}

/** How far a piece reaches in a direction (a unit), its faces half a thickness out, mm in its own frame. */
export function reachOf(piece: PieceModel, shape: Shape, way: Vector): number {
  const half = (piece.thickness() ?? 0) / 2;
  const { positions, normals } = shape;
  let [best, most] = [0, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < positions.length; i += 3) {
    const out = normals[i]! * way[0] + normals[i + 1]! * way[1] + normals[i + 2]! * way[2];
    const far = positions[i]! * way[0] + positions[i + 1]! * way[1] + positions[i + 2]! * way[2] + half * Math.abs(out);
    if (far > most) [best, most] = [i / 3, far];
  }
  const chart = piece.chart();
  // A bay may have cut away what lies beside it.
  return chart && !piece.cutForm() ? climbed(chart, shape, best, most, way, half) : most;
}

/** From the furthest vertex of the mesh to the furthest place of the form, by ever shorter steps. */
function climbed(chart: Chart, { positions }: Shape, vertex: number, from: number, way: Vector, half: number): number {
  const start: Vector = [positions[3 * vertex]!, positions[3 * vertex + 1]!, positions[3 * vertex + 2]!];
  const found = spotNear(chart, start);
  if (!found) return from;
  let [u, v] = found;
  let most = from;
  const far = (a: number, b: number): number => {
    const spot = [chart.closed ? a - Math.floor(a) : Math.min(1, Math.max(0, a)), Math.min(1, Math.max(0, b))] as const;
    return dot(chart.point(...spot), way) + half * Math.abs(dot(directionOut(chart, spot), way));
  };
  for (let step = 0.02; step > 1e-5; ) {
    let isBetter = false;
    for (const [du, dv] of [
      [step, 0],
      [-step, 0],
      [0, step],
      [0, -step],
    ] as const) {
      const next = far(u + du, v + dv);
      if (!(next > most)) continue;
      [u, v, most, isBetter] = [u + du, v + dv, next, true];
    }
    if (!isBetter) step /= 2;
  }
  return most;
}

/** The spot of a point that is known to lie on the form. */
function spotNear(chart: Chart, point: Vector): readonly [number, number] | undefined {
  let best: readonly [number, number] | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= GRID; i++)
    for (let j = 0; j <= GRID; j++) {
      const away = minus(chart.point(i / GRID, j / GRID), point);
      const square = dot(away, away);
      if (square < least) [best, least] = [[i / GRID, j / GRID], square];
    }
  return best;
}
const GRID = 24;
