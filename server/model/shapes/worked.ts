import type { LineById, PieceLine } from '../../../grammar/typed-line.ts';
import type { Chart } from '../../geometry/surface/chart.ts';
import { type Flare, flaredChart, isSide } from '../../geometry/surface/flare.ts';
import {
  type Crease,
  creaseRelief,
  type Flutes,
  fluteRelief,
  type Relief,
  relievedChart,
  runsUp,
} from '../../geometry/surface/relief.ts';
import type { LineReading } from '../names/line-reading.ts';

/*
 * What is worked into a form: flutes and creases, then flares. Each line changes the surface as far as it can; one that
 * cannot leaves it as it was, and a check says so.
 */

/** A `bend` or a `flare` line. */
export interface Bend {
  readonly line: LineReading<PieceLine>;
  readonly kind: 'bend' | 'flare';
  /** Angle turned through, degrees. */
  readonly angle?: number;
  readonly radius?: number;
  /** Distance from its edge, or the width of a flare, mm. */
  readonly distance?: number;
  readonly edge: string;
}

/** What is asked of a piece about what is worked into it. */
export interface Workable {
  all<Id extends PieceLine['id']>(id: Id): readonly LineReading<LineById<PieceLine, Id>>[];
  bends(): readonly Bend[];
}

/** A line that works the form. */
export interface Working<What> {
  readonly line: LineReading;
  readonly what: What;
}

const signed = (line: LineReading, deep: number) => (line.has('inward') ? -deep : deep);

/** Its `flute` lines that say how deep and how wide, mm. */
export function fluteLines(
  piece: Workable,
): { readonly line: LineReading; readonly deep: number; readonly wide: number }[] {
  return piece.all('flute').flatMap((line) => {
    const [deep, wide] = [line.length('deep', 'deep'), line.length('wide', 'wide')];
    return deep === undefined || wide === undefined || !(deep > 0) || !(wide > 0) ? [] : [{ line, deep, wide }];
  });
}

/** Its `flute` lines, as far as they are written. */
export function flutesIn(piece: Workable): Working<Flutes>[] {
  return fluteLines(piece).flatMap(({ line, deep, wide }) => {
    const count = line.count('count');
    if (count === undefined || !(count >= 1)) return [];
    return [{ line, what: { count: Math.round(count), deep: signed(line, deep), wide } }];
  });
}

/** On one piece: each takes five columns of the mesh, and with more of them the editor would wait for every key. */
export const MOST_FLUTES = 60;

/** Its `crease` lines, as far as they are written. */
export function creasesIn(piece: Workable): Working<Crease>[] {
  return piece.all('crease').flatMap((line) => {
    const [along, deep, wide] = [line.text('edge'), line.length('deep', 'deep'), line.length('wide', 'wide')];
    const [from, to] = [line.length('from', 'from'), line.length('to', 'from')];
    // A part that is not yet written to its end would crease the whole line meanwhile.
    if (!along || deep === undefined || !(deep > 0)) return [];
    if ((line.has('wide') && !(wide! > 0)) || (line.has('from') && !(to! > from!))) return [];
    const stretch = from === undefined || to === undefined ? undefined : { from, to };
    return [{ line, what: { line: along.toLowerCase(), deep: signed(line, deep), wide, stretch } }];
  });
}

/** Its `flare` lines, as far as they are written. */
export function flaresIn(piece: Workable): Working<Flare>[] {
  return piece
    .bends()
    .flatMap(({ line, kind, edge, angle, distance }) =>
      kind === 'flare' &&
      edge &&
      angle !== undefined &&
      angle > 0 &&
      angle < 180 &&
      distance !== undefined &&
      distance > 0
        ? [{ line, what: { edge: edge.toLowerCase(), angle, wide: distance } }]
        : [],
    );
}

/** What is worked into a piece: its surface, and what there is no room for. */
export interface Worked {
  /** The finished form. */
  readonly chart: Chart;
  /** The same with its flares still in the wall, each place at its spot: where the metal comes from. */
  readonly beforeFlaring: Chart;
  /** Whether flutes or creases change the plain form, and with it the blank. */
  readonly isRelieved: boolean;
  /** How many flutes it has. */
  readonly flutes: number;
  readonly noRoom: readonly NoRoom[];
}

/** A line that the form has no room for, and why. */
export type NoRoom = Working<Flutes | Crease | Flare> & {
  readonly why: 'crowded' | 'too many' | 'no such line' | 'flat' | 'no such edge' | 'too wide';
};

/** The plain form with its flutes and its creases, and then its flares. */
export function workedForm(piece: Workable, plain: Chart): Worked {
  const noRoom: NoRoom[] = [];
  const reliefs: Relief[] = [];
  let count = 0;
  for (const { line, what } of flutesIn(piece)) {
    const isTooMany = count + what.count > MOST_FLUTES;
    const relief = isTooMany ? undefined : fluteRelief(plain, what, count);
    if (!relief) noRoom.push({ line, what, why: isTooMany ? 'too many' : 'crowded' });
    else {
      reliefs.push(relief);
      count += what.count;
    }
  }
  for (const { line, what } of creasesIn(piece)) {
    const relief = creaseRelief(plain, what);
    if (relief) reliefs.push(relief);
    else noRoom.push({ line, what, why: runsUp(plain, what.line) ? 'flat' : 'no such line' });
  }
  const relieved = relievedChart(plain, reliefs);
  let [chart, beforeFlaring] = [relieved, relieved];
  for (const { line, what } of flaresIn(piece)) {
    const flared = flaredChart(chart, what);
    if (!flared) noRoom.push({ line, what, why: isSide(chart, what.edge) ? 'too wide' : 'no such edge' });
    chart = flared ?? chart;
    beforeFlaring = flaredChart(beforeFlaring, { ...what, angle: 0 }) ?? beforeFlaring;
  }
  return { chart, beforeFlaring, isRelieved: reliefs.length > 0, flutes: count, noRoom };
}
