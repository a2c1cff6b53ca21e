import type { Section, Span } from '../../../../grammar/tree.ts';
import { say } from '../../../../l10n/say.ts';
import type { Named } from '../../../model/names/spec-file.ts';
import { type Check, replacing } from '../../check.ts';
import { sections } from '../../support/things.ts';
import { wholeSpan } from '../../support/writing.ts';

export const check: Check = {
  code: 'name-unused',
  title: 'A thing that no line uses',
  family: 'Language',
  severity: 'hint',
  tag: 'unused',
  what: 'In a file with a build: a material, rivet, part, wearer, rulebook or measure that nothing refers to. Stock files, which have no build, are for others to use.',
  why: 'What is left over from an earlier version misleads whoever reads the spec next, and may be bought by mistake.',
  todo: 'Take it out, or name it where it belongs.',
  source: 'The language',
  example: `build "Brow band"
material plate
  mild steel 1.5 mm
material old-plate
  mild steel 2 mm
piece brow
  from plate
  strip 300 x 40 mm
`,
  better: `build "Brow band"
material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
`,
  run(model, report) {
    const { file } = model;
    if (!model.buildSection()) return;
    const uses = mentioned(model);
    for (const named of wanting(model)) {
      if (uses.has(named.word.key)) continue;
      report(
        { section: named.section, from: named.word.from, to: named.word.to },
        {
          message: say`Nothing uses the ${WORDS[named.kind] ?? named.kind} “${named.word.text}”.`,
          fixes: removal(named).map((span) =>
            replacing(file.uri, say`Remove ${named.word.text}`, { section: named.section, ...span }, ''),
          ),
        },
      );
    }
  },
};

const mentioned = sections.tally((section, { file }) => [...new Set(file.referencesIn(section).map(({ key }) => key))]);

/** What ought to be used: the first of each name. */
const wanting = sections.list((section, { file }) =>
  file
    .namesIn(section)
    .filter((named) => KINDS.has(named.kind) && !isCounted(named) && file.bearersOf(named.word.key)[0] === named),
);

const KINDS = new Set<Named['kind']>(['material', 'rivet', 'part', 'wearer', 'rules', 'let']);
const WORDS: Partial<Record<Named['kind'], string>> = { let: 'measure', rules: 'rulebook' };

/** A part with a count of its own goes into the box whether a line names it or not. */
const isCounted = (named: Named): boolean =>
  named.kind === 'part' && named.section.lines.some((line) => line.word?.id === 'make');

/** What to take out: the `let`, or the whole section unless a `let` or a `use` stands in it. */
function removal(named: Named): Span[] {
  const { section } = named;
  if (named.let)
    return [wholeSpan(section.text, named.let.notes[0] ? around(named.let.notes[0], named.let) : named.let)];
  return section.singles.length ? [] : [ownText(section)];
}

const around = (first: Span, last: Span): Span => ({ from: first.from, to: last.to });

/** A section up to its last line and the blank lines behind it: a remark that follows stays. */
function ownText(section: Section): Span {
  const last = section.lines[section.lines.length - 1] ?? section.header;
  const { to } = wholeSpan(section.text, last ?? { from: 0, to: 0 });
  const blank = /^(?:[^\S\r\n]*\r?\n)*/.exec(section.text.slice(to))![0].length;
  return { from: 0, to: to + blank };
}
