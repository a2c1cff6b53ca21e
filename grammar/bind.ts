import { say } from '../l10n/say.ts';
import { anyOf, nearest } from './nearest.ts';
import { bareNumber, reachBack } from './parser.ts';
import {
  type Bound,
  continueList,
  type Expected,
  type Filled,
  isWordList,
  type LineWord,
  leadingWords,
  type Match,
  matchPattern,
  type PhraseWord,
  type SectionWord,
  type SlotType,
} from './pattern.ts';
import type { Expression, Fix, Item, Phrase, ProblemCode, Span, Word } from './tree.ts';
import { units } from './units.ts';
import { linesOf, lists, openingWords, qualifiersOf, sectionsTaking, wordLists } from './vocabulary/index.ts';

/*
 * From items to meaning: which line of the vocabulary this is, what fills its slots, and, where it does not fit,
 * the nearest right word.
 */

export interface BoundLine {
  readonly word?: LineWord;
  readonly head?: Bound;
  readonly qualifiers: readonly Bound[];
}

export type Report = (code: ProblemCode, at: Span, message: string, fixes?: readonly Fix[]) => void;

export function bindLine(section: SectionWord, phrases: readonly Phrase[], report: Report): BoundLine {
  const first = phrases[0];
  if (!first?.items.length) return { qualifiers: [] };
  const { items } = first;
  const index = linesOf(section);
  const opener = items[0]!;
  const named = (opener.kind === 'word' && index.byFirst.get(opener.key)) || [];
  const candidates = index.others.length ? [...named, ...index.others] : named;
  const choice = choose(candidates, items);
  if (!choice || choice.match.used === 0) {
    if (!first.broken) reportForeign(section, items, named, report);
    return { qualifiers: [] };
  }
  const { word, match } = choice;
  const head = boundOf(word, match, items);
  const rest: Phrase[] = phrases.slice(1);
  const reportFirst = first.broken ? silent : report;
  let finished = match.complete;
  if (!match.complete) {
    const joined = match.used === items.length && rest[0] ? commaTooMuch(word, first, rest[0]) : undefined;
    if (joined) {
      const comma = { from: first.to, to: rest[0]!.from };
      report('comma-stray', comma, say`No comma is wanted here: “${nameOf(word, head)}” goes on.`, [
        { title: 'Remove the comma', edits: [{ ...comma, text: ' ' }] },
      ]);
      return bindLine(section, [joined, ...rest.slice(1)], report);
    }
    reportUnfit(match, items, candidates, reportFirst, first);
  } else if (match.used < items.length) {
    const left = items.slice(match.used);
    const leftPhrase: Phrase = { items: left, from: left[0]!.from, to: first.to };
    if (startsPhrase(word, match, leftPhrase)) {
      reportCommaMissing(left[0]!, items[match.used - 1]!, report);
      rest.unshift(leftPhrase);
    } else {
      reportLeft(match, items, word, candidates, reportFirst, first);
      finished = false;
    }
  }
  const qualifiers = bindQualifiers(word, head, rest, match, finished ? report : silent, report);
  for (const filled of match.slots.values()) reachBackOver(filled);
  for (const { items: each } of phrases) reachBackOverTo(each);
  for (const { items: each } of phrases) reachBackOverTo(each);
  return { word, head, qualifiers };
}

/** A line that is marked already says nothing of what its other phrases lack. */
const silent: Report = () => {};

/** Whether the line is filled when a comma in it is left out: `head round, 585 mm`. */
function commaTooMuch(word: LineWord, first: Phrase, next: Phrase): Phrase | undefined {
  const items = [...first.items, ...next.items];
  const match = matchPattern(word.pattern, items, lists);
  return match.complete && match.used === items.length ? { items, from: first.from, to: next.to } : undefined;
}

/** Whether what is left of a phrase could stand after a comma: a qualifier, or more of the list. */
function startsPhrase(word: LineWord, match: Match, left: Phrase): boolean {
  const item = left.items[0]!;
  if (item.kind === 'word' && qualifiersOf(word).byFirst.has(item.key)) return true;
  return match.openList !== undefined && continueList(match.openList, left, lists) !== undefined;
}

