import { URI, Utils } from 'vscode-uri';
import { anyOf, nearest } from '../../grammar/nearest.ts';
import { bareNumber } from '../../grammar/parser.ts';
import {
  type Bound,
  dimensionsOf,
  type Filled,
  isMeasure,
  type NameCategory,
  type SlotType,
} from '../../grammar/pattern.ts';
import { readSpec } from '../../grammar/reader.ts';
import type {
  Expression,
  Fix,
  LetLine,
  Line,
  Measure,
  NameExpression,
  Place,
  Section,
  Span,
  Spec,
  Text,
  UseLine,
  Word,
} from '../../grammar/tree.ts';
import { type Dimension, unitsFor } from '../../grammar/units.ts';
import { listWord, wordLists } from '../../grammar/vocabulary/index.ts';
import type { Figure, Finding, FindingFix, Related } from './figure.ts';
import { isLibrary, LIBRARY_SCHEME, library, libraryText } from './library.ts';
import { DIMENSION_NAMES, dimensionOfUnit, evaluate, numberOf, type Quantity } from './quantity.ts';

/*
 * One spec file: its names, what refers to them, and the value of every measure in it. Everything is worked out when
 * somebody asks, once.
 */

/** Where specs come from. The model reads no files itself. */
export interface SpecSource {
  /** The spec at this address; nothing if there is none. */
  read(uri: string): Spec | undefined;
  /** False for an address outside the folders that are open. */
  mayRead(uri: string): boolean;
}

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

const WANTED: Partial<Record<SlotType, readonly NameCategory[]>> = {
  copy: ['piece', 'part', 'joint'],
  surface: ['piece', 'rivet', 'part', 'joint'],
  step: ['piece', 'finish', 'seam', 'joint', 'hinge'],
};

const NAME_TYPES = new Set<string>([
  'piece',
  'material',
  'rivet',
  'part',
  'wearer',
  'seam',
  'hinge',
  'joint',
  'finish',
  'shop',
  'rules',
  'order',
  'log',
]);

/** Slots whose measure must be above nought; the others may be nought, and the signed ones below it. */
const POSITIVE = new Set([
  'diameter',
  'size',
  'deep',
  'girth',
  'top',
  'bottom',
  'high',
  'thickness',
  'wide',
  'long',
  'every',
  'holes',
  'hem',
  'wrap',
  'hollow',
  'coats',
  'pack',
  'scale',
  'rows',
  'gores',
  'wire',
  'cord',
  'teeth',
  'make',
  'count',
  'pitch',
  'area',
  'density',
  'washer',
  'knuckles',
  'sizes',
  'grits',
  'blank',
  'value',
  'diameters',
]);
const SIGNED = new Set(['from', 'to', 'heat', 'right', 'up', 'along', 'across', 'height', 'offset', 'at']);

/** Counts past this are a slip of the finger. */
export const LARGEST_COUNT = 10_000;

export class SpecFile {
  private readonly values = new Map<Expression, Quantity | null>();
  private readonly busy: { readonly label: string; readonly place: Place }[] = [];
  /** What is wrong with names and units. Filled by {@link examine}. */
  private readonly findings: Finding[] = [];
  /** What was found already, by section: a value can be asked for from several places and is marked once. */
  private readonly said = new Map<Section, Set<string>>();
  private readonly references_: Reference[] = [];
  private readonly figureLookup: (named: Named, rest: string) => Figure | undefined;
  private examined = false;

  constructor(
    readonly uri: string,
    readonly spec: Spec,
    private readonly project: Project,
  ) {
    this.figureLookup = (named, rest) => project.figureOf?.(named, rest);
  }

  // ---- names -------------------------------------------------------------------------------------------------------

  /** The names given in this file, each with every place that gives it. */
  readonly names = once((): ReadonlyMap<string, readonly Named[]> => {
    const names = new Map<string, Named[]>();
    const add = (word: Word, named: Omit<Named, 'word' | 'file'>) => {
      const have = names.get(word.key);
      const full: Named = { ...named, word, file: this };
      if (have) have.push(full);
      else names.set(word.key, [full]);
    };
    for (const section of this.spec.sections) {
      if (section.kind && section.name && section.kind.kind !== 'build')
        add(section.name, { kind: section.kind.kind, section });
      for (const single of section.singles) {
        if (single.kind === 'let' && single.name) add(single.name, { kind: 'let', section, let: single });
      }
    }
    return names;
  });

