import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'excuse-unclear',
  title: 'An excuse that does not say what or why',
  family: 'Language',
  severity: 'warning',
  what: 'A line is excused from a check by “# allow”, the check’s code, a colon and the reason.',
  why: 'An excuse without its reason is a warning that the next reader has lost.',
  todo: 'Write the code and the reason: # allow pitch-too-wide: the strap covers it',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  disc 120 mm # allow edge-too-near
`,
  better: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  disc 120 mm
`,
};
