import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'mark-unknown',
  title: 'A mark that has no meaning',
  family: 'Language',
  severity: 'error',
  what: 'A character that the language does not use, or a # that is meant to begin a remark but has no space behind it.',
  why: 'A mark that is passed over in silence hides what was meant.',
  todo: 'Take it out, or put a space behind the #.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  disc 120 mm;
`,
  better: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  disc 120 mm
`,
};
