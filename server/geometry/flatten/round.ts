import { type Formed, MID, type Place, placeAt } from './formed.ts';
import type { Way } from './way.ts';

/*
 * The same energy (energy.ts) of a round form, on a line: s is the way from the crown, R its half diameter there, r(s) the
 * half diameter on the flat disc. The two strains are e1 = ln r′ and e2 = ln(r/R), and
 *
 *   E = ∫ 2πR ds · [½ (e1 − e2)² + k/2 · (e1 + e2 − q)²] / (1 + k)
 *
 * is least where a tridiagonal system says. Half a thousand times quicker than triangles, and the limit that these come to.
 */

/** A round dome by its rim's diameter and its depth at the middle of the thickness, mm; its shapes are those of dome.ts. */
export interface RoundShape {
  readonly diameter: number;
  readonly deep: number;
}

/** A round dome as the disc that it comes from. */
export interface RoundFlat {
  readonly way: Way;
  readonly formed: Formed;
  /** The greatest ln of thickness that was asked for. */
  readonly asked: number;
  readonly rings: number;
  readonly steps: number;
  /** Half diameter on the disc at a share of the way from the crown to the rim, mm. */
  radiusAt(share: number): number;
}

/** Rings of the form: half the blank is then within 0.01 mm of what many more give, on a skull too. */
const RINGS = 48;
/** In widths: deeper, it is no dome and may not come to rest. */
const DEEPEST = 2;
const MOST_STEPS = 60;
/** Done when a step moves no ring by more than this share of the half diameter. */
const SMALLEST_MOVE = 1e-9;

/** The form as rings: where each ends on the way from the crown, and what lies within it. */
interface Rings {
  readonly s: Float64Array;
  /** Area by 2π, and half diameter, of each ring. */
  readonly areas: Float64Array;
  readonly radii: Float64Array;
  /** φ and the depth w of each, as in laplace.ts. */
  readonly φ: Float64Array;
  readonly depth: Float64Array;
  readonly mostφ: number;
}

/** Whether a dome of these measures is shallow enough to be laid flat; an oval one by its narrow axis. */
export const isDome = (narrow: number, deep: number): boolean => deep <= DEEPEST * narrow;

/**
 * Lays a round dome flat. Nothing for one that is no dome ({@link isDome}). Range: measures above nought.
 */
export function roundFlat(shape: RoundShape, way: Way, count = RINGS): RoundFlat | undefined {
  if (!isDome(shape.diameter, shape.deep)) return undefined;
  const rings = ringsOf(shape, count);
  const half = shape.diameter / 2;
  const q = rings.φ.map((φ) => way.gather * (way.at === 'crown' ? φ : rings.mostφ - φ));
  const found = rings.s.every(Number.isFinite) ? leastOf(rings, way.k, q) : undefined;
  if (!found) return undefined;
  const scale = way.rim === 'held' ? half / found.r[count]! : 1;
  const r = found.r.map((each) => each * scale);
  const e1 = rings.areas.map((_, i) => Math.log((r[i + 1]! - r[i]!) / (rings.s[i + 1]! - rings.s[i]!)));
  const e2 = rings.areas.map((_, i) => Math.log((r[i + 1]! + r[i]!) / 2 / rings.radii[i]!));
  const along = Math.log(half / r[count]!);
  // Strains hang on the square of the way near the crown; at the rim three rings are carried on.
  const carried = (15 * e1[count - 1]! - 10 * e1[count - 2]! + 3 * e1[count - 3]!) / 8;
  const [atCrown, atEdge] = [
    { e1: (9 * e1[0]! - e1[1]!) / 8, e2: (9 * e2[0]! - e2[1]!) / 8 },
    { e1: carried, e2: -along },
  ];
  const place = (weight: number, one: number, other: number): Place => ({
    weight,
    τ: one + other,
    δ: Math.abs(one - other),
  });
  const areas = rings.areas.map((each) => 2 * Math.PI * each);
  const parts = { areas, τ: e1.map((each, i) => each + e2[i]!), δ: e1.map((each, i) => Math.abs(each - e2[i]!)) };
  const diameter = 2 * r[count]!;
  return {
    way,
    formed: {
      long: diameter,
      wide: diameter,
      area: Math.PI * r[count]! ** 2,
      formedArea: areas.reduce((sum, each) => sum + each, 0),
      parts,
      // At the crown itself there is no difference between one way and the other.
      crown: place(1, (atCrown.e1 + atCrown.e2) / 2, (atCrown.e1 + atCrown.e2) / 2),
      mid: placeAt(MID, rings.depth, areas, parts.τ, parts.δ),
      edge: [place(1, atEdge.e1, atEdge.e2)],
      along,
    },
    asked: q.reduce((most, each) => Math.max(most, each), 0),
    rings: count,
    steps: found.steps,
    radiusAt(share) {
      const way = Math.min(Math.max(share, 0), 1) * rings.s[count]!;
      let [low, high] = [0, count];
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (rings.s[middle]! <= way) low = middle;
        else high = middle;
      }
      return r[low]! + ((way - rings.s[low]!) / (rings.s[high]! - rings.s[low]!)) * (r[high]! - r[low]!);
    },
  };
}

