import { strict as assert } from 'node:assert';
import { wayOf } from '../../server/geometry/surface/along.ts';
import type { Chart } from '../../server/geometry/surface/chart.ts';
import { wayLength } from '../../server/geometry/surface/cut.ts';
import { domeChart } from '../../server/geometry/surface/dome.ts';
import { loftChart } from '../../server/geometry/surface/loft.ts';
import { surfaceArea } from '../../server/geometry/surface/measure.ts';
import { ellipsePerimeter } from '../../server/trade/blank/plane-shapes.ts';
import { coneDevelopment, ovalConeDevelopment } from '../../server/trade/blank/wrap.ts';
import { domeArea, gore, ovalDomeArea } from '../../server/trade/dome/dome.ts';
import { formArea, meshOf } from '../geometry/at-once.ts';
import { chordArea } from '../geometry/surface/sound.ts';
import { holdsAgainst, type Row } from './rows.ts';

/* Areas and edges read from a surface, against the formulas of the forms that have one. */

const loft = (wrap: number, ...levels: Parameters<typeof loftChart>[0]['levels']): Chart =>
  loftChart({ wrap, levels })!;

/** Half an oblate or prolate spheroid, axes 2a, 2a, deep c: the elementary formulas. */
const halfSpheroid = (a: number, c: number): number => {
  const e = Math.sqrt(Math.abs(1 - (c / a) ** 2));
  return c < a
    ? Math.PI * a * a + (Math.PI * c * c * Math.atanh(e)) / e
    : Math.PI * a * a + (Math.PI * a * c * Math.asin(Math.sqrt(1 - (a / c) ** 2))) / Math.sqrt(1 - (a / c) ** 2);
};

interface Known {
  readonly what: string;
  readonly source: string;
  readonly chart: Chart;
  readonly area: number;
  /** How far ours may lie off, as a share. */
  readonly within?: number;
}

const forms: readonly Known[] = [
  {
    what: 'cap of a sphere, 210 across, 60 deep',
    source: 'π(a² + h²)',
    chart: domeChart({ long: 210, wide: 210, deep: 60 }),
    area: Math.PI * (105 ** 2 + 60 ** 2),
  },
  {
    what: 'half a prolate spheroid, 180 across, 150 deep',
    source: 'πa² + πac·arcsin(e)/e',
    chart: domeChart({ long: 180, wide: 180, deep: 150 }),
    area: halfSpheroid(90, 150),
  },
  {
    what: 'half of half an ellipsoid 240 × 180, 150 deep',
    source: 'its surface integral, worked apart: 44 877 mm²',
    chart: domeChart({ long: 240, wide: 180, deep: 150 }, 'half'),
    area: ovalDomeArea(240, 180, 150).value / 2,
  },
  {
    what: 'cap stretched to 150 × 125, 40 deep',
    source: 'its surface integral',
    chart: domeChart({ long: 150, wide: 125, deep: 40 }),
    area: ovalDomeArea(150, 125, 40).value,
  },
  {
    what: 'one gore of six of a half sphere of 210',
    source: '2πR²/6',
    chart: domeChart({ long: 210, wide: 210, deep: 105 }, { gores: 6 }),
    area: (2 * Math.PI * 105 ** 2) / 6,
  },
  {
    what: 'cone 700 to 560 round, 75 high, wrapped 150°',
    source: 'sector of the frustum',
    chart: loft(150, { high: 0, round: 700 }, { high: 75, round: 560 }),
    area: coneDevelopment({ top: 560, bottom: 700, high: 75, wrap: 150 }).area.value,
  },
  {
    what: 'cone to a point, 400 round, 120 high',
    source: 'sector of the cone',
    chart: loft(360, { high: 0, round: 400 }, { high: 120, ends: 'point' }),
    area: coneDevelopment({ top: 0, bottom: 400, high: 120 }).area.value,
    // The few triangles at the tip are flat ones, however fine the rest.
    within: 1e-4,
  },
  {
    what: 'oval cylinder 600 round, 220 long, 90 high, wrapped 200°',
    source: 'girth × wrap × height',
    chart: loft(200, { high: 0, round: 600, long: 220 }, { high: 90, round: 600, long: 220 }),
    area: ((600 * 200) / 360) * 90,
  },
  {
    what: 'oval cone 210 × 170 to 140 × 113.3, 100 high',
    source: 'triangulation of the pattern drafting handbooks',
    chart: loft(360, { high: 0, long: 210, wide: 170 }, { high: 100, long: 140, wide: (170 * 140) / 210 }),
    area: ovalConeDevelopment({
      bottom: { long: 210, wide: 170 },
      top: { long: 140, wide: (170 * 140) / 210 },
      high: 100,
    }).area.value,
  },
];

