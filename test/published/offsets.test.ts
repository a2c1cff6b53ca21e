import assert from 'node:assert/strict';
import { areaD, EndType, inflatePathsD, JoinType, type PathD } from 'clipper2-ts';
import fc from 'fast-check';
import { offset } from '../../server/geometry/outline/allowance.ts';
import { boxOfPath, signedArea } from '../../server/geometry/outline/measure.ts';
import type { Path } from '../../server/geometry/outline/path.ts';
import { around } from '../../server/geometry/outline/span.ts';
import { outlines } from '../geometry/outline/shapes.ts';

/*
 * Offsets of polygons against those of Clipper2, a library for polygons, in its port clipper2-ts 2.0.1 (npm): areas and boxes,
 * with round corners and with mitred ones.
 */

/** Clipper's round corners are chords this near to their arcs, mm; its points stand on a grid of 10⁻⁶ mm. */
const CHORDS = 0.001;

function byClipper(path: Path, by: number, join: JoinType): { area: number; box: readonly number[] } {
  const points: PathD = path.vertices.map(({ x, y }) => ({ x, y }));
  const made = inflatePathsD([points], by, join, EndType.Polygon, MITRES_TO, 6, CHORDS);
  const all = made.flat();
  const [xs, ys] = [all.map(({ x }) => x), all.map(({ y }) => y)];
  return {
    area: made.reduce((sum, each) => sum + areaD(each), 0),
    box: [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)],
  };
}

/** How far a mitre may stand out, in allowances. */
const MITRES_TO = 3;

const areaOf = (paths: readonly Path[]) => paths.reduce((sum, path) => sum + signedArea(path), 0);

function boxesAgree(paths: readonly Path[], box: readonly number[], within: number): void {
  if (!paths.length) return;
  const { left, right, bottom, top } = paths.map(boxOfPath).reduce(around);
  for (const [i, side] of [left, right, bottom, top].entries())
    assert.ok(Math.abs(side - box[i]!) <= within, `${side}, not ${box[i]}`);
}

/** How far a polygon turns at each of its corners, to the left above nought, radians. */
function turns({ vertices }: Path): number[] {
  const count = vertices.length;
  return vertices.map((at, i) => {
    const [before, after] = [vertices[(i + count - 1) % count]!, vertices[(i + 1) % count]!];
    const [ax, ay, bx, by] = [at.x - before.x, at.y - before.y, after.x - at.x, after.y - at.y];
    return Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
  });
}

/** The cosine of half the sharpest corner's turn: what decides whether a mitre is cut off. */
const sharpest = (path: Path): number => Math.min(...turns(path).map((turn) => Math.cos(turn / 2)));

/** All that it turns round on arcs when it grows (corners to the left) or shrinks (to the right): a circle, or more with bays. */
const turned = (path: Path, inward: boolean): number =>
  turns(path).reduce((sum, turn) => sum + Math.max(0, inward ? -turn : turn), 0);

const polygons = outlines(fc.constant(0));
const allowances = fc.double({ min: 0.2, max: 25, noNaN: true });

describe('offsets beside Clipper2', () => {
  it('polygons with round corners, outward and inward', () => {
    fc.assert(
      fc.property(polygons, allowances, fc.boolean(), (path, size, inward) => {
        const by = inward ? -size : size;
        const [ours, theirs] = [offset(path, by, 'round'), byClipper(path, by, JoinType.Round)];
        // Its chords lie inside the arcs about the corners.
        const within = turned(path, inward) * size * CHORDS + 0.005;
        assert.ok(Math.abs(areaOf(ours) - theirs.area) <= within, `${areaOf(ours)}, not ${theirs.area}`);
        if (areaOf(ours) > 1) boxesAgree(ours, theirs.box, 0.005);
      }),
      { numRuns: 300 },
    );
  });

  it('polygons with mitred corners, none so sharp that it is cut off', () => {
    fc.assert(
      fc.property(
        polygons.filter((path) => sharpest(path) > 1 / MITRES_TO + 0.01),
        allowances,
        (path, by) => {
          const [ours, theirs] = [offset(path, by, 'mitre'), byClipper(path, by, JoinType.Miter)];
          assert.ok(Math.abs(areaOf(ours) - theirs.area) <= 0.005, `${areaOf(ours)}, not ${theirs.area}`);
          boxesAgree(ours, theirs.box, 0.005);
        },
      ),
      { numRuns: 300 },
    );
  });
});
