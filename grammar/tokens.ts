import { createToken, type IToken, Lexer, type TokenType } from 'chevrotain';
import { unitSpellings } from './units.ts';

/*
 * The marks and words of a spec. Every text whatever becomes tokens: what cannot be read is an `Unknown` token, so that
 * lexing never fails and nothing of the smith's text is lost.
 */

/** A sticky regular expression as a custom pattern: chevrotain drops the `u` flag of a plain one, and names need it. */
function sticky(source: string, allowed?: (text: string, offset: number, before: IToken | undefined) => boolean) {
  const expression = new RegExp(source, 'uy');
  return (text: string, offset: number, matched: IToken[]): RegExpExecArray | null => {
    if (allowed && !allowed(text, offset, matched[matched.length - 1])) return null;
    expression.lastIndex = offset;
    return expression.exec(text);
  };
}

const NAME_PART = String.raw`\p{L}[\p{L}\p{M}\p{N}-]*`;
const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
const unitAlternatives = unitSpellings.map((spelling) => spelling.replace(/./gu, (c) => eitherCase(c))).join('|');

function eitherCase(character: string): string {
  const upper = character.toUpperCase();
  const lower = character.toLowerCase();
  return upper === lower || upper.length > 1 ? escaped(character) : `[${lower}${upper}]`;
}

/** Where a token ends: the lexer tracks starts only, which is faster. */
export const endOf = (token: IToken): number => token.startOffset + token.image.length;

const touches = (offset: number, before: IToken | undefined): boolean =>
  before !== undefined && endOf(before) === offset;
const isNumber = (token: IToken | undefined): boolean =>
  token?.tokenType === NumberToken || token?.tokenType === OddNumber;

/*
 * Chevrotain goes by a token's first character if it knows it of every token. It cannot tell for patterns of our own, so
 * each says it: this makes reading twice as fast. Past Latin-1 it keeps one place for 255 characters.
 */
const charCodes = (characters: string): number[] => [...characters].map((character) => character.charCodeAt(0));
const ASCII = Array.from({ length: 128 }, (_, code) => code);
const BEYOND_ASCII = [
  ...Array.from({ length: 128 }, (_, i) => 128 + i),
  ...Array.from({ length: 257 }, (_, i) => Math.min(256 + 255 * i, 0xffff)),
];
const LETTERS = [...charCodes('abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ'), ...BEYOND_ASCII];
const SPACES = [...ASCII.filter((code) => /\s/.test(String.fromCharCode(code))), ...BEYOND_ASCII];
const UNIT_STARTS = [
  ...new Set(unitSpellings.flatMap((spelling) => charCodes(spelling[0]! + spelling[0]!.toUpperCase()))),
];

