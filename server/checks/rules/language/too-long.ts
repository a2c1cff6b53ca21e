import { LONGEST_NAME, MOST_LETTERS, MOST_ROWS, MOST_SECTIONS, MOST_SIGNS } from '../../../../grammar/limits.ts';
import type { Check } from '../../check.ts';

const name = `rivet-row-${'along-the-'.repeat(12)}edge`;

export const check: Check = {
  code: 'too-long',
  title: 'More than is read',
  family: 'Language',
  severity: 'error',
  what: `A name of more than ${LONGEST_NAME} letters, a line of more than ${MOST_SIGNS} words, numbers and signs, a section of more than ${MOST_ROWS} rows or ${MOST_LETTERS} letters, or more than ${MOST_SECTIONS} sections in a spec.`,
  why: 'It is something that was pasted, or that a program wrote. Nothing is reckoned of what lies beyond, and the text stays as it is.',
  todo: 'Write a shorter name; part the section in two; put stock and pieces into files of their own, and name each with use.',
  source: 'The language',
  example: `material ${name}
  mild steel 1.5 mm
`,
  better: `material plate
  mild steel 1.5 mm
`,
};
