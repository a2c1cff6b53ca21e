import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'name-missing',
  title: 'A section or a measure without a name',
  family: 'Language',
  severity: 'error',
  what: 'A header holds a kind and one name: letters, digits and hyphens, starting with a letter. A build has a text in quotes instead.',
  why: 'What has no name cannot be joined, cut from or printed.',
  todo: 'Give it a name; join two words with a hyphen.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece brow band
  from plate
  strip 300 x 40 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece brow-band
  from plate
  strip 300 x 40 mm
`,
};