function bindQualifiers(
  line: LineWord,
  head: Bound,
  phrases: readonly Phrase[],
  headMatch: Match,
  reportStrange: Report,
  reportAny: Report,
): Bound[] {
  const qualifiers: Bound[] = [];
  const index = qualifiersOf(line);
  const queue = [...phrases];
  for (let phrase = queue.shift(); phrase; phrase = queue.shift()) {
    const opener = phrase.items[0];
    if (!opener) continue;
    const report = phrase.broken ? silent : reportAny;
    const named = (opener.kind === 'word' && index.byFirst.get(opener.key)) || [];
    const candidates = index.others.length ? [...named, ...index.others] : named;
    const choice = choose(candidates, phrase.items);
    const whole = choice?.match.complete && choice.match.used === phrase.items.length;
    if (!whole && headMatch.complete && headMatch.openList) {
      const filled = continueList(headMatch.openList, phrase, lists);
      if (filled) {
        headMatch.slots.get(headMatch.openList.name)?.push(filled);
        continue;
      }
    }
    if (!choice || choice.match.used === 0) {
      if (!phrase.broken) reportForeignQualifier(line, head, phrase.items, reportStrange, headMatch);
      continue;
    }
    const { word, match } = choice;
    if (!word.repeats && qualifiers.some((have) => have.word === word)) {
      report('line-twice', phrase, say`“${nameOf(word)}” is said twice in this line.`);
    }
    qualifiers.push(boundOf(word, match, phrase.items));
    if (!match.complete) {
      reportUnfit(match, phrase.items, candidates, report, phrase);
    } else if (match.used < phrase.items.length) {
      const left = phrase.items.slice(match.used);
      if (left[0]!.kind === 'word' && index.byFirst.has((left[0] as Word).key)) {
        reportCommaMissing(left[0]!, phrase.items[match.used - 1]!, report);
        queue.unshift({ items: left, from: left[0]!.from, to: phrase.to });
      } else {
        reportLeft(match, phrase.items, word, candidates, report, phrase);
      }
    }
  }
  return qualifiers.slice();
}

/** What a smith would call the line: its leading words, or what stands there in their place. */
export function nameOf(word: PhraseWord, bound?: Bound): string {
  const leading = leadingWords(word.pattern);
  if (leading) return leading;
  const first = word.pattern.elements[0];
  return (first?.kind === 'slot' && bound?.slots.get(first.name)?.[0]?.text) || word.id;
}

interface Choice<W extends PhraseWord> {
  readonly word: W;
  readonly match: Match;
}

/** The word whose pattern takes the most of the phrase; of those, one that is filled whole. */
function choose<W extends PhraseWord>(candidates: readonly W[], items: readonly Item[]): Choice<W> | undefined {
  let best: Choice<W> | undefined;
  for (const word of candidates) {
    const match = matchPattern(word.pattern, items, lists);
    if (match.complete && match.used === items.length) return { word, match };
    // `radus 2 mm` is a slip of a word, not a name that stands for an angle.
    if (items[0]?.kind === 'word' && !openingWords(word).length) continue;
    if (
      !best ||
      match.used > best.match.used ||
      (match.used === best.match.used && match.complete && !best.match.complete)
    ) {
      best = { word, match };
    }
  }
  return best;
}

function boundOf(word: PhraseWord, match: Match, items: readonly Item[]): Bound {
  const last = items[Math.max(0, Math.min(match.used, items.length) - 1)]!;
  return { word, slots: match.slots, words: shared(match.words), from: items[0]!.from, to: last.to };
}

/** One set for all phrases with the same words: what can stand there is in the vocabulary. */
function shared(words: ReadonlySet<string>): ReadonlySet<string> {
  const key = [...words].join(' ');
  const have = sharedWords.get(key);
  if (have) return have;
  sharedWords.set(key, words);
  return words;
}
const sharedWords = new Map<string, ReadonlySet<string>>();

function reachBackOver(filled: readonly Filled[]): void {
  if (filled.length < 2) return;
  const expressions: Expression[] = [];
  for (const { items } of filled) {
    const item = items[0];
    if (item?.kind !== 'measure' || item.parts.length !== 1) return;
    expressions.push(item.parts[0]!);
  }
  reachBack(expressions);
}

/** `round 260 to 200 mm`: the unit after `to` is that of the number before it too. */
function reachBackOverTo(items: readonly Item[]): void {
  for (let i = items.length - 2; i > 0; i--) {
    const [before, to, after] = [items[i - 1]!, items[i]!, items[i + 1]!];
    if (to.kind !== 'word' || to.key !== 'to' || before.kind !== 'measure' || after.kind !== 'measure') continue;
    if (before.parts.length === 1 && after.parts.length === 1) reachBack([before.parts[0]!, after.parts[0]!]);
  }
}

