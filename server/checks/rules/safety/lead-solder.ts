import type { Check } from '../../check.ts';
import { reportCaution } from '../../support/cautions.ts';

export const check: Check = {
  code: 'lead-solder',
  title: 'Solder with lead',
  family: 'Safety',
  severity: 'warning',
  caution: 'lead',
  what: 'A soldered seam whose solder is named as tin-lead; where no solder is named it is information.',
  why: 'Lead goes from the hands to the mouth, and from worn metal to skin.',
  todo: 'Name a lead-free solder.',
  source: 'OSHA 29 CFR 1910.1025 (from memory)',
  example: `material plate
  mild steel 1.5 mm
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  solder, with "60/40 tin and lead"
`,
  better: `material plate
  mild steel 1.5 mm
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  solder, with "lead-free, tin and silver"
`,
  run: (model, report) => reportCaution(model, 'lead-solder', report),
};
