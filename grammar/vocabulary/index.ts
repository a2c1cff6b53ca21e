import { firstWords, isWordList, type LineWord, type PhraseWord, type SectionWord } from '../pattern.ts';
import { wordLists } from './lists.ts';
import { sections } from './sections.ts';

export { type ListWord, listDoc, lists, listWord, wordLists } from './lists.ts';
export { sections } from './sections.ts';

/** `use`, `let` and `planish`: single lines that belong to no section. */
export const singleWords: Readonly<
  Record<string, { readonly notation: string; readonly doc: string; readonly example: string }>
> = {
  use: {
    notation: 'use <path:text>',
    doc: "Brings another file's names in, by its path from this one; it makes nothing by itself. Stock that comes with Planish: planish:metals, planish:rivets, planish:leather, planish:shop. A name of your own goes before one from there.",
    example: 'use "../shop/stock.planish"',
  },
  let: {
    notation: 'let <name:new name> = <value:measure>',
    doc: 'Names a measure, to be used in others.',
    example: 'let lame-round = fighter.upper-arm-round + 2 * pi * 15 mm',
  },
  planish: {
    notation: 'planish <version:count>',
    doc: 'The version of the language that the spec is written in.',
    example: 'planish 1',
  },
};

const byKind = new Map<string, SectionWord>(sections.map((section) => [section.kind, section]));

export const sectionWord = (kind: string): SectionWord | undefined => byKind.get(kind.toLowerCase());
export const sectionKinds: readonly string[] = sections.map((section) => section.kind);

/** The first words a phrase can have, with those of the closed lists where it begins with one. */
export function openingWords(word: PhraseWord): readonly string[] {
  let words = opening.get(word);
  if (!words) {
    const first = word.pattern.elements[0];
    words = firstWords(word.pattern);
    if (first?.kind === 'slot' && isWordList(first.type)) {
      words = wordLists[first.type]
        .flatMap((entry) => [entry.word, ...(entry.also ?? [])])
        .map((text) => text.toLowerCase().split(' ')[0]!);
    }
    opening.set(word, words);
  }
  return words;
}
const opening = new Map<PhraseWord, readonly string[]>();

interface PhraseIndex<W extends PhraseWord> {
  readonly byFirst: ReadonlyMap<string, readonly W[]>;
  /** Those that begin with a measure or a name. */
  readonly others: readonly W[];
}

function indexOf<W extends PhraseWord>(words: readonly W[]): PhraseIndex<W> {
  const byFirst = new Map<string, W[]>();
  const others: W[] = [];
  for (const word of words) {
    const first = openingWords(word);
    if (!first.length) others.push(word);
    for (const text of new Set(first)) {
      const have = byFirst.get(text);
      if (have) have.push(word);
      else byFirst.set(text, [word]);
    }
  }
  return { byFirst, others };
}

const lineIndexes = new Map<SectionWord, PhraseIndex<LineWord>>(
  sections.map((section) => [section, indexOf(section.lines)]),
);
const qualifierIndexes = new Map<LineWord, PhraseIndex<PhraseWord>>(
  sections.flatMap((section) => section.lines.map((line) => [line, indexOf(line.qualifiers)] as const)),
);

export const linesOf = (section: SectionWord): PhraseIndex<LineWord> => lineIndexes.get(section)!;
export const qualifiersOf = (line: LineWord): PhraseIndex<PhraseWord> => qualifierIndexes.get(line)!;

/** The sections in which a line may begin with this word. */
export function sectionsTaking(word: string): readonly SectionWord[] {
  return sections.filter((section) => linesOf(section).byFirst.has(word));
}

/** Whether any line of any section begins with this word. */
const lineFirstWords = new Set(sections.flatMap((section) => [...linesOf(section).byFirst.keys()]));
export const isLineWord = (word: string): boolean => lineFirstWords.has(word) || Object.hasOwn(singleWords, word);

/** Words that no name may be. */
export const reservedNames: ReadonlySet<string> = new Set([
  ...sectionKinds,
  'x',
  'of',
  'to',
  'from',
  'and',
  'left',
  'right',
  'up',
  'down',
  'pi',
]);
