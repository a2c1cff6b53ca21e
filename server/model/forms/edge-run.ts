import type { Path } from '../../geometry/outline/path.ts';
import { lengthOf, radiusOf, type Span, spansOf, sweepOf } from '../../geometry/outline/span.ts';
import type { Chart, Spot } from '../../geometry/surface/chart.ts';
import { apart, cross, dot, minus, plus, size, unit, type Vector } from '../../geometry/surface/vector.ts';
import { directionOut } from '../../geometry/surface/walk.ts';
import { NOT_KNOWN, type NotKnown } from './answers.ts';

/** How an edge runs, along the middle of the thickness: stations in mm from where it is measured, angles in degrees. */
export interface EdgeRun {
  /**
   * What it turns through between two stations, or in all: a wire that lies outside it is as much longer as on a circle.
   * Below nought where it is hollow.
   */
  turns(from?: number, to?: number): number;
  /** 1/mm; above nought where it bulges outward. At a corner that of what follows. */
  curvature(station: number): number;
  /** The smallest radius that it bulges with, mm; corners do not count. */
  readonly tightest: number | Straight | NotKnown;
  /** The same of where it is hollow, if it is somewhere. */
  readonly hollow?: number;
}

export const STRAIGHT = 'straight';
export type Straight = typeof STRAIGHT;

export const straightRun: EdgeRun = { turns: () => 0, curvature: () => 0, tightest: STRAIGHT };

const degrees = (angle: number) => (angle * 180) / Math.PI;

/** A circle, or so many degrees of one. */
export function circularRun(radius: number, whole: number): EdgeRun {
  const length = (radius * whole * Math.PI) / 180;
  const held = (station: number) => Math.min(length, Math.max(0, station));
  return {
    turns: (from, to) =>
      from === undefined || to === undefined ? whole : degrees(Math.max(0, held(to) - held(from)) / radius),
    curvature: () => 1 / radius,
    tightest: radius,
  };
}

/** Round an oval from the end of its long axis: all of it, the left half, or so many degrees about its front. */
export function ovalRun(long: number, wide: number, part: 'whole' | 'half' | number): EdgeRun {
  const [a, b] = [long / 2, wide / 2];
  if (a === b) return circularRun(a, part === 'whole' ? 360 : part === 'half' ? 180 : part);
  const start = typeof part === 'number' ? (-part * Math.PI) / 360 : 0;
  const about = part === 'whole' ? 2 * Math.PI : part === 'half' ? Math.PI : (part * Math.PI) / 180;
  const speed = (t: number) => Math.hypot(a * Math.sin(t), b * Math.cos(t));
  const simpson = (from: number, to: number) =>
    ((to - from) * (speed(from) + 4 * speed((from + to) / 2) + speed(to))) / 6;
  const lengths = [0];
  const at = (i: number) => start + (about * i) / OVAL_STEPS;
  for (let i = 0; i < OVAL_STEPS; i++) lengths.push(lengths[i]! + simpson(at(i), at(i + 1)));
  const parameterAt = (station: number): number => {
    if (!(station > 0)) return start;
    let i = 0;
    while (i < OVAL_STEPS && lengths[i + 1]! < station) i++;
    if (i === OVAL_STEPS) return start + about;
    let t = at(i);
    for (let step = 0; step < 4; step++) t += (station - lengths[i]! - simpson(at(i), t)) / speed(t);
    return t;
  };
  // How far the tangent is turned from that at the end of the long axis: rises evenly, a quarter turn each quarter.
  const headingAt = (t: number) =>
    t + Math.atan2((a - b) * Math.sin(t) * Math.cos(t), b * Math.cos(t) ** 2 + a * Math.sin(t) ** 2);
  const curvature = (t: number) => (a * b) / speed(t) ** 3;
  const [least, most] = [Math.min(a, b), Math.max(a, b)];
  const reachesTip = a >= b || part === 'whole' || part === 'half' || about >= Math.PI;
  return {
    turns(from, to) {
      if (from === undefined || to === undefined) return degrees(headingAt(start + about) - headingAt(start));
      return Math.max(0, degrees(headingAt(parameterAt(to)) - headingAt(parameterAt(from))));
    },
    curvature: (station) => curvature(parameterAt(station)),
    tightest: reachesTip ? (least * least) / most : 1 / curvature(start),
  };
}
const OVAL_STEPS = 360;

