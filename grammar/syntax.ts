import type { UnitWord } from './units.ts';

/*
 * What lines are made of, before anybody knows what they mean: places, words, texts, measures, arithmetic. Offsets as in the tree.
 */

export interface Span {
  readonly from: number;
  readonly to: number;
}

export interface Word extends Span {
  readonly kind: 'word';
  /** As written, in Unicode normal form C. */
  readonly text: string;
  /** What it is compared by: case never counts. */
  readonly key: string;
}

export interface Text extends Span {
  readonly kind: 'text';
  readonly value: string;
}

export interface DateItem extends Span {
  readonly kind: 'date';
  readonly value: string;
}

/** Sizes joined by `x`, a count before `of`, a tolerance after `±`: `4 of 1/8 in`, `1220 x 2440 mm`, `120 mm ± 0.5 mm`. */
export interface Measure extends Span {
  readonly kind: 'measure';
  readonly count?: Expression;
  readonly parts: readonly Expression[];
  readonly tolerance?: Expression;
}

export type Item = Word | Text | DateItem | Measure;

export interface NumberExpression extends Span {
  readonly kind: 'number';
  /** As written, in the spelling the formatter uses: `12`, `0.032`, `1/8`, `2 1/2`. */
  readonly written: string;
  /** The unit that follows; or the one that reaches back from later in the group (then `unitAt` is absent). */
  unit?: UnitWord;
  readonly unitAt?: Span;
}

export interface NameExpression extends Span {
  readonly kind: 'name';
  readonly name: Word;
}

export interface NegateExpression extends Span {
  readonly kind: 'negate';
  readonly of: Expression;
}

export interface BinaryExpression extends Span {
  readonly kind: 'binary';
  readonly operator: '+' | '-' | '*' | '/';
  readonly operatorAt: Span;
  readonly left: Expression;
  readonly right: Expression;
}

export interface CallExpression extends Span {
  readonly kind: 'call';
  readonly name: Word;
  readonly arguments: readonly Expression[];
}

export type Expression = NumberExpression | NameExpression | NegateExpression | BinaryExpression | CallExpression;

/** A run of items between commas. */
export interface Phrase extends Span {
  readonly items: readonly Item[];
  /** A mistake in it is marked already: what else does not fit is not marked again. */
  readonly broken?: true;
}
