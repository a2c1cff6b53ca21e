import { TextDocument, type TextDocumentContentChangeEvent } from 'vscode-languageserver-textdocument';
import type { Position, Range, TextEdit } from 'vscode-languageserver-types';
import { URI, Utils } from 'vscode-uri';
import { nearest } from '../../../grammar/nearest.ts';
import { type Kept, Reading, readSpec } from '../../../grammar/reader.ts';
import type { Place, Section, Spec } from '../../../grammar/tree.ts';
import type { Problem } from '../../checks/check.ts';
import type { CheckSettings } from '../../checks/run.ts';
import { problemsInSteps, problemsOf } from '../../checks/run.ts';
import { oneByOne, type Steps } from '../../incremental/steps.ts';
import { modelOf } from '../../model/index.ts';
import { isLibrary } from '../../model/names/library.ts';
import { Project } from '../../model/names/project.ts';
import type { SpecFile, Told } from '../../model/names/spec-file.ts';
import type { Model } from '../../model/spec.ts';
import type { FindingFix } from '../../model/values/figure.ts';
import type { System } from '../../model/values/show.ts';
import type { FolderEntry } from '../../requests.ts';
import { changed, type Encoding, offsetAt, positionAt } from './encoding.ts';

/** Files that are not open in the editor. Reached by address, so that a browser can have them too. */
export interface FileHost {
  /** The text; `null` where there is no such file; `undefined` while it is still being fetched. */
  read(uri: string): string | null | undefined;
  /** False for an address outside the folders that are open. */
  mayRead(uri: string): boolean;
  /** Why what lies at an address and gave no text cannot be read, in words that follow its name. */
  trouble?(uri: string): string | undefined;
  /** Waits until nothing is being fetched any more. */
  settled?(): Promise<void>;
  /** Something outside the editor changed this file. */
  forget?(uri: string): void;
  /** What lies in a folder; nothing where that cannot be said, `undefined` while it is being asked for. */
  list?(folder: string): readonly FolderEntry[] | undefined;
  /**
   * Every spec of the open folders: asked for only by what must know them all, such as a rename. `undefined` while they are
   * being looked for.
   */
  specs?(): readonly string[] | undefined;
  /** Who changes all specs must miss none, not even one so new that nobody has told of it. */
  lookAgain?(): void;
}

/** So many specs of the open folders are looked through. */
export const MOST_SPECS = 2_000;

/** A text with its tree: an open document or a file that one uses. */
interface Source {
  /** The address as the editor writes it. */
  readonly uri: string;
  readonly document: TextDocument;
  readonly spec: Spec;
}

/** A text that the editor has open. A long one is read in steps before its tree is asked for; who asks sooner waits for all of it. */
class OpenText implements Source {
  constructor(
    readonly uri: string,
    readonly document: TextDocument,
    private tree?: Spec,
    private readonly reading = new Reading(),
  ) {}

  get spec(): Spec {
    this.tree ??= this.reading.end(this.document.getText());
    return this.tree;
  }

  /** Several may go through them at a time: each step is done once. */
  *inSteps(): Steps<void> {
    this.steps ??= this.reading.through(this.document.getText());
    while (this.tree === undefined) {
      const step = this.steps.next();
      if (step.done) return;
      yield step.value;
    }
  }
  private steps: Steps<void> | undefined;

  changed(document: TextDocument, kept: Kept): OpenText {
    // The old tree gives its sections to the new one and must not be used again.
    const tree = this.tree && readSpec(document.getText(), this.tree, kept);
    return new OpenText(this.uri, document, tree, this.reading);
  }
}

/** So many letters are read in less than a turn. */
const SHORT = 20_000;

/** One spelling for every address: editors differ in what they escape. */
export function sameUri(uri: string): string {
  let same = spellings.get(uri);
  if (same === undefined) {
    same = spelt(uri);
    // Far more than anybody has open; and nothing grows for ever.
    if (spellings.size > 20_000) spellings.clear();
    spellings.set(uri, same);
  }
  return same;
}
/** Taking an address apart is dear, and the same few hundred are asked for over and over. */
const spellings = new Map<string, string>();

