import type { Check } from '../../check.ts';
import { reportCaution } from '../../support/cautions.ts';

export const check: Check = {
  code: 'patina-chemicals',
  title: 'Patina chemicals',
  family: 'Safety',
  severity: 'information',
  caution: 'patina chemicals',
  ofAll: true,
  what: 'A patina, or blackening by a cold chemical.',
  why: 'The recipes are acids, ammonia and poisonous salts, some of which make gas with each other.',
  todo: 'Gloves, eyes, air; the safety sheet of each chemical; acid into water.',
  source: 'Common practice (no source)',
  example: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
finish parade
  on brow
  patina "brown"
  wax
`,
  better: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
finish parade
  on brow
  wax
`,
  run: (model, report) => reportCaution(model, 'patina-chemicals', report),
};
