import { type Chart, columnAt, levelAt, type Track } from './chart.ts';
import { unit, type Vector } from './vector.ts';

/** A dome by its rim's axes and its depth at the middle of the thickness, mm. `long` runs front to back. */
export interface DomeShape {
  readonly long: number;
  readonly wide: number;
  readonly deep: number;
}

/** Which part of a dome: all of it, the wearer's left half, or one gore of so many, the first at the front, the others to its left. */
export type DomePart = 'whole' | 'half' | { readonly gores: number; readonly which?: number };

/**
 * A dome as a chart, its rim level at z = 0. The shapes are those of the dome's figures: a part of a sphere, stretched
 * lengthwise where it is oval, while the depth is no more than half the narrower axis; deeper, half an ellipsoid.
 *
 * Range: all measures above nought, three gores or more.
 */
export function domeChart(shape: DomeShape, part: DomePart = 'whole'): Chart {
  const { half, up, to } = ellipsoidOf(shape);
  const from = part === 'whole' || part === 'half' ? 0 : ((2 * (part.which ?? 1) - 3) * Math.PI) / part.gores;
  const turn = part === 'whole' ? 2 * Math.PI : part === 'half' ? Math.PI : (2 * Math.PI) / part.gores;
  const around = (u: number) => from + turn * u;
  // Nought at the far side of a half, to the last digit: its seam is flat.
  const sin = (u: number) => (part === 'half' && u === 1 ? 0 : Math.sin(around(u)));
  const cos = (u: number) => Math.cos(around(u));
  const down = (v: number) => to * (1 - v);
  // Arc from the crown, taken on the mean of the two axes: the sheet's radius.
  const reach = meridianTable(Math.sqrt(half[0] * half[1]), up, to);
  const point = (u: number, v: number): Vector => {
    const θ = down(v);
    const out = Math.sin(θ);
    // cos θ − cos(rim), without taking two like numbers from each other.
    const rise = 2 * Math.sin((to + θ) / 2) * Math.sin((to - θ) / 2);
    return [-half[0] * out * sin(u), half[1] * out * cos(u), up * rise];
  };
  return {
    point,
    normal(u, v) {
      const θ = down(v);
      const out = Math.sin(θ);
      return unit([(-out * sin(u)) / half[0], (out * cos(u)) / half[1], Math.cos(θ) / up]);
    },
    closed: part === 'whole',
    poles: { bottom: false, top: true },
    columns: part === 'whole' ? [0, 0.25, 0.5, 0.75, 1] : [0, 0.5, 1],
    ...namesOf(part),
    sheet(u, v) {
      const r = reach.length(down(v));
      return [-r * sin(u), r * cos(u)];
    },
    spot(x, y) {
      let φ = Math.atan2(-x, y) - from;
      // A turn more or less: the nearest to the part that there is.
      const spare = (2 * Math.PI - turn) / 2;
      while (φ < -spare) φ += 2 * Math.PI;
      while (φ >= turn + spare) φ -= 2 * Math.PI;
      return [φ / turn, 1 - reach.angle(Math.hypot(x, y)) / to];
    },
  };

  function namesOf(which: DomePart): Pick<Chart, 'edges' | 'lines'> {
    const rim = levelAt(0);
    const over = (u: number, other: number): Track => [
      [u, 0],
      [u, 1],
      [other, 1],
      [other, 0],
    ];
    const crown: Track = [[0, 1]];
    if (which === 'whole')
      return {
        edges: new Map([['rim', rim]]),
        lines: new Map([
          ['front', columnAt(0)],
          ['back', columnAt(0.5)],
          ['side', columnAt(0.25)],
          ['middle', over(0, 0.5)],
          ['crown', crown],
        ]),
      };
    if (which === 'half')
      return {
        edges: new Map([
          ['rim', rim],
          ['middle', over(0, 1)],
        ]),
        lines: new Map([
          ['front', columnAt(0)],
          ['back', columnAt(1)],
          ['side', columnAt(0.5)],
          ['crown', crown],
        ]),
      };
    return {
      edges: new Map([
        ['rim', rim],
        ['left', columnAt(0)],
        ['right', columnAt(1)],
      ]),
      lines: new Map([
        ...((which.which ?? 1) === 1 ? ([['front', columnAt(0.5)]] as const) : []),
        ['middle', columnAt(0.5)],
        ['crown', crown],
      ]),
    };
  }
}

function ellipsoidOf({ long, wide, deep }: DomeShape) {
  const narrow = Math.min(long, wide) / 2;
  if (deep > narrow) return { half: [wide / 2, long / 2] as const, up: deep, to: Math.PI / 2 };
  // A cap of the sphere over the narrow axis, stretched along the other.
  const radius = (narrow / deep) * (narrow / 2) + deep / 2;
  const rim = 2 * Math.atan(deep / narrow);
  return {
    half: [(wide / 2 / narrow) * radius, (long / 2 / narrow) * radius] as const,
    up: radius,
    to: rim,
  };
}

/** Half the width and half the length of a dome's level section, so high over its rim, mm; nothing above its crown. */
export function domeAxesAt(
  shape: DomeShape,
  height: number,
): { readonly wide: number; readonly long: number } | undefined {
  const { half, up, to } = ellipsoidOf(shape);
  const cosine = height / up + Math.cos(to);
  if (!(height >= 0 && cosine < 1)) return undefined;
  const out = height === 0 ? Math.sin(to) : Math.sqrt(1 - cosine * cosine);
  return { wide: half[0] * out, long: half[1] * out };
}

/** Arc of a quarter ellipse from its top, by the angle: both ways. */
function meridianTable(half: number, up: number, to: number) {
  const steps = 64;
  const lengths = [0];
  for (let i = 0; i < steps; i++) {
    // Simpson, on a smooth integrand.
    const at = (share: number) => {
      const θ = (to * (i + share)) / steps;
      return Math.hypot(half * Math.cos(θ), up * Math.sin(θ));
    };
    lengths.push(lengths[i]! + ((to / steps) * (at(0) + 4 * at(0.5) + at(1))) / 6);
  }
  const whole = lengths[steps]!;
  return {
    length(θ: number): number {
      const at = Math.min(Math.max((θ / to) * steps, 0), steps);
      const i = Math.min(steps - 1, Math.floor(at));
      return lengths[i]! + (lengths[i + 1]! - lengths[i]!) * (at - i);
    },
    angle(length: number): number {
      if (length >= whole) return (to * length) / whole;
      let [low, high] = [0, steps];
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (lengths[middle]! <= length) low = middle;
        else high = middle;
      }
      return (to * (low + (length - lengths[low]!) / (lengths[high]! - lengths[low]!))) / steps;
    },
  };
}
