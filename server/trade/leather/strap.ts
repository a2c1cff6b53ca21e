import { firstOf, notAboveNothing, reckon } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';
import { result } from '../reckoning/working.ts';

/** How a strap with a buckle is laid out on its own strip, mm. */
export interface StrapLayout {
  /** What is folded back round the bar of the buckle, from its end. */
  readonly turned: Result;
  /** Slot for the tongue, across the fold: as long as this, along the strap. */
  readonly slot: Result;
  readonly slotWide: Result;
  readonly holes: Result;
  readonly hole: Result;
  readonly pitch: Result;
  /** From the other end to the nearest hole. */
  readonly first: Result;
}

const MOST_HOLES = 5;

const SOURCE = 'Common practice (no source): hold the strap to the piece and move them before they are punched';
const common = (value: number, unit: 'mm' | 'count', formula: string, symbols: Record<string, number>): Result =>
  result({ value, unit, formula, symbols, basis: 'common practice', source: SOURCE });

/**
 * A strap of this length and width, mm; nothing where it is too short for a fold and one hole.
 *
 * Range: 10 to 60 mm wide. Source: common practice (no source).
 */
export function strapLayout({ long, wide }: { long: number; wide: number }): StrapLayout | undefined {
  if (!(wide > 0) || !(long > 0)) return undefined;
  const turned = 2 * wide;
  const first = 2 * wide;
  // Behind the folded end, and half a width clear of it.
  const room = long - 2 * turned - wide / 2 - first;
  const count = Math.min(MOST_HOLES, Math.floor(room / wide) + 1);
  if (count < 1) return undefined;
  return {
    turned: common(turned, 'mm', 'f = 2 × {w|mm}', { w: wide }),
    slot: common(wide, 'mm', 's = {w|mm}', { w: wide }),
    slotWide: common(wide / 5, 'mm', 'b = {w|mm}/5', { w: wide }),
    holes: common(count, 'count', 'n = ({L|mm} − 6.5 × {w|mm})/{w|mm}, rounded down, + 1, at most 5', {
      L: long,
      w: wide,
    }),
    hole: common(wide / 6, 'mm', 'd = {w|mm}/6', { w: wide }),
    pitch: common(wide, 'mm', 'p = {w|mm}', { w: wide }),
    first: common(first, 'mm', 'e = 2 × {w|mm}', { w: wide }),
  };
}
/** Area (mm²) of a strap as it is cut, from the measures that are written, mm. Source: the spec. */
export const strapArea = ({ long, wide }: { long: number; wide: number }): Result =>
  result({
    value: long * wide,
    unit: 'mm2',
    formula: '{long|mm} × {wide|mm}',
    symbols: { long, wide },
    basis: 'from the spec',
    source: 'As written in the spec',
  });

/**
 * Length (mm) of an inner leather as it is cut: from its first rivet to its last, and so far beyond both.
 *
 * Range: lengths above nought. Source: lengths added up (derived); 3 D or 10 mm beyond a rivet is common practice (no source).
 */
export const leatherLength = ({ run, margin }: { run: number; margin: number }): Result =>
  reckon({
    value: run + 2 * margin,
    unit: 'mm',
    formula: 'L = {s|mm} + 2 × {e|mm}',
    symbols: { s: run, e: margin },
    basis: 'geometry',
    source:
      'From rivet to rivet, half way up each plate, where the range parts them most, the bend shared evenly; beyond the last rivets 3 D or 10 mm, common practice (no source)',
    outside: firstOf(notAboveNothing('the way from rivet to rivet', run), notAboveNothing('the margin', margin)),
  });
