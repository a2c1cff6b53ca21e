import type { Check } from '../../check.ts';
import { reportCaution } from '../../support/cautions.ts';

export const check: Check = {
  code: 'hot-work',
  title: 'Hot work',
  family: 'Safety',
  severity: 'information',
  caution: 'hot work',
  ofAll: true,
  what: 'Annealing, hardening, tempering, welding, soldering, bluing or blackening by heat.',
  why: 'Fires start half an hour after the torch is out.',
  todo: 'Clear or shield what burns, keep a fire watch, have water and an extinguisher.',
  source: '29 CFR 1910.252',
  example: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
finish parade
  on brow
  blue 300 C
  oil
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
  run: (model, report) => reportCaution(model, 'hot-work', report),
};