function spelt(uri: string): string {
  try {
    return URI.parse(uri).toString();
  } catch {
    return uri;
  }
}

/**
 * What the editor has open and what that uses, as one project that lives as long as the workspace. Of a text that changed
 * only the sections that did are read again, and only what hangs on them is worked out again.
 */
export class Workspace {
  private readonly open_ = new Map<string, OpenText>();
  private readonly used = new Map<string, Source | null>();
  private readonly views = new Map<string, View>();
  /** Another number whenever a text or a setting has changed. */
  revision = 0;
  /** What the editor's columns count. */
  encoding: Encoding = 'utf-16';
  private readonly project: Project;

  constructor(
    private readonly host: FileHost,
    private readonly settingsOf: (uri: string) => CheckSettings = () => ({}),
  ) {
    this.project = new Project({
      mayRead: (uri) => this.open_.has(sameUri(uri)) || this.host.mayRead(uri),
      read: (uri) => this.source(sameUri(uri))?.spec,
      drawing: (uri) => this.hostText(sameUri(uri)) ?? undefined,
      trouble: (uri) => (this.open_.has(sameUri(uri)) ? undefined : this.host.trouble?.(sameUri(uri))),
    });
    this.project.nearestFile = (from, missing) => this.nearestFile(from, missing);
  }

  // ---- what the editor tells ---------------------------------------------------------------------------------------

  open(uri: string, version: number, text: string): void {
    if (typeof text !== 'string') throw new TypeError(`${uri} was opened without a text.`);
    const key = sameUri(uri);
    this.used.delete(key);
    const document = TextDocument.create(uri, 'planish', version, text);
    this.open_.set(key, new OpenText(uri, document));
    this.changed(key);
  }

  change(uri: string, version: number, changes: readonly TextDocumentContentChangeEvent[]): void {
    const key = sameUri(uri);
    const have = this.open_.get(key);
    if (!have) return;
    const { document, kept } = changed(have.document, changes, version, this.encoding, TextDocument.update);
    this.open_.set(key, have.changed(document, kept));
    this.changed(key);
  }

  /** The steps give back what was worked out of it. */
  close(uri: string): Steps<void> {
    const key = sameUri(uri);
    this.open_.delete(key);
    this.host.forget?.(key);
    this.changed(key);
    return this.project.lettingGo();
  }

  /** A file or a folder changed outside the editor. */
  fileChanged(uri: string): void {
    const key = sameUri(uri);
    this.host.forget?.(key);
    this.used.delete(key);
    this.changed(key);
    this.project.lookAround(key);
  }

  /** In which units everything is told, as each build says where none are given, and to what lengths in inches where it does not say. */
  tell({ units, inches }: Told): void {
    this.project.tell({ inches, ...(units ? { units } : {}) });
  }

  /** A text or a setting changed; without an address, any of them may have. */
  changed(key?: string): void {
    this.revision++;
    this.views.clear();
    // What could not be read may be there now.
    const missing = [...this.used].filter(([, source]) => !source).map(([uri]) => uri);
    for (const uri of missing) this.used.delete(uri);
    if (key === undefined) this.project.refresh();
    else for (const uri of new Set([key, ...missing])) this.project.refresh(uri);
  }

  // ---- what features ask -------------------------------------------------------------------------------------------

  isOpen(uri: string): boolean {
    return this.open_.has(sameUri(uri));
  }

  version(uri: string): number | undefined {
    return this.open_.get(sameUri(uri))?.document.version;
  }

  openUris(): string[] {
    return [...this.open_.values()].map(({ uri }) => uri);
  }

