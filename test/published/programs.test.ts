import { Bezier } from 'bezier-js';
import { areaD, EndType, inflatePathsD, JoinType } from 'clipper2-ts';
import { geoArea, geoCircle, geoDistance } from 'd3-geo';
import { Matrix, SingularValueDecomposition } from 'ml-matrix';
import { bestMotion, leftBy, type Pair } from '../../server/geometry/motion/match.ts';
import { turnAbout } from '../../server/geometry/motion/motion.ts';
import { offset } from '../../server/geometry/outline/allowance.ts';
import { fittedCurve } from '../../server/geometry/outline/arcs.ts';
import { lengthOfPath, signedArea } from '../../server/geometry/outline/measure.ts';
import { type Point, pathOf, vertex } from '../../server/geometry/outline/span.ts';
import type { Spot } from '../../server/geometry/surface/chart.ts';
import { domeChart } from '../../server/geometry/surface/dome.ts';
import { cross, dot, type Vector } from '../../server/geometry/surface/vector.ts';
import { straightOn } from '../../server/geometry/surface/walk.ts';
import { formArea } from '../geometry/at-once.ts';
import { holdsAgainst, type Row } from './rows.ts';

/* Ways, areas and motions against programs of other people that reckon the same in another way. */

const radians = (deg: number) => (deg * Math.PI) / 180;

// ---- the ball ----------------------------------------------------------------------------------------------------

const ACROSS = 200;
const ball = domeChart({ long: ACROSS, wide: ACROSS, deep: ACROSS / 2 });
const cap = (rim: number) => {
  const [out, deep] = [Math.sin(radians(rim)), 1 - Math.cos(radians(rim))];
  return domeChart({ long: ACROSS * out, wide: ACROSS * out, deep: (ACROSS / 2) * deep });
};

holdsAgainst(
  'The ball by d3-geo',
  [
    ...[3, 6, 8].map((gores): Row => {
      const wide = 360 / gores;
      const edges = [
        [0, 0],
        [0, 90],
        [wide, 0],
        [0, 0],
      ];
      return {
        what: `one gore of ${gores} of half a ball, of its radius squared`,
        work: 'd3',
        source: 'geoArea of the spherical triangle',
        status: 'rule seen',
        ours: formArea(domeChart({ long: ACROSS, wide: ACROSS, deep: ACROSS / 2 }, { gores })).area / 100 ** 2,
        theirs: geoArea({ type: 'Polygon', coordinates: [edges] }),
        within: 2e-5,
      };
    }),
    ...[25, 60].map(
      (rim): Row => ({
        what: `cap with its rim ${rim}° from the crown, of its radius squared`,
        work: 'd3',
        source: 'geoArea of a circle of 0.5° steps',
        status: 'rule seen',
        ours: formArea(cap(rim)).area / 100 ** 2,
        theirs: geoArea(geoCircle().center([0, 90]).radius(rim).precision(0.5)()),
        within: 3e-4, // its circle is a polygon of great circles
      }),
    ),
    {
      what: 'straight on for 140 mm on a ball of 100 mm: the arc between both ends, mm',
      work: 'd3',
      source: 'geoDistance',
      status: 'rule seen',
      ours: 140,
      theirs: (() => {
        const start: Spot = [0.1, 0.15];
        const [from, end] = [start, straightOn(ball, start, [0.3, 0.2, 0.9], 140)].map(([u, v]): [number, number] => [
          360 * u,
          90 * v,
        ]) as [[number, number], [number, number]];
        return 100 * geoDistance(from, end);
      })(),
      within: 0.04,
    },
  ],
  'other method',
);

// ---- curves of drawings ------------------------------------------------------------------------------------------

const CURVES: readonly (readonly [string, readonly Point[]])[] = [
  [
    'a quarter of a round',
    [
      { x: 0, y: 0 },
      { x: 0, y: 55 },
      { x: 45, y: 100 },
      { x: 100, y: 100 },
    ],
  ],
  [
    'an s',
    [
      { x: 0, y: 0 },
      { x: 90, y: 10 },
      { x: -20, y: 70 },
      { x: 80, y: 90 },
    ],
  ],
  [
    'a loop',
    [
      { x: 0, y: 0 },
      { x: 160, y: 120 },
      { x: -60, y: 120 },
      { x: 100, y: 0 },
    ],
  ],
];

/** How far an arc may lie from its curve, mm. */
const NEAR = 0.001;

holdsAgainst(
  'Arcs in place of curves by bezier-js',
  CURVES.map(([what, points]): Row => {
    const curve = new Bezier(points.map(({ x, y }) => ({ x, y })));
    const spans = fittedCurve({ at: (t) => curve.get(t), heading: (t) => curve.derivative(t) }, NEAR);
    return {
      what: `${what}: its length, mm`,
      work: 'bezier',
      source: 'length(), by Legendre and Gauss',
      status: 'rule seen',
      ours: lengthOfPath(pathOf(spans, false)),
      theirs: curve.length(),
      within: 0.002,
    };
  }),
  'other method',
);

