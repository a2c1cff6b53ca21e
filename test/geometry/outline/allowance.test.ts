import assert from 'node:assert/strict';
import { areaD, EndType, inflatePathsD, JoinType, type PathD } from 'clipper2-ts';
import fc from 'fast-check';
import { type EdgeAllowance, type EdgedOutline, offset, widened } from '../../../server/geometry/outline/allowance.ts';
import { flattened } from '../../../server/geometry/outline/chords.ts';
import {
  boxOfPath,
  crossingOf,
  distanceTo,
  lengthOfPath,
  signedArea,
} from '../../../server/geometry/outline/measure.ts';
import type { Path } from '../../../server/geometry/outline/path.ts';
import { bayed, bent, circle, closed, outlines, rectangle, roundedOutlines, slot } from './shapes.ts';

const near = (value: number, wanted: number, within = 1e-6) =>
  assert.ok(Math.abs(value - wanted) <= within, `${value}, not ${wanted}`);
const total = (paths: readonly Path[]) => paths.reduce((sum, path) => sum + signedArea(path), 0);

/** The same offset by polygons of short chords: how far its area may be off goes with the way round. */
function byClipper(path: Path, by: number): number {
  const points: PathD = flattened(path, 0.005).map(({ x, y }) => ({ x, y }));
  const made = inflatePathsD([points], by, JoinType.Round, EndType.Polygon, 2, 6, 0.005);
  return made.reduce((sum, each) => sum + areaD(each), 0);
}

