import type { IToken } from 'chevrotain';
import { FUNCTIONS } from './parser.ts';
import { readSpec } from './reader.ts';
import {
  Close,
  Comma,
  Comment,
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
  PlusMinus,
  Slash,
  Star,
  TextToken,
  Times,
  tokensOf,
  UnitToken,
  Unknown,
  WordToken,
} from './tokens.ts';
import type { Edit, Section, Span, Spec } from './tree.ts';
import { unitOf } from './units.ts';

/*
 * The formatter. It lays out one row at a time from its tokens and touches nothing but white space, the spelling of
 * numbers, units, signs and quotes, and blank lines. What it cannot read it leaves as it stands.
 *
 * **Invariant:** the tree of the printed text is the tree of the text, every comment stays, and printing twice is
 * printing once. A row whose tokens would be read otherwise when printed is left as it is, and what was wrong stays wrong:
 * whoever only lays out is told of no slip less.
 */

/** The whole text in the formatter's layout. */
export function formatSpec(text: string): string {
  return applyEdits(text, formatEdits(text));
}

/**
 * What to change, row by row, so that the editor keeps cursors, folds and marks in rows that stay. With a range, only
 * rows that the range touches. A tree of the text at hand saves reading it again.
 */
export function formatEdits(text: string, range?: Span, spec?: Spec): Edit[] {
  const steps = formatEditsInSteps(text, range, spec);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** The same with a stop after each section, so that others may go first. */
export function* formatEditsInSteps(text: string, range?: Span, spec?: Spec): Generator<undefined, Edit[], undefined> {
  const { sections } = spec?.text === text ? spec : readSpec(text);
  const rows: Row[] = [];
  for (const section of range ? near(sections, range) : sections) {
    yield* addRows(rows, section);
    yield undefined;
  }
  yield* layOut(rows, text);
  const lineEnd = yield* dominantLineEnd(text);
  const edits: Edit[] = [];
  for (const [i, row] of rows.entries()) {
    if (range && (row.to < range.from || row.from > range.to)) continue;
    if (i % MANY === 0) yield undefined;
    pushEdit(edits, row, text.slice(row.from, row.next), printRow(row, text, lineEnd));
  }
  return edits;
}

export function applyEdits(text: string, edits: readonly Edit[]): string {
  let out = '';
  let at = 0;
  for (const edit of edits) {
    out += text.slice(at, edit.from) + edit.text;
    at = edit.to;
  }
  return out + text.slice(at);
}

type RowKind = 'blank' | 'comment' | 'header' | 'single' | 'line' | 'continuation' | 'unread';

interface Row extends Span {
  /** Where the next row starts: past the line end. */
  readonly next: number;
  readonly lineEnd: string;
  readonly kind: RowKind;
  readonly content: readonly IToken[];
  readonly comment?: IToken;
  /** Stands under a header. */
  readonly inSection: boolean;
  /** Some sign in it lacks its spaces, which is a slip to be marked, and not to be mended in silence. */
  readonly signsAmiss: boolean;
  indent: number;
  /** Blank lines printed before it. */
  blanksBefore: number;
  /** Nothing is printed for it: a blank line too many. */
  dropped: boolean;
}

const UNREAD = {
  lineEnd: '',
  kind: 'unread',
  content: [],
  inSection: false,
  signsAmiss: false,
  indent: 0,
  blanksBefore: 0,
  dropped: false,
} as const;

const NO_TOKENS: readonly IToken[] = [];

const BODY = 2;
const CONTINUED = 4;
/** What stands between a line and the comment after it: one space, as everywhere. */
const BEFORE_COMMENT = ' ';

// ---- rows ----------------------------------------------------------------------------------------------------------

function* addRows(rows: Row[], section: Section): Generator<undefined, void, undefined> {
  // A mark of byte order is kept where it is: before the first row.
  let from = section.start + (section.start === 0 && section.text.startsWith('\uFEFF') ? 1 : 0);
  const end = section.start + section.text.length;
  if (section.unreadFrom !== undefined) {
    // What is not read through stays as it stands.
    rows.push({ ...UNREAD, from, to: end, next: end });
    return;
  }
  const starts = startsOf(section);
  const amiss = section.problems.flatMap(({ code, from: at }) => (code === 'sign-spacing' ? section.start + at : []));
  let tokens: IToken[] = [];
  let headerSeen = false;
  const finish = (to: number, lineEnd: string) => {
    const last = tokens[tokens.length - 1];
    const comment = last && isComment(last) ? last : undefined;
    // Blank rows, of which there may be hundreds of thousands, share their emptiness; what is read next is none of theirs.
    const content = comment ? tokens.slice(0, -1) : tokens.length ? tokens : NO_TOKENS;
    let kind: RowKind = 'blank';
    if (content.length) kind = starts.get(content[0]!.startOffset) ?? 'continuation';
    else if (comment) kind = 'comment';
    // What the tree leaves out, such as a row that is only a comma, is a line of its own.
    if (kind === 'continuation' && !continues(rows[rows.length - 1])) kind = 'line';
    if (kind === 'header') headerSeen = true;
    const row = {
      from,
      to,
      next: to + lineEnd.length,
      lineEnd,
      kind,
      content,
      inSection: headerSeen,
      signsAmiss: amiss.some((at) => at >= from && at < to),
      indent: 0,
      blanksBefore: 0,
      dropped: false,
    };
    rows.push(comment ? { ...row, comment } : row);
    if (tokens.length) tokens = [];
    from = to + lineEnd.length;
  };
  for (const [i, token] of tokensOf(section.text).entries()) {
    if (i % MANY === 0) yield undefined;
    if (token.tokenType === Newline) finish(section.start + token.startOffset, token.image);
    else tokens.push(token);
  }
  if (from < end) finish(end, '');
}

/** The sections that a range touches, and on either side what the layout of their rows hangs on. */
function near(sections: readonly Section[], { from, to }: Span): readonly Section[] {
  const isBefore = ({ start, text }: Section) => start + text.length < from;
  const first = sections.findIndex((section) => !isBefore(section));
  const after = sections.findIndex(({ start }) => start > to);
  return sections.slice(Math.max(0, first - AROUND), (after < 0 ? sections.length : after) + AROUND);
}
const AROUND = 2;

/** So many rows are made ready, or printed, in a few milliseconds. */
const MANY = 500;

/** Where the lines of a section start, in the section, and what each is. */
function startsOf(section: Section): Map<number, RowKind> {
  const starts = new Map<number, RowKind>();
  for (const line of section.lines) starts.set(line.from, 'line');
  for (const single of section.singles) starts.set(single.from, 'single');
  if (section.header) starts.set(section.header.from, 'header');
  return starts;
}

const isComment = (token: IToken): boolean =>
  token.tokenType === Comment || token.tokenType === Note || token.tokenType === OddComment;

const continues = (row: Row | undefined): boolean => row?.content[row.content.length - 1]?.tokenType === Comma;

function* dominantLineEnd(text: string): Generator<undefined, string, undefined> {
  const counts = new Map<string, number>();
  let count = 0;
  for (const [lineEnd] of text.matchAll(/\r\n|\r|\n/g)) {
    if (++count % MANY === 0) yield undefined;
    counts.set(lineEnd, (counts.get(lineEnd) ?? 0) + 1);
  }
  let best = '\n';
  for (const [lineEnd, count] of counts) if (count > (counts.get(best) ?? 0)) best = lineEnd;
  return best;
}

// ---- layout: indents and blank lines -------------------------------------------------------------------------------

function* layOut(rows: readonly Row[], text: string): Generator<undefined, void, undefined> {
  const opensBlock = new Set<Row>();
  for (let i = 0; i < rows.length; i++) {
    if (i % MANY === 0) yield undefined;
    const row = rows[i]!;
    if (row.kind === 'header') opensBlock.add(rows[blockStart(rows, i, text)]!);
    else if (row.kind === 'comment') {
      let end = i;
      while (rows[end + 1]?.kind === 'comment') end++;
      indentComments(rows, i, end, text);
      i = end;
    } else if (row.kind === 'line') row.indent = lineIndent(row, text);
    else if (row.kind === 'continuation') row.indent = row.inSection ? CONTINUED : BODY;
  }
  let before: Row | undefined;
  let blanks = 0;
  for (const [i, row] of rows.entries()) {
    if (i % MANY === 0) yield undefined;
    if (row.kind === 'blank') {
      row.dropped = true;
      blanks++;
      continue;
    }
    if (before && before.kind !== 'unread') row.blanksBefore = opensBlock.has(row) ? 1 : Math.min(blanks, 1);
    before = row;
    blanks = 0;
  }
  // A blank row that stays is printed as itself, so that no edit is made where nothing changes.
  for (let i = rows.length - 1; i > 0; i--) {
    if (i % MANY === 0) yield undefined;
    const row = rows[i]!;
    if (row.blanksBefore && rows[i - 1]!.kind === 'blank') {
      rows[i - 1]!.dropped = false;
      row.blanksBefore = 0;
    }
  }
}

/**
 * A line in a section is indented. Before the first section, two words at column 0 would open an unknown section and
 * indented they do not: such a line keeps its side.
 */
function lineIndent(row: Row, text: string): number {
  if (row.inSection) return BODY;
  return row.content.length === 2 && isIndented(row, text) ? BODY : 0;
}

const isIndented = (row: Row, text: string): boolean => /[^\S\r\n]/.test(text[row.from] ?? '');

/** Where the block of a header begins: at the notes and comments that stand directly on it. */
function blockStart(rows: readonly Row[], header: number, text: string): number {
  let top = header;
  while (rows[top - 1]?.kind === 'comment') top--;
  const above = rows[top - 1];
  if (!above || above.kind === 'blank') return top;
  // Comments between a line and a header without a blank line: an indented one belongs to the line above it.
  let start = header;
  while (start > top && !staysAbove(rows[start - 1]!, text)) start--;
  return start;
}

const staysAbove = (row: Row, text: string): boolean => row.comment?.tokenType !== Note && isIndented(row, text);

/** The rows from `first` to `last` are comments, and those before and after are none. */
function indentComments(rows: readonly Row[], first: number, last: number, text: string): void {
  const above = rows[first - 1];
  const below = rows[last + 1];
  const underAbove = above && above.kind !== 'blank' ? (above.inSection && above.kind !== 'single' ? BODY : 0) : 0;
  let indent: number;
  let until = last;
  if (below?.kind === 'header') {
    const start = blockStart(rows, last + 1, text);
    for (let i = start; i <= last; i++) rows[i]!.indent = 0;
    until = start - 1;
    indent = underAbove;
  } else if (below && below.kind !== 'blank') {
    indent = below.kind === 'line' ? lineIndent(below, text) : 0;
  } else if (above && above.kind !== 'blank') {
    indent = underAbove;
  } else {
    const next = nextWritten(rows, last + 1);
    const inSection = rows[first]!.inSection;
    // Before the next section, a comment with air round it keeps its side: a rule of the file or an afterthought.
    if (next?.kind === 'line') indent = lineIndent(next, text);
    else indent = inSection && isIndented(rows[first]!, text) ? BODY : 0;
  }
  for (let i = first; i <= until; i++) rows[i]!.indent = indent;
}

/** The next row with more than a comment in it, with the comments and blank rows before it looked at once for all of them. */
function nextWritten(rows: readonly Row[], from: number): Row | undefined {
  let at = from;
  while (rows[at]?.kind === 'blank' || rows[at]?.kind === 'comment') at++;
  return rows[at];
}

// ---- printing ------------------------------------------------------------------------------------------------------

function printRow(row: Row, text: string, lineEnd: string): string {
  if (row.dropped) return '';
  if (row.kind === 'unread') return text.slice(row.from, row.next);
  const blank = lineEnd.repeat(row.blanksBefore);
  if (row.kind === 'blank') return blank + lineEnd;
  if (row.comment?.tokenType === OddComment)
    return `${blank}${' '.repeat(row.indent)}${text.slice(row.from, row.to).trim()}${lineEnd}`;
  const content = row.content.length ? printContent(row, text) : '';
  const comment = row.comment ? row.comment.image.trimEnd() : '';
  const gap = content && comment ? BEFORE_COMMENT : '';
  return `${blank}${' '.repeat(row.indent)}${content}${gap}${comment}${lineEnd}`;
}

function printContent(row: Row, text: string): string {
  const { content } = row;
  const first = content[0]!;
  const last = content[content.length - 1]!;
  const raw = rawOf(row, text, first.startOffset, endOf(last));
  if (!content.every(isReadable)) return raw;
  const printed = printTokens(content, row.signsAmiss);
  return printed === raw || readsTheSame(content, printed) ? printed : raw;
}

/** The tokens count from the start of their section; the row knows where the text is. */
function rawOf(row: Row, text: string, from: number, to: number): string {
  const start = row.from + leadingSpace(text, row.from);
  return text.slice(start, start + to - from).trimEnd();
}

function leadingSpace(text: string, from: number): number {
  let at = from;
  while (/[^\S\r\n]/.test(text[at] ?? '')) at++;
  return at - from;
}

function isReadable(token: IToken, i: number, content: readonly IToken[]): boolean {
  const type = token.tokenType;
  if (type === Unknown) return token.image === '=' && i === 2 && content[0]!.image.toLowerCase() === 'let';
  return type !== OpenText && type !== OddNumber;
}

/** Whether the printed row gives the same tokens: the last guard of the invariant. */
function readsTheSame(content: readonly IToken[], printed: string): boolean {
  const tokens = tokensOf(printed);
  return tokens.length === content.length && tokens.every((token, i) => sameToken(token, content[i]!, content, i));
}

function sameToken(printed: IToken, original: IToken, content: readonly IToken[], i: number): boolean {
  if (spelled(printed) !== spelled(original)) return false;
  if (printed.tokenType === original.tokenType) return true;
  if (original.tokenType === InchMark) return printed.tokenType === UnitToken;
  return isUnaryMinus(content, i) && printed.tokenType === Negative;
}

function printTokens(tokens: readonly IToken[], signsAmiss: boolean): string {
  let out = '';
  for (let i = 0; i < tokens.length; i++) {
    const asItWas = signsAmiss ? isSign(tokens[i]) || isSign(tokens[i - 1]) : isSlip(tokens[i - 1], tokens[i]!);
    if (i > 0 && (asItWas ? endOf(tokens[i - 1]!) < tokens[i]!.startOffset : isSpaced(tokens, i))) out += ' ';
    out += spelled(tokens[i]!);
  }
  return out;
}

function spelled(token: IToken): string {
  switch (token.tokenType) {
    case NumberToken:
      return numberAsWritten(token.image);
    case UnitToken:
      return unitOf(token.image)?.id ?? token.image;
    case InchMark:
      return 'in';
    case Times:
      return 'x';
    case PlusMinus:
      return '±';
    case Minus:
    case Negative:
      return '-';
    case TextToken:
      return straightText(token.image);
    default:
      return token.image;
  }
}

/** A text in curly quotes in straight ones; what it says stays. */
function straightText(image: string): string {
  if (image.startsWith('"')) return image;
  const value = image.slice(1, -1).replace(/\\([^\r\n])/g, '$1');
  return `"${value.replace(/["\\]/g, '\\$&')}"`;
}

/** Whether a space stands between the token at `i` and the one before it. */
function isSpaced(tokens: readonly IToken[], i: number): boolean {
  const before = tokens[i - 1]!;
  const token = tokens[i]!;
  if (token.tokenType === Comma || token.tokenType === Close) return false;
  if (before.tokenType === Open || isUnaryMinus(tokens, i - 1)) return false;
  if (token.tokenType === Open && before.tokenType === WordToken) return !FUNCTIONS.has(before.image.toLowerCase());
  return true;
}

const isSign = (token: IToken | undefined): boolean =>
  token?.tokenType === Plus || token?.tokenType === Minus || token?.tokenType === Negative;

/** A sign with nothing after it that could be added or taken away: no layout makes sense of it, or should make it look otherwise. */
const isSlip = (before: IToken | undefined, { tokenType }: IToken): boolean =>
  isSign(before) && tokenType !== NumberToken && tokenType !== WordToken && tokenType !== Open;

/** A minus with nothing on its left to take away from. */
function isUnaryMinus(tokens: readonly IToken[], i: number): boolean {
  const { tokenType } = tokens[i]!;
  if (tokenType === Negative) return true;
  if (tokenType !== Minus) return false;
  switch (tokens[i - 1]?.tokenType) {
    case undefined:
    case Open:
    case Comma:
    case Plus:
    case Minus:
    case Negative:
    case Star:
    case Slash:
    case Times:
    case PlusMinus:
    case Of:
      return true;
    default:
      return false;
  }
}

// ---- edits ---------------------------------------------------------------------------------------------------------

/** One edit for a row that changes, without what stays at its two ends. */
function pushEdit(edits: Edit[], row: Row, before: string, after: string): void {
  if (before === after) return;
  let start = 0;
  while (start < before.length && start < after.length && before[start] === after[start]) start++;
  let same = 0;
  // A line end is one thing to an editor: nothing is cut between its two characters.
  const sameEnd = after.endsWith(row.lineEnd) && (row.lineEnd !== '\n' || !after.endsWith('\r\n'));
  while (
    sameEnd &&
    same < before.length - start &&
    same < after.length - start &&
    before[before.length - 1 - same] === after[after.length - 1 - same]
  )
    same++;
  edits.push({
    from: row.from + start,
    to: row.from + before.length - same,
    text: after.slice(start, after.length - same),
  });
}