holdsAgainst(
  'Areas of surfaces, to the digits that are shown',
  forms.map(
    ({ what, source, chart, area, within = 2e-5 }): Row => ({
      what,
      source,
      status: 'worked',
      ours: formArea(chart).area,
      theirs: area,
      within: area * within,
    }),
  ),
  'other method',
);

const edge = (chart: Chart, name: string) => {
  const track = chart.edges.get(name) ?? chart.lines.get(name)!;
  return track.slice(1).reduce((sum, to, i) => sum + wayLength(chart, wayOf(chart, [track[i]!, to])), 0);
};
const [whole, half, sixth] = [
  domeChart({ long: 235, wide: 195, deep: 70 }),
  domeChart({ long: 240, wide: 180, deep: 150 }, 'half'),
  domeChart({ long: 210, wide: 210, deep: 105 }, { gores: 6 }),
];
const deepBreast = loft(360, { high: 0, round: 1123, long: 390, deep: 160 }, { high: 100, round: 900, long: 330 });

const lengths: readonly (readonly [string, number, number])[] = [
  ['rim of an oval dome 235 × 195', edge(whole, 'rim'), ellipsePerimeter(235, 195).value],
  ['rim of half a dome 240 × 180', edge(half, 'rim'), ellipsePerimeter(240, 180).value / 2],
  ['seam of half a dome 240 long, 150 deep', edge(half, 'middle'), ellipsePerimeter(240, 300).value / 2],
  ['rim of a gore', edge(sixth, 'rim'), gore(210, 105, 6).wide.value],
  ['side of a gore', edge(sixth, 'left'), gore(210, 105, 6).long.value],
  ['bottom of a form, in two half ovals', edge(deepBreast, 'bottom'), 1123],
  ['its top', edge(deepBreast, 'top'), 900],
];
holdsAgainst(
  'Edges of surfaces',
  lengths.map(
    ([what, ours, theirs]): Row => ({
      what,
      source: 'way round the ellipse, or the girth that was asked for',
      status: 'worked',
      ours,
      theirs,
      within: theirs * 1e-7,
    }),
  ),
  'other method',
);

describe('Meshes of surfaces', () => {
  it('come to the true area with the square of the step at least, and within a thousandth at 900 vertices', () => {
    const rows = forms.map(({ what, chart, area }) => {
      const at = (of: (mesh: ReturnType<typeof meshOf>) => number, refine: number) =>
        of(meshOf(chart, { vertices: 60, refine })) / area - 1;
      const chords = [1, 2, 4].map((refine) => at(chordArea, refine));
      const arcs = [1, 2, 4].map((refine) => at(surfaceArea, refine));
      const order = (errors: readonly number[]) => Math.log2(Math.abs(errors[1]! / errors[2]!));
      const full = surfaceArea(meshOf(chart)) / area - 1;
      return { what, chords: chords[2]!, order: order(chords), arcs: arcs[2]!, arcOrder: order(arcs), full };
    });
    console.log('      form, error of flat triangles and its order, of triangles with arcs and its order');
    for (const { what, chords, order, arcs, arcOrder } of rows)
      console.log(
        `      ${what.padEnd(62)} ${chords.toExponential(1).padStart(8)} ${order.toFixed(1)}  ${arcs.toExponential(1).padStart(8)} ${arcOrder.toFixed(1)}`,
      );
    for (const { what, order, arcs, full } of rows) {
      assert.ok(order > 1.8, `${what}: ${order}`);
      assert.ok(Math.abs(arcs) < 1e-3 && Math.abs(full) < 1e-3, `${what}: ${arcs}, ${full}`);
    }
  });

  it('of a dome agree with the formula of its figure at every depth', () => {
    for (const deep of [1, 20, 80, 105, 106, 160, 260]) {
      const error = formArea(domeChart({ long: 210, wide: 210, deep })).area / domeArea(210, deep).value - 1;
      assert.ok(Math.abs(error) < 5e-5, `${deep} mm deep: ${error}`);
    }
  });
});
