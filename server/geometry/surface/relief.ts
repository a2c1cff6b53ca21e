import { measured, wayOf } from './along.ts';
import { type Chart, columnAt, levelAt, type Spot, type Track } from './chart.ts';
import { pathLength } from './mesh.ts';
import { lastOf, remembered } from './remembered.ts';
import { apart, cross, dot, minus, NOWHERE, plus, unit, type Vector } from './vector.ts';
import { directionOut } from './walk.ts';

/*
 * What is worked into a form: flutes and creases stand out of its surface along its normals. The chart keeps its two
 * parameters, so that a place, an edge or a bay lies at the same spot with them and without.
 */

/** Flutes from the bottom of a form to its top, mm. */
export interface Flutes {
  readonly count: number;
  /** How far each stands out of the surface; below nought how far it is sunk in. */
  readonly deep: number;
  /** Over its chord, where the form is widest. */
  readonly wide: number;
}

/** A ridge along a line of the form, mm. */
export interface Crease {
  /** `middle`, `front`: a line or a side of the form that runs up and down it. */
  readonly line: string;
  /** How far it stands out of the surface; below nought how far it is sunk in. */
  readonly deep: number;
  /** Of both its sides together. */
  readonly wide?: number | undefined;
  /** A part of the line, measured along it from its start. */
  readonly stretch?: { readonly from: number; readonly to: number } | undefined;
}

/** How far a surface is moved out at a spot, mm, and where that folds it. */
export interface Relief {
  height(u: number, v: number): number;
  readonly folds: ReadonlyMap<string, Track>;
  /** Further columns that the mesh needs to follow it. */
  readonly columns: readonly number[];
}

/**
 * The form with what stands out of it: where several meet they add up. Each is that of the plain form.
 */
export function relievedChart(chart: Chart, reliefs: readonly Relief[]): Chart {
  if (!reliefs.length) return chart;
  const folds = new Map(reliefs.flatMap((relief) => [...relief.folds]));
  const folded = [...folds.values()].map(([spot]) => spot![0]);
  const columns = [...new Set([...chart.columns, ...reliefs.flatMap((relief) => relief.columns), ...folded])].sort(
    (a, b) => a - b,
  );
  const heightAt = (u: number, v: number) => {
    let height = 0;
    for (const relief of reliefs) height += relief.height(u, v);
    return height;
  };
  const point = lastOf((u, v): Vector => {
    const height = heightAt(u, v);
    return height === 0 ? chart.point(u, v) : plus(chart.point(u, v), directionOut(chart, [u, v]), height);
  });
  return {
    ...chart,
    columns,
    folds,
    point,
    normal(u, v) {
      const isPlain = heightAt(u, v) === 0 && heightAt(u - BESIDE, v) === 0 && heightAt(u + BESIDE, v) === 0;
      return isPlain ? chart.normal(u, v) : normalBySlopes(chart, point, [u, v], folded);
    },
  };
}

/**
 * Flutes: evenly spread between the form's left edge and its right one, half a space at either end. Each is an
 * arc over its chord, half an oval where it is deeper than half its width. They run up the form's columns and narrow with
 * them, their depth in proportion; `wide` is that of the widest level.
 *
 * Nothing where they have no room side by side. Range: one flute or more, of some depth and width.
 */
