import { say } from '../../../l10n/say.ts';
import { Recent } from '../../incremental/steps.ts';
import { roundEllipse } from '../ellipse.ts';
import { integral } from '../quadrature.ts';

/**
 * One level of a loft: a closed curve round the axis, the same left and right, mm.
 *
 * Where X = |x|/wide and Y = |y|/front (or back), it is Yⁿ + (1 − k)Xⁿ + kX^(n/2) = 1. With n = 2 and k = 0 that is an
 * ellipse, or two half ellipses that meet at the sides; a larger n makes it squarer; k = 1 in front makes two parabolas
 * that meet in a ridge, and anything between a duller one.
 */
export interface Section {
  /** Half width, side to side. */
  readonly wide: number;
  /** How far it stands out in front of its widest place, and behind it. */
  readonly front: number;
  readonly back: number;
  /** n: 1 is four straight sides, 2 an ellipse, more is squarer. */
  readonly power: number;
  /** k of the front half: 0 is round, 1 a full ridge. */
  readonly ridge: number;
}

/** Half of one half of a section, as its formula has it. */
interface Quarter {
  readonly wide: number;
  readonly stand: number;
  readonly power: number;
  readonly ridge: number;
}

const frontOf = ({ wide, front, power, ridge }: Section): Quarter => ({ wide, stand: front, power, ridge });
const backOf = ({ wide, back, power }: Section): Quarter => ({ wide, stand: back, power, ridge: 0 });

/** Way round a section, mm. */
export function girthOf(section: Section): number {
  let girth = girths.get(section);
  if (girth === undefined) {
    girth = roundOf(section);
    girths.set(section, girth);
  }
  return girth;
}
const girths = new WeakMap<Section, number>();

function roundOf(section: Section): number {
  const front = quarterLength(frontOf(section));
  const isEven = section.front === section.back && section.ridge === 0;
  return 2 * (front + (isEven ? front : quarterLength(backOf(section))));
}

function quarterLength(quarter: Quarter): number {
  if (isOval(quarter)) return roundEllipse(quarter.wide, quarter.stand) / 4;
  const speed = (α: number) => speedAt(quarter, α);
  // In two, since a square section turns sharply in the middle.
  return integral(speed, 0, Math.PI / 4) + integral(speed, Math.PI / 4, Math.PI / 2);
}

const isOval = ({ power, ridge }: Quarter): boolean => power === 2 && ridge === 0;

/**
 * Half width and height of the curve at an angle from the front, told by its sine and cosine, before it is scaled to its axes: r(α)
 * and its slope. A power is dear, and one mesh asks for tens of thousands: none is taken twice.
 */
function radiusAt({ power: n, ridge: k }: Quarter, sine: number, cosine: number): { r: number; slope: number } {
  if (n === 2 && k === 0) return { r: 1, slope: 0 };
  const s = Math.max(0, sine);
  const c = Math.max(0, cosine);
  const sn = s ** (n - 1);
  const cn = c ** (n - 1);
  const a = cn * c + (1 - k) * sn * s;
  const da = n * ((1 - k) * sn * c - cn * s);
  const b = k === 0 ? 0 : k * s ** (n / 2);
  const db = k === 0 ? 0 : (k * n * s ** (n / 2 - 1) * c) / 2;
  const q = 2 / (b + Math.sqrt(b * b + 4 * a));
  const r = q ** (2 / n);
  const dq = -(da * q * q + db * q) / (2 * a * q + b);
  return { r, slope: ((2 / n) * r * dq) / q };
}

/** How fast the curve is gone along with its angle. */
function speedAt(quarter: Quarter, α: number): number {
  return speedBy(quarter, Math.sin(α), Math.cos(α));
}

function speedBy(quarter: Quarter, sine: number, cosine: number): number {
  const { wide, stand } = quarter;
  // An oval, as most sections are: this is asked thousands of times for one mesh.
  if (isOval(quarter)) {
    const x = wide * cosine;
    const y = stand * sine;
    return Math.sqrt(x * x + y * y);
  }
  const { r, slope } = radiusAt(quarter, sine, cosine);
  const x = wide * (slope * sine + r * cosine);
  const y = stand * (slope * cosine - r * sine);
  return Math.sqrt(x * x + y * y);
}

