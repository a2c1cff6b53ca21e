import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'unit-missing',
  title: 'A measure without its unit',
  family: 'Language',
  severity: 'error',
  what: 'Every measure has a unit; only counts, prices and ratios have none. A unit reaches back over x, to and a list of one kind.',
  why: 'A bare 16 is a gauge to one reader, sixteenths to another and millimetres to a third.',
  todo: 'Write the unit behind the number.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  disc 120
`,
  better: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  disc 120 mm
`,
};
