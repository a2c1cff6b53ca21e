import type { Item, Phrase, Span } from './syntax.ts';
import type { Dimension } from './units.ts';

/*
 * The notation in which the vocabulary says what a line holds, and the matcher that reads a phrase by it.
 *
 *   dome <diameter:length>                 words stand for themselves, <name:type> is something to fill in
 *   fits <wearer:wearer> [<region:region>] [ ] may be left out
 *   half dome ( <size:size> | round <girth:length> )   ( | ) one of these
 *   joins <pieces:copy>...                 ... a list, which goes on over the commas that follow
 *   gap <gap:length, ≥ 0>                  a measure is above nought unless it says `≥ 0`, or `±` where it may be below
 *   coil <coil:length, coil>               and no larger than its kind can be, or what is named here: a coil
 *   scaled <scale:number, 0.01 to 100>     or it lies between these, in base units
 *
 * The same notation makes the reference, the completions and the signature help, so what is documented is what is read.
 */

export type NameCategory =
  | 'piece'
  | 'material'
  | 'rivet'
  | 'part'
  | 'wearer'
  | 'seam'
  | 'hinge'
  | 'joint'
  | 'finish'
  | 'shop'
  | 'rules'
  | 'order'
  | 'log'
  | 'let';

export type SlotType =
  // measures
  | 'length'
  | 'area'
  | 'angle'
  | 'temperature'
  | 'time'
  | 'mass'
  | 'density'
  | 'stress'
  | 'percent'
  | 'grit'
  | 'teeth'
  /** Of metal: a length or a gauge number. */
  | 'thickness'
  /** Of a soft material: a length or leather ounces. */
  | 'leather thickness'
  /** A whole number without unit. */
  | 'count'
  /** A number without unit: a price, a ratio. */
  | 'number'
  /** Two lengths joined by `x`. */
  | 'size'
  /** `12 of 1/8 in` */
  | 'count of'
  /** A length, or two joined by `x`. */
  | 'dimensions'
  /** A measure of any unit. */
  | 'measure'
  | 'text'
  | 'date'
  // names
  | NameCategory
  /** A piece, or one copy of a mirrored one: `left skull`. */
  | 'copy'
  /** A piece or one copy, and which face of it: `skull outside`. */
  | 'surface'
  /** An edge or a line on a form: `rim`, `skull.rim`. */
  | 'edge'
  /** A new name, given here: an opening, an edge, a cut. */
  | 'new name'
  /** What comes in an order of work: a piece and an operation, a finish, a seam. */
  | 'step'
  | WordListName;

export type WordListName =
  | 'metal'
  | 'soft'
  | 'temper'
  | 'plating'
  | 'head'
  | 'body measure'
  | 'region'
  | 'operation'
  | 'side'
  | 'medium'
  | 'currency'
  | 'heat source'
  | 'colour word';

/** What a measure is of, where more or less of it can be than its type alone says. */
export type MeasureOf = 'sheet' | 'coil' | 'stock';

/** Which numbers a measure can be. How large its kind gets is known to who knows the trade. */
export interface Range {
  /** Only above nought, nought too, or below it as well. */
  readonly sign: '> 0' | '≥ 0' | '±';
  readonly of?: MeasureOf;
  /** The least and the most, in base units, where that is said. */
  readonly between?: readonly [number, number];
}

export interface Slot {
  readonly kind: 'slot';
  readonly name: string;
  readonly type: SlotType;
  readonly list: boolean;
  readonly range: Range;
}

export type Element =
  | { readonly kind: 'word'; readonly word: string }
  | Slot
  | { readonly kind: 'optional'; readonly of: readonly Element[] }
  | { readonly kind: 'choice'; readonly of: readonly (readonly Element[])[] };

export interface Pattern {
  readonly notation: string;
  readonly elements: readonly Element[];
}

/** A word of the language that stands first in a line, or after a comma. */
export interface PhraseWord {
  readonly id: string;
  readonly pattern: Pattern;
  readonly doc: string;
  /** False while nothing is computed from it yet: hover says so. */
  readonly computed: boolean;
  /** May stand more than once in a line (`then …`). */
  readonly repeats: boolean;
}

export type LineGroup =
  | 'plain'
  | 'form'
  | 'working'
  | 'edge'
  | 'opening'
  | 'level'
  | 'outline'
  | 'joining'
  | 'step'
  | 'stock';

