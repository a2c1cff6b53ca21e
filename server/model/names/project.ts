import { URI, Utils } from 'vscode-uri';
import type { Filled, NameCategory } from '../../../grammar/pattern.ts';
import { readSpec } from '../../../grammar/reader.ts';
import type { Expression, Fix, LetLine, Section, SingleLine, Spec, UseLine } from '../../../grammar/tree.ts';
import { say } from '../../../l10n/say.ts';
import type { Drawing, Unreadable } from '../../geometry/drawings/drawing.ts';
import { Cell, difference, Each, kept, type Same, sameList } from '../../incremental/memo.ts';
import type { Steps } from '../../incremental/steps.ts';
import type { Figure, Finding, FindingFix } from '../values/figure.ts';
import type { Quantity } from '../values/quantity.ts';
import { USUAL_INCH_STEP } from '../values/show.ts';
import { drawingFrom } from './drawn.ts';
import { isLibrary, libraryText } from './library.ts';
import { SectionReading } from './resolution.ts';
import {
  expressionsOf,
  type Named,
  type NotRead,
  type Reference,
  type SpecFile,
  type Told,
  type Use,
} from './spec-file.ts';

/*
 * The files of a project. A file lives as long as it is there, and is told when its text has been read again; everything is
 * worked out when somebody asks, and kept as long as it holds.
 */

/** Where specs come from. The model reads no files itself. */
export interface SpecSource {
  /** The spec at this address; nothing if there is none. */
  read(uri: string): Spec | undefined;
  /** False for an address outside the folders that are open. */
  mayRead(uri: string): boolean;
  /** What is said of one, in words that follow its name, where that is not {@link OUTSIDE}. */
  readonly outside?: string;
  /** The text of a drawing at this address; nothing if there is none. */
  drawing?(uri: string): string | undefined;
  /** Why what lies at this address cannot be read, in words that follow its name: `is a folder`. Nothing if nothing lies there. */
  trouble?(uri: string): string | undefined;
}

class KeptFile implements SpecFile {
  private readonly spec_: Cell<Spec>;
  /** One for each file: what hangs on it goes with the file. */
  readonly telling: Cell<Told>;
  /** Who bears a name in this file, in the order of the text. Also for names that nobody bears but somebody asked for. */
  private readonly bearers = new Map<string, Cell<readonly Named[]>>();
  // Every name may come from another file: what nearly all hangs on must not hang on the whole text.
  private readonly useLines = new Cell<readonly UseLine[]>([], sameList);
  private readonly given = new WeakMap<Section, readonly Named[]>();
  private readonly kinds = new Map<string, Kind>();
  private readonly readings: Each<Section | LetLine, SectionReading>;
  /** What is being worked out, so that what is made from itself is found. */
  readonly busy: string[] = [];

  constructor(
    readonly uri: string,
    spec: Spec,
    private readonly project: Project,
  ) {
    this.spec_ = new Cell<Spec>({ text: '', sections: [] });
    this.telling = new Cell<Told>(project.told);
    this.readings = project.each(undefined, 'reading');
    this.set(spec);
  }

  get spec(): Spec {
    return this.spec_.get();
  }

  get told(): Told {
    return this.telling.get();
  }

  /** The text has been read again. What hangs on sections that stand as they stood stays as it is. */
  set(spec: Spec): void {
    const { gone, come, others } = difference(this.spec_.peek().sections, spec.sections);
    const changed = [...gone, ...come];
    const keys = new Set<string>();
    for (const section of changed) for (const { word } of this.namesIn(section)) keys.add(word.key);
    const now = new Map<string, Named[]>([...keys].map((key) => [key, []]));
    // Of sections that only moved, the order may be another.
    if (others) for (const [key, cell] of this.bearers) if (cell.peek().length > 1) now.set(key, []);
    if (now.size) {
      const left = new Set(gone);
      for (const [key, list] of now)
        for (const named of this.bearers.get(key)?.peek() ?? []) if (!left.has(named.section)) list.push(named);
      for (const section of come) for (const named of this.namesIn(section)) now.get(named.word.key)!.push(named);
    }
    this.spec_.set(spec);
    for (const [key, list] of now) this.cellOf(key).set(list.sort(inOrder));
    const isInPlace = !others && gone.length === come.length;
    for (const { isOne, cell } of this.kinds.values()) {
      if (!others && !changed.some(isOne)) continue;
      // Where one stands in the place of another of its kind, all of a long text need not be looked through.
      const isSame = isInPlace && gone.every((was, i) => isOne(was) === isOne(come[i]!));
      cell.set(isSame ? withReplaced(cell.peek(), gone, come) : spec.sections.filter(isOne));
    }
    if (others || changed.some((section) => section.singles.some(isUse))) this.useLines.set(useLinesOf(spec));
    for (const section of gone) this.project.forget(section);
    this.forgetNames();
  }

