import type { Check } from '../../check.ts';
import { placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'number-impossible',
  title: 'A number that no piece can have',
  family: 'Language',
  severity: 'error',
  what: 'A measure is nought or less where metal must be, is larger or smaller than anything that is made (412 m on the way to 412 mm) or nothing beside the others of its form, is not finite, or a count is no whole number. Nothing is worked out from it.',
  why: 'Such a number is a slip of the finger, and everything reckoned from it would be nonsense.',
  todo: 'Write the number that is meant.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  make 2.5
  disc 120 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece cap
  from plate
  make 2
  disc 120 mm
`,
  piece(piece, report) {
    const lines = piece.lines();
    const like = lines.find(({ id, scale }) => id === 'like' && scale === 1);
    if (!like || !lines.some((line) => line.isScaledAway())) return;
    report(placeOf(like, like.filled('scale', 'scaled') ?? like.line), {
      message: 'Scaled so, a measure of it is larger or smaller than anything that is made.',
    });
  },
};
