import { say } from '../../../l10n/say.ts';
import { roundEllipse } from '../../geometry/ellipse.ts';
import { integral } from '../../geometry/quadrature.ts';
import type { Sourced } from '../metal/metals.ts';
import { intervalOf } from '../reckoning/interval.ts';
import { firstOf, notAboveNothing, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import { plain, type Result } from '../reckoning/result.ts';
import { remeasured } from '../reckoning/working.ts';

/*
 * The shapes. A dome of rim diameter d and depth h is a part of a sphere while h ≤ d/2; a deeper one is half an
 * ellipsoid of revolution with the rim as its widest part. The two are the same half sphere at h = d/2.
 * An oval dome is the round dome of its narrow axis, stretched along its long axis while h ≤ narrow/2; a deeper one is
 * half an ellipsoid. With both axes the same it is the round dome. All measures are of the middle of the thickness.
 */

/**
 * Finished area of a dome, mm², from its rim diameter and depth, mm.
 *
 * Range: diameter above nothing, any depth from nothing. Depth nothing is the flat disc. Source: geometry.
 */
export function domeArea(diameter: number, deep: number): Result {
  const a = diameter / 2;
  if (!(deep > a)) {
    return reckon({
      value: roundArea(a, deep),
      unit: 'mm2',
      formula: 'A = π({a|mm}² + {h|mm}²)',
      symbols: { a, h: deep },
      basis: 'geometry',
      source: 'Area of the spherical cap',
      outside: domeOutside(diameter, deep),
    });
  }
  return reckon({
    value: roundArea(a, deep),
    unit: 'mm2',
    formula: 'A = π{a|mm}² + π × {a|mm} × {h|mm} × arcsin({e})/{e}',
    symbols: { a, h: deep, e: Math.sqrt(1 - (a / deep) ** 2) },
    basis: 'geometry',
    source: 'Area of half a prolate spheroid, since the dome is deeper than a half sphere',
    outside: domeOutside(diameter, deep),
  });
}

/**
 * Length over the dome from rim to crown, mm. Range and source as {@link domeArea}.
 */
export function domeMeridian(diameter: number, deep: number): Result {
  const a = diameter / 2;
  if (!(deep > a)) {
    return reckon({
      value: roundMeridian(a, deep),
      unit: 'mm',
      formula: 's = ({a|mm}² + {h|mm}²)/{h|mm} × arctan({h|mm}/{a|mm})',
      symbols: { a, h: deep },
      basis: 'geometry',
      source: 'Arc of the spherical cap',
      outside: domeOutside(diameter, deep),
      note: deep === 0 ? 'At no depth it is the half diameter.' : undefined,
    });
  }
  return reckon({
    value: roundMeridian(a, deep),
    unit: 'mm',
    formula: 's = a quarter of the way round an ellipse {d|mm} × {H|mm}',
    symbols: { d: diameter, H: 2 * deep },
    basis: 'geometry',
    source: 'Quarter ellipse, since the dome is deeper than a half sphere',
    outside: domeOutside(diameter, deep),
  });
}

/** The way over the crown of a round dome from rim to rim, mm. Range and source as {@link domeMeridian}. */
export function overTheCrown(diameter: number, deep: number): Result {
  const meridian = domeMeridian(diameter, deep);
  return {
    ...meridian,
    value: 2 * meridian.value,
    formula: '2s, from rim over the crown to rim',
    worked: `2 × (${meridian.worked})`,
    ...remeasured(meridian, (sum) => `2 × (${sum})`),
  };
}

/**
 * The tightest radius of a dome's curve, mm: which stake, hollow and hammer will reach it.
 *
 * A part of a sphere has one radius; a deeper dome is tightest at the crown. A flat disc has none: `outside` says so.
 * Source: geometry.
 *
 * @tests the closed form that curvature of surfaces is held against
 */
export function domeRadius(diameter: number, deep: number): Result {
  const a = diameter / 2;
  const shallow = !(deep > a);
  const outside = firstOf(domeOutside(diameter, deep), when(deep === 0, 'a flat disc has no radius'));
  return reckon({
    value: shallow ? (a / deep) * (a / 2) + deep / 2 : (a / deep) * a,
    unit: 'mm',
    formula: shallow ? 'R = ({a|mm}² + {h|mm}²)/(2 × {h|mm})' : 'R = {a|mm}²/{h|mm}',
    symbols: { a, h: deep },
    basis: 'geometry',
    source: shallow ? 'Radius of the sphere' : 'Radius of the half ellipsoid at its crown, where it is tightest',
    outside,
  });
}

/**
 * Diameter of the blank (mm) if the rim does not move at all: all the depth comes from stretching.
 * Only for a clamped rim. Range as {@link domeArea}. Source: geometry.
 */
export function domeBlankHeld(diameter: number, deep: number): Result {
  return reckon({
    value: diameter,
    unit: 'mm',
    formula: 'D = {d|mm}',
    symbols: { d: diameter },
    basis: 'geometry',
    source: 'Rim held still: the blank is the rim, all stretch',
    outside: domeOutside(diameter, deep),
  });
}

/**
 * Diameter of the blank (mm) with the same area as the dome: the thickness is kept on average.
 *
 * The blank for hand dishing, which lets the rim draw in; add for trimming. Range as {@link domeArea}.
 * Source: equal areas; for a part of a sphere the classic construction (twice the straight line from crown to rim).
 */
export function domeBlankEqualArea(diameter: number, deep: number): Result {
  const a = diameter / 2;
  const shallow = !(deep > a);
  const area = roundArea(a, deep);
  return reckon({
    value: 2 * Math.sqrt(area / Math.PI),
    unit: 'mm',
    formula: shallow ? 'D = √({d|mm}² + 4 × {h|mm}²)' : 'D = √(4 × {A|mm²}/π)',
    symbols: { d: diameter, h: deep, A: area },
    basis: 'geometry',
    source: shallow
      ? 'Equal areas: twice the straight line from crown to rim, as in public-domain sheet metal handbooks'
      : 'Equal areas of disc and half ellipsoid',
    outside: domeOutside(diameter, deep),
    note: 'Add 3 to 6 mm all round to trim (common practice, no source).',
  });
}

/**
 * Diameter of the blank (mm) whose half is the way over the dome from rim to crown: all the depth comes from shrinking
 * the rim in, as in raising. Range as {@link domeArea}. Source: geometry.
 */
export function domeBlankArc(diameter: number, deep: number): Result {
  const meridian = roundMeridian(diameter / 2, deep);
  return reckon({
    value: 2 * meridian,
    unit: 'mm',
    formula: 'D = 2 × {s|mm}',
    symbols: { s: meridian },
    basis: 'geometry',
    source: 'Twice the arc from rim to crown: lengths toward the crown are kept, all shrink',
    outside: domeOutside(diameter, deep),
    note: 'Silversmiths’ quick rule: diameter + depth (common practice, no source).',
  });
}

/**
 * Finished area of an oval dome, mm², from its two rim axes and its depth, mm.
 *
 * Numeric, to about twelve digits; equal axes give {@link domeArea} itself. Either axis may be the longer one.
 * Source: geometry (surface integral of the ellipsoid, whose inner integral is the way round an ellipse).
 */
export function ovalDomeArea(long: number, wide: number, deep: number): Result {
  if (long === wide) return domeArea(long, deep);
  return reckon({
    value: ovalArea(long, wide, deep),
    unit: 'mm2',
    formula: 'A = ∫ sin θ × (way round the oval at θ) dθ over {long|mm} × {wide|mm}, {h|mm} deep',
    symbols: { long, wide, h: deep },
    basis: 'geometry',
    source: ovalShape(long, wide, deep),
    outside: ovalOutside(long, wide, deep),
  });
}

/** The two axes (mm) and the area (mm²) of an oval blank. */
export interface OvalBlank {
  readonly long: Result;
  readonly wide: Result;
  readonly area: Result;
}

/**
 * The oval blank whose half axes are the ways over an oval dome from rim to crown, lengthwise and across.
 * Range as {@link ovalDomeArea}; see {@link domeBlankArc}.
 */
export function ovalDomeBlankArc(long: number, wide: number, deep: number): OvalBlank {
  const outside = ovalOutside(long, wide, deep);
  const axis = (name: string, along: number, across: number) => {
    const meridian = ovalMeridian(along, across, deep);
    return reckon({
      value: 2 * meridian,
      unit: 'mm',
      formula: `${name} = 2 × {s|mm}`,
      symbols: { s: meridian },
      basis: 'geometry',
      source: 'Twice the arc from rim to crown along this axis: lengths toward the crown are kept, all shrink',
      outside,
    });
  };
  return ovalBlank(axis('long', long, wide), axis('wide', wide, long), outside);
}

/**
 * One gore of a dome built from several: its length from rim to point (mm), its width at the rim (mm) and its area (mm²).
 *
 * The width is for metal that is hammered to a double curve; gores left flat across are wider, which the note gives.
 * Range: three gores or more. Source: geometry; the gored ball of public-domain pattern drafting.
 */
export function gore(
  diameter: number,
  deep: number,
  gores: number,
): { long: Result; wide: Result; area: Result; slab: Result } {
  const outside = firstOf(
    domeOutside(diameter, deep),
    when(!Number.isFinite(gores), 'the number of gores is not a number'),
    when(gores < 3 || !Number.isInteger(gores), 'a dome is built from three gores or more, a whole number'),
  );
  const a = diameter / 2;
  const meridian = roundMeridian(a, deep);
  const slab = diameter * Math.tan(Math.PI / gores);
  const common = {
    basis: 'geometry',
    source: 'Gores of a ball, as in public-domain pattern drafting',
    outside,
  } as const;
  return {
    long: reckon({ value: meridian, unit: 'mm', formula: 'long = {s|mm}', symbols: { s: meridian }, ...common }),
    wide: reckon({
      value: (Math.PI * diameter) / gores,
      unit: 'mm',
      formula: 'wide = π × {d|mm}/{n}',
      symbols: { d: diameter, n: gores },
      ...common,
      note: say`For gores hammered to a double curve. Left flat across, they stand round the dome and are ${plain(slab)} mm wide at the rim.`,
    }),
    area: reckon({
      value: roundArea(a, deep) / gores,
      unit: 'mm2',
      formula: 'area = {A|mm²}/{n}',
      symbols: { A: roundArea(a, deep), n: gores },
      ...common,
    }),
    slab: reckon({
      value: slab,
      unit: 'mm',
      formula: 'wide = {d|mm} × tan(180°/{n})',
      symbols: { d: diameter, n: gores },
      ...common,
      note: 'For gores left flat across.',
    }),
  };
}

/**
 * Half width (mm) of a gore hammered to a double curve, at the given way (mm) from the rim toward the point.
 * At the rim half of {@link gore}'s width, at the point nothing. Outside the gore: NaN. Source: geometry.
 *
 * @tests the handbooks’ other way, that gores laid flat are held against
 */
export function goreHalfWidth(diameter: number, deep: number, gores: number, fromRim: number): number {
  const a = diameter / 2;
  const meridian = roundMeridian(a, deep);
  if (!(fromRim >= 0 && fromRim <= meridian)) return Number.NaN;
  return (Math.PI / gores) * radiusAlong(a, deep, meridian - fromRim);
}

/**
 * Mean thickness (mm) of a formed plate, from the areas (mm²) of its blank and of the finished surface.
 * Holds for every way of forming. Range: areas above nothing. Source: volume constancy (derived).
 */
export function meanThickness(blankArea: number, formedArea: number, thickness: number): Result {
  return reckon({
    value: (thickness * blankArea) / formedArea,
    unit: 'mm',
    formula: 't = {t0|mm} × {blank|mm²}/{formed|mm²}',
    symbols: { t0: thickness, blank: blankArea, formed: formedArea },
    basis: 'geometry',
    source: 'The metal’s volume is kept (derived)',
    outside: firstOf(
      notAboveNothing('the blank’s area', blankArea),
      notAboveNothing('the finished area', formedArea),
      notAboveNothing('the thickness', thickness),
    ),
  });
}

/**
 * How far soft steel sheet may be stretched in one go, as true strain, at the worst ratio of strains (one way, nothing
 * the other): the Keeler limit, from the thickness (mm) and the hardening exponent.
 *
 * Range: low-carbon steel, annealed, stretched along one straight path. Thickness counts up to 3 mm and n up to 0.21.
 * Not for brass, copper, stainless or aluminium. Source: Keeler and Brazier, from memory.
 */
export function formingLimit({ thickness, hardening }: { thickness: number; hardening: number }): Result {
  const t = Math.min(thickness, 3);
  const n = Math.min(hardening, 0.21);
  const percent = ((23.3 + 14.13 * t) * n) / 0.21;
  return reckon({
    value: Math.log1p(percent / 100),
    unit: 'ratio',
    formula: 'ε = ln(1 + (23.3 + 14.13 × {t|metric}) × {n}/0.21/100)',
    symbols: { t, n },
    basis: 'published',
    source: 'Keeler and Brazier forming limit FLC0 (from memory)',
    outside: firstOf(
      notAboveNothing('the thickness', thickness),
      notAtLeastNothing('the hardening exponent', hardening),
      when(thickness > 3, 'over 3 mm the limit is not known to rise any further'),
    ),
    note: say`${plain(percent)} % stretch. Flag thinning over 15 %, and mind 25 % without an anneal (common practice, no source).${
      hardening > 0.21 ? say` The exponent is counted as 0.21, the most the rule was drawn for.` : ''
    }`,
  });
}

/**
 * How far a metal may be stretched before it necks, as true strain, where no forming limit is drawn for it: its stretch at
 * the break, percent.
 *
 * Range: above nothing; a rough limit, since a sheet stretched both ways gives out sooner. Source: the metal's elongation.
 */
export function stretchLimit(elongation: Sourced): Result {
  const { value, low = value, high = value } = elongation;
  return reckon({
    value: Math.log1p(value / 100),
    low: Math.log1p(low / 100),
    high: Math.log1p(high / 100),
    unit: 'ratio',
    formula: 'ε = ln(1 + {A}/100)',
    symbols: { A: value },
    basis: elongation.basis,
    source: say`Stretch at the break: ${elongation.source}`,
    outside: notAboveNothing('the stretch at the break', value),
    note: 'The Keeler limit is drawn for annealed low-carbon steel only and is not used here. Stretched both ways, a sheet gives out sooner than in a straight pull.',
  });
}

/**
 * How many anneals a piece needs on the way, from its accumulated true strain and what the metal takes before one is due.
 *
 * Range: starting from soft stock. The range of the answer comes from those of the strain and of the metal's allowance; hand
 * raising is often annealed after every course all the same. Source: common practice (no source).
 */
export function annealsNeeded(
  strain: number | { readonly value: number; readonly low?: number; readonly high?: number },
  strainBeforeAnneal: Sourced,
): Result {
  const { value: size, low: least, high: most } = intervalOf(typeof strain === 'number' ? { value: strain } : strain);
  // A billionth of slack, so that a strain of exactly two allowances asks for one anneal and not for two.
  const count = (strained: number, allowed: number) => Math.max(0, Math.ceil(Math.abs(strained) / allowed - 1e-9) - 1);
  const { value, low = value, high = value } = strainBeforeAnneal;
  return reckon({
    value: count(size, value),
    low: count(least, high),
    high: count(most, Math.min(low, value)),
    unit: 'count',
    formula: 'anneals = {ε}/{allowed}, rounded up, less 1',
    symbols: { ε: size, allowed: value },
    basis: strainBeforeAnneal.basis,
    source: say`Strain before an anneal is due: ${strainBeforeAnneal.source}`,
    outside: firstOf(
      when(!Number.isFinite(size), 'the strain is not a number'),
      notAboveNothing('the strain before an anneal', value),
    ),
    note: 'From soft stock. Handbooks anneal a raised bowl two or three times, some after every course.',
  });
}

/**
 * Courses of raising that bring a rim in, from how far it shrinks along itself, as a true strain: ln(D/d) of a round one.
 *
 * Each course takes 10 to 15 % off the diameter. Range: nothing or more. Source: common practice (no source).
 */
export function raisingCourses(
  shrink: number | { readonly value: number; readonly low: number; readonly high: number },
): Result {
  const { value, low, high } = intervalOf(typeof shrink === 'number' ? { value: shrink } : shrink);
  const count = (drawn: number, share: number) => Math.max(0, Math.ceil(drawn / -Math.log1p(-share) - 1e-9));
  return reckon({
    value: count(value, 0.12),
    low: count(low, 0.15),
    high: count(high, 0.1),
    unit: 'count',
    formula: 'courses = {ε} ÷ −ln(1 − 0.12), rounded up; ε = ln(D/d) along the rim',
    symbols: { ε: value },
    basis: 'common practice',
    source: 'A course takes 10 to 15 % off the diameter: common practice (no source)',
    outside: firstOf(
      when(!Number.isFinite(value), 'the strain is not a number'),
      when(value < 0, 'the rim grows longer: raising only brings metal in'),
    ),
  });
}

function domeOutside(diameter: number, deep: number): string | undefined {
  return firstOf(notAboveNothing('the rim’s diameter', diameter), notAtLeastNothing('the depth', deep));
}

function ovalOutside(long: number, wide: number, deep: number): string | undefined {
  return firstOf(
    notAboveNothing('the rim’s length', long),
    notAboveNothing('the rim’s width', wide),
    notAtLeastNothing('the depth', deep),
  );
}

function ovalShape(long: number, wide: number, deep: number): string {
  return deep <= Math.min(long, wide) / 2
    ? 'Spherical cap of the narrow axis, stretched lengthwise; numeric'
    : 'Half an ellipsoid, since the dome is deeper than half its narrow axis; numeric';
}

function ovalBlank(long: Result, wide: Result, outside: string | undefined): OvalBlank {
  return {
    long,
    wide,
    area: reckon({
      value: (Math.PI / 4) * long.value * wide.value,
      unit: 'mm2',
      formula: 'A = π/4 × {long|mm} × {wide|mm}',
      symbols: { long: long.value, wide: wide.value },
      basis: 'geometry',
      source: 'Area of the oval blank',
      outside,
    }),
  };
}

/** Area of the round dome of half diameter a, depth h. */
function roundArea(a: number, h: number): number {
  if (!(h > a)) return Math.PI * (a * a + h * h);
  const e = Math.sqrt((1 - a / h) * (1 + a / h));
  return Math.PI * a * a + (Math.PI * a * h * Math.asin(e)) / e;
}

/** Arc from rim to crown of the round dome of half diameter a, depth h. */
function roundMeridian(a: number, h: number): number {
  if (h > a) return roundEllipse(a, h) / 4;
  const u = h / a;
  return a * (1 + u * u) * (u < 1e-8 ? 1 : Math.atan(u) / u);
}

/** How far from the axis the dome is at a given way from the crown. */
function radiusAlong(a: number, h: number, fromCrown: number): number {
  if (h === 0) return fromCrown;
  if (h <= a) {
    const radius = (a * a + h * h) / (2 * h);
    return radius * Math.sin(fromCrown / radius);
  }
  // Quarter ellipse: halve the interval on the angle until the arc from the crown is the one asked for.
  let low = 0;
  let high = Math.PI / 2;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    const arc = integral((t) => Math.hypot(a * Math.cos(t), h * Math.sin(t)), 0, middle);
    if (arc < fromCrown) low = middle;
    else high = middle;
  }
  return a * Math.sin((low + high) / 2);
}

