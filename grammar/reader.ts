import type { IToken, TokenType } from 'chevrotain';
import { say, translated } from '../l10n/say.ts';
import { type BoundLine, bindLine, nameOf, type Report, withArticle } from './bind.ts';
import { LONGEST_NAME, MOST_LETTERS, MOST_ROWS, MOST_SECTIONS, MOST_SIGNS } from './limits.ts';
import { nearest } from './nearest.ts';
import { unmetInWords, unmetNeeds } from './needs.ts';
import { DEEPEST, OPEN_TEXT, readPhrase } from './parser.ts';
import { leadingWords, type SectionWord } from './pattern.ts';
import { inOtherWords } from './slips.ts';
import {
  Close,
  Comma,
  Comment as CommentToken,
  DateToken,
  endOf,
  InchMark,
  Minus,
  Negative,
  Newline,
  Note,
  NumberToken,
  numberAsWritten,
  OddComment,
  OddNumber,
  Of,
  Open,
  OpenText,
  Plus,
  TextToken,
  Times,
  tokensOf,
  UnitToken,
  Unknown,
  WordToken,
} from './tokens.ts';
import type {
  Comment,
  Excuse,
  Fix,
  Item,
  Line,
  Measure,
  Phrase,
  Problem,
  Section,
  SingleLine,
  Span,
  Spec,
  Text,
  Word,
} from './tree.ts';
import { unitOf, units } from './units.ts';
import { isLineWord, linesOf, qualifiersOf, reservedNames, sectionKinds, sectionWord } from './vocabulary/index.ts';

/*
 * From text to tree. Whether a line is a header is decided from that line alone and sections never nest, so the text is
 * first cut into sections, and each is read by itself: an edit re-reads one section.
 *
 * Reading never fails and never throws: whatever is written becomes a tree and a list of problems.
 *
 * Trees live as long as their text is open. So lists go into them as copies (`slice`): one that was filled one by one keeps
 * room for sixteen more.
 */

/** The language version that this reader knows. */
export const LANGUAGE_VERSION = '1';

/** What an edit left as it was: so much of the text before it, and so much after it. */
export interface Kept {
  readonly before: number;
  readonly after: number;
}

/**
 * Reads a spec. Sections whose text stands unchanged in `previous` are taken over from it, whatever their place; only
 * the stretch of text round the change is looked at again. `kept` says where the change lies, if that is known; then
 * `previous` must be the newest tree.
 */
export function readSpec(text: string, previous?: Spec, kept?: Kept): Spec {
  const old = previous?.sections ?? [];
  let edge = widened(kept ? edgesOf(kept, previous?.text.length ?? 0, old) : compared(text, old), old);
  let stretch = text.slice(edge.from, text.length - edge.behind);
  let starts = sectionStarts(stretch, MOST_SECTIONS - edge.before);
  const count = edge.before + starts.length + old.length - edge.after;
  if (edge.behind && (old.length > MOST_SECTIONS ? count !== old.length : count > MOST_SECTIONS)) {
    // Which sections are the last that are read hangs on how many there are: all that follows is looked at again.
    edge = { ...edge, after: old.length, behind: 0 };
    stretch = text.slice(edge.from);
    starts = sectionStarts(stretch, MOST_SECTIONS - edge.before);
  }
  const { before, after } = edge;
  const known = new Map<string, Section[]>();
  // Last first, so that those with the same text are taken in their order from the end of their list.
  for (const section of old.slice(before, Math.min(after, MOST_SECTIONS)).reverse()) {
    const have = known.get(section.text);
    if (have) have.push(section);
    else known.set(section.text, [section]);
  }
  const between = starts.map((start, i) => {
    const part = stretch.slice(start, starts[i + 1] ?? stretch.length);
    if (before + i < MOST_SECTIONS) return known.get(part)?.pop() ?? readSection(apart(part));
    const rest = old[MOST_SECTIONS];
    return rest?.text === part ? rest : leftUnread(part);
  });
  const sections = [...old.slice(0, before), ...between, ...old.slice(after)];
  // Those before the change stand where they stood, and those after it too where it took as much as it gave.
  let at = kept ? edge.from : 0;
  for (let i = kept ? before : 0; i < sections.length; i++) {
    const section = sections[i]!;
    if (kept && i >= before + between.length && section.start === at) break;
    section.start = at;
    at += section.text.length;
  }
  return { text, sections };
}

/**
 * A long text that is read for the first time, section by section, so that others may go first between two of them. What is
 * read of it is good for any text that has the same sections: one that changes meanwhile is not begun again.
 */
export class Reading {
  private readonly read: Section[] = [];

  /** Reads what has not been read yet; stops after each section, and says what share of the text is done. */
  *through(text: string): Generator<number, void, undefined> {
    const have = new Map<string, number>();
    for (const section of this.read) have.set(section.text, (have.get(section.text) ?? 0) + 1);
    let from = 0;
    let count = 0;
    for (const to of startsIn(text)) {
      // Nothing but rows has gone by.
      if (to === undefined) yield from / text.length;
      if (!to) continue;
      yield* this.readPart(text.slice(from, to), have, from / text.length);
      if (++count === MOST_SECTIONS) return;
      from = to;
    }
    yield* this.readPart(text.slice(from), have, from / text.length);
  }

  /** Nothing is done where it has been read already. */
  private *readPart(part: string, have: Map<string, number>, done: number): Generator<number, void, undefined> {
    const left = have.get(part) ?? 0;
    if (left) {
      have.set(part, left - 1);
      return;
    }
    const text = apart(part);
    const section = new SectionReader(text, readableTo(text)).inSteps();
    for (;;) {
      const step = section.next();
      if (step.done) {
        this.read.push(step.value);
        break;
      }
      yield done;
    }
    yield done;
  }

  /** The whole, with whatever is still to be read. */
  end(text: string): Spec {
    return readSpec(text, { text: '', sections: this.read });
  }
}

/**
 * A text of its own. What is cut from another holds on to the whole of it, and sections outlive the text that they were
 * read from by many edits. Written out and read again, it is new; lone halves of letters come through too.
 */
const apart = (text: string): string =>
  // What is longer than is read would take longer to copy than it is worth.
  text.length > MOST_LETTERS ? text : (JSON.parse(JSON.stringify(text)) as string);

/**
 * Which sections of the previous tree surely stand as they stood: those before `before`, `from` letters of the text, and
 * those from `after` on, `behind` letters.
 */
interface Edges {
  readonly before: number;
  readonly after: number;
  readonly from: number;
  readonly behind: number;
}

