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
        Math.max(size.long, size.wide) <= each.long + 0.01 && Math.min(size.long, size.wide) <= each.wide + 0.01,
    );
  if (!largest || fits(blank)) return undefined;
  const least = blank.overridden ? undefined : piece.workedBlank()?.least;
  return { blank, largest, isStrip: isBand && long > longest, isSure: !least || !fits(least) };
}
