import { EmbeddedActionsParser, type IToken, type TokenType } from 'chevrotain';
import {
  Close,
  Comma,
  DateToken,
  endOf,
  InchMark,
  Minus,
  Negative,
  NumberToken,
  numberAsWritten,
  OddNumber,
  Of,
  Open,
  Plus,
  PlusMinus,
  Slash,
  Star,
  TextToken,
  Times,
  tokenTypes,
  UnitToken,
  WordToken,
} from './tokens.ts';
import type { DateItem, Expression, Item, Measure, NumberExpression, Text, Word } from './tree.ts';
import { unitOf } from './units.ts';

/** Functions that arithmetic knows. Any other word before a bracket is a word of the language. */
export const FUNCTIONS: ReadonlySet<string> = new Set(['sqrt', 'min', 'max', 'sin', 'cos', 'tan', 'round-up']);

/** Brackets may nest this deep; more is no shop note, and would run the stack out. */
export const DEEPEST = 64;

/**
 * Reads one phrase, the run of tokens between two commas, into items. Lines and sections are found before
 * (`sections.ts`), so a mistake in one phrase cannot reach the next.
 */
class PhraseParser extends EmbeddedActionsParser {
  constructor() {
    super(tokenTypes as never, { recoveryEnabled: false, maxLookahead: 2, skipValidations: false });
    this.performSelfAnalysis();
  }

  public phrase = this.RULE('phrase', (into: Item[]) => {
    this.MANY(() => {
      const item = this.SUBRULE(this.item);
      this.ACTION(() => into.push(item));
    });
  });

  private item = this.RULE(
    'item',
    (): Item =>
      this.OR<Item>([
        { ALT: () => text(this.CONSUME(TextToken)) },
        { ALT: () => date(this.CONSUME(DateToken)) },
        { GATE: () => this.isPlainWord(), ALT: () => word(this.CONSUME(WordToken)) },
        { ALT: () => word(this.CONSUME(Of)) },
        { ALT: () => this.SUBRULE(this.measure) },
      ]),
  );

  /** A word that no sign, `x` or bracket makes part of arithmetic. */
  private isPlainWord(): boolean {
    const next = this.LA(2).tokenType;
    return !continuesMeasure(next) && !(next === Open && FUNCTIONS.has(this.LA(1).image.toLowerCase()));
  }

  private measure = this.RULE('measure', (): Measure => {
    const first = this.LA(1);
    const parts: Expression[] = [this.SUBRULE(this.sum)];
    let count: Expression | undefined;
    this.OPTION(() => {
      this.CONSUME(Of);
      count = parts.pop();
      parts.push(this.SUBRULE1(this.sum));
    });
    this.MANY(() => {
      this.CONSUME(Times);
      parts.push(this.SUBRULE2(this.sum));
    });
    let tolerance: Expression | undefined;
    this.OPTION1(() => {
      this.CONSUME(PlusMinus);
      tolerance = this.SUBRULE3(this.sum);
    });
    return this.ACTION(() => {
      reachBack(parts);
      if (tolerance) reachBack([...parts, tolerance]);
      return {
        kind: 'measure',
        parts,
        ...(count ? { count } : {}),
        ...(tolerance ? { tolerance } : {}),
        from: first.startOffset,
        to: endOf(this.LA(0)),
      };
    }) as Measure;
  });

  private sum = this.RULE('sum', (): Expression => {
    let left = this.SUBRULE(this.product);
    this.MANY(() => {
      const operator = this.OR([{ ALT: () => this.CONSUME(Plus) }, { ALT: () => this.CONSUME(Minus) }]);
      const right = this.SUBRULE1(this.product);
      left = this.ACTION(() => binary(left, operator, right));
    });
    return left;
  });

  private product = this.RULE('product', (): Expression => {
    let left = this.SUBRULE(this.signed);
    this.MANY(() => {
      const operator = this.OR([{ ALT: () => this.CONSUME(Star) }, { ALT: () => this.CONSUME(Slash) }]);
      const right = this.SUBRULE1(this.signed);
      left = this.ACTION(() => binary(left, operator, right));
    });
    return left;
  });

