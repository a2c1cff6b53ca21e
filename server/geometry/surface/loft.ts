import { say } from '../../../l10n/say.ts';
import { type Chart, columnAt, levelAt, type Spot, type Track } from './chart.ts';
import { pchip } from './pchip.ts';
import { lastOf, remembered } from './remembered.ts';
import { girthOf, type Level, type Section, sectionOf, type Walk, walk } from './section.ts';
import { apart, NOWHERE, unit, type Vector } from './vector.ts';

/** A form by its levels: all round or so far round, the middle in front; or half of it, split lengthwise. */
export interface LoftShape {
  readonly levels: readonly Level[];
  /** Degrees, told along each section: 90 is the side, 180 the back. `half` is the wearer's left half, 0 to 180. */
  readonly wrap: number | 'half';
}

/** A level that cannot be made, and why. */
export interface LoftRefusal {
  /** Its place in the list; nothing where all of them together are at fault. */
  readonly level?: number;
  readonly why: string;
}

/** The levels as sections, lowest first, a point or a crown as a section of nothing. */
interface Station {
  readonly high: number;
  readonly section: Section;
  readonly offset: number;
}

const NOTHING: Section = { wide: 0, front: 0, back: 0, power: 2, ridge: 0 };

/** Why a form of these levels cannot be made; nothing where it can. */
export function loftRefusals({ levels, wrap }: LoftShape): readonly LoftRefusal[] {
  if (wrap !== 'half' && !(wrap > 0 && wrap <= 360))
    return [{ why: 'the wrap must be more than 0 and at most 360 deg' }];
  if (levels.length < 2) return [{ why: 'a form needs two levels or more' }];
  const order = levels.map((_, i) => i).sort((a, b) => levels[a]!.high - levels[b]!.high);
  return levels.flatMap((level, i): LoftRefusal[] => {
    if (!Number.isFinite(level.high) || Math.abs(level.high) > 1e9)
      return [{ level: i, why: 'its height is not a number' }];
    if (levels.some((other, k) => k < i && other.high === level.high))
      return [{ level: i, why: 'there is another level at this height' }];
    if (level.ends && order.at(-1) !== i)
      return [
        {
          level: i,
          why: say`only the highest level can end in a ${level.ends === 'flat' ? say`flat top` : say`point`}`,
        },
      ];
    if (isTip(level)) return order[0] === i ? [{ level: i, why: 'a form does not begin with its end' }] : [];
    const section = sectionOf(level);
    return typeof section === 'string' ? [{ level: i, why: section }] : [];
  });
}

/** Whether a form closes over at its top, so that it has no top edge. */
export const endsInTip = ({ levels }: LoftShape): boolean => levels.some(({ ends }) => ends !== undefined);

/** The section of a form's lowest level. */
export function lowestSection({ levels }: LoftShape): Section | undefined {
  const lowest = levels.reduce<Level | undefined>(
    (low, each) => (low && low.high <= each.high ? low : each),
    undefined,
  );
  const section = lowest && sectionOf(lowest);
  return typeof section === 'string' ? undefined : section;
}

/** A point, or a crown that closes over: a level with no section of its own. */
const isTip = ({ ends, round, long, wide, deep, section }: Level): boolean =>
  ends === 'point' || (ends === 'flat' && [round, long, wide, deep, section].every((each) => each === undefined));

function stationsOf(levels: readonly Level[]): Station[] {
  return [...levels]
    .sort((a, b) => a.high - b.high)
    .flatMap((level): Station[] => {
      const offset = level.offset ?? 0;
      if (isTip(level)) return [{ high: level.high, section: NOTHING, offset }];
      const section = sectionOf(level) as Section;
      const station = { high: level.high, section, offset };
      // A flat top is one more section of nothing at the same height: the wall turns into it in a smooth round.
      return level.ends === 'flat' ? [station, { ...station, section: NOTHING }] : [station];
    });
}

