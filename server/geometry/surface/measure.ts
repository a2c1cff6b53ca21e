import type { Steps } from '../../incremental/steps.ts';
import type { Chart } from './chart.ts';
import { type CutForm, cutMeshInSteps } from './cut.ts';
import { raisedInSteps, rowsInSteps } from './mesh.ts';
import type { Surface } from './surface.ts';
import { cross, dot, minus, size, unit, type Vector } from './vector.ts';

/** A vertex's place and its normal. */
export const positionOf = (surface: Surface, vertex: number): Vector => triple(surface.positions, vertex);
export const normalOf = (surface: Surface, vertex: number): Vector => triple(surface.normals, vertex);

const triple = (all: Float64Array, i: number): Vector => [all[3 * i]!, all[3 * i + 1]!, all[3 * i + 2]!];

/**
 * Length of the arc between two points of a surface, from the chord and the normals at both ends, mm. Where one end has
 * no normal the other's counts twice; where neither has, it is the chord.
 *
 * Good to the fourth power of the chord. Source: circle through both points, square to the mean normal (derived).
 */
function arcLength(from: Vector, to: Vector, normalFrom: Vector, normalTo: Vector): number {
  const chord = minus(to, from);
  const long = size(chord);
  if (!(long > 0)) return 0;
  const start = dot(chord, normalFrom) / long;
  const end = dot(chord, normalTo) / long;
  const has = (normal: Vector) => normal[0] !== 0 || normal[1] !== 0 || normal[2] !== 0;
  const x = has(normalFrom) && has(normalTo) ? (end - start) / 2 : end - start;
  return long * (1 + x * x * (1 / 6 + (3 / 40) * x * x));
}

/**
 * Area of a surface, mm²: every triangle laid flat from its three arcs, and a little more or less for what curves within
 * it. Good to the fourth power of a triangle's side, but for edges that curve within the surface.
 *
 * Source: area of a small geodesic triangle, flat area × (1 + K(a² + b² + c²)/24) (derived), K from the turn of the normals.
 */
export function surfaceArea(surface: Surface): number {
  let area = 0;
  for (let i = 0; i < surface.triangles.length; i += 3) {
    const corners = [0, 1, 2].map((k) => surface.triangles[i + k]!);
    const [p, q, r] = corners.map((vertex) => positionOf(surface, vertex)) as [Vector, Vector, Vector];
    const [np, nq, nr] = corners.map((vertex) => normalOf(surface, vertex)) as [Vector, Vector, Vector];
    const a = arcLength(q, r, nq, nr);
    const b = arcLength(r, p, nr, np);
    const c = arcLength(p, q, np, nq);
    const around = (a + b + c) / 2;
    const flat = Math.sqrt(Math.max(0, around * (around - a) * (around - b) * (around - c)));
    const middle = unit([np[0] + nq[0] + nr[0], np[1] + nq[1] + nr[1], np[2] + nq[2] + nr[2]]);
    const has = [np, nq, nr].every((n) => size(n) > 0);
    const turn = has ? dot(cross(minus(nq, np), minus(nr, np)), middle) / 2 : 0;
    area += flat + (turn * (a * a + b * b + c * c)) / 24;
  }
  return area;
}

/** The mesh from which an area is reckoned, and one twice as fine; a centre is wanted to a tenth of a millimetre only, at every hover. */
const FOR_AREA = 200;
const FOR_CENTRE = 80;

export interface FormArea {
  /** mm² */
  readonly area: number;
  readonly triangles: number;
}

/**
 * Area of a form with its bays cut out, mm²: of a mesh and of one twice as fine, carried on to the limit. Good to about
 * six digits. Source: as {@link surfaceArea}; what edges that curve leave out goes with the square of the step (derived).
 */
export function* formAreaInSteps(chart: Chart, cut?: CutForm): Steps<FormArea> {
  const [coarse, fine] = yield* coarseAndFine(chart, cut, FOR_AREA);
  yield undefined;
  const area = surfaceArea(fine);
  return { area: area + (area - surfaceArea(coarse)) / 3, triangles: fine.triangles.length / 3 };
}

/**
 * The middle of a form's area with its bays cut out, mm: where its mass lies if it is even in thickness. Flat triangles of
 * a mesh and of one twice as fine, carried on to the limit; good to about four digits.
 *
 * Source: mean of the triangles' middles by their areas; what chords leave out goes with the square of the step (derived).
 */
export function* formCentreInSteps(chart: Chart, cut?: CutForm): Steps<Vector> {
  const [coarse, fine] = (yield* coarseAndFine(chart, cut, FOR_CENTRE)).map(meanPlace) as [Vector, Vector];
  const [x, y, z] = fine.map((value, i) => value + (value - coarse[i]!) / 3) as [number, number, number];
  return [x, y, z];
}

function meanPlace(surface: Surface): Vector {
  let whole = 0;
  const sum: [number, number, number] = [0, 0, 0];
  for (let i = 0; i < surface.triangles.length; i += 3) {
    const [p, q, r] = [0, 1, 2].map((k) => positionOf(surface, surface.triangles[i + k]!)) as [Vector, Vector, Vector];
    const area = size(cross(minus(q, p), minus(r, p)));
    whole += area;
    for (const axis of [0, 1, 2] as const) sum[axis] += (area * (p[axis] + q[axis] + r[axis])) / 3;
  }
  return [sum[0] / whole, sum[1] / whole, sum[2] / whole];
}

function* coarseAndFine(chart: Chart, cut: CutForm | undefined, vertices: number): Steps<[Surface, Surface]> {
  const mesh = function* (refine: number): Steps<Surface> {
    const fineness = { vertices, refine };
    const flat = yield* cut ? cutMeshInSteps(chart, cut, fineness) : rowsInSteps(chart, fineness);
    yield undefined;
    return yield* raisedInSteps(chart, flat);
  };
  const coarse = yield* mesh(1);
  return [coarse, yield* mesh(2)];
}