/** A section that can be walked: by shares of the quarter from the front to the side, and on to the back. */
export interface Walk {
  /** x and y at an angle told along the curve: 90° is the side, 180° the back, less than nought the wearer's right. */
  at(degrees: number): readonly [x: number, y: number];
  /** Length of the quarters in front and behind, mm. */
  readonly front: number;
  readonly back: number;
}

/** Panels of a quarter. */
const PANELS = 12;

export const walk = (section: Section): Walk => new WalkedSection(section);

/** A mesh asks for hundreds of them, and they are kept: what has no need to be made anew for each stands outside. */
class WalkedSection implements Walk {
  // Of many a section only one half is ever asked for.
  private inFront: Tabled | undefined;
  private behind: Tabled | undefined;

  constructor(private readonly section: Section) {}

  private frontQuarter(): Tabled {
    this.inFront ??= tabled(frontOf(this.section));
    return this.inFront;
  }

  private backQuarter(): Tabled {
    const { front, back, ridge } = this.section;
    this.behind ??= front === back && ridge === 0 ? this.frontQuarter() : tabled(backOf(this.section));
    return this.behind;
  }

  get front(): number {
    return this.frontQuarter().length;
  }

  get back(): number {
    return this.backQuarter().length;
  }

  at(degrees: number): readonly [number, number] {
    const from = Math.abs(degrees) / 90;
    const isInFront = from <= 1;
    const quarter = isInFront ? this.frontQuarter() : this.backQuarter();
    const share = isInFront ? from : 2 - from;
    const α = quarter.angleAt(share);
    const x = quarter.across(α, share);
    const y = quarter.out(α, share);
    return [degrees < 0 ? x : -x, isInFront ? y : -y];
  }
}

/** A quarter that can be walked. */
interface Tabled {
  readonly length: number;
  /** The angle at a share of its length, 0 at the middle and 1 at the side. */
  angleAt(share: number): number;
  /** x and y at that angle. */
  across(α: number, share: number): number;
  out(α: number, share: number): number;
}

function tabled(quarter: Quarter): Tabled {
  const { wide, stand } = quarter;
  if (!isOval(quarter)) return new AnyQuarter(quarter);
  return wide === stand ? new RoundQuarter(wide) : new OvalQuarter(quarter);
}

/** Of a circle equal shares are equal angles. */
class RoundQuarter implements Tabled {
  constructor(private readonly radius: number) {}

  get length(): number {
    return (Math.PI / 2) * this.radius;
  }

  angleAt(share: number): number {
    return (Math.PI / 2) * share;
  }

  across(α: number, share: number): number {
    return share >= 1 ? this.radius : this.radius * Math.sin(α);
  }

  out(α: number, share: number): number {
    return share >= 1 ? 0 : this.radius * Math.cos(α);
  }
}

/** In panels, each with its length by Gauss's rule; within one, the angle by Newton's. */
abstract class Panelled implements Tabled {
  /** From the middle to the end of each panel. */
  protected readonly lengths = [0];
  /** How fast the angle goes with the length at the ends of the panels. */
  protected readonly paces: number[] = [];

  constructor(protected readonly quarter: Quarter) {}

  get length(): number {
    return this.lengths[PANELS]!;
  }

  abstract across(α: number, share: number): number;
  abstract out(α: number, share: number): number;
  /** A curve through both ends of a panel with the paces there, at a share of its length. */
  protected abstract guess(panel: number, within: number): number;
  /** Whether that is near enough. */
  protected abstract isTrusted(panel: number): boolean;

  angleAt(share: number): number {
    if (share <= 0) return 0;
    if (share >= 1) return Math.PI / 2;
    const { lengths, quarter } = this;
    const target = this.length * share;
    let i = 0;
    while (i < PANELS - 1 && lengths[i + 1]! < target) i++;
    const long = lengths[i + 1]! - lengths[i]!;
    let α = this.guess(i, (target - lengths[i]!) / (long || 1));
    if (this.isTrusted(i)) return α;
    for (let step = 0; step < 4; step++) {
      const speed = speedAt(quarter, α);
      if (!(speed > 0)) break;
      const next = this.nearer(i, α, target, speed);
      const settled = Math.abs(next - α) < SETTLED;
      α = Math.min(ANGLES[i + 1]!, Math.max(ANGLES[i]!, next));
      if (settled) break;
    }
    return α;
  }

