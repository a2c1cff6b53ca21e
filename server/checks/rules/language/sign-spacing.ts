import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'sign-spacing',
  title: 'A plus or minus without its spaces',
  family: 'Language',
  severity: 'error',
  what: 'Between two measures + and − stand with a space on both sides, because a hyphen may be part of a name.',
  why: 'Without the spaces rim-3 is a name to one reader and a difference to another.',
  todo: 'Put a space on both sides of the sign.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
let reach = 300 mm
let shorter = reach-20 mm
piece brow
  from plate
  strip shorter x 40 mm
`,
  better: `material plate
  mild steel 1.5 mm
let reach = 300 mm
let shorter = reach - 20 mm
piece brow
  from plate
  strip shorter x 40 mm
`,
};
