import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'count-too-large',
  title: 'A count that no shop makes',
  family: 'Language',
  severity: 'error',
  what: 'A count of more than 10 000, or of more than a million in stock or in a pack, or a row of more than 10 000 rivets. Nothing is worked out from it.',
  why: 'It is a slip of the finger, and a cut list of so many blanks would help nobody.',
  todo: 'Write the count that is meant.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece scale
  from plate
  make 20000
  disc 40 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece scale
  from plate
  make 200
  disc 40 mm
`,
  seam(seam, report, model) {
    const count = seam.tooManyRivets();
    const line = seam.rivetsLine();
    if (count === undefined || !line) return;
    const every = line.length('every', 'every')!;
    report(placeOf(line, line.filled('every', 'every') ?? line.line), {
      message: say`${show(every, 'mm', model.units())} apart this row would have ${show(count, 'count')} rivets, more than any shop drives.`,
    });
  },
};
