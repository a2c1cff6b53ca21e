import { radians } from '../geometry/outline/span.ts';

/**
 * The outline of a blank, enough to lay it and to draw it.
 *
 * A blank's own frame: x runs along its `long` measure, y (up) along its `wide` measure, and its bounding rectangle
 * has a corner at the origin. `long` need not be the longer of the two: a plate is `long` across and `wide` up.
 */
export type Shape =
  | { readonly kind: 'rectangle' }
  | { readonly kind: 'round' }
  | { readonly kind: 'oval' }
  /** A flat ring sector, as a cone unrolls: apex below, the middle of the arc straight up. Radii in mm, angle in degrees. */
  | { readonly kind: 'sector'; readonly outer: number; readonly inner: number; readonly angle: number }
  /** A closed outline in mm, and any openings cut in the flat. It may lie anywhere: it is moved to the frame's corner. */
  | { readonly kind: 'outline'; readonly points: readonly Point[]; readonly openings?: readonly (readonly Point[])[] };

export type Point = readonly [x: number, y: number];

/** The bounding rectangle of a sector's blank, and where the apex lies in it. Angles up to 360°. */
export function sectorBox(outer: number, inner: number, angle: number): { long: number; wide: number; apex: Point } {
  const half = radians(Math.min(Math.max(angle, 0), 360) / 2);
  const reach = half >= Math.PI / 2 ? outer : outer * Math.sin(half);
  const bottom = half > Math.PI / 2 ? outer * Math.cos(half) : inner * Math.cos(half);
  return { long: 2 * reach, wide: outer - bottom, apex: [reach, -bottom] };
}

/** The largest gap between a drawn curve and the true one, in mm. Fine enough for any drawing on paper. */
const FLATNESS = 0.05;

function arcSteps(radius: number, sweep: number): number {
  if (radius <= FLATNESS) return 1;
  const step = 2 * Math.acos(1 - FLATNESS / radius);
  return Math.min(720, Math.max(2, Math.ceil(sweep / step)));
}

function ellipse(long: number, wide: number): Point[] {
  const steps = arcSteps(Math.max(long, wide) / 2, 2 * Math.PI);
  return Array.from({ length: steps }, (_, i): Point => {
    const a = (2 * Math.PI * i) / steps;
    return [(long / 2) * (1 + Math.cos(a)), (wide / 2) * (1 + Math.sin(a))];
  });
}

function sector(outer: number, inner: number, angle: number): Point[] {
  const { apex } = sectorBox(outer, inner, angle);
  const half = radians(Math.min(Math.max(angle, 0), 360) / 2);
  const arc = (radius: number, from: number, to: number): Point[] => {
    if (radius <= 0) return [[apex[0], apex[1]]];
    const steps = arcSteps(radius, Math.abs(to - from));
    return Array.from({ length: steps + 1 }, (_, i): Point => {
      const a = from + ((to - from) * i) / steps;
      return [apex[0] + radius * Math.sin(a), apex[1] + radius * Math.cos(a)];
    });
  };
  return [...arc(outer, -half, half), ...arc(inner, half, -half)];
}

/** The rings (outline first, then openings) of a blank in its own frame. */
export function rings(shape: Shape, long: number, wide: number): Point[][] {
  switch (shape.kind) {
    case 'rectangle':
      return [
        [
          [0, 0],
          [long, 0],
          [long, wide],
          [0, wide],
        ],
      ];
    case 'round':
    case 'oval':
      return [ellipse(long, wide)];
    case 'sector':
      return [sector(shape.outer, shape.inner, shape.angle)];
    case 'outline': {
      let left = Number.POSITIVE_INFINITY;
      let low = Number.POSITIVE_INFINITY;
      for (const [x, y] of shape.points) {
        left = Math.min(left, x);
        low = Math.min(low, y);
      }
      return [shape.points, ...(shape.openings ?? [])].map((ring) => ring.map(([x, y]): Point => [x - left, y - low]));
    }
  }
}
