import { say } from '../../../l10n/say.ts';
import type { Metal, MetalId, Temper } from '../metal/metals.ts';
import { firstOf, notAboveNothing, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import { plain, type Result } from '../reckoning/result.ts';

/**
 * Length of metal (mm) that a bend takes up, between the ends of its curve.
 *
 * `turned` is the angle the metal is turned through, degrees, NOT the included angle on a drawing. `radius` is the inside
 * radius, mm; `kFactor` the place of the neutral line, as a share of the thickness from the inside.
 * Range: 0…360°, k 0…1. Source: derived; for k see {@link kFactorFor}.
 */
export function bendAllowance({
  turned,
  radius,
  thickness,
  kFactor,
}: {
  turned: number;
  radius: number;
  thickness: number;
  kFactor: number;
}): Result {
  return reckon({
    value: (Math.PI / 180) * turned * (radius + kFactor * thickness),
    unit: 'mm',
    formula: 'BA = π/180 × {θ} × ({R|mm} + {k} × {t|mm})',
    symbols: { θ: turned, R: radius, k: kFactor, t: thickness },
    basis: 'geometry',
    source: 'Length of the neutral line (derived)',
    outside: firstOf(
      bendOutside(turned, radius, thickness, 360),
      when(!(kFactor >= 0 && kFactor <= 1), 'the neutral line must lie within the thickness: k from 0 to 1'),
    ),
    note: 'The angle is the one the metal is turned through, not the one between the two legs.',
  });
}

/**
 * Where the neutral line lies in a bend, as a share of the thickness from the inside: the three classes of Machinery's
 * Handbook. The range spans what the other published rules give for the same radius and thickness (mm).
 *
 * Range: press or hand bends, any angle. The handbook does not name stainless or titanium: they are put with hard metal.
 * Source: Machinery's Handbook, 31st ed., bend allowances for 90°; note: DIN 6935 and the Navy's rule.
 */
export function kFactorFor({
  metal,
  temper = 'soft',
  radius,
  thickness,
}: {
  metal: MetalId;
  temper?: Temper;
  radius: number;
  thickness: number;
}): Result {
  const bendClass = classOf(metal, temper);
  const value = bendClass.share / (Math.PI / 2);
  const din = dinFactor(radius, thickness);
  return reckon({
    value,
    low: Math.min(value, NAVY_FACTOR, din),
    high: Math.max(value, NAVY_FACTOR, din),
    unit: 'ratio',
    formula: 'k = {share}/(π/2)',
    symbols: { share: bendClass.share },
    basis: 'published',
    source: say`Machinery’s Handbook, 31st ed., 90° bends: ${bendClass.title}`,
    outside: firstOf(notAtLeastNothing('the radius', radius), notAboveNothing('the thickness', thickness)),
    note: say`DIN 6935 (from memory) gives ${plain(din)} for this radius, the Navy’s and FAA’s rule 0.447 for any.`,
  });
}

/**
 * Setback (mm): from the sharp corner of the outside measures to where the bend begins.
 * Range: turned less than 180°; over 150° it grows past use and the tangent points should be measured instead.
 * Source: geometry; table of tan(θ/2) in FAA AC 43.13-1B.
 */
export function setback({ turned, radius, thickness }: { turned: number; radius: number; thickness: number }): Result {
  return reckon({
    value: (radius + thickness) * Math.tan((turned / 2) * (Math.PI / 180)),
    unit: 'mm',
    formula: 'SB = ({R|mm} + {t|mm}) × tan({θ}°/2)',
    symbols: { R: radius, t: thickness, θ: turned },
    basis: 'geometry',
    source: 'Tangent to the outside of the bend; FAA AC 43.13-1B tabulates tan(θ/2)',
    outside: firstOf(
      bendOutside(turned, radius, thickness, 180),
      when(turned >= 180, 'a bend of 180° has no corner to measure from'),
      when(turned > 150, 'over 150° the setback runs away: measure from the ends of the curve'),
    ),
  });
}

/**
 * Bend deduction (mm): what to take off the sum of the two outside measures to get the flat length.
 * Range as {@link setback}. Source: derived, twice the setback less the bend allowance.
 */
export function bendDeduction(bend: { turned: number; radius: number; thickness: number; kFactor: number }): Result {
  const back = setback(bend);
  const allowance = bendAllowance(bend);
  return reckon({
    value: 2 * back.value - allowance.value,
    unit: 'mm',
    formula: 'BD = 2 × {SB|mm} − {BA|mm}',
    symbols: { SB: back.value, BA: allowance.value },
    basis: 'geometry',
    source: 'Outside measures less the flat length (derived)',
    outside: back.outside ?? allowance.outside,
  });
}

/**
 * Tightest inside radius (mm) a metal takes in a 90° bend without cracking.
 *
 * Range: straight bend, clean edges. Along the grain twice the radius is allowed for (common practice).
 * Source: the metal's own bend radius.
 */
export function minimumBendRadius(metal: Metal, thickness: number, grain: 'across' | 'along' = 'across'): Result {
  const times = grain === 'along' ? 2 : 1;
  const { value, low = value, high = value, basis, source } = metal.bendRadius;
  return reckon({
    value: value * times * thickness,
    low: low * times * thickness,
    high: high * times * thickness,
    unit: 'mm',
    formula: grain === 'along' ? 'R = 2 × {r} × {t|mm}' : 'R = {r} × {t|mm}',
    symbols: { r: value, t: thickness },
    basis,
    source: say`Bend radius in thicknesses: ${source}`,
    outside: notAboveNothing('the thickness', thickness),
    note: grain === 'along' ? 'Doubled because the bend runs along the grain (common practice, no source).' : undefined,
  });
}

/**
 * Tightest inside radius (mm) from how much a metal necks before it breaks, percent reduction of area.
 * Range: 0 < reduction ≤ 100; from 50 % on it folds flat. Source: Datsko and Yang, as in manufacturing textbooks (from memory).
 *
 * @tests held against two handbooks; no figure asks for it yet
 */
export function bendRadiusFromReduction(thickness: number, reductionPercent: number): Result {
  return reckon({
    value: thickness * Math.max(0, 50 / reductionPercent - 1),
    unit: 'mm',
    formula: reductionPercent >= 50 ? 'R = 0 × {t|mm}' : 'R = {t|mm} × (50/{r} − 1)',
    symbols: { t: thickness, r: reductionPercent },
    basis: 'published',
    source: 'Datsko and Yang, as in manufacturing textbooks (from memory)',
    outside: firstOf(
      notAboveNothing('the thickness', thickness),
      notAboveNothing('the reduction of area', reductionPercent),
      when(reductionPercent > 100, 'the reduction of area cannot be more than 100 %'),
    ),
  });
}

/**
 * Radius (mm) to which a curve opens when it is let go.
 *
 * `radius` as rolled or bent, mm; `yield` and `modulus` in MPa. Range: elastic part at most the whole, x < 0.5; at 0.5 the
 * sheet springs flat. Source: springback formula of the manufacturing textbooks (from memory).
 *
 * @tests what radiusToRollTo undoes is held against the textbooks by it
 */
export function springback(bend: { radius: number; yield: number; modulus: number; thickness: number }): Result {
  const x = elasticPart(bend);
  return reckon({
    value: bend.radius / (4 * x ** 3 - 3 * x + 1),
    unit: 'mm',
    formula: 'Rf = {Ri|mm} ÷ (4x³ − 3x + 1), x = {Ri|mm} × {Sy}/({E} × {t|mm})',
    symbols: { Ri: bend.radius, Sy: bend.yield, E: bend.modulus, t: bend.thickness },
    basis: 'published',
    source: 'Springback formula of the manufacturing textbooks (from memory)',
    outside: firstOf(
      springOutside(bend),
      when(x >= 0.5, 'so large a radius does not set: the sheet springs flat again'),
    ),
  });
}

/**
 * Radius (mm) to roll or bend to, so that the curve opens to `radius` when it is let go: {@link springback} the other way round.
 * Range: as there; every finished radius can be reached. Source: as there, solved by halving.
 */
export function radiusToRollTo(bend: { radius: number; yield: number; modulus: number; thickness: number }): Result {
  const outside = springOutside(bend);
  const stiffness = bend.yield / (bend.modulus * bend.thickness);
  let low = 0;
  let high = Math.min(bend.radius, 0.5 / stiffness);
  for (let step = 0; step < 100; step++) {
    const middle = (low + high) / 2;
    const x = middle * stiffness;
    if (middle / (4 * x ** 3 - 3 * x + 1) < bend.radius) low = middle;
    else high = middle;
  }
  return reckon({
    value: outside === undefined ? (low + high) / 2 : Number.NaN,
    unit: 'mm',
    formula: 'Ri from {Rf|mm} = Ri ÷ (4x³ − 3x + 1), x = Ri × {Sy}/({E} × {t|mm})',
    symbols: { Rf: bend.radius, Sy: bend.yield, E: bend.modulus, t: bend.thickness },
    basis: 'published',
    source: 'Springback formula of the manufacturing textbooks (from memory), solved for the rolled radius',
    outside,
  });
}

/**
 * True strain of the free edge of a flange turned on a curved line.
 *
 * `radius` of the bend line in plan, mm; `width` of the developed flange, mm; `angle` turned, degrees. `stretch` is the
 * flange of a hollow edge or a hole, `shrink` that of an outside curve (its strain is below nothing).
 * Range: width less than radius on the stretch side, angle 0…180°. Source: lengths before and after (derived).
 */
export function flangeStrain({
  radius,
  width,
  angle,
  side,
}: {
  radius: number;
  width: number;
  angle: number;
  side: 'stretch' | 'shrink';
}): Result {
  const sign = side === 'stretch' ? -1 : 1;
  const before = radius + sign * width;
  const after = radius + sign * width * Math.cos((angle * Math.PI) / 180);
  const engineering = (after / before - 1) * 100;
  return reckon({
    value: Math.log(after / before),
    unit: 'ratio',
    formula:
      side === 'stretch'
        ? 'ε = ln(({R|mm} − {w|mm} × cos {α}°)/({R|mm} − {w|mm}))'
        : 'ε = ln(({R|mm} + {w|mm} × cos {α}°)/({R|mm} + {w|mm}))',
    symbols: { R: radius, w: width, α: angle },
    basis: 'geometry',
    source: 'Way round the free edge before and after turning (derived)',
    outside: firstOf(
      notAboveNothing('the radius', radius),
      notAtLeastNothing('the flange’s width', width),
      when(!(angle >= 0 && angle <= 180), 'a flange is turned through 0 to 180°'),
      when(
        side === 'stretch' && width >= radius,
        'the flange is as wide as the curve’s radius: nothing is left to turn',
      ),
      when(after <= 0, 'the flange would fold through the middle of the curve'),
    ),
    note: Number.isFinite(engineering) ? say`${plain(engineering)} % along the edge.` : undefined,
  });
}

/**
 * True strain of the free edge of a flare: an end of a cylinder or a cone opened out.
 *
 * `radius` at the end before the flare, mm; `taper` how far the wall already opens toward that end, degrees (below nothing
 * where it narrows); `turned` the angle of the flare, degrees; `width` of the flare along the metal, mm.
 * Range: opened at most until it stands square to the axis. Source: way round the edge before and after (derived).
 */
export function flareStrain({
  radius,
  taper,
  turned,
  width,
}: {
  radius: number;
  taper: number;
  turned: number;
  width: number;
}): Result {
  const radians = Math.PI / 180;
  const before = radius + width * Math.sin(taper * radians);
  const after = radius + width * Math.sin(Math.min(taper + turned, 90) * radians);
  const engineering = (after / before - 1) * 100;
  return reckon({
    value: Math.log(after / before),
    unit: 'ratio',
    formula: 'ε = ln(({R|mm} + {w|mm} × sin {γ}°)/({R|mm} + {w|mm} × sin {β}°))',
    symbols: { R: radius, w: width, γ: Math.min(taper + turned, 90), β: taper },
    basis: 'geometry',
    source: 'Way round the free edge before and after flaring (derived)',
    outside: firstOf(
      notAboveNothing('the radius', radius),
      notAtLeastNothing('the flare’s width', width),
      when(!(turned >= 0 && turned <= 180), 'a flare is turned through 0 to 180°'),
      when(!(taper > -90 && taper < 90), 'the wall’s taper must lie between −90 and 90°'),
      when(before <= 0, 'the wall narrows to nothing within the flare'),
    ),
    note: Number.isFinite(engineering)
      ? say`${plain(engineering)} % along the edge. A sheared edge of mild steel takes 15 to 20 %, a filed one up to 30 % (common practice, no source).`
      : undefined,
  });
}

/** True strain of an edge whose way changes, by its length before and after, mm. Range: above nothing. Source: definition of strain. */
export function edgeStrain({ before, after }: { before: number; after: number }): Result {
  return reckon({
    value: Math.log(after / before),
    unit: 'ratio',
    formula: 'ε = ln({after|mm}/{before|mm})',
    symbols: { after, before },
    basis: 'geometry',
    source: 'Way along the edge of the form before and after flaring',
    outside: firstOf(notAboveNothing('the edge before', before), notAboveNothing('the edge after', after)),
  });
}

/** Thickness after a bend or a roll, mm. Source: geometry. */
export function keptThickness({ value, low, high }: Pick<Result, 'value' | 'low' | 'high'>): Result {
  return reckon({
    value,
    low,
    high,
    unit: 'mm',
    formula: 't = {t0|mm}',
    symbols: { t0: value },
    basis: 'geometry',
    source: 'A bend or a roll leaves the sheet as thick as it was, but for a little at the bend',
  });
}

/** What a flange's edge takes, as true strain. Source: common practice (no source). */
export const flangeLimits = {
  /** Sheared edge of mild steel. */
  sheared: { value: Math.log(1.15), low: Math.log(1.15), high: Math.log(1.2), ...practice() },
  /** The same edge filed and polished. */
  filed: { value: Math.log(1.3), ...practice() },
  /** A shrink flange folds beyond this unless it is worked in tucks. */
  shrink: { value: Math.log(0.95), ...practice() },
} as const;

function practice(): { basis: 'common practice'; source: string } {
  return { basis: 'common practice', source: 'common practice (no source)' };
}

/** The handbook's three classes: thickness share of the 90° allowance, 1.57 R + share × t. */
const CLASSES = {
  soft: { share: 0.55, title: 'soft brass and soft copper, 0.55 t + 1.57 R' },
  middle: { share: 0.64, title: 'half-hard copper and brass, soft steel and aluminium, 0.64 t + 1.57 R' },
  hard: { share: 0.71, title: 'bronze, hard copper, cold-rolled and spring steel, 0.71 t + 1.57 R' },
} as const;

/** BA = (0.01743 R + 0.0078 t) θ: NAVEDTRA 14018 and FAA handbooks. */
const NAVY_FACTOR = 0.0078 / 0.01743;

const SOFT: ReadonlySet<Temper> = new Set(['soft', 'quarter hard']);

function classOf(metal: MetalId, temper: Temper): (typeof CLASSES)[keyof typeof CLASSES] {
  switch (metal) {
    case 'brass':
    case 'copper':
    case 'nickel silver':
      if (temper === 'soft') return CLASSES.soft;
      return temper === 'quarter hard' || temper === 'half hard' ? CLASSES.middle : CLASSES.hard;
    case 'aluminium':
      return CLASSES.middle;
    case 'mild steel':
    case 'galvanised steel':
    case 'tinplate':
    case 'wrought iron':
      return SOFT.has(temper) || temper === 'normalised' ? CLASSES.middle : CLASSES.hard;
    default:
      return CLASSES.hard;
  }
}

/** DIN 6935: k/2 with k = 0.65 + 0.5 log10(R/t), between nothing and 1. */
function dinFactor(radius: number, thickness: number): number {
  const k = 0.65 + 0.5 * Math.log10(radius / thickness);
  return Math.min(1, Math.max(0, k)) / 2;
}

function bendOutside(turned: number, radius: number, thickness: number, most: number): string | undefined {
  return firstOf(
    notAtLeastNothing('the angle turned', turned),
    when(turned > most, say`the angle turned is more than ${most}°`),
    notAtLeastNothing('the radius', radius),
    notAboveNothing('the thickness', thickness),
  );
}

function elasticPart(bend: { radius: number; yield: number; modulus: number; thickness: number }): number {
  return (bend.radius * bend.yield) / (bend.modulus * bend.thickness);
}

function springOutside(bend: {
  radius: number;
  yield: number;
  modulus: number;
  thickness: number;
}): string | undefined {
  return firstOf(
    notAboveNothing('the radius', bend.radius),
    notAboveNothing('the yield stress', bend.yield),
    notAboveNothing('the modulus', bend.modulus),
    notAboveNothing('the thickness', bend.thickness),
  );
}
