import { inARow, say } from '../../../l10n/say.ts';
import { outlineOf } from '../../geometry/flatten/flatten.ts';
import type { Readings } from '../../geometry/flatten/formed.ts';
import { annealsNeeded, meanThickness, raisingCourses } from '../../trade/dome/dome.ts';
import { type Outcome, profiled, rolledOut, runsFrom, solved } from '../../trade/dome/hammered.ts';
import { intervalOf, through } from '../../trade/reckoning/interval.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { type Edges, lettered, made, neededFigures, neededOf, type What, type WorkedBlank } from '../forms/blank.ts';
import type { Flattening } from '../shapes/flattening.ts';
import type { PieceModel } from '../things/piece.ts';
import type { FigureSet } from '../values/figure-set.ts';

/* The figures of a hammered piece, and the blank of one that is laid flat by numbers. */

/** Thickness after forming, strains, anneals and courses. */
export function addFormedFigures(piece: PieceModel, outcome: Outcome, set: FigureSet): void {
  const thickness = piece.material()?.thickness();
  const metal = piece.material()?.metal();
  const form = piece.form();
  if (!thickness || !metal || !form) return;
  const { place } = form.line;
  const { by, value, ends } = outcome;
  const { value: start, low = start, high = start } = thickness;
  const inputs = [thickness.name];
  const isWhole = value.area > by.value.area * (1 - 1e-9);
  // What is cut too small is spread: it all ends by so much thinner.
  const scant = isWhole
    ? ''
    : say`The blank has ${Math.round((1 - value.area / by.value.area) * 100)} % less metal than the form needs, and all of it ends so much thinner.`;
  const noted = (note = '') => {
    if (!note && !scant) return {};
    return { note: inARow(note, scant, runsFrom(by)) };
  };
  const thick = (name: keyof Readings, suffix: string, title: string, note?: string) =>
    set.add(
      `thickness.${suffix}`,
      title,
      solved(by, {
        what: 't',
        unit: 'mm',
        value: start * value[name],
        ends: [value, ...ends].flatMap((end) => [low * end[name], high * end[name]]),
        ...noted(note),
      }),
      place,
      inputs,
    );
  thick('crown', 'crown', 'thickness at the crown after forming');
  thick('mid', 'mid', 'thickness half way in after forming');
  thick('edge', 'edge', 'thickness at the rim after forming');
  thick(
    'least',
    'least',
    'thinnest place after forming',
    'But for a fortieth of the plate, at corners above all. Planishing takes off another 2 to 5 % (common practice, no source).',
  );
  thick('most', 'most', 'thickest place after forming', 'But for a fortieth of the plate, at corners above all.');
  const strain = (name: keyof Readings, suffix: string, title: string, note?: string) =>
    set.add(
      `strain.${suffix}`,
      title,
      solved(by, { what: 'ε', unit: 'ratio', value: value[name], ends: ends.map((end) => end[name]), ...noted(note) }),
      place,
      inputs,
    );
  strain('strainCrown', 'crown', 'strain at the crown');
  strain('strainEdge', 'edge', 'strain at the rim', edgeInWords(value));
  strain('edgeAlong', 'edge-along', 'strain along the rim', 'Below nought the rim shrinks, above it stretches.');
  strain('edgeAcross', 'edge-across', 'strain of the rim from edge to crown', 'Above nought the wall grows longer.');
  strain('strain', 'most', 'strain that 95 % of the plate stays below');
  const { freeStrain } = piece.laidFlat() ?? {};
  if (freeStrain !== undefined)
    set.add(
      'strain.free',
      'strain that 95 % of the plate would stay below if no edge were held',
      solved(by, { what: 'ε', unit: 'ratio', value: freeStrain, note: 'The same plate with every edge free.' }),
      piece.line('hold')?.place ?? place,
      inputs,
    );
  const where = piece.method().line?.place ?? place;
  const worst = (of: Readings) => Math.max(of.strainCrown, of.strainEdge, of.strain);
  set.add('anneals', 'anneals by strain', annealsNeeded(spread(worst, outcome), metal.strainBeforeAnneal), where, [
    `${piece.name}.strain.crown`,
    `${piece.name}.strain.edge`,
    `${piece.name}.strain.most`,
  ]);
  const { method } = piece.method();
  if (method === 'raise' || method === 'dish then raise') {
    const drawnIn = spread((of) => Math.max(0, -of.edgeAlong), outcome);
    set.add('courses', 'raising courses', raisingCourses(drawnIn), where, [`${piece.name}.strain.edge-along`]);
  }
}

