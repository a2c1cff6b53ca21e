import type { Check } from '../../check.ts';
import { reportCaution } from '../../support/cautions.ts';

export const check: Check = {
  code: 'dust-and-noise',
  title: 'Dust and noise',
  family: 'Safety',
  severity: 'information',
  caution: 'noise and dust',
  ofAll: true,
  what: 'Sheet is hammered, ground or sanded.',
  why: 'Hearing and lungs are lost a little each day, and do not come back.',
  todo: 'Ear defenders, eye protection, extraction or a dust mask.',
  source: 'OSHA 29 CFR 1910.95; NIOSH 85 dBA with 3 dB exchange; levels at the stake are common practice (no source)',
  example: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
finish parade
  on brow
  grind 80 grit
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
  run: (model, report) => reportCaution(model, 'dust-and-noise', report),
};
