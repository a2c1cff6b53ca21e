import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { capacityOf, takenOf } from '../../support/stock.ts';
import { inWords, isOver } from '../../support/sure.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'punch-cannot',
  title: 'A hole that the shop’s punch cannot make',
  family: 'Holes',
  severity: 'information',
  what: 'The shop has a punch of that size, but the plate takes more force than the punch is made for: the limit is carried over from the metal it is stated for by shear strength.',
  why: 'An overloaded punch breaks, and its pieces fly.',
  todo: 'Drill the holes.',
  formula: 't ≤ t(limit) × τ(limit) ÷ τ(plate)',
  source: 'Punching force: outline × thickness × shear strength',
  example: `shop bench
  punch 1/8, 3/16, 1/4 in, up to mild steel 1.5 mm
material plate
  mild steel 2.5 mm
piece brow
  from plate
  plate 160 x 60 mm
  holes lace 4 of 1/4 in, along top, inset 14 mm
`,
  better: `shop bench
  punch 1/8, 3/16, 1/4 in, up to mild steel 3 mm
material plate
  mild steel 2.5 mm
piece brow
  from plate
  plate 160 x 60 mm
  holes lace 4 of 1/4 in, along top, inset 14 mm
`,
  piece(piece, report, model) {
    const line = model.shopLine('punch');
    const sizes = line?.measures('length', 'sizes');
    const capacity = capacityOf(model, line, 'up to');
    if (!sizes || !capacity) return;
    const system = model.units();
    const metal = piece.material()?.metal();
    const thickness = piece.material()?.thickness();
    if (!metal || !thickness || piece.material()?.kind() !== 'sheet') return;
    const most = takenOf(capacity, metal);
    const sure = isOver(thickness, most, 0.02);
    if (!sure) return;
    for (const { line: at, round, long } of piece.openings()) {
      if (!round || !sizes.some((size) => Math.abs(size - long) < 0.05)) continue;
      report(placeIn(piece, at), {
        message: say`“${piece.name}” is ${show(thickness.value, 'mm', system)}, and the shop’s punch takes ${metal.title} up to ${show(most.value, 'mm', system)}: it ${inWords(sure, 'cannot', 'may not')} make these holes, drill them.`,
        related: [{ uri: capacity.line.file.uri, place: capacity.line.place, message: 'What the punch takes' }],
      });
    }
  },
};
