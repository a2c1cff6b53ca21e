import { firstOf, notAboveNothing, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';
import { formedHead } from '../rivet/rivet.ts';

/** How far a knuckle is curled round its pin, degrees: 270 to 330, common practice (no source). */
const USUAL_CURL = 300;
/** Room between pin and knuckle, mm, in diameter: common practice (no source). */
export const PIN_CLEARANCE = 0.1;
/** Room between one knuckle and the next, mm: 0.1 to 0.2, common practice (no source). */
const KNUCKLE_GAP = 0.15;
/** Room behind a knuckle, in the notch of the other leaf, mm: common practice (no source). */
const NOTCH_PLAY = 0.5;

/**
 * Length of metal (mm) that one knuckle takes beyond the line where its curl begins.
 *
 * `pin` and `thickness` in mm; `curl` how far it goes round, degrees. The neutral line of so tight a curl lies at 0.45 of
 * the thickness (0.45 to 0.5). Range: curl over 0 to 360°. Source: length of the neutral line (derived).
 */
export function knuckleDevelopment({
  pin,
  thickness,
  curl = USUAL_CURL,
  clearance = PIN_CLEARANCE,
  kFactor = 0.45,
}: {
  pin: number;
  thickness: number;
  curl?: number;
  clearance?: number;
  kFactor?: number;
}): Result {
  const radius = (pin + clearance) / 2;
  const length = (round: number, k: number) => ((round * Math.PI) / 180) * (radius + k * thickness);
  const usual = curl === USUAL_CURL && kFactor === 0.45;
  return reckon({
    value: length(curl, kFactor),
    low: usual ? length(270, kFactor) : undefined,
    high: usual ? length(330, 0.5) : undefined,
    unit: 'mm',
    formula: 'L = π/180 × {φ} × ({r|mm} + {k} × {t|mm})',
    symbols: { φ: curl, r: radius, k: kFactor, t: thickness },
    basis: 'geometry',
    source:
      'Neutral line of the curl round pin and clearance (derived); curl of 270 to 330° common practice (no source)',
    outside: firstOf(
      notAboveNothing('the pin', pin),
      notAboveNothing('the thickness', thickness),
      notAtLeastNothing('the clearance', clearance),
      when(!(curl > 0 && curl <= 360), 'a knuckle is curled through more than 0 and at most 360°'),
      when(!(kFactor >= 0 && kFactor <= 1), 'the neutral line must lie within the thickness: k from 0 to 1'),
    ),
    note:
      pin < 2 * thickness
        ? 'The pin is thinner than twice the plate: so tight a curl cracks or will not close (common practice, no source).'
        : 'Beyond the line where the curl begins, on each knuckle; between them the other leaf’s knuckles are cut out.',
  });
}

/**
 * Width (mm) of one knuckle of a hinge with a gap (mm) between neighbours.
 *
 * `knuckles` counts those of both leaves: an odd number holds the pin evenly.
 * Range: at least two, and room for their gaps. Source: the width divided (derived); the gap common practice (no source).
 */
export function knuckleWidth({
  wide,
  knuckles,
  gap = KNUCKLE_GAP,
}: {
  wide: number;
  knuckles: number;
  gap?: number;
}): Result {
  const width = (room: number) => (wide - (knuckles - 1) * room) / knuckles;
  const usual = gap === KNUCKLE_GAP;
  return reckon({
    value: width(gap),
    low: usual ? width(0.2) : undefined,
    high: usual ? width(0.1) : undefined,
    unit: 'mm',
    formula: 'w = ({W|mm} − ({N} − 1) × {gap|mm})/{N}',
    symbols: { W: wide, N: knuckles, gap },
    basis: 'geometry',
    source: 'The hinge’s width divided; gaps of 0.1 to 0.2 mm common practice (no source)',
    outside: firstOf(
      notAboveNothing('the hinge’s width', wide),
      notAtLeastNothing('the gap', gap),
      when(!(Number.isInteger(knuckles) && knuckles >= 2), 'a hinge has at least two knuckles'),
      when(width(gap) <= 0, 'the gaps take up the whole hinge'),
    ),
    note:
      knuckles % 2 === 0
        ? 'With an even number one leaf has its last knuckle outside: an odd number holds the pin evenly (common practice, no source).'
        : undefined,
  });
}

/**
 * Length of pin (mm) for a hinge, with the metal for a head peened on either end.
 *
 * `heads` counts the ends that are peened over. Range: two at most. Source: hinge width and volume of a domed head on the
 * pin, by the proportions of DIN 660 (derived).
 */
export function pinLength({ wide, pin, heads = 2 }: { wide: number; pin: number; heads?: number }): Result {
  const head = formedHead('domed', pin).volume.value / ((Math.PI / 4) * pin * pin);
  return reckon({
    value: wide + heads * head,
    low: wide,
    high: wide + heads * 1.5 * pin,
    unit: 'mm',
    formula: 'L = {W|mm} + {n} × {head|mm}',
    symbols: { W: wide, n: heads, head },
    basis: 'geometry',
    source: 'Width of the hinge and the volume of a domed head of DIN 660 at each end (derived)',
    outside: firstOf(
      notAboveNothing('the hinge’s width', wide),
      notAboveNothing('the pin', pin),
      when(!(heads >= 0 && heads <= 2), 'a pin has no more than two ends'),
    ),
    note: 'Low: a pin bent or pinched instead. High: the 1.5 D of aircraft practice at each end.',
  });
}

/**
 * How far (mm) the line of the pin lies from the middle of a leaf that lies against the pin with its face, as a curl to one side
 * leaves it. Range: above nothing. Source: half the pin and its clearance, and half the wall (derived).
 */
export const pinAway = ({
  pin,
  thickness,
  clearance = PIN_CLEARANCE,
}: {
  pin: number;
  thickness: number;
  clearance?: number;
}): number => (pin + clearance) / 2 + thickness / 2;

/**
 * How far (degrees) a leaf folds away from its pin before it meets the other: where the corner of the other's notch comes to its
 * inner face. `notch` in mm; nought where the edges butt beside the knuckles. Range: both leaves of one thickness.
 * Source: of two faces that lie so far from a line, folded by φ, the crossing runs out by that times tan φ/2 (derived).
 */
export function foldInward({
  pin,
  thickness,
  notch,
  clearance = PIN_CLEARANCE,
}: {
  pin: number;
  thickness: number;
  notch: number;
  clearance?: number;
}): number {
  return (2 * Math.atan(notch / ((pin + clearance) / 2 + thickness)) * 180) / Math.PI;
}

/** Outside diameter (mm) of the knuckles. Range: above nothing. Source: pin, clearance and both walls (derived). */
export function barrelDiameter({
  pin,
  thickness,
  clearance = PIN_CLEARANCE,
}: {
  pin: number;
  thickness: number;
  clearance?: number;
}): Result {
  return reckon({
    value: pin + clearance + 2 * thickness,
    unit: 'mm',
    formula: 'D = {d|mm} + {c|mm} + 2 × {t|mm}',
    symbols: { d: pin, c: clearance, t: thickness },
    basis: 'geometry',
    source: 'Pin, clearance and both walls (derived)',
    outside: firstOf(
      notAboveNothing('the pin', pin),
      notAboveNothing('the thickness', thickness),
      notAtLeastNothing('the clearance', clearance),
    ),
  });
}

/**
 * How deep (mm) a leaf is cut away behind the line where its own curl begins, so that a knuckle of the other leaf turns there.
 *
 * `pin`, `thickness` (of the other leaf's plate) and `clearance` in mm. Both plates lie with their inner face against the pin
 * and its clearance, as a curl to one side leaves them. `play` is what stays free beyond the barrel. Range: above nothing.
 * Source: half the chord of the barrel at the inner face (derived); the play common practice (no source).
 */
export function notchDepth({
  pin,
  thickness,
  clearance = PIN_CLEARANCE,
  play = NOTCH_PLAY,
}: {
  pin: number;
  thickness: number;
  clearance?: number;
  play?: number;
}): Result {
  const radius = (pin + clearance) / 2;
  const chord = Math.sqrt((radius + thickness) ** 2 - radius ** 2);
  return reckon({
    value: chord + play,
    unit: 'mm',
    formula: 'N = √(({r|mm} + {t|mm})² − {r|mm}²) + {p|mm}',
    symbols: { r: radius, t: thickness, p: play },
    basis: 'geometry',
    source:
      'Half the chord of the other leaf’s barrel where the plate lies (derived); the play common practice (no source)',
    outside: firstOf(
      notAboveNothing('the pin', pin),
      notAboveNothing('the thickness', thickness),
      notAtLeastNothing('the clearance', clearance),
      notAtLeastNothing('the play', play),
    ),
    note: 'Behind the line where the curl begins. Swung far, the leaves themselves meet: file the corners of the notch away until the hinge turns as it should.',
  });
}

/** Room between neighbouring knuckles, mm. Source: common practice (no source). */
export const knuckleGap = (): Result =>
  reckon({
    value: KNUCKLE_GAP,
    low: 0.1,
    high: 0.2,
    unit: 'mm',
    formula: 'gap = {gap|mm}',
    symbols: { gap: KNUCKLE_GAP },
    basis: 'common practice',
    source: '0.1 to 0.2 mm at each: common practice (no source)',
  });