function spread(read: (of: Readings) => number, { value, ends }: Outcome) {
  const all = [value, ...ends].map(read);
  return { value: all[0]!, low: Math.min(...all), high: Math.max(...all) };
}

/** Which way the rim goes: what the effective strain does not say. */
function edgeInWords({ edgeAlong, edgeAcross }: Readings): string {
  const percent = (strain: number) => `${Math.round(Math.abs(Math.expm1(strain)) * 100)} %`;
  return say`Along itself the rim ${edgeAlong < 0 ? say`shrinks` : say`stretches`} by ${percent(edgeAlong)}, from edge to crown the metal there ${edgeAcross < 0 ? say`shrinks` : say`stretches`} by ${percent(edgeAcross)}.`;
}

/** Mean thickness after forming: the metal that stays in the piece over its finished area. */
export function addMeanThickness(piece: PieceModel, { value, ends: [least, most] }: Outcome, set: FigureSet): void {
  const form = piece.form();
  const thickness = piece.material()?.thickness();
  const area = set.get('area');
  if (!form || !thickness || !area) return;
  const areas = [value, least, most].map(({ mean }) => mean * area.value);
  const mean = meanThickness(areas[0]!, area.value, thickness.value);
  const range = through(
    (from, start) => (start! * from!) / area.value,
    { value: areas[0]!, low: Math.min(...areas), high: Math.max(...areas) },
    intervalOf(thickness),
  );
  set.add(
    'thickness.mean',
    'mean thickness after forming',
    {
      ...mean,
      low: range.low,
      high: range.high,
      note: 'The metal that stays in the form, without what its edges need or what is trimmed off; the range is that of the blank.',
    },
    form.line.place,
    [area.name, thickness.name],
  );
}

/** The blank of a form that is laid flat by numbers, each edge cut so much further out as it needs. */
export function flattenedBlank({ flat, formed, profile, readings }: Flattening, edges: Edges): WorkedBlank {
  const more = new Map<string, number>();
  for (const { edge, figure } of edges.all) more.set(edge, (more.get(edge) ?? 0) + figure.value);
  const outline = outlineOf(flat, more);
  const parts = edges.all.map(({ edge, figure }) => ({ name: edge, value: figure.value }));
  const shape = { kind: 'outline', points: outline.points, path: outline.path } as const;
  const sizes = (size: (what: What, unit: 'mm' | 'mm2') => Result) =>
    [size('long', 'mm'), size('wide', 'mm'), size('area', 'mm2')] as const;
  if (!formed) {
    const triangles = flat.topology.triangles.length / 3;
    const rolled = sizes((what, unit) =>
      rolledOut(triangles, flat.way.k, { what: lettered(what), unit, value: outline[what], parts }),
    );
    return made(shape, ...rolled, edges);
  }
  // What the edges need is the same at the ends of the range.
  const needed = neededOf(formed, outline, {
    long: outline.long - readings.long,
    wide: outline.wide - readings.wide,
    area: outline.area - readings.area,
  });
  const results = sizes((what, unit) => needed.result(what, unit, parts));
  if (!profile) return { ...made(shape, ...results, edges), ...needed.bounds };
  const cut = outlineOf(flat, more, profile);
  const toProfile = sizes((what, unit) => profiled(formed, { what: lettered(what), unit, value: cut[what] }));
  return {
    ...made({ kind: 'outline', points: cut.points, path: cut.path }, ...toProfile, edges, () => neededFigures(results)),
    ...needed.bounds,
    needed: { long: outline.long, wide: outline.wide, area: outline.area },
  };
}
