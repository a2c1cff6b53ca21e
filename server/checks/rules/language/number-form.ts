import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'number-form',
  title: 'A number written in a way that could mean two things',
  family: 'Language',
  severity: 'error',
  what: 'A whole number and a fraction have a space between them (2 1/2 in), a decimal has a point (120.5), thousands have no mark (1220).',
  why: 'A comma is a decimal mark in one shop and a thousands mark in the next: a factor of a thousand is not to be guessed.',
  todo: 'Write the number in the form that the fix offers.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 1,220 x 40 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 1220 x 40 mm
`,
};
