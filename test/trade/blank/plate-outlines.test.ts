import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { roundEllipse } from '../../../server/geometry/ellipse.ts';
import type { Corner } from '../../../server/geometry/outline/corners.ts';
import { near } from '../numbers.ts';
import { outlined } from './outlined.ts';

const place = fc.double({ min: -200, max: 200, noNaN: true });
const angle = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true });

/** The outline turned and moved. */
const moved = (points: readonly Corner[], turn: number, dx: number, dy: number): Corner[] =>
  points.map(({ x, y, ...rest }) => ({
    x: x * Math.cos(turn) - y * Math.sin(turn) + dx,
    y: x * Math.sin(turn) + y * Math.cos(turn) + dy,
    ...rest,
  }));

/** A plate with a bulge, a bay, a quarter round and a half round, all different. */
const PLATE: readonly Corner[] = [
  { x: 0, y: 0 },
  { x: 120, y: 0, radius: -80 },
  { x: 150, y: 30, radius: -30 },
  { x: 150, y: 90, radius: 45 },
  { x: 60, y: 110 },
  { x: 20, y: 110, radius: -20 },
];

/** The same arc by another road: its middle found from the chord, and points at even angles round it. */
function sampled(points: readonly Corner[], count = 400): { x: number; y: number }[] {
  return points.flatMap((to, index) => {
    const from = points.at(index - 1)!;
    const radius = to.radius ?? 0;
    if (radius === 0) return [to];
    const [hx, hy] = [(to.x - from.x) / 2, (to.y - from.y) / 2];
    const half = Math.hypot(hx, hy);
    const off = Math.sqrt(Math.max(0, radius * radius - half * half)) / half;
    // A bulge to the left of the way has its middle to the right of it.
    const side = Math.sign(radius);
    const [cx, cy] = [from.x + hx + side * off * hy, from.y + hy - side * off * hx];
    const start = Math.atan2(from.y - cy, from.x - cx);
    const swept = -side * 2 * Math.asin(Math.min(1, half / Math.abs(radius)));
    return Array.from({ length: count + 1 }, (_, step) => ({
      x: cx + Math.abs(radius) * Math.cos(start + (swept * step) / count),
      y: cy + Math.abs(radius) * Math.sin(start + (swept * step) / count),
    }));
  });
}

/** Whether two stretches cross within both: solved for the shares along each, without signs of turns. */
function meet(a: Corner, b: Corner, c: Corner, d: Corner): boolean {
  const [rx, ry, sx, sy] = [b.x - a.x, b.y - a.y, d.x - c.x, d.y - c.y];
  const whole = rx * sy - ry * sx;
  if (Math.abs(whole) < 1e-12) return false;
  const t = ((c.x - a.x) * sy - (c.y - a.y) * sx) / whole;
  const u = ((c.x - a.x) * ry - (c.y - a.y) * rx) / whole;
  return t > 1e-9 && t < 1 - 1e-9 && u > 1e-9 && u < 1 - 1e-9;
}

