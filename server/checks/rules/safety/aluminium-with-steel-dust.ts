import type { Check } from '../../check.ts';
import { reportCaution } from '../../support/cautions.ts';

export const check: Check = {
  code: 'aluminium-with-steel-dust',
  title: 'Aluminium and steel are both ground',
  family: 'Safety',
  severity: 'warning',
  caution: 'aluminium and steel dust',
  what: 'Finishes grind or sand pieces of aluminium and pieces of steel.',
  why: 'Mixed, the two dusts burn like thermite.',
  todo: 'Grind them at different times into clean, separate collectors.',
  source: 'Common practice (no source)',
  example: `material plate
  mild steel 1.5 mm
material light
  aluminium 2 mm
piece brow
  from plate
  strip 300 x 40 mm
piece nape
  from light
  strip 300 x 40 mm
finish bright
  on brow, nape
  sand 120, 180 grit
`,
  better: `material plate
  mild steel 1.5 mm
material light
  aluminium 2 mm
piece brow
  from plate
  strip 300 x 40 mm
piece nape
  from light
  strip 300 x 40 mm
finish bright
  on brow
  sand 120, 180 grit
`,
  run: (model, report) => reportCaution(model, 'aluminium-with-steel-dust', report),
};