/** Once round a closed outline, anticlockwise. */
export function outlineRun(path: Path): EdgeRun {
  const spans = spansOf(path);
  const ends = [0];
  for (const span of spans) ends.push(ends.at(-1)! + lengthOf(span));
  const corner = (i: number) => cornerAt(spans[(i + spans.length - 1) % spans.length]!, spans[i]!);
  const spanAt = (station: number) => {
    let i = 0;
    while (i < spans.length - 1 && ends[i + 1]! <= station) i++;
    return i;
  };
  const radii = (sign: 1 | -1) => spans.filter((span) => sign * span.bulge > 0).map((span) => Math.abs(radiusOf(span)));
  const [out, hollow] = [radii(1), radii(-1)];
  return {
    turns(from, to) {
      // Once round is once round, whatever the way.
      if (from === undefined || to === undefined) return 360;
      return spans.reduce((sum, span, i) => {
        const length = ends[i + 1]! - ends[i]!;
        const share = Math.max(0, Math.min(to, ends[i + 1]!) - Math.max(from, ends[i]!)) / (length || 1);
        const turned = from < ends[i]! && ends[i]! < to ? corner(i) : 0;
        return sum + degrees(share * sweepOf(span) + turned);
      }, 0);
    },
    curvature(station) {
      const span = spans[spanAt(station)]!;
      return span.bulge === 0 ? 0 : Math.sign(span.bulge) / Math.abs(radiusOf(span));
    },
    tightest: out.length ? Math.min(...out) : STRAIGHT,
    ...(hollow.length ? { hollow: Math.min(...hollow) } : {}),
  };
}

/** The angle between the end of one span and the beginning of the next, radians. */
export function cornerAt(before: Span, after: Span): number {
  const along = ({ from, to, bulge }: Span, sign: 1 | -1) =>
    Math.atan2(to.y - from.y, to.x - from.x) + sign * 2 * Math.atan(bulge);
  const turn = along(after, -1) - along(before, 1);
  return Math.atan2(Math.sin(turn), Math.cos(turn));
}

/** A point of an edge as it is sampled. */
interface Sample {
  readonly point: Vector;
  readonly ahead: Vector;
  readonly out: Vector;
  /** How far it bends there, 1/mm, without its sign; nothing at a corner. */
  readonly bend: number | undefined;
}

/**
 * How a way over a surface runs, in smooth parts that follow each other. A `side` of the form turns within its own plane,
 * as the rim of a cone does; of a bay only what is turned with the surface counts for a wire that lies on it.
 */
export function chartRun(chart: Chart, parts: readonly ((share: number) => Spot)[], of: 'side' | 'bay'): EdgeRun {
  return sampledRun(
    parts.map((at) => Array.from({ length: SAMPLES + 1 }, (_, i) => sampleOn(chart, at, i / SAMPLES))),
    of,
  );
}

/** The same of a line whose points stand at even steps; stations on it are told as on an edge of another length beside it. */
export function lineRun(points: readonly Vector[], normals: readonly Vector[], length: number): EdgeRun {
  const last = points.length - 1;
  const samples = points.map((point, i): Sample => {
    const [before, here, after] = [-1, 0, 1].map((by) => points[Math.min(last - 1, Math.max(1, i)) + by]!) as Three;
    const at = i === 0 ? 'start' : i === last ? 'end' : 'middle';
    return { point, ahead: aheadOn([before, here, after], at), out: normals[i]!, bend: bendOf(before, here, after) };
  });
  return sampledRun([samples], 'bay', length);
}

const SAMPLES = 48;
/** How near beside a sample its direction and its bend are looked at, as a share of the way. */
const NEAR = 5e-4;

function sampleOn(chart: Chart, at: (share: number) => Spot, share: number): Sample {
  const middle = Math.min(1 - NEAR, Math.max(NEAR, share));
  const near = [-NEAR, 0, NEAR].map((by) => chart.point(...at(middle + by))) as Three;
  const spot = at(share);
  return {
    point: chart.point(...spot),
    ahead: aheadOn(near, share < NEAR ? 'start' : share > 1 - NEAR ? 'end' : 'middle'),
    out: directionOut(chart, spot),
    bend: size(chart.normal(...spot)) > 0 ? bendOf(...near) : undefined,
  };
}

