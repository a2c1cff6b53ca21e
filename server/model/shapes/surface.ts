import { wayOf } from '../../geometry/surface/along.ts';
import type { Chart, Spot } from '../../geometry/surface/chart.ts';
import {
  type Bay,
  type CutForm,
  cutForm,
  cutMeshInSteps,
  type Stretch,
  smoothParts,
  WAY_STEPS,
  wayLength,
} from '../../geometry/surface/cut.ts';
import { type FormArea, formAreaInSteps } from '../../geometry/surface/measure.ts';
import { type Fineness, raisedInSteps, rowsInSteps } from '../../geometry/surface/mesh.ts';
import type { Surface } from '../../geometry/surface/surface.ts';
import { apart } from '../../geometry/surface/vector.ts';
import { type EdgeLine, edgeLineInSteps, type SurfaceLine } from '../../geometry/surface/walk.ts';
import { atOnce, Dear, Recent, type Steps } from '../../incremental/steps.ts';
import { surfaceArea, surfaceLength } from '../../trade/blank/measured.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { NONE, NOT_KNOWN, type NotKnown } from '../forms/answers.ts';
import { chartRun, type EdgeRun } from '../forms/edge-run.ts';
import type { Shaped } from '../forms/form.ts';
import { type Form, kindOf } from '../forms/index.ts';
import type { LineReading } from '../names/line-reading.ts';
import type { Named } from '../names/spec-file.ts';
import { creasesIn, flaresIn, flutesIn, type Workable, type Worked, workedForm } from './worked.ts';

/* A piece's form as a surface: what a blank is laid flat from, and what areas and lengths without a formula are read from. */

/** What is asked of a piece about its surface. */
export interface Surfaced extends Shaped, Workable {
  form(): Form | undefined;
  /** What is worked into its plain form. */
  worked(): Worked | undefined;
  /** The outline that its bays leave; nothing where it has none. */
  cutForm(): CutForm | undefined;
  /** What its `cut` lines ask for, as {@link baysIn}. */
  bays(): readonly BayLine[];
  pieceNamed(named: Named): Surfaced;
}

/** A bay and the line that asks for it. */
export interface BayLine extends Bay {
  readonly line: LineReading;
}

/*
 * A piece is made anew whenever one of its lines changes, and mostly its form is the same as before: then it gets the same
 * surface again, with all that has been measured along it.
 */
const charts = new Recent<Chart | undefined>(64);
const workedCharts = new Recent<Pick<Worked, 'chart' | 'beforeFlaring'>>(64);
const cutForms = new Recent<CutForm>(64);

/** The smooth surface of its form, as {@link chartOf}. */
export function plainChartOf(piece: Surfaced): Chart | undefined {
  const key = formKeyOf(piece);
  return key === undefined ? chartOf(piece) : charts.get(key, () => chartOf(piece));
}

/** What is worked into that. */
export function workedChartOf(piece: Surfaced, plain: Chart): Worked {
  const worked = workedForm(piece, plain);
  return worked.chart === plain ? worked : { ...worked, ...workedCharts.get(keyOf(piece), () => worked) };
}

/**
 * The smooth surface at the middle of the thickness, before anything is worked into it; nothing for a form without one, not
 * finished or not possible.
 */
function chartOf(piece: Surfaced): Chart | undefined {
  const form = piece.form();
  const chart = form && kindOf(form).chart(form, piece);
  return chart === NONE ? undefined : chart;
}

/** The bays that its `cut` lines ask for, as far as they are written. */
export const baysOf = (piece: Surfaced): readonly BayLine[] => piece.bays();

/** The same read anew. */
export function baysIn(piece: Pick<Surfaced, 'all'>): readonly BayLine[] {
  return piece.all('cut').flatMap((line) => {
    const [name, edge, edge2] = [line.text('name'), line.text('edge'), line.text('edge2')];
    const [from, to, deep] = [line.length('from'), line.length('to'), line.length('deep', 'deep')];
    if (!name || !edge || !edge2 || from === undefined || to === undefined || deep === undefined) return [];
    return [
      {
        line,
        name,
        from: { edge, at: from },
        to: { edge: edge2, at: to },
        deep,
        mirrored: line.has('mirrored'),
      },
    ];
  });
}

/** The outline that its bays leave; nothing where it has none. */
export function cutOf(piece: Surfaced): CutForm | undefined {
  const bays = baysOf(piece);
  const chart = bays.length ? piece.chart() : undefined;
  return chart && cutForms.get(keyOf(piece), () => cutForm(chart, bays));
}

/** The formed piece as a triangulated surface, its bays cut out; or as it is before its flares are turned. */
export function surfaceOf(
  piece: Surfaced,
  fineness: Fineness = {},
  when: 'finished' | 'before flaring' = 'finished',
): Surface | undefined {
  const chart = when === 'finished' ? piece.chart() : piece.worked()?.beforeFlaring;
  return chart && atOnce(meshed(chart, piece.cutForm(), fineness));
}

/** A form as a triangulated surface, its bays cut out. */
export function* meshed(chart: Chart, cut: CutForm | undefined, fineness: Fineness): Steps<Surface> {
  const mesh = yield* cut ? cutMeshInSteps(chart, cut, fineness) : rowsInSteps(chart, fineness);
  return yield* raisedInSteps(chart, mesh);
}

/** The last areas that were measured, by all that they hang on. */
const areas = new Dear<FormArea>(48);

