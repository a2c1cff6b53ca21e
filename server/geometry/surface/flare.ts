import { type Measured, measured, straight } from './along.ts';
import type { Chart, Spot, Track } from './chart.ts';
import { foldedColumns, foldedRows } from './mesh.ts';
import { normalBySlopes } from './relief.ts';
import { dot, NOWHERE, plus, unit, type Vector } from './vector.ts';
import { directionOut, tangent } from './walk.ts';

/** An edge bent out of the form. */
export interface Flare {
  readonly edge: string;
  /** How far it is turned out of the form, degrees; below nought inward. */
  readonly angle: number;
  /** How much of the form is turned, along its surface from the edge, mm. */
  readonly wide: number;
}

/** A side of the square: which parameter counts from it, and where it begins. */
interface Side {
  readonly axis: 0 | 1;
  readonly start: 0 | 1;
}

/**
 * The form with one edge flared: the metal within `wide` of it along the form's columns (from a left or right edge along its
 * levels) stands straight out of the fold, turned through the angle; its width stays as it is. An angle of nought
 * is the form as it was, with the same parameters: where the metal of a flare comes from.
 *
 * Nothing where the form has no such edge, or is not so wide there up to its next line.
 */
export function flaredChart(chart: Chart, { edge, angle, wide }: Flare): Chart | undefined {
  const side = sideOf(chart, edge);
  if (!side || !(wide > 0)) return undefined;
  const { axis, start } = side;
  const spotAt = (from: number, other: number): Spot => {
    const along = start === 0 ? from : 1 - from;
    return axis === 1 ? [other, along] : [along, other];
  };
  /** How far from the side, as a share of the square. */
  const fromSide = (spot: Spot): number => (start === 0 ? spot[axis] : 1 - spot[axis]);
  const next = Math.min(
    1,
    ...(axis === 1 ? foldedRows(chart) : [...chart.columns, ...foldedColumns(chart)])
      .map((place) => (start === 0 ? place : 1 - place))
      .filter((place) => place > 1e-9),
  );
  /** Where the fold lies on a column (a level, from a left or right edge), as a share of the square. */
  const reach = (other: number): number => {
    let way: Measured | undefined;
    // A little further than the flare is wide at most: the rest of the form need not be measured.
    for (const far of [next / 8, next / 4, next / 2, next]) {
      way = measured(chart, straight(spotAt(0, other), spotAt(far, other)), STEPS);
      if (way.length > 1.001 * wide) return fromSide(way.at(wide));
    }
    return Number.NaN;
  };
  const stops = stopsOf(axis === 1 ? [...chart.columns] : [0, ...foldedRows(chart), 1]);
  const reaches = stops.map(reach);
  if (!reaches.every(Number.isFinite)) return undefined;
  /** The share of the square that the flare takes: the same all along, so that its fold is a line of the mesh. */
  const taken = reaches.reduce((sum, each) => sum + each, 0) / reaches.length;
  const foldFrom = (other: number): number => {
    const place = chart.closed ? other - Math.floor(other) : other;
    const i = Math.max(
      1,
      stops.findIndex((stop) => stop >= place),
    );
    const [a, b] = [stops[i - 1]!, stops[i]!];
    return reaches[i - 1]! + ((reaches[i]! - reaches[i - 1]!) * (place - a)) / (b - a);
  };

  /** A spot of the flared form on the form as it was. */
  const before = (spot: Spot): Spot => {
    const from = fromSide(spot);
    const other = spot[1 - axis]!;
    if (from >= next) return spot;
    const fold = foldFrom(other);
    return spotAt(
      from <= taken ? (from * fold) / taken : fold + ((from - taken) * (next - fold)) / (next - taken),
      other,
    );
  };
  const after = (spot: Spot): Spot => {
    const from = fromSide(spot);
    const other = spot[1 - axis]!;
    if (from >= next) return spot;
    const fold = foldFrom(other);
    return spotAt(
      from <= fold ? (from * taken) / fold : taken + ((from - fold) * (next - taken)) / (next - fold),
      other,
    );
  };

  const turn = (angle * Math.PI) / 180;
  const folds = new Map<number, { readonly at: Vector; readonly out: Vector }>();
  /** Where the flare leaves the form, and the way that it goes from there. */
  const foldAt = (other: number) => {
    let fold = folds.get(other);
    if (!fold) {
      const spot = spotAt(foldFrom(other), other);
      const normal = directionOut(chart, spot);
      const slope = tangent(chart, spot, axis);
      const straightOut = unit(plus(slope, normal, -dot(slope, normal)));
      const toward = start === 0 ? -1 : 1;
      fold = {
        at: chart.point(...spot),
        out: plus(plus(NOWHERE, straightOut, toward * Math.cos(turn)), normal, Math.sin(turn)),
      };
      if (folds.size > 2000) folds.clear();
      folds.set(other, fold);
    }
    return fold;
  };
  const point = (u: number, v: number): Vector => {
    const spot: Spot = [u, v];
    const from = fromSide(spot);
    if (turn === 0 || from >= taken) return chart.point(...before(spot));
    const { at, out } = foldAt(spot[1 - axis]!);
    return plus(at, out, wide * (1 - from / taken));
  };
  const [columns, rows] = [foldedColumns(chart), foldedRows(chart)];
  const fold: Track = [spotAt(taken, 0), spotAt(taken, 1)];
  const column = spotAt(taken, 0)[0];
  return {
    ...chart,
    columns: axis === 1 ? chart.columns : [...chart.columns, column].sort((a, b) => a - b),
    folds: new Map([...(chart.folds ?? []), [`flare ${edge}`, fold]]),
    point,
    normal(u, v) {
      const from = fromSide([u, v]);
      if (turn === 0 || from > taken + 1e-9) return chart.normal(...before([u, v]));
      if (from > taken - 1e-9) return NOWHERE;
      return normalBySlopes(chart, point, [u, v], columns, rows);
    },
    sheet: (u, v) => chart.sheet(...before([u, v])),
    spot: (x, y) => after(chart.spot(x, y)),
  };
}

/** Chords of the way in from the edge: it is short. */
const STEPS = 12;

/** Places at which the fold is looked for: between them it runs straight. */
function stopsOf(places: readonly number[]): number[] {
  const steps = places.slice(1).flatMap((to, i) => {
    const from = places[i]!;
    const count = Math.max(1, Math.round(32 * (to - from)));
    return Array.from({ length: count }, (_, k) => from + ((to - from) * (k + 1)) / count);
  });
  return [places[0]!, ...steps];
}

/** Whether a form has this edge along one whole side of it, so that it can be flared. */
export const isSide = (chart: Chart, edge: string): boolean => sideOf(chart, edge) !== undefined;

function sideOf(chart: Chart, edge: string): Side | undefined {
  const track = chart.edges.get(edge);
  if (track?.length !== 2) return undefined;
  const [[u0, v0], [u1, v1]] = [track[0]!, track[1]!];
  if (v0 === v1 && (v0 === 0 || v0 === 1)) return { axis: 1, start: v0 };
  return u0 === u1 && (u0 === 0 || u0 === 1) ? { axis: 0, start: u0 } : undefined;
}
