import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { measured, straight, wayOf } from '../../../server/geometry/surface/along.ts';
import type { Spot } from '../../../server/geometry/surface/chart.ts';
import { type Bay, cutForm, wayLength } from '../../../server/geometry/surface/cut.ts';
import { domeChart } from '../../../server/geometry/surface/dome.ts';
import { loftChart } from '../../../server/geometry/surface/loft.ts';
import { positionOf } from '../../../server/geometry/surface/measure.ts';
import { alongEdge, distancesFrom, type FormPlace, pointOf, spotOf } from '../../../server/geometry/surface/place.ts';
import { plateChart } from '../../../server/geometry/surface/plate.ts';
import type { Surface, SurfacePoint } from '../../../server/geometry/surface/surface.ts';
import { apart, dot, minus, size, type Vector } from '../../../server/geometry/surface/vector.ts';
import { straightOn } from '../../../server/geometry/surface/walk.ts';
import { near } from '../../trade/numbers.ts';
import { cutMesh, formArea, lineAlong, meshOf, raised } from '../at-once.ts';
import { soundSurface } from './sound.ts';

const breast = loftChart({
  wrap: 190,
  levels: [
    { high: 0, round: 973, long: 340 },
    { high: 260, round: 1123, long: 390, deep: 160 },
    { high: 360, round: 900, long: 330 },
  ],
})!;
const half = domeChart({ long: 240, wide: 180, deep: 150 }, 'half');
const ball = domeChart({ long: 200, wide: 200, deep: 100 });

const from = (distance: number, line: string) => ({ distance, line, way: 'from' as const });
const isSpot = (found: Spot | string): found is Spot => typeof found === 'object';

describe('Places on a form', () => {
  it('measured back along the form’s own lines are where they were said to be', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 300, noNaN: true }),
        fc.double({ min: 1, max: 150, noNaN: true }),
        fc.constantFrom('left' as const, 'right' as const),
        (up, across, way) => {
          const spot = spotOf(breast, from(up, 'bottom'), { distance: across, line: 'middle', way });
          assert.ok(isSpot(spot), String(spot));
          const [u, v] = spot;
          near(wayLength(breast, straight([u, 0], [u, v])), up, 1e-3);
          near(wayLength(breast, straight([0.5, v], [u, v])), across, 1e-3);
          assert.equal(u > 0.5, way === 'right');
        },
      ),
      { numRuns: 20 },
    );
  });

  it('from the seam of a half dome lie by the front, where the seam begins', () => {
    const spot = spotOf(half, from(62, 'rim'), from(38, 'middle'));
    assert.ok(isSpot(spot));
    assert.ok(spot[0] > 0 && spot[0] < 0.5);
    near(wayLength(half, straight([spot[0], 0], spot)), 62, 1e-3);
    near(wayLength(half, straight([0, spot[1]], spot)), 38, 1e-3);
  });

  it('with one measure lie on the middle', () => {
    assert.equal((spotOf(breast, from(60, 'top')) as Spot)[0], 0.5);
    assert.equal((spotOf(ball, from(60, 'rim')) as Spot)[0], 0);
  });

  it('to the front and the back of a dome’s side lie there', () => {
    const at = (way: 'front' | 'back') =>
      ball.point(...(spotOf(ball, from(30, 'rim'), { distance: 8, line: 'side', way }) as Spot));
    assert.ok(at('front')[1] > 0 && at('back')[1] < 0);
    assert.ok(at('front')[0] < 0, 'the side is the wearer’s left');
  });

  it('off the plate, or from a line that it has not, say so', () => {
    assert.equal(spotOf(breast, from(600, 'bottom')), 'it lies off the plate: from “bottom” there are only 360.4 mm');
    assert.equal(spotOf(breast, from(60, 'rim')), 'the form has no edge or line “rim”');
    assert.equal(spotOf(breast, from(60, 'bottom'), from(20, 'top')), 'its two distances run the same way');
    assert.equal(alongEdge(half, 'rim')!(400, 0), '“rim” is only 331.6 mm long');
    assert.equal(alongEdge(half, 'brim'), undefined);
  });

  it('along an edge and in from it lie inward of it, by as much, at both edges of every form', () => {
    for (const [chart, edge] of [
      [breast, 'bottom'],
      [breast, 'top'],
      [breast, 'left'],
      [breast, 'right'],
      [half, 'rim'],
      [ball, 'rim'],
      [plateChart(200, 100), 'top'],
    ] as const) {
      const at = alongEdge(chart, edge)!;
      const [{ spot: on }, { spot: inward }] = [at(60, 0) as FormPlace, at(60, 20) as FormPlace];
      const way = apart(chart.point(...on), chart.point(...inward));
      assert.ok(way > 19.2 && way < 20.001, `${edge}: ${way}`);
      assert.ok(inward[0] > 0 && inward[0] < 1 && inward[1] > 0 && inward[1] < 1, `${edge}: ${inward}`);
    }
  });

  it('lie as far from each edge as the straight way there, over the surface', () => {
    const plate = plateChart(200, 100);
    const spot = spotOf(plate, from(30, 'left'), from(20, 'bottom')) as Spot;
    // To the right as one sees it from outside is to the wearer's left.
    const found = Object.fromEntries(
      distancesFrom(plate, { spot, across: [-1, 0, 0] }).map(({ edge, distance, turn }) => [
        edge,
        [Math.round(distance * 1e3) / 1e3, Math.round(turn)],
      ]),
    );
    assert.deepEqual(found['bottom'], [20, -90]);
    assert.deepEqual(found['top'], [80, 90]);
    assert.deepEqual([found['left']![0], found['right']![0]], [30, 170]);
    // Up a meridian of the ball its rim is as near as was said.
    const up = spotOf(ball, from(62, 'rim')) as Spot;
    const [rim] = distancesFrom(ball, { spot: up, across: [1, 0, 0] });
    assert.ok(Math.abs(rim!.distance - 62) < 0.2, `${rim!.distance}`);
    // A bay comes nearer than the edge that it is cut from.
    const cut = cutForm(breast, [
      { name: 'neck', from: { edge: 'top', at: 90 }, to: { edge: 'top', at: 90 }, deep: 40 },
    ]);
    const below = spotOf(breast, from(60, 'top')) as Spot;
    const bay = distancesFrom(breast, { spot: below, across: [1, 0, 0] }, cut.stretches).find(
      ({ edge }) => edge === 'neck',
    )!;
    assert.ok(bay.distance > 10 && bay.distance < 30, `${bay.distance}`);
  });

  it('on a mesh are three weights of one triangle, close to the true surface', () => {
    const surface = meshOf(breast);
    for (const spot of [
      [0.31, 0.62],
      [0.5, 0.5],
      [0.02, 0.97],
    ] as const) {
      const point = pointOf(surface, breast, spot)!;
      near(point.weights[0] + point.weights[1] + point.weights[2], 1, 1e-12);
      assert.ok(apart(pointIn(surface, point), breast.point(spot[0], spot[1])) < 1, `${spot}`);
    }
  });
});

