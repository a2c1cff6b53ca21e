import type { Bound, LineWord, SectionWord } from './pattern.ts';
import type { Measure, Phrase, Span, Text, Word } from './syntax.ts';

export type {
  CallExpression,
  DateItem,
  Expression,
  Item,
  Measure,
  NameExpression,
  NumberExpression,
  Phrase,
  Span,
  Text,
  Word,
} from './syntax.ts';

/*
 * The syntax tree of a spec. Offsets count UTF-16 units from the start of the node's section, and a section knows where
 * it starts in the document: so an edit moves the sections after it without touching what is inside them.
 */

export interface Place extends Span {
  readonly section: Section;
}

/** A place as offsets in its document. */
export const absolute = (place: Place): Span => ({
  from: place.section.start + place.from,
  to: place.section.start + place.to,
});

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
