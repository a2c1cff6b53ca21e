import { say } from '../../../../l10n/say.ts';
import { finestBlade, sawnLine } from '../../../model/figures/openings.ts';
import { show, trim } from '../../../model/values/show.ts';
import { bladeTeeth, slopedCutAngle, teethInSheet } from '../../../trade/hole/punch.ts';
import type { Check } from '../../check.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'blade-too-coarse',
  title: 'A saw too coarse for the sheet',
  family: 'Holes',
  severity: 'information',
  what: 'A piece has a slot, pierced work or a sawn outline, and the finest blade of the shop keeps fewer than two teeth in its sheet.',
  why: 'With one tooth in the work the sheet drops into the gullet: teeth break, and the edge tears.',
  todo: 'Take a finer blade, slope the cut, or clamp the sheet between two others.',
  formula: 'teeth = t × tpi ÷ 25.4 ≥ 2',
  source: 'US Army ordnance manual: two or more teeth in contact',
  example: `shop bench
  blade 24 tpi
material plate
  mild steel 1.2 mm
piece brow
  from plate
  plate 160 x 60 mm
  slot eye 90 x 12 mm, at 30 mm from top
`,
  better: `shop bench
  blade 56 tpi
material plate
  mild steel 1.2 mm
piece brow
  from plate
  plate 160 x 60 mm
  slot eye 90 x 12 mm, at 30 mm from top
`,
  piece(piece, report, model) {
    const tpi = finestBlade(model);
    if (tpi === undefined) return;
    const system = model.units();
    const thickness = piece.thickness();
    if (thickness === undefined || piece.material()?.kind() !== 'sheet') return;
    const line = sawnLine(piece);
    const teeth = teethInSheet({ thickness, tpi }).value;
    if (!line || teeth >= 2 - 0.01) return;
    const angle = slopedCutAngle({ thickness, tpi }).value;
    report(placeIn(piece, line), {
      message: say`A ${trim(tpi, 0)} tpi blade keeps ${trim(teeth, 1)} teeth in ${show(thickness, 'mm', system)}: take ${Math.ceil(bladeTeeth({ thickness }).value)} tpi, or slope the cut to ${Math.floor(angle)}°.`,
    });
    return;
  },
};
