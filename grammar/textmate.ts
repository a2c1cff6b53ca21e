import { FUNCTIONS } from './parser.ts';
import { type Element, leadingWords, type PhraseWord } from './pattern.ts';
import { units } from './units.ts';
import { sectionKinds, sections, wordLists } from './vocabulary/index.ts';

/*
 * The TextMate grammar, made from the vocabulary: the first colours, before the server answers, and the only ones where
 * there is no server. It goes by single lines, as the language does, and knows no section: a line word of any section
 * is coloured in every one.
 */

interface Rule {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly include?: string;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
  readonly beginCaptures?: Readonly<Record<string, { readonly name: string }>>;
  readonly endCaptures?: Readonly<Record<string, { readonly name: string }>>;
  readonly patterns?: readonly Rule[];
}

export interface TextMateGrammar {
  readonly name: string;
  readonly scopeName: string;
  readonly fileTypes: readonly string[];
  readonly patterns: readonly Rule[];
  readonly repository: Readonly<Record<string, Rule>>;
}

const NAME = String.raw`\p{L}[\p{L}\p{M}\p{N}-]*`;
/** Neither side of a word may go on as a name. */
const BEFORE = String.raw`(?<![\p{L}\p{M}\p{N}.-])`;
const AFTER = String.raw`(?![\p{L}\p{M}\p{N}.-])`;
const VULGAR = '½¼¾⅓⅔⅛⅜⅝⅞';
const NUMBER = String.raw`\d+\s+\d+/\d+|\d+/\d+|\d+\.\d+|\d+\s*[${VULGAR}]|\d+|[${VULGAR}]`;

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');

/** Words as one alternative, longest first, whatever their case and the spaces in them. */
function anyOf(words: Iterable<string>): string {
  const sorted = [...new Set(words)].sort((a, b) => b.length - a.length || (a < b ? -1 : 1));
  return `(?i:${sorted.map((word) => escaped(word).replaceAll(' ', String.raw`\s+`)).join('|')})`;
}

const lineWords = sections.flatMap((section) => section.lines.map((line) => leadingWords(line.pattern)));
const qualifiers = sections.flatMap((section) => section.lines.flatMap((line) => line.qualifiers));

/** The words inside patterns: `rolled`, `at least`, `along`. */
function innerWords(words: readonly PhraseWord[]): string[] {
  const found: string[] = [];
  const walk = (elements: readonly Element[]): void => {
    for (const element of elements) {
      if (element.kind === 'word') found.push(element.word);
      else if (element.kind === 'optional') walk(element.of);
      else if (element.kind === 'choice') for (const way of element.of) walk(way);
    }
  };
  for (const word of words) walk(word.pattern.elements);
  return found;
}

