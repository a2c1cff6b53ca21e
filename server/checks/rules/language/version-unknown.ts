import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'version-unknown',
  title: 'A version of the language that this tool does not know',
  family: 'Language',
  severity: 'warning',
  what: 'The first line names the version of the language that the spec is written in.',
  why: 'A newer version may have words that an older tool reads otherwise or not at all.',
  todo: 'Bring the tool up to date, or write planish 1 if the spec uses nothing newer.',
  source: 'The language',
  example: `planish 9

material plate
  mild steel 1.5 mm
`,
  better: `planish 1

material plate
  mild steel 1.5 mm
`,
};
