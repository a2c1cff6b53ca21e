import type { Vector } from '../surface/vector.ts';

/** A triangle: x, y, z of its three corners, and its unit normal; nought where it has no area. */
export interface Corners {
  readonly at: Float64Array;
  readonly normal: Float64Array;
}

/** Where two triangles come nearest. */
export interface Touch {
  readonly apart: number;
  readonly one: Vector;
  readonly other: Vector;
}

/** How far two triangles at least are apart, by the plane of each: nought where either plane cuts the other triangle. */
export function planeGap(a: Corners, b: Corners): number {
  return Math.max(side(a, b), side(b, a));
}

/** How far all corners of the one lie on the same side of the other's plane. */
function side({ at: p, normal: n }: Corners, { at: q }: Corners): number {
  const n0 = n[0]!;
  const n1 = n[1]!;
  const n2 = n[2]!;
  const base = n0 * p[0]! + n1 * p[1]! + n2 * p[2]!;
  const d0 = n0 * q[0]! + n1 * q[1]! + n2 * q[2]! - base;
  const d1 = n0 * q[3]! + n1 * q[4]! + n2 * q[5]! - base;
  const d2 = n0 * q[6]! + n1 * q[7]! + n2 * q[8]! - base;
  const least = d0 < d1 ? Math.min(d0, d2) : Math.min(d1, d2);
  if (least > 0) return least;
  const most = d0 > d1 ? Math.max(d0, d2) : Math.max(d1, d2);
  return most < 0 ? -most : 0;
}

/** The least distance of two triangles; nothing where it is not below `within`. */
export function nearestOf(a: Corners, b: Corners, within: number): Touch | undefined {
  const crossing = pierced(a, b) ?? pierced(b, a);
  if (crossing) return { apart: 0, one: crossing, other: crossing };
  let best = within * within;
  let found = false;
  for (let k = 0; k < 9; k += 3) {
    // Each corner over the face of the other.
    for (let swap = 0; swap < 2; swap++) {
      const [face, tip] = swap ? [b, a] : [a, b];
      const t = tip.at;
      const { at: p, normal: n } = face;
      const far = n[0]! * (t[k]! - p[0]!) + n[1]! * (t[k + 1]! - p[1]!) + n[2]! * (t[k + 2]! - p[2]!);
      if (!(far * far < best)) continue;
      const x = t[k]! - far * n[0]!;
      const y = t[k + 1]! - far * n[1]!;
      const z = t[k + 2]! - far * n[2]!;
      if (!isInside(face, x, y, z)) continue;
      best = far * far;
      found = true;
      set(swap ? t[k]! : x, swap ? t[k + 1]! : y, swap ? t[k + 2]! : z, 0);
      set(swap ? x : t[k]!, swap ? y : t[k + 1]!, swap ? z : t[k + 2]!, 3);
    }
    for (let j = 0; j < 9; j += 3) {
      const square = edges(a.at, k, b.at, j);
      if (!(square < best)) continue;
      best = square;
      found = true;
      held.set(near);
    }
  }
  if (!found) return undefined;
  return {
    apart: Math.sqrt(best),
    one: [held[0]!, held[1]!, held[2]!],
    other: [held[3]!, held[4]!, held[5]!],
  };
}

/** Where they are nearest, as found so far; and of the edges looked at last. */
const held = new Float64Array(6);
const near = new Float64Array(6);

function set(x: number, y: number, z: number, at: 0 | 3): void {
  held[at] = x;
  held[at + 1] = y;
  held[at + 2] = z;
}

/** Whether a point of a triangle's plane lies within it; none does where it has no area. */
function isInside({ at: p, normal: n }: Corners, x: number, y: number, z: number): boolean {
  if (n[0] === 0 && n[1] === 0 && n[2] === 0) return false;
  for (let k = 0; k < 9; k += 3) {
    const m = k === 6 ? 0 : k + 3;
    const ex = p[m]! - p[k]!;
    const ey = p[m + 1]! - p[k + 1]!;
    const ez = p[m + 2]! - p[k + 2]!;
    const dx = x - p[k]!;
    const dy = y - p[k + 1]!;
    const dz = z - p[k + 2]!;
    const turn = n[0]! * (ey * dz - ez * dy) + n[1]! * (ez * dx - ex * dz) + n[2]! * (ex * dy - ey * dx);
    if (turn < 0) return false;
  }
  return true;
}

