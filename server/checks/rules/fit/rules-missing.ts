import { say } from '../../../../l10n/say.ts';
import type { Check } from '../../check.ts';
import { appending } from '../../support/writing.ts';

export const check: Check = {
  code: 'rules-missing',
  title: 'Contact duty without a rulebook',
  family: 'Fit',
  severity: 'warning',
  what: 'The build is for contact and names no rules section.',
  why: 'Thickness, openings and rivet pitch are then held against nothing, and the inspector will hold them against a book.',
  todo: 'Enter the limits of your group’s rulebook in a rules section, with its date, and name it: duty contact, rules list-book.',
  source: 'The language: a build is checked against the rules it names',
  example: `build "Knee"
  duty contact
rules list-book
  book "Rules of the list", dated 2026-01-01
  finished at least 1.2 mm
material plate
  mild steel 2 mm
piece cop
  from plate
  plate 120 x 100 mm
`,
  better: `build "Knee"
  duty contact, rules list-book
rules list-book
  book "Rules of the list", dated 2026-01-01
  finished at least 1.2 mm
material plate
  mild steel 2 mm
piece cop
  from plate
  plate 120 x 100 mm
`,
  run(model, report) {
    const line = model.buildLine('duty');
    if (!line || model.duty() !== 'contact' || line.has('rules')) return;
    const books = model.file.visibleOf('rules');
    report(line.place, {
      message: say`A build for contact names no rulebook: its limits are not checked.${books.length ? '' : say` Enter them in a rules section.`}`,
      fixes: books
        .slice(0, 3)
        .map((named, i) =>
          appending(line, `rules ${named.word.text}`, say`Hold it against ${named.word.text}`, i === 0),
        ),
    });
  },
};
