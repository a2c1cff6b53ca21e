import { type Interval, through } from '../reckoning/interval.ts';
import { type Counted, sumOf } from '../reckoning/readings.ts';
import { firstOf, notAboveNothing, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

/** The two ways of numbering abrasives: `P` (FEPA, ISO 6344) and `CAMI` (ANSI, without the letter). */
export type GritSystem = 'P' | 'CAMI';

interface Grit {
  /** Median grain, micrometres. */
  readonly micrometres: number;
  readonly source: string;
}

const CHARTED = 'published table of sandpaper grades';
const ROUNDED = 'published finisher’s table, rounded; decimals from memory';
const MEMORY = 'from memory';

/** Median grain of each grade. */
const gritTables: Readonly<Record<GritSystem, ReadonlyMap<number, Grit>>> = {
  P: new Map<number, Grit>([
    ...rows(`FEPA P, ${CHARTED}`, [24, 764], [30, 642], [36, 538], [40, 425], [50, 336], [60, 269], [80, 201]),
    ...rows(`FEPA P, ${CHARTED}`, [100, 162], [120, 125]),
    ...rows(`FEPA P, ${ROUNDED}`, [150, 100], [180, 82], [220, 68], [240, 58.5], [280, 52.2], [320, 46.2], [360, 40.5]),
    ...rows(`FEPA P, ${ROUNDED}`, [400, 35], [500, 30.2], [600, 25.8], [800, 21.8], [1000, 18.3], [1200, 15.3]),
    ...rows(`FEPA P, ${ROUNDED}`, [1500, 12.6], [2000, 10.3]),
    ...rows('FEPA P, published reference table', [2500, 8.4]),
  ]),
  CAMI: new Map<number, Grit>([
    ...rows(`ANSI/CAMI, ${CHARTED}`, [24, 715], [36, 535], [40, 428], [50, 351], [60, 268], [80, 192], [100, 141]),
    ...rows('ANSI/CAMI, published finisher’s table, rounded', [120, 116], [150, 93], [180, 82], [220, 68], [240, 52]),
    ...rows('ANSI/CAMI, published finisher’s table, rounded', [280, 42], [320, 35], [360, 28], [500, 18], [600, 15]),
    ...rows(`ANSI/CAMI, ${MEMORY}; another table gives 10.3 µm`, [1000, 9.2]),
  ]),
};

/**
 * Median grain of an abrasive grade, mm.
 *
 * @returns undefined if the table does not have the grade.
 * Source: the grade's own, see {@link gritTables}. A grade's number means another grain in each system.
 */
export function gritSize(system: GritSystem, grit: number): Result | undefined {
  const known = gritTables[system].get(grit);
  if (known === undefined) return undefined;
  return reckon({
    value: known.micrometres / 1000,
    unit: 'mm',
    formula: 'median grain = {g} µm ÷ 1000',
    symbols: { g: known.micrometres },
    basis: 'published',
    source: known.source,
  });
}

/**
 * How many times coarser the grain of one step is than that of the next; both grains in mm.
 *
 * A step of 1.5 to 2 is common practice; over 2 the finer grit polishes the tops of the coarser one's scratches.
 * Range: above nothing. Source: common practice (no source).
 */
export function gritRatio(coarser: number, finer: number): Result {
  return reckon({
    value: coarser / finer,
    unit: 'ratio',
    formula: 'step = {coarser} ÷ {finer}',
    symbols: { coarser, finer },
    basis: 'common practice',
    source: 'A step of 1.5 to 2 in grain size, never in grit numbers: common practice (no source)',
    outside: firstOf(notAboveNothing('the coarser grain', coarser), notAboveNothing('the finer grain', finer)),
  });
}

/**
 * Paint (mm³; a million to the litre) for an area (mm²) at a dry film (mm), from the paint's share of solids by volume and
 * the share of it that lands on the work (brush about 0.9, spray 0.3 to 0.7: common practice, no source).
 *
 * Range: shares over 0 and at most 1. Source: published spreading rate, 1604 × solids ÷ mils, ft² to the US gallon.
 *
 * @tests one coat, by which coatVolume is held against makers’ sheets
 */
export function paintVolume({
  area,
  dry,
  solids,
  transfer = 0.9,
}: {
  area: number;
  dry: number;
  solids: number;
  transfer?: number;
}): Result {
  return reckon({
    value: (area * dry) / solids / transfer,
    unit: 'mm3',
    formula: 'V = {A} × {film} ÷ {solids} ÷ {landing}',
    symbols: { A: area, film: dry, solids, landing: transfer },
    basis: 'published',
    source: 'Spreading rate of paint makers’ sheets: 10 × solids in percent ÷ dry micrometres, m² to the litre',
    outside: firstOf(
      notAtLeastNothing('the area', area),
      notAtLeastNothing('the dry film', dry),
      when(!(solids > 0 && solids <= 1), 'the share of solids must lie between 0 and 1'),
      when(!(transfer > 0 && transfer <= 1), 'the share that lands on the work must lie between 0 and 1'),
    ),
  });
}

/** A dry coat (mm), the solids in the tin and what lands of it: common practice (no source). The tin's own sheet comes first. */
export interface Film {
  readonly title: string;
  readonly dry: Interval;
  readonly solids: Interval;
  readonly landing: Interval;
}

export const FILMS: Readonly<Record<'paint' | 'prime' | 'lacquer', Film>> = {
  paint: {
    title: 'paint',
    dry: between(0.025, 0.04, 0.06),
    solids: between(0.35, 0.5, 0.65),
    landing: between(0.3, 0.6, 0.9),
  },
  prime: {
    title: 'primer',
    dry: between(0.02, 0.03, 0.05),
    solids: between(0.35, 0.5, 0.65),
    landing: between(0.3, 0.6, 0.9),
  },
  lacquer: {
    title: 'lacquer',
    dry: between(0.01, 0.02, 0.03),
    solids: between(0.2, 0.3, 0.45),
    landing: between(0.3, 0.6, 0.9),
  },
};

/**
 * What a number of coats takes from the tin (mm³) for an area (mm²), by {@link FILMS}.
 *
 * Range: wide, since spraying may lose two thirds; brushing about a tenth. Source: {@link paintVolume}; film, solids and
 * losses common practice (no source).
 */
export function coatVolume({ area, coats, kind }: { area: number; coats: number; kind: keyof typeof FILMS }): Result {
  const { dry, solids, landing } = FILMS[kind];
  const volume = (film: number, share: number, lands: number) => (area * coats * film) / share / lands;
  const { value, low, high } = through(volume as (...values: number[]) => number, dry, solids, landing);
  return reckon({
    value,
    low,
    high,
    unit: 'mm3',
    formula: 'V = {A} × {coats} × {film} ÷ {solids} ÷ {landing}',
    symbols: { A: area, coats, film: dry.value, solids: solids.value, landing: landing.value },
    basis: 'common practice',
    source:
      'Spreading rate of paint makers’ sheets; dry film, solids and what lands are common practice (no source): read the tin',
    outside: firstOf(notAtLeastNothing('the area', area), notAtLeastNothing('the number of coats', coats)),
    note: 'Low: thin coats by brush. High: thick coats by spray, two thirds lost.',
  });
}

/**
 * Surface that a finish goes on, mm²: so many faces of each piece, and the heads of rivets. Range: nothing or more.
 * Source: the sum of its parts.
 */
export const coatedArea = (parts: readonly Counted[], note: string | undefined): Result =>
  sumOf(
    parts,
    {
      unit: 'mm2',
      source:
        'Finished areas of the pieces it is on, less their openings, and the heads of the rivets; the thickness of edges is left out',
      note,
    },
    'A = Σ (area − openings) × faces × pieces + Σ heads × rivets',
    (area) => `${Math.round(area / 10) / 10} cm²`,
  );

function between(low: number, value: number, high: number): Interval {
  return { value, low, high };
}

function rows(source: string, ...grades: readonly (readonly [number, number])[]): [number, Grit][] {
  return grades.map(([grit, micrometres]) => [grit, { micrometres, source }]);
}
