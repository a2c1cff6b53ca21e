import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import { intervalOf } from '../../../trade/reckoning/interval.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { inWords, isOver } from '../../support/sure.ts';
import { changingLength, isOwn, nextUp, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'hem-too-thick',
  title: 'A hem that its plate will not fold',
  family: 'Forming',
  severity: 'warning',
  what: 'The hem is narrower than four thicknesses, or the metal does not bear being folded flat: its least bend radius is a thickness or more.',
  why: 'A narrow fold in thick plate cannot be got over, and hard metal breaks along it.',
  todo: 'Make the hem wider, anneal, roll the edge instead, or take thinner plate.',
  usual: ['hem-width'],
  formula: 'width ≥ 4 × t; r < 1 × t',
  source: 'Common practice (no source); bend radii of the metal table',
  example: `material plate
  mild steel 2 mm
piece brow
  from plate
  strip 300 x 40 mm
  edge bottom hemmed 5 mm
`,
  better: `material plate
  mild steel 2 mm
piece brow
  from plate
  strip 300 x 40 mm
  edge bottom hemmed 10 mm
`,
  piece(piece, report, model) {
    const system = model.units();
    const thickness = piece.thickness();
    const material = piece.material();
    if (thickness === undefined || material?.kind() !== 'sheet') return;
    for (const { line, hem } of piece.edgeWorks()) {
      if (!hem) continue;
      const radius = material.figures().get('bend-radius');
      const least = usual('hem-width') * thickness;
      const narrow = hem.width < least - 0.02;
      // Folded flat, the inside radius is nothing: a metal that wants a thickness or more does not bear it.
      const brittle = radius && isOver(radius, thickness, -0.001);
      if (!narrow && !brittle) continue;
      report(placeIn(piece, line, line.filled('hem')), {
        severity: brittle === 'may' ? 'information' : undefined,
        message: brittle
          ? say`${material.metal()?.title ?? say`This metal`} of ${show(thickness, 'mm', system)} bends over ${show(brittle === 'may' ? intervalOf(radius).high : radius.value, 'mm', system)} at the tightest: folded flat it ${inWords(brittle, 'cracks', 'may crack')}. Roll the edge, or anneal.`
          : say`A hem of ${show(hem.width, 'mm', system)} is too narrow to fold in ${show(thickness, 'mm', system)} plate: at least ${show(least, 'mm', system)} (${usual('hem-width')} t).`,
        fixes:
          !brittle && isOwn(piece, line)
            ? changingLength(
                line,
                { slot: 'hem' },
                nextUp(least, line.expressions('hem')[0]),
                (text) => say`Make the hem ${text}`,
                true,
              )
            : [],
      });
    }
  },
};
