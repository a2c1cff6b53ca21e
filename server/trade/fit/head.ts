import type { LoftShape } from '../../geometry/surface/loft.ts';
import { type Level, sectionOf } from '../../geometry/surface/section.ts';
import type { Vector } from '../../geometry/surface/vector.ts';
import { firstOf, notAboveNothing, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';
import { BROW_OVER_EYES } from './estimate.ts';

/*
 * A head as a form: level sections from the neck to the crown, its brow at z = 0, y to the front, its axis midway between brow and
 * back. At the brow and above it follows the wearer's measures; the face below hangs on few of them, the rest is from memory.
 */

/** What a head is made from, mm. */
export interface HeadMeasures {
  readonly round: number;
  readonly long: number;
  readonly broad: number;
  /** Brow to the top of the head. */
  readonly crown: number;
  /** Root of the nose to the chin. */
  readonly face: number;
  /** Across the cheekbones. */
  readonly cheeks: number;
  /** Between the pupils. */
  readonly eyes: number;
  readonly neck: number;
}

/** The words of the language for them. */
export const HEAD_WORDS: Readonly<Record<keyof HeadMeasures, string>> = {
  round: 'head round',
  long: 'head length',
  broad: 'head breadth',
  crown: 'crown height',
  face: 'face length',
  cheeks: 'face breadth',
  eyes: 'eye distance',
  neck: 'neck round',
};

/** How far the tip of the nose stands out before the brow, mm, and its root and a chin behind it: from memory. */
const NOSE = 20;
const ROOT = 3;
const CHIN = 8;
/** How far down the face the nose ends, and how wide a jaw is beside the cheekbones: from memory. */
const NOSE_DOWN = 0.42;
const JAW = 0.83;
/** How far a neck's axis lies behind that of the head, mm, and how much lower than the chin its round is taken: from memory. */
const NECK_BACK = 20;
const NECK_DOWN = 30;

/** The levels of a head; nothing where its measures go together to no shape. */
export function headShape({ round, long, broad, crown, face, cheeks, neck }: HeadMeasures): LoftShape | undefined {
  const all = [round, long, broad, crown, face, cheeks, neck];
  if (!all.every((each) => each > 1 && each < 1e4)) return undefined;
  const whole: Level = { high: 0, round, long, wide: broad };
  // Where girth, length and breadth do not go together the girth counts, then the length.
  const brow = typeof sectionOf(whole) === 'string' ? { high: 0, round, long } : whole;
  const section = sectionOf(brow);
  if (typeof section === 'string') return undefined;
  // Half an ellipsoid over the brow: common practice (no source).
  const over = [0.45, 0.8].map((up): Level => {
    const share = Math.sqrt(1 - up * up);
    const { wide, front, back } = section;
    return {
      high: up * crown,
      section: { ...section, wide: wide * share, front: front * share, back: back * share },
    };
  });
  const [eyes, radius] = [-BROW_OVER_EYES.value, neck / (2 * Math.PI)];
  const half = long / 2;
  const back = Math.min(half, radius + NECK_BACK + 10);
  const faced = (down: number, wide: number, front: number, behind: number, ridge = false): Level => ({
    high: eyes - down,
    wide,
    long: front + behind,
    deep: front,
    ridge,
  });
  const levels: Level[] = [
    { high: eyes - face - NECK_DOWN, round: neck, offset: -NECK_BACK },
    faced(face, cheeks * JAW, half - CHIN, back),
    faced(NOSE_DOWN * face, cheeks, half + NOSE, half, true),
    faced(0, (cheeks + broad) / 2, half - ROOT, half),
    brow,
    ...over,
    { high: crown, ends: 'flat' },
  ];
  return { levels, wrap: 360 };
}

/** Where the pupils are, left and right, so far behind the brow. */
export function pupils({ long, eyes }: HeadMeasures, behind: number): readonly [Vector, Vector] {
  const at = (x: number): Vector => [x, long / 2 - behind, -BROW_OVER_EYES.value];
  return [at(-eyes / 2), at(eyes / 2)];
}

/**
 * Least room (mm) anywhere between a head with its liner and the metal round it. `apart` is what lies between skin and plate there, the
 * ends for heads that nine in ten people have where measures are estimated.
 *
 * Range: plates that have a place. Source: points of the plates' inner faces against the head as a form (derived).
 */
export function leastRoom({
  apart,
  liner,
  low,
  high,
  note,
}: {
  apart: number;
  liner: number;
  low: number;
  high: number;
  note: string;
}): Result {
  return reckon({
    value: apart - liner,
    ...(low === high ? {} : { low: low - liner, high: high - liner }),
    unit: 'mm',
    formula: 'c = {apart} − {liner}',
    symbols: { apart, liner },
    basis: 'geometry',
    source:
      'Nearest places of the inner faces, half a thickness in, and of the head as a form from its measures (derived)',
    outside: firstOf(when(!Number.isFinite(apart), 'no plate has a place'), notAtLeastNothing('the liner', liner)),
    note,
  });
}

/** How much of the metal over a head leaves less than is wanted, percent by area. Range: some metal. Source: as above. */
export function shareUnder({
  under,
  all,
  wanted,
  note,
}: {
  under: number;
  all: number;
  wanted: number;
  note: string;
}): Result {
  return reckon({
    value: (100 * under) / all,
    unit: 'percent',
    formula: 'p = 100 × {under} ÷ {all}',
    symbols: { under, all, wanted },
    basis: 'geometry',
    source: 'Area of the inner faces by the triangles of the plates (derived)',
    outside: firstOf(notAboveNothing('the area', all), notAtLeastNothing('the room', wanted)),
    note,
  });
}
