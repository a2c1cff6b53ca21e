import type { Rest } from './rest.ts';
import type { Topology } from './topology.ts';

/** What forming does to the metal, triangle by triangle. Strains are true strains of forming: above nought it stretches. */
export interface Strains {
  /** Thickness as a share of the start: the volume is kept. */
  readonly thickness: Float64Array;
  /** The greatest and the least strain in the sheet. */
  readonly most: Float64Array;
  readonly least: Float64Array;
  /** Direction of the greatest one on the flat blank, radians from x. */
  readonly angle: Float64Array;
  /** Effective strain (von Mises): what hardens the metal. */
  readonly effective: Float64Array;
}

export function strainsOf(topology: Topology, rest: Rest, flat: Float64Array): Strains {
  const { triangles } = topology;
  const { gradients } = rest;
  const count = triangles.length / 3;
  const [thickness, most, least, angle, effective] = Array.from({ length: 5 }, () => new Float64Array(count)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  for (let t = 0; t < count; t++) {
    let [f11, f12, f21, f22] = [0, 0, 0, 0];
    for (let i = 0; i < 3; i++) {
      const vertex = triangles[3 * t + i]!;
      const g = 6 * t + 2 * i;
      f11 += flat[2 * vertex]! * gradients[g]!;
      f12 += flat[2 * vertex]! * gradients[g + 1]!;
      f21 += flat[2 * vertex + 1]! * gradients[g]!;
      f22 += flat[2 * vertex + 1]! * gradients[g + 1]!;
    }
    const determinant = f11 * f22 - f12 * f21;
    const large = Math.hypot(f11 + f22, f21 - f12) / 2 + Math.hypot(f11 - f22, f21 + f12) / 2;
    const e1 = Math.log(large);
    const e2 = Math.log(determinant / large);
    thickness[t] = determinant;
    most[t] = -e2;
    least[t] = -e1;
    // The flat plate's long way is where forming shrinks most; it stretches most square to that.
    angle[t] = (Math.atan2(f21 + f12, f11 - f22) + Math.atan2(f21 - f12, f11 + f22)) / 2 + Math.PI / 2;
    effective[t] = Math.sqrt((4 / 3) * Math.max(0, e1 * e1 + e2 * e2 + e1 * e2));
  }
  return { thickness, most, least, angle, effective };
}

/** The value below which a share of the surface lies, 0…1. */
export function percentile(values: Float64Array, areas: Float64Array, share: number): number {
  const order = Array.from(values.keys()).sort((a, b) => values[a]! - values[b]!);
  const whole = areas.reduce((sum, each) => sum + each, 0);
  let below = 0;
  for (const i of order) {
    below += areas[i]!;
    if (below >= share * whole) return values[i]!;
  }
  return values[order[order.length - 1]!]!;
}

/**
 * Values at the vertices from those of the triangles about them: a plane is laid through the triangles round every inner
 * vertex (Zienkiewicz and Zhu 1992, from memory), and carried on to the border.
 */
export function atVertices(topology: Topology, flat: Float64Array, values: Float64Array): Float64Array {
  const { triangles, vertices, loops } = topology;
  const border = new Uint8Array(vertices);
  for (const loop of loops) for (const vertex of loop) border[vertex] = 1;
  // Sums of weight 1, x, y, xx, xy, yy, value, x·value, y·value about each vertex.
  const sums = new Float64Array(9 * vertices);
  const centre = (t: number, axis: 0 | 1) =>
    (flat[2 * triangles[3 * t]! + axis]! +
      flat[2 * triangles[3 * t + 1]! + axis]! +
      flat[2 * triangles[3 * t + 2]! + axis]!) /
    3;
  for (let t = 0; t < values.length; t++) {
    for (let i = 0; i < 3; i++) {
      const vertex = triangles[3 * t + i]!;
      const x = centre(t, 0) - flat[2 * vertex]!;
      const y = centre(t, 1) - flat[2 * vertex + 1]!;
      const value = values[t]!;
      const s = 9 * vertex;
      sums[s]! += 1;
      sums[s + 1]! += x;
      sums[s + 2]! += y;
      sums[s + 3]! += x * x;
      sums[s + 4]! += x * y;
      sums[s + 5]! += y * y;
      sums[s + 6]! += value;
      sums[s + 7]! += x * value;
      sums[s + 8]! += y * value;
    }
  }
  const planes = new Float64Array(3 * vertices);
  for (let vertex = 0; vertex < vertices; vertex++) {
    const [n, x, y, xx, xy, yy, v, xv, yv] = sums.subarray(9 * vertex, 9 * vertex + 9) as unknown as number[];
    const mean = v! / n!;
    planes[3 * vertex] = mean;
    if (border[vertex]) continue;
    const [a, b, c] = [xx! - (x! * x!) / n!, xy! - (x! * y!) / n!, yy! - (y! * y!) / n!];
    const [p, q] = [xv! - x! * mean, yv! - y! * mean];
    const determinant = a * c - b * b;
    if (!(determinant > 1e-12 * a * c)) continue;
    const slopeX = (p * c - q * b) / determinant;
    const slopeY = (q * a - p * b) / determinant;
    planes[3 * vertex] = mean - (slopeX * x! + slopeY * y!) / n!;
    planes[3 * vertex + 1] = slopeX;
    planes[3 * vertex + 2] = slopeY;
  }
  // A border vertex takes the mean of what its inner neighbours' planes say of it.
  const carried = new Float64Array(2 * vertices);
  for (let i = 0; i < triangles.length; i++) {
    const vertex = triangles[i]!;
    if (!border[vertex]) continue;
    for (let step = 1; step < 3; step++) {
      const from = triangles[i - (i % 3) + ((i + step) % 3)]!;
      if (border[from]) continue;
      const value =
        planes[3 * from]! +
        planes[3 * from + 1]! * (flat[2 * vertex]! - flat[2 * from]!) +
        planes[3 * from + 2]! * (flat[2 * vertex + 1]! - flat[2 * from + 1]!);
      carried[2 * vertex]! += value;
      carried[2 * vertex + 1]! += 1;
    }
  }
  return Float64Array.from({ length: vertices }, (_, vertex) =>
    carried[2 * vertex + 1]! ? carried[2 * vertex]! / carried[2 * vertex + 1]! : planes[3 * vertex]!,
  );
}
