import { strict as assert } from 'node:assert';
import geodesic from 'geographiclib-geodesic';
import type { Chart, Spot } from '../../server/geometry/surface/chart.ts';
import { wayLength } from '../../server/geometry/surface/cut.ts';
import { domeChart } from '../../server/geometry/surface/dome.ts';
import { dot, minus, size, type Vector } from '../../server/geometry/surface/vector.ts';
import { straightOn, tangents } from '../../server/geometry/surface/walk.ts';
import { holdsAgainst, type Row } from './rows.ts';

/* Shortest lines on ellipsoids against the series of geodesy, and against Gauss’s theorems. */

const degrees = (radians: number) => (radians * 180) / Math.PI;
const radians = (deg: number) => (deg * Math.PI) / 180;

/** Half an ellipsoid of revolution 200 mm across. Deeper than half that, else it would be a part of a ball. */
const ACROSS = 200;
const ellipsoid = (deep: number): Chart => domeChart({ long: ACROSS, wide: ACROSS, deep });

/** Where a spot lies: its latitude as geodesy tells it, from the normal, and its longitude, degrees. */
function placeOf(chart: Chart, [u, v]: Spot): { lat: number; lon: number } {
  const n = chart.normal(u, v);
  return { lat: degrees(Math.asin(n[2])), lon: 360 * u };
}

/** The spot at a latitude and a longitude. */
function spotAt(deep: number, lat: number, lon: number): Spot {
  const reduced = Math.atan((deep / (ACROSS / 2)) * Math.tan(radians(lat)));
  return [lon / 360, (2 * reduced) / Math.PI];
}

/** The direction that leaves a spot at an azimuth, clockwise from the pole. */
function heading(chart: Chart, spot: Spot, azimuth: number): Vector {
  const [east, north] = tangents(chart, spot);
  const [e, n] = [Math.sin(radians(azimuth)) / size(east), Math.cos(radians(azimuth)) / size(north)];
  return [e * east[0] + n * north[0], e * east[1] + n * north[1], e * east[2] + n * north[2]];
}

const GEODESICS = [
  { deep: 101, lat: 20, azimuth: 60, length: 100 },
  { deep: 110, lat: 10, azimuth: 30, length: 120 },
  { deep: 120, lat: 35, azimuth: 80, length: 150 },
  { deep: 120, lat: 5, azimuth: 89, length: 60 },
] as const;

/** How far straightOn may end from the end of the shortest line, mm: (4/100)²/6 of 150 mm, for a step of 4 mm on a curve of 100 mm. */
const ASTRAY = 0.04;

holdsAgainst(
  'Shortest lines on ellipsoids by the series of geodesy',
  GEODESICS.flatMap(({ deep, lat, azimuth, length }): Row[] => {
    const chart = ellipsoid(deep);
    const start = spotAt(deep, lat, 40);
    const end = placeOf(chart, straightOn(chart, start, heading(chart, start, azimuth), length));
    const flattening = 1 - deep / (ACROSS / 2);
    const earth = new geodesic.Geodesic.Geodesic(ACROSS / 2, flattening);
    const theirs = earth.Direct(lat, 40, azimuth, length) as unknown as { lat2: number; lon2: number };
    const told = `100/${deep}, from ${lat}° at ${azimuth}° for ${length} mm`;
    const row = { work: 'karney', source: 'Direct', status: 'rule seen' } as const;
    return [
      { ...row, what: `${told}: latitude`, ours: end.lat, theirs: theirs.lat2, within: degrees(ASTRAY / 100) },
      {
        ...row,
        what: `${told}: longitude`,
        ours: end.lon,
        theirs: theirs.lon2,
        within: degrees(ASTRAY / (100 * Math.cos(radians(theirs.lat2)))),
      },
    ];
  }),
  'other method',
);

describe('Shortest lines on ellipsoids', () => {
  it('come nearer by the square of the step', () => {
    const astray = [1, 2, 4].map((times) => {
      const [half, deep, length] = [50 * times, 60 * times, 75 * times];
      const chart = domeChart({ long: 2 * half, wide: 2 * half, deep });
      const start: Spot = [0.1, (2 * Math.atan(1.2 * Math.tan(radians(35)))) / Math.PI];
      const end = placeOf(chart, straightOn(chart, start, heading(chart, start, 80), length));
      const earth = new geodesic.Geodesic.Geodesic(half, 1 - deep / half);
      const theirs = earth.Direct(35, 36, 80, length) as unknown as { lat2: number; lon2: number };
      return Math.hypot(end.lat - theirs.lat2, (end.lon - theirs.lon2) * Math.cos(radians(theirs.lat2)));
    });
    console.log(
      `      degrees astray, the form twice as large each time: ${astray.map((x) => x.toFixed(5)).join(', ')}`,
    );
    for (const [i, error] of astray.slice(1).entries())
      assert.ok(error < 0.3 * astray[i]!, `${error} after ${astray[i]}`);
  });
});

