import type { Check } from '../../check.ts';
import { reportCaution } from '../../support/cautions.ts';

export const check: Check = {
  code: 'cadmium-plating',
  title: 'Cadmium-plated metal',
  family: 'Safety',
  severity: 'warning',
  caution: 'cadmium',
  what: 'Stock or fasteners with cadmium plating; any heat on them is an error.',
  why: 'Cadmium is a poison that stays in the body; its fume has no warning smell and kills.',
  todo: 'Take zinc, nickel or bare metal.',
  source: 'OSHA 29 CFR 1910.1027 (from memory)',
  example: `material plate
  mild steel 1.5 mm, cadmium plated
piece brow
  from plate
  strip 300 x 40 mm
`,
  better: `material plate
  mild steel 1.5 mm, nickel plated
piece brow
  from plate
  strip 300 x 40 mm
`,
  run: (model, report) => reportCaution(model, 'cadmium-plating', report),
};
