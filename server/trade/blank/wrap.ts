import { say } from '../../../l10n/say.ts';
import { roundEllipse } from '../../geometry/ellipse.ts';
import { type EdgedOutline, widened } from '../../geometry/outline/allowance.ts';
import { boxOfPath, signedArea } from '../../geometry/outline/measure.ts';
import type { Path, Vertex } from '../../geometry/outline/path.ts';
import { vertex } from '../../geometry/outline/span.ts';
import { firstOf, notAboveNothing, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';
import { usual } from '../usual/practice.ts';

/**
 * Flat blank of a cylinder, mm and mm². `girth` is the full circle's at the middle of the thickness, `wrap` how much of it
 * the piece covers, degrees.
 * Range: 0 < wrap ≤ 360; laps and butts are added as drawn. Source: geometry.
 */
export function cylinderBlank({ girth, high, wrap = 360 }: { girth: number; high: number; wrap?: number }): {
  long: Result;
  wide: Result;
  area: Result;
} {
  const named = {
    basis: 'geometry',
    source: 'Cylinder rolled out at the middle of its thickness',
    outside: firstOf(notAboveNothing('the girth', girth), notAboveNothing('the height', high), wrapOutside(wrap)),
  } as const;
  const long = (girth * wrap) / 360;
  return {
    long: reckon({
      ...named,
      value: long,
      unit: 'mm',
      formula: 'long = {C|mm} × {w}/360',
      symbols: { C: girth, w: wrap },
    }),
    wide: reckon({ ...named, value: high, unit: 'mm', formula: 'wide = {h|mm}', symbols: { h: high } }),
    area: reckon({
      ...named,
      value: long * high,
      unit: 'mm2',
      formula: 'A = {C|mm} × {w}/360 × {h|mm}',
      symbols: { C: girth, w: wrap, h: high },
    }),
  };
}

export interface ConeDevelopment {
  /** Way down the cone's side, mm. */
  readonly slant: Result;
  /** Radius of the pattern's outer arc, mm; `outside` for a cylinder, which has none. */
  readonly outerRadius: Result;
  /** Radius of the pattern's inner arc, mm. */
  readonly innerRadius: Result;
  /** Angle of the pattern's sector, degrees. */
  readonly sector: Result;
  /** mm² */
  readonly area: Result;
  /** Box of the pattern laid with its arcs level, mm. */
  readonly blankLong: Result;
  readonly blankWide: Result;
  /** Straight across the ends of the outer arc, mm. */
  readonly chord: Result;
  /** Straight across the ends of the inner arc, mm. */
  readonly innerChord: Result;
}

/**
 * Pattern of a straight cone or tapered tube. `top` and `bottom` are full-circle girths at the middle of the thickness, mm,
 * whatever the wrap; `high` is the upright height, mm; `wrap` degrees.
 *
 * Equal girths are a cylinder exactly: its pattern has no radius, and everything else goes over into it without a jump.
 * Range: 0 < wrap ≤ 360; one girth may be nothing (a point). Source: geometry of the frustum.
 */
export function coneDevelopment({
  top,
  bottom,
  high,
  wrap = 360,
}: {
  top: number;
  bottom: number;
  high: number;
  wrap?: number;
}): ConeDevelopment {
  const big = Math.max(top, bottom);
  const small = Math.min(top, bottom);
  const taper = (big - small) / (2 * Math.PI);
  const slant = Math.hypot(taper, high);
  const outer = (big / (2 * Math.PI)) * (slant / taper);
  const inner = (small / (2 * Math.PI)) * (slant / taper);
  const sector = (360 * taper * (wrap / 360)) / slant;
  const half = (sector * Math.PI) / 360;
  const outerArc = (big * wrap) / 360;
  const innerArc = (small * wrap) / 360;
  const outside = firstOf(
    notAtLeastNothing('the top girth', top),
    notAtLeastNothing('the bottom girth', bottom),
    notAtLeastNothing('the height', high),
    when(big === 0, 'both ends are nothing'),
    when(slant === 0, 'both ends are the same and there is no height between them'),
    wrapOutside(wrap),
  );
  const named = {
    basis: 'geometry',
    source: 'Frustum of the cone rolled out at the middle of its thickness',
    outside,
  } as const;
  const noRadius = when(taper === 0, 'the ends are the same: a cylinder’s pattern has no radius, lay it out square');
  const farAway =
    outer > LONGEST_TRAMMEL
      ? 'Longer than a trammel reaches (2 m, common practice): lay out by coordinates.'
      : undefined;
  const wholeTurn = half > Math.PI / 2;
  return {
    slant: reckon({
      ...named,
      value: slant,
      unit: 'mm',
      formula: 's = √({r|mm}² + {h|mm}²)',
      symbols: { r: taper, h: high },
    }),
    outerRadius: reckon({
      ...named,
      value: outer,
      unit: 'mm',
      formula: 'Lo = {C|mm}/2π × {s|mm}/{r|mm}',
      symbols: { C: big, s: slant, r: taper },
      outside: outside ?? noRadius,
      note: farAway,
    }),
    innerRadius: reckon({
      ...named,
      value: inner,
      unit: 'mm',
      formula: 'Li = {c|mm}/2π × {s|mm}/{r|mm}',
      symbols: { c: small, s: slant, r: taper },
      outside: outside ?? noRadius,
      note: farAway,
    }),
    sector: reckon({
      ...named,
      value: sector,
      unit: 'deg',
      formula: 'φ = {w} × {r|mm}/{s|mm}',
      symbols: { w: wrap, r: taper, s: slant },
    }),
    area: reckon({
      ...named,
      value: ((outerArc + innerArc) / 2) * slant,
      unit: 'mm2',
      formula: 'A = ({C|mm} + {c|mm})/2 × {w}/360 × {s|mm}',
      symbols: { C: big, c: small, w: wrap, s: slant },
    }),
    blankLong: reckon({
      ...named,
      value: wholeTurn ? 2 * outer : outerArc * sinc(half),
      unit: 'mm',
      formula: wholeTurn ? 'long = 2 × {Lo|mm}' : 'long = chord of {C|mm} turned through {φ}°',
      symbols: { Lo: outer, C: outerArc, φ: sector },
    }),
    blankWide: reckon({
      ...named,
      value: wholeTurn ? outer * (1 - Math.cos(half)) : slant + (innerArc * half * sinc(half / 2) ** 2) / 4,
      unit: 'mm',
      formula: wholeTurn ? 'wide = {Lo|mm} × (1 − cos({φ}°/2))' : 'wide = {s|mm} + rise of {c|mm} turned through {φ}°',
      symbols: { Lo: outer, φ: sector, s: slant, c: innerArc },
    }),
    chord: reckon({
      ...named,
      value: outerArc * sinc(half),
      unit: 'mm',
      formula: 'chord = {C|mm} × sin({φ}°/2)/({φ}°/2)',
      symbols: { C: outerArc, φ: sector },
    }),
    innerChord: reckon({
      ...named,
      value: innerArc * sinc(half),
      unit: 'mm',
      formula: 'chord = {c|mm} × sin({φ}°/2)/({φ}°/2)',
      symbols: { c: innerArc, φ: sector },
    }),
  };
}

/** An arc by what is measured on the bench, mm: straight from end to end, and how far it stands off that in its middle. */
export interface OnBench {
  readonly chord: Result;
  readonly rise: Result;
}

/**
 * Chord and rise, mm, of an arc whose radius (mm) is longer than the bench; nothing of one that a trammel strikes, or that goes
 * half round or further. Source: geometry of the circle; where the bench ends is common practice (no source).
 */
export function onBench(radius: number, angle: number): OnBench | undefined {
  if (!(radius > usual('bench-radius')) || !(angle < 180)) return undefined;
  const half = (angle * Math.PI) / 360;
  const named = {
    unit: 'mm',
    basis: 'geometry',
    source: 'Chord and rise of an arc',
    symbols: { R: radius, φ: angle },
  } as const;
  return {
    chord: reckon({ ...named, value: 2 * radius * Math.sin(half), formula: 'chord = 2 × {R|mm} × sin({φ}°/2)' }),
    rise: reckon({
      ...named,
      value: 2 * radius * Math.sin(half / 2) ** 2,
      formula: 'rise = {R|mm} × (1 − cos({φ}°/2))',
    }),
  };
}

/**
 * The pattern of a cone, mm, its larger end below, the lowest point of that at the origin; turned half round where the top is
 * the larger end, so that it is seen from outside either way. Its edges have their names and its ends are arcs.
 *
 * Holds for any taper, down to a cylinder, where it is a rectangle. Empty if {@link coneDevelopment} is outside. Source: as there.
 */
export function conePattern(cone: { top: number; bottom: number; high: number; wrap?: number }): EdgedOutline {
  const { slant, sector } = coneDevelopment(cone);
  if (slant.outside !== undefined) return { path: { vertices: [], closed: true }, edges: [] };
  const turn = (sector.value * Math.PI) / 180;
  const arcOf = (girth: number) => (girth * (cone.wrap ?? 360)) / 360;
  const [outer, inner] = [arcOf(Math.max(cone.top, cone.bottom)), arcOf(Math.min(cone.top, cone.bottom))];
  // A point at a share of the sector: along its arc, and risen from the arc's lowest point.
  const lie = (arc: number, share: number, bulge: number): Vertex =>
    vertex(
      { x: arc * share * sinc(share * turn), y: (arc * turn * share * share * sinc((share * turn) / 2) ** 2) / 2 },
      bulge,
    );
  const raised = (at: Vertex): Vertex => ({ ...at, y: at.y + slant.value });
  // Each arc in halves, so that a whole turn has a bulge too.
  const bulge = Math.tan(turn / 8);
  const back = inner > 0 ? [lie(inner, 0.5, -bulge), lie(inner, 0, -bulge)] : [];
  const vertices = [
    lie(outer, -0.5, bulge),
    lie(outer, 0, bulge),
    lie(outer, 0.5, 0),
    ...back.map(raised),
    raised(lie(inner, -0.5, 0)),
  ];
  const around = cone.top > cone.bottom ? ['top', 'left', 'bottom', 'right'] : ['bottom', 'right', 'top', 'left'];
  const counts = [2, 1, back.length, 1];
  return { path: { vertices, closed: true }, edges: around.map((name, i) => ({ name, spans: counts[i]! })) };
}

/**
 * The same with its sides moved out square to themselves, mm: its pattern, the box of that and its area. Nothing where that is none.
 * Range: as {@link coneDevelopment}. Source: as there.
 */
export function widenedCone(
  cone: { top: number; bottom: number; high: number; wrap?: number },
  sides: { readonly left: number; readonly right: number },
): { path: Path; long: Result; wide: Result; area: Result } | undefined {
  const flat = coneDevelopment(cone);
  const path = widened(
    conePattern(cone),
    (['left', 'right'] as const).map((edge) => ({ edge, by: sides[edge], fold: false })),
  )[0];
  if (!path) return undefined;
  const box = boxOfPath(path);
  const shared = {
    basis: 'geometry',
    source: 'The pattern of the cone, its sides moved out square to themselves',
  } as const;
  const symbols = { l: sides.left, r: sides.right };
  const size = (name: 'long' | 'wide', value: number) =>
    reckon({
      ...shared,
      value,
      unit: 'mm',
      formula: say`${name} = box of the pattern {${name}|mm}, its sides {l|mm} and {r|mm} further out`,
      symbols: { [name]: name === 'long' ? flat.blankLong.value : flat.blankWide.value, ...symbols },
    });
  return {
    path,
    long: size('long', box.right - box.left),
    wide: size('wide', box.top - box.bottom),
    area: reckon({
      ...shared,
      value: signedArea(path),
      unit: 'mm2',
      formula: 'A = {A0|mm²} + ({l|mm} + {r|mm}) × {s|mm}',
      symbols: { A0: flat.area.value, ...symbols, s: flat.slant.value },
    }),
  };
}

/** One end of an oval cone: its axes at the middle of the thickness, mm; both nothing for a point. */
export interface OvalEnd {
  readonly long: number;
  readonly wide: number;
}

export interface OvalConeDevelopment {
  /** Angle between the first and the last element of the pattern, degrees. */
  readonly sector: Result;
  /** mm² */
  readonly area: Result;
  readonly longestElement: Result;
  readonly shortestElement: Result;
  /** Way along the pattern's bottom and top lines, mm. */
  readonly bottomLine: Result;
  readonly topLine: Result;
  /** Box of the pattern with its middle element upright, mm. */
  readonly blankLong: Result;
  readonly blankWide: Result;
  /** Points of the pattern, mm, its middle element upright: along the bottom line, back along the top line. */
  readonly outline: readonly { readonly x: number; readonly y: number }[];
}

/**
 * Pattern of an oval, leaning or unevenly tapered cone by triangulation, its bottom and top in level planes.
 *
 * `offset` is how far the top stands off the bottom's middle along the long axis, mm. The cut lies at the end of the long
 * axis, on the side away from the offset. Triangles are taken twice, once twice as fine, and carried on to the limit.
 * Exact for true cones (one end a point, or both ends of one shape); for other pairs of ovals the surface is not quite
 * developable and the pattern is what triangles of equal steps give. Range: 0 < wrap ≤ 360.
 * Source: triangulation of the pattern drafting handbooks; limit by extrapolation (derived).
 *
 * @tests the handbooks’ other way, that flattening by numbers is held against
 */
export function ovalConeDevelopment({
  bottom,
  top,
  high,
  offset = 0,
  wrap = 360,
}: {
  bottom: OvalEnd;
  top: OvalEnd;
  high: number;
  offset?: number;
  wrap?: number;
}): OvalConeDevelopment {
  const outside = firstOf(
    notAtLeastNothing('the bottom’s length', bottom.long),
    notAtLeastNothing('the bottom’s width', bottom.wide),
    notAtLeastNothing('the top’s length', top.long),
    notAtLeastNothing('the top’s width', top.wide),
    notAboveNothing('the height', high),
    when(!Number.isFinite(offset), 'the offset is not a number'),
    when(
      bottom.long + top.long === 0 || bottom.wide + top.wide === 0,
      'an oval cone needs an oval at one end at least',
    ),
    wrapOutside(wrap),
  );
  const shape = { bottom, top, high, offset, wrap };
  const coarse = unrolled(shape, FINE / 2, outside);
  const fine = unrolled(shape, FINE, outside);
  // Chords cut corners in proportion to the square of the step: a third of the last gain is still missing.
  const limit = (of: (one: Unrolled) => number) => of(fine) + (of(fine) - of(coarse)) / 3;
  const figure = (unit: 'deg' | 'mm' | 'mm2', what: string, value: number) =>
    reckon({
      value,
      unit,
      formula: say`${what} of {n|} triangles, carried on to the limit`,
      symbols: { n: 2 * FINE },
      basis: 'geometry',
      source: 'Triangulation of the pattern drafting handbooks, extrapolated (derived)',
      outside,
    });
  const xs = fine.outline.map((point) => point.x);
  const ys = fine.outline.map((point) => point.y);
  return {
    sector: figure(
      'deg',
      'φ = angles',
      limit((one) => one.turned),
    ),
    area: figure(
      'mm2',
      'A = sum',
      limit((one) => one.area),
    ),
    longestElement: figure('mm', 'longest element', fine.longest),
    shortestElement: figure('mm', 'shortest element', fine.shortest),
    bottomLine: figure(
      'mm',
      'bottom line',
      limit((one) => one.bottomLine),
    ),
    topLine: figure(
      'mm',
      'top line',
      limit((one) => one.topLine),
    ),
    blankLong: figure('mm', 'box', spread(xs)),
    blankWide: figure('mm', 'box', spread(ys)),
    outline: fine.outline,
  };
}

/**
 * Development of a cylinder cut on the slope. `girth` at the middle of the thickness, mm; `angle` of the cut from square,
 * degrees. Ordinates (mm) at equal steps of the girth from the lowest point; `steps` of them round (1 to 10 000).
 *
 * Range: angle less than 90° either way. Source: y = R tan α (1 − cos θ) at Rθ (derived); the cut line is an ellipse.
 *
 * @tests held against pattern tables; no form is cut on the slope yet
 */
export function slopedCylinderCut({ girth, angle, steps = 24 }: { girth: number; angle: number; steps?: number }): {
  rise: Result;
  cutLine: Result;
  ordinates: readonly { readonly along: number; readonly up: number }[];
} {
  const radius = girth / (2 * Math.PI);
  const slope = Math.tan((Math.abs(angle) * Math.PI) / 180);
  const outside = firstOf(
    notAboveNothing('the girth', girth),
    when(!(Math.abs(angle) < 90), 'the cut must be less than 90° from square'),
  );
  const count = Math.min(10_000, Math.max(1, Math.floor(steps) || 1));
  const named = { basis: 'geometry', source: 'Plane cut of a cylinder rolled out (derived)', outside } as const;
  return {
    rise: reckon({
      ...named,
      value: 2 * radius * slope,
      unit: 'mm',
      formula: 'rise = {C|mm}/π × tan {α}°',
      symbols: { C: girth, α: Math.abs(angle) },
    }),
    cutLine: reckon({
      ...named,
      value: roundEllipse(radius, radius * Math.hypot(1, slope)),
      unit: 'mm',
      formula: 'P = way round an ellipse {d|mm} × {d|mm}/cos {α}°',
      symbols: { d: 2 * radius, α: Math.abs(angle) },
    }),
    ordinates:
      outside === undefined
        ? Array.from({ length: count + 1 }, (_, index) => {
            const turned = (2 * Math.PI * index) / count;
            return { along: radius * turned, up: radius * slope * (1 - Math.cos(turned)) };
          })
        : [],
  };
}

/** Longest radius that is still struck with a trammel, mm: common practice (no source). */
const LONGEST_TRAMMEL = 2000;

/** Quadrangles into which an oval cone is divided. */
const FINE = 720;

function wrapOutside(wrap: number): string | undefined {
  return when(!(wrap > 0 && wrap <= 360), 'the wrap must be more than 0 and at most 360°');
}

/** sin x / x, steady down to nothing. */
function sinc(x: number): number {
  return Math.abs(x) < 1e-6 ? 1 - (x * x) / 6 : Math.sin(x) / x;
}

function spread(values: readonly number[]): number {
  return (
    values.reduce((most, value) => Math.max(most, value), -Infinity) -
    values.reduce((least, value) => Math.min(least, value), Infinity)
  );
}

interface Unrolled {
  readonly turned: number;
  readonly area: number;
  readonly longest: number;
  readonly shortest: number;
  readonly bottomLine: number;
  readonly topLine: number;
  readonly outline: readonly { readonly x: number; readonly y: number }[];
}

const NOTHING: Unrolled = {
  turned: Number.NaN,
  area: Number.NaN,
  longest: Number.NaN,
  shortest: Number.NaN,
  bottomLine: Number.NaN,
  topLine: Number.NaN,
  outline: [],
};

type Point = readonly [number, number, number];

/** Lays the cone's strip of triangles flat, one after the other, from the cut on one side to the cut on the other. */
function unrolled(
  { bottom, top, high, offset, wrap }: { bottom: OvalEnd; top: OvalEnd; high: number; offset: number; wrap: number },
  count: number,
  outside: string | undefined,
): Unrolled {
  if (outside !== undefined) return NOTHING;
  const turn = (wrap * Math.PI) / 180;
  // The middle of the piece lies toward the offset, the cut opposite.
  const at = (index: number) => turn * (index / count - 0.5);
  const low = (index: number): Point => [
    (bottom.long / 2) * Math.cos(at(index)),
    (bottom.wide / 2) * Math.sin(at(index)),
    0,
  ];
  const up = (index: number): Point => [
    offset + (top.long / 2) * Math.cos(at(index)),
    (top.wide / 2) * Math.sin(at(index)),
    high,
  ];
  const element = (index: number) => distance(low(index), up(index));
  const lower = [{ x: 0, y: 0 }];
  const upper = [{ x: 0, y: element(0) }];
  let area = 0;
  let turned = 0;
  let bottomLine = 0;
  let topLine = 0;
  let longest = element(0);
  let shortest = longest;
  for (let index = 0; index < count; index++) {
    const from = lower[index] as Flat;
    const over = upper[index] as Flat;
    const base = distance(low(index), low(index + 1));
    const cross = distance(low(index + 1), up(index));
    const lid = distance(up(index), up(index + 1));
    const side = element(index + 1);
    const next = laid(from, over, base, cross);
    const nextOver = laid(next, over, side, lid);
    area += triangle(element(index), base, cross) + triangle(cross, side, lid);
    bottomLine += base;
    topLine += lid;
    turned += angleBetween(from, over, next, nextOver);
    longest = Math.max(longest, side);
    shortest = Math.min(shortest, side);
    lower.push(next);
    upper.push(nextOver);
  }
  const middle = Math.floor(count / 2);
  return {
    turned: (Math.abs(turned) * 180) / Math.PI,
    area,
    longest,
    shortest,
    bottomLine,
    topLine,
    outline: uprightAt([...lower, ...upper.toReversed()], lower[middle] as Flat, upper[middle] as Flat),
  };
}

interface Flat {
  readonly x: number;
  readonly y: number;
}

function distance(one: Point, other: Point): number {
  return Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2]);
}

