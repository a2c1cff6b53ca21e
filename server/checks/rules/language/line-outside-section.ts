import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'line-outside-section',
  title: 'A line that stands before the first section',
  family: 'Language',
  severity: 'error',
  what: 'Only planish, use and let may stand outside a section. A header is a line that holds a section kind and one name.',
  why: 'A line that belongs to nothing changes nothing.',
  todo: 'Put the header of its section above it.',
  source: 'The language',
  example: `mild steel 1.5 mm
sheet 1250 x 2500 mm
`,
  better: `material plate
  mild steel 1.5 mm
  sheet 1250 x 2500 mm
`,
};