  /** The file is no more. */
  end(): void {
    this.project.leave(this.spec_.peek().sections);
  }

  private cellOf(key: string): Cell<readonly Named[]> {
    let cell = this.bearers.get(key);
    if (!cell) {
      cell = new Cell<readonly Named[]>([], sameList);
      this.bearers.set(key, cell);
    }
    return cell;
  }

  /** Every name that was ever half typed would stay otherwise. */
  private forgetNames(): void {
    if (this.bearers.size < 2 * this.spec_.peek().sections.length + 1000) return;
    for (const [key, cell] of this.bearers) if (!cell.peek().length && cell.isUnread()) this.bearers.delete(key);
  }

  /** The drawing that a path in this file leads to; nothing if there is none. */
  drawing(path: string): Drawing | Unreadable | undefined {
    const uri = resolvePath(this.uri, path);
    return uri === undefined ? undefined : this.project.drawing(uri);
  }

  /** Where the drawing lies that a path in this file leads to; nothing if there is none. */
  drawingAt(path: string): string | undefined {
    return this.drawing(path) && resolvePath(this.uri, path);
  }

  /** Why a file is not read that a path in this file leads to, and what was likely meant. */
  notRead(path: string): NotRead {
    const uri = resolvePath(this.uri, path);
    if (uri === undefined) return { why: undefined, near: undefined };
    if (!this.project.source.mayRead(uri))
      return { why: this.project.source.outside ?? OUTSIDE, near: undefined, isOutside: true };
    const trouble = this.project.troubleWith(uri);
    return trouble === undefined
      ? { why: undefined, near: this.project.nearestTo(this.uri, uri) }
      : { why: say`${trouble}, and is not read`, near: undefined };
  }

  // ---- names -------------------------------------------------------------------------------------------------------

  /** What a section and the lines in it give names to. */
  namesIn(section: Section): readonly Named[] {
    let names = this.given.get(section);
    if (!names) {
      const { kind, name } = section;
      names = [
        ...(kind && name && kind.kind !== 'build' ? [{ kind: kind.kind, word: name, section, file: this }] : []),
        ...section.singles.flatMap((single): Named[] =>
          single.kind === 'let' && single.name
            ? [{ kind: 'let', word: single.name, section, file: this, let: single }]
            : [],
        ),
      ];
      this.given.set(section, names);
    }
    return names;
  }

  /** Who bears a name in this file: more than one is one too many. */
  bearersOf(key: string): readonly Named[] {
    return this.cellOf(key).get();
  }

  /** The names given in this file, each with every place that gives it. */
  readonly names = kept((): ReadonlyMap<string, readonly Named[]> => {
    const names = new Map<string, Named[]>();
    for (const section of this.spec.sections) {
      for (const named of this.namesIn(section)) {
        const have = names.get(named.word.key);
        if (have) have.push(named);
        else names.set(named.word.key, [named]);
      }
    }
    return names;
  });

  /** The files that this one uses, in order; without a file where one cannot be read. */
  readonly uses = kept((): readonly KeptUse[] => {
    const uses: KeptUse[] = [];
    for (const line of this.useLines.get()) {
      const uri = line.path && resolvePath(this.uri, line.path.value);
      const file = uri === undefined ? undefined : this.project.file(uri);
      uses.push({ line, ...(uri === undefined ? {} : { uri }), ...(file ? { file } : {}) });
    }
    return uses;
  }, sameUses);

  /** What a name means here: this file's own, else that of a file it uses. */
  find(key: string): Named | undefined {
    return this.bearersOf(key)[0] ?? this.findAmong(key, new Set());
  }

  private findAmong(key: string, seen: Set<KeptFile>): Named | undefined {
    if (seen.has(this)) return undefined;
    seen.add(this);
    const own = this.bearersOf(key)[0];
    if (own) return own;
    for (const { file } of this.uses()) {
      const found = file?.findAmong(key, seen);
      if (found) return found;
    }
    return undefined;
  }

  hasUnread(): boolean {
    for (const file of this.reachable()) if (file.uses().some((use) => !use.file)) return true;
    return false;
  }

  /** Every name that can be used here. */
  visible(): Named[] {
    const names = new Map<string, Named>();
    for (const file of this.reachable())
      for (const [key, [first]] of file.names()) if (first && !names.has(key)) names.set(key, first);
    return [...names.values()];
  }