export interface LineWord extends PhraseWord {
  readonly group: LineGroup;
  readonly qualifiers: readonly PhraseWord[];
  readonly example: string;
  /** What it must say besides what its pattern fills in. */
  readonly needs: readonly Need[];
  /** An example of the lines that follow it, where it needs such. */
  readonly followedBy: readonly string[];
}

/**
 * Something without which nothing can be worked out from a line: one of these ways, all facts of one way. A fact is the id of
 * a qualifier, a slot or a word of the line's own pattern, or `@level×2`: so many lines of that group or id in its section.
 */
export interface Need {
  readonly ways: readonly (readonly string[])[];
}

/** Reads `hollow | over`, `high | from | long wide`. */
export const need = (notation: string): Need => ({
  ways: notation.split('|').map((way) => way.trim().split(/\s+/)),
});

export interface SectionWord {
  readonly kind: NameCategory | 'build';
  readonly doc: string;
  /** What the header is named by. */
  readonly named: 'name' | 'text';
  readonly lines: readonly LineWord[];
  /** Lines of which one is needed, each by the group or the id that satisfies it. */
  readonly needs: readonly { readonly what: string; readonly any: readonly string[] }[];
}

/** What filled a slot. */
export interface Filled extends Span {
  readonly type: SlotType;
  readonly range: Range;
  readonly items: readonly Item[];
  /** The words that matched, lower case, joined by a space, for the closed lists and for names. */
  readonly text: string;
  /** `left` or `right`, where a copy was named. */
  readonly copy?: 'left' | 'right';
  /** `inside` or `outside`, where a face was named. */
  readonly face?: 'inside' | 'outside';
}

/** A phrase as understood: which word, what filled its slots, which optional words stood there. */
export interface Bound extends Span {
  readonly word: PhraseWord;
  readonly slots: ReadonlyMap<string, readonly Filled[]>;
  readonly words: ReadonlySet<string>;
}

const TOKEN = /<([^:>]+):([^,>]+)(?:, ([^>]+))?>(\.\.\.)?|[[\]()|]|[^\s[\]()|<>]+/g;

/** Reads the notation. @throws on a mistake in the notation itself, which is ours. */
export function pattern(notation: string): Pattern {
  const tokens = [...notation.matchAll(TOKEN)];
  let at = 0;
  const sequence = (until: string): Element[] => {
    const elements: Element[] = [];
    for (; at < tokens.length; at++) {
      const match = tokens[at]!;
      const token = match[0];
      if (until.includes(token) && token.length === 1) return elements;
      if (match[1] !== undefined) {
        const type = match[2] as SlotType;
        elements.push({
          kind: 'slot',
          name: match[1],
          type,
          list: match[4] !== undefined,
          range: rangeOf(type, match[3]),
        });
      } else if (token === '[') {
        at++;
        elements.push({ kind: 'optional', of: sequence(']') });
      } else if (token === '(') {
        const of: Element[][] = [];
        do {
          at++;
          of.push(sequence('|)'));
        } while (tokens[at]?.[0] === '|');
        // A way that begins with a word goes first: in `( <size:size> | round <girth:length> )` the word is no name.
        elements.push({
          kind: 'choice',
          of: of.sort((a, b) => Number(b[0]?.kind === 'word') - Number(a[0]?.kind === 'word')),
        });
      } else if (token === ']' || token === ')' || token === '|') {
        throw new Error(`unexpected ${token} in "${notation}"`);
      } else {
        elements.push({ kind: 'word', word: token.toLowerCase() });
      }
    }
    if (until) throw new Error(`unclosed bracket in "${notation}"`);
    return elements;
  };
  return { notation, elements: sequence('') };
}

const RANGE = /^(±|≥ 0)?(?:(?:^| )(?:(sheet|coil|stock)|(-?\d+(?:\.\d+)?) to (-?\d+(?:\.\d+)?)))?$/;

/** What the notation says of a measure's range. @throws on a mistake in it. */
function rangeOf(type: SlotType, written: string | undefined): Range {
  // Of heat and cold nought is a place like any other.
  if (written === undefined) return type === 'temperature' ? EITHER_WAY : ABOVE_NOUGHT;
  const match = RANGE.exec(written);
  if (!match || !isMeasure(type)) throw new Error(`no range of a ${type}: "${written}"`);
  const [, sign = '> 0', of, least, most] = match;
  return {
    sign: sign as Range['sign'],
    ...(of ? { of: of as MeasureOf } : {}),
    ...(least && most ? { between: [Number(least), Number(most)] } : {}),
  };
}
const ABOVE_NOUGHT: Range = { sign: '> 0' };
const EITHER_WAY: Range = { sign: '±' };

