import { say } from '../../../../l10n/say.ts';
import type { MaterialModel } from '../../../model/things/material.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { capacityOf, takenOf } from '../../support/stock.ts';
import { inWords, isOver } from '../../support/sure.ts';
import { pieces } from '../../support/things.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'shear-cannot',
  title: 'A sheet that the shop’s shear cannot cut',
  family: 'Holes',
  severity: 'information',
  what: 'A material is thicker than the shear is made for, its limit carried over from the metal it is stated for by shear strength.',
  why: 'The blades spring apart, the edge burrs over, and the frame may crack.',
  todo: 'Cut it with a saw, a nibbler or a cutter, or have it cut.',
  formula: 't ≤ t(limit) × τ(limit) ÷ τ(sheet)',
  source: 'Shearing force: outline × thickness × shear strength',
  example: `shop bench
  shear up to mild steel 1.5 mm
material plate
  mild steel 3 mm
piece brow
  from plate
  plate 160 x 60 mm
`,
  better: `shop bench
  shear up to mild steel 3 mm
material plate
  mild steel 3 mm
piece brow
  from plate
  plate 160 x 60 mm
`,
  run(model, report) {
    const capacity = capacityOf(model, model.shopLine('shear'));
    if (!capacity) return;
    const system = model.units();
    const said = new Set<MaterialModel>();
    // Told once of each material, at the first piece that is cut from it.
    for (const { piece, material, metal, thickness } of sheared(model)) {
      if (said.has(material)) continue;
      const most = takenOf(capacity, metal);
      const sure = isOver(thickness, most, 0.02);
      if (!sure) continue;
      said.add(material);
      report(placeIn(piece, piece.line('from')), {
        message: say`“${material.name}” is ${show(thickness.value, 'mm', system)} and the shop’s shear takes ${metal.title} up to ${show(most.value, 'mm', system)}: it ${inWords(sure, 'cannot', 'may not')} cut it. Saw it, or have it cut.`,
        related: [{ uri: capacity.line.file.uri, place: capacity.line.place, message: 'What the shear takes' }],
      });
    }
  },
};

const sheared = pieces.list((piece) => {
  const material = piece.material();
  const metal = material?.metal();
  const thickness = material?.thickness();
  return material?.kind() === 'sheet' && metal && thickness ? [{ piece, material, metal, thickness }] : [];
});
