import { strict as assert } from 'node:assert';
import { boxOfPath, contains, distanceTo, signedArea } from '../../../server/geometry/outline/measure.ts';
import { type Contour, profileAlong } from '../../../server/geometry/surface/contour.ts';
import { domeChart } from '../../../server/geometry/surface/dome.ts';
import { loftChart } from '../../../server/geometry/surface/loft.ts';
import { BOARD, boardOf, linesOn } from '../../../server/trade/blank/template.ts';
import { contourAt } from '../../geometry/at-once.ts';
import { near } from '../numbers.ts';

const tube = (wrap: number) =>
  contourAt(
    loftChart({
      levels: [
        { high: 0, round: 200 * Math.PI },
        { high: 100, round: 200 * Math.PI },
      ],
      wrap,
    })!,
    50,
  )!;
const disc = Math.PI * 100 ** 2;

describe('The board of a template', () => {
  it('for the outside of a half round is its frame less the half round', () => {
    const { outline, hole, grips, edge } = boardOf(tube(180), 'outside')!;
    assert.equal(hole, undefined);
    assert.ok(!grips);
    const { left, right, bottom, top } = boxOfPath(outline);
    for (const [is, wanted] of [
      [left, -100 - BOARD],
      [right, 100 + BOARD],
      [top, 100 + BOARD],
    ] as const)
      near(is, wanted, 1e-6);
    assert.ok(Math.abs(bottom) < 1e-9);
    near(signedArea(outline), 2 * (100 + BOARD) * (100 + BOARD) - disc / 2, 2e-4);
    // Where the work is there is no board, and the edge lies on it.
    assert.ok(!contains(outline, { x: 0, y: 60 }) && contains(outline, { x: 0, y: 110 }));
    assert.ok(distanceTo(edge, { x: 0, y: 100 }) < 1e-3);
  });

  it('for the inside fills it, and stands out behind by the width of a frame', () => {
    const { outline, grips } = boardOf(tube(180), 'inside')!;
    assert.ok(!grips);
    near(signedArea(outline), disc / 2 + 200 * BOARD, 2e-4);
    assert.ok(contains(outline, { x: 0, y: 60 }) && !contains(outline, { x: 0, y: 110 }));
  });

  it('that reaches round more than half says that it cannot be put on whole', () => {
    for (const wrap of [230, 300, 340]) {
      const found = boardOf(tube(wrap), 'outside')!;
      assert.ok(found.grips, String(wrap));
      assert.ok(signedArea(found.outline) > 0 && !contains(found.outline, { x: 0, y: -60 }), String(wrap));
    }
    for (const wrap of [40, 120, 180, 182]) assert.ok(!boardOf(tube(wrap), 'outside')!.grips, String(wrap));
  });

  it('of a shallow curve goes straight back from both its ends', () => {
    const { outline } = boardOf(tube(60), 'outside')!;
    const { left, right, top } = boxOfPath(outline);
    near(right - left, 100, 1e-5);
    near(top, 100 + BOARD, 1e-6);
    // The segment of the circle, between the frame's back and the curve.
    near(signedArea(outline), 100 * (100 + BOARD) - (disc / 6 + 50 * 100 * Math.cos(Math.PI / 6)), 2e-4);
  });

  it('of a section that closes round is a ring, and a disc within', () => {
    for (const round of [tube(360), contourAt(domeChart({ long: 200, wide: 200, deep: 100 }), 0)!]) {
      assert.ok(round.closed);
      const ring = boardOf(round, 'outside')!;
      near(signedArea(ring.outline), (200 + 2 * BOARD) ** 2, 1e-6);
      near(signedArea(ring.hole!), disc, 2e-4);
      assert.ok(ring.grips);
      near(signedArea(boardOf(round, 'inside')!.outline), disc, 2e-4);
    }
  });

  it('of a profile has its straight back upright, on the side that is asked for', () => {
    const ball = domeChart({ long: 200, wide: 200, deep: 100 });
    const front = profileAlong(ball, 'front') as Contour;
    const quarter = disc / 4;
    near(signedArea(boardOf(front, 'outside')!.outline), (100 + BOARD) ** 2 - quarter, 2e-4);
    near(signedArea(boardOf(front, 'inside')!.outline), quarter + 100 * BOARD, 2e-4);
    const over = profileAlong(ball, 'middle') as Contour;
    near(signedArea(boardOf(over, 'outside')!.outline), 2 * (100 + BOARD) * (100 + BOARD) - 2 * quarter, 2e-4);
  });

  it('bears a tick wherever the metal ends within its edge', () => {
    const half = tube(180);
    const last = half.points.length - 1;
    assert.equal(boardOf(half, 'outside')!.ends.length, 0);
    const gap = { ...half, metal: [[0, 20] as const, [40, last] as const] };
    const found = boardOf(gap, 'outside')!;
    assert.equal(found.ends.length, 2);
    for (const [i, at] of [20, 40].entries()) {
      const [on, off] = found.ends[i]!.vertices;
      assert.deepEqual(on, half.points[at]);
      // Into the board, square to its edge.
      near(Math.hypot(off!.x, off!.y), 108, 1e-3);
    }
  });

  it('of a section that lies askew says as well whether it can be put on whole', () => {
    /** An arc of so many degrees about a place that is not the middle, its mouth turned. */
    const arc = (degrees: number): Contour => {
      const points = Array.from({ length: 61 }, (_, i) => {
        const turned = ((200 + (degrees * i) / 60) * Math.PI) / 180;
        return { x: 40 + 50 * Math.cos(turned), y: -25 + 50 * Math.sin(turned) };
      });
      return { points, corners: new Set(), closed: false, metal: [[0, 60]], right: [1, 0, 0] };
    };
    for (const degrees of [60, 150, 179]) assert.ok(!boardOf(arc(degrees), 'inside')!.grips, `${degrees}`);
    for (const degrees of [215, 260]) assert.ok(boardOf(arc(degrees), 'inside')!.grips, `${degrees}`);
  });

  it('of a square tube keeps its four corners, and ticks where the tube has a slit', () => {
    const side = Array.from({ length: 10 }, (_, i) => i * 8);
    const points = [
      ...side.map((way) => ({ x: way, y: 0 })),
      ...side.map((way) => ({ x: 80, y: way })),
      ...side.map((way) => ({ x: 80 - way, y: 80 })),
      ...side.map((way) => ({ x: 0, y: 80 - way })),
      { x: 0, y: 0 },
    ];
    const square: Contour = {
      points,
      corners: new Set([0, 10, 20, 30, 40]),
      closed: true,
      metal: [[0, 40]],
      right: [1, 0, 0],
    };
    const whole = boardOf(square, 'inside')!;
    near(signedArea(whole.outline), 80 * 80, 1e-9);
    assert.deepEqual([whole.outline.closed, whole.outline.vertices.length, whole.grips], [true, 4, false]);
    assert.deepEqual([whole.edge.closed, whole.edge.vertices.length], [false, 5]);
    assert.deepEqual(whole.edge.vertices[0], { x: 0, y: 0 });
    assert.deepEqual(whole.ends, []);
    // A slit in the right side: from 16 to 40 mm up there is no metal.
    const slit = { ...square, metal: [[0, 12] as const, [15, 40] as const] };
    for (const [part, off] of [
      ['inside', 72],
      ['outside', 88],
    ] as const) {
      const { ends, outline, hole } = boardOf(slit, part)!;
      assert.deepEqual([outline.closed, hole?.closed], [true, part === 'outside' ? true : undefined]);
      const marks = ends.filter(({ vertices }) => vertices[0]!.x === 80);
      assert.deepEqual(
        marks.map(({ vertices, closed }) => [vertices[0]!.y, Math.round(vertices[1]!.x), closed]),
        [
          [16, off, false],
          [40, off, false],
        ],
      );
    }
    // Level and upright lines over the board that lies outside, and over the one within.
    const outside = boardOf(square, 'outside')!;
    const ways = (board: typeof outside, along: 'x' | 'y') =>
      linesOn(board, along, 30).map(({ vertices, closed }) => [...vertices.map((at) => Math.round(at[along])), closed]);
    for (const along of ['x', 'y'] as const) {
      assert.deepEqual(ways(outside, along), [
        [-BOARD, 0, false],
        [80, 80 + BOARD, false],
      ]);
      assert.deepEqual(ways(whole, along), [[0, 80, false]]);
    }
    assert.equal(linesOn(whole, 'x', 30)[0]!.vertices[0]!.y, 30);
  });

  it('knows the stretches of a straight line that lie on it', () => {
    const ring = boardOf(tube(360), 'outside')!;
    const lines = linesOn(ring, 'y', 0).map(({ vertices }) => vertices.map(({ y }) => Math.round(y * 100) / 100));
    assert.deepEqual(lines, [
      [-100 - BOARD, -100],
      [100, 100 + BOARD],
    ]);
    assert.deepEqual(linesOn(ring, 'x', 200), []);
  });
});