/** What could have stood at the first place where a phrase stopped fitting. */
export interface Expected {
  readonly words: Set<string>;
  readonly slots: { readonly name: string; readonly type: SlotType }[];
}

export interface Match {
  /** The whole pattern was filled; `used` may still be less than there is. */
  readonly complete: boolean;
  /** How many items of the phrase were understood. */
  readonly used: number;
  /** How far some way of filling it came: further than `used` where something that may be left out was begun. */
  readonly reached: number;
  readonly slots: Map<string, Filled[]>;
  readonly words: Set<string>;
  readonly expected: Expected;
  /** The list slot with which the pattern ends, if it does: phrases after a comma may go on with it. */
  readonly openList?: Slot;
}

export interface WordLists {
  has(list: WordListName, words: string): boolean;
  /** The longest entry, in words. */
  longest(list: WordListName): number;
}

const WORD_LIST_NAMES: readonly WordListName[] = [
  'metal',
  'soft',
  'temper',
  'plating',
  'head',
  'body measure',
  'region',
  'operation',
  'side',
  'medium',
  'currency',
  'heat source',
  'colour word',
];
const wordListNames = new Set<string>(WORD_LIST_NAMES);
export const isWordList = (type: SlotType): type is WordListName => wordListNames.has(type);

const MEASURES = new Set<SlotType>([
  'length',
  'area',
  'angle',
  'temperature',
  'time',
  'mass',
  'density',
  'stress',
  'percent',
  'grit',
  'teeth',
  'thickness',
  'leather thickness',
  'count',
  'number',
  'size',
  'count of',
  'dimensions',
  'measure',
]);
export const isMeasure = (type: SlotType): boolean => MEASURES.has(type);

/** The dimensions that a measure slot takes, the usual one first; none for one without unit, or of any. */
export function dimensionsOf(type: SlotType): readonly Dimension[] {
  switch (type) {
    case 'length':
    case 'area':
    case 'angle':
    case 'temperature':
    case 'time':
    case 'mass':
    case 'density':
    case 'stress':
    case 'percent':
    case 'grit':
    case 'teeth':
      return [type];
    case 'size':
    case 'count of':
    case 'dimensions':
      return ['length'];
    case 'thickness':
      return ['length', 'gauge'];
    case 'leather thickness':
      return ['length', 'ounce'];
    default:
      return [];
  }
}

/** Words that always belong to the sentence, so that no name can be read from them. */
const STRUCTURE = new Set(['x', 'of', 'to', 'from', 'and', 'left', 'right', 'up', 'down']);
const OPERATION_ONLY = new Set(['outside', 'inside']);

/** Reads the items of a phrase by a pattern, as far as they fit. Never fails: says how far it came and what it wanted next. */
export function matchPattern(of: Pattern, items: readonly Item[], lists: WordLists): Match {
  const matcher = new Matcher(items, lists);
  const done = matcher.sequence(of.elements, 0, 0, undefined);
  const last = of.elements[of.elements.length - 1];
  const { slots, words } = collect(done ? done.trail : matcher.furthestTrail);
  const { furthest: reached } = matcher;
  const used = done ? done.at : reached;
  const expected = { words: new Set(matcher.wantedWords), slots: matcher.wantedSlots };
  const complete = done !== undefined;
  if (last?.kind !== 'slot' || !last.list) return { complete, used, reached, slots, words, expected };
  return { complete, used, reached, slots, words, expected, openList: last };
}

/** Whether one phrase, whole, goes on with a list: `joins outer, next, inner`. */
export function continueList(list: Slot, phrase: Phrase, lists: WordLists): Filled | undefined {
  const filled = new Matcher(phrase.items, lists).fill(list, 0);
  return filled && filled.next === phrase.items.length ? filled.filled : undefined;
}

/** What was matched so far, last first: a way that fails leaves nothing to undo. */
interface Trail {
  readonly word?: string;
  readonly slot?: string;
  readonly filled?: Filled;
  readonly before: Trail | undefined;
}