  protected nearer(i: number, α: number, target: number, speed = speedAt(this.quarter, α)): number {
    return α - (this.lengths[i]! + panel(this.quarter, ANGLES[i]!, α) - target) / speed;
  }
}

class OvalQuarter extends Panelled {
  /** How the paces change with the length: of an oval that is told easily. */
  private readonly turns: number[] = [];
  /** A bit for each panel: whether it was looked at, and whether the curve was found near enough there. */
  private looked = 0;
  private near = 0;

  constructor(quarter: Quarter) {
    super(quarter);
    const { wide, stand } = quarter;
    for (let i = 0; i <= PANELS; i++) {
      if (i > 0) this.lengths.push(this.lengths[i - 1]! + wholePanel(quarter, i - 1));
      const s = SINES[i]!;
      const c = COSINES[i]!;
      const square = wide * wide * c * c + stand * stand * s * s;
      this.paces.push(1 / Math.sqrt(square));
      this.turns.push(((wide * wide - stand * stand) * s * c) / (square * square));
    }
  }

  across(α: number): number {
    return this.quarter.wide * Math.sin(α);
  }

  out(α: number, share: number): number {
    return share >= 1 ? 0 : this.quarter.stand * Math.cos(α);
  }

  protected guess(i: number, within: number): number {
    const { lengths, paces, turns } = this;
    const [from, to] = [ANGLES[i]!, ANGLES[i + 1]!];
    const long = lengths[i + 1]! - lengths[i]!;
    const rest = 1 - within;
    return heldBetween(
      from,
      to,
      within,
      from +
        (to - from) * within * within * within * (10 - within * (15 - 6 * within)) +
        long *
          within *
          rest *
          (rest * rest * (1 + 3 * within) * paces[i]! - within * within * (4 - 3 * within) * paces[i + 1]!) +
        (long * long * within * within * rest * rest * (rest * turns[i]! + within * turns[i + 1]!)) / 2,
    );
  }

  /** Farthest off the curve is in the middle of the panel. */
  protected isTrusted(i: number): boolean {
    const bit = 1 << i;
    if (!(this.looked & bit)) {
      this.looked |= bit;
      const α = this.guess(i, 0.5);
      const off = Math.abs(this.nearer(i, α, (this.lengths[i]! + this.lengths[i + 1]!) / 2) - α);
      if (off < NEAR_ENOUGH) this.near |= bit;
    }
    return (this.near & bit) !== 0;
  }
}

class AnyQuarter extends Panelled {
  constructor(quarter: Quarter) {
    super(quarter);
    for (let i = 0; i < PANELS; i++) this.lengths.push(this.lengths[i]! + wholePanel(quarter, i));
    for (let i = 0; i <= PANELS; i++) this.paces.push(1 / speedBy(quarter, SINES[i]!, COSINES[i]!));
  }

  across(α: number): number {
    const sine = Math.sin(α);
    return this.quarter.wide * radiusAt(this.quarter, sine, Math.cos(α)).r * sine;
  }

  out(α: number, share: number): number {
    const cosine = Math.cos(α);
    return share >= 1 ? 0 : this.quarter.stand * radiusAt(this.quarter, Math.sin(α), cosine).r * cosine;
  }

  protected guess(i: number, within: number): number {
    const { lengths, paces } = this;
    const [from, to] = [ANGLES[i]!, ANGLES[i + 1]!];
    const long = lengths[i + 1]! - lengths[i]!;
    const rest = 1 - within;
    return heldBetween(
      from,
      to,
      within,
      from +
        (to - from) * within * within * (3 - 2 * within) +
        long * within * rest * (rest * paces[i]! - within * paces[i + 1]!),
    );
  }

  protected isTrusted(): boolean {
    return false;
  }
}

const heldBetween = (from: number, to: number, within: number, guess: number): number =>
  guess >= from && guess <= to ? guess : from + (to - from) * within;