holdsAgainst(
  'Meridians of ellipsoids by the series of geodesy',
  [101, 110, 120].map((deep): Row => {
    const chart = ellipsoid(deep);
    const [from, to] = [spotAt(deep, 15, 0), spotAt(deep, 70, 0)];
    const earth = new geodesic.Geodesic.Geodesic(ACROSS / 2, 1 - deep / (ACROSS / 2));
    return {
      what: `100/${deep}, from 15° to 70°, mm`,
      work: 'karney',
      source: 'Inverse',
      status: 'rule seen',
      ours: wayLength(chart, (share) => [0, from[1] + share * (to[1] - from[1])]),
      theirs: (earth.Inverse(15, 0, 70, 0) as unknown as { s12: number }).s12,
      within: 1e-4,
    };
  }),
  'other method',
);

// ---- Gauss -------------------------------------------------------------------------------------------------------

const TURNED = 120;
const turned = ellipsoid(TURNED);

/** Ends of shortest lines of one length that leave a spot to both sides of an azimuth, and how they meet the middle one. */
function meetsSquarely(lat: number, azimuth: number, length: number): number {
  const start = spotAt(TURNED, lat, 40);
  const at = (angle: number, far = length): Vector =>
    turned.point(...straightOn(turned, start, heading(turned, start, angle), far));
  const [across, along] = [minus(at(azimuth + 1), at(azimuth - 1)), minus(at(azimuth), at(azimuth, length - 0.5))];
  return degrees(Math.acos(dot(across, along) / (size(across) * size(along))));
}

/**
 * A triangle of the crown, a spot and where a shortest line from there ends: how much its angles are above 180°, and the area of
 * the ball that its normals fill, both in radians.
 */
function triangle(lat: number, azimuth: number, length: number): { excess: number; image: number } {
  const start = spotAt(TURNED, lat, 40);
  const steps = 60;
  const places = Array.from({ length: steps + 1 }, (_, i) =>
    i === 0
      ? placeOf(turned, start)
      : placeOf(turned, straightOn(turned, start, heading(turned, start, azimuth), (length * i) / steps)),
  );
  const end = places.at(-1)!;
  // The azimuth at its end by Clairaut: the distance from the axis times the sine of the azimuth stays as it is.
  const out = (at: number) => {
    const [x, y] = turned.point(...spotAt(TURNED, at, 0));
    return Math.hypot(x, y);
  };
  const last = Math.PI - Math.asin((out(lat) * Math.sin(radians(azimuth))) / out(end.lat));
  const image = places.slice(1).reduce((sum, place, i) => {
    const [a, b] = [places[i]!, place];
    return sum + (1 - Math.sin(radians((a.lat + b.lat) / 2))) * radians(b.lon - a.lon);
  }, 0);
  return { excess: radians(end.lon - 40) + radians(azimuth) + (Math.PI - last) - Math.PI, image };
}

holdsAgainst(
  'Gauss’s theorems on an ellipsoid 100/120',
  [
    ...[
      [15, 40, 60],
      [35, 75, 90],
    ].map((entry): Row => {
      const [lat, azimuth, length] = entry as [number, number, number];
      return {
        what: `from ${lat}°, shortest lines of ${length} mm about ${azimuth}°: their ends lie square to them, degrees`,
        work: 'gauss',
        source: 'article 15',
        status: 'rule seen',
        ours: meetsSquarely(lat, azimuth, length),
        theirs: 90,
        within: 0.2,
      };
    }),
    ...[
      [30, 95, 60],
      [40, 100, 90],
    ].map((entry): Row => {
      const [lat, azimuth, length] = entry as [number, number, number];
      const { excess, image } = triangle(lat, azimuth, length);
      return {
        what: `triangle of the crown, ${lat}° and a line of ${length} mm at ${azimuth}°: what its angles are above 180°, radians`,
        work: 'gauss',
        source: 'article 20',
        status: 'rule seen',
        ours: excess,
        theirs: image,
        within: 1e-3,
      };
    }),
  ],
  'physical limit',
);
