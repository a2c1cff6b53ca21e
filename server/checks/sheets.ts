import type { Blank } from '../model/blank.ts';
import type { MaterialModel, Sheet } from '../model/material.ts';
import type { Model } from '../model/model.ts';
import type { PieceModel } from '../model/piece.ts';

/* What the sheets of a material can give. */

export interface OverSheet {
  readonly piece: PieceModel;
  readonly blank: Blank;
  /** The largest sheet, less its margin. */
  readonly largest: Pick<Sheet, 'long' | 'wide' | 'line'>;
  readonly isStrip: boolean;
}

/** Pieces whose blank fits on no sheet and no offcut of their material. A material that names none is not judged. */
export function overSheet(model: Model): OverSheet[] {
  const usable = new Map<MaterialModel, Pick<Sheet, 'long' | 'wide' | 'line'>[]>();
  return model.pieces().flatMap((piece): OverSheet[] => {
    const material = piece.material();
    const blank = piece.blank();
    if (!material || !blank || material.kind() === 'wire') return [];
    let sheets = usable.get(material);
    if (!sheets) {
      const margin = 2 * material.margin();
      sheets = [...material.sheets(), ...material.offcuts()]
        .map(({ long, wide, line }) => ({
          long: Math.max(long, wide) - margin,
          wide: Math.min(long, wide) - margin,
          line,
        }))
        .sort((a, b) => b.long * b.wide - a.long * a.wide);
      usable.set(material, sheets);
    }
    const long = Math.max(blank.long, blank.wide);
    const wide = Math.min(blank.long, blank.wide);
    const form = piece.form()?.kind;
    const isBand = form === 'strip' || form === 'trim';
    const longest = sheets.reduce((most, each) => Math.max(most, each.long), 0);
    const [largest] = sheets;
    if (!largest || sheets.some((each) => long <= each.long + 0.01 && wide <= each.wide + 0.01)) return [];
    return [{ piece, blank, largest, isStrip: isBand && long > longest }];
  });
}