type Three = [before: Vector, here: Vector, after: Vector];

/** The direction at the first, the second or the last of three points at even steps, good to the square of the step. */
function aheadOn([before, here, after]: Three, at: 'start' | 'middle' | 'end'): Vector {
  const [to, from] = [minus(after, here), minus(here, before)];
  if (at === 'middle') return unit(plus(to, from));
  return unit(at === 'start' ? plus(plus(from, from, 0.5), to, -0.5) : plus(plus(to, to, 0.5), from, -0.5));
}

/** Of the circle through three points, 1/mm. */
function bendOf(a: Vector, b: Vector, c: Vector): number {
  const sides = apart(a, b) * apart(b, c) * apart(a, c);
  return sides > 0 ? (2 * size(cross(minus(b, a), minus(c, a)))) / sides : 0;
}

function sampledRun(parts: readonly (readonly Sample[])[], of: 'side' | 'bay', told?: number): EdgeRun {
  const stations: number[] = [];
  const turned: number[] = [];
  const bends: number[] = [];
  let [length, angle, bent] = [0, 0, 0];
  for (const [k, samples] of parts.entries()) {
    for (const [i, sample] of samples.entries()) {
      const before = i > 0 ? samples[i - 1]! : k > 0 ? lastThat(parts[k - 1]!, sample) : undefined;
      if (before) {
        const whole = angleBetween(before, sample);
        angle += turnBetween(before, sample, of);
        bent += whole;
        // An arc is longer than its chord.
        if (i > 0) length += apart(before.point, sample.point) * (1 + (whole * whole) / 24);
      }
      const [from, to] = i < samples.length - 1 ? [sample, samples[i + 1]!] : [samples[i - 1]!, sample];
      stations.push(length);
      turned.push(angle);
      bends.push(sample.bend === undefined ? 0 : Math.sign(turnBetween(from, to, of)) * sample.bend);
    }
  }
  if (bent < AS_GOOD_AS_STRAIGHT) return straightRun;
  const scale = told === undefined ? 1 : length / told;
  const valueAt = (values: readonly number[], at: number) => {
    const station = at * scale;
    let i = 1;
    while (i < stations.length - 1 && stations[i]! < station) i++;
    const [from, to] = [stations[i - 1]!, stations[i]!];
    const share = to > from ? Math.min(1, Math.max(0, (station - from) / (to - from))) : 1;
    return values[i - 1]! + share * (values[i]! - values[i - 1]!);
  };
  const radiusOfSign = (sign: 1 | -1) => {
    const most = bends.reduce((sum, bend) => Math.max(sum, sign * bend), 0);
    return most * length > AS_GOOD_AS_STRAIGHT ? 1 / most : undefined;
  };
  const hollow = radiusOfSign(-1);
  return {
    turns: (from, to) =>
      degrees(from === undefined || to === undefined ? angle : valueAt(turned, to) - valueAt(turned, from)),
    curvature: (station) => valueAt(bends, station),
    tightest: of === 'bay' ? NOT_KNOWN : (radiusOfSign(1) ?? STRAIGHT),
    ...(of === 'bay' || hollow === undefined ? {} : { hollow }),
  };
}

/** What differs by less than this from straight, rad over the whole edge, is so but for rounding. */
const AS_GOOD_AS_STRAIGHT = 1e-5;

/** The end of a part that another begins at: what bays leave of an edge does not hang together. */
function lastThat(part: readonly Sample[], { point }: Sample): Sample | undefined {
  const last = part.at(-1);
  return last && apart(last.point, point) < 1e-6 ? last : undefined;
}

/** How far the way is turned from one sample to the next, rad: above nought away from the outside. */
function turnBetween(from: Sample, to: Sample, of: 'side' | 'bay'): number {
  const into = -dot(minus(to.ahead, from.ahead), unit(plus(from.out, to.out)));
  return of === 'bay' ? into : Math.sign(into) * angleBetween(from, to);
}

const angleBetween = (from: Sample, to: Sample): number =>
  Math.atan2(size(cross(from.ahead, to.ahead)), dot(from.ahead, to.ahead));
