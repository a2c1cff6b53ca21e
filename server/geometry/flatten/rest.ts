import type { Surface } from '../surface/surface.ts';
import type { Topology } from './topology.ts';

/*
 * The formed plate, triangle by triangle, as it would lie if each were cut out and pressed flat. The sides are measured
 * along the surface, not through the air: with the true normals at both ends the arc is known to the fourth order, and
 * developable forms come out exact.
 */

export interface Rest {
  /** Area of every triangle along the surface, mm². */
  readonly areas: Float64Array;
  /** Gradients of the three corners' weights, 1/mm: x, y of corner 0, of corner 1, of corner 2. */
  readonly gradients: Float64Array;
  /** Length of every edge of the topology along the surface, mm. */
  readonly edgeLengths: Float64Array;
  /** mm² */
  readonly area: number;
  /** Area of the normals' image on the unit sphere, by triangle: its Gauss curvature, steradians; below nought for a saddle. */
  readonly curvature: Float64Array;
}

/** Nothing where a triangle has no area or a number is not finite: there is nothing to lay flat then. */
export function restOf(surface: Surface, topology: Topology): Rest | undefined {
  const { positions, normals } = surface;
  const { triangles, edges, sides } = topology;
  const edgeLengths = new Float64Array(edges.length / 2);
  for (let e = 0; e < edgeLengths.length; e++)
    edgeLengths[e] = arcBetween(positions, normals, edges[2 * e]!, edges[2 * e + 1]!);
  const count = triangles.length / 3;
  const areas = new Float64Array(count);
  const gradients = new Float64Array(6 * count);
  const curvature = new Float64Array(count);
  let area = 0;
  for (let t = 0; t < count; t++) {
    const l01 = edgeLengths[sides[3 * t]!]!;
    const l12 = edgeLengths[sides[3 * t + 1]!]!;
    const l20 = edgeLengths[sides[3 * t + 2]!]!;
    // Corner 0 at the origin, corner 1 on the x axis.
    const x2 = (l01 * l01 + l20 * l20 - l12 * l12) / (2 * l01);
    const y2 = Math.sqrt(l20 * l20 - x2 * x2);
    const twice = l01 * y2;
    if (!(twice > 0) || !Number.isFinite(twice)) return undefined;
    areas[t] = twice / 2;
    area += twice / 2;
    const g = 6 * t;
    gradients[g] = -y2 / twice;
    gradients[g + 1] = (x2 - l01) / twice;
    gradients[g + 2] = y2 / twice;
    gradients[g + 3] = -x2 / twice;
    gradients[g + 5] = l01 / twice;
    curvature[t] = solidAngle(normals, triangles[3 * t]!, triangles[3 * t + 1]!, triangles[3 * t + 2]!);
  }
  return { areas, gradients, edgeLengths, area, curvature };
}

/**
 * Length of the arc that leaves one vertex and reaches the other square to their normals, mm. Where one has no normal (a
 * tip, a ridge) the other's counts twice; where neither has, it is the chord.
 */
function arcBetween(positions: Float64Array, normals: Float64Array, one: number, other: number): number {
  let square = 0;
  let start = 0;
  let end = 0;
  let leaves = 0;
  let reaches = 0;
  for (let axis = 0; axis < 3; axis++) {
    const p = positions[3 * other + axis]! - positions[3 * one + axis]!;
    square += p * p;
    const from = normals[3 * one + axis]!;
    const to = normals[3 * other + axis]!;
    start += p * from;
    end += p * to;
    leaves += from * from;
    reaches += to * to;
  }
  const turn = leaves && reaches ? end - start : 2 * (end - start);
  // Sine of half the angle that the arc turns through; the series is that of asin(x)/x.
  const x = turn / (2 * square);
  const squared = x * x * square;
  return Math.sqrt(square) * (1 + squared / 6 + (3 * squared * squared) / 40);
}

/** Of the spherical triangle of three unit normals (Van Oosterom and Strackee 1983, from memory), steradians. */
function solidAngle(n: Float64Array, a: number, b: number, c: number): number {
  const [ax, ay, az] = [n[3 * a]!, n[3 * a + 1]!, n[3 * a + 2]!];
  const [bx, by, bz] = [n[3 * b]!, n[3 * b + 1]!, n[3 * b + 2]!];
  const [cx, cy, cz] = [n[3 * c]!, n[3 * c + 1]!, n[3 * c + 2]!];
  // A tip or a ridge has no normal: what it turns through is not counted.
  if (!(ax || ay || az) || !(bx || by || bz) || !(cx || cy || cz)) return 0;
  const volume = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
  const ab = ax * bx + ay * by + az * bz;
  const bc = bx * cx + by * cy + bz * cz;
  const ca = cx * ax + cy * ay + cz * az;
  return 2 * Math.atan2(volume, 1 + ab + bc + ca);
}