export const Newline = createToken({ name: 'Newline', pattern: /\r\n|\r|\n/, line_breaks: true });
const Space = createToken({
  name: 'Space',
  pattern: /[^\S\r\n]+/,
  group: Lexer.SKIPPED,
  start_chars_hint: SPACES,
});
export const Note = createToken({ name: 'Note', pattern: /##[^\r\n]*/ });
export const Comment = createToken({ name: 'Comment', pattern: /#(?!\S)[^\r\n]*/ });
/** `#334455`, `#30`: a comment mark wants a space after it. */
export const OddComment = createToken({ name: 'OddComment', pattern: /#[^\r\n]*/ });
export const InchMark = createToken({
  name: 'InchMark',
  pattern: { exec: sticky('["″”]', (_, offset, before) => touches(offset, before) && isNumber(before)) },
  start_chars_hint: charCodes('"″”'),
  line_breaks: false,
});
export const TextToken = createToken({
  name: 'Text',
  pattern: /"(?:[^"\\\r\n]|\\[^\r\n])*"|[“”](?:[^“”"\\\r\n]|\\[^\r\n])*["“”]/,
});
export const OpenText = createToken({ name: 'OpenText', pattern: /["“”][^\r\n]*/ });
export const DateToken = createToken({ name: 'Date', pattern: /\d{4}-\d{2}-\d{2}(?![\d-])/ });
/** `2-1/2`, `1,220`, `120,5`: numbers written in a way that could mean two things. */
export const OddNumber = createToken({
  name: 'OddNumber',
  pattern: /\d+-\d+\/\d+|\d+(?:,\d+)+(?:\.\d+)?|\d+(?:\.\d+){2,}|\.\d+|\d+\.(?![\d.])/,
});
export const NumberToken = createToken({
  name: 'Number',
  pattern: /\d+[^\S\r\n]+\d+\/\d+|\d+\/\d+|\d+\.\d+|\d+[^\S\r\n]*[½¼¾⅓⅔⅛⅜⅝⅞]|\d+|[½¼¾⅓⅔⅛⅜⅝⅞]/,
});
export const UnitToken = createToken({
  name: 'Unit',
  pattern: {
    exec: sticky(String.raw`(?:${unitAlternatives})(?![\p{L}\p{M}\p{N}])`, (_, __, before) => isNumber(before)),
  },
  start_chars_hint: UNIT_STARTS,
  line_breaks: false,
});
const timesAlone = sticky(String.raw`×|[xX](?![\p{L}\p{M}\p{N}-])`);
/** `120x80`: only right behind a measure, since `x2` may be a name. */
const timesTight = sticky(
  String.raw`[xX](?=[\d½¼¾⅓⅔⅛⅜⅝⅞])`,
  (_, __, before) => isNumber(before) || before?.tokenType === UnitToken || before?.tokenType === InchMark,
);
export const Times = createToken({
  name: 'Times',
  pattern: {
    exec: (text, offset, matched) => timesAlone(text, offset, matched) ?? timesTight(text, offset, matched),
  },
  start_chars_hint: charCodes('xX×'),
  line_breaks: false,
});
export const Of = createToken({
  name: 'Of',
  pattern: { exec: sticky(String.raw`[oO][fF](?![\p{L}\p{N}.-])`) },
  start_chars_hint: charCodes('oO'),
  line_breaks: false,
});
export const PlusMinus = createToken({ name: 'PlusMinus', pattern: /±|\+\/-/ });
export const Plus = createToken({ name: 'Plus', pattern: /\+/ });
/** A minus that touches what follows and not what stands before it belongs to the number: `-60 to 60 deg`. */
export const Negative = createToken({
  name: 'Negative',
  pattern: {
    exec: sticky(
      String.raw`[-–−](?=[\d.(\p{L}½¼¾⅛⅜⅝⅞])`,
      (text, offset) => offset === 0 || /[\s(,]/u.test(text[offset - 1] ?? ' '),
    ),
  },
  start_chars_hint: charCodes('-–−'),
  line_breaks: false,
});
export const Minus = createToken({ name: 'Minus', pattern: /[-–−]/ });
export const Star = createToken({ name: 'Star', pattern: /\*/ });
export const Slash = createToken({ name: 'Slash', pattern: /\// });
export const Open = createToken({ name: 'Open', pattern: /\(/ });
export const Close = createToken({ name: 'Close', pattern: /\)/ });
export const Comma = createToken({ name: 'Comma', pattern: /,/ });
/** A name, or a dotted one; a last dot with nothing after it is kept, since a half-typed name is the normal case. */
export const WordToken = createToken({
  name: 'Word',
  pattern: { exec: sticky(String.raw`${NAME_PART}(?:\.${NAME_PART})*\.?`) },
  start_chars_hint: LETTERS,
  line_breaks: false,
});
export const Unknown = createToken({
  name: 'Unknown',
  pattern: /[\uD800-\uDBFF][\uDC00-\uDFFF]|\S/,
  start_chars_hint: [...ASCII, ...BEYOND_ASCII],
});

const all: TokenType[] = [
  Newline,
  Space,
  Note,
  Comment,
  OddComment,
  InchMark,
  TextToken,
  OpenText,
  DateToken,
  OddNumber,
  NumberToken,
  UnitToken,
  Times,
  Of,
  PlusMinus,
  Plus,
  Negative,
  Minus,
  Star,
  Slash,
  Open,
  Close,
  Comma,
  WordToken,
  Unknown,
];

export const tokenTypes: readonly TokenType[] = all;

const lexer = new Lexer(all, { positionTracking: 'onlyOffset', ensureOptimizations: true });

/** The tokens of a stretch of text, white space left out, line ends kept. */
export function tokensOf(text: string): IToken[] {
  return lexer.tokenize(text).tokens;
}

/** Whether a name is written as a name must be: letters of any script, digits, hyphens, starting with a letter. */
export const isName = (text: string): boolean => new RegExp(`^${NAME_PART}$`, 'u').test(text);

const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅓': '1/3',
  '⅔': '2/3',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/** A number in the spelling the formatter uses: `2½` becomes `2 1/2`. */
export function numberAsWritten(image: string): string {
  if (/^[\d./]+$/.test(image)) return image;
  const spelled = image.replace(/[^\S\r\n]*([½¼¾⅓⅔⅛⅜⅝⅞])/u, (_, mark: string) => ` ${VULGAR[mark] ?? mark}`);
  return spelled.trim().replace(/\s+/g, ' ');
}