/** Area of a triangle from its sides, steady for slivers (Kahan's ordering of Heron's formula). */
function triangle(one: number, other: number, third: number): number {
  const [c, b, a] = [one, other, third].sort((x, y) => x - y) as [number, number, number];
  const product = (a + (b + c)) * (c - (a - b)) * (c + (a - b)) * (a + (b - c));
  return Math.sqrt(Math.max(0, product)) / 4;
}

/**
 * The point at the given distances from two known ones, on the right of the way from the first to the second. They are
 * never one point, since a cone has a height.
 */
function laid(from: Flat, to: Flat, fromDistance: number, toDistance: number): Flat {
  const base = Math.hypot(to.x - from.x, to.y - from.y);
  const ahead = (base + (fromDistance - toDistance) * ((fromDistance + toDistance) / base)) / 2;
  const right = Math.sqrt(Math.max(0, (fromDistance - ahead) * (fromDistance + ahead)));
  const ux = (to.x - from.x) / base;
  const uy = (to.y - from.y) / base;
  return { x: from.x + ahead * ux + right * uy, y: from.y + ahead * uy - right * ux };
}

function angleBetween(from: Flat, over: Flat, next: Flat, nextOver: Flat): number {
  const ax = over.x - from.x;
  const ay = over.y - from.y;
  const bx = nextOver.x - next.x;
  const by = nextOver.y - next.y;
  return Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
}

/** Turns and shifts a pattern so that the given element stands upright with its foot at the origin. */
function uprightAt(points: readonly Flat[], foot: Flat, head: Flat): readonly Flat[] {
  const length = Math.hypot(head.x - foot.x, head.y - foot.y);
  const ux = (head.x - foot.x) / length;
  const uy = (head.y - foot.y) / length;
  return points.map(({ x, y }) => ({
    x: (x - foot.x) * uy - (y - foot.y) * ux,
    y: (x - foot.x) * ux + (y - foot.y) * uy,
  }));
}
