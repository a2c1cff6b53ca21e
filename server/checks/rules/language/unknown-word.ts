import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'unknown-word',
  title: 'A word that the language does not have',
  family: 'Language',
  severity: 'error',
  what: 'A line, a qualifier or a unit begins with a word that has no meaning at that place. The nearest word that would fit is named.',
  why: 'A line that is not understood is not built: its metal is missing from the blank, its rivets from the list.',
  todo: 'Write the word that is meant, or put the remark behind a #.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  disk 120 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  disc 120 mm
`,
};