  /** A spec with everything that is known of it; nothing if there is no such spec. */
  view(uri: string): View | undefined {
    const key = sameUri(uri);
    const have = this.views.get(key);
    if (have) return have;
    const model = modelOf(this.project, key);
    const source = model && isLibrary(key) ? librarySource(key, model.file.spec) : this.source(key);
    if (!model || !source) return undefined;
    const view = new View(this, source.uri, source.document, source.spec, model, this.settingsOf(source.uri));
    this.views.set(key, view);
    return view;
  }

  /** Reads a long text that was opened, so that afterwards a view of it is quickly made. */
  *reading(uri: string): Steps<void> {
    const open = this.open_.get(sameUri(uri));
    if (open && open.document.getText().length > SHORT) yield* open.inSteps();
  }

  /** Waits until every file that a spec uses has been fetched. A host that reads at once makes nobody wait. */
  async ready(uri: string): Promise<View | undefined> {
    for (let round = 0; round < 20; round++) {
      const view = this.view(uri);
      if (!this.host.settled) return view;
      if (view) {
        const rest = this.resting();
        for (const _ of usedFiles(view.file)) {
          const others = rest();
          if (others) await others;
        }
        if (view.spec.sections.some(draws)) {
          const { revision } = this;
          for (const _ of oneByOne(view.model.pieces(), (piece) => piece.drawnIn())) {
            const others = rest();
            if (!others) continue;
            await others;
            // Another text: what is left of this one is asked for in its own time.
            if (this.revision !== revision) break;
          }
        }
      }
      // Another, where the text has changed while others had their turn.
      if (!(await this.missed())) return this.view(uri);
    }
    return this.view(uri);
  }
  /** Made for one piece of work, and asked between two parts of it: what it gives is to be waited for. */
  resting: () => () => Promise<void> | undefined = () => () => undefined;

  /** Whether something was worked out without a file that had not come yet. Waits for it; then it is to be asked again. */
  async missed(): Promise<boolean> {
    if (!this.waiting) return false;
    await this.host.settled?.();
    // Of several who waited the first sees to it that what was read in part is read anew.
    if (this.waiting) {
      this.waiting = false;
      this.changed();
    }
    return true;
  }
  private waiting = false;

  /** Every spec that is open or lies in the open folders. */
  async specs(): Promise<string[]> {
    this.lookAgain();
    for (;;) {
      const specs = this.folderSpecs();
      if (!(await this.missed())) return [...this.openUris(), ...specs];
    }
  }

  lookAgain(): void {
    this.host.lookAgain?.();
  }

  /** Whether there may be more specs in the open folders than are looked through. */
  hasTooManySpecs(): boolean {
    return this.folderSpecs().length >= MOST_SPECS;
  }

  private folderSpecs(): readonly string[] {
    const specs = this.host.specs?.();
    if (!specs && this.host.specs) this.waiting = true;
    return specs ?? [];
  }

  /** The open specs that a change of this file is seen in: itself, and those that use it, however far. */
  affectedBy(uri: string): string[] {
    const key = sameUri(uri);
    // Asked at every opening, of all that is open: without a view of each, which every opening ends.
    return [...this.open_].flatMap(([open, source]) =>
      open === key || this.reaches(key, open, source) ? [source.uri] : [],
    );
  }

  private reaches(key: string, open: string, { document }: OpenText): boolean {
    // Which drawings a spec reads is known to its figures alone, and drawings change seldom.
    if (!key.endsWith('.planish') && DRAWS.test(document.getText())) return true;
    const own = this.project.file(open);
    if (!own) return false;
    for (const file of usedFiles(own))
      if (file.uri === key || file.uses().some((use) => use.uri !== undefined && sameUri(use.uri) === key)) return true;
    return false;
  }