/** Area of a form that has no formula, or has bays, mm². */
export function measuredArea(piece: Surfaced): Result | undefined {
  const chart = piece.chart();
  if (!chart) return undefined;
  const cut = piece.cutForm();
  const { area, triangles } = areas.get(keyOf(piece), () => formAreaInSteps(chart, cut));
  return surfaceArea({ area, triangles, hasBays: cut?.stretches.some(({ of }) => !chart.edges.has(of)) ?? false });
}

/** Length along an edge, what is left of it, a bay or a line of the surface, mm. */
export function measuredLength(piece: Surfaced, edge: string): Result | undefined {
  const chart = piece.chart();
  return chart && lengths.get(`${edge} ${keyOf(piece)}`, () => lengthOn(chart, piece.cutForm(), edge));
}
const lengths = new Recent<Result | undefined>(256);

function lengthOn(chart: Chart, cut: CutForm | undefined, edge: string): Result | undefined {
  const stretches = cut?.stretches.filter(({ of }) => of === edge);
  const whole = waysOf(chart, edge, stretches);
  if (!whole) return undefined;
  const ways = whole.flatMap((way) => smoothParts(chart, way));
  return surfaceLength({
    length: ways.reduce((sum, way) => sum + wayLength(chart, way), 0),
    steps: WAY_STEPS * ways.length,
    edge,
    parts: stretches?.length ?? 1,
  });
}

/** How an edge or a line of the plain form runs, or what is left of it; or a bay, the way that it turns with the surface. */
export function measuredRun(piece: Surfaced, edge: string): EdgeRun | NotKnown {
  const chart = piece.plainChart();
  return chart ? runs.get(`${edge} ${keyOf(piece)}`, () => runOn(chart, piece.cutForm(), edge)) : NOT_KNOWN;
}
const runs = new Recent<EdgeRun | NotKnown>(64);

function runOn(chart: Chart, cut: CutForm | undefined, edge: string): EdgeRun | NotKnown {
  const stretches = cut?.stretches.filter(({ of }) => of === edge);
  // A leg on a pole goes nowhere.
  const ways = waysOf(chart, edge, stretches)?.filter(
    (way) => apart(chart.point(...way(0)), chart.point(...way(0.5))) > 0,
  );
  if (!ways) return NOT_KNOWN;
  const isBay = !chart.edges.has(edge) && !chart.lines.has(edge);
  return chartRun(
    chart,
    ways.flatMap((way) => smoothParts(chart, way)),
    isBay ? 'bay' : 'side',
  );
}

function waysOf(
  chart: Chart,
  edge: string,
  stretches: readonly Stretch[] | undefined,
): readonly ((share: number) => Spot)[] | undefined {
  if (stretches?.length) return stretches.map(({ at }) => at);
  const track = chart.edges.get(edge) ?? chart.lines.get(edge);
  return track && track.length > 1 ? legsOf(chart, track) : undefined;
}

/** Each leg by itself: the limit is only good on a smooth way. */
function legsOf(chart: Chart, track: readonly Spot[]): ((share: number) => Spot)[] {
  return track.slice(1).map((to, i) => wayOf(chart, [track[i]!, to]));
}

/** The last of them, by all that they hang on. */
const baseLines = new Dear<EdgeLine>(32);

/** The line that a trim or a comb follows. */
export function baseLineOf(piece: Surfaced): SurfaceLine | undefined {
  const form = piece.form();
  const followed = form ? kindOf(form).follows(form) : NONE;
  if (followed === NONE) return undefined;
  const { neighbour, along, inset } = followed;
  return piece.lineOn(neighbour, along.slice(along.indexOf('.') + 1).toLowerCase(), inset);
}

/** A line on a neighbour's surface, as far outside it as the two middles lie apart. */
export function lineOn(piece: Surfaced, neighbour: Surfaced, edge: string, inset: number): EdgeLine | undefined {
  const chart = neighbour.chart();
  const track = chart && (chart.edges.get(edge) ?? chart.lines.get(edge));
  const [own, other] = [piece.thickness(), neighbour.thickness()];
  if (!chart || !track || track.length < 2 || own === undefined || other === undefined) return undefined;
  const out = (own + other) / 2;
  return baseLines.get(`${edge} ${inset} ${out} ${keyOf(neighbour)}`, () =>
    edgeLineInSteps(chart, wayOf(chart, track), { inset, out }),
  );
}

/** Whether the metal ends at an edge: halves, gores and rings meet there. */
export function endsAt(piece: Surfaced, edge: string): boolean {
  const form = piece.form();
  if (!form) return false;
  const { edges, seams } = kindOf(form);
  return (edges(form).includes(edge) && !seams(form).includes(edge)) || baysOf(piece).some(({ name }) => name === edge);
}

/** Its edges that keep their finished length at every point. */
export const heldIn = (piece: Surfaced): readonly string[] => [
  ...new Set(piece.all('hold').flatMap((line) => line.text('edge')?.toLowerCase() ?? [])),
];

/** All that the surface of a piece hangs on, in words. */
export function keyOf(piece: Surfaced): string {
  const bays = baysOf(piece).map(({ line: _, ...bay }) => bay);
  const workings = [flutesIn(piece), creasesIn(piece), flaresIn(piece)].map((all) => all.map(({ what }) => what));
  return `${formKeyOf(piece) ?? ''} ${JSON.stringify([bays, workings, heldIn(piece)])}`;
}

/** All that its plain form hangs on; nothing for a piece without one. */
function formKeyOf(piece: Surfaced): string | undefined {
  const form = piece.form();
  if (!form) return undefined;
  const { line: _, ...measures } = form;
  const under = kindOf(form).liesOn(form);
  const other = under === NONE ? '' : formKeyOf(piece.pieceNamed(under));
  return JSON.stringify([{ ...measures, neighbour: undefined }, other]);
}