/** Below this depth, in half axes, the curve adds less than a double can hold. */
const FLAT = 1e-7;

function ovalArea(long: number, wide: number, h: number): number {
  const a = Math.max(long, wide) / 2;
  const b = Math.min(long, wide) / 2;
  if (a === b) return roundArea(a, h);
  const u = h / b;
  if (u < FLAT) return Math.PI * a * b;
  if (h <= b) {
    const k = a / b;
    const radius = (b * (1 + u * u)) / (2 * u);
    return radius * radius * ellipsoidArea(k, 1, 1, 2 * Math.atan(u));
  }
  return ellipsoidArea(a, b, h, Math.PI / 2);
}

/**
 * Area of the cap of an ellipsoid with half axes a, b across and c upright, from the crown to the parametric angle `to`.
 * At a given angle the integral round the axis is exactly the way round an ellipse, so that only one has to be done by numbers.
 */
function ellipsoidArea(a: number, b: number, c: number, to: number): number {
  return integral(
    (angle) => {
      const sin = Math.sin(angle);
      const cos = Math.cos(angle);
      return sin * roundEllipse(b * Math.hypot(c * sin, a * cos), a * Math.hypot(c * sin, b * cos));
    },
    0,
    to,
  );
}

/** Arc from rim to crown of an oval dome over one of its axes; `across` is the other one. */
function ovalMeridian(along: number, across: number, h: number): number {
  const half = along / 2;
  const narrow = Math.min(along, across) / 2;
  if (h > narrow) return roundEllipse(half, h) / 4;
  if (half === narrow) return roundMeridian(half, h);
  const u = h / narrow;
  if (u < FLAT) return half;
  const k = half / narrow;
  const radius = (narrow * (1 + u * u)) / (2 * u);
  return radius * integral((angle) => Math.hypot(k * Math.cos(angle), Math.sin(angle)), 0, 2 * Math.atan(u));
}
