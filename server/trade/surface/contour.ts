import type { Path, Vertex } from '../outline/path.ts';
import type { Chart } from './chart.ts';

/**
 * The form's contour at a height above its lowest edge, as seen from above with the front up: the template that is held
 * against it. Where the form is not so high at a place, the contour leaves that out; nothing where it is nowhere.
 *
 * mm at the middle of the thickness; `out` moves it outward: half the thickness for a template laid outside. Chords of so
 * many steps.
 */
export function contourAt(chart: Chart, height: number, { out = 0, steps = 96 } = {}): Path | undefined {
  const base = chart.point(0.5, 0)[2];
  const vertices: Vertex[] = [];
  for (let i = 0; i <= steps; i++) {
    const u = i / steps;
    const v = rowAt(chart, u, base + height);
    if (v === undefined) continue;
    const [x, y] = chart.point(u, v);
    const [nx, ny] = chart.normal(u, v);
    const flat = Math.hypot(nx, ny);
    vertices.push(flat > 0 ? { x: x + (out * nx) / flat, y: y + (out * ny) / flat } : { x, y });
  }
  return vertices.length > 1 ? { vertices, closed: false } : undefined;
}

/** The form's profile up one of its columns, as seen from the wearer's left: the front to the right, z up. */
export function profileAt(chart: Chart, u: number, { out = 0, steps = 96 } = {}): Path {
  const vertices = Array.from({ length: steps + 1 }, (_, i): Vertex => {
    const v = i / steps;
    const [x, y, z] = chart.point(u, v);
    const [nx, ny, nz] = chart.normal(u, v);
    // In the upright plane through the axis in which the column lies.
    const [reach, slope] = [Math.hypot(x, y) * (y < 0 ? -1 : 1), Math.hypot(nx, ny) * (y < 0 ? -1 : 1)];
    return { x: reach + out * slope, y: z + out * nz };
  });
  return { vertices, closed: false };
}

/** Where a column reaches a height; columns rise all the way. */
function rowAt(chart: Chart, u: number, z: number): number | undefined {
  const at = (v: number) => chart.point(u, v)[2] - z;
  if (at(0) > 1e-9 || at(1) < -1e-9) return undefined;
  let [low, high] = [0, 1];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (at(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