interface State {
  readonly at: number;
  readonly trail: Trail | undefined;
}

function collect(trail: Trail | undefined): { slots: Map<string, Filled[]>; words: Set<string> } {
  const slots = new Map<string, Filled[]>();
  const words = new Set<string>();
  const inOrder: Trail[] = [];
  for (let entry = trail; entry; entry = entry.before) inOrder.push(entry);
  for (let i = inOrder.length - 1; i >= 0; i--) {
    const { word, slot, filled } = inOrder[i]!;
    if (word !== undefined) words.add(word);
    if (slot === undefined || !filled) continue;
    const have = slots.get(slot);
    if (have) have.push(filled);
    else slots.set(slot, [filled]);
  }
  return { slots, words };
}

class Matcher {
  furthest = 0;
  furthestTrail: Trail | undefined;
  wantedWords: string[] = [];
  wantedSlots: { name: string; type: SlotType }[] = [];

  constructor(
    private readonly items: readonly Item[],
    private readonly lists: WordLists,
  ) {}

  /** Matches `elements` from the `index`th on; the first way that fits whole wins. */
  sequence(elements: readonly Element[], index: number, at: number, trail: Trail | undefined): State | undefined {
    const element = elements[index];
    if (!element) return { at, trail };
    switch (element.kind) {
      case 'word': {
        const item = this.items[at];
        if (item?.kind === 'word' && item.key === element.word) {
          return this.sequence(
            elements,
            index + 1,
            at + 1,
            this.reached(at + 1, { word: element.word, before: trail }),
          );
        }
        this.wanted(at, trail, element.word);
        return undefined;
      }
      case 'slot': {
        for (const { filled, next } of this.fills(element, at, elements[index + 1])) {
          const state = this.sequence(
            elements,
            index + 1,
            next,
            this.reached(next, { slot: element.name, filled, before: trail }),
          );
          if (state) return state;
        }
        this.wanted(at, trail, undefined, element);
        return undefined;
      }
      case 'optional': {
        const rest = elements.slice(index + 1);
        return this.sequence([...element.of, ...rest], 0, at, trail) ?? this.sequence(rest, 0, at, trail);
      }
      case 'choice': {
        const rest = elements.slice(index + 1);
        for (const way of element.of) {
          const state = this.sequence([...way, ...rest], 0, at, trail);
          if (state) return state;
        }
        return undefined;
      }
    }
  }

  private reached(at: number, trail: Trail | undefined): Trail | undefined {
    if (at > this.furthest) {
      this.furthest = at;
      this.furthestTrail = trail;
      if (this.wantedWords.length) this.wantedWords = [];
      if (this.wantedSlots.length) this.wantedSlots = [];
    }
    return trail;
  }

  private wanted(at: number, trail: Trail | undefined, word?: string, slot?: { name: string; type: SlotType }): void {
    this.reached(at, trail);
    if (at < this.furthest) return;
    if (word !== undefined) this.wantedWords.push(word);
    if (slot && !this.wantedSlots.some((have) => have.type === slot.type)) this.wantedSlots.push(slot);
  }

  /** The ways a slot can be filled from `at`, longest first. */
  private *fills(slot: Slot, at: number, next: Element | undefined): Generator<{ filled: Filled; next: number }> {
    const { type } = slot;
    if (isWordList(type)) {
      for (let count = Math.min(this.lists.longest(type), this.items.length - at); count > 0; count--) {
        const words = this.wordsAt(at, count);
        if (words !== undefined && this.lists.has(type, words)) yield this.filledWith(type, at, count, words);
      }
      return;
    }
    const way = this.fill(slot, at);
    if (!way) return;
    // `edge rim rolled`: a word that the pattern itself wants next is not eaten as an optional name.
    if (
      next?.kind === 'word' &&
      way.filled.text === next.word &&
      way.next === at + 1 &&
      !this.isWord(at + 1, next.word)
    )
      return;
    yield way;
  }

