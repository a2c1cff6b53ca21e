import type { BlockMatrix } from './block-matrix.ts';
import type { Rest } from './rest.ts';
import type { Topology } from './topology.ts';

/*
 * The energy of a flat shape. By triangle F is the gradient of the map from the formed plate to the flat one, s1 ≥ s2 its
 * singular values, e = ln s:
 *
 *   E = Σ area · [½ (e1 − e2)² + k/2 · (e1 + e2 − q)²] / (1 + k)
 *
 * The first term is the change of shape, the second how far the thickness, t/t0 = exp(e1 + e2), is from the one that is
 * asked for, exp q. In logarithms the answer grows with the form, and a free edge with q = 0 and k = 3 comes out as
 * t = t0·√(D/d) exactly. A border may be held to its length by stiff bars: ½ · stiffness · l0 · ln²(l/l0).
 */

export interface Energy {
  readonly topology: Topology;
  readonly rest: Rest;
  /** How much even thickness counts against kept shape. */
  readonly k: number;
  /** ln of the thickness asked for, as a share of the start, by triangle. */
  readonly q: Float64Array;
  /** Edges of the mesh that keep their length. */
  readonly bars: Uint32Array;
  /** Of a bar, mm: the energy is an area. */
  readonly stiffness: number;
}

/** Value of the energy, mm²; infinite where a triangle is turned over. */
export function energyOf(energy: Energy, flat: Float64Array): number {
  const { topology, rest, k, q, bars, stiffness } = energy;
  const { triangles } = topology;
  const { gradients, areas } = rest;
  let total = 0;
  for (let t = 0; t < areas.length; t++) {
    const a = 2 * triangles[3 * t]!;
    const b = 2 * triangles[3 * t + 1]!;
    const c = 2 * triangles[3 * t + 2]!;
    const g = 6 * t;
    const ux = flat[b]! - flat[a]!;
    const uy = flat[b + 1]! - flat[a + 1]!;
    const vx = flat[c]! - flat[a]!;
    const vy = flat[c + 1]! - flat[a + 1]!;
    const f11 = ux * gradients[g + 2]! + vx * gradients[g + 4]!;
    const f12 = ux * gradients[g + 3]! + vx * gradients[g + 5]!;
    const f21 = uy * gradients[g + 2]! + vy * gradients[g + 4]!;
    const f22 = uy * gradients[g + 3]! + vy * gradients[g + 5]!;
    const determinant = f11 * f22 - f12 * f21;
    if (!(determinant > 0)) return Number.POSITIVE_INFINITY;
    const difference = shearOf(f11, f12, f21, f22, determinant);
    const thickness = Math.log(determinant) - q[t]!;
    total += areas[t]! * (difference * difference + k * thickness * thickness);
  }
  total /= 2 * (1 + k);
  for (const bar of bars) {
    const l0 = rest.edgeLengths[bar]!;
    const strain = Math.log(lengthOf(topology, flat, bar) / l0);
    total += 0.5 * stiffness * l0 * strain * strain;
  }
  return total;
}

/** e1 − e2, also where the two are all but the same. */
function shearOf(f11: number, f12: number, f21: number, f22: number, determinant: number): number {
  const large = sizeOf(f11 + f22, f21 - f12) / 2 + sizeOf(f11 - f22, f21 + f12) / 2;
  const small = determinant / large;
  return Math.log1p((large - small) / small);
}

function lengthOf({ edges }: Topology, flat: Float64Array, edge: number): number {
  const a = 2 * edges[2 * edge]!;
  const b = 2 * edges[2 * edge + 1]!;
  return sizeOf(flat[b]! - flat[a]!, flat[b + 1]! - flat[a + 1]!);
}

/**
 * Adds slope and curvature of the energy at a flat shape without turned triangles. The curvature is worked out in the
 * frame of the singular vectors, where it falls into a stretch of two, a twist and a flip; `convex` takes out of each
 * what curves down, which makes every Newton step a step downhill.
 */
