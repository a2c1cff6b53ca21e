import { anyOf, nearest } from '../../../grammar/nearest.ts';
import { bareNumber } from '../../../grammar/parser.ts';
import {
  type Bound,
  dimensionsOf,
  type Filled,
  isMeasure,
  type NameCategory,
  type SlotType,
} from '../../../grammar/pattern.ts';
import type {
  Expression,
  Fix,
  LetLine,
  Measure,
  NameExpression,
  Section,
  Span,
  Text,
  UseLine,
  Word,
} from '../../../grammar/tree.ts';
import { type Dimension, unitOf, unitsFor } from '../../../grammar/units.ts';
import { wordLists } from '../../../grammar/vocabulary/index.ts';
import { say } from '../../../l10n/say.ts';
import { belonging, inCircle, once } from '../../incremental/memo.ts';
import { MOST_SLENDER } from '../../trade/reckoning/bounds.ts';
import type { Finding, Related } from '../values/figure.ts';
import { capital } from '../values/prose.ts';
import {
  DIMENSION_NAMES,
  dimensionOfUnit,
  evaluate,
  literal,
  numberOf,
  type Quantity,
  UNIT_OF_DIMENSION,
} from '../values/quantity.ts';
import {
  ANY_MEASURE,
  COUNTED,
  limitInWords,
  type Taken,
  toleranceOf,
  unitHalfTyped,
  whyImpossible,
} from '../values/ranges.ts';
import { show } from '../values/show.ts';
import { isLibrary, LIBRARY_SCHEME, library } from './library.ts';
import { expressionsOf, hyphened, type Named, type Reference, type SpecFile } from './spec-file.ts';
import { TakenMeasures } from './taken-measures.ts';

