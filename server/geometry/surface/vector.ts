/** x, y, z, mm or a direction. */
export type Vector = readonly [number, number, number];

export const NOWHERE: Vector = [0, 0, 0];

export const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
/** a + s·b */
export const plus = (a: Vector, b: Vector, s = 1): Vector => [a[0] + s * b[0], a[1] + s * b[1], a[2] + s * b[2]];
export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
/** Of measures of the trade, so that squares neither vanish nor run over; `Math.hypot` takes ten times as long. */
export const size = (a: Vector): number => Math.sqrt(dot(a, a));
export const apart = (a: Vector, b: Vector): number => {
  const x = a[0] - b[0];
  const y = a[1] - b[1];
  const z = a[2] - b[2];
  return Math.sqrt(x * x + y * y + z * z);
};

/** The direction of a vector; nought where it has none. */
export function unit(a: Vector): Vector {
  const long = size(a);
  return long > 0 && Number.isFinite(long) ? [a[0] / long, a[1] / long, a[2] / long] : NOWHERE;
}
