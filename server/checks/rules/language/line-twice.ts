import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'line-twice',
  title: 'A line that may stand once stands twice',
  family: 'Language',
  severity: 'error',
  what: 'A piece has one form and one material, a seam one way of being held, and so on; lines that may repeat say so in the reference.',
  why: 'With two depths in one dome, one smith builds the first and another the second.',
  todo: 'Keep the line that is meant and take the other out.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  disc 120 mm
  disc 140 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  disc 140 mm
`,
};
