import type { VocabularyLine } from './generated/lines.ts';
import type { SlotType } from './pattern.ts';

/*
 * What can be asked of a line, as types made from the notation of the vocabulary: a slot, a word or a qualifier that the
 * line does not have does not compile. Of a line that may be one of several, what any of them has can be asked.
 */

/** A line that may be any of the language. */
export type AnyLine = VocabularyLine;
export type SectionKind = AnyLine['kind'];

/** The lines of a kind of section, and of these the ones with an id or of a group. */
export type LinesOf<Kind extends SectionKind> = Extract<AnyLine, { readonly kind: Kind }>;
export type LineById<L extends AnyLine, Id> = Extract<L, { readonly id: Id }>;
export type LineOfGroup<L extends AnyLine, Group> = Extract<L, { readonly group: Group }>;

export type PieceLine = LinesOf<'piece'>;

/** What may follow a comma in one of these lines. */
export type QualifierOf<L> = L extends AnyLine ? keyof L['with'] & string : never;

interface Phrase {
  readonly slots: object;
  readonly words: string;
}

/** The line itself, or a qualifier of it. */
export type PhraseOf<L, Q> = Q extends undefined
  ? L
  : L extends AnyLine
    ? Q extends keyof L['with']
      ? L['with'][Q]
      : never
    : never;

export type WordIn<P> = P extends Phrase ? P['words'] : never;

/** The slots of a phrase that are of one of these types. */
export type SlotIn<P, Type = SlotType> = P extends Phrase
  ? { [Name in keyof P['slots'] & string]: P['slots'][Name] extends Type ? Name : never }[keyof P['slots'] & string]
  : never;

/** The types of slot in which a measure of this dimension may stand. */
export type SlotTypeFor<D extends string> =
  | 'measure'
  | (D extends 'length'
      ? 'length' | 'thickness' | 'leather thickness' | 'size' | 'dimensions' | 'count of'
      : D extends 'number'
        ? 'number' | 'count'
        : D extends 'gauge'
          ? 'thickness'
          : D extends 'ounce'
            ? 'leather thickness'
            : D);
