import { say } from '../../../../l10n/say.ts';
import type { MaterialModel } from '../../../model/things/material.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { pieces } from '../../support/things.ts';

export const check: Check = {
  code: 'no-stock-left',
  title: 'The rack cannot hold enough',
  family: 'Blanks',
  severity: 'information',
  what: 'Every sheet of a material says how many are in the rack, and their area with the offcuts is less than the blanks of all builds, before any waste.',
  why: 'Better to order today than to find out when the last sheet is on the shear.',
  todo: 'Order sheets; the cut list says how many.',
  formula: 'Σ blanks ≤ Σ sheets in the rack + offcuts',
  source: 'Geometry: areas only, so it is the least that is missing',
  example: `build "Back plates"
  make 8
material plate
  mild steel 1.5 mm
  sheet 500 x 1000 mm, have 1
piece back
  from plate
  plate 420 x 400 mm
`,
  better: `build "Back plates"
  make 8
material plate
  mild steel 1.5 mm
  sheet 500 x 1000 mm, have 4
piece back
  from plate
  plate 420 x 400 mm
`,
  run(model, report) {
    // First what seldom changes: where nothing is said of the rack, no key is waited for.
    if (!model.buildSection() || !model.materials().some(isCounted)) return;
    const builds = model.make() + model.spare();
    const needed = new Map<MaterialModel, number>();
    for (const { material, area } of blanks(model)) needed.set(material, (needed.get(material) ?? 0) + area * builds);
    for (const [material, area] of needed) {
      const sheets = material.sheets();
      if (material.named.file !== model.file || !isCounted(material)) continue;
      const held =
        sheets.reduce((total, sheet) => total + sheet.long * sheet.wide * (sheet.have ?? 0), 0) +
        material.offcuts().reduce((total, sheet) => total + sheet.long * sheet.wide, 0);
      if (held >= area) continue;
      const system = model.units();
      report(sheets[0]!.line.place, {
        message: say`The blanks of “${material.name}” take ${show(area, 'mm2', system)} at least, and the rack holds ${show(held, 'mm2', system)}.`,
      });
    }
  },
};

/** What each piece takes of its sheet, for one build. */
/** Every sheet of it says how many there are. */
const isCounted = (material: MaterialModel): boolean => {
  const sheets = material.sheets();
  return sheets.length > 0 && sheets.every((sheet) => sheet.have !== undefined);
};

const blanks = pieces.list((piece) => {
  const material = piece.material();
  const blank = piece.blank();
  return material?.kind() === 'sheet' && blank ? [{ material, area: blank.area * piece.make() }] : [];
});
