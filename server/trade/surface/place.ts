import { measured, straight, wayOf } from './along.ts';
import type { Chart, Spot } from './chart.ts';
import type { Surface, SurfacePoint } from './surface.ts';
import { minus, plus, unit } from './vector.ts';
import { leftOf, straightOn } from './walk.ts';

/** One measure of a place: so far from an edge or a line, mm, to one side of it where that is said. */
export interface Distance {
  readonly distance: number;
  readonly line: string;
  /** As seen from outside; `from` goes into the plate from an edge. */
  readonly way: 'from' | 'left' | 'right' | 'up' | 'down' | 'above' | 'below' | 'front' | 'back';
}

/**
 * Where a place lies on a form, or in plain words why there is none.
 *
 * Both measures go along the form's own lines: up and down along a column from the bottom edge or the rim, or from the
 * top; left and right along a level. With one measure alone the place lies on the form's middle, of a whole dome on its
 * front. From the seam of a half dome one measures on the side where the seam begins, at the front.
 */
export function spotOf(chart: Chart, first: Distance, second?: Distance): Spot | string {
  const all = second ? [first, second] : [first];
  for (const { line, distance } of all) {
    if (!chart.edges.has(line) && !chart.lines.has(line)) return `the form has no edge or line “${line}”`;
    if (!Number.isFinite(distance)) return 'its distance is not a number';
  }
  const up = all.find((each) => rowOf(chart, each) !== undefined);
  const across = all.find((each) => each !== up && columnOf(chart, each) !== undefined);
  if (all.length === 2 && (!up || !across)) return 'its two distances run the same way';
  let spot: Spot = [across ? columnOf(chart, across)! : chart.closed ? 0 : 0.5, up ? rowOf(chart, up)! : 0.5];
  // Each measure moves the line along which the other is taken; a few turns settle both.
  for (let turn = 0; turn < 40; turn++) {
    const before = spot;
    if (up) {
      const row = rowOf(chart, up)!;
      const column = measured(chart, straight([spot[0], row], [spot[0], 1 - row]), 128);
      if (up.distance > column.length)
        return `it lies off the plate: from “${up.line}” there are only ${said(column.length)}`;
      spot = column.at(up.distance);
    }
    if (across) {
      const from = columnOf(chart, across)!;
      const toRight = rightward(chart, across);
      const reach = chart.closed ? from + (toRight ? 0.5 : -0.5) : toRight ? 1 : 0;
      const level = measured(chart, straight([from, spot[1]], [reach, spot[1]]), 128);
      if (across.distance > level.length)
        return `it lies off the plate: from “${across.line}” there are only ${said(level.length)}`;
      const at = level.at(across.distance);
      spot = [chart.closed ? at[0] - Math.floor(at[0]) : at[0], at[1]];
    }
    if (Math.abs(spot[0] - before[0]) + Math.abs(spot[1] - before[1]) < 1e-12) break;
  }
  return spot;
}

/**
 * A spot so far along an edge from its start, and so far in from it: straight in along the surface, square to the edge.
 */
export function spotAlong(chart: Chart, edge: string, way: number, inset = 0): Spot | string {
  const track = chart.edges.get(edge) ?? chart.lines.get(edge);
  if (!track) return `the form has no edge or line “${edge}”`;
  const line = measured(chart, wayOf(chart, track));
  if (!(way >= 0 && way <= line.length * (1 + 1e-6))) return `“${edge}” is only ${said(line.length)} long`;
  const spot = line.at(way);
  if (inset === 0) return spot;
  const [before, after] = [line.at(way - line.length * 1e-4), line.at(way + line.length * 1e-4)];
  const along = unit(minus(chart.point(...after), chart.point(...before)));
  const left = leftOf(chart, spot, along);
  return straightOn(chart, spot, runsWithOutline(chart, edge) ? left : plus([0, 0, 0], left, -1), inset);
}

/** The bottom, and what runs up on the right: the plate lies on the left of these. */
function runsWithOutline(chart: Chart, edge: string): boolean {
  const track = chart.edges.get(edge) ?? chart.lines.get(edge)!;
  const [from, to] = [track[0]!, track[1] ?? track[0]!];
  if (from[1] === to[1]) return from[1] < 0.5 === to[0] > from[0];
  return from[0] > 0.5 === to[1] > from[1];
}

const said = (value: number) => `${Math.round(value * 10) / 10} mm`;

/** The row that a measure starts from, 0 or 1; nothing where it runs along a level. */
function rowOf(chart: Chart, { line, way }: Distance): number | undefined {
  const track = chart.edges.get(line) ?? chart.lines.get(line)!;
  if (way === 'left' || way === 'right') return undefined;
  if (track.length === 1) return track[0]![1];
  const [from, to] = [track[0]!, track[1]!];
  return from[1] === to[1] && (from[1] === 0 || from[1] === 1) ? from[1] : undefined;
}

/** The column that a measure starts from; nothing where it runs up and down. */
function columnOf(chart: Chart, { line }: Distance): number | undefined {
  const track = chart.edges.get(line) ?? chart.lines.get(line)!;
  return track.length > 1 && track[0]![0] === track[1]![0] ? track[0]![0] : undefined;
}

/** Whether a measure along a level goes to the right, as u does. */
function rightward(chart: Chart, distance: Distance): boolean {
  const column = columnOf(chart, distance)!;
  switch (distance.way) {
    case 'left':
      return false;
    case 'right':
      return true;
    // The wearer's left side lies on the right of the front.
    case 'front':
      return column > 0.5 && chart.closed;
    case 'back':
      return !(column > 0.5 && chart.closed);
    default:
      return column < 1;
  }
}

/** The point of a mesh at a spot of its chart; nothing where the mesh has a bay there. */
export function pointOf(surface: Surface, chart: Chart, spot: Spot): SurfacePoint | undefined {
  const [x, y] = chart.sheet(...spot);
  const { parameters, triangles } = surface;
  let best: { point: SurfacePoint; least: number } | undefined;
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [2 * triangles[i]!, 2 * triangles[i + 1]!, 2 * triangles[i + 2]!];
    const [ax, ay] = [parameters[a]! - x, parameters[a + 1]! - y];
    const [bx, by] = [parameters[b]! - x, parameters[b + 1]! - y];
    const [cx, cy] = [parameters[c]! - x, parameters[c + 1]! - y];
    const [wa, wb, wc] = [bx * cy - cx * by, cx * ay - ax * cy, ax * by - bx * ay];
    const sum = wa + wb + wc;
    if (!(sum > 0)) continue;
    const least = Math.min(wa, wb, wc) / sum;
    if (!best || least > best.least)
      best = { least, point: { triangle: i / 3, weights: [wa / sum, wb / sum, wc / sum] } };
  }
  // A place on a curved edge may lie a hair outside its chord.
  return best && best.least > -0.2 ? best.point : undefined;
}