// ---- messages ------------------------------------------------------------------------------------------------------

const NAMES: Partial<Record<SlotType, string>> = {
  length: 'a length',
  area: 'an area',
  angle: 'an angle',
  temperature: 'a temperature',
  time: 'a time',
  mass: 'a mass',
  density: 'a density',
  stress: 'a stress',
  percent: 'a percentage',
  grit: 'a grit',
  teeth: 'teeth to the inch',
  thickness: 'a thickness (16 ga, 1.5 mm)',
  'leather thickness': 'a thickness (7 oz, 3 mm)',
  count: 'a whole number',
  number: 'a number',
  size: 'two lengths joined by x (120 x 80 mm)',
  'count of': 'a count and a size (4 of 1/8 in)',
  dimensions: 'a length',
  measure: 'a measure',
  text: 'a text in quotes',
  date: 'a date (2027-05-14)',
  copy: 'the name of a piece',
  surface: 'the name of a piece',
  edge: 'an edge (rim, top, skull.rim)',
  'new name': 'a name',
  step: 'a piece and an operation, a finish or a seam',
  'body measure': 'a measure of the body',
  soft: 'a soft material',
};

/** What a slot wants, in words: `a length`, `the name of a material`. */
export function slotInWords(type: SlotType): string {
  const named = NAMES[type];
  if (named) return named;
  if (isWordList(type)) {
    const words = wordLists[type].map((entry) => entry.word);
    return words.length && words.length <= 5 ? anyOf(words) : withArticle(type);
  }
  return say`the name of ${withArticle(type)}`;
}

function expectedInWords(expected: Expected): string {
  const words = [...expected.words].map((word) => `“${word}”`);
  const slots = expected.slots.map(({ type }) => slotInWords(type));
  return anyOf([...slots, ...words]);
}

/** A pattern that began to fit and then did not. */
function reportUnfit(
  match: Match,
  items: readonly Item[],
  candidates: readonly PhraseWord[],
  report: Report,
  phrase: Phrase,
): void {
  if (report === silent) return;
  const item = items[match.reached];
  // Candidates that came as far want other things too.
  const words = new Set<string>();
  const slots: { name: string; type: SlotType }[] = [];
  for (const candidate of candidates) {
    const other = matchPattern(candidate.pattern, items, lists);
    if (other.reached !== match.reached || (other.complete && other.used === other.reached)) continue;
    for (const word of other.expected.words) words.add(word);
    for (const slot of other.expected.slots) if (!slots.some((have) => have.type === slot.type)) slots.push(slot);
  }
  const expected: Expected = { words, slots };
  if (!item) {
    const after = items[items.length - 1]!;
    report(
      'line-unfinished',
      { from: after.from, to: phrase.to },
      say`The line is not finished: ${expectedInWords(expected)} is wanted here.`,
    );
    return;
  }
  if (item.kind === 'word') {
    const entries = slots.flatMap(({ type }) => entriesOf(type));
    if (reportBegun(items.slice(match.reached), entries, report)) return;
    const near = meantBy(item, [...words, ...entries, ...entries.map((entry) => entry.split(' ')[0]!)]);
    report(
      'unknown-word',
      item,
      near
        ? say`“${item.text}” is not understood here: did you mean “${near}”?`
        : say`“${item.text}” is not understood here: ${expectedInWords(expected)} is wanted.`,
      near ? [replace(item, near)] : [],
    );
    return;
  }
  report('unknown-word', item, say`${describe(item)} does not fit here: ${expectedInWords(expected)} is wanted.`);
}