export function fluteRelief(
  chart: Chart,
  { count, deep, wide }: Flutes,
  before = 0,
  widest = widestRow(chart),
): Relief | undefined {
  const flutes = Array.from({ length: count }, (_, i) => {
    const middle = (i + 0.5) / count;
    const scale = remembered((v: number) => scaleAcross(chart, middle, v));
    return { middle, half: wide / 2 / scale(widest), scale };
  });
  // Side by side two of them take a whole space.
  if (flutes.some(({ half }) => !(half * 2 * count < 1 - 1e-9))) return undefined;
  const section = fluteCurve(Math.abs(deep) / (wide / 2));
  const folds = new Map<string, Track>();
  flutes.forEach(({ middle, half }, i) => {
    folds.set(`flute ${before + i + 1} left`, columnAt(middle - half));
    folds.set(`flute ${before + i + 1} right`, columnAt(middle + half));
  });
  return {
    folds,
    // Half way up its sides: a whole half of a deep one turns through too much for one row of triangles.
    columns: flutes.flatMap(({ middle, half }) => [middle - half / 2, middle, middle + half / 2]),
    height(u, v) {
      const flute = flutes[Math.min(count - 1, Math.max(0, Math.floor(u * count)))]!;
      const across = Math.abs(u - flute.middle) / flute.half;
      return across >= 1 ? 0 : Math.sign(deep) * flute.half * flute.scale(v) * section(across);
    },
  };
}

/** How many flutes of a width have room side by side; none where not even one has. */
export function mostFlutes(chart: Chart, { deep, wide }: Omit<Flutes, 'count'>): number {
  const widest = widestRow(chart);
  const level = widthAt(chart, widest);
  // Chords are a little short, and a form may be narrower across some of its columns.
  for (let count = Math.min(1000, Math.ceil(level / wide)); count > 0; count--)
    if (fluteRelief(chart, { count, deep, wide }, 0, widest)) return count;
  return 0;
}

/**
 * A crease. Its sides are flat and run out into the curve on both sides of it, at a tangent: so its
 * width follows from its depth and from how the form is curved across the line. Where a width is given, or the form is
 * sunk in, they are hollow (a parabola) and run out at that width. The round at the very ridge is left out.
 *
 * Nothing where the form has no such line, or is not curved across it and no width is said.
 * Source: tangents to a circle from a point outside it (geometry).
 */
export function creaseRelief(chart: Chart, crease: Crease): Relief | undefined {
  const track = trackOf(chart, crease.line);
  const course = track && courseOf(chart, track, crease);
  if (!course) return undefined;
  const line = drawnLine(chart, track, course.widest);
  const folds = new Map<string, Track>(
    [...new Set(track.map(([u]) => u))].map((u) => [`crease ${crease.line} ${u}`, columnAt(u)]),
  );
  const sign = Math.sign(crease.deep);
  return {
    folds,
    columns: [],
    height(u, v) {
      const near = line.nearest(chart.sheet(u, v));
      if (!near) return 0;
      const { share, distance } = near;
      const { deep, reach, curve } = course.at(share);
      if (!(distance < reach)) return 0;
      if (curve === 0) return sign * deep * (1 - distance / reach) ** 2;
      // The flat side lies 1/curve from the middle of the curve; what stands out of it goes along the normals.
      return sign * (1 / Math.cos((reach - distance) * curve) - 1) * (1 / curve);
    },
  };
}

/** What a crease asks of the metal, in the middle of its length. */
export interface CreaseSection {
  /** How far it stands out, and its width with both sides, mm. */
  readonly deep: number;
  readonly wide: number;
  /** The curve of the form across it, 1/mm, where its sides are tangents to that; nothing where they are hollow. */
  readonly curve?: number;
}

/** The section of a crease half way along it; nothing where {@link creaseRelief} makes none. */
export function creaseSection(chart: Chart, crease: Crease): CreaseSection | undefined {
  const track = trackOf(chart, crease.line);
  const course = track && courseOf(chart, track, crease);
  if (!course) return undefined;
  const { from, to } = crease.stretch ?? { from: 0, to: course.length };
  const { deep, reach, curve } = course.at((from + to) / 2 / course.length);
  return { deep, wide: 2 * reach, ...(curve ? { curve } : {}) };
}

/** How far out a crease stands along its line, and how wide it is there. */
interface Course {
  /** At a share of the line: how far out, mm, and how far to either side it reaches, mm. */
  at(share: number): { readonly deep: number; readonly reach: number; readonly curve: number };
  /** The most that it reaches to either side, mm. */
  readonly widest: number;
  /** Of the whole line, mm. */
  readonly length: number;
}