  /** Every spec in which a name of this file can be used: open ones, those that they use, those in the open folders. */
  *specsAround(view: View, mentions: string): Steps<View[]> {
    const found = new Map<string, View>();
    const add = (uri: string) => {
      const seen = this.view(uri);
      if (!seen || found.has(seen.file.uri)) return;
      found.set(seen.file.uri, seen);
      for (const file of usedFiles(seen.file)) add(file.uri);
    };
    add(view.uri);
    for (const uri of this.openUris()) {
      yield undefined;
      add(uri);
    }
    const wanted = mentions.toLowerCase();
    const specs = this.folderSpecs();
    for (const [done, uri] of specs.entries()) {
      yield done / specs.length;
      const key = sameUri(uri);
      if (found.has(key)) continue;
      const text = this.used.get(key)?.document.getText() ?? this.hostText(key);
      if (text?.normalize('NFC').toLowerCase().includes(wanted)) add(key);
    }
    return [...found.values()];
  }

  /** What lies in a folder, by name. */
  list(folder: string): readonly FolderEntry[] {
    if (!this.host.list || !this.host.mayRead(folder)) return [];
    const entries = this.host.list(folder);
    if (!entries) this.waiting = true;
    return [...(entries ?? [])].sort((a, b) => a.name.localeCompare(b.name));
  }

  /** The same files read anew with some texts replaced: to see what an edit would do before it is offered. */
  imagine(texts: ReadonlyMap<string, string>): Workspace {
    const host: FileHost = {
      mayRead: (uri) => this.host.mayRead(uri),
      // Only specs are read into trees; a drawing is its text.
      read: (uri) =>
        texts.get(uri) ??
        (uri.endsWith('.planish') ? this.source(uri)?.document.getText() : this.hostText(uri)) ??
        null,
    };
    const imagined = new Workspace(host, this.settingsOf);
    imagined.encoding = this.encoding;
    imagined.tell(this.project.told);
    for (const [uri, text] of texts) imagined.open(uri, 0, text);
    return imagined;
  }

  private source(key: string): Source | undefined {
    const open = this.open_.get(key);
    if (open) return open;
    const have = this.used.get(key);
    if (have !== undefined) return have ?? undefined;
    if (!this.host.mayRead(key)) return undefined;
    const text = this.hostText(key);
    if (text === undefined) return undefined;
    const source = text === null ? null : diskSource(key, text);
    this.used.set(key, source);
    return source ?? undefined;
  }

  /** The text of a file that is not open; `null` where there is none, `undefined` while it is being fetched. */
  private hostText(key: string): string | null | undefined {
    const text = this.host.read(key);
    if (text === undefined) this.waiting = true;
    return text;
  }

  private nearestFile(from: string, missing: string): string | undefined {
    const folder = Utils.joinPath(URI.parse(missing), '..');
    const extension = Utils.extname(URI.parse(missing)).toLowerCase() || '.planish';
    const names = this.list(folder.toString())
      .filter((entry) => !entry.isFolder && entry.name.toLowerCase().endsWith(extension))
      .map((entry) => entry.name)
      // What is there and cannot be read is not what was meant.
      .filter((name) => name !== Utils.basename(URI.parse(missing)));
    const name = nearest(Utils.basename(URI.parse(missing)), names);
    return name && relativePath(from, Utils.joinPath(folder, name).toString());
  }
}

/** A spec may name drawings, of its outlines, its pierced work and its hides. */
const DRAWS = /\b(?:outline|pierce|hide)\b[^"“\n]*["“]/i;

/** Whether a section does: asked of all of a text at every key, and most stand as they stood. */
function draws(section: Section): boolean {
  let found = drawing.get(section);
  if (found === undefined) {
    found = DRAWS.test(section.text);
    drawing.set(section, found);
  }
  return found;
}
const drawing = new WeakMap<Section, boolean>();

const diskSource = (uri: string, text: string): Source => ({
  uri,
  document: TextDocument.create(uri, 'planish', 0, text),
  spec: readSpec(text),
});

