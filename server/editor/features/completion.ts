import { CompletionRequest, CompletionResolveRequest } from 'vscode-languageserver';
import {
  type CompletionItem,
  CompletionItemKind,
  type InsertReplaceEdit,
  InsertTextFormat,
  InsertTextMode,
  MarkupKind,
  type Position,
  type Range,
  type TextEdit,
} from 'vscode-languageserver-types';
import { URI, Utils } from 'vscode-uri';
import { MOST_LETTERS } from '../../../grammar/limits.ts';
import {
  dimensionsOf,
  isMeasure,
  isWordList,
  type LineWord,
  leadingWords,
  matchPattern,
  type PhraseWord,
  type SlotType,
} from '../../../grammar/pattern.ts';
import { readSection } from '../../../grammar/reader.ts';
import { type KnownNames, lineSnippet, sectionSnippet, snippetOf } from '../../../grammar/snippets.ts';
import {
  Close,
  Comma,
  Minus,
  Negative,
  NumberToken,
  OddNumber,
  Of,
  Open,
  Plus,
  PlusMinus,
  Slash,
  Star,
  Times,
  tokensOf,
} from '../../../grammar/tokens.ts';
import type { Item, Phrase, Section } from '../../../grammar/tree.ts';
import { type Dimension, units } from '../../../grammar/units.ts';
import { lists, sectionKinds, sections, singleWords, wordLists } from '../../../grammar/vocabulary/index.ts';
import { say, translated } from '../../../l10n/say.ts';
import { checks } from '../../checks/all.generated.ts';
import { LINES } from '../../model/forms/form.ts';
import { isLibrary, LIBRARY_SCHEME, library } from '../../model/names/library.ts';
import { SEVERAL_KINDS } from '../../model/names/resolution.ts';
import { hyphened, type Named } from '../../model/names/spec-file.ts';
import { BOX_SIDES, ownOutline } from '../../model/shapes/places.ts';
import { shown } from '../../model/values/figure.ts';
import type { ClientAbilities } from '../protocol/client-abilities.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import { FUNCTIONS } from '../text/arithmetic.ts';
import { exampleIn } from '../text/example-units.ts';
import { code, withoutMarkup } from '../text/markdown.ts';
import { isSuitable, namesKnown } from '../workspace/known-names.ts';
import { partsOf } from '../workspace/names.ts';
import { sameUri, type View } from '../workspace/workspace.ts';
import { fractionsAt } from './completion-fractions.ts';
import { namedText, notationOf } from './hover.ts';

export const feature: Feature = {
  capability: () => ({
    completionProvider: { triggerCharacters: ['.', '"', '/', ' ', ','], resolveProvider: true },
  }),
  requests: [
    aboutOne(CompletionRequest.type, {
      what: 'completion',
      empty: [],
      answer: (view, { position, context }, { client }) => {
        const { snippets, replaces } = client;
        const items = completionsAt(view, position, { snippets, replaces, trigger: context?.triggerCharacter });
        return items.map((item) => forClient(item, client));
      },
    }),
    aboutOne(CompletionResolveRequest.type, {
      what: 'completion',
      empty: (item) => item,
      uri: (item) => completionUri(item),
      answer: (view, item, { client }) => forClient(resolveCompletion(view, item), client),
    }),
  ],
};

const forClient = (item: CompletionItem, { markdownCompletion }: ClientAbilities): CompletionItem =>
  markdownCompletion || typeof item.documentation !== 'object'
    ? item
    : { ...item, documentation: withoutMarkup(item.documentation.value) };

export interface CompletionOptions {
  /** The editor takes snippets. */
  readonly snippets: boolean;
  /** The editor takes two ranges: what stands before the cursor, and the whole word. */
  readonly replaces?: boolean;
  /** The key that asked, where a key did: after a space only what is surely wanted is offered. */
  readonly trigger?: string | undefined;
}

