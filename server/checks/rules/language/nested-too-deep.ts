import { say } from '../../../../l10n/say.ts';
import { MOST_LIKE } from '../../../model/things/piece.ts';
import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'nested-too-deep',
  title: 'Brackets within brackets within brackets',
  family: 'Language',
  severity: 'error',
  what: `A sum has more brackets inside each other than anyone can read; or more than ${MOST_LIKE} pieces are made one like another.`,
  why: 'A sum that cannot be checked by eye is where mistakes live.',
  todo: 'Name the inner parts with let, and write the sum with their names.',
  source: 'The language',
  example: `let reach = ${'('.repeat(150)}300 mm${')'.repeat(150)}
`,
  better: `let reach = ((300 mm + 20 mm) * 2)
`,
  piece(piece, report) {
    if (piece.likeEnds() !== 'too deep') return;
    const line = piece.lines().find(({ id }) => id === 'like');
    if (line)
      report(line.place, {
        message: say`More than ${MOST_LIKE} pieces are made one like another before “${piece.name}”.`,
      });
  },
};
