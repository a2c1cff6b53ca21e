import { say } from '../../../l10n/say.ts';
import { roundEllipse } from '../../geometry/ellipse.ts';
import { type Corner, pathOfCorners } from '../../geometry/outline/corners.ts';
import { lengthOfPath, signedArea } from '../../geometry/outline/measure.ts';
import type { Path } from '../../geometry/outline/path.ts';
import { pointOn, spansOf } from '../../geometry/outline/span.ts';
import { firstOf, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

/**
 * Area of an oval (ellipse), mm², from its two axes, mm. Range: nothing or more. Source: geometry.
 */
export function ellipseArea(long: number, wide: number): Result {
  return reckon({
    value: (Math.PI / 4) * long * wide,
    unit: 'mm2',
    formula: 'A = π/4 × {long|mm} × {wide|mm}',
    symbols: { long, wide },
    basis: 'geometry',
    source: 'Area of the ellipse',
    outside: axesOutside(long, wide),
  });
}

/**
 * Way round an oval (ellipse), mm, from its two axes, mm.
 *
 * Exact to the last few digits of a double, by the arithmetic-geometric mean, for every ratio from a circle to a line.
 * Source: complete elliptic integral of the second kind (geometry).
 */
export function ellipsePerimeter(long: number, wide: number): Result {
  const crude = (Math.PI / 2) * (long + wide);
  const value = roundEllipse(long / 2, wide / 2);
  const short = Math.round((1 - crude / value) * 1000) / 10;
  return reckon({
    value,
    unit: 'mm',
    formula: 'P = 2 × {long|mm} × E(1 − ({narrow|mm}/{broad|mm})²)',
    symbols: { long: Math.max(long, wide), narrow: Math.min(long, wide), broad: Math.max(long, wide) },
    basis: 'geometry',
    source: 'Complete elliptic integral of the second kind E, by the arithmetic-geometric mean',
    outside: axesOutside(long, wide),
    note: short > 0 ? say`The quick rule π(long + wide)/2 is ${short} % short here.` : undefined,
  });
}

/** Area of a disc, mm², from its diameter, mm. Range: nothing or more. Source: geometry. */
export function circleArea(diameter: number): Result {
  return reckon({
    value: (Math.PI / 4) * diameter * diameter,
    unit: 'mm2',
    formula: 'A = π/4 × {d|mm}²',
    symbols: { d: diameter },
    basis: 'geometry',
    source: 'Area of the circle',
    outside: notAtLeastNothing('the diameter', diameter),
  });
}

/** Way round a disc, mm, from its diameter, mm. Range: nothing or more. Source: geometry. */
export function circlePerimeter(diameter: number): Result {
  return reckon({
    value: Math.PI * diameter,
    unit: 'mm',
    formula: 'P = π × {d|mm}',
    symbols: { d: diameter },
    basis: 'geometry',
    source: 'Girth of the circle',
    outside: notAtLeastNothing('the diameter', diameter),
  });
}

/** Area of a square-cornered plate, mm², from its sides, mm. Range: nothing or more. Source: geometry. */
export function plateArea(long: number, wide: number): Result {
  return reckon({
    value: long * wide,
    unit: 'mm2',
    formula: 'A = {long|mm} × {wide|mm}',
    symbols: { long, wide },
    basis: 'geometry',
    source: 'Area of the rectangle',
    outside: axesOutside(long, wide),
  });
}

/**
 * Way round a square-cornered plate, mm, from its sides, mm. Range: nothing or more. Source: geometry.
 */
export function platePerimeter(long: number, wide: number): Result {
  return reckon({
    value: 2 * (long + wide),
    unit: 'mm',
    formula: 'P = 2 × ({long|mm} + {wide|mm})',
    symbols: { long, wide },
    basis: 'geometry',
    source: 'Girth of the rectangle',
    outside: axesOutside(long, wide),
  });
}

/** Area of so many discs, mm², from their diameter, mm. Range: nothing or more. Source: geometry. */
export function circlesArea(count: number, diameter: number): Result {
  return reckon({
    value: count * circleArea(diameter).value,
    unit: 'mm2',
    formula: 'A = {n} × π/4 × {d|mm}²',
    symbols: { n: count, d: diameter },
    basis: 'geometry',
    source: 'Area of a circle, for every hole',
    outside: notAtLeastNothing('the diameter', diameter),
  });
}

/**
 * Area of a slot, mm², from its two measures, mm, in any order: its ends are half round, the narrower measure is the tool's.
 * Range: nothing or more. Source: geometry.
 */
export function slotArea(long: number, wide: number): Result {
  const [longer, narrower] = [Math.max(long, wide), Math.min(long, wide)];
  return reckon({
    value: (longer - narrower) * narrower + (Math.PI / 4) * narrower * narrower,
    unit: 'mm2',
    formula: 'A = ({l|mm} − {w|mm}) × {w|mm} + π/4 × {w|mm}²',
    symbols: { l: longer, w: narrower },
    basis: 'geometry',
    source: 'A slot with half-round ends',
    outside: axesOutside(long, wide),
  });
}

/** Length of an arc, mm, of so many degrees of a circle of this girth, mm. Range: nothing or more. Source: geometry. */
export function arcOfGirth(girth: number, wrap: number): Result {
  return reckon({
    value: (girth * wrap) / 360,
    unit: 'mm',
    formula: 'L = {C|mm} × {w}/360',
    symbols: { C: girth, w: wrap },
    basis: 'geometry',
    source: 'Girth and wrap',
    outside: notAtLeastNothing('the girth', girth),
  });
}

/**
 * Area (mm²) and way round (mm) of a closed outline of straight lines and arcs, and whether it crosses itself. Arcs are measured
 * exactly.
 *
 * Outside: fewer than three corners without an arc, a radius smaller than half its chord, coordinates that are not numbers.
 * Source: geometry (shoelace formula and circle segments).
 */
export function outlineMeasures(corners: readonly Corner[]): { area: Result; perimeter: Result; crosses: boolean } {
  const { path, tooTight } = pathOfCorners(corners);
  const straight = signedArea({ ...path, vertices: path.vertices.map(({ x, y }) => ({ x, y })) });
  const outside = firstOf(
    when(
      corners.some(({ x, y, radius }) => !Number.isFinite(x) || !Number.isFinite(y) || Number.isNaN(radius)),
      'a corner of the outline is not a number',
    ),
    when(corners.length < 2, 'an outline needs corners'),
    when(
      corners.length < 3 && path.vertices.every(({ bulge }) => !bulge),
      'an outline of straight lines needs three corners',
    ),
    when(tooTight !== undefined, 'an arc’s radius is smaller than half the way between its ends: it cannot reach'),
  );
  const crosses = outside === undefined && crossesItself(path);
  const whole = signedArea(path);
  return {
    area: reckon({
      value: Math.abs(whole),
      unit: 'mm2',
      formula: 'A = |{straight|mm²} + {arcs|mm²}|',
      symbols: { straight, arcs: whole - straight },
      basis: 'geometry',
      source: 'Shoelace formula with the segments of the arcs added or taken off',
      outside:
        outside ?? when(crosses, 'the outline crosses itself, so that parts of its area count against each other'),
    }),
    perimeter: reckon({
      value: lengthOfPath(path),
      unit: 'mm',
      formula: 'P = sum of {n|} sides',
      symbols: { n: corners.length },
      basis: 'geometry',
      source: 'Lengths of lines and arcs',
      outside,
    }),
    crosses,
  };
}

function axesOutside(long: number, wide: number): string | undefined {
  return firstOf(notAtLeastNothing('the length', long), notAtLeastNothing('the width', wide));
}

/** Pieces that stand in for an arc when asking whether an outline crosses itself. */
const CHORDS_IN_AN_ARC = 24;

/** Whether stretches of an outline cut through each other; those that only touch do not. */
function crossesItself(path: Path): boolean {
  const points = spansOf(path)
    .filter(({ from, to }) => from.x !== to.x || from.y !== to.y)
    .flatMap((span) => {
      const count = span.bulge === 0 ? 1 : CHORDS_IN_AN_ARC;
      return Array.from({ length: count }, (_, i) => (i ? pointOn(span, i / count) : span.from));
    });
  const pieces = points.map((from, i) => {
    const to = points[(i + 1) % points.length]!;
    return { ax: from.x, ay: from.y, bx: to.x, by: to.y };
  });
  const sorted = [...pieces].sort((one, other) => Math.min(one.ax, one.bx) - Math.min(other.ax, other.bx));
  for (const [index, one] of sorted.entries()) {
    const right = Math.max(one.ax, one.bx);
    for (let next = index + 1; next < sorted.length; next++) {
      const other = sorted[next] as (typeof sorted)[number];
      if (Math.min(other.ax, other.bx) > right) break;
      // Neighbours share an end exactly: the turn to it is nought, so that they do not count as crossing.
      if (
        turn(one.ax, one.ay, one.bx, one.by, other.ax, other.ay) *
          turn(one.ax, one.ay, one.bx, one.by, other.bx, other.by) <
          0 &&
        turn(other.ax, other.ay, other.bx, other.by, one.ax, one.ay) *
          turn(other.ax, other.ay, other.bx, other.by, one.bx, one.by) <
          0
      ) {
        return true;
      }
    }
  }
  return false;
}

/** On which side of the line a→b the point c lies: the sign of the turn. */
function turn(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number {
  return Math.sign((bx - ax) * (cy - ay) - (by - ay) * (cx - ax));
}
