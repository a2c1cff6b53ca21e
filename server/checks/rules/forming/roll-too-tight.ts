import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { changingLength, isOwn, nextUp, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'roll-too-tight',
  title: 'A hollow roll tighter than it will close',
  family: 'Forming',
  severity: 'warning',
  what: 'The inside diameter of a roll without a wire is under two thicknesses; under four (an inside radius of two) it is information.',
  why: 'So tight a roll flattens or cracks instead of curling.',
  todo: 'Leave a wider hollow, or roll it over a wire.',
  usual: ['roll-hollow'],
  formula: 'd ≥ 4 × t is good, d ≥ 2 × t the least',
  source: 'Die makers’ guide: inside radius of a curl at least 2 t; the least is common practice (no source)',
  example: `material plate
  mild steel 2 mm
piece brow
  from plate
  strip 300 x 40 mm
  edge bottom rolled, hollow 3 mm
`,
  better: `material plate
  mild steel 2 mm
piece brow
  from plate
  strip 300 x 40 mm
  edge bottom rolled, hollow 8 mm
`,
  piece(piece, report, model) {
    const system = model.units();
    const thickness = piece.thickness();
    if (thickness === undefined || piece.material()?.kind() !== 'sheet') return;
    for (const { line, kind, wire, hollow } of piece.edgeWorks()) {
      if (kind !== 'rolled' || wire || line.text('wire') || hollow === undefined) continue;
      if (hollow >= 4 * thickness - 0.02) continue;
      const tight = hollow < usual('roll-hollow') * thickness - 0.02;
      report(placeIn(piece, line, line.bound('hollow')), {
        severity: tight ? undefined : 'information',
        message: say`A hollow of ${show(hollow, 'mm', system)} is ${tight ? say`too tight` : say`tight`} for ${show(thickness, 'mm', system)} plate: ${show(4 * thickness, 'mm', system)} (an inside radius of 2 t) curls well.`,
        fixes: isOwn(piece, line)
          ? changingLength(
              line,
              { slot: 'hollow', qualifier: 'hollow' },
              nextUp(4 * thickness, line.expressions('hollow', 'hollow')[0]),
              (text) => say`Leave a hollow of ${text}`,
            )
          : [],
      });
    }
  },
};