/** What may be written at a position, likeliest first. Half-typed lines are the normal case. */
export function completionsAt(view: View, position: Position, options: CompletionOptions): CompletionItem[] {
  const offset = view.offsetAt(position);
  const section = view.sectionAt(offset);
  const text = view.text;
  const lineFrom = lineStart(text, offset);
  // No line that long is read: see `too-long`.
  if (offset - lineFrom > MOST_LETTERS) return [];
  const before = text.slice(lineFrom, offset);
  const list = new CompletionList(view, position, offset, options);
  const mark = outsideText(before);
  if (mark.comment !== undefined) return list.checkCodes(mark.comment);
  if (mark.text !== undefined) {
    if (/^\s*use\s+["“]/iu.test(before)) return list.paths(mark.text, SPEC);
    return DRAWN_IN.test(before) ? list.paths(mark.text, DRAWING) : [];
  }
  // A `##` note at the cursor is a comment even before its mark is whole.
  const fragment = /(?<![\p{L}\p{M}\p{N}.-])\p{L}[\p{L}\p{M}\p{N}.-]*$|(?<=\d)\p{L}+\d?$|%$/u.exec(before)?.[0] ?? '';
  const prefix = logicalLine(text, lineFrom) + before.slice(0, before.length - fragment.length);
  list.at(section, fragment);
  const tokens = tokensOf(prefix);
  const first = tokens[0]?.image.toLowerCase();
  if (first === undefined) {
    // A closing quote or a bracket stands before the cursor, or nothing at all.
    return options.trigger === ' ' || options.trigger === ',' ? [] : list.lineStarts(/^\s/.test(before));
  }
  if (first === 'let') {
    if (tokens[2]?.image !== '=') return [];
    return fragment.includes('.')
      ? list.dotted(fragment, 'measure')
      : [...fractionsAt(view, position), ...list.measure(tokens, 'measure')];
  }
  if (first === 'use' || (first === 'planish' && !section.header)) return [];
  if (sectionKinds.includes(first) || !section.kind) return [];
  const read = readSection(`${section.kind.kind} x\n${prefix}`);
  const line = read.lines[0];
  if (!line) return [];
  const depth = openBrackets(tokens);
  const last = tokens[tokens.length - 1];
  const inNewPhrase = last?.tokenType === Comma && depth === 0;
  const phrases = inNewPhrase ? [...line.phrases, EMPTY] : line.phrases;
  const fractions = fractionsAt(view, position);
  // Right behind the sign of a fraction nothing else is meant.
  return fractions.length ? fractions : list.inLine(phrases, tokens);
}

const EMPTY: Phrase = { items: [], from: 0, to: 0 };
const SPEC = /\.planish$/;
const DRAWING = /\.(?:svg|dxf)$/i;
/** Half a line, up to the path of a drawing and no further. */
const DRAWN_IN = /^\s*(?:outline|hide|pierce(?:\s+[^\s"“”]+)?)\s+["“][^"“”]*$/iu;

const lineStart = (text: string, offset: number): number => {
  let at = offset;
  while (at > 0 && text[at - 1] !== '\n' && text[at - 1] !== '\r') at--;
  return at;
};

const openBrackets = (tokens: readonly { tokenType: unknown }[]): number =>
  tokens.reduce(
    (depth, { tokenType }) => Math.max(0, depth + (tokenType === Open ? 1 : tokenType === Close ? -1 : 0)),
    0,
  );

/** Whether the end of a line lies in a comment or in a text, and what stands there so far. */
function outsideText(line: string): { readonly comment?: string; readonly text?: string } {
  let from = -1;
  for (let at = 0; at < line.length; at++) {
    const mark = line[at]!;
    if (from >= 0) {
      if (mark === '\\') at++;
      else if (mark === '"' || mark === '”' || mark === '“') from = -1;
    } else if ((mark === '"' && !/[\d½¼¾⅓⅔⅛⅜⅝⅞]/u.test(line[at - 1] ?? '')) || mark === '“') {
      from = at;
    } else if (mark === '#') {
      return { comment: line.slice(at) };
    }
  }
  return from >= 0 ? { text: line.slice(from + 1) } : {};
}

/** What a line goes on with: the lines above it as long as they end in a comma. */
function logicalLine(text: string, lineFrom: number): string {
  let joined = '';
  let at = lineFrom;
  for (let rows = 0; rows < 50 && at > 0; rows++) {
    let end = at - 1;
    if (text[end] === '\n' && text[end - 1] === '\r') end--;
    const from = lineStart(text, end);
    const row = text.slice(from, end);
    if (joined.length + row.length > MOST_LETTERS) break;
    const hash = outsideText(row).comment;
    const content = hash === undefined ? row : row.slice(0, row.length - hash.length);
    if (!content.trimEnd().endsWith(',')) break;
    joined = `${content.trim()} ${joined}`;
    at = from;
  }
  return joined;
}

const OPERATORS: ReadonlySet<unknown> = new Set([Plus, Minus, Star, Slash, Times, Open, Negative, PlusMinus, Of]);

/** What each kind of name is, as an icon. */
const ICON: Partial<Record<Named['kind'], CompletionItemKind>> = {
  let: CompletionItemKind.Constant,
  material: CompletionItemKind.Struct,
  rivet: CompletionItemKind.Struct,
  part: CompletionItemKind.Struct,
  piece: CompletionItemKind.Class,
  wearer: CompletionItemKind.Class,
};

/** What there are figures of, and what is reckoned with: hardly ever grits, heats or hours. */
const FIGURED = new Set<Dimension>(['length', 'area', 'angle', 'mass']);

/** What a comma may end as chosen: it can stand behind these and behind nothing else in the list. */
const COMMITTED = new Set<CompletionItemKind>([
  CompletionItemKind.Unit,
  CompletionItemKind.Struct,
  CompletionItemKind.Class,
  CompletionItemKind.EnumMember,
]);

/** Lines that take an edge of the piece itself. */
const WORKS_EDGE = new Set(['flare', 'hold', 'bend', 'cut']);

/** Of the lines of a form those that are none to follow. */
const POINTS = new Set(['crown', 'centre']);

/** What is still to be chosen is offered at once. An editor without this command goes on as it is used to. */
const GO_ON = { title: 'Go on', command: 'editor.action.triggerSuggest' };

interface ItemData {
  readonly uri: string;
  readonly name: string;
}

/** The item with what its name is, worked out for the one that is looked at. */
export function resolveCompletion(view: View, item: CompletionItem): CompletionItem {
  const { name } = item.data as ItemData;
  const named = view.file.find(name);
  if (!named) return item;
  return { ...item, documentation: { kind: MarkupKind.Markdown, value: namedText(view, named).join('\n\n') } };
}

const completionUri = (item: CompletionItem): string => {
  const uri = (item.data as Partial<ItemData> | undefined)?.uri;
  return typeof uri === 'string' ? uri : '';
};

class CompletionList {
  private readonly items = new Map<string, CompletionItem>();
  private range: Range;
  /** To the end of the word that the cursor stands in. */
  private readonly wordEnd: Position;
  private section!: Section;
  private fragment = '';
  /** What the phrase at the cursor may become. */
  private word: PhraseWord | undefined;
  /** The line that it belongs to. */
  private lineWord: LineWord | undefined;
  /** The words that stand in this line already: a piece is seldom joined to itself. */
  private said: ReadonlySet<string> = new Set();

  constructor(
    private readonly view: View,
    private readonly position: Position,
    private readonly offset: number,
    private readonly options: CompletionOptions,
  ) {
    this.range = { start: position, end: position };
    const rest = /^[\p{L}\p{M}\p{N}-]*/u.exec(view.text.slice(offset, offset + 200))![0];
    this.wordEnd = view.positionAt(offset + rest.length);
  }

  private edit(newText: string): TextEdit | InsertReplaceEdit {
    if (!this.options.replaces) return { range: this.range, newText };
    return { newText, insert: this.range, replace: { start: this.range.start, end: this.wordEnd } };
  }

  at(section: Section, fragment: string): void {
    this.section = section;
    this.fragment = fragment;
    this.replaceFrom(this.offset - fragment.length);
  }

  private replaceFrom(offset: number): void {
    this.range = { start: this.view.positionAt(offset), end: this.position };
  }

  /** `rank` puts the likeliest first; within one rank things stay in the order they are added. */
  private add(
    label: string,
    rank: number,
    kind: CompletionItemKind,
    more: Partial<CompletionItem> & { insert?: string } = {},
  ): void {
    if (this.items.has(label)) return;
    const { insert = label, ...given } = more;
    const rest = inLanguage(given);
    const order = String(this.items.size).padStart(4, '0');
    const snippet = rest.insertTextFormat === InsertTextFormat.Snippet;
    this.items.set(label, {
      label,
      kind,
      ...(COMMITTED.has(kind) && !snippet ? { commitCharacters: [','] } : {}),
      sortText: `${rank}${order}`,
      textEdit: this.edit(snippet && !this.options.snippets ? label : insert),
      ...rest,
      ...(snippet && !this.options.snippets ? { insertTextFormat: InsertTextFormat.PlainText } : {}),
    });
  }

  private result(): CompletionItem[] {
    return [...this.items.values()];
  }

  // ---- comments and texts ------------------------------------------------------------------------------------------

  checkCodes(comment: string): CompletionItem[] {
    const typed = /^#\s+(?:allow\s+)?([a-z0-9-]*)$/i.exec(comment)?.[1];
    if (typed === undefined) return [];
    this.replaceFrom(this.offset - typed.length);
    // A comment that has just begun: what could be excused here.
    const allow = /allow\s/i.test(comment) ? '' : 'allow ';
    const section = this.view.sectionAt(this.offset);
    const row = this.position.line;
    const here = new Set(
      this.view
        .problems()
        .filter(({ place }) => place.section === section && this.view.rangeOf(place).start.line === row)
        .map((problem) => problem.code),
    );
    for (const check of [...checks].sort((a, b) => Number(here.has(b.code)) - Number(here.has(a.code)))) {
      if (check.caution || check.code.startsWith('excuse-') || (allow && !here.has(check.code))) continue;
      this.add(
        `${allow}${check.code}`,
        here.has(check.code) ? 0 : check.family === 'Language' ? 6 : 5,
        CompletionItemKind.EnumMember,
        {
          detail: check.title,
          insert: `${allow}${check.code}: ${this.options.snippets ? `\${1:why}` : ''}`,
          ...(this.options.snippets ? { insertTextFormat: InsertTextFormat.Snippet } : {}),
        },
      );
    }
    return this.result();
  }

  /** Folders, and the files that are wanted; beside specs what comes with Planish. */
  paths(typed: string, wanted: RegExp): CompletionItem[] {
    this.replaceFrom(this.offset - typed.length);
    if (wanted === SPEC && !typed.includes('/'))
      for (const { name, doc } of library)
        this.add(`${LIBRARY_SCHEME}${name}`, 2, CompletionItemKind.Module, { documentation: doc });
    const slash = typed.lastIndexOf('/');
    this.replaceFrom(this.offset - (typed.length - slash - 1));
    let folder: URI;
    try {
      folder = Utils.joinPath(URI.parse(this.view.uri), '..', typed.slice(0, slash + 1) || '.');
    } catch {
      return [];
    }
    const own = sameUri(this.view.uri);
    for (const { name, isFolder } of this.view.workspace.list(folder.toString())) {
      if (name.startsWith('.') || (isFolder && name === 'node_modules')) continue;
      if (isFolder) {
        this.add(`${name}/`, 2, CompletionItemKind.Folder, {
          command: GO_ON,
        });
      } else if (wanted.test(name) && sameUri(Utils.joinPath(folder, name).toString()) !== own) {
        this.add(name, 1, CompletionItemKind.File);
      }
    }
    if (/^(\.\.\/)*$/.test(typed))
      this.add('../', 3, CompletionItemKind.Folder, {
        command: GO_ON,
      });
    return this.result();
  }

  // ---- the start of a line -----------------------------------------------------------------------------------------

  lineStarts(indented: boolean): CompletionItem[] {
    const kind = this.section.kind;
    // Who leaves a line empty behind what is written has done with it.
    const isDone =
      this.section.lines.length > 0 &&
      /(?:^|\n)[ \t]*\r?\n[ \t]*$/.test(this.view.text.slice(0, this.offset - this.fragment.length));
    const [lineRank, sectionRank] = (indented && !isDone) || !kind ? [1, 3] : [2, 1];
    const indent = { start: { line: this.position.line, character: 0 }, end: this.range.start };
    if (kind) {
      const here = this.lineAtCursor();
      const said = new Set<LineWord>();
      const groups = new Set<string>();
      for (const line of this.section.lines) {
        if (line === here || !line.word) continue;
        said.add(line.word);
        groups.add(line.word.group);
      }
      for (const word of kind.lines) {
        if (said.has(word) && !word.repeats) continue;
        if ((word.group === 'form' || word.group === 'stock') && groups.has(word.group)) continue;
        if (word.group === 'joining' && groups.has('joining') && !word.repeats) continue;
        this.addLine(word, lineRank + (this.isNeeded(word, groups, said) ? 0 : 1));
      }
    }
    for (const section of sections) {
      this.add(section.kind, sectionRank + 1, CompletionItemKind.Module, {
        detail: 'section',
        documentation: section.doc,
        insert: this.options.snippets ? sectionSnippet(section, this.names(), this.inUnits) : `${section.kind} `,
        insertTextFormat: this.options.snippets ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
        // A header stands at the start of its line, and so its body is indented by itself.
        insertTextMode: InsertTextMode.asIs,
        ...(indent.end.character > indent.start.character
          ? { additionalTextEdits: [{ range: indent, newText: '' }] }
          : {}),
      });
    }
    for (const [word, { notation, doc, example }] of Object.entries(singleWords)) {
      if (word === 'planish' && (this.view.text.trimStart() !== '' || this.section.header)) {
        if (this.view.spec.sections.some((section) => section.singles.some((single) => single.kind === 'version')))
          continue;
        if (this.view.sectionAt(0) !== this.section) continue;
      }
      const insert = word === 'use' ? 'use "$1"' : word === 'let' ? `let \${1:name} = \${2:36 mm}` : 'planish 1';
      this.add(word === 'planish' ? 'planish 1' : word, 7, CompletionItemKind.Keyword, {
        detail: notation.replace(/<([^:>]+):[^>]+>/g, '‹$1›'),
        documentation: `${translated(doc)}\n${example}`,
        insert,
        insertTextFormat: InsertTextFormat.Snippet,
        ...(word === 'use' ? { command: GO_ON } : {}),
      });
    }
    return this.result();
  }

  private lineAtCursor() {
    const at = this.offset - this.section.start;
    return this.section.lines.find((line) => line.from <= at && at <= line.to);
  }

  private isNeeded(word: LineWord, groups: ReadonlySet<string>, said: ReadonlySet<LineWord>): boolean {
    const needs = this.section.kind?.needs ?? [];
    return needs.some(
      ({ any }) =>
        (any.includes(word.id) || any.includes(`@${word.group}`)) &&
        !any.some((id) => (id.startsWith('@') ? groups.has(id.slice(1)) : [...said].some((line) => line.id === id))),
    );
  }

  private addLine(word: LineWord, rank: number): void {
    const label = leadingWords(word.pattern);
    if (!label) {
      // A line that begins with a closed list: its words are what is written first.
      const first = word.pattern.elements[0];
      if (first?.kind === 'slot') this.addSlot(first.type, rank, '');
      return;
    }
    const snippet = lineSnippet(word, this.names(), this.inUnits);
    const name = this.items.has(label) ? notationOf(word) : label;
    this.add(name, rank, CompletionItemKind.Property, {
      detail: notationOf(word),
      documentation: documentationOf(word),
      insert: snippet,
      filterText: label,
      insertTextFormat: InsertTextFormat.Snippet,
    });
  }

  // ---- within a line -----------------------------------------------------------------------------------------------

  inLine(phrases: readonly Phrase[], tokens: ReturnType<typeof tokensOf>): CompletionItem[] {
    const kind = this.section.kind!;
    this.said = new Set(tokens.map((token) => token.image.toLowerCase()));
    const head = phrases[0];
    const current = phrases[phrases.length - 1];
    if (!head || !current) return [];
    const last = tokens[tokens.length - 1];
    if (phrases.length === 1) {
      this.continue(kind.lines, current, tokens, undefined);
    } else {
      const word = bestOf(kind.lines, head.items);
      if (!word) return [];
      const said = new Set<PhraseWord>();
      for (const phrase of phrases.slice(1, -1)) {
        const qualifier = bestOf(word.qualifiers, phrase.items);
        if (qualifier && !qualifier.repeats) said.add(qualifier);
      }
      this.lineWord = word;
      const open = matchPattern(word.pattern, head.items, lists).openList;
      this.continue(
        word.qualifiers.filter((qualifier) => !said.has(qualifier)),
        current,
        tokens,
        open?.type,
      );
    }
    if (last && OPERATORS.has(last.tokenType) && !this.fragment.includes('.') && !this.items.size)
      this.addMeasures(undefined, 2);
    return this.result();
  }

  /** What can come next where a phrase stands so far as `phrase`. */
  private continue(
    words: readonly PhraseWord[],
    phrase: Phrase,
    tokens: ReturnType<typeof tokensOf>,
    openList: SlotType | undefined,
  ): void {
    const { items } = phrase;
    const last = tokens[tokens.length - 1];
    if (!items.length && !OPERATORS.has(last?.tokenType)) {
      for (const word of words) this.addQualifier(word);
      if (openList) this.addSlot(openList, 1, '');
      return;
    }
    const bare = last && (last.tokenType === NumberToken || last.tokenType === OddNumber);
    for (const word of words) {
      this.word = word;
      if ('group' in word) this.lineWord = word as LineWord;
      const match = matchPattern(word.pattern, items, lists);
      if (bare) {
        this.unitsFor(match.slots, items);
        continue;
      }
      if (last && OPERATORS.has(last.tokenType)) {
        this.operands(match, items, last.tokenType === Times || last.tokenType === Of);
        continue;
      }
      const rest = items.slice(match.reached);
      if (rest.some((item) => item.kind !== 'word')) continue;
      const begun = rest.map((item) => (item.kind === 'word' ? item.key : '')).join(' ');
      if (!begun) {
        if (match.reached === 0) continue;
        for (const expected of match.expected.words)
          this.add(expected, 1, CompletionItemKind.Keyword, { documentation: documentationOf(word) });
        for (const slot of match.expected.slots) this.addSlot(slot.type, 1, '', slot.name);
      } else {
        for (const slot of match.expected.slots)
          if (isWordList(slot.type) || slot.type === 'step' || slot.type === 'copy' || slot.type === 'surface')
            this.addSlot(slot.type, 1, begun, slot.name);
      }
      this.afterName(match.slots, items);
    }
    // Within what may be left out the slot is not known before its end is written: most measures there are lengths.
    const isBegun = (word: PhraseWord) => {
      const { used, reached } = matchPattern(word.pattern, items, lists);
      return used < reached && reached === items.length;
    };
    if (bare && !this.items.size && words.some(isBegun)) this.addUnits(['length'], 2);
    if (openList && !bare) {
      const begun = items.map((item) => (item.kind === 'word' ? item.key : '')).join(' ');
      if (/^(left|right)$/.test(begun)) this.addSlot(openList, 1, begun);
      if (openList === 'surface' && items.length && !/^(left|right)$/.test(begun)) this.faces();
    }
  }

  /** What snippets are filled with: each kind of name is looked up once. */
  private names(): KnownNames {
    const known = namesKnown(this.view, this.section);
    const found = new Map<string, readonly string[]>();
    this.names_ ??= (type, slot) => {
      const key = `${type} ${slot}`;
      const have = found.get(key) ?? known(type, slot);
      found.set(key, have);
      return have;
    };
    return this.names_;
  }
  private names_: KnownNames | undefined;

  private readonly inUnits = (example: string) => exampleIn(this.view.model.writtenUnits(), example);

  private addQualifier(word: PhraseWord): void {
    const label = leadingWords(word.pattern);
    if (label) {
      this.add(label, 1, CompletionItemKind.Property, {
        detail: notationOf(word),
        documentation: documentationOf(word),
        insert: snippetOf(word, this.names(), this.inUnits),
        insertTextFormat: InsertTextFormat.Snippet,
      });
      return;
    }
    const first = word.pattern.elements[0];
    if (first?.kind === 'slot') this.addSlot(first.type, 2, '');
  }

  /** `skull` may be followed by a face or by an operation. */
  private afterName(
    slots: ReadonlyMap<string, readonly { type: SlotType; items: readonly Item[] }[]>,
    items: readonly Item[],
  ): void {
    for (const all of slots.values()) {
      const filled = all[all.length - 1];
      if (!filled || filled.items[filled.items.length - 1] !== items[items.length - 1]) continue;
      const last = filled.items[filled.items.length - 1];
      const isName = last?.kind === 'word' && this.view.file.find(last.key) !== undefined;
      if (filled.type === 'surface' && isName) this.faces();
      if (filled.type === 'step' && isName)
        for (const { word, doc } of wordLists.operation)
          this.add(word, 1, CompletionItemKind.EnumMember, { documentation: doc });
    }
  }

  private faces(): void {
    this.add('outside', 1, CompletionItemKind.Keyword, { documentation: 'Its outside only.' });
    this.add('inside', 1, CompletionItemKind.Keyword, { documentation: 'Its inside only.' });
  }

  /** The units that fit the number that was just written. */
  private unitsFor(
    slots: ReadonlyMap<string, readonly { type: SlotType; items: readonly Item[] }[]>,
    items: readonly Item[],
  ): void {
    const last = items[items.length - 1];
    for (const all of slots.values()) {
      for (const { type, items: filled } of all) {
        if (!last || !filled.includes(last) || !isMeasure(type)) continue;
        if (last.kind === 'measure' && last.count === undefined && type === 'count of') {
          this.add('of', 1, CompletionItemKind.Keyword, { documentation: 'How many of which size: 4 of 1/8 in.' });
          continue;
        }
        this.addUnits(unitsWanted(type), 1, likeliestUnit(type, last));
      }
    }
  }

  /** A unit that is likelier goes first; so does the inch in a build in inches. */
  addUnits(wanted: readonly Dimension[], rank = 1, likeliest?: string): void {
    const glued = /\d$/.test(this.view.text.slice(0, this.offset - this.fragment.length));
    for (const dimension of wanted) {
      for (const unit of units) {
        if (unit.dimension === dimension)
          this.add(
            unit.id,
            unit.id === (likeliest ?? this.view.model.writtenUnits().split(' ')[0]) ? 0 : rank,
            CompletionItemKind.Unit,
            {
              documentation: unit.doc,
              ...(glued ? { insert: ` ${unit.id}`, filterText: unit.id } : {}),
            },
          );
      }
    }
  }

  /** After a sign, an `x` or a bracket a measure is wanted. */
  private operands(match: ReturnType<typeof matchPattern>, items: readonly Item[], sizesOnly: boolean): void {
    if (match.reached < items.length) return;
    const types = [...match.slots.values()].flat().filter((filled) => isMeasure(filled.type));
    const wanted = types[types.length - 1]?.type ?? match.expected.slots.find((slot) => isMeasure(slot.type))?.type;
    if (wanted) this.addMeasures(sizesOnly ? unitsWanted(wanted)[0] : undefined, 1);
  }

  // ---- measures ----------------------------------------------------------------------------------------------------

  /** In a `let`, or anywhere that arithmetic goes on. */
  measure(tokens: ReturnType<typeof tokensOf>, _type: SlotType): CompletionItem[] {
    const last = tokens[tokens.length - 1];
    if (!last) return [];
    if (last.tokenType === NumberToken || last.tokenType === OddNumber)
      this.addUnits(['length', 'area', 'angle', 'mass', 'temperature', 'time', 'density', 'stress', 'percent']);
    else if (last.image === '=' || last.tokenType === Comma || OPERATORS.has(last.tokenType))
      this.addMeasures(undefined, 1);
    return this.result();
  }

  /** Names of measures of the wanted dimension, plain numbers to reckon with it, and what reaches further by a dot. */
  private addMeasures(dimension: Dimension | undefined, rank: number): void {
    const own = this.letAtCursor();
    const isForm = this.lineWord?.group === 'form';
    const isFigure = dimension === undefined || FIGURED.has(dimension);
    for (const named of this.view.file.visible()) {
      // A form that is made of its own figures would turn in a circle.
      if (named === own || (isForm && named.section === this.section && !named.let)) continue;
      if (named.let) {
        const part = named.let.value?.parts[0];
        const quantity = part && named.file.quantity(part, named.section);
        const fits = dimension === undefined || quantity?.dimension === dimension;
        if (!fits && quantity && quantity.dimension !== 'number') continue;
        const value = named.let.value;
        this.add(named.word.text, fits ? rank : rank + 2, CompletionItemKind.Constant, {
          detail: value ? named.section.text.slice(value.from, value.to) : 'let',
        });
      } else if (!isFigure) {
      } else if (named.kind === 'wearer') {
        for (const line of named.section.lines) {
          const words = line.head?.slots.get('measure')?.[0]?.text;
          const figure = words === undefined ? undefined : this.view.model.figureOf(named, hyphened(words));
          if (figure)
            this.add(
              `${named.word.text}.${hyphened(words!)}`,
              dimension === undefined || dimension === 'length' ? rank + 1 : rank + 3,
              CompletionItemKind.Field,
              { detail: shown(figure, this.view.system) },
            );
        }
      } else if (named.kind === 'piece' || named.kind === 'material' || named.kind === 'seam') {
        this.addName(named, rank + 3, '.');
      }
    }
    if (!isFigure) return;
    for (const { name, notation, doc } of FUNCTIONS)
      this.add(name, rank + 4, CompletionItemKind.Function, {
        detail: notation,
        documentation: doc,
        insert: `${name}($1)`,
        insertTextFormat: InsertTextFormat.Snippet,
      });
    this.add('pi', rank + 4, CompletionItemKind.Constant, { detail: '3.14159…' });
  }

  private letAtCursor(): Named | undefined {
    const at = this.offset - this.section.start;
    const single = this.section.singles.find((each) => each.kind === 'let' && each.from <= at && at <= each.to + 1);
    return single?.kind === 'let' && single.name
      ? this.view.file.bearersOf(single.name.key).find((named) => named.let === single)
      : undefined;
  }

  /** What may stand behind the last dot. */
  dotted(fragment: string, type: SlotType): CompletionItem[] {
    const dot = fragment.lastIndexOf('.');
    const base = fragment.slice(0, dot).toLowerCase();
    this.replaceFrom(this.offset - (fragment.length - dot - 1));
    const [first, ...rest] = base.split('.');
    const named = first === undefined ? undefined : this.view.file.find(first);
    if (!named) return [];
    if (type === 'edge') {
      if (named.kind === 'piece' && !rest.length) this.addEdges(named, 1);
      return this.result();
    }
    const prefix = rest.length ? `${rest.join('.')}.` : '';
    for (const figure of this.view.model.figuresOf(named)?.all() ?? []) {
      const suffix = figure.name.slice(named.word.text.length + 1);
      if (!suffix.toLowerCase().startsWith(prefix)) continue;
      this.add(suffix.slice(prefix.length), 1, CompletionItemKind.Field, {
        detail: shown(figure, this.view.system),
        documentation: figure.title,
      });
    }
    return this.result();
  }

  // ---- what fills a slot -------------------------------------------------------------------------------------------

  /** `begun` holds the words of a longer entry that stand there already. */
  private addSlot(type: SlotType, rank: number, begun: string, slot = ''): void {
    if (isWordList(type)) {
      for (const { word, doc } of wordLists[type]) {
        if (begun && !word.toLowerCase().startsWith(`${begun} `)) continue;
        const rest = begun ? word.slice(begun.length + 1) : word;
        this.add(rest, rank, CompletionItemKind.EnumMember, { documentation: doc, ...(begun ? { detail: word } : {}) });
      }
      return;
    }
    if (this.fragment.includes('.')) {
      this.dotted(this.fragment, type);
      return;
    }
    if (isMeasure(type)) {
      const dimensions = unitsWanted(type);
      if (type !== 'count' && type !== 'thickness' && type !== 'leather thickness')
        this.addMeasures(dimensions[0], rank + 1);
      return;
    }
    switch (type) {
      case 'text':
      case 'date':
      case 'new name':
        return;
      case 'edge': {
        const own =
          this.section.kind?.kind === 'piece' && this.section.name
            ? this.view.file.find(this.section.name.key)
            : undefined;
        if (own?.kind === 'piece') this.addEdges(own, rank);
        // Only a piece's own edge is worked.
        if (own && this.worksEdge()) return;
        if (own?.kind === 'piece' && this.isInPlace() && ownOutline(this.view.model.pieceOf(own)))
          for (const side of BOX_SIDES)
            this.add(side, rank, CompletionItemKind.EnumMember, { detail: 'of the box round its outline' });
        for (const named of this.view.file.visible())
          if (named.kind === 'piece' && named !== own) this.addName(named, own ? rank + 2 : rank, '.');
        return;
      }
      default: {
        const wanted = SEVERAL_KINDS[type] ?? [type as Named['kind']];
        const isCopied = begun === 'left' || begun === 'right';
        if (begun && !isCopied) return;
        const said = this.said;
        for (const named of this.view.file.visible()) {
          if (!wanted.includes(named.kind) || named.section === this.section) continue;
          if (isCopied && named.kind !== 'piece') continue;
          const isLess =
            said.has(named.word.key) || (type === 'material' && !isSuitable(this.view, named, slot, this.word));
          this.addName(named, rank + (isLess ? 1 : 0) + (isLibrary(named.file.uri) ? 1 : 0));
          if (!isCopied && named.kind === 'piece' && SEVERAL_KINDS[type] && this.view.model.pieceOf(named).mirrored()) {
            for (const side of ['left', 'right'])
              this.add(`${side} ${named.word.text}`, rank + 1, CompletionItemKind.Class, {
                detail: say`the ${side} copy`,
              });
          }
        }
      }
    }
  }

  /** Whether an `at` is being written, that says where a thing sits. */
  private isInPlace(): boolean {
    const { text } = this.view;
    return /(^|,|\s)at\s[^,]*$/i.test(text.slice(lineStart(text, this.offset), this.offset));
  }

  private worksEdge(): boolean {
    const word = this.word as Partial<LineWord> | undefined;
    return word?.group === 'edge' || WORKS_EDGE.has(word?.id ?? '');
  }

  private addEdges(named: Named, rank: number): void {
    const piece = this.view.model.pieceOf(named);
    for (const edge of piece.edgeNames()) {
      const length = piece.figure(`${edge}.length`);
      this.add(edge, rank, CompletionItemKind.EnumMember, {
        detail: length ? shown(length, this.view.system) : 'edge',
      });
    }
    for (const word of partsOf(named.section).values())
      this.add(word.text, rank + 1, CompletionItemKind.Field, { detail: say`of ${named.word.text}` });
    if (this.worksEdge()) return;
    const isPlace = this.isInPlace();
    for (const line of LINES)
      if (isPlace || !POINTS.has(line))
        this.add(line, rank + 2, CompletionItemKind.EnumMember, {
          detail: POINTS.has(line) ? 'point on the form' : 'line on the form',
        });
  }

  private addName(named: Named, rank: number, after = ''): void {
    const from = named.file === this.view.file ? '' : ` · ${Utils.basename(URI.parse(named.file.uri))}`;
    this.add(named.word.text, rank, ICON[named.kind] ?? CompletionItemKind.Variable, {
      detail: `${named.kind}${this.describe(named)}${from}`,
      data: { uri: this.view.uri, name: named.word.key },
      ...(after
        ? {
            insert: `${named.word.text}${after}`,
            command: { title: 'Go on', command: 'editor.action.triggerSuggest' },
          }
        : {}),
    });
  }

  private describe(named: Named): string {
    const title =
      named.kind === 'material'
        ? this.view.model.materialOf(named).title()
        : named.kind === 'rivet'
          ? this.view.model.rivetOf(named).title()
          : '';
    return title ? `: ${title}` : '';
  }
}

/** What is said of an item, where it is a text of ours. */
function inLanguage<T extends Partial<CompletionItem>>(item: T): T {
  const { detail, documentation } = item;
  return {
    ...item,
    ...(detail === undefined ? {} : { detail: translated(detail) }),
    ...(typeof documentation === 'string' ? { documentation: translated(documentation) } : {}),
  };
}

function documentationOf(word: PhraseWord) {
  const example = 'example' in word ? `\n\n${code(String((word as LineWord).example))}` : '';
  const later = word.computed ? '' : `\n\n*${translated('Read and kept; not computed yet.')}*`;
  return { kind: MarkupKind.Markdown, value: `${translated(word.doc)}${example}${later}` };
}

/** A whole number of a thickness is a gauge, or ounces of leather. */
function likeliestUnit(type: SlotType, item: Item | undefined): string | undefined {
  const number = item?.kind === 'measure' ? item.parts[item.parts.length - 1] : undefined;
  if (number?.kind !== 'number' || !/^\d+$/.test(number.written)) return undefined;
  const count = Number(number.written);
  if (type === 'thickness' && count >= 8) return 'ga';
  return type === 'leather thickness' && count > 1 ? 'oz' : undefined;
}

/** The dimensions a slot takes; a measure of any kind is most often one of these. */
function unitsWanted(type: SlotType): readonly Dimension[] {
  return type === 'measure' ? ['length', 'area', 'angle', 'mass'] : dimensionsOf(type);
}

/** The word whose pattern takes the most of a phrase. */
function bestOf<W extends PhraseWord>(words: readonly W[], items: readonly Item[]): W | undefined {
  let best: W | undefined;
  let most = 0;
  let whole = false;
  for (const word of words) {
    const match = matchPattern(word.pattern, items, lists);
    if (match.used > most || (match.used === most && match.used > 0 && match.complete && !whole)) {
      best = word;
      most = match.used;
      whole = match.complete;
    }
  }
  return best;
}
