import { measured, straight } from './along.ts';
import { type Chart, columnAt, levelAt, type Spot } from './chart.ts';
import { lastOf, remembered } from './remembered.ts';
import { apart, dot, minus, plus, unit, type Vector } from './vector.ts';
import { directionOut, leftOf, straightOn, tangent, tangents } from './walk.ts';

/** Which part of its neighbour a plate covers, mm along the neighbour's surface. */
export type Extent =
  /** A band along the bottom or the top edge, so wide, as far round as the neighbour goes or over a share of it in its middle. */
  | { readonly from: 'bottom' | 'top'; readonly wide: number; readonly share?: number }
  /** A patch half way up the neighbour's side line, or up its middle where it has none, `long` up and down. */
  | { readonly long: number; readonly wide: number };

/**
 * A plate that lies on another one: that one's surface, moved out along its normals by `apart` mm (in where below
 * nought), as far as the extent goes. Nothing where the neighbour is not so large there.
 */
export function coverChart(neighbour: Chart, apart: number, extent: Extent): Chart | undefined {
  const found = 'from' in extent ? bandOf(neighbour, extent) : patchOf(neighbour, extent);
  if (!found) return undefined;
  const spot = lastOf(found);
  const [[, low], [, high]] = [spot(0.5, 0), spot(0.5, 1)];
  const point = (u: number, v: number): Vector => {
    const at = spot(u, v);
    return plus(neighbour.point(...at), directionOut(neighbour, at), apart);
  };
  const chart: Chart = {
    point,
    // A cover on this one asks for it after each point, for which it was asked already: with twelve of them, twelve times.
    normal: lastOf((u, v) => neighbour.normal(...spot(u, v))),
    closed: false,
    poles: { bottom: false, top: false },
    columns: [0, 0.5, 1],
    rising: (neighbour.rising ?? 1) * (high - low),
    edges: new Map([
      ['bottom', levelAt(0)],
      ['right', columnAt(1)],
      ['top', levelAt(1)],
      ['left', columnAt(0)],
    ]),
    lines: new Map([['middle', columnAt(0.5)]]),
    ...sheetOf(point),
  };
  return chart;
}

/** Whether a plate moved in so far is folded over: the neighbour is curved more tightly there. */
export function foldsOver(neighbour: Chart, apart: number): boolean {
  const steps = 16;
  for (let i = 0; i < steps; i++)
    for (let j = 0; j < steps; j++) {
      const [u, v] = [(i + 0.5) / steps, (j + 0.5) / steps];
      const at = (du: number, dv: number): Vector => {
        const spot: Spot = [u + du, v + dv];
        return plus(neighbour.point(...spot), directionOut(neighbour, spot), apart);
      };
      const d = 1e-4;
      const [pu, pv] = [minus(at(d, 0), at(-d, 0)), minus(at(0, d), at(0, -d))];
      const n = neighbour.normal(u, v);
      const out =
        (pu[1] * pv[2] - pu[2] * pv[1]) * n[0] +
        (pu[2] * pv[0] - pu[0] * pv[2]) * n[1] +
        (pu[0] * pv[1] - pu[1] * pv[0]) * n[2];
      // Turned over one way the triangles flip; both ways, they run backward.
      const [u0, v0] = tangents(neighbour, [u, v]);
      if (out < 0 || dot(pu, u0) / dot(u0, u0) + dot(pv, v0) / dot(v0, v0) < 0) return true;
    }
  return false;
}

/** The whole of which a chart is the left half, its middle in front and open at the back. */
export function bothHalves(half: Chart): Chart {
  const on = (u: number, v: number): Spot => [Math.abs(2 * u - 1), v];
  const turned = ([x, y, z]: Vector, u: number): Vector => [u < 0.5 ? -x : x, y, z];
  const point = (u: number, v: number): Vector => turned(half.point(...on(u, v)), u);
  return {
    point,
    normal: (u, v) => turned(half.normal(...on(u, v)), u),
    closed: false,
    poles: half.poles,
    columns: [...new Set(half.columns.flatMap((u) => [(1 - u) / 2, (1 + u) / 2]))].sort((a, b) => a - b),
    edges: new Map([
      ['bottom', levelAt(0)],
      ['right', columnAt(1)],
      ['top', levelAt(1)],
      ['left', columnAt(0)],
    ]),
    lines: new Map([['middle', columnAt(0.5)]]),
    ...sheetOf(point),
  };
}

