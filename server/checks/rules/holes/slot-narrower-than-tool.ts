import { say } from '../../../../l10n/say.ts';
import { finestBlade } from '../../../model/figures/openings.ts';
import { show, trim } from '../../../model/values/show.ts';
import { sawBlades } from '../../../trade/hole/punch.ts';
import type { Check } from '../../check.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'slot-narrower-than-tool',
  title: 'A slot that no tool of the shop goes into',
  family: 'Holes',
  severity: 'warning',
  what: 'A slot is narrower than the finest saw blade of the shop is deep, so that the blade does not pass through its end; narrower than the smallest punch, its ends have to be drilled (information).',
  why: 'A slot begins with a hole at either end, as wide as the slot: through it the blade is threaded.',
  todo: 'Make the slot wider, take a finer blade, or have it cut.',
  formula: 'w ≥ depth of the blade; w ≥ the smallest punch',
  source: 'Blade makers’ tables, from memory; the shop’s own punches',
  example: `shop bench
  blade 28 tpi
material plate
  mild steel 2 mm
piece visor
  from plate
  plate 160 x 60 mm
  slot eye 90 x 1 mm, at 30 mm from top
`,
  better: `shop bench
  blade 28 tpi
material plate
  mild steel 2 mm
piece visor
  from plate
  plate 160 x 60 mm
  slot eye 90 x 6 mm, at 30 mm from top
`,
  piece(piece, report, model) {
    const tpi = finestBlade(model);
    // Coarser than any piercing blade is a hacksaw, which is never threaded.
    const blade =
      tpi === undefined ? undefined : sawBlades.filter((each) => each.tpi <= tpi).sort((a, b) => b.tpi - a.tpi)[0];
    const punches = model.shopLine('punch')?.measures('length', 'sizes') ?? [];
    const smallest = punches.length ? Math.min(...punches) : undefined;
    if (!blade && smallest === undefined) return;
    const system = model.units();
    if (piece.material()?.kind() !== 'sheet') return;
    for (const { line, kind, long, wide } of piece.openings()) {
      if (kind !== 'slot') continue;
      const narrow = Math.min(long, wide);
      if (blade && narrow < blade.deep - 0.01)
        report(placeIn(piece, line, line.filled('size')), {
          message: say`A ${trim(tpi!, 0)} tpi blade is about ${show(blade.deep, 'mm', system)} deep and does not go through a slot of ${show(narrow, 'mm', system)}.`,
        });
      else if (smallest !== undefined && narrow < smallest - 0.02)
        report(placeIn(piece, line, line.filled('size')), {
          severity: 'information',
          message: say`The smallest punch is ${show(smallest, 'mm', system)} and this slot ${show(narrow, 'mm', system)} wide: drill its ends.`,
        });
    }
  },
};
