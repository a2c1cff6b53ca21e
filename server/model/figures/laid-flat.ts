import { outlineOf } from '../../geometry/flatten/flatten.ts';
import { annealsNeeded } from '../../trade/dome/dome.ts';
import { type Basis, type Result, result, type Unit } from '../../trade/reckoning/result.ts';
import { type Edges, made, type WorkedBlank } from '../forms/blank.ts';
import { type Flattening, isRolledOut, type Readings } from '../shapes/flattening.ts';
import type { PieceModel } from '../things/piece.ts';
import type { FigureSet } from '../values/figure-set.ts';

/* The figures of a piece that is laid flat by numbers. */

const ENERGY =
  'Least E = ½ × (e1 − e2)² + k/2 × (e1 + e2 − q)² over the surface, e the logarithms of flat over formed length (derived)';

/** A number that was read off the flat plate, with the model and its parameters in the formula. */
function laidFlat(
  { flat, readings, ends }: Flattening,
  read: {
    readonly what: string;
    readonly unit: Unit;
    readonly value: number;
    /** The same at the ends of the range. */
    readonly ends?: readonly number[] | undefined;
    readonly parts?: readonly { readonly name: string; readonly value: number }[];
    readonly note?: string;
  },
): Result {
  const { way } = flat;
  const rolled = !ends && isRolledOut(readings);
  const all = [read.value, ...(read.ends ?? [])].filter(Number.isFinite);
  const symbols: Record<string, number> = {
    k: way.k,
    q: way.gather * Math.max(0, flat.curvature),
    n: flat.topology.triangles.length / 3,
  };
  for (const { name, value } of read.parts ?? []) symbols[`a(${name})`] = (symbols[`a(${name})`] ?? 0) + value;
  const grown = Object.keys(symbols)
    .slice(3)
    .map((name) => `, {${name}} further out`)
    .join('');
  const basis: Basis = rolled ? 'geometry' : 'common practice';
  return result({
    value: read.value,
    ...(ends ? { low: Math.min(...all), high: Math.max(...all) } : {}),
    unit: read.unit,
    formula: `${read.what} = flat plate of least E({k}, {q}), {n} triangles${grown}`,
    symbols,
    basis,
    source: rolled ? `Rolls out flat. ${ENERGY}` : `${ENERGY}; ${way.name}: ${way.source}`,
    note:
      read.note ??
      (ends
        ? 'The range runs from a rim that is held to one that only shrinks; nothing of it was tested on metal.'
        : undefined),
  });
}

/** Thickness after forming, strains and anneals. */
export function addFlatFigures(piece: PieceModel, flattening: Flattening, set: FigureSet): void {
  const thickness = piece.material()?.thickness();
  const metal = piece.material()?.metal();
  const form = piece.form();
  if (!thickness || !metal || !form || isRolledOut(flattening.readings)) return;
  const { place } = form.line;
  const { readings, ends } = flattening;
  const { value: start, low = start, high = start } = thickness;
  const inputs = [thickness.name];
  const thick = (name: keyof Readings, suffix: string, title: string, note?: string) => {
    const made = laidFlat(flattening, {
      what: 't',
      unit: 'mm',
      value: start * readings[name],
      ends: ends?.flatMap((end) => [low * end[name], high * end[name]]),
      ...(note ? { note } : {}),
    });
    set.add(`thickness.${suffix}`, title, made, place, inputs);
  };
  thick('crown', 'crown', 'thickness at the crown after forming');
  thick('mid', 'mid', 'thickness half way in after forming');
  thick('edge', 'edge', 'thickness at the rim after forming');
  thick('least', 'least', 'thinnest place after forming', 'But for a fortieth of the plate, at corners above all.');
  const strain = (name: keyof Readings, suffix: string, title: string) =>
    set.add(
      `strain.${suffix}`,
      title,
      laidFlat(flattening, {
        what: 'ε',
        unit: 'ratio',
        value: readings[name],
        ends: ends?.map((end) => end[name]),
      }),
      place,
      inputs,
    );
  strain('strainCrown', 'crown', 'strain at the crown');
  strain('strainEdge', 'edge', 'strain at the rim');
  strain('strain', 'most', 'strain that 95 % of the plate stays below');
  const { freeStrain } = flattening;
  if (freeStrain !== undefined)
    set.add(
      'strain.free',
      'strain that 95 % of the plate would stay below if no edge were held',
      laidFlat(flattening, {
        what: 'ε',
        unit: 'ratio',
        value: freeStrain,
        note: 'The same plate with every edge free.',
      }),
      piece.line('hold')?.place ?? place,
      inputs,
    );
  const worst = Math.max(readings.strainCrown, readings.strainEdge, readings.strain);
  set.add(
    'anneals',
    'anneals by strain',
    annealsNeeded(worst, metal.strainBeforeAnneal),
    piece.method().line?.place ?? place,
    [`${piece.name}.strain.crown`, `${piece.name}.strain.edge`],
  );
}

/** The blank of a form that is laid flat by numbers, each edge cut so much further out as it needs. */
export function flattenedBlank(flattening: Flattening, edges: Edges): WorkedBlank {
  const { flat, ends } = flattening;
  const more = new Map<string, number>();
  for (const { edge, figure } of edges.all) more.set(edge, (more.get(edge) ?? 0) + figure.value);
  const outline = outlineOf(flat, more);
  const parts = edges.all.map(({ edge, figure }) => ({ name: edge, value: figure.value }));
  const size = (what: 'long' | 'wide' | 'area', unit: 'mm' | 'mm2'): Result =>
    laidFlat(flattening, {
      what: what === 'area' ? 'A' : what,
      unit,
      value: outline[what],
      // What the edges need is the same at the ends of the range.
      ends: ends?.map((end) => end[what] + outline[what] - flattening.readings[what]),
      parts,
    });
  const [long, wide, area] = [size('long', 'mm'), size('wide', 'mm'), size('area', 'mm2')];
  const worked = made({ kind: 'outline', points: outline.points, path: outline.path }, long, wide, area, edges);
  return ends ? { ...worked, least: { long: long.low ?? long.value, wide: wide.low ?? wide.value } } : worked;
}