/** From an edit whose place is known. */
function edgesOf(kept: Kept, length: number, old: readonly Section[]): Edges {
  const before = firstOf(old, (section) => section.start + section.text.length > kept.before);
  const after = Math.max(
    before,
    firstOf(old, (section) => section.start >= length - kept.after),
  );
  return {
    before,
    after,
    from: old[before]?.start ?? length,
    behind: after < old.length ? length - old[after]!.start : 0,
  };
}

/** From the texts alone. Where a section started is not asked, since a later tree may have moved it. */
function compared(text: string, old: readonly Section[]): Edges {
  let before = 0;
  let from = 0;
  while (before < old.length && text.startsWith(old[before]!.text, from)) from += old[before++]!.text.length;
  let after = old.length;
  let to = text.length;
  while (after > before) {
    const part = old[after - 1]!.text;
    if (to - part.length < from || !text.startsWith(part, to - part.length)) break;
    to -= part.length;
    after--;
  }
  return { before, after, from, behind: text.length - to };
}

/**
 * Where a section ends is decided by the header of the next, and what a header is may hang on the row above it. So two
 * sections more are looked at again on either side: the nearest may only seem to stand, being glued to what changed (a
 * header with `##` put before it is a note, and joins the section after it), and the next hangs on that one.
 */
function widened({ before, after, from, behind }: Edges, old: readonly Section[]): Edges {
  for (let more = 0; more < 2 && before > 0; more++) from -= old[--before]!.text.length;
  for (let more = 0; more < 2 && after < old.length; more++) behind -= old[after++]!.text.length;
  return { before, after, from, behind };
}

/** The first for which it is so; how many there are if for none. It is so for all that follow one for which it is. */
function firstOf<T>(all: readonly T[], isSo: (each: T) => boolean): number {
  let low = 0;
  let high = all.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isSo(all[middle]!)) high = middle;
    else low = middle + 1;
  }
  return low;
}