  /**
   * How the names of some kinds that can be used here are written. As long as they are the same it is the same list, so that
   * of a name that is not among them only a change of names is news, and not every edit.
   */
  wordsOf(kinds: readonly NameCategory[]): readonly string[] {
    const key = kinds.join();
    let words = this.words.get(key);
    if (!words) {
      const [only, ...others] = kinds;
      // Sections of one kind are looked through when one of them has changed; a `let` may stand in any.
      const named =
        only && only !== 'let' && !others.length
          ? () => this.visibleOf(only)
          : () => this.visible().filter(({ kind }) => kinds.includes(kind));
      words = kept(() => named().map(({ word }) => word.text), sameList);
      this.words.set(key, words);
    }
    return words();
  }
  private readonly words = new Map<string, () => readonly string[]>();

  /** Every section of a kind whose name can be used here. One completion asks for it many times over. */
  visibleOf(kind: Exclude<NameCategory, 'let'>): readonly Named[] {
    let seen = this.seen.get(kind);
    if (!seen) {
      seen = kept(() => this.visibleNow(kind), sameList);
      this.seen.set(kind, seen);
    }
    return seen();
  }
  private readonly seen = new Map<string, () => readonly Named[]>();

  private visibleNow(kind: Exclude<NameCategory, 'let'>): readonly Named[] {
    const files = this.reachable();
    // To look for each name by itself hangs on that name alone; through many files it would cost the square of their number.
    const all = files.size > FEW_FILES ? new Set(this.visible()) : undefined;
    return [...files]
      .flatMap((file) => file.sectionsOf(kind).flatMap((section) => file.namesIn(section).slice(0, 1)))
      .filter((named) => named.kind === kind && (all ? all.has(named) : this.find(named.word.key) === named));
  }

  /** This file and all that it uses, each once. */
  private reachable(seen = new Set<KeptFile>()): ReadonlySet<KeptFile> {
    if (seen.has(this)) return seen;
    seen.add(this);
    for (const { file } of this.uses()) file?.reachable(seen);
    return seen;
  }

  sectionsOf(kind: NameCategory | 'build'): readonly Section[] {
    return this.listOf(kind, (section) => section.kind?.kind === kind);
  }

  /** Those that have a name. */
  namedSectionsOf(kind: NameCategory): readonly Section[] {
    return this.listOf(say`named ${kind}`, (section) => section.kind?.kind === kind && section.name !== undefined);
  }

  private listOf(key: string, isOne: Kind['isOne']): readonly Section[] {
    let kind = this.kinds.get(key);
    if (!kind) {
      kind = { isOne, cell: new Cell<readonly Section[]>(this.spec_.peek().sections.filter(isOne), sameList) };
      this.kinds.set(key, kind);
    }
    return kind.cell.get();
  }

  /** The first section of a kind, here or in a file this one uses: the shop, the build. */
  firstSection(
    kind: NameCategory | 'build',
    seen = new Set<KeptFile>(),
  ): { section: Section; file: SpecFile } | undefined {
    if (seen.has(this)) return undefined;
    seen.add(this);
    const section = this.sectionsOf(kind)[0];
    if (section) return { section, file: this };
    if (kind === 'build') return undefined;
    for (const { file } of this.uses()) {
      const found = file?.firstSection(kind, seen);
      if (found) return found;
    }
    return undefined;
  }

  // ---- values and what is wrong ------------------------------------------------------------------------------------

  /** The value of one expression, in its base unit and dimension; nothing when it cannot be said. */
  quantity(expression: Expression, section: Section): Quantity | undefined {
    return this.readingOf(section).quantity(expression);
  }

  /** The quantity of a filled measure slot with one part. */
  quantityOf(filled: Filled, section: Section): Quantity | undefined {
    const expression = expressionsOf(filled)[0];
    return expression && this.quantity(expression, section);
  }

  /** What a `let` comes to. */
  valueOf(line: LetLine): Quantity | undefined {
    const value = line.value?.parts[0];
    return value && this.letReading(line).quantity(value);
  }

  private readingOf(section: Section): SectionReading {
    return this.readings.get(section, () => new SectionReading(this, section));
  }

  /** A `let` belongs to no section: what uses it does not hang on the lines that stand round it. */
  private letReading(line: LetLine): SectionReading {
    return this.readings.get(line, () => new SectionReading(this, line.section, line));
  }