/** How the sections of a form that can be made change on the way up. */
function curvesOf(shape: LoftShape) {
  const stations = stationsOf(shape.levels);
  const last = stations.at(-1)!;
  const tip = isClosed(last);
  const rounded = tip && shape.levels.every((level) => level.ends !== 'point');
  const radii = stations.map(({ section }) => (isEmpty(section) ? 0 : girthOf(section) / (2 * Math.PI)));
  const times = [0];
  for (let i = 1; i < stations.length; i++) {
    const [a, b] = [stations[i - 1]!, stations[i]!];
    times.push(times[i - 1]! + Math.hypot(b.high - a.high, radii[i]! - radii[i - 1]!, b.offset - a.offset));
  }
  const whole = times.at(-1)!;
  // What a section of nothing takes from the one below it: its shape, so that only its size shrinks.
  const shapes = stations.map(({ section }, i) => (isEmpty(section) ? stations[i - 1]!.section : section));
  const lone = rounded && stations.length === 2;
  const sized = (of: (section: Section) => number) => {
    const values = stations.map(({ section }) => of(section));
    // One level and a crown: a quarter of an oval, near enough.
    return pchip(times, values, lone ? { start: 0, end: ((Math.PI / 2) * (values[1]! - values[0]!)) / whole } : {});
  };
  const curves = {
    high: pchip(
      times,
      stations.map(({ high }) => high),
      rounded
        ? { end: 0, ...(lone ? { start: ((Math.PI / 2) * (stations[1]!.high - stations[0]!.high)) / whole } : {}) }
        : {},
    ),
    offset: pchip(
      times,
      stations.map(({ offset }) => offset),
    ),
    wide: sized(({ wide }) => wide),
    front: sized(({ front }) => front),
    back: sized(({ back }) => back),
    power: pchip(
      times,
      shapes.map(({ power }) => power),
    ),
    ridge: pchip(
      times,
      shapes.map(({ ridge }) => ridge),
    ),
  };
  const sectionAt = (t: number): Section => ({
    wide: curves.wide.at(t),
    front: curves.front.at(t),
    back: curves.back.at(t),
    power: curves.power.at(t),
    ridge: curves.ridge.at(t),
  });
  return { curves, sectionAt, whole, last, tip, rounded };
}

/** The section of a form at a height, and how far it is shifted to the front. */
export interface SectionAt {
  readonly section: Section;
  readonly offset: number;
}

/** The sections of a form by their heights, and the heights between which it has them; nothing where it cannot be made. */
export function loftSections(
  shape: LoftShape,
): { readonly heights: readonly number[]; at(height: number): SectionAt | undefined } | undefined {
  if (loftRefusals(shape).length) return undefined;
  const { curves, sectionAt, whole } = curvesOf(shape);
  const heights = [...new Set(shape.levels.map(({ high }) => high))].sort((a, b) => a - b);
  const [low, up] = [heights[0]!, heights.at(-1)!];
  return {
    heights,
    at(height) {
      if (!(height >= low - 1e-9 && height <= up + 1e-9)) return undefined;
      // The way up rises with the height. A wall below a flat top is what a height at that top means.
      let [from, to] = [0, whole];
      for (let i = 0; i < 60 && to - from > 1e-12 * whole; i++) {
        const middle = (from + to) / 2;
        if (curves.high.at(middle) < height) from = middle;
        else to = middle;
      }
      const t = height >= up && !endsInTip(shape) ? whole : height <= low ? 0 : to;
      const section = sectionAt(t);
      return section.wide > 0 ? { section, offset: curves.offset.at(t) } : undefined;
    },
  };
}

/**
 * A form by its levels as a chart; nothing where {@link loftRefusals} says why not.
 *
 * Between the levels the half width, how far the section stands out in front and behind, its squareness, its ridge and
 * its offset each run smoothly and without overshoot (piecewise cubics, `pchip`), by the way up the form from level to
 * level. Two levels make straight lines: with sections of one shape a true cone. A crown (`flat` without a size) meets
 * the axis level. Points of one column lie at the same share of each section's quarters.
 */
