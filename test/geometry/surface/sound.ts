import { strict as assert } from 'node:assert';
import type { Chart } from '../../../server/geometry/surface/chart.ts';
import { normalOf, positionOf } from '../../../server/geometry/surface/measure.ts';
import type { Surface } from '../../../server/geometry/surface/surface.ts';
import { cross, dot, minus, size, unit, type Vector } from '../../../server/geometry/surface/vector.ts';

/** What holds for every surface: whole triangles turned outward, unit normals, an outline that is all edges, one disc. */
export function soundSurface(surface: Surface, { closed = false } = {}): void {
  const { triangles, positions } = surface;
  const vertices = positions.length / 3;
  assert.ok(positions.every(Number.isFinite) && surface.parameters.every(Number.isFinite));
  for (let i = 0; i < vertices; i++) {
    const long = size(normalOf(surface, i));
    assert.ok(long === 0 || Math.abs(long - 1) < 1e-9, `normal of ${i} is ${long} long`);
  }
  const sides = new Map<string, number>();
  for (let i = 0; i < triangles.length; i += 3) {
    const corners = [0, 1, 2].map((k) => triangles[i + k]!);
    const [a, b, c] = corners.map((vertex) => positionOf(surface, vertex)) as [Vector, Vector, Vector];
    const out = cross(minus(b, a), minus(c, a));
    assert.ok(size(out) > 0, `triangle ${i / 3} has no area`);
    for (const vertex of corners) {
      const normal = normalOf(surface, vertex);
      if (size(normal) > 0) assert.ok(dot(unit(out), normal) > 0, `triangle ${i / 3} faces inward`);
    }
    for (let k = 0; k < 3; k++) {
      const key = keyOf(corners[k]!, corners[(k + 1) % 3]!);
      sides.set(key, (sides.get(key) ?? 0) + 1);
    }
  }
  assert.ok(
    [...sides.values()].every((count) => count <= 2),
    'three triangles meet at one side',
  );
  // Euler's number of a disc.
  assert.equal(vertices - sides.size + triangles.length / 3, 1);
  const outline = new Set([...sides].filter(([, count]) => count === 1).map(([key]) => key));
  const named = new Set<string>();
  for (const [name, chain] of surface.edges) {
    for (let i = 1; i < chain.length; i++) {
      const key = keyOf(chain[i - 1]!, chain[i]!);
      assert.ok(outline.has(key), `${name} leaves the outline`);
      named.add(key);
    }
    if (closed) assert.equal(chain[0], chain.at(-1), `${name} does not close`);
  }
  assert.equal(named.size, outline.size, 'a side of the outline belongs to no edge');
  for (const [name, chain] of surface.lines)
    for (let i = 1; i < chain.length; i++)
      assert.ok(sides.has(keyOf(chain[i - 1]!, chain[i]!)), `${name} cuts across a triangle`);
}

const keyOf = (a: number, b: number) => (a < b ? `${a} ${b}` : `${b} ${a}`);

/** Sum of the corners' angles that are missing, over a disc: by Gauss and Bonnet one whole turn, whatever the mesh. */
export function turning(surface: Surface): number {
  const { triangles } = surface;
  const around = new Float64Array(surface.positions.length / 3);
  const rim = new Set<number>();
  for (const chain of surface.edges.values()) for (const vertex of chain) rim.add(vertex);
  for (let i = 0; i < triangles.length; i += 3)
    for (let k = 0; k < 3; k++) {
      const [at, next, last] = [0, 1, 2].map((step) => triangles[i + ((k + step) % 3)]!) as [number, number, number];
      const own = positionOf(surface, at);
      const [a, b] = [unit(minus(positionOf(surface, next), own)), unit(minus(positionOf(surface, last), own))];
      around[at]! += Math.atan2(size(cross(a, b)), dot(a, b));
    }
  return around.reduce((sum, angle, i) => sum + (rim.has(i) ? Math.PI : 2 * Math.PI) - angle, 0);
}

/** How far the chart's own normal lies from the one by small differences, greatest over a net of spots. */
export function normalError(chart: Chart): number {
  const d = 1e-6;
  let worst = 0;
  for (let i = 1; i < 12; i++)
    for (let j = 1; j < 9; j++) {
      // Off the round shares, where a level's curve may have a corner.
      const [u, v] = [i / 12 + 0.003, j / 9 + 0.0017];
      const pu = minus(chart.point(u + d, v), chart.point(u - d, v));
      const pv = minus(chart.point(u, v + d), chart.point(u, v - d));
      worst = Math.max(worst, size(minus(unit(cross(pu, pv)), chart.normal(u, v))));
    }
  return worst;
}

/** Sum of the plain triangles, chords and all: what converges with the square of the step. */
export function chordArea({ positions, triangles }: Surface): number {
  const at = (i: number): Vector => [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
  let area = 0;
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [at(triangles[i]!), at(triangles[i + 1]!), at(triangles[i + 2]!)];
    area += size(cross(minus(b, a), minus(c, a))) / 2;
  }
  return area;
}