function pointIn(surface: Surface, { triangle, weights }: SurfacePoint): Vector {
  const corners = [0, 1, 2].map((k) => positionOf(surface, surface.triangles[3 * triangle + k]!));
  const sum = (axis: 0 | 1 | 2) => corners.reduce((total, corner, k) => total + weights[k]! * corner[axis], 0);
  return [sum(0), sum(1), sum(2)];
}

describe('Straight ways on a surface', () => {
  it('on a ball are great circles', () => {
    const start: Spot = [0.1, 0.2];
    const [p, n] = [ball.point(...start), ball.normal(...start)];
    const ahead: Vector = [n[1], -n[0], 0];

    const end = ball.point(...straightOn(ball, start, ahead, 40));
    // The chord of 40 mm of arc on a ball of 100 mm, in the plane that holds its middle.
    near(apart(p, end), 200 * Math.sin(0.2), 1e-4);
    const out = minus(end, p);
    const side: Vector = [
      n[1] * ahead[2] - n[2] * ahead[1],
      n[2] * ahead[0] - n[0] * ahead[2],
      n[0] * ahead[1] - n[1] * ahead[0],
    ];
    assert.ok(Math.abs(dot(out, side)) / size(side) < 0.02);
  });

  it('run along an edge at their inset: a trim inside the rim of a half ball is a smaller circle', () => {
    const line = lineAlong(ball, wayOf(ball, ball.edges.get('rim')!), { inset: 10, out: 2, count: 200 });
    assert.ok(line.closed);
    near(line.length, 2 * Math.PI * 102 * Math.cos(0.1), 1e-4);
    for (const point of line.points) near(size(point), 102, 1e-4);
  });
});

const NECK: Bay = { name: 'neck', from: { edge: 'top', at: 95 }, to: { edge: 'top', at: 95 }, deep: 40 };
const ARMHOLE: Bay = {
  name: 'armhole',
  from: { edge: 'top', at: 60 },
  to: { edge: 'left', at: 210 },
  deep: 55,
  mirrored: true,
};