/**
 * Square of the least distance of two edges; where they are nearest goes to `near`. Edges without length count as points.
 * Source: C. Ericson, “Real-Time Collision Detection” (2005), 5.1.9 (from memory).
 */
function edges(p: Float64Array, k: number, q: Float64Array, j: number): number {
  const k2 = k === 6 ? 0 : k + 3;
  const j2 = j === 6 ? 0 : j + 3;
  const ax = p[k2]! - p[k]!;
  const ay = p[k2 + 1]! - p[k + 1]!;
  const az = p[k2 + 2]! - p[k + 2]!;
  const bx = q[j2]! - q[j]!;
  const by = q[j2 + 1]! - q[j + 1]!;
  const bz = q[j2 + 2]! - q[j + 2]!;
  const rx = p[k]! - q[j]!;
  const ry = p[k + 1]! - q[j + 1]!;
  const rz = p[k + 2]! - q[j + 2]!;
  const aa = ax * ax + ay * ay + az * az;
  const bb = bx * bx + by * by + bz * bz;
  const br = bx * rx + by * ry + bz * rz;
  const ar = ax * rx + ay * ry + az * rz;
  const ab = ax * bx + ay * by + az * bz;
  let s = 0;
  let t = 0;
  if (aa > TINY) {
    const det = aa * bb - ab * ab;
    s = bb > TINY ? (det > TINY * aa * bb ? clamped((ab * br - ar * bb) / det) : 0) : clamped(-ar / aa);
    t = bb > TINY ? (ab * s + br) / bb : 0;
    if (!(t >= 0 && t <= 1)) {
      t = clamped(t);
      s = clamped((ab * t - ar) / aa);
    }
  } else if (bb > TINY) t = clamped(br / bb);
  near[0] = p[k]! + s * ax;
  near[1] = p[k + 1]! + s * ay;
  near[2] = p[k + 2]! + s * az;
  near[3] = q[j]! + t * bx;
  near[4] = q[j + 1]! + t * by;
  near[5] = q[j + 2]! + t * bz;
  const dx = near[0]! - near[3]!;
  const dy = near[1]! - near[4]!;
  const dz = near[2]! - near[5]!;
  return dx * dx + dy * dy + dz * dz;
}
const TINY = 1e-18;
const clamped = (x: number) => Math.min(1, Math.max(0, x));

/** Where an edge of the first goes through the second. */
const pierced = (a: Corners, b: Corners): Vector | undefined => through(a, b, 1)[0];

/** The stretch along which two triangles cross; nothing where they only touch or lie in one plane. */
export function crossingOf(a: Corners, b: Corners): { readonly from: Vector; readonly to: Vector } | undefined {
  const points = [...through(a, b, 2), ...through(b, a, 2)];
  const [from, to] = [points[0], points.at(-1)];
  return from && to && points.length > 1 ? { from, to } : undefined;
}

function through({ at: p }: Corners, b: Corners, most: number): Vector[] {
  const { at: q, normal: n } = b;
  const found: Vector[] = [];
  const base = n[0]! * q[0]! + n[1]! * q[1]! + n[2]! * q[2]!;
  for (let k = 0; k < 9 && found.length < most; k += 3) {
    const m = k === 6 ? 0 : k + 3;
    const from = n[0]! * p[k]! + n[1]! * p[k + 1]! + n[2]! * p[k + 2]! - base;
    const to = n[0]! * p[m]! + n[1]! * p[m + 1]! + n[2]! * p[m + 2]! - base;
    if (!(from * to < 0)) continue;
    const share = from / (from - to);
    const x = p[k]! + share * (p[m]! - p[k]!);
    const y = p[k + 1]! + share * (p[m + 1]! - p[k + 1]!);
    const z = p[k + 2]! + share * (p[m + 2]! - p[k + 2]!);
    if (isInside(b, x, y, z)) found.push([x, y, z]);
  }
  return found;
}
