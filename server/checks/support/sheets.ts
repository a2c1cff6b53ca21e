import type { Blank } from '../../model/forms/blank.ts';
import { kindOf } from '../../model/forms/index.ts';
import type { Sheet } from '../../model/things/material.ts';
import type { PieceModel } from '../../model/things/piece.ts';

/* What the sheets of a material can give. */

export interface OverSheet {
  readonly blank: Blank;
  /** The largest sheet, less its margin. */
  readonly largest: Pick<Sheet, 'long' | 'wide' | 'line'>;
  readonly isStrip: boolean;
  /** Not even the smallest blank that any way of working could do with fits. */
  readonly isSure: boolean;
}

/** A blank that fits on no sheet and no offcut of its material. A material that names none is not judged. */
export function overSheet(piece: PieceModel): OverSheet | undefined {
  const material = piece.material();
  const blank = piece.blank();
  if (!material || !blank || material.kind() === 'wire') return undefined;
  const margin = 2 * material.margin();
  const sheets = [...material.sheets(), ...material.offcuts()]
    .map(({ long, wide, line }) => ({
      long: Math.max(long, wide) - margin,
      wide: Math.min(long, wide) - margin,
      line,
    }))
    .sort((a, b) => b.long * b.wide - a.long * a.wide);
  const long = Math.max(blank.long, blank.wide);
  const form = piece.form();
  const isBand = form !== undefined && kindOf(form).isBand;
  const longest = sheets.reduce((most, each) => Math.max(most, each.long), 0);
  const [largest] = sheets;
  const fits = (size: { long: number; wide: number }) =>
    sheets.some(
      (each) =>
        (Math.max(size.long, size.wide) <= each.long + 0.01 && Math.min(size.long, size.wide) <= each.wide + 0.01) ||
        (mayTurn && fitsAcross(size, each)),
    );
  const mayTurn = !piece.line('grain');
  if (!largest || fits(blank)) return undefined;
  const least = blank.overridden ? undefined : piece.workedBlank()?.least;
  return { blank, largest, isStrip: isBand && long > longest, isSure: !least || !fits(least) };
}

/**
 * Whether a rectangle that is longer than a sheet fits on it when it is turned: wide ≥ (2pqa + (p² − q²)√(p² + q² − a²)) / (p² + q²),
 * with p × q the one that is laid and a the long side of the sheet (American Mathematical Monthly 64, 1957, from memory; geometry).
 */
function fitsAcross(laid: { long: number; wide: number }, sheet: { long: number; wide: number }): boolean {
  const [p, q] = [Math.max(laid.long, laid.wide), Math.min(laid.long, laid.wide)];
  const { long: a, wide: b } = sheet;
  if (p <= a || q > b) return false;
  const rest = p * p + q * q - a * a;
  return b >= (2 * p * q * a + (p * p - q * q) * Math.sqrt(Math.max(0, rest))) / (p * p + q * q);
}