/** A dome in rings of even angle about the middle of its ball or half ellipsoid. */
function ringsOf({ diameter, deep }: RoundShape, count: number): Rings {
  const half = diameter / 2;
  const shallow = deep <= half;
  const across = shallow ? (half / deep) * (half / 2) + deep / 2 : half;
  const up = shallow ? across : deep;
  const to = shallow ? 2 * Math.atan(deep / half) : Math.PI / 2;
  const slope = (θ: number) => Math.hypot(across * Math.cos(θ), up * Math.sin(θ));
  const s = new Float64Array(count + 1);
  const areas = new Float64Array(count);
  const radii = new Float64Array(count);
  const φ = new Float64Array(count);
  const depth = new Float64Array(count);
  const [fall, sink] = [new Float64Array(count), new Float64Array(count)];
  let within = 0;
  for (let i = 0; i < count; i++) {
    const [from, middle, end] = [i, i + 0.5, i + 1].map((at) => (to * at) / count) as [number, number, number];
    const step = (to / count) * (slope(from) + 4 * slope(middle) + slope(end));
    s[i + 1] = s[i]! + step / 6;
    const on = (θ: number) => across * Math.sin(θ) * slope(θ);
    areas[i] = ((to / count) * (on(from) + 4 * on(middle) + on(end))) / 6;
    radii[i] = areas[i]! / (s[i + 1]! - s[i]!);
    const ds = s[i + 1]! - s[i]!;
    // What the form turns through within, and what it holds, by the way round it.
    fall[i] = (ds * (1 - (across * Math.cos(middle)) / slope(middle))) / radii[i]!;
    sink[i] = (ds * (within + areas[i]! / 2)) / radii[i]!;
    within += areas[i]!;
  }
  let [high, deepest] = [0, 0];
  for (let i = count - 1; i >= 0; i--) {
    φ[i] = high + fall[i]! / 2;
    depth[i] = deepest + sink[i]! / 2;
    high += fall[i]!;
    deepest += sink[i]!;
  }
  return { s, areas, radii, φ, depth: depth.map((each) => each / deepest), mostφ: high };
}

/** Newton's steps by Gauss, each short enough to go down, from the disc that keeps every ring's area. */
function leastOf(
  { s, areas, radii }: Rings,
  k: number,
  q: Float64Array,
): { readonly r: Float64Array; readonly steps: number } | undefined {
  const count = areas.length;
  let r = new Float64Array(count + 1);
  let whole = 0;
  for (let i = 0; i < count; i++) {
    whole += 2 * areas[i]!;
    r[i + 1] = Math.sqrt(whole);
  }
  const lengths = radii.map((_, i) => s[i + 1]! - s[i]!);
  const energyAt = (at: Float64Array): number => {
    let total = 0;
    for (let i = 0; i < count; i++) {
      const e1 = Math.log((at[i + 1]! - at[i]!) / lengths[i]!);
      const e2 = Math.log((at[i + 1]! + at[i]!) / 2 / radii[i]!);
      total += areas[i]! * ((e1 - e2) ** 2 + k * (e1 + e2 - q[i]!) ** 2);
    }
    return Number.isNaN(total) ? Number.POSITIVE_INFINITY : total;
  };
  const [own, next, step] = [0, 0, 0].map(() => new Float64Array(count + 1)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  let value = energyAt(r);
  if (!Number.isFinite(value)) return undefined;
  for (let steps = 1; steps <= MOST_STEPS; steps++) {
    own.fill(0);
    next.fill(0);
    step.fill(0);
    for (let i = 0; i < count; i++) {
      const [apart, sum] = [r[i + 1]! - r[i]!, r[i + 1]! + r[i]!];
      const e1 = Math.log(apart / lengths[i]!);
      const e2 = Math.log(sum / 2 / radii[i]!);
      const [a, b] = [1 / apart, 1 / sum];
      const [shape, size] = [e1 - e2, k * (e1 + e2 - q[i]!)];
      const weight = areas[i]!;
      // Of ln(r1 − r0) the slopes are −a and a, of ln(r1 + r0) both b.
      own[i]! += weight * ((a + b) ** 2 + k * (b - a) ** 2);
      own[i + 1]! += weight * ((a - b) ** 2 + k * (a + b) ** 2);
      next[i]! += weight * ((-a - b) * (a - b) + k * (b - a) * (a + b));
      step[i]! -= weight * ((-a - b) * shape + (b - a) * size);
      step[i + 1]! -= weight * ((a - b) * shape + (a + b) * size);
    }
    // The crown stays where it is.
    own[0] = 1;
    next[0] = 0;
    step[0] = 0;
    for (let i = 1; i <= count; i++) {
      const share = next[i - 1]! / own[i - 1]!;
      own[i]! -= share * next[i - 1]!;
      step[i]! -= share * step[i - 1]!;
    }
    let move = 0;
    for (let i = count; i >= 0; i--) {
      step[i] = (step[i]! - (i < count ? next[i]! * step[i + 1]! : 0)) / own[i]!;
      move = Math.max(move, Math.abs(step[i]!));
    }
    if (!Number.isFinite(move)) return undefined;
    const settled = move <= 1e-6 * r[count]!;
    let share = 1;
    let tried = r;
    let reached = Number.POSITIVE_INFINITY;
    for (; share > 1e-6; share /= 2) {
      tried = r.map((each, i) => each + share * step[i]!);
      reached = energyAt(tried);
      if (reached <= value || (settled && Number.isFinite(reached))) break;
    }
    if (!(share > 1e-6)) return undefined;
    r = tried;
    value = reached;
    if (move <= SMALLEST_MOVE * r[count]!) return { r, steps };
  }
  return undefined;
}
