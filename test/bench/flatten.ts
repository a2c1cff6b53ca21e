/*
 * How long it takes to lay a formed plate flat, and how near the outline is to that of a far finer mesh. Warm, one core:
 * npm run bench -- flatten [--json]
 */
import { type Flat, isFlat, outlineOf } from '../../server/geometry/flatten/flatten.ts';
import type { Chart } from '../../server/geometry/surface/chart.ts';
import { domeChart } from '../../server/geometry/surface/dome.ts';
import { loftChart } from '../../server/geometry/surface/loft.ts';
import { WAYS } from '../../server/trade/dome/ways.ts';
import { flatten, meshOf } from '../geometry/at-once.ts';

const PIECES: { name: string; chart: Chart; seams: string[] }[] = [
  {
    name: 'half-dome helm 248 × 204 × 160',
    chart: domeChart({ long: 248, wide: 204, deep: 160 }, 'half'),
    seams: ['middle'],
  },
  {
    name: 'breastplate, 190°',
    chart: loftChart({
      wrap: 190,
      levels: [
        { high: 0, round: 973, long: 340 },
        { high: 260, round: 1123, long: 390, deep: 160 },
        { high: 360, round: 900, long: 330 },
      ],
    })!,
    seams: [],
  },
  { name: 'pauldron cop 150 × 125 × 62', chart: domeChart({ long: 150, wide: 125, deep: 62 }), seams: [] },
  {
    name: 'greave, 190°',
    chart: loftChart({
      wrap: 190,
      levels: [
        { high: 0, round: 250 },
        { high: 220, round: 390, long: 125 },
        { high: 320, round: 360 },
      ],
    })!,
    seams: [],
  },
];

function laid(chart: Chart, seams: string[], vertices: number): Flat {
  const flat = flatten({ surface: meshOf(chart, { vertices }), way: WAYS['dish then raise'], seams });
  if (!isFlat(flat)) throw new Error(flat.refused);
  return flat;
}

function medianOf(run: () => void, times = 40): { median: number; p95: number } {
  for (let i = 0; i < 15; i++) run();
  const took = Array.from({ length: times }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  }).sort((a, b) => a - b);
  return { median: took[times >> 1]!, p95: took[Math.floor(times * 0.95)]! };
}

/** Greatest difference of the border between two meshes, vertex by nearest stretch of the finer one, mm. */
function offBy(coarse: Flat, fine: Flat): number {
  const border = (flat: Flat) =>
    Array.from(flat.topology.loops[0]!, (v) => [flat.positions[2 * v]!, flat.positions[2 * v + 1]!] as const);
  const line = border(fine);
  return Math.max(
    ...border(coarse).map(([x, y]) =>
      Math.min(
        ...line.map(([ax, ay], i) => {
          const [bx, by] = line[(i + 1) % line.length]!;
          const square = (bx - ax) ** 2 + (by - ay) ** 2;
          const t = Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square));
          return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
        }),
      ),
    ),
  );
}

const json = process.argv.includes('--json');
const rows: object[] = [];
if (!json)
  console.log(
    '| piece | vertices | steps | mesh ms | flatten ms | p95 ms | outline ms | outline off by mm |\n|---|---|---|---|---|---|---|---|',
  );
for (const { name, chart, seams } of PIECES) {
  const fine = laid(chart, seams, 12_000);
  for (const vertices of [400, 900, 2000]) {
    const flat = laid(chart, seams, vertices);
    const surface = meshOf(chart, { vertices });
    const mesh = medianOf(() => meshOf(chart, { vertices }), 10);
    const solve = medianOf(() => flatten({ surface, way: WAYS['dish then raise'], seams }));
    const outline = medianOf(() => outlineOf(flat), 10);
    const off = offBy(flat, fine);
    rows.push(
      { server: 'planish', what: `flatten ${name}`, vertices: flat.topology.vertices, ...solve, unit: 'ms' },
      {
        server: 'planish',
        what: `outline of ${name} off by`,
        vertices: flat.topology.vertices,
        median: off,
        unit: 'mm',
      },
    );
    if (!json)
      console.log(
        `| ${name} | ${flat.topology.vertices} | ${flat.steps} | ${mesh.median.toFixed(1)} | ${solve.median.toFixed(1)} | ${solve.p95.toFixed(1)} | ${outline.median.toFixed(1)} | ${off.toFixed(3)} |`,
      );
  }
}
if (json) console.log(JSON.stringify(rows, null, 2));
