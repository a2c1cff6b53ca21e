import assert from 'node:assert/strict';
import { domeChart } from '../../../server/geometry/surface/dome.ts';
import type { Vector } from '../../../server/geometry/surface/vector.ts';
import { type Sight, type Standing, type Stroke, sightsInSteps } from '../../../server/geometry/view/sight.ts';
import { atOnce } from '../../../server/incremental/steps.ts';
import { meshOf } from '../at-once.ts';

const FRONT = { right: [-1, 0, 0], up: [0, 0, 1] } as const;
const TOP = { right: [-1, 0, 0], up: [0, -1, 0] } as const;

const length = (strokes: readonly Stroke[]): number =>
  strokes.reduce(
    (sum, stroke) =>
      sum + stroke.slice(1).reduce((own, [x, y], i) => own + Math.hypot(x - stroke[i]![0], y - stroke[i]![1]), 0),
    0,
  );

const near = (is: number, should: number, within: number) =>
  assert.ok(Math.abs(is - should) < within, `${is}, not ${should}`);

/** A square that faces the front, so wide, its middle at x and so far in front. */
function square(wide: number, x: number, front: number): Standing {
  const at = (right: number, up: number): Vector => [x + (right * wide) / 2, front, (up * wide) / 2];
  return {
    positions: Float64Array.from([at(1, -1), at(-1, -1), at(-1, 1), at(1, 1)].flat()),
    normals: Float64Array.from([0, 0, 0, 0].flatMap(() => [0, 1, 0])),
    triangles: Uint32Array.of(0, 1, 2, 0, 2, 3),
    edges: [Uint32Array.of(0, 1, 2, 3, 0)],
    lines: [],
    thickness: 1,
  };
}

function dome(long: number, wide: number, deep: number, thickness = 0): Standing {
  const { positions, normals, triangles, edges } = meshOf(domeChart({ long, wide, deep }), { vertices: 1500 });
  return { positions, normals, triangles, edges: [...edges.values()], lines: [], thickness };
}

const seen = (all: readonly Standing[], side: typeof FRONT | typeof TOP): Sight[] => atOnce(sightsInSteps(all, side));

describe('what is seen from one side', () => {
  it('hides a plate behind a larger one, and shows the larger', () => {
    const [large, small] = seen([square(100, 0, 0), square(40, 0, -5)], FRONT);
    near(length(large!.edges), 400, 1e-6);
    assert.equal(length(small!.edges), 0);
    near(length(small!.hidden), 160, 1e-6);
    assert.equal(small!.middle, undefined);
  });

  it('cuts what is half hidden where the other ends', () => {
    const [, behind] = seen([square(100, 0, 0), square(60, 50, -3)], FRONT);
    near(length(behind!.hidden), 30 + 60 + 30, 1.5);
    near(length(behind!.edges), 30 + 60 + 30, 1.5);
  });

  it('tells plates apart that lie a thickness behind each other', () => {
    const [, inner] = seen([square(100, 0, 0), square(40, 0, -1.1)], FRONT);
    near(length(inner!.hidden), 160, 1e-6);
  });

  it('draws a half sphere as a half circle on its rim, and from above as a circle', () => {
    const [front] = seen([dome(200, 200, 100)], FRONT);
    // Of the rim the front half is seen; the back half lies behind it on the same line.
    near(length(front!.edges), Math.PI * 100 + 200, 6);
    near(length(front!.hidden), 200, 6);
    const [top] = seen([dome(200, 200, 100)], TOP);
    const points = top!.edges.flat();
    for (const [x, y] of points) near(Math.hypot(x, y), 100, 1);
  });

  it('draws the outer face: half a thickness outside the middle', () => {
    const [front] = seen([dome(200, 180, 90, 2)], FRONT);
    const points = [...front!.edges, ...front!.hidden].flat();
    near(Math.max(...points.map(([, y]) => y)), 91, 0.2);
    near(Math.max(...points.map(([x]) => x)), 91, 0.2);
  });
});