// ---- outlines ----------------------------------------------------------------------------------------------------

const outlineOf = (...corners: readonly (readonly [number, number])[]) => ({
  vertices: corners.map(([x, y]) => vertex({ x, y })),
  closed: true,
});
const ell = outlineOf([0, 0], [120, 0], [120, 40], [50, 40], [50, 100], [0, 100]);
const kite = outlineOf([0, 0], [80, -30], [140, 20], [70, 90]);

holdsAgainst(
  'Offsets by Clipper2',
  [
    ['an L', ell, 12],
    ['an L', ell, -9],
    ['a kite', kite, 15],
    ['a kite', kite, -10],
  ].map((entry): Row => {
    const [what, path, by] = entry as [string, typeof ell, number];
    const points = path.vertices.map(({ x, y }) => ({ x, y }));
    const theirs = inflatePathsD([points], by, JoinType.Round, EndType.Polygon, 3, 6, 0.001);
    return {
      what: `${what}, ${by} mm out, its area, mm²`,
      work: 'clipper',
      source: 'inflatePathsD, round corners',
      status: 'rule seen',
      ours: offset(path, by, 'round').reduce((sum, each) => sum + signedArea(each), 0),
      theirs: theirs.reduce((sum, each) => sum + areaD(each), 0),
      within: 0.1, // its corners are chords 0.001 mm within their arcs
    };
  }),
  'other method',
);

holdsAgainst(
  'Outlines in the manual of PostGIS',
  [
    {
      what: 'plot of land of four corners, ft²',
      work: 'postgis',
      source: 'ST_Area, first example',
      status: 'seen',
      ours: Math.abs(
        signedArea(outlineOf([743238, 2967416], [743238, 2967450], [743265, 2967450], [743265.625, 2967416])),
      ),
      theirs: 928.625,
      within: 1e-6,
    },
  ],
  'worked example',
);

// ---- motions -----------------------------------------------------------------------------------------------------

/** The best turn by singular values: UVᵀ of the sum of products, its mirror image excluded (W. Kabsch, 1976). */
function bySingularValues(pairs: readonly Pair[]): number {
  const weight = pairs.reduce((sum, each) => sum + each.weight, 0);
  const middle = (of: 'from' | 'to') =>
    [0, 1, 2].map((i) => pairs.reduce((sum, pair) => sum + pair.weight * pair[of][i]!, 0) / weight);
  const [from, to] = [middle('from'), middle('to')];
  const sums = Matrix.zeros(3, 3);
  let squares = 0;
  for (const pair of pairs) {
    const [a, b] = [pair.from.map((x, i) => x - from[i]!), pair.to.map((x, i) => x - to[i]!)];
    for (let i = 0; i < 3; i++)
      for (let j = 0; j < 3; j++) sums.set(i, j, sums.get(i, j) + pair.weight * a[i]! * b[j]!);
    squares += pair.weight * (a.reduce((sum, x) => sum + x * x, 0) + b.reduce((sum, x) => sum + x * x, 0));
  }
  const made = new SingularValueDecomposition(sums);
  const [p, q, r] = made.diagonal as [number, number, number];
  const mirrored = handed(made.leftSingularVectors) * handed(made.rightSingularVectors);
  return squares - 2 * (p + q + mirrored * r);
}

const handed = (m: Matrix): number => {
  const [a, b, c] = [0, 1, 2].map((i) => m.getRow(i) as unknown as Vector) as [Vector, Vector, Vector];
  return Math.sign(dot(a, cross(b, c)));
};

/** A row of five rivets and what they should meet: turned, moved and out by some tenths of a millimetre. */
const ROW: readonly Vector[] = [
  [0, 0, 0],
  [40, 5, 2],
  [80, 12, -3],
  [120, 8, 6],
  [160, -4, 11],
];
const rowTurned = (angle: number, away: number): Pair[] => {
  const turn = turnAbout([0.48, 0.6, 0.64], angle);
  return ROW.map((from, i) => ({
    from,
    to: turn.map(
      (row, k) => row[0] * from[0] + row[1] * from[1] + row[2] * from[2] + away * Math.sin(7 * i + 3 * k),
    ) as [number, number, number],
    weight: 1 + i / 4,
  }));
};

holdsAgainst(
  'Motions that bring two rows together, by singular values: what they leave, mm²',
  [
    [0.4, 0.3],
    [2.1, 0.8],
    [3.1, 2],
  ].map((entry): Row => {
    const [angle, away] = entry as [number, number];
    const places = rowTurned(angle, away);
    return {
      what: `turned by ${angle} rad, ${away} mm astray`,
      work: 'mlMatrix',
      source: 'SingularValueDecomposition; the turn after W. Kabsch (from memory), as ours is by Horn’s quaternion',
      status: 'rule seen',
      ours: leftBy(bestMotion({ places, directions: [] })!, { places, directions: [] }),
      theirs: bySingularValues(places),
      within: 1e-8,
    };
  }),
  'other method',
);
