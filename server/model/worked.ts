import type { Chart } from '../trade/surface/chart.ts';
import { type Flare, flaredChart, isSide } from '../trade/surface/flare.ts';
import {
  type Crease,
  creaseRelief,
  type Flutes,
  fluteRelief,
  type Relief,
  relievedChart,
  runsUp,
} from '../trade/surface/relief.ts';
import type { PieceModel } from './piece.ts';
import type { LineReading } from './reading.ts';

/*
 * What is worked into a form: flutes and creases, then flares. Each line changes the surface as far as it can; one that
 * cannot leaves it as it was, and a check says so.
 */

/** A line that works the form. */
export interface Working<What> {
  readonly line: LineReading;
  readonly what: What;
}

const signed = (line: LineReading, deep: number) => (line.has('inward') ? -deep : deep);

/** Its `flute` lines, as far as they are written. */
export function flutesIn(piece: PieceModel): Working<Flutes>[] {
  return piece.all('flute').flatMap((line) => {
    const [count, deep, wide] = [line.count('count'), line.length('deep', 'deep'), line.length('wide', 'wide')];
    if (count === undefined || !(count >= 1 && count <= MOST_FLUTES)) return [];
    if (deep === undefined || !(deep > 0) || wide === undefined || !(wide > 0)) return [];
    return [{ line, what: { count: Math.round(count), deep: signed(line, deep), wide } }];
  });
}

/** More than this are no flutes any more, and no mesh has so many columns. */
const MOST_FLUTES = 60;

/** Its `crease` lines, as far as they are written. */
export function creasesIn(piece: PieceModel): Working<Crease>[] {
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
export function flaresIn(piece: PieceModel): Working<Flare>[] {
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

/** The form with its flutes and its creases. */
export function relieved(piece: PieceModel, chart: Chart): Chart {
  return relievedChart(
    chart,
    reliefsIn(piece, chart).flatMap(({ relief }) => relief ?? []),
  );
}

/** What each of its lines makes of the plain form; nothing where that has no room for it. */
function reliefsIn(
  piece: PieceModel,
  chart: Chart,
): (Working<Flutes | Crease> & { readonly relief?: Relief | undefined })[] {
  let count = 0;
  const fluted = flutesIn(piece).map((each) => {
    const relief = fluteRelief(chart, each.what, count);
    if (relief) count += each.what.count;
    return { ...each, relief };
  });
  return [...fluted, ...creasesIn(piece).map((each) => ({ ...each, relief: creaseRelief(chart, each.what) }))];
}

/** The same with its flares turned out; or, `straight`, with their metal still in the wall and every place at its spot. */
export function flareOut(piece: PieceModel, chart: Chart, how: 'turned' | 'straight'): Chart {
  return flaresIn(piece).reduce(
    (before, { what }) => flaredChart(before, how === 'turned' ? what : { ...what, angle: 0 }) ?? before,
    chart,
  );
}

/** A line that the form has no room for, and why. */
export type NoRoom = Working<Flutes | Crease | Flare> & {
  readonly why: 'crowded' | 'no such line' | 'flat' | 'no such edge' | 'too wide';
};

/** The lines of its working that leave the surface as it was; none where the form has no surface. */
export function withoutRoom(piece: PieceModel): NoRoom[] {
  // A surface is dear, and most pieces are not worked.
  if (!flutesIn(piece).length && !creasesIn(piece).length && !flaresIn(piece).length) return [];
  const plain = piece.plainChart();
  if (!plain) return [];
  const found = reliefsIn(piece, plain).flatMap(({ line, what, relief }): NoRoom[] => {
    if (relief) return [];
    return [{ line, what, why: 'count' in what ? 'crowded' : runsUp(plain, what.line) ? 'flat' : 'no such line' }];
  });
  let chart = relieved(piece, plain);
  for (const { line, what } of flaresIn(piece)) {
    const flared = flaredChart(chart, what);
    if (!flared) found.push({ line, what, why: isSide(chart, what.edge) ? 'too wide' : 'no such edge' });
    chart = flared ?? chart;
  }
  return found;
}
