import { say } from '../../../l10n/say.ts';
import { firstOf, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import { plain, type Result } from '../reckoning/result.ts';

/* Plates that turn on each other about a line: closed forms. Angles in degrees, lengths mm. */

const RADIANS = Math.PI / 180;

/**
 * Share of the whole bend (degrees) that each of a joint's turning places takes when it is spread evenly.
 *
 * Range: one turning place or more. Source: the bend divided (derived).
 */
export function shareOfBend({ bend, turns }: { bend: number; turns: number }): Result {
  return reckon({
    value: bend / turns,
    unit: 'deg',
    formula: 'φ = {Φ} ÷ {n}',
    symbols: { Φ: bend, n: turns },
    basis: 'geometry',
    source: 'The bend shared evenly by the turning places (derived)',
    outside: when(!(turns >= 1), 'a joint turns in one place or more'),
  });
}

/**
 * Overlap (mm) left at a bend of two straight plates that run across the line they turn about, at `radius` from it: the edge of the
 * plate beneath stands `top` above that line, that of the plate over it `end` (below it: a negative number).
 *
 * Range: any bend. Source: the edge carried round the line, and its height told (derived).
 *
 * @tests the closed form that true surfaces are held against
 */
export function overlapOfStraightPlates({
  radius,
  top,
  end,
  bend,
}: {
  radius: number;
  top: number;
  end: number;
  bend: number;
}): Result {
  const φ = bend * RADIANS;
  return reckon({
    value: top * Math.cos(φ) - radius * Math.sin(φ) - end,
    unit: 'mm',
    formula: 'o = {z_t|mm} × cos {φ} − {R|mm} × sin {φ} − {z_e|mm}',
    symbols: { z_t: top, φ: `${bend}°`, R: radius, z_e: end },
    basis: 'geometry',
    source: 'The edge carried round the line of the pivots (derived)',
    outside: notAtLeastNothing('the distance from the pivots', radius),
  });
}

/**
 * Overlap (mm) to assemble with, so that `least` is left when straight plates at `radius` from their pivots have turned by `bend`
 * degrees; the pivots `end` in from the edge of the plate beneath or, where that is not said, in the middle of the overlap.
 *
 * Range: bends of nought to 120°. Source: the closed form for straight plates, solved for o₀ = z_t − z_e (derived).
 */
export function overlapNeeded({
  least,
  radius,
  bend,
  end,
}: {
  least: number;
  radius: number;
  bend: number;
  end?: number | undefined;
}): Result {
  const φ = bend * RADIANS;
  const isMiddle = end === undefined;
  return reckon({
    value: isMiddle
      ? (2 * (least + radius * Math.sin(φ))) / (1 + Math.cos(φ))
      : least + radius * Math.sin(φ) + end * (1 - Math.cos(φ)),
    unit: 'mm',
    formula: isMiddle
      ? 'o₀ = 2 × ({o|mm} + {R|mm} × sin {φ}) ÷ (1 + cos {φ})'
      : 'o₀ = {o|mm} + {R|mm} × sin {φ} + {e|mm} × (1 − cos {φ})',
    symbols: { o: least, R: radius, φ: `${bend}°`, ...(isMiddle ? {} : { e: end }) },
    basis: 'geometry',
    source: 'The closed form for straight plates, solved for the overlap as assembled (derived)',
    outside: firstOf(
      notAtLeastNothing('the overlap', least),
      notAtLeastNothing('the distance from the pivots', radius),
      when(!(bend >= 0 && bend <= 120), 'a pair bends by nought to 120°'),
    ),
  });
}

/**
 * How far (mm) a rivet slides along its arc when plates turn by `bend` degrees, `radius` from the line that they turn about.
 *
 * Range: bends of nought or more. Source: way along the arc (derived).
 */
export function slideTravel({ radius, bend }: { radius: number; bend: number }): Result {
  return reckon({
    value: radius * bend * RADIANS,
    unit: 'mm',
    formula: 's = π/180 × {ρ|mm} × {φ}',
    symbols: { ρ: radius, φ: bend },
    basis: 'geometry',
    source: 'Way along the arc about the line of the pivots (derived)',
    outside: firstOf(notAtLeastNothing('the distance from the pivots', radius), notAtLeastNothing('the bend', bend)),
  });
}

/**
 * Length (mm) of the slot for a rivet that slides, end to end: its way and its shank.
 *
 * Range: all lengths nought or more. Source: way and shank (derived).
 */
export function slotLength({ travel, shank }: { travel: number; shank: number }): Result {
  return reckon({
    value: travel + shank,
    unit: 'mm',
    formula: 'L = {s|mm} + {D|mm}',
    symbols: { s: travel, D: shank },
    basis: 'geometry',
    source: 'Way and shank (derived)',
    outside: firstOf(notAtLeastNothing('the way', travel), notAtLeastNothing('the shank', shank)),
  });
}

const SURFACES = {
  basis: 'geometry',
  source:
    'True surfaces at the middle of the thickness, turned about the line through the pivots, cut by planes across it; measured along the plate that lies over',
} as const;

/** From the line of the pivots to the middle of the plates, mm. Source: geometry. */
export const pivotRadius = (radius: number, note: string): Result =>
  reckon({
    value: radius,
    unit: 'mm',
    formula: 'R = {R|mm}',
    symbols: { R: radius },
    basis: 'geometry',
    source: 'The line through the pivots, to the middle of the overlap',
    note,
  });

/**
 * Overlap of plates as they are put together, mm: on their true surfaces, where these are known, of the overlap that the joint says or,
 * where it says none, of what the bend needs of straight plates. Source: the spec, or the bend.
 */
export const overlapAsBuilt = ({
  overlap,
  lap,
  isSaid,
  note,
}: {
  overlap: number;
  lap: number;
  isSaid: boolean;
  note: string | undefined;
}): Result => {
  const isAsWanted = Math.abs(overlap - lap) < SAME_LAP;
  const wanted = isSaid ? 'as the joint says' : 'what the bend needs in the middle, of straight plates';
  return reckon({
    value: overlap,
    unit: 'mm',
    formula: 'o₀ = {o|mm}',
    symbols: { o: overlap },
    basis: isSaid && isAsWanted ? 'from the spec' : 'geometry',
    source: isAsWanted
      ? `${wanted[0]!.toUpperCase()}${wanted.slice(1)}`
      : say`Measured on the placed plates, which are set ${plain(lap)} mm over each other: ${wanted}`,
    note,
  });
};
/** Nearer than this the plates lie as they were wanted, mm. */
const SAME_LAP = 0.05;

/** A bend as it is told in a formula: to a tenth of a degree. */
const told = (degrees: number): string => `${Math.round(degrees * 10) / 10 + 0}°`;

/** Least overlap over a range of bends, degrees, which the pairs of a joint share evenly, mm. Source: true surfaces. */
export const leastOverlap = (overlap: number, { from, to }: { from: number; to: number }, note: string): Result =>
  reckon({
    ...SURFACES,
    value: overlap,
    unit: 'mm',
    formula: 'o = least overlap, φ from {a|} to {b|}',
    symbols: { a: told(from), b: told(to) },
    note,
  });

/** Least overlap where one pair takes all of the bend that it can, degrees, mm. Source: true surfaces. */
export const worstOverlap = (overlap: number, bend: number, note: string): Result =>
  reckon({
    ...SURFACES,
    value: overlap,
    unit: 'mm',
    formula: 'o = least overlap, one pair at {φ|}',
    symbols: { φ: told(bend) },
    note,
  });

/** The whole bend, degrees, of a joint whose pairs each bend so far. Source: true surfaces. */
export const wholeBend = ({ bend, turns }: { bend: number; turns: number }, note: string): Result =>
  reckon({
    ...SURFACES,
    value: bend * turns,
    unit: 'deg',
    formula: 'Φ = {n} × {φ}',
    symbols: { n: turns, φ: bend },
    note,
  });

const MESHES = {
  basis: 'geometry',
  source:
    'Meshes of the placed plates, turned about the lines through the pivots, the bend shared evenly; their least distance is exact, the meshes lie within 0.1 mm of the plates',
} as const;

/** The bend, degrees, at which plates first press into each other by more than `give` mm. Source: meshes of the placed plates. */
export const bindingBend = (bend: number, give: number, note: string): Result =>
  reckon({
    ...MESHES,
    value: bend,
    unit: 'deg',
    formula: 'Φ = first bend with distance < (t₁ + t₂) ÷ 2 − {g|mm}',
    symbols: { g: give },
    note: say`${note} How far plates spring is common practice (no source).`,
  });

/** The least gap, mm, of plates that do not follow each other, over a range. Source: meshes of the placed plates. */
export const closingGap = (gap: number, bend: number, note: string): Result =>
  reckon({ ...MESHES, value: gap, unit: 'mm', formula: 'g = least gap, Φ = {Φ|}', symbols: { Φ: told(bend) }, note });

/** The greatest rod, mm, that passes between the edge of a plate and the one beneath it, over a range. Source: true surfaces. */
export const rodBetween = (gap: number, bend: number, note: string): Result =>
  reckon({
    ...SURFACES,
    value: gap,
    unit: 'mm',
    formula: 'd = greatest gap, φ = {φ|}',
    symbols: { φ: told(bend) },
    note,
  });
