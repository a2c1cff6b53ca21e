import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'text-open',
  title: 'A text without its closing quote',
  family: 'Language',
  severity: 'error',
  what: 'A text stands between two quotes on one line.',
  why: 'Where it ends decides what the rest of the line says.',
  todo: 'Close the quote.',
  source: 'The language',
  example: `build "Brow band
`,
  better: `build "Brow band"
`,
};