/** Where a name may be of several kinds. */
export const SEVERAL_KINDS: Partial<Record<SlotType, readonly NameCategory[]>> = {
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

/** How many measures may be made one from another: no spec comes near it, and more would not fit on the stack. */
const DEEPEST = 150;

/**
 * One section, or one `let` in it, read for its names and measures: the value of every measure in it, every use of a name, and what is wrong
 * with them. Worked out when somebody asks, and anew when something that it named has changed.
 */

export class SectionReading {
  private readonly own = belonging();
  private readonly values = new Map<Expression, Quantity | null>();
  private readonly findings_: Finding[] = [];
  private readonly marked = new Set<string>();
  private readonly references_: Reference[] = [];
  private readonly taken: TakenMeasures;

  constructor(
    private readonly file: SpecFile,
    private readonly section: Section,
    /** The one `let` that is read, instead of the section's own lines. */
    private readonly line?: LetLine,
  ) {
    this.taken = new TakenMeasures(section, line);
  }

  // ---- values ------------------------------------------------------------------------------------------------------

  /**
   * The value of one expression, in its base unit and dimension; nothing when it cannot be said, or is one that cannot stand
   * where it stands: a smith on the way from `412 mm` to `420 mm` has no greave of 412 m worked out.
   */
  quantity(expression: Expression): Quantity | undefined {
    return this.own(() => {
      const have = this.possible.get(expression);
      if (have !== undefined) return have ?? undefined;
      const quantity = this.possibleOf(expression);
      this.possible.set(expression, quantity ?? null);
      return quantity;
    });
  }
  /** Checks ask for the same few over and over. */
  private readonly possible = new Map<Expression, Quantity | null>();

  private possibleOf(expression: Expression): Quantity | undefined {
    const quantity = this.said(expression);
    const taken = this.taken.of(expression);
    if (!quantity || !taken) return quantity;
    return whyImpossible(taken, quantity) || this.isTooSlender(expression) ? undefined : quantity;
  }

  /** What stands there, whether it can be or not. */
  private said(expression: Expression): Quantity | undefined {
    return this.own(() => {
      const have = this.values.get(expression);
      if (have !== undefined) return have ?? undefined;
      const quantity = evaluate(expression, {
        lookup: (name) => this.lookup(name),
        report: (code, at, message, fixes) => this.found(code, at, message, fixes),
      });
      this.values.set(expression, quantity ?? null);
      return quantity;
    });
  }

  private isTooSlender(expression: Expression): boolean {
    const others = this.taken.beside(expression);
    const value = others.length ? this.lengthSaid(expression) : undefined;
    if (value === undefined) return false;
    return others.some((other) => (this.lengthSaid(other) ?? 0) > value * MOST_SLENDER);
  }

  /** A length that could stand there by itself, mm. */
  private lengthSaid(expression: Expression): number | undefined {
    const quantity = this.said(expression);
    if (quantity?.dimension !== 'length') return undefined;
    return whyImpossible(this.taken.of(expression)!, quantity) ? undefined : numberOf(quantity);
  }

  private lookup(expression: NameExpression): Quantity | undefined {
    const { name } = expression;
    const [first, ...rest] = name.key.split('.');
    const named = this.file.find(first!);
    if (!named) {
      this.unknownName({ ...name, text: name.text.split('.')[0]!, key: first! }, [
        'let',
        'piece',
        'wearer',
        'material',
        'seam',
      ]);
      return undefined;
    }
    this.references_.push({
      section: this.section,
      from: name.from,
      to: name.from + named.word.text.length,
      key: first!,
      target: named,
    });
    if (named.let) {
      if (rest.length) {
        this.found('unknown-name', name, say`“${named.word.text}” is a measure itself and has no “${rest.join('.')}”.`);
        return undefined;
      }
      return this.letValue(named, name);
    }
    if (!rest.length || (rest.length === 1 && rest[0] === '')) {
      this.found(
        'unit-mismatch',
        name,
        say`“${named.word.text}” is a ${named.kind}, not a measure: write ${named.word.text}. and the figure you mean.`,
      );
      return undefined;
    }
    if (named.kind === 'wearer') return this.bodyMeasure(named, rest.join('.'), name);
    const figure = this.guarded(this.file, name.text, name, () => this.file.figureOf(named, rest.join('.')));
    if (figure === 'circle') return undefined;
    // A circle found on the way is the reason, and has its own message.
    if (!figure && this.isCircle(expression)) return undefined;
    if (!figure) {
      this.found(
        'unknown-name',
        name,
        say`“${named.word.text}” has no figure “${rest.join('.')}”, or it cannot be worked out yet.`,
      );
      return undefined;
    }
    return { value: figure.value, dimension: dimensionOfUnit(figure.unit) };
  }

  private isCircle(at: Span): boolean {
    return this.findings_.some(
      ({ code, place }) => code === 'definition-circle' && place.from >= at.from && place.to <= at.to,
    );
  }

  private letValue(named: Named, name: Word): Quantity | undefined {
    const line = named.let!;
    if (!line.value) return undefined;
    const result = this.guarded(named.file, named.word.text, name, () => named.file.valueOf(line));
    return result === 'circle' ? undefined : result;
  }

  /** Runs `compute` unless what this label names in that file is being worked out already: then it needs itself. */
  private guarded<T>(file: SpecFile, label: string, at: Span, compute: () => T): T | 'circle' {
    const { busy } = file;
    const key = label.toLowerCase();
    const start = busy.findIndex((each) => each.toLowerCase() === key);
    if (start >= 0) {
      inCircle();
      const circle = [...busy.slice(start), label].join(' → ');
      this.found('definition-circle', at, say`${label} is made from itself: ${circle}.`);
      return 'circle';
    }
    if (busy.length >= DEEPEST) {
      // What is asked for by itself may well come out: nothing of this is kept.
      inCircle();
      this.found('nested-too-deep', at, say`More than ${DEEPEST} measures are made one from another before ${label}.`);
      return 'circle';
    }
    busy.push(label);
    try {
      return compute();
    } finally {
      busy.pop();
    }
  }

  private bodyMeasure(named: Named, key: string, name: Word): Quantity | undefined {
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
        name,
        near
          ? known
            ? say`“${named.word.text}” has no measure “${key}”: did you mean “${near}”?`
            : say`“${named.word.text}” does not give its ${near.replaceAll('-', ' ')}.`
          : say`“${named.word.text}” has no measure “${key}”.`,
        known
          ? [
              {
                title: say`Change to ${named.word.text}.${near}`,
                edits: [{ from: name.from, to: name.to, text: `${named.word.text}.${near}` }],
              },
            ]
          : [],
      );
      return undefined;
    }
    return named.file.quantityOf(filled, named.section);
  }

  // ---- names and units ---------------------------------------------------------------------------------------------

  /** What is wrong with the names and the measures of the section. */
  findings(): readonly Finding[] {
    this.examine();
    return this.findings_;
  }

  /** Every use of a name in the section. */
  references(): readonly Reference[] {
    this.examine();
    return this.references_;
  }

  private readonly examine = once((): true => {
    for (const named of this.file.namesIn(this.section)) if (named.let === this.line) this.examineBearer(named);
    if (this.line) {
      if (this.line.value) this.examineLet(this.line);
      return true;
    }
    for (const single of this.section.singles) if (single.kind === 'use') this.examineUse(single);
    for (const line of this.section.lines) {
      if (line.head) this.examineBound(line.head);
      for (const qualifier of line.qualifiers) this.examineBound(qualifier);
    }
    return true;
  });

  private examineLet(line: LetLine): void {
    const value = line.value!;
    if (value.parts.length > 1 || value.count) {
      this.found('unit-mismatch', value, 'A let holds one measure, not a size.');
    }
    if (!line.name) {
      this.said(value.parts[0]!);
      return;
    }
    const result = this.guarded(this.file, line.name.text, line.name, () => this.said(value.parts[0]!));
    if (result !== 'circle' && result) this.examineNumber(ANY_MEASURE, value.parts[0]!, result);
  }

  /** Whether something else has the same name, here or in a file that this one uses. */
  private examineBearer(named: Named): void {
    const { word } = named;
    const first = this.file.bearersOf(word.key)[0]!;
    if (first !== named) {
      const message = say`“${word.text}” is the name of a ${first.kind} already.`;
      this.found('name-twice', word, message, this.otherName(word), [this.related(first, 'the first one')]);
      return;
    }
    for (const { file, line } of this.file.uses()) {
      const other = file?.find(word.key);
      if (!other || other.file === this.file || isLibrary(other.file.uri)) continue;
      const message = say`“${word.text}” is also the name of a ${other.kind} in “${line.path?.value}”.`;
      this.found('name-twice', word, message, this.otherName(word), [this.related(other, 'the other one')]);
      return;
    }
  }

  /** Another name for this one alone: whoever uses the name means the first. */
  private otherName(word: Word): Fix[] {
    for (let i = 2; i < 100; i++) {
      const text = `${word.text}-${i}`;
      if (!this.file.find(text.toLowerCase()))
        return [{ title: say`Call it ${text}`, edits: [{ from: word.from, to: word.to, text }] }];
    }
    return [];
  }

  private related(named: Named, message: string): Related {
    return {
      uri: named.file.uri,
      place: { section: named.section, from: named.word.from, to: named.word.to },
      message,
    };
  }

  private examineUse(line: UseLine): void {
    const use = this.file.uses().find((each) => each.line === line);
    if (!use || !line.path) return;
    if (!use.uri) {
      this.found('use-missing', line.path, 'A use names a file relative to this one, such as "../shop/stock.planish".');
    } else if (isLibrary(use.uri)) {
      if (!use.file) this.missingLibrary(line.path);
    } else if (!use.file) {
      const { why, near } = this.file.notRead(line.path.value);
      const name = `“${line.path.value}”`;
      this.found(
        'use-missing',
        line.path,
        why ? `${name} ${why}.` : near ? say`There is no ${name}: did you mean “${near}”?` : say`There is no ${name}.`,
        near
          ? [
              {
                title: say`Change to "${near}"`,
                edits: [{ from: line.path.from, to: line.path.to, text: `"${near}"` }],
              },
            ]
          : [],
      );
    } else {
      const circle = circleThrough(this.file, use.file);
      if (circle)
        this.found(
          'use-circle',
          line.path,
          say`These files use each other in a circle: ${circle.map(nameOfFile).join(' → ')}.`,
          [{ title: 'Remove this line', edits: [{ ...rowOf(this.section.text, line), text: '' }] }],
        );
    }
  }

  private missingLibrary(path: Text): void {
    const names = library.map(({ name }) => `${LIBRARY_SCHEME}${name}`);
    const near = nearest(path.value, names);
    this.found(
      'use-missing',
      path,
      say`Planish brings no “${path.value}”${near ? say`: did you mean “${near}”?` : say`. It brings ${anyOf(names)}.`}`,
      near ? [{ title: say`Change to "${near}"`, edits: [{ from: path.from, to: path.to, text: `"${near}"` }] }] : [],
    );
  }

  private examineBound(bound: Bound): void {
    for (const all of bound.slots.values()) {
      for (const filled of all) {
        if (isMeasure(filled.type)) this.examineMeasure(filled);
        else this.examineName(filled);
      }
    }
  }

  private examineName(filled: Filled): void {
    const items = filled.items.filter((item): item is Word => item.kind === 'word');
    switch (filled.type) {
      case 'edge': {
        const word = items[0]!;
        const [first, ...rest] = word.key.split('.');
        if (!rest.length) return;
        this.refer({ ...word, text: word.text.split('.')[0]!, key: first!, to: word.from + first!.length }, ['piece']);
        return;
      }
      case 'copy':
      case 'surface':
      case 'step': {
        const word =
          filled.copy || ((items[0]?.key === 'left' || items[0]?.key === 'right') && items.length > 1)
            ? items[1]
            : items[0];
        if (word) this.refer(word, SEVERAL_KINDS[filled.type]!);
        return;
      }
      default:
        if (NAME_TYPES.has(filled.type)) this.refer(items[0]!, [filled.type as NameCategory]);
    }
  }

  private refer(word: Word, wanted: readonly NameCategory[]): void {
    const target = this.file.find(word.key);
    this.references_.push({ section: this.section, from: word.from, to: word.to, key: word.key, target });
    if (!target) this.unknownName(word, wanted);
    else if (!wanted.includes(target.kind)) {
      this.found(
        'unknown-name',
        word,
        say`“${word.text}” is a ${target.kind}; ${anyOf(wanted.map((kind) => `a ${kind}`))} is wanted here.`,
        [],
        [this.related(target, `${target.kind} ${target.word.text}`)],
      );
    }
  }

  private unknownName(word: Word, wanted: readonly NameCategory[]): void {
    // It may stand in the file that cannot be read, which is marked itself.
    if (this.file.hasUnread()) return;
    // Nothing is made of itself.
    const own = this.section.name?.key;
    const options = this.file.wordsOf(wanted).filter((option) => option.toLowerCase() !== own);
    const near = nearest(word.key, options);
    const kinds = anyOf(wanted.slice(0, 2).map((kind) => kind));
    const others = options.length ? say` There is ${anyOf(options, 5)}.` : '';
    this.found(
      'unknown-name',
      word,
      near
        ? say`There is no ${kinds} “${word.text}”: did you mean “${near}”?`
        : say`There is no ${kinds} “${word.text}”.${others}`,
      near ? [{ title: say`Change to ${near}`, edits: [{ from: word.from, to: word.to, text: near }] }] : [],
    );
  }

  private examineMeasure(filled: Filled): void {
    const item = filled.items[0]!;
    const measure = item.kind === 'measure' ? item : undefined;
    this.examineShape(filled, measure);
    for (const expression of expressionsOf(filled)) this.examineExpression(filled, expression);
    if (measure?.count) this.examineExpression(COUNTED, measure.count);
    if (measure?.tolerance) this.examineExpression(toleranceOf(filled), measure.tolerance);
  }

  private examineExpression(taken: Taken, expression: Expression): void {
    const quantity = this.said(expression);
    if (quantity) this.examineQuantity(taken, expression, quantity);
  }

  /** Whether it has as many parts as the slot wants. */
  private examineShape(filled: Filled, measure: Measure | undefined): void {
    const parts = measure?.parts.length ?? 1;
    const at = filled;
    if (filled.type === 'size' && parts !== 2) {
      this.found(
        'line-unfinished',
        at,
        parts < 2 ? 'Two lengths are wanted, joined by x: 120 x 80 mm.' : 'Two lengths are wanted, and here are more.',
      );
    } else if (filled.type === 'dimensions' && parts > 2) {
      this.found('line-unfinished', at, 'One or two lengths are wanted, and here are more.');
    } else if (filled.type !== 'size' && filled.type !== 'dimensions' && parts > 1) {
      this.found('unit-mismatch', at, 'One measure is wanted here, not a size.');
    }
    if (filled.type === 'count of' && !measure?.count)
      this.found('line-unfinished', at, 'How many? Write 6 of 1/8 in.');
    if (filled.type !== 'count of' && measure?.count)
      this.found('unit-mismatch', at, 'A count “of” a size does not fit here.');
  }

  private examineQuantity(taken: Taken, at: Expression, quantity: Quantity): void {
    const { type } = taken;
    const wanted = dimensionsOf(type);
    if (type === 'count' || type === 'number') {
      if (quantity.dimension !== 'number') {
        this.found(
          'unit-mismatch',
          at,
          say`${type === 'count' ? say`A count` : say`This number`} has no unit: here is ${DIMENSION_NAMES[quantity.dimension]}.`,
        );
        return;
      }
    } else if (wanted.length && !wanted.includes(quantity.dimension as Dimension)) {
      if (quantity.dimension === 'number') {
        this.unitMissing(taken, wanted, at);
      } else {
        const names = anyOf(wanted.map((dimension) => DIMENSION_NAMES[dimension]));
        const is = DIMENSION_NAMES[quantity.dimension];
        this.found('unit-mismatch', at, say`${capital(names)} is wanted here, and this is ${is}.`);
      }
      return;
    }
    this.examineNumber(taken, at, quantity);
  }

  private unitMissing(taken: Taken, dimensions: readonly Dimension[], at: Expression): void {
    const units = dimensions.flatMap((dimension) => unitsFor(dimension).split(', '));
    const number = bareNumber(at);
    // `120 m` is no piece: that is not offered.
    const canBe = (id: string): boolean => {
      const unit = unitOf(id);
      const quantity = unit && number && literal({ ...number, unit });
      return !quantity || whyImpossible(taken, quantity) === undefined;
    };
    const fixes: Fix[] = number
      ? units
          .filter(canBe)
          .slice(0, 4)
          .map((unit) => ({ title: say`Write ${unit}`, edits: [{ from: at.to, to: at.to, text: ` ${unit}` }] }))
      : [];
    const what = anyOf(dimensions.map((dimension) => DIMENSION_NAMES[dimension]));
    this.found('unit-missing', at, say`${capital(what)} needs its unit: ${anyOf(units)}.`, fixes);
  }

  /** Whether a number can stand where it stands. */
  private examineNumber(taken: Taken, at: Expression, quantity: Quantity): void {
    const why = whyImpossible(taken, quantity);
    const isCount = taken.type === 'count';
    if (why === 'endless') {
      this.found('number-impossible', at, 'This comes to no finite number.');
    } else if (isCount && !Number.isInteger(numberOf(quantity))) {
      this.found('number-impossible', at, say`A count is a whole number, not ${written(at, quantity)}.`);
    } else if (why === 'too small' || why === 'too large') {
      this.beyond(taken, at, quantity, why);
    } else if (why) {
      const message = isCount
        ? say`A count of ${written(at, quantity)} cannot be made.`
        : why === 'nought'
          ? 'This cannot be nought.'
          : 'This cannot be less than nought.';
      this.found('number-impossible', at, message);
    } else if (this.isTooSlender(at)) {
      const message = say`${written(at, quantity)} is nothing beside the other measures of this line: no form is so slender.`;
      this.found('number-impossible', at, message);
    }
  }

  private beyond(taken: Taken, at: Expression, quantity: Quantity, why: 'too small' | 'too large'): void {
    const is = say`${written(at, quantity)} is ${limitInWords(taken, quantity, why)}`;
    const unit = bareNumber(at)?.unit;
    const meant = why === 'too large' && unit ? unitHalfTyped(taken, quantity, unit) : undefined;
    const unitAt = meant && this.taken.unitOf(at);
    this.found(
      taken.type === 'count' && why === 'too large' ? 'count-too-large' : 'number-impossible',
      at,
      meant ? say`${is}: was ${meant.id} meant?` : `${is}.`,
      meant && unitAt ? [{ title: say`Change to ${meant.id}`, edits: [{ ...unitAt, text: meant.id }] }] : [],
    );
  }

  // ---- reporting ---------------------------------------------------------------------------------------------------

  private found(
    code: string,
    at: Span,
    message: string,
    fixes: readonly Fix[] = [],
    related: readonly Related[] = [],
  ): void {
    // A value can be asked for from several places and is marked once.
    const key = `${code} ${at.from} ${at.to}`;
    if (this.marked.has(key)) return;
    this.marked.add(key);
    const { section } = this;
    this.findings_.push({
      code,
      place: { section, from: at.from, to: at.to },
      message,
      related,
      fixes: fixes.map((fix) => this.file.placed(fix, section)),
    });
  }
}

