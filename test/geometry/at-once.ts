import { type Flat, flattenInSteps, type Job, type Refusal } from '../../server/geometry/flatten/flatten.ts';
import type { Chart, Spot } from '../../server/geometry/surface/chart.ts';
import { type Contour, type ContourOptions, contourInSteps } from '../../server/geometry/surface/contour.ts';
import { type CutForm, cutMeshInSteps } from '../../server/geometry/surface/cut.ts';
import { type FormArea, formAreaInSteps, formCentreInSteps } from '../../server/geometry/surface/measure.ts';
import { type Fineness, type FlatMesh, raisedInSteps, rowsInSteps } from '../../server/geometry/surface/mesh.ts';
import type { Surface } from '../../server/geometry/surface/surface.ts';
import type { Vector } from '../../server/geometry/surface/vector.ts';
import { lineInSteps, type SurfaceLine } from '../../server/geometry/surface/walk.ts';
import { atOnce } from '../../server/incremental/steps.ts';

/* What is worked out in steps, in one go: only tests have the patience. */

export const flatten = (job: Job): Flat | Refusal => atOnce(flattenInSteps(job));
export const raised = (chart: Chart, mesh: FlatMesh): Surface => atOnce(raisedInSteps(chart, mesh));
export const meshOf = (chart: Chart, fineness: Fineness = {}): Surface =>
  raised(chart, atOnce(rowsInSteps(chart, fineness)));
export const cutMesh = (chart: Chart, cut: CutForm, fineness: Fineness = {}): FlatMesh =>
  atOnce(cutMeshInSteps(chart, cut, fineness));
export const contourAt = (chart: Chart, height: number, options: ContourOptions = {}): Contour | undefined =>
  atOnce(contourInSteps(chart, height, options));
export const formArea = (chart: Chart, cut?: CutForm): FormArea => atOnce(formAreaInSteps(chart, cut));
export const formCentre = (chart: Chart, cut?: CutForm): Vector => atOnce(formCentreInSteps(chart, cut));
export const lineAlong = (
  chart: Chart,
  at: (share: number) => Spot,
  options: { inset?: number; out?: number; count?: number } = {},
): SurfaceLine => atOnce(lineInSteps(chart, at, options));
