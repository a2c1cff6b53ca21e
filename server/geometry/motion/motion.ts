import type { Vector } from '../surface/vector.ts';

/** Rows of a rotation. */
export type Turn = readonly [Vector, Vector, Vector];

/** A rigid motion: turned about the origin, then shifted, mm. */
export interface Motion {
  readonly turn: Turn;
  readonly shift: Vector;
}

const UNTURNED: Turn = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
export const AT_REST: Motion = { turn: UNTURNED, shift: [0, 0, 0] };

export const shiftedBy = (shift: Vector): Motion => ({ turn: UNTURNED, shift });

/** A direction turned. */
export const turned = ({ turn: [a, b, c] }: Motion, d: Vector): Vector => [
  a[0] * d[0] + a[1] * d[1] + a[2] * d[2],
  b[0] * d[0] + b[1] * d[1] + b[2] * d[2],
  c[0] * d[0] + c[1] * d[1] + c[2] * d[2],
];

/** A point moved. */
export function moved(motion: Motion, point: Vector): Vector {
  const [x, y, z] = turned(motion, point);
  const [sx, sy, sz] = motion.shift;
  return [x + sx, y + sy, z + sz];
}

/** First `inner`, then `outer`. */
export function after(outer: Motion, inner: Motion): Motion {
  const [i0, i1, i2] = inner.turn;
  const column = (k: 0 | 1 | 2): Vector => turned(outer, [i0[k], i1[k], i2[k]]);
  const [x, y, z] = [column(0), column(1), column(2)];
  return {
    turn: [
      [x[0], y[0], z[0]],
      [x[1], y[1], z[1]],
      [x[2], y[2], z[2]],
    ],
    shift: moved(outer, inner.shift),
  };
}

/** The motion that undoes this one. */
export function undone({ turn: [a, b, c], shift }: Motion): Motion {
  const turn: Turn = [
    [a[0], b[0], c[0]],
    [a[1], b[1], c[1]],
    [a[2], b[2], c[2]],
  ];
  const [x, y, z] = turned({ turn, shift }, shift);
  return { turn, shift: [-x, -y, -z] };
}

/** The rotation of a unit quaternion, scalar first. */
export function turnOf([w, x, y, z]: readonly [number, number, number, number]): Turn {
  return [
    [w * w + x * x - y * y - z * z, 2 * (x * y - w * z), 2 * (x * z + w * y)],
    [2 * (x * y + w * z), w * w - x * x + y * y - z * z, 2 * (y * z - w * x)],
    [2 * (x * z - w * y), 2 * (y * z + w * x), w * w - x * x - y * y + z * z],
  ];
}

/** About an axis through the origin, by a right-handed angle, rad; the axis need not be a unit. */
export function turnAbout([x, y, z]: Vector, angle: number): Turn {
  const long = Math.sqrt(x * x + y * y + z * z);
  if (!(long > 0)) return UNTURNED;
  const s = Math.sin(angle / 2) / long;
  return turnOf([Math.cos(angle / 2), s * x, s * y, s * z]);
}

/** About a line through a point, by a right-handed angle, rad. */
export function turnedAbout(point: Vector, along: Vector, angle: number): Motion {
  const turn = turnAbout(along, angle);
  const [x, y, z] = turned({ turn, shift: [0, 0, 0] }, point);
  return { turn, shift: [point[0] - x, point[1] - y, point[2] - z] };
}