  private signed = this.RULE(
    'signed',
    (): Expression =>
      this.OR<Expression>([
        {
          ALT: () => {
            const sign = this.OR1([{ ALT: () => this.CONSUME(Negative) }, { ALT: () => this.CONSUME(Minus) }]);
            const of = this.SUBRULE(this.primary);
            return this.ACTION((): Expression => ({ kind: 'negate', of, from: sign.startOffset, to: of.to }));
          },
        },
        { ALT: () => this.SUBRULE1(this.primary) },
      ]),
  );

  private primary = this.RULE(
    'primary',
    (): Expression =>
      this.OR<Expression>([
        { ALT: () => this.SUBRULE(this.number) },
        {
          GATE: () => this.LA(2).tokenType === Open && FUNCTIONS.has(this.LA(1).image.toLowerCase()),
          ALT: () => this.SUBRULE(this.call),
        },
        {
          ALT: () => {
            const name = word(this.CONSUME(WordToken));
            return { kind: 'name', name, from: name.from, to: name.to };
          },
        },
        {
          ALT: () => {
            const open = this.CONSUME(Open);
            const inside = this.SUBRULE(this.sum);
            const close = this.CONSUME(Close);
            return this.ACTION(() => bracketed(open, inside, close));
          },
        },
      ]),
  );

  private number = this.RULE('number', (): Expression => {
    const token = this.OR([{ ALT: () => this.CONSUME(NumberToken) }, { ALT: () => this.CONSUME(OddNumber) }]);
    let unit: IToken | undefined;
    this.OPTION(() => {
      unit = this.OR1([{ ALT: () => this.CONSUME(UnitToken) }, { ALT: () => this.CONSUME(InchMark) }]);
    });
    return this.ACTION(() => numberOf(token, unit));
  });

  private call = this.RULE('call', (): Expression => {
    const name = word(this.CONSUME(WordToken));
    this.CONSUME(Open);
    const parts: Expression[] = [];
    this.MANY_SEP({ SEP: Comma, DEF: () => parts.push(this.SUBRULE(this.sum)) });
    const close = this.CONSUME(Close);
    return { kind: 'call', name, arguments: parts, from: name.from, to: close ? endOf(close) : name.to };
  });
}

/** Arithmetic reaches over its brackets. A number or a name in them is itself. */
const bracketed = (open: IToken, inside: Expression, close: IToken): Expression =>
  inside.kind === 'binary' || inside.kind === 'negate'
    ? { ...inside, from: open.startOffset, to: endOf(close) }
    : inside;

function word(token: IToken): Word {
  const written = token.image.normalize('NFC');
  return { kind: 'word', text: written, key: written.toLowerCase(), from: token.startOffset, to: endOf(token) };
}

/** Marks a text token that lacks its closing quote. */
export const OPEN_TEXT = 'open text';

function text(token: IToken): Text {
  const body = token.payload === OPEN_TEXT ? token.image.slice(1) : token.image.slice(1, -1);
  const value = body.replace(/\\(.)/gs, '$1');
  return { kind: 'text', value, from: token.startOffset, to: endOf(token) };
}

function date(token: IToken): DateItem {
  return { kind: 'date', value: token.image, from: token.startOffset, to: endOf(token) };
}

function binary(left: Expression, operator: IToken, right: Expression): Expression {
  const sign = operator.tokenType === Minus ? '-' : (operator.image as '+' | '*' | '/');
  const operatorAt = { from: operator.startOffset, to: endOf(operator) };
  return { kind: 'binary', operator: sign, operatorAt, left, right, from: left.from, to: right.to };
}

/** A unit reaches back over `x`, `to`, `±` and a list to the plain numbers before it, never into arithmetic. */
export function reachBack(group: readonly Expression[]): void {
  const last = bareNumber(group[group.length - 1]);
  if (!last?.unit) return;
  for (let i = group.length - 2; i >= 0; i--) {
    const number = bareNumber(group[i]);
    if (!number || number.unit) return;
    number.unit = last.unit;
  }
}