  /** The files that this one uses, in order, with what is wrong where one cannot be read. */
  readonly uses = once((): readonly { readonly line: UseLine; readonly uri?: string; readonly file?: SpecFile }[] => {
    return this.spec.sections.flatMap((section) =>
      section.singles
        .filter((single): single is UseLine => single.kind === 'use')
        .map((line) => {
          if (!line.path) return { line };
          const uri = resolvePath(this.uri, line.path.value);
          if (!uri) return { line };
          const file = this.project.file(uri);
          return { line, uri, ...(file ? { file } : {}) };
        }),
    );
  });

  /** What a name means here: this file's own, else that of a file it uses. */
  find(key: string): Named | undefined {
    let found = this.found_.get(key);
    if (found === undefined) {
      found = this.findAmong(key, new Set()) ?? null;
      this.found_.set(key, found);
    }
    return found ?? undefined;
  }
  private readonly found_ = new Map<string, Named | null>();

  private findAmong(key: string, seen: Set<SpecFile>): Named | undefined {
    if (seen.has(this)) return undefined;
    seen.add(this);
    const own = this.names().get(key)?.[0];
    if (own) return own;
    for (const { file } of this.uses()) {
      const found = file?.findAmong(key, seen);
      if (found) return found;
    }
    return undefined;
  }

  /** Every name that can be used here. */
  visible(): Named[] {
    const names = new Map<string, Named>();
    const visit = (file: SpecFile, seen: Set<SpecFile>) => {
      if (seen.has(file)) return;
      seen.add(file);
      for (const [key, [first]] of file.names()) if (first && !names.has(key)) names.set(key, first);
      for (const used of file.uses()) if (used.file) visit(used.file, seen);
    };
    visit(this, new Set());
    return [...names.values()];
  }

  sectionsOf(kind: NameCategory | 'build'): Section[] {
    return this.spec.sections.filter((section) => section.kind?.kind === kind);
  }

