import type { Bound, LineWord, SectionWord } from './pattern.ts';
import type { UnitWord } from './units.ts';

/**
 * The syntax tree of a spec. Offsets count UTF-16 units from the start of the node's section, and a section knows where
 * it starts in the document: so an edit moves the sections after it without touching what is inside them.
 */
export interface Span {
  readonly from: number;
  readonly to: number;
}

export interface Place extends Span {
  readonly section: Section;
}

/** A place as offsets in its document. */
export const absolute = (place: Place): Span => ({
  from: place.section.start + place.from,
  to: place.section.start + place.to,
});

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

export interface Comment extends Span {
  /** Without its `#` marks. */
  readonly text: string;
  /** `##` lines stand right above what they are about, and are printed with it. */
  readonly isNote: boolean;
}

/** A trailing `# allow slug: why`. */
export interface Excuse extends Span {
  readonly code: string;
  readonly codeAt: Span;
  readonly why: string;
}

export interface Line extends Span {
  readonly section: Section;
  readonly phrases: readonly Phrase[];
  readonly notes: readonly Comment[];
  readonly excuse?: Excuse;
  /** What the line says, as far as it was understood. */
  readonly word?: LineWord;
  readonly head?: Bound;
  readonly qualifiers: readonly Bound[];
}

/** `use "path"`, `let name = …` and `planish 1`: they belong to no section. */
export interface UseLine extends Span {
  readonly kind: 'use';
  readonly section: Section;
  readonly path?: Text;
}

export interface LetLine extends Span {
  readonly kind: 'let';
  readonly section: Section;
  readonly name?: Word;
  readonly value?: Measure;
  readonly notes: readonly Comment[];
  readonly excuse?: Excuse;
}

export interface VersionLine extends Span {
  readonly kind: 'version';
  readonly section: Section;
  readonly number?: string;
}

export type SingleLine = UseLine | LetLine | VersionLine;

export interface Edit extends Span {
  readonly text: string;
}

export interface Fix {
  readonly title: string;
  readonly edits: readonly Edit[];
}

/** What is wrong with the writing itself. What is wrong with the armour is found by the checks. */
export interface Problem extends Span {
  readonly code: ProblemCode;
  readonly message: string;
  readonly fixes: readonly Fix[];
}

export type ProblemCode =
  | 'unknown-word'
  | 'section-wrong'
  | 'line-twice'
  | 'line-missing'
  | 'line-unfinished'
  | 'line-outside-section'
  | 'number-form'
  | 'sign-spacing'
  | 'text-open'
  | 'mark-unknown'
  | 'comma-stray'
  | 'name-missing'
  | 'name-reserved'
  | 'version-unknown'
  | 'unit-missing'
  | 'unit-mismatch'
  | 'excuse-unclear'
  | 'nested-too-deep'
  | 'too-long';

export interface Section {
  /** The section's word, absent before the first header and under an unknown word. */
  readonly kind?: SectionWord;
  /** Where it starts in the document. Set by the document when text before it changes; nothing else writes it. */
  start: number;
  readonly text: string;
  readonly header?: Span;
  /** The kind as written. */
  readonly kindAt?: Word;
  readonly name?: Word;
  readonly title?: Text;
  readonly notes: readonly Comment[];
  readonly lines: readonly Line[];
  readonly singles: readonly SingleLine[];
  readonly comments: readonly Comment[];
  readonly problems: readonly Problem[];
  /** Where reading stopped, if there is more than is read (`limits.ts`). */
  readonly unreadFrom?: number;
}

/** A whole spec as read. */
export interface Spec {
  readonly text: string;
  readonly sections: readonly Section[];
}