describe('offsets', () => {
  it('of a circle are circles about the same middle', () => {
    for (const by of [2.5, -4]) {
      const [made, ...none] = offset(circle(10), by);
      assert.deepEqual(none, []);
      assert.equal(made!.vertices.length, 2);
      near(lengthOfPath(made!), 2 * Math.PI * (10 + by), 1e-9);
    }
    assert.deepEqual(offset(circle(10), -10.5), []);
  });

  it('of a slot keep its half-round ends', () => {
    const [made] = offset(slot(110, 12), 1);
    assert.equal(made!.vertices.length, 4);
    near(signedArea(made!), 98 * 14 + Math.PI * 49);
    near(boxOfPath(made!).right, 111);
  });

  it('close a bay that is narrower than twice the offset, and leave what stays open of it', () => {
    // Round bay of radius 5: 4 mm from all round leave a half circle of 1 mm and the corners at its mouth.
    const open = offset(bayed(60, 30, 5), 4);
    assert.equal(open.length, 1);
    near(distanceTo(bayed(60, 30, 5), { x: 30, y: 29 }), 4);
    assert.ok(distanceTo(open[0]!, { x: 30, y: 29 }) < 1e-6);
    const shut = offset(bayed(60, 30, 5), 6);
    near(total(shut), byClipper(bayed(60, 30, 5), 6), 0.5);
    assert.ok(shut.every((path) => crossingOf(path) === undefined));
  });

  it('leave a hole where the mouth of a bay closes before its bottom does', () => {
    const keyhole = closed(
      { x: 0, y: 0 },
      { x: 100, y: 0 },
      { x: 100, y: 60 },
      { x: 52, y: 60 },
      { x: 52, y: 50, bulge: -4 },
      { x: 48, y: 50 },
      { x: 48, y: 60 },
      { x: 0, y: 60 },
    );
    const made = offset(keyhole, 3);
    assert.deepEqual(
      made.map((path) => Math.sign(signedArea(path))),
      [1, -1],
    );
    near(total(made), byClipper(keyhole, 3), 1);
  });

  it('keep an outline with a hollow corner that is straight but for a hair', () => {
    for (const dip of [1e-7, 1e-5, 1e-4, 1e-3, 1e-2, 0.1, 1]) {
      const dented = closed(
        { x: 0, y: 0 },
        { x: 100, y: 0 },
        { x: 100, y: 60 },
        { x: 50, y: 60 - dip },
        { x: 0, y: 60 },
      );
      for (const by of [0.2, 3, 10, 25]) {
        const made = offset(dented, by);
        assert.equal(made.length, 1, `${dip} deep, ${by} mm`);
        // Round corners turn through a whole turn and what the hollow turns back; there two strips lie over each other.
        const turn = 2 * Math.atan(dip / 50);
        const strips = by * lengthOfPath(dented) + (by * by * (2 * Math.PI + turn)) / 2 - by * by * Math.tan(turn / 2);
        near(total(made), signedArea(dented) + strips, 1e-3);
      }
    }
  });

  it('inward keep what a tight arc far from it might seem to take away', () => {
    const rounded = offset(rectangle(60, 40), 20)[0]!;
    const [back, ...none] = offset(rounded, -20);
    assert.deepEqual(none, []);
    near(signedArea(back!), 2400, 1e-3);
  });

  it('fall apart where a waist is taken away', () => {
    const waist = closed(
      { x: 0, y: 0 },
      { x: 20, y: 0 },
      { x: 20, y: 8 },
      { x: 30, y: 8 },
      { x: 30, y: 0 },
      { x: 50, y: 0 },
      { x: 50, y: 20 },
      { x: 30, y: 20 },
      { x: 30, y: 12 },
      { x: 20, y: 12 },
      { x: 20, y: 20 },
      { x: 0, y: 20 },
    );
    const made = offset(waist, -3);
    assert.equal(made.length, 2);
    // Into the mouth of the waist a little more is left than the 14 mm squares.
    near(total(made), byClipper(waist, -3), 0.05);
  });

  it('add A + aP + πa² round an outline without hollows', () => {
    fc.assert(
      fc.property(roundedOutlines(), fc.double({ min: 0.1, max: 30, noNaN: true }), (path, by) => {
        const made = offset(path, by);
        assert.equal(made.length, 1);
        near(signedArea(made[0]!), signedArea(path) + by * lengthOfPath(path) + Math.PI * by * by, 0.5);
      }),
    );
  });

  it('agree with polygons of short chords, outward and inward', () => {
    fc.assert(
      fc.property(
        outlines(bent),
        fc.double({ min: 0.2, max: 25, noNaN: true }).chain((by) => fc.constantFrom(by, -by)),
        (path, by) => {
          const made = offset(path, by);
          for (const each of made) assert.equal(crossingOf(each), undefined);
          // 0.005 mm of chord on the outline and as much on the offset.
          near(total(made), byClipper(path, by), 0.02 * (lengthOfPath(path) + 7 * Math.abs(by)) + 0.01);
        },
      ),
      { numRuns: 150 },
    );
  });

  /** mm: the arc about a blunt corner is flatter than 0.002 mm and counts as a line, both out and back. */
  const BLUNT = 5e-3;

  it('come back when as much is taken away again, where nothing was closed', () => {
    fc.assert(
      fc.property(roundedOutlines(true), fc.double({ min: 0.1, max: 20, noNaN: true }), (path, by) => {
        const back = offset(offset(path, by)[0]!, -by);
        assert.equal(back.length, 1);
        near(signedArea(back[0]!), signedArea(path), 1e-2);
        for (const vertex of path.vertices) assert.ok(distanceTo(back[0]!, vertex) < BLUNT);
      }),
    );
  });
});