/** What comes with Planish never changes: its tree is the model's own. */
const librarySource = (uri: string, spec: Spec): Source => ({
  uri,
  document: TextDocument.create(uri, 'planish', 0, spec.text),
  spec,
});

/** A file and all that it uses, each once. */
export function* usedFiles(file: SpecFile): Generator<SpecFile> {
  const seen = new Set<SpecFile>();
  // One may use the next, and that the next, a thousand times: no recursion.
  const open = [file];
  for (let next = open.pop(); next; next = open.pop()) {
    if (seen.has(next)) continue;
    seen.add(next);
    yield next;
    // As many as the text has: no spread into a call.
    for (const { file: used } of [...next.uses()].reverse()) if (used) open.push(used);
  }
}

/** How one file names another in `use`: `../shop/stock.planish`. */
export function relativePath(from: string, to: string): string {
  const start = URI.parse(from).path.split('/').slice(0, -1);
  const end = URI.parse(to).path.split('/');
  let same = 0;
  while (same < start.length && same < end.length - 1 && start[same] === end[same]) same++;
  return [...start.slice(same).map(() => '..'), ...end.slice(same)].join('/');
}

/** One spec as it stands now: its text, its tree, its model. Features ask this and nothing else. */
export class View {
  private problems_: readonly Problem[] | undefined;

  constructor(
    readonly workspace: Workspace,
    readonly uri: string,
    readonly document: TextDocument,
    readonly spec: Spec,
    readonly model: Model,
    private readonly settings: CheckSettings,
  ) {}

  get file(): SpecFile {
    return this.model.file;
  }

  get text(): string {
    return this.spec.text;
  }

  /** How its lines end, as its first one does. */
  get lineEnd(): string {
    return /\r\n|\r|\n/.exec(this.text)?.[0] ?? '\n';
  }

  get system(): System {
    return this.model.units();
  }

  /** Everything that is wrong or worth knowing, worked out once. */
  problems(): readonly Problem[] {
    this.problems_ ??= problemsOf(this.model, this.settings);
    return this.problems_;
  }

  /** The same, section by section. */
  *problemsInSteps(): Steps<readonly Problem[]> {
    this.problems_ ??= yield* problemsInSteps(this.model, this.settings);
    return this.problems_;
  }

  offsetAt(position: Position): number {
    return offsetAt(this.document, position, this.workspace.encoding);
  }

  positionAt(offset: number): Position {
    return positionAt(this.document, offset, this.workspace.encoding);
  }

  range(from: number, to: number): Range {
    return { start: this.positionAt(from), end: this.positionAt(to) };
  }

  /** The line that a section begins on. */
  lineOf(section: Section): number {
    return this.document.positionAt(section.start).line;
  }

  /** A place of this spec. */
  rangeOf(place: Place): Range {
    return this.range(place.section.start + place.from, place.section.start + place.to);
  }

  /** A place of this or another file of the project. */
  locationOf(uri: string, place: Place): { uri: string; range: Range } | undefined {
    const view = this.workspace.view(uri);
    return view && { uri: view.uri, range: view.rangeOf(place) };
  }

  /** The edits of a fix, file by file; nothing if one of its files is gone. */
  editsOf(fix: FindingFix): Record<string, TextEdit[]> | undefined {
    const changes: Record<string, TextEdit[]> = {};
    for (const edit of fix.edits) {
      const at = this.locationOf(edit.uri, edit.place);
      if (!at) return undefined;
      changes[at.uri] = [...(changes[at.uri] ?? []), { range: at.range, newText: edit.text }];
    }
    return changes;
  }

  /** The section in whose text an offset lies. */
  sectionAt(offset: number): Section {
    const { sections } = this.spec;
    let low = 0;
    let high = sections.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (sections[middle]!.start <= offset) low = middle;
      else high = middle - 1;
    }
    return sections[low]!;
  }
}

/** The last part of an address, for people. */
export const shortNameOf = (uri: string): string => uri.slice(uri.lastIndexOf('/') + 1);