  private readingsIn(section: Section): SectionReading[] {
    const lets = section.singles.filter((single) => single.kind === 'let');
    return [this.readingOf(section), ...lets.map((line) => this.letReading(line))];
  }

  /** What is wrong with the names and the measures of a section. */
  findingsIn(section: Section): readonly Finding[] {
    return this.readingsIn(section).flatMap((reading) => reading.findings());
  }

  /** Every use of a name in a section. */
  referencesIn(section: Section): readonly Reference[] {
    return this.readingsIn(section).flatMap((reading) => reading.references());
  }

  /** What is wrong with the names and the measures of the file. */
  examine(): readonly Finding[] {
    return this.spec.sections.flatMap((section) => this.findingsIn(section));
  }

  /** Every use of a name in this file. */
  references(): readonly Reference[] {
    return this.spec.sections.flatMap((section) => this.referencesIn(section));
  }

  /** The figure of a named thing, by what follows its name. */
  figureOf(named: Named, rest: string): Figure | undefined {
    return this.project.figureOf?.(named, rest);
  }

  /** A fix of the reader's or of this file, with its edits placed. */
  placed(fix: Fix, section: Section): FindingFix {
    return {
      title: fix.title,
      edits: fix.edits.map((edit) => ({
        uri: this.uri,
        place: { section, from: edit.from, to: edit.to },
        text: edit.text,
      })),
    };
  }
}

const librarySpecs = new Map<string, Spec>();

/** A file of the library, read once for all projects: it never changes. */
function librarySpec(uri: string): Spec | undefined {
  let spec = librarySpecs.get(uri);
  const text = spec ? undefined : libraryText(uri);
  if (text !== undefined) {
    spec = readSpec(text);
    librarySpecs.set(uri, spec);
  }
  return spec;
}

const FEW_FILES = 12;

/** All the files of a workspace that something asked for, each read once and again when it is said to have changed. */
export class Project {
  private readonly files = new Map<string, Cell<KeptFile | undefined>>();
  private readonly drawings = new Map<
    string,
    { readonly text: Cell<string | undefined>; readonly drawing: () => Drawing | Unreadable | undefined }
  >();
  /** What was likely meant by files that are not there. */
  private readonly guesses = new Map<
    string,
    { readonly from: string; readonly missing: string; readonly cell: Cell<string | undefined> }
  >();
  /** Why files that are there cannot be read. */
  private readonly troubles = new Map<string, Cell<string | undefined>>();
  private readonly eaches: { drop(key: Section | LetLine): void }[] = [];
  figureOf: ((named: Named, rest: string) => Figure | undefined) | undefined;
  nearestFile: ((from: string, missing: string) => string | undefined) | undefined;

  /** How lengths are told in all of its files. */
  told: Told = { inches: USUAL_INCH_STEP };

  tell(told: Told): void {
    this.told = told;
    for (const file of this.files.values()) file.peek()?.telling.set(told);
  }

  constructor(readonly source: SpecSource) {}

  file(uri: string): KeptFile | undefined {
    let cell = this.files.get(uri);
    if (!cell) {
      const spec = this.read(uri);
      cell = new Cell(spec && new KeptFile(uri, spec, this));
      this.files.set(uri, cell);
    }
    return cell.get();
  }

  /** The drawing at this address; nothing if there is none or it may not be read. */
  drawing(uri: string): Drawing | Unreadable | undefined {
    let have = this.drawings.get(uri);
    if (!have) {
      const text = new Cell(this.drawingText(uri));
      const drawing = kept(() => {
        const now = text.get();
        return now === undefined ? undefined : drawingFrom(uri, now);
      });
      have = { text, drawing };
      this.drawings.set(uri, have);
    }
    return have.drawing();
  }

  private drawingText(uri: string): string | undefined {
    return this.source.mayRead(uri) ? this.source.drawing?.(uri) : undefined;
  }

  private read(uri: string): Spec | undefined {
    return isLibrary(uri) ? librarySpec(uri) : this.source.mayRead(uri) ? this.source.read(uri) : undefined;
  }

  /** What was likely meant by a file that is not there. */
  nearestTo(from: string, missing: string): string | undefined {
    const key = `${from}\n${missing}`;
    let guess = this.guesses.get(key);
    // Who reads the line anew looks anew: not every editor tells what comes and goes.
    if (!guess || guess.cell.isUnread()) {
      guess = { from, missing, cell: new Cell(this.nearestFile?.(from, missing)) };
      this.guesses.set(key, guess);
    }
    return guess.cell.get();
  }