/** Steps in which the whole way up a form is measured. */
const STEPS_UP = 128;

/** A whole dome is laid open at the back. */
const around = (neighbour: Chart, u: number) => (neighbour.closed ? (u + 0.5) % 1 : u);

function bandOf(neighbour: Chart, { from, wide, share = 1 }: Extract<Extent, { from: unknown }>) {
  if (from === 'top' && neighbour.poles.top) return undefined;
  const start = from === 'bottom' ? 0 : 1;
  const steps = Math.max(16, Math.ceil(STEPS_UP * (neighbour.rising ?? 1)));
  /** The row at which a column is so far from the edge. */
  const reach = remembered((u) => {
    const at = around(neighbour, u);
    const column = measured(neighbour, straight([at, start], [at, 1 - start]), steps);
    return column.reaches(wide) ? column.at(wide)[1] : Number.NaN;
  });
  const within = (u: number) => 0.5 + (u - 0.5) * share;
  if (![0, 0.25, 0.5, 0.75, 1].every((u) => Number.isFinite(reach(within(u))))) return undefined;
  return (u: number, v: number): Spot => {
    const column = within(u);
    return [around(neighbour, column), start + (reach(column) - start) * (from === 'bottom' ? v : 1 - v)];
  };
}

function patchOf(neighbour: Chart, { long, wide }: { long: number; wide: number }) {
  const u = neighbour.lines.get('side')?.[0]?.[0] ?? 0.5;
  const column = measured(neighbour, straight([u, 0], [u, 1]));
  if (column.length < long) return undefined;
  const start = (column.length - long) / 2;
  /** Up the line, then straight out to both sides of it. */
  const spot = (a: number, b: number): Spot => {
    const on = column.at(start + long * b);
    const out = wide * Math.abs(a - 0.5);
    if (out < 1e-9) return on;
    const up = tangent(neighbour, on, 1);
    const left = leftOf(neighbour, on, unit(up));
    return straightOn(neighbour, on, a < 0.5 ? left : plus([0, 0, 0], left, -1), out);
  };
  // Who goes off the neighbour comes to a stop at its edge.
  const clear = ([a, b]: Spot) => (neighbour.closed || (a > 0 && a < 1)) && b > 0 && b < 1;
  return [spot(0, 0), spot(1, 0), spot(0, 0.5), spot(1, 0.5), spot(0, 1), spot(1, 1)].every(clear) ? spot : undefined;
}

/** Laid out by the way up the middle and the way along each level. */
function sheetOf(point: (u: number, v: number) => Vector): Pick<Chart, 'sheet' | 'spot'> {
  const lengthOf = (from: Spot, to: Spot, steps = 24) => {
    let length = 0;
    let before = point(...from);
    for (let i = 1; i <= steps; i++) {
      const next = point(from[0] + ((to[0] - from[0]) * i) / steps, from[1] + ((to[1] - from[1]) * i) / steps);
      length += apart(before, next);
      before = next;
    }
    return length;
  };
  const high = lengthOf([0.5, 0], [0.5, 1]);
  // A point of a cover on a cover is dear: a level is measured when it is asked for.
  const widths: number[] = [];
  const widthAt = (i: number): number => {
    widths[i] ??= lengthOf([0, i / 16], [1, i / 16]);
    return widths[i]!;
  };
  const width = (v: number) => {
    const at = Math.min(16, Math.max(0, 16 * v));
    const i = Math.min(15, Math.floor(at));
    return widthAt(i) + (widthAt(i + 1) - widthAt(i)) * (at - i);
  };
  return {
    sheet: (u, v) => [(u - 0.5) * width(v), v * high],
    spot: (x, y) => [0.5 + x / width(y / high), y / high],
  };
}
