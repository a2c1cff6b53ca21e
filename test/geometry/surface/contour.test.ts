import { strict as assert } from 'node:assert';
import type { Chart } from '../../../server/geometry/surface/chart.ts';
import { type Contour, contourLength, profileAlong, reachOf } from '../../../server/geometry/surface/contour.ts';
import { coverChart } from '../../../server/geometry/surface/cover.ts';
import { cutForm } from '../../../server/geometry/surface/cut.ts';
import { domeChart } from '../../../server/geometry/surface/dome.ts';
import { flaredChart } from '../../../server/geometry/surface/flare.ts';
import { type LoftShape, loftChart } from '../../../server/geometry/surface/loft.ts';
import { fluteRelief, relievedChart } from '../../../server/geometry/surface/relief.ts';
import { near } from '../../trade/numbers.ts';
import { contourAt } from '../at-once.ts';

const BREAST: LoftShape = {
  wrap: 190,
  levels: [
    { high: 0, round: 973, long: 340 },
    { high: 260, round: 1123, long: 390, deep: 160 },
    { high: 360, round: 900, long: 330 },
  ],
};
const breast = loftChart(BREAST)!;
const ball = domeChart({ long: 200, wide: 200, deep: 100 });
const cone = loftChart({
  levels: [
    { high: 0, round: 600 },
    { high: 200, round: 400 },
  ],
  wrap: 180,
})!;

const profile = (chart: Chart, line: string, options?: Parameters<typeof profileAlong>[2]): Contour => {
  const found = profileAlong(chart, line, options);
  assert.ok(typeof found !== 'string', String(found));
  return found;
};
const radii = ({ points }: Contour) => points.map(({ x, y }) => Math.hypot(x, y));
/** Nought where the outside lies to the right all the way of a section about the axis. */
const leftward = ({ points }: Contour) =>
  points.slice(1).filter((to, i) => points[i]!.x * to.y - points[i]!.y * to.x < -1e-9).length;