const ANGLES = Array.from({ length: PANELS + 1 }, (_, i) => ((Math.PI / 2) * i) / PANELS);
/** A step of Newton's rule that was so small has left nothing to do: what is left goes with its square. */
const SETTLED = 1e-8;
/** Radians: a ten-millionth of a millimetre on a breastplate. */
const NEAR_ENOUGH = 1e-9;

/* Gauss's rule of five points. */
const [INNER, OUTER] = [Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3, Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3];
const [HEAVY, LIGHT] = [(322 + 13 * Math.sqrt(70)) / 900, (322 - 13 * Math.sqrt(70)) / 900];

/* The sines and cosines of the panels are the same for all sections: at the ends of each, and where Gauss's rule looks. */
const SINES = Float64Array.from(ANGLES, Math.sin);
const COSINES = Float64Array.from(ANGLES, Math.cos);
const LOOKS = ANGLES.slice(1).flatMap((to, i) => {
  const from = ANGLES[i]!;
  return [0, -INNER, INNER, -OUTER, OUTER].map((off) => (from + to) / 2 + ((to - from) / 2) * off);
});
const LOOK_SINES = Float64Array.from(LOOKS, Math.sin);
const LOOK_COSINES = Float64Array.from(LOOKS, Math.cos);
const WEIGHTS = Float64Array.of(128 / 225, HEAVY, HEAVY, LIGHT, LIGHT);

/** Length of one of the panels of a quarter. */
function wholePanel(quarter: Quarter, i: number): number {
  let sum = 0;
  for (let k = 0; k < 5; k++) sum += WEIGHTS[k]! * speedBy(quarter, LOOK_SINES[5 * i + k]!, LOOK_COSINES[5 * i + k]!);
  return (Math.PI / 4 / PANELS) * sum;
}

function panel(quarter: Quarter, from: number, to: number): number {
  const middle = (from + to) / 2;
  const half = (to - from) / 2;
  const outer = half * OUTER;
  const inner = half * INNER;
  return (
    half *
    ((128 / 225) * speedAt(quarter, middle) +
      HEAVY * (speedAt(quarter, middle - inner) + speedAt(quarter, middle + inner)) +
      LIGHT * (speedAt(quarter, middle - outer) + speedAt(quarter, middle + outer)))
  );
}

/** What a level's line says, at the middle of the thickness, mm. */
export interface Level {
  readonly high: number;
  readonly round?: number | undefined;
  /** Front to back, and side to side. */
  readonly long?: number | undefined;
  readonly wide?: number | undefined;
  /** How far the front stands out of the widest place. */
  readonly deep?: number | undefined;
  /** How far the level is shifted to the front. */
  readonly offset?: number | undefined;
  readonly ridge?: boolean;
  readonly ends?: 'point' | 'flat' | undefined;
  /** The section itself, where it comes from another piece; the measures above then do not count. */
  readonly section?: Section;
}

/** Squarest section that still can be told from a rectangle. */
const SQUAREST = 40;

/** The section that a level asks for, its girth met exactly; or in plain words why there is none. */
export function sectionOf(level: Level): Section | string {
  if (level.section) return level.section;
  const { round, long, wide, deep, ridge = false } = level;
  return sections.get(`${round} ${long} ${wide} ${deep} ${ridge}`, () => sectionWith(level));
}
/** The last of them: a level is asked for its section again and again, and its girth is not quickly met. */
const sections = new Recent<Section | string>(256);