  fill(
    { type, range }: { readonly type: SlotType; readonly range: Range },
    at: number,
  ): { filled: Filled; next: number } | undefined {
    const item = this.items[at];
    if (!item) return undefined;
    if (isWordList(type)) {
      for (let count = Math.min(this.lists.longest(type), this.items.length - at); count > 0; count--) {
        const words = this.wordsAt(at, count);
        if (words !== undefined && this.lists.has(type, words)) return this.filledWith(type, at, count, words);
      }
      return undefined;
    }
    if (isMeasure(type)) {
      if (item.kind === 'word' && !STRUCTURE.has(item.key)) return this.filledWith(type, at, 1, item.key, range);
      if (item.kind !== 'measure') return undefined;
      return this.filledWith(type, at, 1, '', range);
    }
    switch (type) {
      case 'text':
        return item.kind === 'text' ? this.filledWith(type, at, 1, item.value) : undefined;
      case 'date':
        return item.kind === 'date' ? this.filledWith(type, at, 1, item.value) : undefined;
      case 'copy':
      case 'surface': {
        if (item.kind !== 'word') return undefined;
        const copy = item.key === 'left' || item.key === 'right' ? item.key : undefined;
        const nameAt = copy ? at + 1 : at;
        const name = this.items[nameAt];
        if (name?.kind !== 'word' || STRUCTURE.has(name.key)) return undefined;
        const faceItem = this.items[nameAt + 1];
        const face =
          type === 'surface' && faceItem?.kind === 'word' && OPERATION_ONLY.has(faceItem.key)
            ? (faceItem.key as 'inside' | 'outside')
            : undefined;
        const count = (copy ? 2 : 1) + (face ? 1 : 0);
        const way = this.filledWith(type, at, count, name.key);
        return { ...way, filled: { ...way.filled, ...(copy ? { copy } : {}), ...(face ? { face } : {}) } };
      }
      case 'step': {
        if (item.kind !== 'word') return undefined;
        const copied = this.fill({ type: 'copy', range }, at);
        if (!copied) return undefined;
        const { copy } = copied.filled;
        const ofCopy = (way: { readonly filled: Filled; readonly next: number }) =>
          copy ? { ...way, filled: { ...way.filled, copy } } : way;
        for (
          let count = Math.min(this.lists.longest('operation'), this.items.length - copied.next);
          count > 0;
          count--
        ) {
          const words = this.wordsAt(copied.next, count);
          if (words !== undefined && this.lists.has('operation', words)) {
            return ofCopy(this.filledWith(type, at, copied.next - at + count, `${copied.filled.text} ${words}`));
          }
        }
        // An opening may be a step of its own: `first visor raise, then visor left-eye`.
        const opening = this.items[copied.next];
        if (opening?.kind === 'word' && !STRUCTURE.has(opening.key)) {
          return ofCopy(this.filledWith(type, at, copied.next - at + 1, `${copied.filled.text} ${opening.key}`));
        }
        return { ...copied, filled: { ...copied.filled, type } };
      }
      case 'edge':
        return item.kind === 'word' && (!STRUCTURE.has(item.key) || item.key === 'left' || item.key === 'right')
          ? this.filledWith(type, at, 1, item.key)
          : undefined;
      default:
        return item.kind === 'word' && !STRUCTURE.has(item.key) ? this.filledWith(type, at, 1, item.key) : undefined;
    }
  }

  private isWord(at: number, word: string): boolean {
    const item = this.items[at];
    return item?.kind === 'word' && item.key === word;
  }

  private wordsAt(at: number, count: number): string | undefined {
    const words: string[] = [];
    for (let i = at; i < at + count; i++) {
      const item = this.items[i];
      if (item?.kind !== 'word') return undefined;
      words.push(item.key);
    }
    return words.join(' ');
  }

  private filledWith(
    type: SlotType,
    at: number,
    count: number,
    text: string,
    range = ABOVE_NOUGHT,
  ): { filled: Filled; next: number } {
    const items = this.items.slice(at, at + count);
    const filled: Filled = { type, range, items, text, from: items[0]!.from, to: items[items.length - 1]!.to };
    return { filled, next: at + count };
  }
}

/** The words with which a pattern can begin; empty where it begins with something to fill in. */
export function firstWords(of: Pattern): string[] {
  const element = of.elements[0];
  return element?.kind === 'word' ? [element.word] : [];
}

/** The leading words of a pattern: what a smith would call the line (`half dome`, `oval dome`). */
export function leadingWords(of: Pattern): string {
  const words: string[] = [];
  for (const element of of.elements) {
    if (element.kind !== 'word') break;
    words.push(element.word);
  }
  return words.join(' ');
}
