import { roundEllipse } from '../../geometry/ellipse.ts';
import { integral } from '../../geometry/quadrature.ts';
import type { Sourced } from '../metal/metals.ts';
import { firstOf, notAboveNothing, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import { plain, type Result } from '../reckoning/result.ts';

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
      formula: 'A = π({a}² + {h}²)',
      symbols: { a, h: deep },
      basis: 'geometry',
      source: 'Area of the spherical cap',
      outside: domeOutside(diameter, deep),
    });
  }
  return reckon({
    value: roundArea(a, deep),
    unit: 'mm2',
    formula: 'A = π{a}² + π × {a} × {h} × arcsin({e})/{e}',
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
      formula: 's = ({a}² + {h}²)/{h} × arctan({h}/{a})',
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
    formula: 's = a quarter of the way round an ellipse {d} × {H}',
    symbols: { d: diameter, H: 2 * deep },
    basis: 'geometry',
    source: 'Quarter ellipse, since the dome is deeper than a half sphere',
    outside: domeOutside(diameter, deep),
  });
}

/**
 * The tightest radius of a dome's curve, mm: which stake, hollow and hammer will reach it.
 *
 * A part of a sphere has one radius; a deeper dome is tightest at the crown. A flat disc has none: `outside` says so.
 * Source: geometry.
 */
