import type { Check } from '../../check.ts';
import { reportCaution } from '../../support/cautions.ts';

export const check: Check = {
  code: 'chromium-fume',
  title: 'Stainless or chromium plate is welded',
  family: 'Safety',
  severity: 'warning',
  caution: 'chromium fume',
  what: 'A welded seam with stainless steel or chromium-plated metal in it.',
  why: 'Chromium(VI) in the fume causes cancer.',
  todo: 'Extraction at the arc and a fitted respirator; or rivet it.',
  source: 'OSHA 29 CFR 1910.1026: 5 µg/m³ (from memory)',
  example: `material plate
  stainless steel 1.5 mm
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  weld
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
  weld
`,
  run: (model, report) => reportCaution(model, 'chromium-fume', report),
};