/** The number itself, signed or not; nothing for arithmetic and names. */
export function bareNumber(expression: Expression | undefined): NumberExpression | undefined {
  if (expression?.kind === 'number') return expression;
  return expression?.kind === 'negate' && expression.of.kind === 'number' ? expression.of : undefined;
}

const parser = new PhraseParser();

export interface ReadPhrase {
  readonly items: Item[];
  /** The first token that fits nowhere; what stands before it was read. Absent when all was. */
  readonly stoppedAt?: IToken | 'end';
}

/** Reads a phrase's tokens. Never throws: what was read before a mistake is kept. */
export function readPhrase(tokens: readonly IToken[]): ReadPhrase {
  const plain = readPlainPhrase(tokens);
  return plain ? { items: plain } : readPhraseByGrammar(tokens);
}

/** The grammar's own way, which knows arithmetic and finds mistakes. */
export function readPhraseByGrammar(tokens: readonly IToken[]): ReadPhrase {
  const items: Item[] = [];
  parser.input = tokens as IToken[];
  parser.phrase(items);
  const error = parser.errors[0];
  if (!error) return { items };
  const token = error.token;
  const stoppedAt = Number.isNaN(token.startOffset) || token.tokenType.name === 'EOF' ? 'end' : token;
  return { items, stoppedAt };
}

/**
 * Most phrases are words, texts and numbers with their units, without arithmetic. They are read here in one walk, ten
 * times as fast; everything else, and every mistake, is left to the grammar. A test holds the two to the same answer.
 */
function readPlainPhrase(tokens: readonly IToken[]): Item[] | undefined {
  const items: Item[] = [];
  let at = 0;
  while (at < tokens.length) {
    const token = tokens[at]!;
    const next = tokens[at + 1]?.tokenType;
    switch (token.tokenType) {
      case WordToken:
        if (next === Open || continuesMeasure(next)) return undefined;
        items.push(word(token));
        at++;
        break;
      case Of:
        items.push(word(token));
        at++;
        break;
      case TextToken:
        items.push(text(token));
        at++;
        break;
      case DateToken:
        items.push(date(token));
        at++;
        break;
      case NumberToken: {
        const end = readPlainMeasure(tokens, at, items);
        if (end < 0) return undefined;
        at = end;
        break;
      }
      default:
        return undefined;
    }
  }
  return items.slice();
}

/** Reads `12`, `3 mm`, `4 of 1/8 in`, `120 x 80 mm` and says where it ends; -1 for anything more. */
function readPlainMeasure(tokens: readonly IToken[], start: number, into: Item[]): number {
  const parts: NumberExpression[] = [];
  let count: NumberExpression | undefined;
  let at = start;
  for (;;) {
    const token = tokens[at];
    if (token?.tokenType !== NumberToken) return -1;
    let unit = tokens[at + 1];
    if (unit?.tokenType !== UnitToken && unit?.tokenType !== InchMark) unit = undefined;
    parts.push(numberOf(token, unit));
    at += unit ? 2 : 1;
    const next = tokens[at]?.tokenType;
    if (next === Of && !count && parts.length === 1) count = parts.pop();
    else if (next !== Times) {
      if (next === Of || continuesMeasure(next)) return -1;
      break;
    }
    at++;
  }
  if (parts.length > 1) reachBack(parts);
  const from = (count ?? parts[0]!).from;
  const { to } = parts[parts.length - 1]!;
  const measure = { kind: 'measure', parts: parts.slice(), from, to } as const;
  into.push(count ? { ...measure, count } : measure);
  return at;
}

const continuesMeasure = (type: TokenType | undefined): boolean =>
  type === Plus || type === Minus || type === Star || type === Slash || type === Times || type === PlusMinus;

function numberOf(token: IToken, unit: IToken | undefined): NumberExpression {
  const written = numberAsWritten(token.image);
  const from = token.startOffset;
  if (!unit) return { kind: 'number', written, from, to: endOf(token) };
  const known = unit.tokenType === InchMark ? unitOf('in') : unitOf(unit.image);
  const to = endOf(unit);
  if (!known) return { kind: 'number', written, from, to };
  return { kind: 'number', written, unit: known, unitAt: { from: unit.startOffset, to }, from, to };
}
