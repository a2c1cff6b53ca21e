import type { Chart } from '../../server/geometry/surface/chart.ts';
import { domeChart } from '../../server/geometry/surface/dome.ts';
import { loftChart } from '../../server/geometry/surface/loft.ts';
import { formCentre } from '../geometry/at-once.ts';
import { holdsAgainst, type Row, type Status } from './rows.ts';

/* Centres of mass of thin shells, against the closed forms that books of mechanics and tables of geometry give. */

const loft = (wrap: number, high: number, bottom: number, top: number): Chart =>
  loftChart({
    wrap,
    levels: [
      { high: 0, round: bottom },
      { high, round: top },
    ],
  })!;

const MECHANICS = 'Engineering mechanics, table of centroids';
const ARCHIMEDES = 'Archimedes, On the Sphere and Cylinder';

const known: readonly (readonly [what: string, source: string, status: Status, Chart, axis: 1 | 2, theirs: number])[] =
  [
    [
      'half a sphere, 210 across: half its height',
      ARCHIMEDES,
      'from memory',
      domeChart({ long: 210, wide: 210, deep: 105 }),
      2,
      52.5,
    ],
    [
      'cap of a sphere, 210 across, 60 deep: half its height',
      ARCHIMEDES,
      'from memory',
      domeChart({ long: 210, wide: 210, deep: 60 }),
      2,
      30,
    ],
    [
      'frustum, 60 and 40 in radius, 90 high: h(R + 2r) ÷ 3(R + r)',
      MECHANICS,
      'from memory',
      loft(360, 90, 120 * Math.PI, 80 * Math.PI),
      2,
      42,
    ],
    [
      'half a tube, radius 100: 2r ÷ π before the axis',
      MECHANICS,
      'from memory',
      loft(180, 150, 200 * Math.PI, 200 * Math.PI),
      1,
      200 / Math.PI,
    ],
    [
      'tube of 120°, radius 100: r·sin α ÷ α, α = 60°',
      MECHANICS,
      'from memory',
      loft(120, 150, 200 * Math.PI, 200 * Math.PI),
      1,
      (100 * Math.sin(Math.PI / 3)) / (Math.PI / 3),
    ],
    [
      'half a tube, 150 high: half its height',
      MECHANICS,
      'from memory',
      loft(180, 150, 200 * Math.PI, 200 * Math.PI),
      2,
      75,
    ],
    [
      'half a frustum, 60 and 40 in radius: 4(R² + Rr + r²) ÷ 3π(R + r) before the axis',
      'its surface integral',
      'worked',
      loft(180, 90, 120 * Math.PI, 80 * Math.PI),
      1,
      (4 * (3600 + 2400 + 1600)) / (3 * Math.PI * 100),
    ],
  ];

holdsAgainst(
  'Centres of mass of shells',
  known.map(
    ([what, source, status, chart, axis, theirs]): Row => ({
      what,
      source,
      status,
      ours: formCentre(chart)[axis],
      theirs,
      within: 1e-3 * theirs,
    }),
  ),
  'other method',
);
