import { say } from '../../../../l10n/say.ts';
import { wires } from '../../../model/figures/wires.ts';
import type { Check } from '../../check.ts';
import { joints, pieces, seams } from '../../support/things.ts';

export const check: Check = {
  code: 'price-missing',
  title: 'A price is missing among prices',
  family: 'Stock and money',
  severity: 'information',
  what: 'Some stock of the build has a price, and this, which the build uses, has none.',
  why: 'A total that silently leaves something out is worse than no total.',
  todo: 'Add the price to its sheet, its coil or its pack.',
  source: 'The cut list’s totals',
  example: `build "Brow band"
material plate
  mild steel 1.5 mm
  sheet 1000 x 2000 mm, price 58.00
material binding
  brass 0.8 mm
  sheet 600 x 1200 mm
piece brow
  from plate
  strip 300 x 40 mm
piece trim
  from binding
  strip 300 x 16 mm
`,
  better: `build "Brow band"
material plate
  mild steel 1.5 mm
  sheet 1000 x 2000 mm, price 58.00
material binding
  brass 0.8 mm
  sheet 600 x 1200 mm, price 88.00
piece brow
  from plate
  strip 300 x 40 mm
piece trim
  from binding
  strip 300 x 16 mm
`,
  run(model, report) {
    if (!model.buildSection()) return;
    // First what is seldom there: where nothing has a price, no key is waited for.
    const isPriced = rivetsTurned(model).some((rivet) => rivet.pack().price !== undefined);
    if (!isPriced && !pricedMaterials(model).length && !pricedRivets(model).length) return;
    const rivets = new Set([...rivetsSet(model), ...rivetsTurned(model)]);
    for (const material of new Set(materialsCut(model))) {
      if (material.named.file !== model.file) continue;
      for (const sheet of material.sheets()) {
        if (sheet.price === undefined)
          report(sheet.line.place, {
            message: say`This sheet of “${material.name}” has no price: the totals leave it out.`,
          });
      }
    }
    for (const wire of new Set(wires(model).map((each) => each.wire))) {
      if (wire.named.file !== model.file) continue;
      for (const coil of wire.coils()) {
        if (coil.price === undefined)
          report(coil.line.place, { message: say`This coil of “${wire.name}” has no price: the totals leave it out.` });
      }
    }
    for (const rivet of rivets) {
      const line = rivet.line('pack');
      if (rivet.named.file !== model.file || !line || rivet.pack().price !== undefined) continue;
      report(line.place, { message: say`“${rivet.name}” has no price: the totals leave it out.` });
    }
  },
};

const materialsCut = pieces.list((piece) => [piece.material()].filter((each) => each !== undefined));
const pricedMaterials = pieces.list((piece) => {
  const material = piece.material();
  return material?.sheets().some((sheet) => sheet.price !== undefined) ? [material] : [];
});
const rivetsSet = seams.list((seam) => [seam.rivet()].filter((each) => each !== undefined));
const rivetsTurned = joints.list((joint) => joint.riveting().flatMap(({ rivet }) => rivet ?? []));
const pricedRivets = seams.list((seam) => {
  const rivet = seam.rivet();
  return rivet && rivet.pack().price !== undefined ? [rivet] : [];
});