function sectionWith(level: Level): Section | string {
  const { round, long, wide, deep } = level;
  const ridge = level.ridge ? 1 : 0;
  for (const [what, value] of Object.entries({ round, long, wide, deep }))
    if (value !== undefined && !(value > 0 && value < 1e9)) return say`its ${what} must be more than nothing`;
  if (deep !== undefined && long !== undefined && deep >= long)
    return 'its front cannot stand out further than it is long';
  const make = (half: number, front: number, back: number, power = 2): Section => ({
    wide: half,
    front,
    back,
    power,
    ridge,
  });
  const lengthwise = long === undefined ? undefined : { front: deep ?? long / 2, back: long - (deep ?? long / 2) };
  if (round === undefined) {
    if (lengthwise) return make((wide ?? long!) / 2, lengthwise.front, lengthwise.back);
    if (wide !== undefined) return make(wide / 2, deep ?? wide / 2, wide / 2);
    return deep === undefined ? 'it says nothing of its size' : make(deep, deep, deep);
  }
  if (lengthwise && wide !== undefined) {
    const { front, back } = lengthwise;
    const least = girthOf(make(wide / 2, front, back, 1));
    const most = 2 * (wide + long!);
    if (round < least)
      return say`${said(round)} does not go round it: straight from side to side is ${said(least)} already`;
    if (round >= most) return say`even a square-cornered one of its length and width is only ${said(most)} round`;
    const power = solve((n) => roundOf(make(wide / 2, front, back, n)), round, 1, SQUAREST);
    return power === undefined
      ? say`a girth of ${said(round)} makes its corners too sharp`
      : make(wide / 2, front, back, power);
  }
  if (lengthwise) {
    const { front, back } = lengthwise;
    if (round <= 2 * long!) return say`${said(round)} does not go round it: there and back alone is ${said(2 * long!)}`;
    const half = solve((w) => roundOf(make(w, front, back)), round, 0, round);
    return half === undefined ? 'no section has its girth and length' : make(half, front, back);
  }
  if (wide !== undefined) {
    const least = 2 * wide;
    if (round <= least) return say`${said(round)} does not go round it: there and back alone is ${said(least)}`;
    const depth = solve((l) => roundOf(make(wide / 2, deep ?? l, l)), round, 0, round);
    return depth === undefined ? 'its front alone takes up its girth' : make(wide / 2, deep ?? depth, depth);
  }
  if (deep !== undefined) {
    const half = solve((w) => roundOf(make(w, deep, w)), round, 0, round);
    return half === undefined ? 'its front alone takes up its girth' : make(half, deep, half);
  }
  const radius = round / girthOf(make(1, 1, 1));
  return make(radius, radius, radius);
}

/**
 * The section that lies so far outside another one, or inside where `by` is below nought: its width is exact, and its
 * girth, 2π for each mm. Nothing where it would be folded up. Source: girth of a parallel curve (geometry).
 */
export function grownSection(section: Section, by: number): Section | undefined {
  const wide = section.wide + by;
  const girth = girthOf(section) + 2 * Math.PI * by;
  const least = Math.min(section.front, section.back);
  if (!(wide > 0 && girth > 0)) return undefined;
  const grown = (x: number): Section => ({ ...section, wide, front: section.front + x, back: section.back + x });
  const x = solve((more) => roundOf(grown(more)), girth, -least, Math.abs(by) + least + wide);
  return x === undefined ? undefined : grown(x);
}

const said = (value: number) => `${Math.round(value * 10) / 10} mm`;

/**
 * Where a rising function has a value, to the last digits; nothing where the value does not lie between. A parabola through
 * three points where that can be trusted, else half way. Source: T. R. Chandrupatla 1997 (from memory).
 */
function solve(height: (x: number) => number, value: number, from: number, to: number): number | undefined {
  let [a, b] = [from + 1e-9 * (to - from), to];
  let [fa, fb] = [height(a) - value, height(b) - value];
  if (!(fa <= 0 && fb >= 0)) return undefined;
  let [c, fc] = [a, fa];
  let share = 0.5;
  // As close as halving comes to it, and closed in from both sides.
  const close = 1e-14 * to;
  for (let i = 0; i < 100; i++) {
    if (fa === 0 || fb === 0) return fa === 0 ? a : b;
    const x = a + share * (b - a);
    const fx = height(x) - value;
    if (Math.sign(fx) === Math.sign(fa)) [c, fc] = [a, fa];
    else [c, b, fc, fb] = [b, a, fb, fa];
    [a, fa] = [x, fx];
    const wide = Math.abs(b - a);
    if (fa === 0 || !(wide > close)) break;
    const [ξ, φ] = [(a - b) / (c - b), (fa - fb) / (fc - fb)];
    const isTrusted = φ * φ < ξ && (1 - φ) * (1 - φ) < 1 - ξ;
    const reckoned = (fa / (fb - fa)) * (fc / (fb - fc)) + ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb));
    const least = Math.min(0.5, close / 2 / wide);
    share = isTrusted ? Math.min(1 - least, Math.max(least, reckoned)) : 0.5;
  }
  return fa === 0 || Math.abs(fa) < Math.abs(fb) ? a : b;
}
