import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'nested-too-deep',
  title: 'Brackets within brackets within brackets',
  family: 'Language',
  severity: 'error',
  what: 'A sum has more brackets inside each other than anyone can read.',
  why: 'A sum that cannot be checked by eye is where mistakes live.',
  todo: 'Name the inner parts with let, and write the sum with their names.',
  source: 'The language',
  example: `let reach = ${'('.repeat(150)}300 mm${')'.repeat(150)}
`,
  better: `let reach = ((300 mm + 20 mm) * 2)
`,
};
