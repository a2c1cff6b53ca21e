import type { Check } from '../../check.ts';
import { reportCaution } from '../../support/cautions.ts';

export const check: Check = {
  code: 'sharp-edge',
  title: 'Edges as cut',
  family: 'Safety',
  severity: 'information',
  caution: 'sharp edges',
  ofAll: true,
  what: 'In a build, metal pieces whose edges are left raw.',
  why: 'Most cuts in a shop come from sheet, and the next ones from the finished piece.',
  todo: 'Deburr, round, roll or hem.',
  source: 'Common practice (no source)',
  example: `build "Brow band"
material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
`,
  better: `build "Brow boss"
material plate
  mild steel 1.5 mm
piece boss
  from plate
  dome 120 mm, deep 20 mm
  edge rim rolled, hollow 6 mm
`,
  run: (model, report) => reportCaution(model, 'sharp-edge', report),
};
