import type { Check } from '../../check.ts';
import { reportCaution } from '../../support/cautions.ts';

export const check: Check = {
  code: 'duty-not-certified',
  title: 'The build is for stage or contact',
  family: 'Safety',
  severity: 'information',
  caution: 'not certified',
  ofAll: true,
  what: 'The duty of the build is stage or contact.',
  why: 'A cut list that looks official is easily taken for a certificate. It is none.',
  todo: 'Show the build to the safety lead, the marshal or the inspector, with the rulebook.',
  source: 'House rule: Planish never says that a piece is safe',
  example: `build "Brow band"
  duty stage
material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
`,
  better: `build "Brow band"
  duty display
material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
`,
  run: (model, report) => reportCaution(model, 'duty-not-certified', report),
};