export function addDerivatives(
  energy: Energy,
  flat: Float64Array,
  convex: boolean,
  slope: Float64Array,
  curvature: BlockMatrix,
): void {
  const { topology, rest, k, q } = energy;
  const { triangles, sides } = topology;
  const { gradients, areas } = rest;
  const even = 1 / (1 + k);
  const cross = (k - 1) / (1 + k);
  for (let t = 0; t < areas.length; t++) {
    const v0 = triangles[3 * t]!;
    const v1 = triangles[3 * t + 1]!;
    const v2 = triangles[3 * t + 2]!;
    const g = 6 * t;
    const ux = flat[2 * v1]! - flat[2 * v0]!;
    const uy = flat[2 * v1 + 1]! - flat[2 * v0 + 1]!;
    const vx = flat[2 * v2]! - flat[2 * v0]!;
    const vy = flat[2 * v2 + 1]! - flat[2 * v0 + 1]!;
    const f11 = ux * gradients[g + 2]! + vx * gradients[g + 4]!;
    const f12 = ux * gradients[g + 3]! + vx * gradients[g + 5]!;
    const f21 = uy * gradients[g + 2]! + vy * gradients[g + 4]!;
    const f22 = uy * gradients[g + 3]! + vy * gradients[g + 5]!;

    // Singular values and vectors in closed form: F = rotation part + reflection part, whose angles halve and add.
    const ex = (f11 + f22) / 2;
    const ey = (f21 - f12) / 2;
    const hx = (f11 - f22) / 2;
    const hy = (f21 + f12) / 2;
    const turning = sizeOf(ex, ey);
    const mirroring = sizeOf(hx, hy);
    const determinant = f11 * f22 - f12 * f21;
    const s1 = turning + mirroring;
    const s2 = determinant / s1;
    const plus = Math.atan2(hy, hx);
    const minus = Math.atan2(ey, ex);
    const cu = Math.cos((plus + minus) / 2);
    const su = Math.sin((plus + minus) / 2);
    const cv = Math.cos((plus - minus) / 2);
    const sv = Math.sin((plus - minus) / 2);

    const difference = Math.log1p((s1 - s2) / s2);
    const pressed = k * (Math.log(determinant) - q[t]!);
    const p1 = (difference + pressed) * even;
    const p2 = (pressed - difference) * even;
    const w1 = p1 / s1;
    const w2 = p2 / s2;
    let h11 = (1 - p1) / (s1 * s1);
    let h12 = cross / (s1 * s2);
    let h22 = (1 - p2) / (s2 * s2);
    let twist = (w1 + w2) / (s1 + s2);
    const apart = s1 - s2;
    const steep = apart > 0 ? difference / apart : 1 / s2;
    let flip = ((steep * (s1 + s2) - pressed) / (s1 * s2)) * even;
    if (convex) {
      const mean = (h11 + h22) / 2;
      const half = (h11 - h22) / 2;
      const radius = sizeOf(half, h12);
      if (mean - radius < 0) {
        // Keep the positive part of the two-by-two alone.
        const large = Math.max(0, mean + radius);
        const c = radius > 0 ? half / radius : 1;
        const s = radius > 0 ? h12 / radius : 0;
        h11 = (large * (1 + c)) / 2;
        h22 = (large * (1 - c)) / 2;
        h12 = (large * s) / 2;
      }
      twist = Math.max(0, twist);
      flip = Math.max(0, flip);
    }
    const area = areas[t]!;
    const same = ((twist + flip) / 2) * area;
    const other = ((flip - twist) / 2) * area;
    h11 *= area;
    h12 *= area;
    h22 *= area;
    const r1 = w1 * area;
    const r2 = w2 * area;

    for (let i = 0; i < 3; i++) {
      const j = i === 2 ? 0 : i + 1;
      const vi = i === 0 ? v0 : i === 1 ? v1 : v2;
      const vj = j === 0 ? v0 : j === 1 ? v1 : v2;
      const gx = gradients[g + 2 * i]!;
      const gy = gradients[g + 2 * i + 1]!;
      const ix = cv * gx + sv * gy;
      const iy = cv * gy - sv * gx;
      const kx = gradients[g + 2 * j]!;
      const ky = gradients[g + 2 * j + 1]!;
      const jx = cv * kx + sv * ky;
      const jy = cv * ky - sv * kx;
      const m1 = r1 * ix;
      const m2 = r2 * iy;
      slope[2 * vi]! += cu * m1 - su * m2;
      slope[2 * vi + 1]! += su * m1 + cu * m2;

      const xx = h11 * ix * ix + same * iy * iy;
      const xy = (h12 + other) * ix * iy;
      const yy = h22 * iy * iy + same * ix * ix;
      const tx = cu * xx - su * xy;
      const ty = cu * xy - su * yy;
      const tz = su * xy + cu * yy;
      curvature.addOwn(vi, cu * tx - su * ty, su * tx + cu * ty, su * (su * xx + cu * xy) + cu * tz);

      const pxx = h11 * ix * jx + same * iy * jy;
      const pxy = h12 * ix * jy + other * iy * jx;
      const pyx = h12 * iy * jx + other * ix * jy;
      const pyy = h22 * iy * jy + same * ix * jx;
      const ax = cu * pxx - su * pyx;
      const ay = cu * pxy - su * pyy;
      const bx = su * pxx + cu * pyx;
      const by = su * pxy + cu * pyy;
      curvature.addPair(
        sides[3 * t + i]!,
        vi,
        vj,
        ax * cu - ay * su,
        ax * su + ay * cu,
        bx * cu - by * su,
        bx * su + by * cu,
      );
    }
  }
  addBars(energy, flat, convex, slope, curvature);
}

function addBars(
  { topology, rest, bars, stiffness }: Energy,
  flat: Float64Array,
  convex: boolean,
  slope: Float64Array,
  curvature: BlockMatrix,
): void {
  for (const bar of bars) {
    const a = topology.edges[2 * bar]!;
    const b = topology.edges[2 * bar + 1]!;
    const l0 = rest.edgeLengths[bar]!;
    const x = flat[2 * b]! - flat[2 * a]!;
    const y = flat[2 * b + 1]! - flat[2 * a + 1]!;
    const l = sizeOf(x, y);
    const strain = Math.log(l / l0);
    const pull = (stiffness * l0 * strain) / l;
    let along = (stiffness * l0 * (1 - strain)) / (l * l);
    let across = pull / l;
    if (convex) {
      along = Math.max(0, along);
      across = Math.max(0, across);
    }
    const nx = x / l;
    const ny = y / l;
    slope[2 * a]! -= pull * nx;
    slope[2 * a + 1]! -= pull * ny;
    slope[2 * b]! += pull * nx;
    slope[2 * b + 1]! += pull * ny;
    const xx = along * nx * nx + across * ny * ny;
    const xy = (along - across) * nx * ny;
    const yy = along * ny * ny + across * nx * nx;
    curvature.addOwn(a, xx, xy, yy);
    curvature.addOwn(b, xx, xy, yy);
    curvature.addPair(bar, a, b, -xx, -xy, -xy, -yy);
  }
}

/** Of slopes and measures of the trade, so that squares neither vanish nor run over; `Math.hypot` takes ten times as long. */
const sizeOf = (x: number, y: number): number => Math.sqrt(x * x + y * y);
