import type { Filled, NameCategory } from '../../../grammar/pattern.ts';
import type { Expression, Fix, LetLine, Place, Section, Spec, UseLine, Word } from '../../../grammar/tree.ts';
import { listWord } from '../../../grammar/vocabulary/index.ts';
import type { Drawing, Unreadable } from '../../geometry/drawings/drawing.ts';
import type { Figure, Finding, FindingFix } from '../values/figure.ts';
import type { Quantity } from '../values/quantity.ts';
import type { InchStep, UnitName } from '../values/show.ts';

/*
 * What is known of a spec file and of the names in it. The project keeps the files: see `project.ts`.
 */

export interface Named {
  readonly kind: NameCategory;
  readonly word: Word;
  readonly section: Section;
  readonly file: SpecFile;
  readonly let?: LetLine;
}

/** A place where a name is used. */
export interface Reference extends Place {
  /** The name as written here, without what follows a dot. */
  readonly key: string;
  readonly target: Named | undefined;
}

/** One spec file: its names, what refers to them, and what the measures in it come to. It lives as long as it is there. */
/** How lengths are told, whoever reads them. */
export interface Told {
  /** The units that the reader wants, whatever a build says. */
  readonly units?: UnitName;
  /** To what lengths in inches are told where the build does not say. */
  readonly inches: InchStep;
}

export interface SpecFile {
  readonly uri: string;
  readonly spec: Spec;
  /** How lengths are told in it. */
  readonly told: Told;
  /** What is being worked out, so that what is made from itself is found. */
  readonly busy: string[];

  /** The drawing that a path in this file leads to; nothing if there is none. */
  drawing(path: string): Drawing | Unreadable | undefined;
  /** Where the drawing lies that a path in this file leads to; nothing if there is none. */
  drawingAt(path: string): string | undefined;
  /** Why a file is not read that a path in this file leads to, and what was likely meant. */
  notRead(path: string): NotRead;

  /** What a section and the lines in it give names to. */
  namesIn(section: Section): readonly Named[];
  /** Who bears a name in this file: more than one is one too many. */
  bearersOf(key: string): readonly Named[];
  /** The names given in this file, each with every place that gives it. */
  names(): ReadonlyMap<string, readonly Named[]>;
  /** The files that this one uses, in order; without a file where one cannot be read. */
  uses(): readonly Use[];
  /** A file that this one uses, or that one of them does, cannot be read: what it gives names to is not known. */
  hasUnread(): boolean;
  /** What a name means here: this file's own, else that of a file it uses. */
  find(key: string): Named | undefined;
  /** Every name that can be used here. */
  visible(): Named[];
  /**
   * How the names of some kinds that can be used here are written. As long as they are the same it is the same list, so that
   * of a name that is not among them only a change of names is news, and not every edit.
   */
  wordsOf(kinds: readonly NameCategory[]): readonly string[];
  /** Every section of a kind whose name can be used here. */
  visibleOf(kind: Exclude<NameCategory, 'let'>): readonly Named[];
  sectionsOf(kind: NameCategory | 'build'): readonly Section[];
  /** Those that have a name. */
  namedSectionsOf(kind: NameCategory): readonly Section[];
  /** The first section of a kind, here or in a file this one uses: the shop, the build. */
  firstSection(kind: NameCategory | 'build'): { section: Section; file: SpecFile } | undefined;

  /** The value of one expression, in its base unit and dimension; nothing when it cannot be said. */
  quantity(expression: Expression, section: Section): Quantity | undefined;
  /** The quantity of a filled measure slot with one part. */
  quantityOf(filled: Filled, section: Section): Quantity | undefined;
  /** What a `let` comes to. */
  valueOf(line: LetLine): Quantity | undefined;
  /** The figure of a named thing, by what follows its name. */
  figureOf(named: Named, rest: string): Figure | undefined;

  /** What is wrong with the names and the measures of a section. */
  findingsIn(section: Section): readonly Finding[];
  /** Every use of a name in a section. */
  referencesIn(section: Section): readonly Reference[];
  /** What is wrong with the names and the measures of the file. */
  examine(): readonly Finding[];
  /** Every use of a name in this file. */
  references(): readonly Reference[];
  /** A fix of the reader's or of this file, with its edits placed. */
  placed(fix: Fix, section: Section): FindingFix;
}

/** A `use` line with what it leads to. */
export interface Use {
  readonly line: UseLine;
  readonly uri?: string;
  readonly file?: SpecFile;
}

/** Of a file that a line names. */
export interface NotRead {
  /** What hinders, in words that follow its name; nothing where it is not there. */
  readonly why: string | undefined;
  /** A file with nearly its name, as it would be written. */
  readonly near: string | undefined;
  /** It lies where nothing is read from. */
  readonly isOutside?: true;
}

/** The expressions that fill a measure slot; a lone word stands for the measure of that name. */
export function expressionsOf(filled: Filled): readonly Expression[] {
  const item = filled.items[0];
  if (item?.kind === 'measure') return item.parts;
  if (item?.kind !== 'word') return [];
  let expression = named.get(item);
  if (!expression) {
    expression = { kind: 'name', name: item, from: item.from, to: item.to };
    named.set(item, expression);
  }
  return [expression];
}
/** One expression a word, so that its value is remembered. */
const named = new WeakMap<Word, Expression>();

/** `head round` as it is written in arithmetic: `head-round`; `elbow round bent` is `bent-elbow-round`. */
export function hyphened(words: string): string {
  return (listWord('body measure', words) ?? words).replaceAll(' ', '-');
}
