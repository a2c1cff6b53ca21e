import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'line-unfinished',
  title: 'A line that stops too soon',
  family: 'Language',
  severity: 'error',
  what: 'The line begins well, but a measure, a name or a comma that it needs is missing.',
  why: 'Half a line is no instruction, and guessing the other half would hide the gap.',
  todo: 'Finish the line as the message says.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
`,
};
