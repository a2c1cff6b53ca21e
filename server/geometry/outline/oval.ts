import type { Path, Vertex } from './path.ts';
import { chordOf, type Point, pointOn, spansOf } from './span.ts';

/** An ellipse round the origin, drawn of arcs, anticlockwise from its rightmost point. */
export function oval(long: number, wide: number): Path {
  const [a, b] = [long / 2, wide / 2];
  if (Math.abs(a - b) < 1e-9 * a) return circle({ x: 0, y: 0 }, a);
  for (let count = 16; ; count *= 2) {
    const path = ovalOf(a, b, count);
    if (count >= 1024 || offOval(path, a, b) <= OVAL_TRUE) return path;
  }
}

/** A circle, anticlockwise from its rightmost point. */
export function circle({ x, y }: Point, radius: number): Path {
  return {
    vertices: [
      { x: x + radius, y, bulge: 1 },
      { x: x - radius, y, bulge: 1 },
    ],
    closed: true,
  };
}

/** How far an oval drawn of arcs may lie off the true one, mm. */
const OVAL_TRUE = 0.005;

/** Each arc goes through its two ends and as far out as the ellipse between them. */
function ovalOf(a: number, b: number, count: number): Path {
  const on = (k: number): Point => {
    const t = (2 * Math.PI * k) / count;
    return { x: a * Math.cos(t), y: b * Math.sin(t) };
  };
  const vertices = Array.from({ length: count }, (_, k): Vertex => {
    const [from, middle, to] = [on(k), on(k + 0.5), on(k + 1)];
    const chord = chordOf({ from, to, bulge: 0 });
    const rise = Math.abs((to.x - from.x) * (middle.y - from.y) - (to.y - from.y) * (middle.x - from.x)) / chord;
    return { ...from, bulge: (2 * rise) / chord };
  });
  return { vertices, closed: true };
}

function offOval(path: Path, a: number, b: number): number {
  let worst = 0;
  for (const span of spansOf(path)) {
    for (const share of [0.2, 0.35, 0.65, 0.8]) {
      const { x, y } = pointOn(span, share);
      // What the implicit equation is off, over its slope: the distance to first order.
      const off = (x * x) / (a * a) + (y * y) / (b * b) - 1;
      worst = Math.max(worst, Math.abs(off) / (2 * Math.hypot(x / (a * a), y / (b * b))));
    }
  }
  return worst;
}
