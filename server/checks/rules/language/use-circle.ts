import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'use-circle',
  title: 'Files that use each other in a circle',
  family: 'Language',
  severity: 'error',
  what: 'A file that this one uses leads back to this one.',
  why: 'Which of two files a name comes from should never depend on where one starts to read.',
  todo: 'Move what both need into a third file that uses neither.',
  source: 'The language',
  example: `use "used/use-circle.planish"
let brow-round = 585 mm
`,
  better: `use "used/rack.planish"
let brow-round = 585 mm
`,
  beside: {
    'used/rack.planish': `material plate
  mild steel 1.5 mm
`,
    'used/use-circle.planish': `use "../use-circle.planish"

let liner = 10 mm
`,
  },
};
