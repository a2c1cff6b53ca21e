import { roundEllipse } from '../../geometry/ellipse.ts';
import { firstOf, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

/**
 * Area of an oval (ellipse), mm², from its two axes, mm. Range: nothing or more. Source: geometry.
 */
export function ellipseArea(long: number, wide: number): Result {
  return reckon({
    value: (Math.PI / 4) * long * wide,
    unit: 'mm2',
    formula: 'A = π/4 × {long} × {wide}',
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
    formula: 'P = 2 × {long} × E(1 − ({narrow}/{broad})²)',
    symbols: { long: Math.max(long, wide), narrow: Math.min(long, wide), broad: Math.max(long, wide) },
    basis: 'geometry',
    source: 'Complete elliptic integral of the second kind E, by the arithmetic-geometric mean',
    outside: axesOutside(long, wide),
    note: short > 0 ? `The quick rule π(long + wide)/2 is ${short} % short here.` : undefined,
  });
}

/** Area of a disc, mm², from its diameter, mm. Range: nothing or more. Source: geometry. */
export function circleArea(diameter: number): Result {
  return reckon({
    value: (Math.PI / 4) * diameter * diameter,
    unit: 'mm2',
    formula: 'A = π/4 × {d}²',
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
    formula: 'P = π × {d}',
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
    formula: 'A = {long} × {wide}',
    symbols: { long, wide },
    basis: 'geometry',
    source: 'Area of the rectangle',
    outside: axesOutside(long, wide),
  });
}

/** Way round a square-cornered plate, mm, from its sides, mm. Range: nothing or more. Source: geometry. */
export function platePerimeter(long: number, wide: number): Result {
  return reckon({
    value: 2 * (long + wide),
    unit: 'mm',
    formula: 'P = 2 × ({long} + {wide})',
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
    formula: 'A = {n} × π/4 × {d}²',
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
    formula: 'A = ({l} − {w}) × {w} + π/4 × {w}²',
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
    formula: 'L = {C} × {w}/360',
    symbols: { C: girth, w: wrap },
    basis: 'geometry',
    source: 'Girth and wrap',
    outside: notAtLeastNothing('the girth', girth),
  });
}

/**
 * A corner of an outline, mm. `radius` belongs to the arc that LEADS to this point from the one before; the first
 * point's radius to the line that closes the outline. A positive radius bulges to the left of the way one travels, a
 * negative one to the right; the arc is never more than half a circle. No radius, or nought: a straight line.
 */
export interface OutlinePoint {
  readonly x: number;
  readonly y: number;
  readonly radius?: number;
}

export interface OutlineBox {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/**
 * Area (mm²), way round (mm) and box of a closed outline of straight lines and arcs, and whether it crosses itself.
 *
 * Arcs are measured exactly; only the question whether the outline crosses itself is asked of short chords in their
 * place. Outside: fewer than three corners without an arc, a radius smaller than half its chord, coordinates that are
 * not numbers. Source: geometry (shoelace formula and circle segments).
 */
export function outlineMeasures(points: readonly OutlinePoint[]): {
  area: Result;
  perimeter: Result;
  box: OutlineBox;
  crosses: boolean;
} {
  const sides = points.map((to, index) => sideBetween(points.at(index - 1) as OutlinePoint, to));
  let doubled = 0;
  let segments = 0;
  let length = 0;
  // Measured from the first point, so that a small outline far from the origin keeps its digits.
  const origin = points[0] ?? { x: 0, y: 0 };
  for (const side of sides) {
    doubled += (side.from.x - origin.x) * (side.to.y - origin.y) - (side.to.x - origin.x) * (side.from.y - origin.y);
    segments -= Math.sign(side.radius) * segmentArea(side);
    length += sideLength(side);
  }
  const outside = firstOf(
    when(
      points.some((point) => !Number.isFinite(point.x) || !Number.isFinite(point.y) || Number.isNaN(point.radius)),
      'a corner of the outline is not a number',
    ),
    when(points.length < 2, 'an outline needs corners'),
    when(
      points.length < 3 && sides.every((side) => side.radius === 0),
      'an outline of straight lines needs three corners',
    ),
    when(
      sides.some((side) => side.tooTight),
      'an arc’s radius is smaller than half the way between its ends: it cannot reach',
    ),
  );
  const crosses = outside === undefined && crossesItself(sides);
  const source = 'Shoelace formula with the segments of the arcs added or taken off';
  return {
    area: reckon({
      value: Math.abs(doubled / 2 + segments),
      unit: 'mm2',
      formula: 'A = |{straight} + {arcs}|',
      symbols: { straight: doubled / 2, arcs: segments },
      basis: 'geometry',
      source,
      outside:
        outside ?? when(crosses, 'the outline crosses itself, so that parts of its area count against each other'),
    }),
    perimeter: reckon({
      value: length,
      unit: 'mm',
      formula: 'P = sum of {n} sides',
      symbols: { n: sides.length },
      basis: 'geometry',
      source: 'Lengths of lines and arcs',
      outside,
    }),
    box: boxOf(sides),
    crosses,
  };
}

function axesOutside(long: number, wide: number): string | undefined {
  return firstOf(notAtLeastNothing('the length', long), notAtLeastNothing('the width', wide));
}

interface Side {
  readonly from: OutlinePoint;
  readonly to: OutlinePoint;
  readonly chord: number;
  /** Nought for a straight line. */
  readonly radius: number;
  readonly tooTight: boolean;
}

function sideBetween(from: OutlinePoint, to: OutlinePoint): Side {
  const chord = Math.hypot(to.x - from.x, to.y - from.y);
  const radius = to.radius ?? 0;
  const straight = radius === 0 || chord === 0 || !Number.isFinite(radius);
  // A half circle written in rounded numbers may miss half the chord by a hair: let it pass as a half circle.
  const tooTight = !straight && Math.abs(radius) < (chord / 2) * (1 - 1e-9);
  return { from, to, chord, radius: straight ? 0 : radius, tooTight };
}

/** Half the angle an arc turns through, radians. */
function halfTurn(side: Side): number {
  return Math.asin(Math.min(1, side.chord / 2 / Math.abs(side.radius)));
}

function sideLength(side: Side): number {
  return side.radius === 0 ? side.chord : 2 * Math.abs(side.radius) * halfTurn(side);
}

function segmentArea(side: Side): number {
  if (side.radius === 0) return 0;
  const turn = 2 * halfTurn(side);
  return (side.radius * side.radius * (turn - Math.sin(turn))) / 2;
}

/** A point on an arc, at a share 0…1 of the way. */
function along(side: Side, share: number): { x: number; y: number } {
  const { from, to, radius, chord } = side;
  const half = halfTurn(side);
  const size = Math.abs(radius);
  const angle = half * (2 * share - 1);
  const forward = size * Math.sin(angle) + chord / 2;
  const left = Math.sign(radius) * size * (Math.cos(angle) - Math.cos(half));
  const ux = (to.x - from.x) / chord;
  const uy = (to.y - from.y) / chord;
  return { x: from.x + forward * ux - left * uy, y: from.y + forward * uy + left * ux };
}

function boxOf(sides: readonly Side[]): OutlineBox {
  const box = { left: Number.POSITIVE_INFINITY, right: -Infinity, bottom: Number.POSITIVE_INFINITY, top: -Infinity };
  const reach = ({ x, y }: { x: number; y: number }) => {
    box.left = Math.min(box.left, x);
    box.right = Math.max(box.right, x);
    box.bottom = Math.min(box.bottom, y);
    box.top = Math.max(box.top, y);
  };
  for (const side of sides) {
    reach(side.to);
    if (side.radius === 0 || side.tooTight) continue;
    const half = halfTurn(side);
    // Where the arc runs level or upright, it reaches furthest: those are the shares at which it turns through a square.
    const start = Math.atan2(side.to.y - side.from.y, side.to.x - side.from.x) + Math.sign(side.radius) * half;
    for (let quarter = -2; quarter <= 2; quarter++) {
      const turned = (start - (quarter * Math.PI) / 2) * Math.sign(side.radius);
      if (turned > 0 && turned < 2 * half) reach(along(side, turned / (2 * half)));
    }
  }
  return box;
}

/** Pieces that stand in for an arc when asking whether an outline crosses itself. */
const CHORDS_IN_AN_ARC = 24;

function crossesItself(sides: readonly Side[]): boolean {
  const pieces: { ax: number; ay: number; bx: number; by: number }[] = [];
  for (const side of sides) {
    if (side.chord === 0) continue;
    const count = side.radius === 0 ? 1 : CHORDS_IN_AN_ARC;
    let from = { x: side.from.x, y: side.from.y };
    for (let index = 1; index <= count; index++) {
      const to = index === count ? side.to : along(side, index / count);
      pieces.push({ ax: from.x, ay: from.y, bx: to.x, by: to.y });
      from = { x: to.x, y: to.y };
    }
  }
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