const HEADER = /^[^\S\r\n]*(\p{L}[\p{L}\p{M}\p{N}-]*)(?![\p{L}\p{M}\p{N}.-])/u;
const UNKNOWN_HEADER =
  /^(\p{L}[\p{L}\p{M}\p{N}-]*)(?:[^\S\r\n]+(?!(?:x|of)(?![\p{L}\p{M}\p{N}-]))\p{L}[\p{L}\p{M}\p{N}-]*|[^\S\r\n]*(?:"(?:[^"\\]|\\.)*"|[“”](?:[^“”"\\]|\\.)*["“”]))[^\S\r\n]*(?:#.*)?$/isu;
const KINDS = new Set(sectionKinds);

/** A search goes through a line many times faster than a loop over its letters. */
const LINE_END = /[\r\n]/g;

/**
 * Where sections start: at a header, or at the notes right above it. The first stretch starts at 0, with or without a header.
 * Of more than `most` the rest is one.
 */
function sectionStarts(text: string, most = MOST_SECTIONS): number[] {
  const starts: number[] = [];
  for (const start of startsIn(text)) {
    if (start !== undefined) starts.push(start);
    if (starts.length > most) break;
  }
  return starts;
}

/** The same one by one, with a stop every few hundred rows. */
function* startsIn(text: string): Generator<number | undefined, void, undefined> {
  yield 0;
  let rows = 0;
  let noteAt = -1;
  let blankBefore = true;
  let continues = false;
  let at = 0;
  while (at < text.length || at === 0) {
    if (++rows % MOST_ROWS === 0) yield undefined;
    LINE_END.lastIndex = at;
    const end = LINE_END.exec(text)?.index ?? text.length;
    // A mark of byte order is no column.
    const line = text.slice(at === 0 && text[0] === '\uFEFF' ? 1 : at, end);
    const trimmed = line.trimStart();
    if (trimmed === '') {
      noteAt = -1;
      blankBefore = true;
      continues = false;
    } else if (trimmed.startsWith('##')) {
      if (noteAt < 0) noteAt = at;
      continues = false;
    } else if (trimmed.startsWith('#')) {
      noteAt = -1;
      continues = false;
    } else {
      const start = noteAt >= 0 ? noteAt : at;
      if (isHeader(line, blankBefore, continues) && start > 0) yield start;
      noteAt = -1;
      blankBefore = false;
      continues = endsInComma(line);
    }
    if (end >= text.length) break;
    at = text[end] === '\r' && text[end + 1] === '\n' ? end + 2 : end + 1;
  }
}

function isHeader(line: string, blankBefore: boolean, continues: boolean): boolean {
  const word = HEADER.exec(line)?.[1]?.toLowerCase();
  if (word === undefined) return false;
  if (KINDS.has(word)) return true;
  if (continues) return false;
  // In recovery only: `peice skull` opens an unknown section, so that its lines go to no other.
  const unknown = UNKNOWN_HEADER.exec(line)?.[1]?.toLowerCase();
  if (unknown === undefined || reservedNames.has(unknown)) return false;
  if (isLineWord(unknown)) return blankBefore && isPlural(unknown);
  return blankBefore || nearest(unknown, sectionKinds) !== undefined;
}

/** `rivets small` alone after a blank row: as a line of a seam it would say too little. */
const isPlural = (word: string): boolean => word.endsWith('s') && KINDS.has(word.slice(0, -1));

const endsInComma = (line: string): boolean => {
  const hash = line.indexOf('#');
  return (hash < 0 ? line : line.slice(0, hash)).trimEnd().endsWith(',');
};

/** Reads one stretch of text that holds at most one header. */
export function readSection(text: string): Section {
  const to = readableTo(text);
  return new SectionReader(text, to).read();
}

/** How far a section is read: whole rows, as many as are allowed. */
function readableTo(text: string): number {
  if (text.length <= MOST_ROWS) return text.length;
  let rows = 0;
  let at = 0;
  while (rows < MOST_ROWS && at < text.length) {
    LINE_END.lastIndex = at;
    const end = LINE_END.exec(text)?.index ?? text.length;
    if (end > MOST_LETTERS) break;
    at = Math.min(text.length, text[end] === '\r' && text[end + 1] === '\n' ? end + 2 : end + 1);
    rows++;
  }
  return /\S/.test(text.slice(at)) ? at : text.length;
}

/** What lies behind the last section that is read. */
function leftUnread(text: string): Section {
  const [row] = /^[^\r\n]*/.exec(text)!;
  const message = say`A spec is read as far as its ${grouped(MOST_SECTIONS)}th section: what follows here is not. ${SPLIT}`;
  const problems: Problem[] = [{ code: 'too-long', from: 0, to: row.length, message, fixes: [] }];
  return { start: 0, text, notes: [], lines: [], singles: [], comments: [], problems, unreadFrom: 0 };
}

const SPLIT = 'Split it into several files, and name each with use.';
const grouped = (count: number): string => String(count).replace(/(?=(?:\d{3})+$)(?<=\d)/g, ' ');

interface OpenLine {
  readonly tokens: IToken[];
  readonly notes: readonly Comment[];
  comment?: IToken;
}

const ROWS_AT_ONCE = 20;

class SectionReader {
  private readonly problems: Problem[] = [];
  private readonly lines: Line[] = [];
  private readonly singles: SingleLine[] = [];
  private readonly comments: Comment[] = [];
  private notes: Comment[] = [];
  private open: OpenLine | undefined;
  /** A row that is more than a comment has been read. */
  private begun = false;
  /** Its first line stands in the header: what it says is not missing. */
  private holdsLineInHeader = false;
  private kind: SectionWord | undefined;
  private header: Span | undefined;
  private kindAt: Word | undefined;
  private name: Word | undefined;
  private title: Text | undefined;
  private headerNotes: readonly Comment[] = [];
  private readonly section: Section;
  /** Lines that were tried in other words. */
  private trials = 0;

  constructor(
    private readonly text: string,
    /** So far it is read. */
    private readonly end: number,
    /** Read only to see whether it is understood. */
    private readonly isTrial = false,
  ) {
    // The lines point at their section while it is being read; its fields are filled in at the end.
    this.section = { start: 0, text } as Section;
  }

  private readonly report: Report = (code, at, message, fixes = []) => {
    this.problems.push({ code, from: at.from, to: at.to, message, fixes });
  };

  read(): Section {
    const steps = this.inSteps();
    for (;;) {
      const step = steps.next();
      if (step.done) return step.value;
    }
  }

  /** The same with a stop after so many rows: hundreds that are all wrong take their time. */
  *inSteps(): Generator<undefined, Section, undefined> {
    let rows = 0;
    let row: IToken[] = [];
    for (const token of tokensOf(this.end < this.text.length ? this.text.slice(0, this.end) : this.text)) {
      if (token.tokenType === Newline) {
        this.row(row);
        row = [];
        if (++rows % ROWS_AT_ONCE === 0) yield undefined;
      } else {
        row.push(token);
      }
    }
    this.row(row);
    this.close();
    this.reportUnfinished();
    this.reportTwice();
    this.reportMissing();
    this.reportRest();
    const whole: Omit<Section, 'start'> = {
      text: this.text,
      notes: this.headerNotes,
      lines: this.lines.slice(),
      singles: this.singles.slice(),
      comments: this.comments.slice(),
      problems: this.problems.sort((a, b) => a.from - b.from),
      ...(this.kind ? { kind: this.kind } : {}),
      ...(this.header ? { header: this.header } : {}),
      ...(this.kindAt ? { kindAt: this.kindAt } : {}),
      ...(this.name ? { name: this.name } : {}),
      ...(this.title ? { title: this.title } : {}),
      ...(this.end < this.text.length ? { unreadFrom: this.end } : {}),
    };
    return Object.assign(this.section, whole);
  }

  /** One physical line. */
  private row(tokens: IToken[]): void {
    if (!tokens.length) {
      this.close();
      this.notes = [];
      return;
    }
    const last = tokens[tokens.length - 1]!;
    const comment =
      last.tokenType === CommentToken || last.tokenType === Note || last.tokenType === OddComment ? last : undefined;
    if (comment) this.comment(comment);
    const content = comment ? tokens.slice(0, -1) : tokens;
    if (!content.length) {
      this.close();
      if (comment!.tokenType === Note) this.notes.push(this.comments[this.comments.length - 1]!);
      else this.notes = [];
      return;
    }
    // A header is the first row of its stretch: `sectionStarts` cut the text there.
    const isFirst = !this.begun;
    this.begun = true;
    const first = content[0]!;
    const key = first.tokenType === WordToken ? first.image.toLowerCase() : '';
    if (this.open && !this.goesOn(key)) this.close();
    if (this.open) {
      for (const token of content) this.open.tokens.push(token);
      if (comment) this.open.comment = comment;
    } else if (isFirst && this.opensSection(content, key)) {
      this.readHeader(content);
      return;
    } else {
      this.open = { tokens: content, notes: this.notes, ...(comment ? { comment } : {}) };
      this.notes = [];
    }
    if (content[content.length - 1]!.tokenType !== Comma) this.close();
  }

  private comment(token: IToken): void {
    const isNote = token.tokenType === Note;
    const span = { from: token.startOffset, to: endOf(token) };
    this.comments.push({ ...span, isNote, text: token.image.slice(isNote ? 2 : 1).trim() });
    if (token.tokenType === OddComment) {
      this.report(
        'mark-unknown',
        span,
        say`A comment mark wants a space after it: “# ${token.image.slice(1)}”. A colour or a number is written as a text, in quotes.`,
        [{ title: 'Put a space after #', edits: [{ from: span.from + 1, to: span.from + 1, text: ' ' }] }],
      );
    }
  }

  /** Whether the open line, which ends in a comma, goes on with a line that begins with this word. */
  private goesOn(key: string): boolean {
    if (key === 'use' || key === 'let') return false;
    if (!this.kind || !key) return true;
    const index = linesOf(this.kind);
    if (!index.byFirst.has(key)) return true;
    const opener = this.open!.tokens[0]!;
    const candidates = index.byFirst.get(opener.image.toLowerCase()) ?? [];
    return candidates.some((candidate) => qualifiersOf(candidate).byFirst.has(key));
  }

  private opensSection(content: IToken[], key: string): boolean {
    if (KINDS.has(key)) return true;
    if (
      (isLineWord(key) && !isPlural(key)) ||
      reservedNames.has(key) ||
      content.length !== 2 ||
      content[0]!.startOffset !== this.lineStart(content[0]!.startOffset)
    )
      return false;
    // `sectionStarts` cut the text here, so this is the unknown header it saw; the very first line has no cut to tell by.
    const second = content[1]!.tokenType;
    return content[0]!.tokenType === WordToken && (second === WordToken || second === TextToken);
  }

  private lineStart(offset: number): number {
    let at = offset;
    while (at > 0 && this.text[at - 1] !== '\n' && this.text[at - 1] !== '\r') at--;
    return at === 0 && this.text[0] === '\uFEFF' && offset > 0 ? 1 : at;
  }

  private readHeader(content: IToken[]): void {
    const [kindToken, ...rest] = content;
    this.kindAt = wordOf(kindToken!);
    this.kind = sectionWord(this.kindAt.key);
    this.header = { from: kindToken!.startOffset, to: endOf(content[content.length - 1]!) };
    this.headerNotes = this.notes;
    this.notes = [];
    if (!this.kind) {
      const near = nearest(this.kindAt.key, sectionKinds);
      // Of several things each has a section: what stands under it is read, so that others can name it.
      if (near && this.kindAt.key === `${near}s`) this.kind = sectionWord(near);
      this.report(
        'unknown-word',
        this.kindAt,
        near
          ? say`“${this.kindAt.text}” is no section: did you mean “${near}”?`
          : say`“${this.kindAt.text}” is no section. Sections are ${sectionKinds.join(', ')}.`,
        near
          ? [{ title: say`Change to “${near}”`, edits: [{ from: this.kindAt.from, to: this.kindAt.to, text: near }] }]
          : [],
      );
    }
    const [nameToken, ...extra] = rest;
    const wantsText = this.kind?.named === 'text';
    const wanted = wantsText
      ? say`a title in quotes: ${this.kindAt.key} "Harbour-watch sallet"`
      : say`a name: ${this.kindAt.key} skull`;
    if (!nameToken) {
      this.report('name-missing', this.header, say`${this.aKind()} has ${wanted}`);
      return;
    }
    if (nameToken.tokenType === WordToken && !wantsText) {
      this.name = this.checkedName(wordOf(nameToken), this.kindAt!.key);
    } else if (nameToken.tokenType === TextToken || nameToken.tokenType === OpenText) {
      const title = textOf(nameToken);
      if (wantsText || !this.kind) this.title = title;
      else
        this.report(
          'name-missing',
          title,
          say`${this.aKind()} has ${wanted}. A name is letters, digits and hyphens, without quotes.`,
        );
      if (nameToken.tokenType === OpenText) this.openText(nameToken);
    } else {
      const span = { from: nameToken.startOffset, to: endOf(nameToken) };
      if (wantsText) {
        const rest = this.text.slice(span.from, endOf(content[content.length - 1]!));
        const quoted = `"${rest.replace(/["\\]/g, '\\$&')}"`;
        this.report('name-missing', { ...span, to: span.from + rest.length }, say`${this.aKind()} has ${wanted}.`, [
          { title: 'Put it in quotes', edits: [{ from: span.from, to: span.from + rest.length, text: quoted }] },
        ]);
        return;
      }
      this.report('name-missing', span, say`${this.aKind()} has ${wanted}. A name starts with a letter.`);
    }
    if (extra.length) {
      const span = { from: extra[0]!.startOffset, to: endOf(extra[extra.length - 1]!) };
      const isLine = this.isLineOfKind(span);
      this.holdsLineInHeader = isLine;
      const joined =
        !isLine && [nameToken, ...extra].every((token) => token.tokenType === WordToken)
          ? [nameToken, ...extra].map((token) => token.image).join('-')
          : undefined;
      this.report(
        'name-missing',
        span,
        joined
          ? say`A name is one word: write “${joined}”.`
          : `A header holds one name and nothing else: this belongs in a line of its own.`,
        joined
          ? [{ title: say`Write ${joined}`, edits: [{ from: nameToken.startOffset, to: span.to, text: joined }] }]
          : isLine
            ? [
                {
                  title: 'Put it in a line of its own',
                  edits: [{ from: endOf(nameToken), to: span.from, text: `${lineBreakIn(this.text)}  ` }],
                },
              ]
            : [],
      );
    }
  }

  /** Whether what stands behind a header is a line of such a section. */
  private isLineOfKind(span: Span): boolean {
    if (!this.kind || this.isTrial || span.to - span.from > LONGEST_SLIP) return false;
    const header = `${this.kind.kind} ${this.kind.named === 'text' ? '"one"' : 'one'}`;
    const text = `${header}\n  ${this.text.slice(span.from, span.to)}`;
    const { lines, problems } = new SectionReader(text, Number.POSITIVE_INFINITY, true).read();
    return lines[0]?.head !== undefined && problems.every(({ code }) => code === 'line-missing');
  }

  /** `A piece`, `An order`, for the start of a sentence. */
  private aKind(): string {
    const kind = withArticle(this.kindAt!.text);
    return `A${kind.slice(1)}`;
  }

  private checkedName(name: Word, kind: string): Word {
    if (name.text.length > LONGEST_NAME)
      this.report(
        'too-long',
        name,
        say`A name has at most ${LONGEST_NAME} letters: this one has ${grouped(name.text.length)}.`,
      );
    if (reservedNames.has(name.key) || unitNames.has(name.key)) {
      const longer = `${name.text}-${kind}`;
      this.report('name-reserved', name, say`${whyReserved(name)}, so it cannot be a name: call it “${longer}”.`, [
        { title: say`Call it ${longer}`, edits: [{ from: name.from, to: name.to, text: longer }] },
      ]);
    } else if (name.text.includes('.')) {
      const dashed = name.text.replace(/\.+$/, '').replaceAll('.', '-');
      this.report(
        'name-reserved',
        name,
        say`A name has no dot, since dots reach a figure of a thing: write “${dashed}”.`,
        [{ title: say`Write ${dashed}`, edits: [{ from: name.from, to: name.to, text: dashed }] }],
      );
    }
    return name;
  }

  /** Ends the open line and reads it. */
  private close(): void {
    const open = this.open;
    if (!open) return;
    this.open = undefined;
    const { tokens } = open;
    const last = tokens[tokens.length - 1]!;
    if (last.tokenType === Comma) {
      const at = { from: last.startOffset, to: endOf(last) };
      // Inside a bracket, the bracket is what is not finished.
      if (depthOf(tokens) <= 0)
        this.report('comma-stray', at, 'The line ends in a comma, and nothing follows that goes on with it.', [
          { title: 'Remove the comma', edits: [{ ...at, text: '' }] },
        ]);
      tokens.pop();
    }
    if (!tokens.length) return;
    const excuse = open.comment && this.excuse(open.comment);
    const span = { from: tokens[0]!.startOffset, to: endOf(tokens[tokens.length - 1]!) };
    const key = tokens[0]!.tokenType === WordToken ? tokens[0]!.image.toLowerCase() : '';
    if (key === 'use' || key === 'let' || (key === 'planish' && this.isVersion(tokens))) {
      this.single(key, tokens, span, open.notes, excuse);
      return;
    }
    const before = this.problems.length;
    const phrases = tokens.length > MOST_SIGNS ? [this.tooLong(tokens)] : this.phrases(tokens);
    if (open.comment?.tokenType === OddComment && phrases.length) {
      // `hole #30`: what was taken for a comment is marked, and what it hides is not wanted again.
      phrases.push({ ...phrases.pop()!, broken: true });
    }
    const bound: BoundLine = this.kind ? bindLine(this.kind, phrases, this.report) : { qualifiers: [] };
    if (!this.header) this.reportOutside(phrases, span);
    // A line that was meant in other words says nothing until it is written in ours.
    const { word, head, qualifiers }: BoundLine =
      this.problems.length > before && this.saidOtherwise(span, before) ? { qualifiers: [] } : bound;
    const line: { -readonly [K in keyof Line]: Line[K] } = {
      from: span.from,
      to: span.to,
      section: this.section,
      phrases: phrases.slice(),
      notes: open.notes,
      qualifiers,
    };
    if (word) line.word = word;
    if (head) line.head = head;
    if (excuse) line.excuse = excuse;
    this.lines.push(line);
  }

  /** Whether a line that is not understood is a way to say one that is: then that is all that is said of it. */
  private saidOtherwise(span: Span, before: number): boolean {
    if (!this.kind || !this.header || this.isTrial || span.to - span.from > LONGEST_SLIP) return false;
    if (++this.trials > MOST_TRIALS) return false;
    const written = this.text.slice(span.from, span.to);
    const other = inOtherWords(this.kind.kind, written);
    if (!other) return false;
    const header = `${this.kind.kind} ${this.kind.named === 'text' ? '"one"' : 'one'}`;
    const { lines, problems } = new SectionReader(`${header}\n  ${other.text}`, Number.POSITIVE_INFINITY, true).read();
    const isUnderstood = problems.every(({ code }) => code === 'line-missing' || code === 'line-unfinished');
    if (!isUnderstood || lines.length !== 1 || !lines[0]!.head) return false;
    this.problems.length = before;
    const at = changed(span, written, other.text);
    this.report('unknown-word', at.span, say`${translated(other.why)}: write “${other.text}”.`, [
      { title: say`Write ${other.text}`, edits: [{ ...at.span, text: at.text }] },
    ]);
    return true;
  }

  private tooLong(tokens: readonly IToken[]): Phrase {
    const span = { from: tokens[0]!.startOffset, to: endOf(tokens[tokens.length - 1]!) };
    this.report(
      'too-long',
      { from: tokens[MOST_SIGNS]!.startOffset, to: span.to },
      say`A line is read where it has at most ${grouped(MOST_SIGNS)} words, numbers and signs: this one is not.`,
    );
    return { ...span, items: [], broken: true };
  }

  /** `planish 1` names the version; `planish` alone is the working. */
  private isVersion(tokens: readonly IToken[]): boolean {
    return !this.header || (tokens[1] !== undefined && tokens[1].tokenType !== WordToken);
  }

  private reportOutside(phrases: readonly Phrase[], span: Span): void {
    const first = phrases[0]?.items[0];
    const near = first?.kind === 'word' ? nearest(first.key, [...sectionKinds, ...SINGLES]) : undefined;
    this.report(
      'line-outside-section',
      span,
      near
        ? say`This line stands in no section: did you mean “${near}”?`
        : 'This line stands in no section. A spec starts with a section, such as build "Harbour-watch sallet".',
    );
  }

  private excuse(token: IToken): Excuse | undefined {
    const match = /^#+\s*allow\b(?:\s+([\p{L}\p{N}-]+))?\s*(:?)\s*(.*)$/isu.exec(token.image);
    if (!match) return undefined;
    const span = { from: token.startOffset, to: endOf(token) };
    const [, code, colon, why] = match;
    const codeTo = (of: string) =>
      span.from + token.image.indexOf(of, token.image.toLowerCase().indexOf('allow') + 5) + of.length;
    if (!code || !colon || !why?.trim()) {
      this.report(
        'excuse-unclear',
        span,
        'An excuse names a check and says why: “# allow pitch-too-wide: the strap covers it”.',
        code && !colon && why?.trim()
          ? [{ title: say`Put a colon behind ${code}`, edits: [{ from: codeTo(code), to: codeTo(code), text: ':' }] }]
          : [],
      );
      return undefined;
    }
    const codeFrom = codeTo(code) - code.length;
    return {
      ...span,
      code: code.toLowerCase(),
      codeAt: { from: codeFrom, to: codeFrom + code.length },
      why: why.trim(),
    };
  }

  private single(
    key: 'use' | 'let' | 'planish',
    tokens: IToken[],
    span: Span,
    notes: readonly Comment[],
    excuse: Excuse | undefined,
  ): void {
    const { section } = this;
    if (key === 'use') {
      const token = tokens[1];
      if (token?.tokenType === OpenText) this.openText(token);
      if (token?.tokenType === TextToken || token?.tokenType === OpenText) {
        this.reportExtra(tokens.slice(2), 'use "path"');
        this.singles.push({ kind: 'use', section, ...span, path: textOf(token) });
      } else {
        this.report('line-unfinished', span, 'Which file? Write use "stock.planish".');
        this.singles.push({ kind: 'use', section, ...span });
      }
      return;
    }
    if (key === 'planish') {
      const token = tokens[1];
      if (token && token.image !== LANGUAGE_VERSION) {
        const at = { from: token.startOffset, to: endOf(token) };
        this.report(
          'version-unknown',
          at,
          say`This tool knows version ${LANGUAGE_VERSION} of the language; “${token.image}” may hold words it does not know.`,
          [{ title: say`Write planish ${LANGUAGE_VERSION}`, edits: [{ ...at, text: LANGUAGE_VERSION }] }],
        );
      } else if (!token) {
        this.report('line-unfinished', span, say`Which version? Write planish ${LANGUAGE_VERSION}`, [
          { title: say`Write planish ${LANGUAGE_VERSION}`, edits: [{ ...span, text: `planish ${LANGUAGE_VERSION}` }] },
        ]);
      }
      this.reportExtra(tokens.slice(2), 'planish 1');
      this.singles.push({
        kind: 'version',
        section,
        ...span,
        ...(token?.tokenType === NumberToken ? { number: numberAsWritten(token.image) } : {}),
      });
      return;
    }
    const nameToken = tokens[1];
    const isWord = nameToken?.tokenType === WordToken || nameToken?.tokenType === Times || nameToken?.tokenType === Of;
    const name = isWord ? this.checkedName(wordOf(nameToken), 'size') : undefined;
    const equals = tokens[2];
    let value: Measure | undefined;
    if (!name) {
      this.report('name-missing', span, 'A let names a measure: let gap-round = 36 mm');
    } else if (equals?.image !== '=') {
      this.report(
        'line-unfinished',
        { from: name.from, to: span.to },
        say`What is ${name.text}? Write let ${name.text} = 36 mm`,
      );
    } else {
      const phrases = this.phrases(tokens.slice(3));
      const items = phrases.flatMap((phrase) => phrase.items);
      const first = items[0];
      if (first?.kind === 'measure') value = first;
      else if (first?.kind === 'word') value = measureOfWord(first);
      else if (!first && !this.problems.some((problem) => problem.from >= span.from)) {
        this.report('line-unfinished', span, say`What is ${name.text}? A measure is wanted after =`);
      } else if (first) this.report('unknown-word', first, 'A let holds a measure.');
      if (items[1]) {
        const spaced = items[1];
        this.report(
          'unknown-word',
          { from: spaced.from, to: items[items.length - 1]!.to },
          'A let holds one measure: this is not understood after it. A sign has a space on both sides.',
        );
      }
    }
    this.singles.push({
      kind: 'let',
      section,
      ...span,
      notes,
      ...(name ? { name } : {}),
      ...(value ? { value } : {}),
      ...(excuse ? { excuse } : {}),
    });
  }

  private reportExtra(tokens: readonly IToken[], shape: string): void {
    const first = tokens[0];
    if (!first) return;
    this.report(
      'unknown-word',
      { from: first.startOffset, to: endOf(tokens[tokens.length - 1]!) },
      say`This line holds only ${shape}`,
    );
  }

  /** Cuts a line at its commas and reads each run. */
  private phrases(tokens: readonly IToken[]): Phrase[] {
    const phrases: Phrase[] = [];
    let run: IToken[] = [];
    let depth = 0;
    // Commas in a row are one mistake.
    let stray: { readonly from: number; to: number; count: number } | undefined;
    const reportStray = () => {
      if (!stray) return;
      const { count, ...at } = stray;
      stray = undefined;
      this.report('comma-stray', at, 'Nothing stands between these commas.', [
        { title: count > 1 ? say`Remove ${count} commas` : 'Remove the comma', edits: [{ ...at, text: '' }] },
      ]);
    };
    const finish = (comma: IToken | undefined) => {
      if (run.length) {
        reportStray();
        phrases.push(this.phrase(run));
      } else if (comma) {
        stray ??= { from: comma.startOffset, to: 0, count: 0 };
        stray.to = endOf(comma);
        stray.count++;
      }
      run = [];
    };
    for (const token of tokens) {
      if (token.tokenType === Open) depth++;
      else if (token.tokenType === Close) depth = Math.max(0, depth - 1);
      if (token.tokenType === Comma && depth === 0) finish(token);
      else run.push(token);
    }
    finish(undefined);
    reportStray();
    return phrases;
  }

  private phrase(tokens: readonly IToken[]): Phrase {
    const before = this.problems.length;
    const readable = this.readable(tokens);
    const span: Span = { from: tokens[0]!.startOffset, to: endOf(tokens[tokens.length - 1]!) };
    const unread =
      readable !== tokens &&
      (readable.length < tokens.length || this.problems.slice(before).some(({ code }) => code === 'text-open'));
    if (isTooDeep(readable)) {
      this.report(
        'nested-too-deep',
        span,
        say`Arithmetic this deep is past reading: split it with let (brackets to ${DEEPEST} deep).`,
      );
      return { ...span, items: [], broken: true };
    }
    const { items, stoppedAt } = readPhrase(readable);
    if (stoppedAt === 'end') {
      const last = readable[readable.length - 1]!;
      const at = { from: last.startOffset, to: endOf(last) };
      this.report('line-unfinished', at, wantedAfter(readable));
    } else if (stoppedAt && stoppedAt.payload !== OPEN_TEXT) {
      this.reportStop(stoppedAt, readable);
    }
    const { from, to } = span;
    return stoppedAt || unread ? { items, from, to, broken: true } : { items, from, to };
  }

  private reportStop(token: IToken, tokens: readonly IToken[]): void {
    const at = { from: token.startOffset, to: endOf(token) };
    const before = tokens[tokens.indexOf(token) - 1];
    if (token.tokenType === Minus || token.tokenType === Negative || token.tokenType === Plus) {
      this.report(
        'sign-spacing',
        at,
        say`A sign between two measures has a space on both sides; “${token.image}” here joins nothing.`,
      );
    } else if (token.tokenType === UnitToken && before) {
      this.report('unit-missing', at, say`A unit follows its number: there is none before “${token.image}”.`);
    } else if (token.tokenType === Times) {
      this.report('line-unfinished', at, 'A measure is wanted on both sides of x: 120 x 80 mm.');
    } else {
      this.report('unknown-word', at, say`“${token.image}” is not understood here.`);
    }
  }

  /** The tokens that can be read; the others are reported where they stand. */
  private readable(tokens: readonly IToken[]): readonly IToken[] {
    if (!tokens.some(needsCare)) return tokens;
    const readable: IToken[] = [];
    for (let i = 0; i < tokens.length; i++) {
      const token = tokens[i]!;
      const at = { from: token.startOffset, to: endOf(token) };
      if (token.tokenType === Unknown) {
        // Marks in a row are one mistake.
        const start = i;
        while (tokens[i + 1]?.tokenType === Unknown && tokens[i + 1]!.startOffset === endOf(tokens[i]!)) i++;
        const span = { from: at.from, to: endOf(tokens[i]!) };
        const shown = tokens.slice(start, i + 1).map((one) => one.image);
        const image = shown.length > 12 ? `${shown.slice(0, 12).join('')}…` : shown.join('');
        this.report(
          'mark-unknown',
          span,
          say`“${image}” has no meaning in a spec.`,
          semicolonFixes(image, span, tokens[i + 1]),
        );
        continue;
      }
      if (token.tokenType === OpenText) {
        this.openText(token);
        readable.push({
          ...token,
          tokenType: TextToken,
          tokenTypeIdx: TextToken.tokenTypeIdx!,
          image: token.image.trimEnd(),
          payload: OPEN_TEXT,
        });
        continue;
      }
      const taken = token.tokenType === WordToken && this.takenAway(token, tokens[i + 1]);
      if (taken) {
        readable.push(...taken);
        continue;
      }
      if (token.tokenType === OddNumber) this.oddNumber(token);
      if (token.tokenType === DateToken && !isDay(token.image))
        this.report('number-form', at, say`There is no day “${token.image}”: a date is year, month, day.`);
      if ((token.tokenType === Minus || token.tokenType === Plus) && i > 0 && i < tokens.length - 1)
        this.spacing(token, at);
      if (token.tokenType === Negative && i > 0 && canEnd(tokens[i - 1]!)) {
        // `10 mm -4 mm` is a difference to the smith.
        this.spacing(token, at);
        readable.push({ ...token, tokenType: Minus, tokenTypeIdx: Minus.tokenTypeIdx! });
        continue;
      }
      readable.push(token);
    }
    return readable;
  }

  /** `rim-3 mm` is a name and a lost unit to the letter, and a difference to the smith: read it so, and say how to write it. */
  private takenAway(token: IToken, next: IToken | undefined): IToken[] | undefined {
    const parts = /^(.+?)-(\d+(?:\.\d+)?)$/u.exec(token.image);
    if (!parts || next?.tokenType !== WordToken || !unitNames.has(next.image.toLowerCase())) return undefined;
    const [, name, number] = parts as unknown as [string, string, string];
    const at = { from: token.startOffset, to: endOf(token) };
    const right = `${name} - ${number}`;
    this.report(
      'sign-spacing',
      at,
      say`“${token.image}” is read as a name: to take away, write “${right} ${next.image}”.`,
      [{ title: say`Write ${right}`, edits: [{ ...at, text: right }] }],
    );
    const made = (type: TokenType, image: string, offset: number): IToken => ({
      ...token,
      image,
      startOffset: token.startOffset + offset,
      tokenType: type,
      tokenTypeIdx: type.tokenTypeIdx!,
    });
    (next as { tokenType: TokenType; tokenTypeIdx: number }).tokenType = UnitToken;
    (next as { tokenTypeIdx: number }).tokenTypeIdx = UnitToken.tokenTypeIdx!;
    return [made(WordToken, name, 0), made(Minus, '-', name.length), made(NumberToken, number, name.length + 1)];
  }

  private spacing(token: IToken, at: Span): void {
    const before = this.text[at.from - 1] ?? ' ';
    const after = this.text[at.to] ?? ' ';
    const spacedBefore = /\s/.test(before) || before === '(';
    const spacedAfter = /\s/.test(after);
    if (spacedBefore && spacedAfter) return;
    if (token.tokenType === Minus && before === '(') return;
    this.report('sign-spacing', at, say`A sign between two measures has a space on both sides: “ ${token.image} ”.`, [
      {
        title: 'Put spaces round the sign',
        edits: [{ ...at, text: `${spacedBefore ? '' : ' '}${token.image}${spacedAfter ? '' : ' '}` }],
      },
    ]);
  }

  private oddNumber(token: IToken): void {
    const at = { from: token.startOffset, to: endOf(token) };
    const image = token.image;
    const mixed = /^(\d+)-(\d+\/\d+)$/.exec(image);
    if (mixed) {
      const right = `${mixed[1]} ${mixed[2]}`;
      this.report('number-form', at, say`“${image}” could be a difference: write “${right}”.`, [
        { title: say`Write ${right}`, edits: [{ ...at, text: right }] },
      ]);
      return;
    }
    const fixes: Fix[] = [];
    const offer = (text: string) => fixes.push({ title: say`Write ${text}`, edits: [{ ...at, text }] });
    if (/^\.\d+$/.test(image)) offer(`0${image}`);
    else if (/^\d+\.$/.test(image)) offer(image.slice(0, -1));
    else if (image.includes(',')) {
      const groups = image.split(',');
      if (groups.slice(1).every((group) => /^\d{3}(\.\d+)?$/.test(group))) offer(image.replaceAll(',', ''));
      if (groups.length === 2 && !image.includes('.')) offer(image.replace(',', '.'));
      offer(groups.join(', '));
    }
    const options = fixes.map(({ edits }) => edits[0]!.text);
    this.report(
      'number-form',
      at,
      options.length
        ? options.length > 1
          ? say`“${image}” can be read in more than one way: write “${options.join(translated('” or “'))}”.`
          : say`A number has digits on both sides of its point: write “${options[0]}”.`
        : say`“${image}” is no number.`,
      fixes,
    );
  }

  private openText(token: IToken): void {
    const at = { from: token.startOffset, to: endOf(token) };
    this.report('text-open', at, 'The text has no closing quote on its line.', [
      { title: 'Close the text', edits: [{ from: at.to, to: at.to, text: '"' }] },
    ]);
  }

  /** Lines that fit their pattern and still say too little: one mark for all that each lacks, at its beginning. */
  private reportUnfinished(): void {
    for (const line of this.lines) {
      const { word, head } = line;
      if (!word?.needs.length || !head || !this.kind || this.isHalfTyped(line)) continue;
      if (line.phrases.some((phrase) => phrase.broken)) continue;
      const unmet = unmetNeeds(line, this.lines);
      if (!unmet.length) continue;
      const wanted = unmet.map((each) => unmetInWords(each, word, this.kind!));
      this.report(
        'line-unfinished',
        head,
        say`“${nameOf(word, head)}” is not finished: it also wants ${wanted.length > 1 ? say`${wanted.slice(0, -1).join(', ')} and ${wanted.at(-1)}` : wanted[0]}.`,
      );
    }
  }

  private reportTwice(): void {
    const seen = new Map<string, Line>();
    for (const line of this.lines) {
      const { word } = line;
      if (!word || word.repeats) continue;
      if (this.isHalfTyped(line)) continue;
      const slot =
        word.group === 'form' && word.id !== 'like'
          ? '@form'
          : word.group === 'stock'
            ? '@stock'
            : `${word.group}:${leadingWords(word.pattern) || word.id}`;
      const key = word.id === 'measure' ? `measure:${line.head?.slots.get('measure')?.[0]?.text ?? ''}` : slot;
      const first = seen.get(key);
      if (!first) {
        seen.set(key, line);
        continue;
      }
      const what =
        key === '@form'
          ? say`${this.aKind()} has one form`
          : key === '@stock'
            ? say`${this.aKind()} is one thing`
            : say`“${openerOf(line)}” is said already`;
      this.report('line-twice', line, say`${what}: “${this.text.slice(first.from, first.to)}” stands above.`, [
        { title: 'Remove this line', edits: [{ ...this.wholeLine(line), text: '' }] },
      ]);
    }
  }

  /** A line that is marked already is still being written; only its spacing says nothing of that. */
  private isHalfTyped(line: Span): boolean {
    return this.problems.some(({ code, from, to }) => code !== 'sign-spacing' && from <= line.to && to >= line.from);
  }

  /** A line with its indent and its line end. */
  private wholeLine(line: Span): Span {
    const from = this.lineStart(line.from);
    let to = line.to;
    while (to < this.text.length && this.text[to] !== '\n' && this.text[to] !== '\r') to++;
    if (this.text[to] === '\r' && this.text[to + 1] === '\n') to++;
    return { from, to: Math.min(to + 1, this.text.length) };
  }

  private reportRest(): void {
    const { end, text } = this;
    if (end >= text.length) return;
    const row = /[^\r\n]*/.exec(text.slice(end))![0];
    const most = say`${grouped(MOST_ROWS)} rows and ${grouped(MOST_LETTERS)} letters`;
    this.report(
      'too-long',
      { from: end, to: end + row.length },
      say`A section is read as far as ${most}: what follows here is not.`,
    );
  }

  private reportMissing(): void {
    if (!this.kind || !this.header) return;
    // A header without its name, or a line that was begun and not understood, has its own message.
    if ((this.kind.named === 'name' && !this.name) || this.holdsLineInHeader) return;
    if (this.lines.some((line) => !line.word && line.phrases[0])) return;
    const unmet = this.kind.needs.filter(
      ({ any }) =>
        !this.lines.some(
          ({ word }) => word && any.some((id) => (id.startsWith('@') ? word.group === id.slice(1) : word.id === id)),
        ),
    );
    if (!unmet.length) return;
    const subject = this.name ? `“${this.name.text}”` : say`This ${this.kind.kind}`;
    const said = unmet.map(({ what }) => translated(what).replace(/`([^`]*)`/g, '“$1”')).join(translated('; nor '));
    this.report('line-missing', this.name ?? this.header, say`${subject} does not say ${said}.`);
  }
}

/** A line longer than this was written by no slip of a word. */
const LONGEST_SLIP = 200;

/** In a section: one that has more lines amiss was not written by hand, and to try each takes time. */
const MOST_TRIALS = 50;

/** What differs between a line and how it is to be written: whole words of it, all of it where something is only added. */
function changed(span: Span, written: string, other: string): { readonly span: Span; readonly text: string } {
  const [a, b] = [written.split(/(?<=\s)/u), other.split(/(?<=\s)/u)];
  let head = 0;
  while (head < Math.min(a.length, b.length) - 1 && a[head] === b[head]) head++;
  let tail = 0;
  while (tail < Math.min(a.length, b.length) - head && a[a.length - 1 - tail] === b[b.length - 1 - tail]) tail++;
  const gone = a.slice(head, a.length - tail).join('');
  if (!gone.trim()) return { span, text: other };
  const from = span.from + a.slice(0, head).join('').length;
  const kept = gone.length - gone.trimEnd().length;
  const text = b.slice(head, b.length - tail).join('');
  // The space behind it stays where something else follows in its place.
  return text.trim()
    ? { span: { from, to: from + gone.length - kept }, text: text.trimEnd() }
    : { span: { from, to: from + gone.length }, text: '' };
}

/** Tokens that reading a phrase has to look at first; all others go through as they are. */
function needsCare({ tokenType, image }: IToken): boolean {
  switch (tokenType) {
    case WordToken: {
      const last = image.charCodeAt(image.length - 1);
      return last >= 48 && last <= 57 && image.includes('-');
    }
    case Unknown:
    case OpenText:
    case OddNumber:
    case DateToken:
    case Minus:
    case Plus:
    case Negative:
      return true;
    default:
      return false;
  }
}

const lineBreakIn = (text: string): string => (text.includes('\r\n') ? '\r\n' : '\n');

function isDay(written: string): boolean {
  const day = new Date(`${written}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(written);
}

/** How many brackets are open at the end. */
function depthOf(tokens: readonly IToken[]): number {
  let depth = 0;
  for (const { tokenType } of tokens) depth += Number(tokenType === Open) - Number(tokenType === Close);
  return depth;
}

/** What is missing where a phrase breaks off. */
function wantedAfter(tokens: readonly IToken[]): string {
  const last = tokens[tokens.length - 1]!;
  const open = depthOf(tokens);
  if (last.tokenType === Times) return 'A measure is wanted after x: 120 x 80 mm.';
  if (last.tokenType === Of) return 'A size is wanted after “of”: 4 of 1/8 in.';
  if (
    open > 0 &&
    (last.tokenType === UnitToken ||
      last.tokenType === NumberToken ||
      last.tokenType === WordToken ||
      last.tokenType === Close)
  )
    return 'A closing bracket is wanted here.';
  return say`A measure is wanted after “${last.image}”.`;
}

const SINGLES = new Set(['use', 'let', 'planish']);
const unitNames = new Set(units.flatMap((unit) => unit.spellings.map((spelling) => spelling.toLowerCase())));

/** What a word is that cannot be a name. */
function whyReserved({ text, key }: Word): string {
  const unit = unitOf(text);
  if (unit) return say`“${text}” is a unit (${translated(unit.doc).split(':')[0]})`;
  if (sectionWord(key)) return say`“${text}” begins a section`;
  return key === 'pi' ? say`“${text}” is a number` : say`“${text}” stands between measures and places`;
}

const canEnd = ({ tokenType }: IToken): boolean =>
  tokenType === UnitToken || tokenType === InchMark || tokenType === Close;

const MOST_OPERATORS = 500;

function isTooDeep(tokens: readonly IToken[]): boolean {
  let depth = 0;
  let operators = 0;
  for (const { tokenType } of tokens) {
    if (tokenType === Open && ++depth > DEEPEST) return true;
    if (tokenType === Close) depth--;
    if (tokenType === Plus || tokenType === Minus || tokenType.name === 'Star' || tokenType.name === 'Slash')
      operators++;
  }
  return operators > MOST_OPERATORS;
}

function wordOf(token: IToken): Word {
  const text = token.image.normalize('NFC');
  return { kind: 'word', text, key: text.toLowerCase(), from: token.startOffset, to: endOf(token) };
}

function textOf(token: IToken): Text {
  const body = token.tokenType === OpenText ? token.image.slice(1).trimEnd() : token.image.slice(1, -1);
  return { kind: 'text', value: body.replace(/\\(.)/gs, '$1'), from: token.startOffset, to: endOf(token) };
}

function measureOfWord(word: Word): Measure {
  return {
    kind: 'measure',
    parts: [{ kind: 'name', name: word, from: word.from, to: word.to }],
    from: word.from,
    to: word.to,
  };
}

const openerOf = (line: Line): string => {
  const first: Item | undefined = line.phrases[0]?.items[0];
  return line.word ? nameOf(line.word, line.head) : first?.kind === 'word' ? first.text : '';
};

/** A semicolon that other languages taught: a comma where the line goes on, nothing where it ends. */
function semicolonFixes(image: string, span: Span, next: IToken | undefined): Fix[] {
  if (image !== ';') return [];
  const removal: Fix = { title: 'Remove the semicolon', edits: [{ ...span, text: '' }] };
  return next ? [{ title: 'Write a comma', edits: [{ ...span, text: ',' }] }, removal] : [removal];
}