function courseOf(chart: Chart, track: Track, { deep, wide, stretch }: Crease): Course | undefined {
  const at = wayOf(chart, track);
  const { length } = measured(chart, at, 128);
  const curves = Array.from({ length: TABLE + 1 }, (_, i) => curveAcross(chart, at(i / TABLE), wide ?? length / 20));
  const asTangents = wide === undefined && deep > 0;
  if (wide === undefined && !curves.some((curve) => curve > FLAT)) return undefined;
  const height = Math.abs(deep);
  /** How far to either side flat sides reach that stand so far out of so much curve. */
  const reachOf = (out: number, curve: number) =>
    Math.acos(1 / (1 + out * Math.max(curve, FLAT))) / Math.max(curve, FLAT);
  return {
    length,
    widest: wide === undefined ? Math.max(...curves.map((curve) => reachOf(height, curve))) : wide / 2,
    at(share) {
      const place = Math.min(TABLE, Math.max(0, share * TABLE));
      const i = Math.min(TABLE - 1, Math.floor(place));
      const curve = Math.max(FLAT, curves[i]! + (curves[i + 1]! - curves[i]!) * (place - i));
      const full = wide === undefined ? reachOf(height, curve) : wide / 2;
      const out = height * (stretch ? runOut(share * length, stretch, full) : 1);
      if (!(out > 0)) return { deep: 0, reach: 0, curve: 0 };
      return asTangents ? { deep: out, reach: reachOf(out, curve), curve } : { deep: out, reach: full, curve: 0 };
    },
  };
}

/** Where a crease ends on the form it runs out smoothly over as long as it is wide to one side. */
function runOut(way: number, { from, to }: { from: number; to: number }, over: number): number {
  const inside = Math.min(way - from, to - way);
  const share = Math.min(1, Math.max(0, inside / Math.min(over, Math.max(1e-9, (to - from) / 2))));
  return share * share * (3 - 2 * share);
}

/** A form that is curved less across a line, 1/mm, is flat there: a radius of five metres. */
const FLAT = 1 / 5000;
const TABLE = 32;

/** Whether a form has this line or side, and it runs up and down it, so that it can be creased. */
export const runsUp = (chart: Chart, line: string): boolean => trackOf(chart, line) !== undefined;

/** A line or a side of the form that runs along columns. */
function trackOf(chart: Chart, name: string): Track | undefined {
  const track = chart.lines.get(name) ?? chart.edges.get(name);
  if (!track || track.length < 2) return undefined;
  const onPole = (a: Spot, b: Spot) =>
    a[1] === b[1] && ((a[1] === 1 && chart.poles.top) || (a[1] === 0 && chart.poles.bottom));
  return track.every((to, i) => i === 0 || to[0] === track[i - 1]![0] || onPole(track[i - 1]!, to)) ? track : undefined;
}

/** The curve of the form across a column, 1/mm, on the side on which there is form, `within` mm of it. */
function curveAcross(chart: Chart, [u, v]: Spot, within: number): number {
  const row = Math.min(1 - 1e-4, Math.max(1e-4, v));
  const scale = scaleAcross(chart, u, row);
  if (!(scale > 0)) return 0;
  const step = Math.min(0.02, within / 4 / scale);
  const toward = u + 2 * step <= 1 ? 1 : -1;
  const [a, b] = [u + toward * step * 0.5, u + toward * step * 1.5];
  const along = minus(chart.point(b, row), chart.point(a, row));
  const turn = minus(chart.normal(b, row), chart.normal(a, row));
  return dot(turn, along) / dot(along, along);
}

/** mm across for the whole of u, at a spot. */
function scaleAcross(chart: Chart, u: number, v: number): number {
  const by = 1e-5;
  const [from, to] = [Math.max(0, u - by), Math.min(1, u + by)];
  return apart(chart.point(from, v), chart.point(to, v)) / (to - from);
}

