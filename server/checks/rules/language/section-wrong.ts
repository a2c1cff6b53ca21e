import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'section-wrong',
  title: 'A line in a section that does not have it',
  family: 'Language',
  severity: 'error',
  what: 'The word is known, but belongs to another kind of section.',
  why: 'A line in the wrong section says nothing: a rivet pitch in a piece holds no plates together.',
  todo: 'Move the line to a section of the kind that is named.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  disc 120 mm
  kerf 0.5 mm
`,
  better: `material plate
  mild steel 1.5 mm
  kerf 0.5 mm
piece cap
  from plate
  disc 120 mm
`,
};
