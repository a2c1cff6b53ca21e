import { bareNumber } from '../../../grammar/parser.ts';
import { type Filled, isMeasure } from '../../../grammar/pattern.ts';
import type { Expression, LetLine, Line, Section, Span } from '../../../grammar/tree.ts';
import { ANY_MEASURE, COUNTED, isExtent, type Taken, toleranceOf } from '../values/ranges.ts';
import { expressionsOf } from './spec-file.ts';

/** Where the measures of a section stand: what each of them is taken as, and what stands beside it. */
export class TakenMeasures {
  private entries: Map<Expression, Entry> | undefined;

  constructor(
    private readonly section: Section,
    /** The one `let` that is looked at, instead of the section's own lines. */
    private readonly line?: LetLine,
  ) {}

  /** What an expression is taken as; nothing for what is a part of another, or stands where no measure is wanted. */
  of(expression: Expression): Taken | undefined {
    return this.all().get(expression)?.taken;
  }

  /** The other measures that make the same form, of one that does. */
  beside(expression: Expression): readonly Expression[] {
    const entry = this.all().get(expression);
    return entry?.isExtent ? entry.extents.filter((other) => other !== expression) : [];
  }

  /** Where the unit of a number stands that may reach back from further on: `248 x 204 m`. */
  unitOf(expression: Expression): Span | undefined {
    const number = bareNumber(expression);
    if (number?.unitAt) return number.unitAt;
    const entry = number && this.all().get(expression);
    if (!entry) return undefined;
    return entry.inLine
      .slice(entry.inLine.indexOf(expression))
      .map((other) => bareNumber(other))
      .find((other) => other?.unitAt && other.unit === number.unit)?.unitAt;
  }

  private all(): Map<Expression, Entry> {
    if (!this.entries) {
      this.entries = new Map();
      if (this.line) this.addLet(this.line);
      else for (const line of this.section.lines) this.addLine(line);
    }
    return this.entries;
  }

  private addLet({ value }: LetLine): void {
    const inLine = value?.parts ?? [];
    for (const expression of inLine)
      this.entries!.set(expression, { taken: ANY_MEASURE, inLine, extents: [], isExtent: false });
  }

  private addLine(line: Line): void {
    const inLine: Expression[] = [];
    const extents: Expression[] = [];
    const makesForm = line.word?.group === 'form' || line.word?.group === 'level';
    for (const bound of line.head ? [line.head, ...line.qualifiers] : line.qualifiers) {
      for (const all of bound.slots.values()) {
        for (const filled of all) if (isMeasure(filled.type)) this.addFilled(filled, inLine, extents, makesForm);
      }
    }
  }

  private addFilled(filled: Filled, inLine: Expression[], extents: Expression[], makesForm: boolean): void {
    const { type, range } = filled;
    const add = (taken: Taken, expression: Expression, makes = false) => {
      this.entries!.set(expression, { taken, inLine, extents, isExtent: makes });
      inLine.push(expression);
      if (makes) extents.push(expression);
    };
    const item = filled.items[0];
    const measure = item?.kind === 'measure' ? item : undefined;
    if (measure?.count) add(COUNTED, measure.count);
    const isExtentHere = makesForm && isExtent(range) && LENGTHS.has(type);
    for (const expression of expressionsOf(filled)) add(filled, expression, isExtentHere && isPlain(expression));
    if (measure?.tolerance) add(toleranceOf(filled), measure.tolerance);
  }
}

interface Entry {
  readonly taken: Taken;
  /** All measures of its line, in the order of the text. */
  readonly inLine: readonly Expression[];
  /** Those that make the form. */
  readonly extents: readonly Expression[];
  readonly isExtent: boolean;
}

const LENGTHS = new Set<Filled['type']>(['length', 'size', 'dimensions']);

/** Whether it stands by itself: a figure that it names may be made from this very form. */
const isPlain = (expression: Expression): boolean => bareNumber(expression) !== undefined;
