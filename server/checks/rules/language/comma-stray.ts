import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'comma-stray',
  title: 'A comma with nothing behind it',
  family: 'Language',
  severity: 'error',
  what: 'A line that ends in a comma goes on in the next one. Here nothing follows that the line could take.',
  why: 'Something was meant to follow, and it is missing.',
  todo: 'Take the comma out, or write what is missing.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 160 mm, deep 40 mm,
`,
  better: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 160 mm, deep 40 mm
`,
};