export function domeRadius(diameter: number, deep: number): Result {
  const a = diameter / 2;
  const shallow = !(deep > a);
  const outside = firstOf(domeOutside(diameter, deep), when(deep === 0, 'a flat disc has no radius'));
  return reckon({
    value: shallow ? (a / deep) * (a / 2) + deep / 2 : (a / deep) * a,
    unit: 'mm',
    formula: shallow ? 'R = ({a}² + {h}²)/(2 × {h})' : 'R = {a}²/{h}',
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
    formula: 'D = {d}',
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
    formula: shallow ? 'D = √({d}² + 4 × {h}²)' : 'D = √(4 × {A}/π)',
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
    formula: 'D = 2 × {s}',
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
    formula: 'A = ∫ sin θ × (way round the oval at θ) dθ over {long} × {wide}, {h} deep',
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

/** The oval blank of an oval dome whose rim does not move. Range as {@link ovalDomeArea}; see {@link domeBlankHeld}. */
export function ovalDomeBlankHeld(long: number, wide: number, deep: number): OvalBlank {
  const outside = ovalOutside(long, wide, deep);
  const source = 'Rim held still: the blank is the rim, all stretch';
  const axis = (name: string, value: number) =>
    reckon({
      value,
      unit: 'mm',
      formula: `${name} = {rim}`,
      symbols: { rim: value },
      basis: 'geometry',
      source,
      outside,
    });
  return ovalBlank(axis('long', long), axis('wide', wide), outside);
}

/**
 * The oval blank with the same area as an oval dome, and with the axis ratio of its rim.
 *
 * Range as {@link ovalDomeArea}. Source: equal areas; the same ratio is the rule of public-domain sheet metal handbooks
 * for oval vessels.
 */
export function ovalDomeBlankEqualArea(long: number, wide: number, deep: number): OvalBlank {
  const outside = ovalOutside(long, wide, deep);
  const area = ovalArea(long, wide, deep);
  // As growth over the rim, so that no depth gives the rim itself and equal axes give the round blank.
  const growth = Math.sqrt(area / ((Math.PI / 4) * long) / wide);
  const axis = (name: string, rim: number) =>
    reckon({
      value: rim * growth,
      unit: 'mm',
      formula: `${name} = {rim} × √({A}/(π/4 × {l} × {w}))`,
      symbols: { rim, A: area, l: long, w: wide },
      basis: 'geometry',
      source: 'Oval of the dome’s area and the rim’s axis ratio, as public-domain handbooks do for oval vessels',
      outside,
    });
  return ovalBlank(axis('long', long), axis('wide', wide), outside);
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
      formula: `${name} = 2 × {s}`,
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
    long: reckon({ value: meridian, unit: 'mm', formula: 'long = {s}', symbols: { s: meridian }, ...common }),
    wide: reckon({
      value: (Math.PI * diameter) / gores,
      unit: 'mm',
      formula: 'wide = π × {d}/{n}',
      symbols: { d: diameter, n: gores },
      ...common,
      note: `For gores hammered to a double curve. Left flat across, they stand round the dome and are ${plain(slab)} mm wide at the rim.`,
    }),
    area: reckon({
      value: roundArea(a, deep) / gores,
      unit: 'mm2',
      formula: 'area = {A}/{n}',
      symbols: { A: roundArea(a, deep), n: gores },
      ...common,
    }),
    slab: reckon({
      value: slab,
      unit: 'mm',
      formula: 'wide = {d} × tan(180°/{n})',
      symbols: { d: diameter, n: gores },
      ...common,
      note: 'For gores left flat across.',
    }),
  };
}

/**
 * Half width (mm) of a gore hammered to a double curve, at the given way (mm) from the rim toward the point.
 * At the rim half of {@link gore}'s width, at the point nothing. Outside the gore: NaN. Source: geometry.
 */
export function goreHalfWidth(diameter: number, deep: number, gores: number, fromRim: number): number {
  const a = diameter / 2;
  const meridian = roundMeridian(a, deep);
  if (!(fromRim >= 0 && fromRim <= meridian)) return Number.NaN;
  return (Math.PI / gores) * radiusAlong(a, deep, meridian - fromRim);
}

export type FormingMethod = 'dish' | 'raise' | 'dish then raise' | 'held';

export interface DomeThickness {
  /** Thickness at the crown, mm. */
  readonly crown: Result;
  /** Thickness at the rim, mm. */
  readonly edge: Result;
  /** The thinnest place, mm. */
  readonly least: Result;
  /** Effective true strain at the crown: what an anneal count adds up. */
  readonly strainCrown: Result;
  /** Effective true strain at the rim. */
  readonly strainEdge: Result;
  /** True strain along the rim itself: below nothing where it shrinks. */
  readonly hoopEdge: Result;
}

/**
 * Thickness (mm) and strain (true) of a dome after forming, for a round dome or, with `wide`, an oval one.
 *
 * The model is even stretch along the meridian: a blank of radius ρ is stretched by s/ρ from crown to rim, everywhere
 * alike, while its rim draws in from ρ to a; the metal's volume is kept.
 * - `dish`: ρ of the equal-area blank. The range runs from a held rim (thinnest) to a blank that is all shrink.
 * - `held`: the rim does not move; the crown follows Chakrabarty and Alexander 1970, between Hill 1950 and the mean.
 * - `raise`: the crown keeps its thickness, or loses a twentieth; the rim thickens as a free edge does, by √(D/d).
 * - `dish then raise`: half way, in true strain, between the two.
 *
 * An oval uses radii of the discs that have the areas of its three blanks. `hardening` is the exponent n, 0…1.
 * Range: cold forming by hand, sheet thin beside the radius. A held rim: shallower than a half sphere. An oval at most four
 * times as long as wide: of a longer one the mean radius says too little, and its crown would come out thicker the deeper.
 * Source: volume constancy (derived); bulge-test models and the free-edge rule from memory.
 */
export function domeThickness({
  diameter,
  wide = diameter,
  deep,
  thickness,
  hardening,
  method,
}: {
  diameter: number;
  wide?: number;
  deep: number;
  thickness: number;
  hardening: number;
  method: FormingMethod;
}): DomeThickness {
  const radii = meanRadii(diameter, wide, deep);
  const outside = firstOf(
    ovalOutside(diameter, wide, deep),
    notAboveNothing('the thickness', thickness),
    when(!(hardening >= 0 && hardening < 1), 'the hardening exponent must lie between 0 and 1'),
    when(
      Math.max(diameter, wide) > LONGEST_OVAL * Math.min(diameter, wide),
      'an oval more than four times as long as wide does not thin like a round dome',
    ),
    when(
      method === 'held' && deep >= Math.min(diameter, wide) / 2,
      'as deep as a half sphere or deeper: with a held rim it tears first',
    ),
  );
  return FORMED[method]({ ...radii, thickness, hardening, outside });
}

/** Lengths of an oval, in widths, up to which its crown follows the disc of the same area. */
const LONGEST_OVAL = 4;

/**
 * Mean thickness (mm) of a formed plate, from the areas (mm²) of its blank and of the finished surface.
 * Holds for every way of forming. Range: areas above nothing. Source: volume constancy (derived).
 */
export function meanThickness(blankArea: number, formedArea: number, thickness: number): Result {
  return reckon({
    value: (thickness * blankArea) / formedArea,
    unit: 'mm',
    formula: 't = {t0} × {blank}/{formed}',
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
    formula: 'ε = ln(1 + (23.3 + 14.13 × {t}) × {n}/0.21/100)',
    symbols: { t, n },
    basis: 'published',
    source: 'Keeler and Brazier forming limit FLC0 (from memory)',
    outside: firstOf(
      notAboveNothing('the thickness', thickness),
      notAtLeastNothing('the hardening exponent', hardening),
      when(thickness > 3, 'over 3 mm the limit is not known to rise any further'),
    ),
    note: `${plain(percent)} % stretch. Flag thinning over 15 %, and mind 25 % without an anneal (common practice, no source).${
      hardening > 0.21 ? ' The exponent is counted as 0.21, the most the rule was drawn for.' : ''
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
    source: `Stretch at the break: ${elongation.source}`,
    outside: notAboveNothing('the stretch at the break', value),
    note: 'The Keeler limit is drawn for annealed low-carbon steel only and is not used here. Stretched both ways, a sheet gives out sooner than in a straight pull.',
  });
}

/**
 * How many anneals a piece needs on the way, from its accumulated true strain and what the metal takes before one is due.
 *
 * Range: starting from soft stock. The range of the answer comes from that of the metal's allowance; hand raising is often
 * annealed after every course all the same. Source: common practice (no source).
 */
export function annealsNeeded(strain: number, strainBeforeAnneal: Sourced): Result {
  const size = Math.abs(strain);
  // A billionth of slack, so that a strain of exactly two allowances asks for one anneal and not for two.
  const count = (allowed: number) => Math.max(0, Math.ceil(size / allowed - 1e-9) - 1);
  const { value, low = value, high = value } = strainBeforeAnneal;
  return reckon({
    value: count(value),
    low: count(high),
    high: count(Math.min(low, value)),
    unit: 'count',
    formula: 'anneals = {ε}/{allowed}, rounded up, less 1',
    symbols: { ε: size, allowed: value },
    basis: strainBeforeAnneal.basis,
    source: `Strain before an anneal is due: ${strainBeforeAnneal.source}`,
    outside: firstOf(
      when(!Number.isFinite(strain), 'the strain is not a number'),
      notAboveNothing('the strain before an anneal', value),
    ),
    note: 'From soft stock. Handbooks anneal a raised bowl two or three times, some after every course.',
  });
}

/**
 * Courses of raising that bring a blank in to a rim, from both diameters (mm).
 *
 * Each course takes 10 to 15 % off the diameter. Range: a blank not smaller than the rim. Source: common practice (no source).
 */
export function raisingCourses(blankDiameter: number, rimDiameter: number): Result {
  const shrink = Math.log(blankDiameter / rimDiameter);
  const count = (share: number) => Math.max(0, Math.ceil(shrink / -Math.log1p(-share) - 1e-9));
  return reckon({
    value: count(0.12),
    low: count(0.15),
    high: count(0.1),
    unit: 'count',
    formula: 'courses = ln({D}/{d}) ÷ −ln(1 − 0.12), rounded up',
    symbols: { D: blankDiameter, d: rimDiameter },
    basis: 'common practice',
    source: 'A course takes 10 to 15 % off the diameter: common practice (no source)',
    outside: firstOf(
      notAboveNothing('the blank', blankDiameter),
      notAboveNothing('the rim', rimDiameter),
      when(blankDiameter < rimDiameter, 'the blank is smaller than the rim: raising only brings metal in'),
    ),
  });
}

/**
 * How far below the rim of a half sphere (mm) the neutral circle lies: metal beyond it gathers, metal inside it stretches,
 * and wrinkles should die away there.
 * Range: half spheres. Source: public-domain sheet metal handbook ("wrinkling circle").
 */
export function neutralCircle(diameter: number): Result {
  return reckon({
    value: diameter / Math.PI,
    unit: 'mm',
    formula: 'below rim = {d}/π',
    symbols: { d: diameter },
    basis: 'published',
    source: 'Wrinkling circle of a half sphere, public-domain sheet and plate metal handbook',
    outside: notAboveNothing('the diameter', diameter),
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
      formula: 'A = π/4 × {long} × {wide}',
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

/** Half diameters of the discs with the areas of the three blanks: of the rim, of the surface, of the arcs. */
function meanRadii(long: number, wide: number, h: number): { a: number; ρ: number; s: number } {
  const a = Math.sqrt(long * wide) / 2;
  const surface = Math.sqrt(ovalArea(long, wide, h) / Math.PI);
  const arc = Math.sqrt(ovalMeridian(long, wide, h) * ovalMeridian(wide, long, h));
  // The three never change places; only rounding could make them, on a dome that is all but flat.
  const ρ = Math.max(a, surface);
  return { a, ρ, s: Math.max(ρ, arc) };
}

interface Forming {
  readonly a: number;
  readonly ρ: number;
  readonly s: number;
  readonly thickness: number;
  readonly hardening: number;
  readonly outside: string | undefined;
}

/** Effective true strain of two strains in the sheet, the third following from constant volume (von Mises). */
function effective(one: number, other: number): number {
  return (2 / Math.sqrt(3)) * Math.sqrt(one * one + other * other + one * other);
}

const EVEN_STRETCH =
  'Even stretch along the meridian, as Kruglov 2002 assumes (from memory), volume kept (derived); for hand work common practice (no source)';
const EQUIVALENT =
  'Half diameters of the discs with the areas of the rim (a), of the surface (ρ) and of the blank that is all shrink (s).';

const FORMED: Readonly<Record<FormingMethod, (forming: Forming) => DomeThickness>> = {
  dish: dished,
  held,
  raise: raised,
  'dish then raise': dishedThenRaised,
};

/** Thickness at the crown of a held cap by Chakrabarty and Alexander, as a share of the start. n = 0 is Hill's. */
function heldCrown(a: number, ρ: number, n: number): number {
  return (a / ρ) ** (2 * (2 - n));
}

function dished({ a, ρ, s, thickness: t0, hardening: n, outside }: Forming): DomeThickness {
  const lower = Math.min(heldCrown(a, ρ, n), (ρ / s) ** 2);
  const crown = reckon({
    value: t0 * (ρ / s) ** 2,
    low: t0 * lower,
    high: t0,
    unit: 'mm',
    formula: 't = {t0} × ({ρ}/{s})²',
    symbols: { t0, ρ, s },
    basis: 'common practice',
    source: EVEN_STRETCH,
    outside,
    note: `${EQUIVALENT} Low: rim held, Chakrabarty and Alexander 1970 (from memory). High: a blank that is all shrink.`,
  });
  const edge = reckon({
    value: (t0 * ρ * ρ) / (s * a),
    low: (t0 * a) / s,
    high: (t0 * s) / a,
    unit: 'mm',
    formula: 't = {t0} × {ρ}²/({s} × {a})',
    symbols: { t0, ρ, s, a },
    basis: 'common practice',
    source: EVEN_STRETCH,
    outside,
    note: `${EQUIVALENT} Low: rim held. High: a blank that is all shrink.`,
  });
  return {
    crown,
    edge,
    least: thinnest(crown),
    strainCrown: reckon({
      value: 2 * Math.log(s / ρ),
      low: 0,
      high: -Math.log(lower),
      unit: 'ratio',
      formula: 'ε = 2 × ln({s}/{ρ})',
      symbols: { s, ρ },
      basis: 'common practice',
      source: `${EVEN_STRETCH}; effective strain is the loss of thickness`,
      outside,
    }),
    strainEdge: reckon({
      value: effective(Math.log(a / ρ), Math.log(s / ρ)),
      unit: 'ratio',
      formula: 'ε = 2/√3 × √(ε1² + ε2² + ε1 × ε2), ε1 = ln({a}/{ρ}), ε2 = ln({s}/{ρ})',
      symbols: { a, ρ, s },
      basis: 'common practice',
      source: `${EVEN_STRETCH}; effective strain of the two (von Mises)`,
      outside,
    }),
    hoopEdge: hoop(a, ρ, outside),
  };
}

function held({ a, ρ, s, thickness: t0, hardening: n, outside }: Forming): DomeThickness {
  const crown = reckon({
    value: t0 * heldCrown(a, ρ, n),
    low: t0 * heldCrown(a, ρ, 0),
    high: t0 * heldCrown(a, ρ, 1),
    unit: 'mm',
    formula: 't = {t0} × ({ρ}/{a})^(−2 × (2 − {n}))',
    symbols: { t0, ρ, a, n },
    basis: 'published',
    source: 'Chakrabarty and Alexander 1970, bulge of a held sheet (from memory)',
    outside,
    note: `Low: Hill 1950. High: uniform, Jovane 1968. Even stretch (Kruglov 2002) gives ${plain(t0 * (a / s) ** 2)} mm. All from memory.`,
  });
  const edge = reckon({
    value: (t0 * a) / s,
    low: t0 * (a / ρ) ** 2,
    high: t0,
    unit: 'mm',
    formula: 't = {t0} × {a}/{s}',
    symbols: { t0, a, s },
    basis: 'common practice',
    source: EVEN_STRETCH,
    outside,
    note: 'Low: the mean of the cap. High: no thinning at the clamp.',
  });
  return {
    crown,
    edge,
    least: thinnest(crown),
    strainCrown: reckon({
      value: 2 * (2 - n) * Math.log(ρ / a),
      low: 2 * Math.log(ρ / a),
      high: 4 * Math.log(ρ / a),
      unit: 'ratio',
      formula: 'ε = 2 × (2 − {n}) × ln({ρ}/{a})',
      symbols: { n, ρ, a },
      basis: 'published',
      source: 'Chakrabarty and Alexander 1970 (from memory); effective strain is the loss of thickness',
      outside,
    }),
    strainEdge: reckon({
      value: effective(0, Math.log(s / a)),
      unit: 'ratio',
      formula: 'ε = 2/√3 × ln({s}/{a})',
      symbols: { s, a },
      basis: 'common practice',
      source: `${EVEN_STRETCH}; the rim itself does not change its length`,
      outside,
    }),
    hoopEdge: hoop(a, a, outside),
  };
}

/** What raising may take off the crown at most (common practice, no source). */
const RAISED_CROWN = 0.95;

function raised({ a, ρ, s, thickness: t0, outside }: Forming): DomeThickness {
  // A shallow dome cannot lose more in raising than dishing it would take off.
  const lower = Math.max(RAISED_CROWN, (ρ / s) ** 2);
  const crown = reckon({
    value: t0,
    low: t0 * lower,
    high: t0,
    unit: 'mm',
    formula: 't = {t0}',
    symbols: { t0 },
    basis: 'common practice',
    source: 'Raising brings the rim in and leaves the crown; it may lose a twentieth: common practice (no source)',
    outside,
  });
  const edge = reckon({
    value: t0 * Math.sqrt(s / a),
    low: t0,
    high: (t0 * s) / a,
    unit: 'mm',
    formula: 't = {t0} × √({s}/{a})',
    symbols: { t0, s, a },
    basis: 'published',
    source: 'Free edge of a drawn cup, √(D/d) (derived; the cup-drawing rule from memory)',
    outside,
    note: `${EQUIVALENT} Low: all taken up as length. High: all taken up as thickness.`,
  });
  return {
    crown,
    edge,
    least: thinnest(crown),
    strainCrown: reckon({
      value: 0,
      low: 0,
      high: -Math.log(lower),
      unit: 'ratio',
      formula: 'ε = ln({t0}/{t0})',
      symbols: { t0 },
      basis: 'common practice',
      source: 'The crown is hardly worked in raising: common practice (no source)',
      outside,
    }),
    strainEdge: reckon({
      value: Math.log(s / a),
      low: Math.log(s / a),
      high: effective(0, Math.log(s / a)),
      unit: 'ratio',
      formula: 'ε = ln({s}/{a})',
      symbols: { s, a },
      basis: 'geometry',
      source: 'Rim shrunk along its length, free to thicken and lengthen (derived)',
      outside,
      note: 'High: as if no length were gained toward the rim.',
    }),
    hoopEdge: hoop(a, s, outside),
  };
}

function dishedThenRaised(forming: Forming): DomeThickness {
  const dish = dished(forming);
  const raise = raised(forming);
  const { a, ρ, s } = forming;
  const source = 'Half way, in true strain, between dishing and raising: common practice (no source)';
  const between = (one: Result, other: Result, what: string) =>
    reckon({
      value: Math.sqrt(one.value * other.value),
      low: Math.sqrt((one.low ?? one.value) * (other.low ?? other.value)),
      high: Math.sqrt((one.high ?? one.value) * (other.high ?? other.value)),
      unit: 'mm',
      formula: `${what} = √({dished} × {raised})`,
      symbols: { dished: one.value, raised: other.value },
      basis: 'common practice',
      source,
      outside: forming.outside,
    });
  const mean = (one: Result, other: Result) =>
    reckon({
      value: (one.value + other.value) / 2,
      low: ((one.low ?? one.value) + (other.low ?? other.value)) / 2,
      high: ((one.high ?? one.value) + (other.high ?? other.value)) / 2,
      unit: 'ratio',
      formula: 'ε = ({dished} + {raised})/2',
      symbols: { dished: one.value, raised: other.value },
      basis: 'common practice',
      source,
      outside: forming.outside,
    });
  const crown = between(dish.crown, raise.crown, 't');
  return {
    crown,
    edge: between(dish.edge, raise.edge, 't'),
    least: thinnest(crown),
    strainCrown: mean(dish.strainCrown, raise.strainCrown),
    strainEdge: mean(dish.strainEdge, raise.strainEdge),
    hoopEdge: hoop(a, Math.sqrt(ρ * s), forming.outside),
  };
}

/** In every one of these models the crown is the thinnest place. */
function thinnest(crown: Result): Result {
  const { value, low, high, basis, source, outside } = crown;
  return reckon({
    value,
    low,
    high,
    unit: 'mm',
    formula: 'least = {crown}, at the crown',
    symbols: { crown: value },
    basis,
    source,
    outside,
    note: 'Planishing takes off another 2 to 5 % (common practice, no source).',
  });
}

function hoop(a: number, from: number, outside: string | undefined): Result {
  return reckon({
    value: Math.log(a / from),
    unit: 'ratio',
    formula: 'ε = ln({a}/{D})',
    symbols: { a, D: from },
    basis: 'geometry',
    source: 'Rim of the blank against rim of the dome: below nothing it shrinks',
    outside,
  });
}