const unitWords = units.flatMap((unit) => unit.spellings).filter((spelling) => !/["″]/.test(spelling));
const listWords = Object.values(wordLists).flatMap((list) =>
  list.flatMap((entry) => [entry.word, ...(entry.also ?? [])]),
);

function textMateGrammar(): TextMateGrammar {
  const kinds = anyOf(sectionKinds);
  const end = String.raw`(?=\s*(?:#|$))`;
  return {
    name: 'Planish',
    scopeName: 'source.planish',
    fileTypes: ['planish'],
    patterns: [
      { include: '#comments' },
      { include: '#headers' },
      { include: '#singles' },
      { include: '#lines' },
      { include: '#qualifiers' },
      { include: '#values' },
    ],
    repository: {
      comments: {
        patterns: [
          { name: 'comment.block.documentation.planish', match: '##.*$' },
          {
            name: 'comment.line.number-sign.planish',
            match: String.raw`(#)\s+((?i:allow))\s+([\p{L}\p{N}-]+)\s*(:)(.*)$`,
            captures: {
              1: { name: 'punctuation.definition.comment.planish' },
              2: { name: 'keyword.other.allow.planish' },
              3: { name: 'entity.other.attribute-name.check.planish' },
              4: { name: 'punctuation.separator.planish' },
            },
          },
          {
            name: 'comment.line.number-sign.planish',
            match: String.raw`(#)(?!\S).*$`,
            captures: { 1: { name: 'punctuation.definition.comment.planish' } },
          },
          { name: 'invalid.illegal.comment.planish', match: '#.*$' },
        ],
      },
      headers: {
        patterns: [
          {
            match: String.raw`^\s*(${kinds})\s+(${NAME})${end}`,
            captures: { 1: { name: 'keyword.control.section.planish' }, 2: { name: 'entity.name.section.planish' } },
          },
          {
            begin: String.raw`^\s*(${kinds})\s*(?=["“”])`,
            end: '$|(?=#)',
            beginCaptures: { 1: { name: 'keyword.control.section.planish' } },
            patterns: [{ include: '#texts' }],
          },
          {
            match: String.raw`^\s*(${kinds})${end}`,
            captures: { 1: { name: 'keyword.control.section.planish' } },
          },
        ],
      },
      singles: {
        patterns: [
          {
            match: String.raw`^\s*((?i:let))\s+(${NAME})\s*(=)?`,
            captures: {
              1: { name: 'keyword.control.let.planish' },
              2: { name: 'variable.other.constant.planish' },
              3: { name: 'keyword.operator.assignment.planish' },
            },
          },
          { match: String.raw`^\s*((?i:use|let))${AFTER}`, captures: { 1: { name: 'keyword.control.use.planish' } } },
          {
            match: String.raw`^\s*((?i:planish))\s+(\d+)${end}`,
            captures: { 1: { name: 'keyword.control.version.planish' }, 2: { name: 'constant.numeric.planish' } },
          },
        ],
      },
      lines: {
        match: String.raw`^\s*(${anyOf(lineWords.filter(Boolean))})${AFTER}`,
        captures: { 1: { name: 'keyword.other.line.planish' } },
      },
      qualifiers: {
        match: String.raw`(,)\s*(${anyOf(qualifiers.map((word) => leadingWords(word.pattern)).filter(Boolean))})${AFTER}`,
        captures: { 1: { name: 'punctuation.separator.comma.planish' }, 2: { name: 'storage.modifier.planish' } },
      },
      values: {
        patterns: [
          { include: '#texts' },
          { include: '#numbers' },
          {
            match: String.raw`${BEFORE}(${anyOf(FUNCTIONS)})\s*(?=\()`,
            captures: { 1: { name: 'support.function.planish' } },
          },
          { name: 'constant.language.planish', match: `${BEFORE}(?i:pi)${AFTER}` },
          { name: 'support.constant.planish', match: `${BEFORE}${anyOf(listWords)}${AFTER}` },
          {
            name: 'keyword.operator.word.planish',
            match: `${BEFORE}${anyOf([...innerWords([...sections.flatMap((section) => section.lines), ...qualifiers]), 'of', 'x'])}${AFTER}`,
          },
          { name: 'keyword.operator.planish', match: String.raw`±|\+/-|[+*/×=–−]|-(?!\p{L})` },
          { name: 'punctuation.separator.comma.planish', match: ',' },
          { name: 'punctuation.section.parens.planish', match: '[()]' },
          { name: 'variable.other.planish', match: String.raw`${NAME}(?:\.${NAME})*` },
        ],
      },
      numbers: {
        patterns: [
          { name: 'constant.other.date.planish', match: String.raw`\d{4}-\d{2}-\d{2}(?![\d-])` },
          { name: 'invalid.illegal.number.planish', match: String.raw`\d+-\d+/\d+|\d+(?:,\d+)+(?:\.\d+)?` },
          {
            match: String.raw`(${NUMBER})(?:\s*(${anyOf(unitWords)})(?![\p{L}\p{N}-])|(["″”]))`,
            captures: {
              1: { name: 'constant.numeric.planish' },
              2: { name: 'keyword.other.unit.planish' },
              3: { name: 'keyword.other.unit.planish' },
            },
          },
          {
            match: String.raw`(${NUMBER})([xX])(?=[\d${VULGAR}])`,
            captures: { 1: { name: 'constant.numeric.planish' }, 2: { name: 'keyword.operator.word.planish' } },
          },
          { name: 'constant.numeric.planish', match: `${BEFORE}(?:${NUMBER})` },
        ],
      },
      texts: {
        patterns: [
          {
            name: 'string.quoted.double.planish',
            match: String.raw`"(?:[^"\\]|\\.)*"|[“”](?:[^“”"\\]|\\.)*["“”]`,
            captures: { 0: { name: 'string.quoted.double.planish' } },
          },
          { name: 'invalid.illegal.text.planish', match: '["“”].*$' },
        ],
      },
    },
  };
}

/** The file as it is generated. */
export const textMateJson = (): string => `${JSON.stringify(textMateGrammar(), undefined, 2)}\n`;
