import earcut from 'earcut';
import { flattened } from '../../geometry/outline/chords.ts';
import type { Chart } from '../../geometry/surface/chart.ts';
import type { CutForm } from '../../geometry/surface/cut.ts';
import type { Surface } from '../../geometry/surface/surface.ts';
import { cross, dot, minus, NOWHERE, plus, unit, type Vector } from '../../geometry/surface/vector.ts';
import { directionOut, type SurfaceLine } from '../../geometry/surface/walk.ts';
import { Dear, patiently, type Steps } from '../../incremental/steps.ts';
import { NONE, NOT_KNOWN } from '../forms/answers.ts';
import { kindOf } from '../forms/index.ts';
import { ofThing } from '../per-spec.ts';
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
const meshOf = (key: string, chart: Chart, cut: CutForm | undefined): Surface =>
  meshes.get(key, () => meshed(chart, cut, { vertices: VERTICES }));

/** The shape of a piece; nothing where it has none. */
export function shapeOf(piece: PieceModel): Shape | undefined {
  const form = piece.form();
  if (!form) return undefined;
  const chart = piece.chart();
  if (chart) {
    const { positions, normals, triangles, edges, lines, folds } = meshOf(keyOf(piece), chart, piece.cutForm());
    return {
      positions,
      normals,
      triangles,
      edges: [...edges.values()],
      lines: [...(folds?.values() ?? []), ...lines.values()].filter((chain) => chain.length > 1),
    };
  }
  return bandOrFlat(piece);
}

/** Kept by its piece: whoever is let go on the way and asks again finds the same mesh, and what was begun with it. */
const bandOrFlat = ofThing('piece', undefined, (piece): Shape | undefined => {
  const form = piece.form();
  if (!form) return undefined;
  if (kindOf(form).follows(form) !== NONE) return bandOf(piece);
  const layout = kindOf(form).layout(form);
  if (layout === NOT_KNOWN) return undefined;
  if (layout.kind === 'rimmed')
    return flatShape(
      flattened(layout.outer, CHORDS_WITHIN).map(({ x, y }) => upright(x, y)),
      [0, 1, 0],
    );
  if (layout.kind !== 'round' || !kindOf(form).isFlat) return undefined;
  const { long, wide } = layout;
  const rim = Array.from({ length: ROUND }, (_, i): Vector => {
    const t = (2 * Math.PI * i) / ROUND;
    return [(-wide / 2) * Math.sin(t), (long / 2) * Math.cos(t), 0];
  });
  return flatShape(rim, [0, 0, 1]);
});

const ROUND = 96;
/** Fine enough to say how far a plate reaches: mm between a chord and its arc. */
const CHORDS_WITHIN = 0.01;

/** A strip or a comb along the line that it follows: as wide as it is made, lying on the surface or standing on it. */
function bandOf(piece: PieceModel): Shape | undefined {
  const form = piece.form()!;
  const line = piece.baseLine();
  if (!line) return undefined;
  if (form.kind === 'trim') {
    const half = form.wide / 2;
    return ribbon(line, ({ normal, left }) => [plus(NOWHERE, left, -half), plus(NOWHERE, left, half), normal]);
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

/** The last reaches of formed pieces, by all that they hang on: one for each body of a build, however many. */
const reaches = new Dear<readonly number[]>(5_000);

/** How far a piece reaches in these directions (units), its faces half a thickness out, mm in its own frame; nothing without a shape. */
export function reachesOf(piece: PieceModel, ways: readonly Vector[]): readonly number[] | undefined {
  const half = (piece.thickness() ?? 0) / 2;
  const chart = piece.chart();
  if (!chart) {
    const shape = shapeOf(piece);
    return shape && ways.map((way) => furthest(shape, way, half).far);
  }
  const [key, cut] = [keyOf(piece), piece.cutForm()];
  return reaches.get(`${half} ${ways.join(' ')} ${key}`, function* () {
    const surface = yield* patiently(() => meshOf(key, chart, cut));
    const found: number[] = [];
    for (const way of ways) {
      yield undefined;
      const { vertex, far } = furthest(surface, way, half);
      // A bay may have cut away what lies beside it.
      found.push(cut ? far : yield* climbed(chart, surface, vertex, far, way, half));
    }
    return found;
  });
}

function furthest({ positions, normals }: Pick<Shape, 'positions' | 'normals'>, way: Vector, half: number) {
  let [vertex, far] = [0, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < positions.length; i += 3) {
    const out = normals[i]! * way[0] + normals[i + 1]! * way[1] + normals[i + 2]! * way[2];
    const at = positions[i]! * way[0] + positions[i + 1]! * way[1] + positions[i + 2]! * way[2] + half * Math.abs(out);
    if (at > far) [vertex, far] = [i / 3, at];
  }
  return { vertex, far };
}

/** From the furthest vertex of the mesh to the furthest place of the form, by ever shorter steps. */
function* climbed(
  chart: Chart,
  { parameters }: Surface,
  vertex: number,
  from: number,
  way: Vector,
  half: number,
): Steps<number> {
  let [u, v] = chart.spot(parameters[2 * vertex]!, parameters[2 * vertex + 1]!);
  let most = from;
  const far = (a: number, b: number): number => {
    const spot = [chart.closed ? a - Math.floor(a) : Math.min(1, Math.max(0, a)), Math.min(1, Math.max(0, b))] as const;
    return dot(chart.point(...spot), way) + half * Math.abs(dot(directionOut(chart, spot), way));
  };
  for (let step = 0.02; step > 1e-5; ) {
    yield undefined;
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