/** The phrase goes on after all that its word can hold. */
function reportLeft(
  match: Match,
  items: readonly Item[],
  word: PhraseWord,
  candidates: readonly PhraseWord[],
  report: Report,
  phrase: Phrase,
): void {
  // `edge rim rolled over`: something that may be left out was begun.
  if (match.reached > match.used) {
    reportUnfit(match, items, candidates, report, phrase);
    return;
  }
  const item = items[match.used]!;
  const before = items[match.used - 1];
  const number = before?.kind === 'measure' ? bareNumber(before.parts[before.parts.length - 1]) : undefined;
  if (item.kind === 'word' && number && !number.unit) {
    const word = nearest(item.key, match.expected.words);
    // Any letter is near to `m`.
    const near = word ?? (item.key.length > 1 ? nearest(item.key, UNIT_SPELLINGS) : undefined);
    report(
      'unknown-word',
      item,
      near
        ? say`“${item.text}” is ${word ? say`not understood here` : say`no unit`}: did you mean “${near}”?`
        : say`“${item.text}” is no unit. Units are ${anyOf(
            units.map((unit) => unit.id),
            8,
          )}`,
      near ? [replace(item, near)] : [],
    );
    return;
  }
  if (item.kind === 'measure' && item.parts[0]?.kind === 'negate') {
    report('sign-spacing', item, 'A sign between two measures has a space on both sides.', [
      { title: 'Put a space after the sign', edits: [{ from: item.from + 1, to: item.from + 1, text: ' ' }] },
    ]);
    return;
  }
  const what = item.kind === 'word' ? `“${item.text}”` : describe(item);
  const near = item.kind === 'word' ? meantBy(item, [...match.expected.words]) : undefined;
  report(
    'unknown-word',
    { from: item.from, to: items[items.length - 1]!.to },
    near
      ? say`${what} is not understood here: did you mean “${near}”?`
      : say`${what} is not understood here: “${nameOf(word)}” is complete before it. A new fact comes after a comma or in a new line.`,
    near && item.kind === 'word' ? [replace(item, near)] : [],
  );
}

/** The lines of a section as a smith calls them: whole words of a closed list, and both words of a form of two. */
const linesInWords = (section: SectionWord): string[] => [
  ...new Set(section.lines.flatMap((line) => leadingWords(line.pattern) || wholeTerms(line))),
];

/** The terms of the closed list with which a line begins, each once. */
function wholeTerms(line: LineWord): string[] {
  const first = line.pattern.elements[0];
  return first?.kind === 'slot' && isWordList(first.type) ? wordLists[first.type].map(({ word }) => word) : [line.id];
}

function reportForeign(section: SectionWord, items: readonly Item[], named: readonly LineWord[], report: Report): void {
  const opener = items[0]!;
  const here = [...new Set(section.lines.flatMap((line) => openingWords(line)))];
  const kind = withArticle(section.kind);
  if (opener.kind !== 'word') {
    report(
      'unknown-word',
      opener,
      say`${describe(opener)} cannot start a line of ${kind}: a line starts with a word, such as ${anyOf(linesInWords(section).slice(0, 4))}.`,
    );
    return;
  }
  if (named.length) {
    reportListWord(items, named, report);
    return;
  }
  const others = sectionsTaking(opener.key);
  if (others.length) {
    report(
      'section-wrong',
      opener,
      say`“${opener.text}” is no line of ${kind}: it belongs in ${anyOf(others.map((other) => withArticle(other.kind)))}.`,
    );
    return;
  }
  const near = meantBy(opener, here);
  report(
    'unknown-word',
    opener,
    near
      ? say`“${opener.text}” is not a word of ${kind}: did you mean “${near}”?`
      : say`“${opener.text}” is not a word of ${kind}. Its lines are ${anyOf(linesInWords(section), 10)}`,
    near ? [replace(opener, near)] : [],
  );
}

/** A line that begins with a word of a closed list, and with no whole one: `head`, `head roun 585 mm`. */
function reportListWord(items: readonly Item[], named: readonly LineWord[], report: Report): void {
  const words: Word[] = [];
  for (const item of items) {
    if (item.kind !== 'word') break;
    words.push(item);
  }
  const written = words.map((word) => word.key).join(' ');
  const first = words[0]!;
  const span = { from: first.from, to: words[words.length - 1]!.to };
  const entries = [...new Set(named.flatMap((line) => listEntries(line)))];
  const going = entries.filter((entry) => entry.startsWith(`${first.key} `));
  if (words.length === items.length && words.length === 1) {
    report(
      'line-unfinished',
      span,
      say`The line is not finished: ${anyOf(going.map((entry) => `“${entry}”`))} is wanted here.`,
    );
    return;
  }
  const near = nearest(written, entries);
  report(
    'unknown-word',
    span,
    near
      ? say`“${written}” is not in the list: did you mean “${near}”?`
      : say`“${written}” is not in the list. With “${first.text}” begin ${anyOf(going)}`,
    near ? [replace(span, near)] : [],
  );
}