export function loftChart(shape: LoftShape): Chart | undefined {
  if (loftRefusals(shape).length) return undefined;
  const { curves, sectionAt, whole, last, tip, rounded } = curvesOf(shape);
  const walkAt = remembered((v: number): Walk => walk(sectionAt(whole * v)));
  const degrees = (u: number) => (shape.wrap === 'half' ? 180 * u : shape.wrap * (u - 0.5));
  const onLevel = lastOf((u, v) => walkAt(v).at(degrees(u)));

  const point = (u: number, v: number): Vector => {
    const t = whole * v;
    if (tip && v === 1) return [0, last.offset, last.high];
    const at = onLevel(u, v);
    return [at[0], at[1] + curves.offset.at(t), curves.high.at(t)];
  };
  const normal = (u: number, v: number): Vector => {
    if (tip && v === 1) return rounded ? [0, 0, 1] : NOWHERE;
    const t = whole * v;
    const section = sectionAt(t);
    const turned = degrees(u);
    const [x, y] = onLevel(u, v);
    const inFront = Math.abs(turned) <= 90;
    const stand = inFront ? section.front : section.back;
    const [n, k] = [section.power, inFront ? section.ridge : 0];
    const onMiddle = Math.abs(x) < 1e-9 * section.wide;
    if (k > SHARP && onMiddle && inFront) return NOWHERE;
    const X = Math.min(1, Math.abs(x) / section.wide);
    const Y = Math.min(1, Math.abs(y) / stand);
    // The section is G(X, Y) = 1; the surface's normal is the slope of G along x, y and the way up.
    const GY = n * Y ** (n - 1);
    const GX = onMiddle ? 0 : n * (1 - k) * X ** (n - 1) + (k * n * X ** (n / 2 - 1)) / 2;
    const log = (w: number) => (w > 1e-12 ? w ** n * Math.log(w) : 0);
    const Gn = log(Y) + (1 - k) * log(X) + (k > 0 && X > 1e-12 ? (k / 2) * X ** (n / 2) * Math.log(X) : 0);
    const Gk = inFront ? X ** (n / 2) - X ** n : 0;
    const slope = inFront ? curves.front.slope(t) : curves.back.slope(t);
    const outY = Math.sign(y) || (inFront ? 1 : -1);
    const Gt =
      (-GX * X * curves.wide.slope(t)) / section.wide -
      (GY * Y * slope) / stand -
      (GY * outY * curves.offset.slope(t)) / stand +
      Gn * curves.power.slope(t) +
      Gk * curves.ridge.slope(t);
    const rise = curves.high.slope(t);
    return unit([((Math.sign(x) * GX) / section.wide) * rise, ((outY * GY) / stand) * rise, Gt]);
  };
  /** Way along a level, signed from the middle of the form, mm. */
  const share = (v: number) => {
    const { front, back } = walkAt(Math.min(Math.max(v, 0), tip ? 1 - 1e-9 : 1));
    return shape.wrap === 'half' ? (front + back) / 180 : (2 * (front + back)) / 360;
  };
  const rise = upColumn(point);
  const half = shape.wrap === 'half' ? 90 : shape.wrap / 2;
  return {
    point,
    normal,
    closed: false,
    poles: { bottom: false, top: tip },
    columns: columnsOf(shape.wrap),
    ...namesOf(shape.wrap, tip),
    sheet: (u, v) => [share(v) * half * (2 * u - 1), rise.length(v)],
    spot(x, y): Spot {
      const v = rise.share(y);
      return [0.5 + x / (2 * half * share(v)), v];
    },
  };
}

/** Where the ridge is duller than this it has a normal like any other line. */
const SHARP = 0.02;

const isEmpty = ({ wide }: Section): boolean => wide === 0;
const isClosed = ({ section }: Station): boolean => isEmpty(section);

/** Columns at the front and, where they are part of the form, at the sides. */
function columnsOf(wrap: number | 'half'): number[] {
  if (wrap === 'half') return [0, 0.5, 1];
  const side = 90 / wrap;
  return wrap > 200 ? [0, 0.5 - side, 0.5, 0.5 + side, 1] : [0, 0.5, 1];
}

function namesOf(wrap: number | 'half', tip: boolean): Pick<Chart, 'edges' | 'lines'> {
  const edges = new Map<string, Track>([
    ['bottom', levelAt(0)],
    ['left', columnAt(0)],
    ['right', columnAt(1)],
  ]);
  if (!tip) edges.set('top', levelAt(1));
  const lines = new Map<string, Track>();
  if (wrap === 'half') {
    lines.set('front', columnAt(0)).set('side', columnAt(0.5)).set('back', columnAt(1));
    lines.set(
      'middle',
      tip
        ? [
            [0, 0],
            [0, 1],
            [1, 1],
            [1, 0],
          ]
        : columnAt(0.5),
    );
  } else {
    lines.set('front', columnAt(0.5)).set('middle', columnAt(0.5));
    if (wrap > 200) lines.set('side', columnAt(0.5 + 90 / wrap));
    if (wrap === 360) lines.set('back', columnAt(0));
  }
  if (tip) lines.set('crown', [[0, 1]]);
  return { edges, lines };
}

/** Way up the middle column, both ways. */
function upColumn(point: (u: number, v: number) => Vector) {
  const steps = 48;
  const lengths = [0];
  let from = point(0.5, 0);
  for (let i = 1; i <= steps; i++) {
    const to = point(0.5, i / steps);
    lengths.push(lengths[i - 1]! + apart(from, to));
    from = to;
  }
  const whole = lengths[steps]!;
  return {
    length(v: number): number {
      const at = Math.min(Math.max(v * steps, 0), steps);
      const i = Math.min(steps - 1, Math.floor(at));
      return lengths[i]! + (lengths[i + 1]! - lengths[i]!) * (at - i);
    },
    share(length: number): number {
      if (length <= 0 || length >= whole) return length / whole;
      let [low, high] = [0, steps];
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (lengths[middle]! <= length) low = middle;
        else high = middle;
      }
      return (low + (length - lengths[low]!) / (lengths[high]! - lengths[low]!)) / steps;
    },
  };
}