describe('An outline of lines and arcs', () => {
  it('is as large, as far round and as sound wherever it lies and however it is turned', () => {
    const still = outlined(PLATE);
    assert.equal(still.crosses, false);
    fc.assert(
      fc.property(angle, place, place, (turn, dx, dy) => {
        const one = outlined(moved(PLATE, turn, dx, dy));
        // A half circle’s angle is known to half the digits only: its sine hardly changes there.
        near(one.area.value, still.area.value, 1e-7);
        near(one.perimeter.value, still.perimeter.value, 1e-7);
        assert.equal(one.crosses, false);
      }),
    );
  });

  it('has the area, the way round and the box of its points, taken close together', () => {
    fc.assert(
      fc.property(angle, place, place, (turn, dx, dy) => {
        const plate = moved(PLATE, turn, dx, dy);
        const { area, perimeter, box } = outlined(plate);
        const points = sampled(plate);
        const chords = outlined(points.filter(({ x, y }, i) => x !== points.at(i - 1)!.x || y !== points.at(i - 1)!.y));
        near(area.value, chords.area.value, 1e-5);
        near(perimeter.value, chords.perimeter.value, 1e-5);
        for (const [edge, reach] of [
          [box.left, Math.min(...points.map(({ x }) => x))],
          [box.right, Math.max(...points.map(({ x }) => x))],
          [box.bottom, Math.min(...points.map(({ y }) => y))],
          [box.top, Math.max(...points.map(({ y }) => y))],
        ] as const)
          assert.ok(Math.abs(edge - reach) < 1e-3, `${edge} is not ${reach}`);
      }),
      { numRuns: 40 },
    );
  });

  it('reaches to all four sides where half circles meet', () => {
    for (const turn of [0, 0.4, 1, 2, 3, -0.4, -1, -2, -3]) {
      for (const radius of [-50, 50]) {
        const disc = moved(
          [
            { x: -50, y: 0, radius },
            { x: 50, y: 0, radius },
          ],
          turn,
          7,
          3,
        );
        const { box } = outlined(disc);
        near(box.left, -43, 1e-7);
        near(box.right, 57, 1e-7);
        near(box.bottom, -47, 1e-7);
        near(box.top, 53, 1e-7);
      }
    }
  });

  it('does not mind a corner said twice, with or without an arc', () => {
    const twice = [PLATE[0]!, PLATE[0]!, ...PLATE.slice(1)];
    near(outlined(twice).area.value, outlined(PLATE).area.value);
    near(outlined(twice).perimeter.value, outlined(PLATE).perimeter.value);
    assert.equal(outlined(twice).crosses, false);
    const arc = [PLATE[0]!, { ...PLATE[0]!, radius: 40 }, ...PLATE.slice(1)];
    near(outlined(arc).area.value, outlined(PLATE).area.value);
    assert.equal(outlined(arc).crosses, false);
    assert.deepEqual(outlined(arc).box, outlined(PLATE).box);
  });

  it('lets a half circle pass that misses its chord by rounding, and no more', () => {
    const half = (radius: number) =>
      outlined([
        { x: 0, y: 0 },
        { x: 100, y: 0, radius },
        { x: 50, y: 80 },
      ]).perimeter.outside;
    assert.equal(half(-50 * (1 - 1e-10)), undefined);
    assert.match(half(-50 * (1 - 1e-8)) ?? '', /cannot reach/);
  });

  it('that cannot be has the box of its corners', () => {
    const { box } = outlined([
      { x: 0, y: 0 },
      { x: 100, y: 0, radius: -49 },
      { x: 50, y: 80 },
    ]);
    assert.deepEqual(box, { left: 0, right: 100, bottom: 0, top: 80 });
  });

  it('crosses itself where two of its stretches do, and nowhere else', () => {
    const corner = fc.record({ x: fc.integer({ min: 0, max: 40 }), y: fc.integer({ min: 0, max: 40 }) });
    fc.assert(
      fc.property(fc.array(corner, { minLength: 3, maxLength: 9 }), (points) => {
        const sides = points.map((to, index) => [points.at(index - 1)!, to] as const);
        const crossing = sides.some(([a, b], i) => sides.some(([c, d], j) => i < j && meet(a, b, c, d)));
        assert.equal(outlined(points).crosses, crossing);
      }),
      { numRuns: 400 },
    );
  });

  it('may touch itself without crossing', () => {
    // The notch’s point lies on the foot of the plate.
    const notched = outlined([
      { x: 0, y: 0 },
      { x: 100, y: 0 },
      { x: 100, y: 80 },
      { x: 50, y: 0 },
      { x: 0, y: 80 },
    ]);
    assert.equal(notched.crosses, false);
    near(notched.area.value, 4000);
  });

  it('with a corner that is no number is refused, and says so', () => {
    for (const spoilt of [
      { x: Number.NaN, y: 0 },
      { x: 0, y: Infinity },
      { x: 5, y: 5, radius: Number.NaN },
    ]) {
      const { area, crosses } = outlined([...PLATE, spoilt]);
      assert.match(area.outside ?? '', /not a number/);
      assert.equal(crosses, false);
    }
  });

  it('needs corners: one is none, and two need an arc between them', () => {
    assert.match(outlined([{ x: 1, y: 1 }]).area.outside ?? '', /needs corners/);
    const lens = [
      { x: 0, y: 0 },
      { x: 60, y: 0, radius: -50 },
    ];
    assert.equal(outlined(lens).area.outside, undefined);
    assert.equal(outlined([...lens.map(({ x, y }) => ({ x, y })), { x: 9, y: 30 }]).area.outside, undefined);
  });
});

describe('The way round an ellipse', () => {
  it('is a number for half axes that are', () => {
    assert.equal(roundEllipse(50, 0), 200);
    assert.equal(roundEllipse(0, 0), 0);
    for (const [one, other] of [
      [Number.NaN, 1],
      [1, Number.NaN],
      [-1, 1],
      [1, -1],
      [Infinity, 1],
      [1, Infinity],
    ] as const)
      assert.ok(Number.isNaN(roundEllipse(one, other)), `${one}, ${other}`);
  });
});
