import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'use-missing',
  title: 'A file to use that is not there',
  family: 'Language',
  severity: 'error',
  what: 'A use names a file relative to the one it stands in, within the open folder. The file is not found, lies outside, or is no text in UTF-8.',
  why: 'Every name that should come from it is unknown, and the figures that lean on it are missing.',
  todo: 'Correct the path, or open the folder that holds both files.',
  source: 'The language',
  example: `use "used/racks.planish"
let brow-round = 585 mm
`,
  better: `use "used/rack.planish"
let brow-round = 585 mm
`,
  beside: {
    'used/rack.planish': `material plate
  mild steel 1.5 mm
`,
  },
};
