import type { Check } from '../../check.ts';

/** What an editor shows for bytes that are no letter in the encoding that it reads by. */
const LOST = '\ufffd';

export const check: Check = {
  code: 'letter-lost',
  title: 'A letter that could not be read',
  family: 'Language',
  severity: 'error',
  what: 'The text holds the mark � that stands for bytes that are no UTF-8: the file was saved in another encoding and opened as UTF-8. It is told at the first of them in each section.',
  why: 'Saved like this the letters are gone for good. The command line does not read a file that is not UTF-8, and neither does a spec that uses it.',
  todo: 'Open the file anew in the encoding that it was saved in, and save it as UTF-8.',
  source: 'The Unicode Standard, chapter 3: U+FFFD replaces what cannot be decoded',
  example: `## for the Stra\ufffde
let rim = 585 mm
`,
  better: `## for the Straße
let rim = 585 mm
`,
  section(section, report) {
    const at = section.text.indexOf(LOST);
    if (at < 0) return;
    report(
      { section, from: at, to: at + LOST.length },
      {
        message:
          'A letter is lost here: this is not UTF-8 text. Open it anew in its own encoding, and save it as UTF-8.',
      },
    );
  },
};