/** The way back to a file from one that it uses. */
function circleThrough(home: SpecFile, start: SpecFile): string[] | undefined {
  const seen = new Set<SpecFile>();
  const queue: { file: SpecFile; way: string[] }[] = [{ file: start, way: [home.uri, start.uri] }];
  for (let next = queue.shift(); next; next = queue.shift()) {
    if (next.file === home) return next.way;
    if (seen.has(next.file)) continue;
    seen.add(next.file);
    for (const { file } of next.file.uses()) if (file) queue.push({ file, way: [...next.way, file.uri] });
  }
  return undefined;
}

const nameOfFile = (uri: string): string => decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1));

/** A number as it stands in the spec, or what it comes to. */
function written(at: Expression, quantity: Quantity): string {
  const number = bareNumber(at);
  const value = numberOf(quantity);
  // What is only a little more or less than it shows is told by its last digits: 0.000…0001 is not 0.
  if (number && (number.written.length <= LONGEST_WRITTEN || number.written.includes('.')))
    return `${at.kind === 'negate' ? '−' : ''}${shortened(number.written)}${number.unit ? ` ${number.unit.id}` : ''}`;
  return show(value, UNIT_OF_DIMENSION[quantity.dimension] ?? 'ratio');
}
const LONGEST_WRITTEN = 20;

const shortened = (number: string): string =>
  number.length <= LONGEST_WRITTEN ? number : `${number.slice(0, 12)}…${number.slice(-4)}`;

/** A line with what ends it. */
const rowOf = (text: string, { from, to }: Span): Span => ({
  from,
  to: to + /^[^\S\r\n]*(?:\r\n|\r|\n)?/.exec(text.slice(to))![0].length,
});