  /** Why a file that is there cannot be read, in words that follow its name. */
  troubleWith(uri: string): string | undefined {
    let cell = this.troubles.get(uri);
    if (!cell || cell.isUnread()) {
      cell = new Cell(this.source.trouble?.(uri));
      this.troubles.set(uri, cell);
    }
    return cell.get();
  }

  /** Another file may be the nearest now to one that is missing; with an address, because something came or went there. */
  lookAround(uri?: string): void {
    for (const [key, { from, missing, cell }] of this.guesses) {
      if (uri !== undefined && folderOf(missing) !== folderOf(uri) && !missing.startsWith(`${uri}/`)) continue;
      // Every path that was ever half typed would stay otherwise.
      if (cell.isUnread()) this.guesses.delete(key);
      else cell.set(this.nearestFile?.(from, missing));
    }
  }

  /** Reads a file again that something asked for before; without an address, every such file. */
  refresh(uri?: string): void {
    if (uri === undefined) this.lookAround();
    for (const each of uri === undefined ? [...this.troubles.keys()] : [uri]) {
      const trouble = this.troubles.get(each);
      // Every path that was ever half typed would stay otherwise.
      if (trouble?.isUnread()) this.troubles.delete(each);
      else trouble?.set(this.source.mayRead(each) ? this.source.trouble?.(each) : undefined);
    }
    for (const each of uri === undefined ? this.drawings.keys() : [uri]) {
      this.drawings.get(each)?.text.set(this.drawingText(each));
    }
    for (const each of uri === undefined ? this.files.keys() : [uri]) {
      const cell = this.files.get(each);
      if (!cell || isLibrary(each)) continue;
      const file = cell.peek();
      const spec = this.read(each);
      if (file && spec) file.set(spec);
      else if (file) {
        cell.set(undefined);
        file.end();
      } else if (spec) cell.set(new KeptFile(each, spec, this));
    }
  }

  /** What is worked out for each section, or for a `let` in it, and forgotten with it. */
  each<T>(same?: Same<T>, what?: string): Each<Section | LetLine, T> {
    const each = new Each<Section | LetLine, T>(same, what);
    this.eaches.push(each);
    return each;
  }

  /** A file with these is no more: there may be many, and they are forgotten as {@link lettingGo} comes to them. */
  leave(sections: readonly Section[]): void {
    this.leaving = [...this.leaving, ...sections];
  }
  private leaving: readonly Section[] = [];

  *lettingGo(): Steps<void> {
    while (this.leaving.length) {
      const some = this.leaving.slice(-LEAVING_AT_ONCE);
      this.leaving = this.leaving.slice(0, -some.length);
      for (const section of some) this.forget(section);
      yield undefined;
    }
  }

  forget(section: Section): void {
    for (const each of this.eaches) {
      each.drop(section);
      for (const single of section.singles) if (single.kind === 'let') each.drop(single);
    }
  }
}

const folderOf = (uri: string): string => uri.slice(0, uri.lastIndexOf('/'));

const LEAVING_AT_ONCE = 500;

const OUTSIDE = 'lies outside the open folder and is not read';

interface KeptUse extends Use {
  readonly file?: KeptFile;
}

const sameUses: Same<readonly KeptUse[]> = (a, b) =>
  a.length === b.length &&
  a.every(({ line, uri, file }, i) => line === b[i]!.line && uri === b[i]!.uri && file === b[i]!.file);

/** The sections of one kind, in the order of the text. */
interface Kind {
  readonly isOne: (section: Section) => boolean;
  readonly cell: Cell<readonly Section[]>;
}

function withReplaced(list: readonly Section[], gone: readonly Section[], come: readonly Section[]): Section[] {
  const now = list.slice();
  for (const [i, was] of gone.entries()) {
    const at = now.indexOf(was);
    if (at >= 0) now[at] = come[i]!;
  }
  return now;
}

const isUse = (single: SingleLine): single is UseLine => single.kind === 'use';

const useLinesOf = (spec: Spec): UseLine[] => spec.sections.flatMap((section) => section.singles.filter(isUse));

const inOrder = (a: Named, b: Named): number => a.section.start - b.section.start || a.word.from - b.word.from;

/** The address that a `use` path means, seen from the file it stands in; nothing for an absolute or empty path. */
function resolvePath(from: string, path: string): string | undefined {
  if (isLibrary(path)) return path;
  if (!path || path.startsWith('/') || path.includes('\\') || path.includes('\0') || /^[a-z][a-z0-9+.-]*:/i.test(path))
    return undefined;
  try {
    return Utils.joinPath(URI.parse(from), '..', path).toString();
  } catch {
    return undefined;
  }
}
