import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'excuse-unused',
  title: 'An excuse that excuses nothing',
  family: 'Language',
  severity: 'warning',
  tag: 'unused',
  what: 'The check that the line is excused from does not exist, finds nothing there, or is a safety caution, which no excuse takes away.',
  why: 'An excuse that outlives its reason would hide the next fault of the same kind.',
  todo: 'Take the excuse out, or correct the code.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  disc 120 mm # allow edge-too-near: the binding covers it
`,
  better: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  disc 120 mm
`,
};