describe('allowances', () => {
  const plate: EdgedOutline = {
    path: rectangle(100, 60),
    edges: ['bottom', 'right', 'top', 'left'].map((name) => ({ name, spans: 1 })),
  };
  const trim = (edge: string, by: number, stretch?: EdgeAllowance['stretch']): EdgeAllowance => ({
    edge,
    by,
    fold: false,
    ...(stretch ? { stretch } : {}),
  });
  const fold = (edge: string, by: number): EdgeAllowance => ({ edge, by, fold: true });
  const points = (paths: readonly Path[]) =>
    paths.map(({ vertices }) => vertices.map(({ x, y }) => [Math.round(x * 1e4) / 1e4, Math.round(y * 1e4) / 1e4]));
  /** From the lowest vertex furthest left, so that it does not matter where a path begins. */
  const shape = (paths: readonly Path[]) =>
    points(paths).map((path) => {
      const first = path.reduce(
        (best, [x, y], i) => (y! < path[best]![1]! || (y === path[best]![1] && x! < path[best]![0]!) ? i : best),
        0,
      );
      return [...path.slice(first), ...path.slice(0, first)];
    });

  it('of one edge leave the others where they are', () => {
    assert.deepEqual(shape(widened(plate, [trim('bottom', 7)])), [
      [
        [0, -7],
        [100, -7],
        [100, 60],
        [0, 60],
      ],
    ]);
  });

  it('that differ meet where both lines do', () => {
    assert.deepEqual(shape(widened(plate, [trim('bottom', 7), trim('left', 3)])), [
      [
        [-3, -7],
        [100, -7],
        [100, 60],
        [-3, 60],
      ],
    ]);
  });

  it('of two folds are notched at the corner between them', () => {
    assert.deepEqual(shape(widened(plate, [fold('bottom', 7), fold('left', 3)])), [
      [
        [0, -7],
        [100, -7],
        [100, 60],
        [-3, 60],
        [-3, 0],
        [0, 0],
      ],
    ]);
  });

  it('of a part of an edge are cut off square', () => {
    assert.deepEqual(shape(widened(plate, [trim('bottom', 5, { from: 25, to: 40 })])), [
      [
        [25, -5],
        [40, -5],
        [40, 0],
        [100, 0],
        [100, 60],
        [0, 60],
        [0, 0],
        [25, 0],
      ],
    ]);
  });

  it('on a part of a rim widen its arc about its own middle', () => {
    const disc: EdgedOutline = { path: circle(50), edges: [{ name: 'rim', spans: 2 }] };
    const [made, ...none] = widened(disc, [trim('rim', 4, { from: 0, to: 25 * Math.PI })]);
    assert.deepEqual(none, []);
    // A quarter of the ring between 50 and 54.
    near(signedArea(made!), Math.PI * 2500 + (Math.PI / 4) * (54 ** 2 - 50 ** 2));
  });

  it('add up on one edge, whole and in part', () => {
    const [made] = widened(plate, [trim('top', 2), trim('top', 3, { from: 10, to: 30 })]);
    near(signedArea(made!), 6000 + 200 + 60);
    near(boxOfPath(made!).top, 65);
  });

  it('of a slanting neighbour run on along it, and a very sharp corner is cut off', () => {
    const wedge: EdgedOutline = {
      path: closed({ x: 0, y: 0 }, { x: 100, y: 0 }, { x: 100, y: 20 }),
      edges: ['bottom', 'right', 'slope'].map((name) => ({ name, spans: 1 })),
    };
    const [made] = widened(wedge, [trim('bottom', 2), trim('slope', 2)]);
    // At the sharp end neither line runs on: 2 mm square to each.
    assert.ok(boxOfPath(made!).left > -2.01, 'no spike');
    const slanting: EdgedOutline = {
      path: closed({ x: 0, y: 0 }, { x: 100, y: 0 }, { x: 80, y: 40 }, { x: 20, y: 40 }),
      edges: ['bottom', 'right', 'top', 'left'].map((name) => ({ name, spans: 1 })),
    };
    // Each leg leans 20 in 40: 10 mm further down it stands 5 mm further out.
    assert.deepEqual(boxOfPath(widened(slanting, [trim('bottom', 10)])[0]!), {
      left: -5,
      right: 105,
      bottom: -10,
      top: 40,
    });
  });

  it('inward and outward by turns never cross themselves', () => {
    fc.assert(
      fc.property(
        outlines(bent),
        fc.array(fc.record({ by: fc.double({ min: -8, max: 12, noNaN: true }), fold: fc.boolean() }), {
          minLength: 9,
          maxLength: 9,
        }),
        (path, choices) => {
          const edges = path.vertices.map((_, i) => ({ name: `e${i}`, spans: 1 }));
          const made = widened(
            { path, edges },
            edges.map(({ name }, i) => ({ edge: name, ...choices[i]! })),
          );
          assert.ok(made.length > 0);
          for (const each of made) assert.equal(crossingOf(each), undefined, JSON.stringify(made));
        },
      ),
      { numRuns: 150 },
    );
  });
});