describe('Sections at a height', () => {
  it('of a ball are circles, and those of the ball moved out or in are its sections, not moved circles', () => {
    for (const out of [0, 1, -1])
      for (const high of [0, 50, 90]) {
        const found = contourAt(ball, high, { out })!;
        assert.ok(found.closed);
        assert.deepEqual(found.metal, [[0, found.points.length - 1]]);
        const radius = Math.sqrt((100 + out) ** 2 - high ** 2);
        for (const each of radii(found)) near(each, radius, 1e-8);
        near(contourLength(found), 2 * Math.PI * radius, 1e-9);
        assert.equal(leftward(found), 0);
      }
    // At the crown itself there is a section of the outside alone.
    near(radii(contourAt(ball, 100, { out: 1 })!)[0]!, Math.sqrt(101 ** 2 - 100 ** 2), 1e-6);
    assert.equal(contourAt(ball, 100, { out: -1 }), undefined);
    assert.equal(contourAt(ball, 120), undefined);
  });

  it('of a wall that leans go further out than half the thickness', () => {
    const lean = 100 / Math.PI / 200;
    for (const high of [0, 100, 200]) {
      const found = contourAt(cone, high, { out: 1 })!;
      const radius = (600 - high) / (2 * Math.PI) + Math.hypot(1, lean);
      for (const each of radii(found)) near(each, radius, 1e-9);
      near(contourLength(found), Math.PI * radius, 1e-9);
    }
  });

  it('at an edge are there whichever way the wall leans', () => {
    for (const [low, high] of [
      [400, 600],
      [600, 400],
    ] as const) {
      const chart = loftChart({
        levels: [
          { high: 0, round: low },
          { high: 200, round: high },
        ],
        wrap: 180,
      })!;
      for (const [at, round] of [
        [0, low],
        [200, high],
      ] as const)
        for (const out of [1, -1]) {
          const found = contourAt(chart, at, { out })!;
          near(radii(found)[0]!, round / (2 * Math.PI) + out * Math.hypot(1, 100 / Math.PI / 200), 1e-9);
        }
    }
  });

  it('count in the heights of the levels, not from the foot of one column', () => {
    const shifted = loftChart({
      wrap: 180,
      levels: BREAST.levels.map((level) => ({ ...level, high: level.high + 40 })),
    })!;
    const [one, other] = [contourAt(loftChart({ ...BREAST, wrap: 180 })!, 100)!, contourAt(shifted, 140)!];
    for (const [i, { x, y }] of one.points.entries()) {
      near(other.points[i]!.x, x, 1e-6);
      near(other.points[i]!.y, y, 1e-6);
    }
    // A patch on a ball: its middle begins higher than its corners, which great circles take down.
    const patch = coverChart(ball, 0, { long: 60, wide: 100 })!;
    assert.ok(patch.point(0.5, 0)[2] > reachOf(patch).low + 5);
  });

  it('run in parts where the form does not reach, and are not joined as if it did', () => {
    const patch = coverChart(ball, 0, { long: 60, wide: 100 })!;
    // Just above the lowest place only the two corners are there; just below the highest only the middle.
    const { low, high } = reachOf(patch);
    const corners = contourAt(patch, low + 2)!;
    assert.equal(corners.metal.length, 2);
    const [one, other] = corners.metal as [readonly [number, number], readonly [number, number]];
    assert.ok(one[1] < other[0]);
    // The metal alone counts: two short arcs, not the chord between them.
    const chord = Math.hypot(
      corners.points[one[1]]!.x - corners.points[other[0]]!.x,
      corners.points[one[1]]!.y - corners.points[other[0]]!.y,
    );
    assert.ok(contourLength(corners) < 0.8 * chord, `${contourLength(corners)} of ${chord}`);
    assert.equal(contourAt(patch, high - 2)!.metal.length, 1);
    for (const each of [corners, contourAt(patch, high - 2)!])
      for (const [first, last] of each.metal)
        for (const { x, y } of each.points.slice(first, last + 1)) {
          const z = each === corners ? low + 2 : high - 2;
          near(Math.hypot(x, y, z), 100, 1e-6);
        }
  });

  it('leave out a bay and run on over it', () => {
    const cut = cutForm(breast, [
      { name: 'neck', from: { edge: 'top', at: 120 }, to: { edge: 'top', at: 120 }, deep: 60 },
    ]);
    const whole = contourAt(breast, 340)!;
    const open = contourAt(breast, 340, { cut })!;
    assert.equal(open.metal.length, 2);
    // The line is the same one; the metal on it is less.
    near(contourLength({ ...open, metal: [[0, open.points.length - 1]] }), contourLength(whole), 1e-6);
    assert.ok(contourLength(open) < contourLength(whole) - 50);
    // As far from the middle on both sides, since the bay is.
    const [right, left] = [open.points[open.metal[0]![1]]!, open.points[open.metal[1]![0]]!];
    near(right.x, -left.x, 1e-3);
    near(right.y, left.y, 1e-3);
    // Below the bay nothing is left out.
    assert.equal(contourAt(breast, 200, { cut })!.metal.length, 1);
  });

  it('keep the corner of a ridge', () => {
    const ridged = loftChart({
      wrap: 180,
      levels: [
        { high: 0, round: 400, long: 130, ridge: true },
        { high: 200, round: 400, long: 130, ridge: true },
      ],
    })!;
    const found = contourAt(ridged, 80)!;
    assert.equal(found.corners.size, 1);
    near(found.points[[...found.corners][0]!]!.x, 0, 1e-9);
    assert.equal(contourAt(breast, 200)!.corners.size, 0);
  });

  it('go round flutes and keep the corners at their feet', () => {
    const tube = loftChart({
      wrap: 180,
      levels: [
        { high: 0, round: 200 * Math.PI },
        { high: 100, round: 200 * Math.PI },
      ],
    })!;
    const flutes = fluteRelief(tube, { count: 3, deep: 4, wide: 20 })!;
    const fluted = relievedChart(tube, [flutes]);
    const found = contourAt(fluted, 50)!;
    // Two feet each, and nothing else that turns sharply.
    assert.equal(found.corners.size, 6);
    for (const corner of found.corners) near(radii(found)[corner]!, 100, 1e-6);
    near(Math.max(...radii(found)), 104, 1e-6);
    // The way over an arc of 14.5 mm that stands on the wall in place of the wall under it.
    let over = 0;
    for (let i = 0; i < 2000; i++) {
      const s = -10 + (i + 0.5) / 100;
      const up = Math.sqrt(14.5 ** 2 - s * s);
      over += Math.hypot(1 + (up - 10.5) / 100, s / up) / 100;
    }
    near(contourLength(found), 100 * Math.PI + 3 * (over - 20), 2e-4);
  });

  it('are found where columns fall as well as rise', () => {
    // A dish with its middle pressed in: every column rises to 40 mm and falls again to 20 mm.
    const dent: Chart = {
      ...cone,
      point: (u, v) => [
        100 * (1 - v) * Math.cos(Math.PI * u),
        100 * (1 - v) * Math.sin(Math.PI * u),
        40 - 80 * (v - 0.6) ** 2,
      ],
      normal: (u, v) => {
        const slope = -160 * (v - 0.6);
        const long = Math.hypot(100, slope);
        return [(slope / long) * Math.cos(Math.PI * u), (slope / long) * Math.sin(Math.PI * u), 100 / long];
      },
      columns: [0, 0.5, 1],
    };
    const found = contourAt(dent, 30)!;
    assert.equal(found.metal.length, 2);
    const wanted = [0.6 - Math.sqrt(1 / 8), 0.6 + Math.sqrt(1 / 8)].map((v) => 100 * (1 - v));
    for (const [first, last] of found.metal) {
      const radius = radii(found)[(first + last) >> 1]!;
      assert.ok(
        wanted.some((each) => Math.abs(each - radius) < 1e-6),
        String(radius),
      );
    }
  });
});

