import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'name-reserved',
  title: 'A word of the language as a name',
  family: 'Language',
  severity: 'error',
  what: 'The kinds of section, the units and the words x, of, to, from, and, left, right, up, down and pi cannot be names, and a name has no dot in it.',
  why: 'A line must read in one way only.',
  todo: 'Choose another name, or join another word to it with a hyphen.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece left
  from plate
  strip 300 x 40 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece left-brow
  from plate
  strip 300 x 40 mm
`,
};
