import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'line-missing',
  title: 'A line that its section needs is not there',
  family: 'Language',
  severity: 'error',
  what: 'A piece needs a form and a material to be cut from, a seam what it joins and how, a material what it is.',
  why: 'Without it there is nothing to work out, and the piece would silently be missing from the cut list.',
  todo: 'Add the line that the message names.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece cap
  disc 120 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  disc 120 mm
`,
};
