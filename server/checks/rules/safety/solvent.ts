import type { Check } from '../../check.ts';
import { reportCaution } from '../../support/cautions.ts';

export const check: Check = {
  code: 'solvent',
  title: 'Solvents',
  family: 'Safety',
  severity: 'information',
  caution: 'solvents',
  ofAll: true,
  what: 'Primer, paint, dye or lacquer.',
  why: 'The vapour burns, and it is breathed.',
  todo: 'Air, no flame, a respirator for spraying, rags drowned or spread.',
  source: 'Common practice (no source)',
  example: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
finish parade
  on brow
  prime
  paint "harbour grey"
`,
  better: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
finish parade
  on brow
  oil
`,
  run: (model, report) => reportCaution(model, 'solvent', report),
};