  /** The first section of a kind, here or in a file this one uses: the shop, the build. */
  firstSection(
    kind: NameCategory | 'build',
    seen = new Set<SpecFile>(),
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

  // ---- values ------------------------------------------------------------------------------------------------------

  /** The value of one expression, in its base unit and dimension; nothing when it cannot be said. */
  quantity(expression: Expression, section: Section): Quantity | undefined {
    const have = this.values.get(expression);
    if (have !== undefined) return have ?? undefined;
    const quantity = evaluate(expression, {
      lookup: (name) => this.lookup(name, section),
      report: (code, at, message, fixes) => this.found(code, section, at, message, fixes),
    });
    this.values.set(expression, quantity ?? null);
    return quantity;
  }

  private lookup(expression: NameExpression, section: Section): Quantity | undefined {
    const { name } = expression;
    const [first, ...rest] = name.key.split('.');
    const named = this.find(first!);
    if (!named) {
      this.unknownName({ ...name, text: name.text.split('.')[0]!, key: first! }, section, [
        'let',
        'piece',
        'wearer',
        'material',
        'seam',
      ]);
      return undefined;
    }
    this.references_.push({
      section,
      from: name.from,
      to: name.from + named.word.text.length,
      key: first!,
      target: named,
    });
    if (named.let) {
      if (rest.length) {
        this.found(
          'unknown-name',
          section,
          name,
          `“${named.word.text}” is a measure itself and has no “${rest.join('.')}”.`,
        );
        return undefined;
      }
      return this.letValue(named, name, section);
    }
    if (!rest.length || (rest.length === 1 && rest[0] === '')) {
      this.found(
        'unit-mismatch',
        section,
        name,
        `“${named.word.text}” is a ${named.kind}, not a measure: write ${named.word.text}. and the figure you mean.`,
      );
      return undefined;
    }
    if (named.kind === 'wearer') return this.bodyMeasure(named, rest.join('.'), name, section);
    const figure = this.guarded(name.text, { section, from: name.from, to: name.to }, () =>
      this.figureLookup(named, rest.join('.')),
    );
    if (figure === 'circle') return undefined;
    // A circle found on the way is the reason, and has its own message.
    if (!figure && this.isCircle(expression, section)) return undefined;
    if (!figure) {
      this.found(
        'unknown-name',
        section,
        name,
        `“${named.word.text}” has no figure “${rest.join('.')}”, or it cannot be worked out yet.`,
      );
      return undefined;
    }
    return { value: figure.value, dimension: dimensionOfUnit(figure.unit) };
  }

  private isCircle(at: Span, section: Section): boolean {
    return this.findings.some(
      ({ code, place }) =>
        code === 'definition-circle' && place.section === section && place.from >= at.from && place.to <= at.to,
    );
  }

  private letValue(named: Named, name: Word, section: Section): Quantity | undefined {
    const line = named.let!;
    if (!line.value) return undefined;
    const value = line.value.parts[0]!;
    const result = named.file.guarded(named.word.text, { section, from: name.from, to: name.to }, () =>
      named.file.quantity(value, line.section),
    );
    return result === 'circle' ? undefined : result;
  }

  /** Runs `compute` unless it is running already: then what is being defined needs itself. */
  private guarded<T>(label: string, place: Place, compute: () => T): T | 'circle' {
    const key = label.toLowerCase();
    const start = this.busy.findIndex((entry) => entry.label.toLowerCase() === key);
    if (start >= 0) {
      const circle = [...this.busy.slice(start).map((entry) => entry.label), label].join(' → ');
      this.found('definition-circle', place.section, place, `${label} is made from itself: ${circle}.`);
      return 'circle';
    }
    this.busy.push({ label, place });
    try {
      return compute();
    } finally {
      this.busy.pop();
    }
  }

  private bodyMeasure(named: Named, key: string, name: Word, section: Section): Quantity | undefined {
    const line = named.section.lines.find(
      (each) => each.word?.id === 'measure' && hyphened(each.head?.slots.get('measure')?.[0]?.text ?? '') === key,
    );
    const filled = line?.head?.slots.get('value')?.[0];
    if (!filled) {
      const have = named.section.lines
        .flatMap((each) => each.head?.slots.get('measure')?.[0]?.text ?? [])
        .map(hyphened);
      const near =
        nearest(key, have) ??
        nearest(
          key,
          wordLists['body measure'].map((entry) => hyphened(entry.word)),
        );
      const known = have.includes(near ?? '');
      this.found(
        'unknown-name',
        section,
        name,
        near
          ? known
            ? `“${named.word.text}” has no measure “${key}”: did you mean “${near}”?`
            : `“${named.word.text}” does not give its ${near.replaceAll('-', ' ')}.`
          : `“${named.word.text}” has no measure “${key}”.`,
        known
          ? [
              {
                title: `Change to ${named.word.text}.${near}`,
                edits: [{ from: name.from, to: name.to, text: `${named.word.text}.${near}` }],
              },
            ]
          : [],
      );
      return undefined;
    }
    return named.file.quantityOf(filled, named.section);
  }

  /** The quantity of a filled measure slot with one part. */
  quantityOf(filled: Filled, section: Section): Quantity | undefined {
    const expression = expressionsOf(filled)[0];
    return expression && this.quantity(expression, section);
  }

  // ---- names and units, examined once ------------------------------------------------------------------------------

  /** Looks at every name and every measure of the file once, and says what is wrong with them. */
  examine(): readonly Finding[] {
    if (this.examined) return this.findings;
    this.examined = true;
    this.examineNames();
    this.examineUses();
    for (const section of this.spec.sections) {
      for (const line of section.lines) {
        if (line.head) this.examineBound(line.head, line);
        for (const qualifier of line.qualifiers) this.examineBound(qualifier, line);
      }
      for (const single of section.singles) {
        if (single.kind === 'let' && single.value) this.examineLet(single);
      }
    }
    return this.findings;
  }

  /** Every use of a name in this file. */
  references(): readonly Reference[] {
    this.examine();
    return this.references_;
  }

  private examineLet(line: LetLine): void {
    const value = line.value!;
    if (value.parts.length > 1 || value.count) {
      this.found('unit-mismatch', line.section, value, 'A let holds one measure, not a size.');
    }
    if (!line.name) {
      this.quantity(value.parts[0]!, line.section);
      return;
    }
    const result = this.guarded(line.name.text, { section: line.section, from: line.name.from, to: line.name.to }, () =>
      this.quantity(value.parts[0]!, line.section),
    );
    if (result !== 'circle' && result && !Number.isFinite(numberOf(result))) {
      this.found('number-impossible', line.section, value, 'This comes to no finite number.');
    }
  }

  private examineNames(): void {
    for (const [key, all] of this.names()) {
      const first = all[0]!;
      for (const again of all.slice(1)) {
        this.found(
          'name-twice',
          again.section,
          again.word,
          `“${again.word.text}” is the name of a ${first.kind} already.`,
          [],
          [this.related(first, 'the first one')],
        );
      }
      for (const { file, line } of this.uses()) {
        const other = file?.find(key);
        if (other && other.file !== this && !isLibrary(other.file.uri)) {
          this.found(
            'name-twice',
            first.section,
            first.word,
            `“${first.word.text}” is also the name of a ${other.kind} in “${line.path?.value}”.`,
            [],
            [this.related(other, 'the other one')],
          );
          break;
        }
      }
    }
  }

  private related(named: Named, message: string): Related {
    return {
      uri: named.file.uri,
      place: { section: named.section, from: named.word.from, to: named.word.to },
      message,
    };
  }

  private examineUses(): void {
    for (const use of this.uses()) {
      const { line } = use;
      if (!line.path) continue;
      if (!use.uri) {
        this.found(
          'use-missing',
          line.section,
          line.path,
          'A use names a file relative to this one, such as "../shop/stock.planish".',
        );
      } else if (isLibrary(use.uri)) {
        if (!use.file) this.missingLibrary(line, line.path);
      } else if (!this.project.source.mayRead(use.uri)) {
        this.found(
          'use-missing',
          line.section,
          line.path,
          `“${line.path.value}” lies outside the open folder and is not read.`,
        );
      } else if (!use.file) {
        const near = this.project.nearestFile?.(this.uri, use.uri);
        this.found(
          'use-missing',
          line.section,
          line.path,
          near ? `There is no “${line.path.value}”: did you mean “${near}”?` : `There is no “${line.path.value}”.`,
          near
            ? [{ title: `Change to "${near}"`, edits: [{ from: line.path.from, to: line.path.to, text: `"${near}"` }] }]
            : [],
        );
      } else {
        const circle = this.circleThrough(use.file);
        if (circle)
          this.found(
            'use-circle',
            line.section,
            line.path,
            `These files use each other in a circle: ${circle.map(nameOfFile).join(' → ')}.`,
          );
      }
    }
  }

  private missingLibrary(line: UseLine, path: Text): void {
    const names = library.map(({ name }) => `${LIBRARY_SCHEME}${name}`);
    const near = nearest(path.value, names);
    this.found(
      'use-missing',
      line.section,
      path,
      `Planish brings no “${path.value}”${near ? `: did you mean “${near}”?` : `. It brings ${anyOf(names)}.`}`,
      near ? [{ title: `Change to "${near}"`, edits: [{ from: path.from, to: path.to, text: `"${near}"` }] }] : [],
    );
  }

  /** The way back to this file from one that it uses. */
  private circleThrough(start: SpecFile): string[] | undefined {
    const seen = new Set<SpecFile>();
    const queue: { file: SpecFile; way: string[] }[] = [{ file: start, way: [this.uri, start.uri] }];
    for (let next = queue.shift(); next; next = queue.shift()) {
      if (next.file === this) return next.way;
      if (seen.has(next.file)) continue;
      seen.add(next.file);
      for (const { file } of next.file.uses()) if (file) queue.push({ file, way: [...next.way, file.uri] });
    }
    return undefined;
  }

  private examineBound(bound: Bound, line: Line): void {
    for (const [slot, all] of bound.slots) {
      for (const filled of all) {
        if (isMeasure(filled.type)) this.examineMeasure(slot, filled, line);
        else this.examineName(filled, line);
      }
    }
  }

  private examineName(filled: Filled, line: Line): void {
    const { section } = line;
    const items = filled.items.filter((item): item is Word => item.kind === 'word');
    switch (filled.type) {
      case 'edge': {
        const word = items[0]!;
        const [first, ...rest] = word.key.split('.');
        if (!rest.length) return;
        this.refer({ ...word, text: word.text.split('.')[0]!, key: first!, to: word.from + first!.length }, section, [
          'piece',
        ]);
        return;
      }
      case 'copy':
      case 'surface':
      case 'step': {
        const word =
          filled.copy || ((items[0]?.key === 'left' || items[0]?.key === 'right') && items.length > 1)
            ? items[1]
            : items[0];
        if (word) this.refer(word, section, WANTED[filled.type]!);
        return;
      }
      default:
        if (NAME_TYPES.has(filled.type)) this.refer(items[0]!, section, [filled.type as NameCategory]);
    }
  }

  private refer(word: Word, section: Section, wanted: readonly NameCategory[]): void {
    const target = this.find(word.key);
    this.references_.push({ section, from: word.from, to: word.to, key: word.key, target });
    if (!target) this.unknownName(word, section, wanted);
    else if (!wanted.includes(target.kind)) {
      this.found(
        'unknown-name',
        section,
        word,
        `“${word.text}” is a ${target.kind}; ${anyOf(wanted.map((kind) => `a ${kind}`))} is wanted here.`,
        [],
        [this.related(target, `${target.kind} ${target.word.text}`)],
      );
    }
  }

  private unknownName(word: Word, section: Section, wanted: readonly NameCategory[]): void {
    const options = this.visible()
      .filter((named) => wanted.includes(named.kind))
      .map((named) => named.word.text);
    const near = nearest(word.key, options);
    const kinds = anyOf(wanted.slice(0, 2).map((kind) => kind));
    const others = options.length ? ` There is ${anyOf(options, 5)}.` : '';
    this.found(
      'unknown-name',
      section,
      word,
      near
        ? `There is no ${kinds} “${word.text}”: did you mean “${near}”?`
        : `There is no ${kinds} “${word.text}”.${others}`,
      near ? [{ title: `Change to ${near}`, edits: [{ from: word.from, to: word.to, text: near }] }] : [],
    );
  }

  private examineMeasure(slot: string, filled: Filled, line: Line): void {
    const { section } = line;
    const item = filled.items[0]!;
    const measure = item.kind === 'measure' ? item : undefined;
    this.examineShape(filled, measure, section);
    const expressions = expressionsOf(filled);
    for (const expression of expressions) {
      const quantity = this.quantity(expression, section);
      if (quantity) this.examineQuantity(slot, filled.type, expression, quantity, section);
    }
    if (measure?.count) this.examineCount(measure.count, section);
    if (measure?.tolerance) {
      const quantity = this.quantity(measure.tolerance, section);
      if (quantity) this.examineQuantity('tolerance', filled.type, measure.tolerance, quantity, section);
    }
  }

  /** Whether it has as many parts as the slot wants. */
  private examineShape(filled: Filled, measure: Measure | undefined, section: Section): void {
    const parts = measure?.parts.length ?? 1;
    const at = filled;
    if (filled.type === 'size' && parts !== 2) {
      this.found(
        'line-unfinished',
        section,
        at,
        parts < 2 ? 'Two lengths are wanted, joined by x: 120 x 80 mm.' : 'Two lengths are wanted, and here are more.',
      );
    } else if (filled.type === 'dimensions' && parts > 2) {
      this.found('line-unfinished', section, at, 'One or two lengths are wanted, and here are more.');
    } else if (filled.type !== 'size' && filled.type !== 'dimensions' && parts > 1) {
      this.found('unit-mismatch', section, at, 'One measure is wanted here, not a size.');
    }
    if (filled.type === 'count of' && !measure?.count)
      this.found('line-unfinished', section, at, 'How many? Write 6 of 1/8 in.');
    if (filled.type !== 'count of' && measure?.count)
      this.found('unit-mismatch', section, at, 'A count “of” a size does not fit here.');
  }

  private examineCount(expression: Expression, section: Section): void {
    const quantity = this.quantity(expression, section);
    if (quantity) this.examineQuantity('count', 'count', expression, quantity, section);
  }

  private examineQuantity(slot: string, type: SlotType, at: Expression, quantity: Quantity, section: Section): void {
    const wanted = dimensionsOf(type);
    if (type === 'count' || type === 'number') {
      if (quantity.dimension !== 'number') {
        this.found(
          'unit-mismatch',
          section,
          at,
          `${type === 'count' ? 'A count' : 'This number'} has no unit: here is ${DIMENSION_NAMES[quantity.dimension]}.`,
        );
        return;
      }
    } else if (wanted.length && !wanted.includes(quantity.dimension as Dimension)) {
      if (quantity.dimension === 'number') {
        this.unitMissing(wanted, at, section);
      } else {
        const names = anyOf(wanted.map((dimension) => DIMENSION_NAMES[dimension]));
        const is = DIMENSION_NAMES[quantity.dimension];
        this.found('unit-mismatch', section, at, `${capital(names)} is wanted here, and this is ${is}.`);
      }
      return;
    }
    this.examineNumber(slot, type, at, numberOf(quantity), section);
  }

  private unitMissing(dimensions: readonly Dimension[], at: Expression, section: Section): void {
    const units = dimensions.flatMap((dimension) => unitsFor(dimension).split(', '));
    const fixes: Fix[] = bareNumber(at)
      ? units
          .slice(0, 4)
          .map((unit) => ({ title: `Write ${unit}`, edits: [{ from: at.to, to: at.to, text: ` ${unit}` }] }))
      : [];
    const what = anyOf(dimensions.map((dimension) => DIMENSION_NAMES[dimension]));
    this.found('unit-missing', section, at, `${capital(what)} needs its unit: ${anyOf(units)}.`, fixes);
  }

  private examineNumber(slot: string, type: SlotType, at: Expression, value: number, section: Section): void {
    if (!Number.isFinite(value) || Math.abs(value) > 1e9) {
      const code = type === 'count' && Number.isFinite(value) ? 'count-too-large' : 'number-impossible';
      this.found(code, section, at, 'No such thing was ever made: this number is far too large.');
      return;
    }
    if (type === 'count') {
      if (!Number.isInteger(value))
        this.found('number-impossible', section, at, `A count is a whole number, not ${trimmed(value)}.`);
      else if (value < 0 || (value === 0 && POSITIVE.has(slot)))
        this.found('number-impossible', section, at, `A count of ${trimmed(value)} cannot be made.`);
      else if (value > LARGEST_COUNT)
        this.found(
          'count-too-large',
          section,
          at,
          `${trimmed(value)} is more than any shop makes (at most ${LARGEST_COUNT}): a slip of the finger?`,
        );
      return;
    }
    if (value < 0 && !SIGNED.has(slot))
      this.found('number-impossible', section, at, 'This cannot be less than nought.');
    else if (value === 0 && POSITIVE.has(slot)) this.found('number-impossible', section, at, 'This cannot be nought.');
  }

  // ---- reporting ---------------------------------------------------------------------------------------------------

  private found(
    code: string,
    section: Section,
    at: Span,
    message: string,
    fixes: readonly Fix[] = [],
    related: readonly Related[] = [],
  ): void {
    const place = { section, from: at.from, to: at.to };
    const key = `${code} ${at.from} ${at.to}`;
    const said = this.said.get(section) ?? new Set();
    if (said.has(key)) return;
    this.said.set(section, said.add(key));
    this.findings.push({ code, place, message, related, fixes: fixes.map((fix) => this.placed(fix, section)) });
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

/** All the files of a workspace that something asked for, each read once. */
export class Project {
  private readonly files = new Map<string, SpecFile>();
  figureOf: ((named: Named, rest: string) => Figure | undefined) | undefined;
  nearestFile: ((from: string, missing: string) => string | undefined) | undefined;

  constructor(readonly source: SpecSource) {}

  file(uri: string): SpecFile | undefined {
    const have = this.files.get(uri);
    if (have) return have;
    const spec = isLibrary(uri) ? librarySpec(uri) : this.source.mayRead(uri) ? this.source.read(uri) : undefined;
    if (!spec) return undefined;
    const file = new SpecFile(uri, spec, this);
    this.files.set(uri, file);
    return file;
  }
}

/** The address that a `use` path means, seen from the file it stands in; nothing for an absolute or empty path. */
export function resolvePath(from: string, path: string): string | undefined {
  if (isLibrary(path)) return path;
  if (!path || path.startsWith('/') || path.includes('\\') || path.includes('\0') || /^[a-z][a-z0-9+.-]*:/i.test(path))
    return undefined;
  try {
    return Utils.joinPath(URI.parse(from), '..', path).toString();
  } catch {
    return undefined;
  }
}

const nameOfFile = (uri: string): string => decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1));

/** `head round` as it is written in arithmetic: `head-round`; `elbow round bent` is `bent-elbow-round`. */
export function hyphened(words: string): string {
  return (listWord('body measure', words) ?? words).replaceAll(' ', '-');
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const trimmed = (value: number): string =>
  Number.isInteger(value) ? String(value) : value.toFixed(3).replace(/0+$/, '');

/** A value worked out at the first asking and kept. */
export function once<T>(compute: () => T): () => T {
  let value: T;
  let done = false;
  return () => {
    if (!done) {
      value = compute();
      done = true;
    }
    return value;
  };
}

/** The same for a value that things can need in a circle: asked for while it is being worked out, it is not there. */
export function onceUnlessCircular<T>(compute: () => T | undefined): () => T | undefined {
  let busy = false;
  const get = once(() => {
    busy = true;
    try {
      return compute();
    } finally {
      busy = false;
    }
  });
  return () => (busy ? undefined : get());
}