function widestRow(chart: Chart): number {
  const rows = Array.from({ length: 33 }, (_, i) => i / 32);
  const widths = rows.map((v) => widthAt(chart, v));
  return rows[widths.indexOf(Math.max(...widths))]!;
}

const widthAt = (chart: Chart, v: number): number => pathLength(chart, levelAt(v), 16);

/** Height of a flute over the half of its chord, which is 1: an arc, or an oval's half where it is deeper than that. */
function fluteCurve(deep: number): (across: number) => number {
  if (deep > 1) return (across) => deep * Math.sqrt(1 - across * across);
  const radius = (1 + deep * deep) / (2 * deep);
  return (across) => Math.sqrt(radius * radius - across * across) - (radius - deep);
}

/** A line on the form laid out along its own lines, as chords, and the way from a place within so far of it. */
function drawnLine(chart: Chart, track: Track, within: number) {
  const at = wayOf(chart, track);
  const points = Array.from({ length: CHORDS + 1 }, (_, i) => chart.sheet(...at(i / CHORDS)));
  const [left, right] = [Math.min, Math.max].map((most) => most(...points.map(([x]) => x))) as [number, number];
  const [low, high] = [Math.min, Math.max].map((most) => most(...points.map(([, y]) => y))) as [number, number];
  return {
    nearest([x, y]: readonly [number, number]): { share: number; distance: number } | undefined {
      if (x < left - within || x > right + within || y < low - within || y > high + within) return undefined;
      let best = Number.POSITIVE_INFINITY;
      let share = 0;
      for (let i = 0; i < CHORDS; i++) {
        const a = points[i]!;
        const b = points[i + 1]!;
        const dx = b[0] - a[0];
        const dy = b[1] - a[1];
        const along = Math.min(1, Math.max(0, ((x - a[0]) * dx + (y - a[1]) * dy) / (dx * dx + dy * dy || 1)));
        const ex = x - a[0] - along * dx;
        const ey = y - a[1] - along * dy;
        const square = ex * ex + ey * ey;
        if (square < best) {
          best = square;
          share = (i + along) / CHORDS;
        }
      }
      return { share, distance: Math.sqrt(best) };
    },
  };
}

/** Of a line's drawing. The lines of our forms are straight there, or nearly. */
const CHORDS = 24;

const BESIDE = 1e-7;
const STEP = 1e-6;

/**
 * The normal of a surface that is known by its points: from one side at its own sides, nought on a fold.
 * `columns` and `rows` are those along which it is folded.
 */
export function normalBySlopes(
  chart: Chart,
  point: (u: number, v: number) => Vector,
  [u, v]: Spot,
  columns: readonly number[],
  rows: readonly number[] = [],
): Vector {
  if (chart.poles.top && v > 1 - STEP) return columns.length ? NOWHERE : chart.normal(u, v);
  const isSide = !chart.closed && (u < BESIDE || u > 1 - BESIDE);
  if (!isSide && columns.some((column) => Math.abs(u - column) < BESIDE)) return NOWHERE;
  if (rows.some((row) => Math.abs(v - row) < BESIDE)) return NOWHERE;
  const stepFrom = (place: number, folded: readonly number[]): number => {
    let step = STEP;
    for (const fold of folded) {
      const off = Math.abs(place - fold);
      if (off > BESIDE) step = Math.min(step, off / 2);
    }
    return step;
  };
  const here = point(u, v);
  // To the side on which there is form, and no fold between.
  const across = (chart.closed || u + STEP < 1 ? 1 : -1) * stepFrom(u, columns);
  const up = (v + STEP < 1 ? 1 : -1) * stepFrom(v, rows);
  const along = minus(point(u + across, v), here);
  const rise = minus(point(u, v + up), here);
  const out = unit(cross(unit(along), unit(rise)));
  return across * up > 0 ? out : minus(NOWHERE, out);
}