function listEntries(line: LineWord): string[] {
  const first = line.pattern.elements[0];
  if (first?.kind !== 'slot' || !isWordList(first.type)) return [];
  return wordLists[first.type].flatMap((entry) => [entry.word, ...(entry.also ?? [])]);
}

/** `a seam`, `an order`. */
export const withArticle = (noun: string): string => `${/^[aeiou]/i.test(noun) ? 'an' : 'a'} ${noun}`;

function reportForeignQualifier(
  line: LineWord,
  head: Bound,
  items: readonly Item[],
  report: Report,
  headMatch: Match,
): void {
  const opener = items[0]!;
  const name = nameOf(line, head);
  const entries = line.qualifiers.flatMap(({ pattern: { elements } }) =>
    elements[0]?.kind === 'slot' ? entriesOf(elements[0].type) : [],
  );
  if (reportBegun(items, entries, report)) return;
  const here = [...new Set(line.qualifiers.flatMap((qualifier) => openingWords(qualifier)))];
  const slots = line.qualifiers.filter((qualifier) => !openingWords(qualifier).length);
  const wants = [...here, ...slots.map((qualifier) => qualifier.id)];
  if (headMatch.openList) wants.unshift(slotInWords(headMatch.openList.type));
  const near = opener.kind === 'word' ? meantBy(opener, here) : undefined;
  const what = opener.kind === 'word' ? `“${opener.text}”` : describe(opener);
  report(
    'unknown-word',
    opener,
    near
      ? say`${what} is not understood after “${name}”: did you mean “${near}”?`
      : wants.length
        ? say`${what} is not understood after “${name}”, which takes ${anyOf(wants, 10)}.`
        : say`${what} is not understood here: “${name}” takes nothing after a comma.`,
    near && opener.kind === 'word' ? [replace(opener, near)] : [],
  );
}

function reportCommaMissing(item: Item, before: Item, report: Report): void {
  report(
    'line-unfinished',
    item,
    say`A comma is missing before ${item.kind === 'word' ? say`“${item.text}”` : describe(item).toLowerCase()}.`,
    [{ title: 'Add the comma', edits: [{ from: before.to, to: before.to, text: ',' }] }],
  );
}

const entriesOf = (type: SlotType): string[] =>
  isWordList(type) ? wordLists[type].flatMap((entry) => [entry.word, ...(entry.also ?? [])]) : [];

const UNIT_SPELLINGS = units.flatMap((unit) => unit.spellings);

/** Words that stand where a closed list goes on, and that an entry of several words begins with: `mild teel`, `half`. */
function reportBegun(items: readonly Item[], entries: readonly string[], report: Report): boolean {
  const first = items[0]!;
  const begun = first.kind === 'word' ? entries.filter((entry) => entry.startsWith(`${first.key} `)) : [];
  if (!begun.length) return false;
  for (const count of [3, 2]) {
    const some = items.slice(0, count).filter((item) => item.kind === 'word');
    if (some.length < count) continue;
    const written = some.map(({ key }) => key).join(' ');
    const near = nearest(
      written,
      begun.filter((entry) => entry.split(' ').length === count),
    );
    if (!near) continue;
    const span = { from: first.from, to: some[count - 1]!.to };
    report('unknown-word', span, say`“${written}” is not in the list: did you mean “${near}”?`, [replace(span, near)]);
    return true;
  }
  const wanted = anyOf(begun.map((entry) => `“${entry}”`));
  report(
    'line-unfinished',
    first,
    say`“${(first as Word).text}” alone is not in the list: ${wanted} is wanted here.`,
    begun.length === 1 ? [replace(first, begun[0]!)] : [],
  );
  return true;
}

/** The word that was likely meant; with its number where a blank was forgotten between them: `wide16`. */
function meantBy(word: Word, options: readonly string[]): string | undefined {
  const glued = /^(.*\p{L})(\d+)$/u.exec(word.key);
  if (glued && options.includes(glued[1]!)) return `${glued[1]} ${glued[2]}`;
  return nearest(word.key, options);
}

const replace = (at: Span, text: string): Fix => ({
  title: say`Change to “${text}”`,
  edits: [{ from: at.from, to: at.to, text }],
});

function describe(item: Item): string {
  switch (item.kind) {
    case 'word':
      return `“${item.text}”`;
    case 'text':
      return 'A text';
    case 'date':
      return 'A date';
    case 'measure':
      return item.parts.some((part) => bareNumber(part)?.unit) ? 'A measure' : 'A number';
  }
}
