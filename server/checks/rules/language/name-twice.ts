import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'name-twice',
  title: 'A name is given twice',
  family: 'Language',
  severity: 'error',
  what: 'All things of a spec and of the files it uses share one list of names, and case does not count. The second thing of a name cannot be reached.',
  why: 'A seam that joins “skull” must not depend on which of two skulls was meant.',
  todo: 'Give one of the two another name.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
piece brow
  from plate
  strip 280 x 40 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
piece nape
  from plate
  strip 280 x 40 mm
`,
};