describe('Bays', () => {
  it('of a breastplate are edges of a mesh that is whole, with what they leave of the others', () => {
    const cut = cutForm(breast, [NECK, ARMHOLE]);
    assert.deepEqual(cut.refused, []);
    const surface = raised(breast, cutMesh(breast, cut));
    soundSurface(surface);
    assert.deepEqual([...surface.edges.keys()].sort(), [
      'armhole',
      'armhole mirrored',
      'bottom',
      'left',
      'neck',
      'right',
      'top',
      'top 2',
    ]);
    assert.ok(surface.lines.has('middle'));
    const length = (name: string) => wayLength(breast, cut.stretches.find((each) => each.name === name)!.at);
    near(length('top'), 35, 1e-4);
    near(length('left'), measured(breast, straight([0, 0], [0, 1])).length - 210, 1e-4);
    near(length('armhole'), length('armhole mirrored'), 1e-9);
  });

  it('on every kind of form leave a whole mesh', () => {
    const bays: [Parameters<typeof cutForm>[0], Bay][] = [
      [half, { name: 'face', from: { edge: 'rim', at: 70 }, to: { edge: 'middle', at: 90 }, deep: 10 }],
      [ball, { name: 'face', from: { edge: 'rim', at: 560 }, to: { edge: 'rim', at: 560 }, deep: 90 }],
      [ball, { name: 'nape', from: { edge: 'rim', at: 250 }, to: { edge: 'rim', at: 250 }, deep: 30 }],
      [plateChart(200, 100), { name: 'notch', from: { edge: 'left', at: 20 }, to: { edge: 'left', at: 30 }, deep: 80 }],
    ];
    for (const [chart, bay] of bays)
      for (const fineness of [{ vertices: 100 }, { vertices: 100, refine: 2 }, {}]) {
        const cut = cutForm(chart, [bay]);
        assert.deepEqual(cut.refused, []);
        const surface = raised(chart, cutMesh(chart, cut, fineness));
        soundSurface(surface);
        assert.ok(surface.edges.has(bay.name));
      }
  });

  it('in a plate take out exactly a part of a circle, or half an oval', () => {
    const plate = plateChart(200, 100);
    const bay = (deep: number): Bay => ({
      name: 'bay',
      from: { edge: 'top', at: 50 },
      to: { edge: 'top', at: 50 },
      deep,
    });
    const taken = (deep: number) => 20_000 - formArea(plate, cutForm(plate, [bay(deep)])).area;
    near(taken(80), (Math.PI * 50 * 80) / 2, 1e-3);
    // Segment of a circle of 100 mm across, 20 mm high: r = 72.5, half angle arcsin(50/72.5).
    const angle = Math.asin(50 / 72.5);
    near(taken(20), 72.5 ** 2 * (angle - Math.sin(2 * angle) / 2), 1e-3);
    const arc = cutForm(plate, [bay(20)]).stretches.find(({ name }) => name === 'bay')!;
    near(wayLength(plate, arc.at), 2 * 72.5 * angle, 1e-9);
  });

  it('that cannot be cut say why, and the others stand', () => {
    const of = (...bays: Bay[]) => cutForm(breast, bays).refused;
    assert.deepEqual(of({ ...NECK, deep: 600 }), [
      { name: 'neck', why: 'it goes right through the plate, or out of its side' },
    ]);
    const deep = { ...ARMHOLE, from: { edge: 'left', at: 60 }, to: { edge: 'left', at: 60 }, deep: 300 };
    assert.deepEqual(of(deep), [{ name: 'armhole mirrored', why: 'it runs into another one' }]);
    assert.deepEqual(of(NECK, { ...NECK, name: 'second' }), [{ name: 'second', why: 'it runs into another one' }]);
    assert.deepEqual(of({ ...NECK, to: { edge: 'rim', at: 4 } }), [
      { name: 'neck', why: 'the form has no edge “rim”' },
    ]);
    assert.deepEqual(of({ ...NECK, from: { edge: 'top', at: 700 } }), [
      { name: 'neck', why: '“top” is only 475 mm long' },
    ]);
  });

  it('anywhere on a breastplate are cut, or refused: nothing throws, and the mesh is whole', () => {
    const end = fc.record({
      edge: fc.constantFrom('top', 'bottom', 'left', 'right'),
      at: fc.double({ min: 0, max: 300, noNaN: true }),
    });
    fc.assert(
      fc.property(
        end,
        end,
        fc.double({ min: 1, max: 200, noNaN: true }),
        fc.boolean(),
        (one, other, deep, mirrored) => {
          const cut = cutForm(breast, [{ name: 'bay', from: one, to: other, deep, mirrored }]);
          soundSurface(raised(breast, cutMesh(breast, cut, { vertices: 80 })));
        },
      ),
      { numRuns: 25 },
    );
  });
});