describe('Profiles', () => {
  it('of a breastplate up its front pass through its levels, the outside to the right', () => {
    const { points, right } = profile(breast, 'middle');
    near(points[0]!.x, 170, 1e-9);
    assert.equal(points[0]!.y, 0);
    near(points.at(-1)!.x, 165, 1e-9);
    near(points.at(-1)!.y, 360, 1e-12);
    assert.deepEqual(right.map(Math.round), [0, 1, 0]);
    const outside = profile(breast, 'middle', { out: 2 });
    assert.ok(outside.points[60]!.x > points[60]!.x + 1.5);
  });

  it('of a ball over its crown are half circles, from the front to the back', () => {
    const found = profile(ball, 'middle', { out: 1 });
    for (const { x, y } of found.points) near(Math.hypot(x, y), 101, 1e-9);
    near(contourLength(found), 101 * Math.PI, 1e-9);
    assert.ok(found.points[0]!.x > 100 && found.points.at(-1)!.x < -100);
    // Its front alone is half of that.
    near(contourLength(profile(ball, 'front', { out: 1 })), (101 * Math.PI) / 2, 1e-9);
  });

  it('turn where a flare does', () => {
    const tube = loftChart({
      wrap: 180,
      levels: [
        { high: 0, round: 400 },
        { high: 120, round: 400 },
      ],
    })!;
    const flared = flaredChart(tube, { edge: 'bottom', angle: 30, wide: 20 })!;
    const found = profile(flared, 'middle');
    assert.equal(found.corners.size, 1);
    near(found.points[[...found.corners][0]!]!.y, 20, 1e-6);
    near(contourLength(found), 120, 1e-6);
  });

  it('end where a bay does', () => {
    const cut = cutForm(breast, [
      { name: 'neck', from: { edge: 'top', at: 120 }, to: { edge: 'top', at: 120 }, deep: 60 },
    ]);
    const [whole, open] = [profile(breast, 'middle'), profile(breast, 'middle', { cut })];
    assert.equal(open.metal.length, 1);
    // The bay goes 60 mm in along the middle.
    near(contourLength(whole) - contourLength(open), 60, 2e-3);
  });

  it('are refused along a line that no flat board can follow, or that is not there', () => {
    assert.equal(profileAlong(breast, 'left'), 'not in one plane');
    assert.equal(profileAlong(breast, 'bottom'), 'not in one plane');
    assert.equal(profileAlong(breast, 'crest'), 'no such line');
    assert.equal(profileAlong(ball, 'crown'), 'no such line');
    assert.equal(typeof profileAlong(cone, 'left'), 'object');
  });
});
