import { type Bound, type Filled, isMeasure } from '../../grammar/pattern.ts';
import type { Expression, Line, Place } from '../../grammar/tree.ts';
import { LONGEST_PIECE, SHORTEST_PIECE } from '../trade/bounds.ts';
import { expressionsOf, type Named, type SpecFile } from './file.ts';
import { numberOf, type Quantity } from './quantity.ts';

/**
 * One line of a spec, read by name: `reading.length('deep', 'deep')`. A value that is missing, of the wrong kind or not
 * above nought where it must be is nothing here; what is wrong with it is said once, where it stands, by the file.
 */
export class LineReading {
  constructor(
    readonly file: SpecFile,
    readonly line: Line,
    /** Lengths are taken this many times over: a line that came by `like …, scaled`. */
    readonly scale = 1,
  ) {}

  get id(): string {
    return this.line.word?.id ?? '';
  }

  get place(): Place {
    return { section: this.line.section, from: this.line.from, to: this.line.to };
  }

  bound(qualifier?: string): Bound | undefined {
    return qualifier === undefined ? this.line.head : this.line.qualifiers.find((each) => each.word.id === qualifier);
  }

  has(qualifier: string): boolean {
    return this.bound(qualifier) !== undefined;
  }

  /** Whether a word of the line's own pattern, or of one of its qualifiers, stands there. */
  word(word: string, qualifier?: string): boolean {
    return this.bound(qualifier)?.words.has(word) ?? false;
  }

  filled(slot: string, qualifier?: string): Filled | undefined {
    return this.all(slot, qualifier)[0];
  }

  all(slot: string, qualifier?: string): readonly Filled[] {
    return this.bound(qualifier)?.slots.get(slot) ?? [];
  }

  /** The closed-list words or the name that fill a slot, lower case. */
  text(slot: string, qualifier?: string): string | undefined {
    return this.filled(slot, qualifier)?.text;
  }

  expressions(slot: string, qualifier?: string): readonly Expression[] {
    return this.all(slot, qualifier).flatMap((filled) => expressionsOf(filled));
  }

  quantity(slot: string, qualifier?: string): Quantity | undefined {
    const expression = this.expressions(slot, qualifier)[0];
    return expression && this.file.quantity(expression, this.line.section);
  }

  /** A length, mm. */
  length(slot: string, qualifier?: string): number | undefined {
    return this.measure('length', slot, qualifier);
  }

  /** An angle in degrees, a time in minutes and so on; lengths are scaled. */
  measure(dimension: Quantity['dimension'], slot: string, qualifier?: string): number | undefined {
    return this.valueOf(this.quantity(slot, qualifier), dimension);
  }

  /** All the values of a list, or of a size: `120 x 80 mm`. Nothing unless every one of them is there. */
  measures(dimension: Quantity['dimension'], slot: string, qualifier?: string): number[] | undefined {
    const values = this.expressions(slot, qualifier).map((expression) =>
      this.valueOf(this.file.quantity(expression, this.line.section), dimension),
    );
    return values.length && values.every((value) => value !== undefined) ? (values as number[]) : undefined;
  }

  /** Two lengths joined by `x`. */
  size(slot: string, qualifier?: string): readonly [number, number] | undefined {
    const values = this.measures('length', slot, qualifier);
    return values?.length === 2 && values.every((value) => value > 0) ? [values[0]!, values[1]!] : undefined;
  }

  /** A whole number of nought or more. */
  count(slot: string, qualifier?: string): number | undefined {
    const value = this.measure('number', slot, qualifier);
    return value !== undefined && Number.isInteger(value) && value >= 0 && value <= 1e6 ? value : undefined;
  }

  /** The count before `of`. */
  countOf(slot: string): number | undefined {
    const item = this.filled(slot)?.items[0];
    if (item?.kind !== 'measure' || !item.count) return undefined;
    const value = this.valueOf(this.file.quantity(item.count, this.line.section), 'number');
    return value !== undefined && Number.isInteger(value) && value > 0 && value <= 1e6 ? value : undefined;
  }

  /** What the name in a slot stands for. */
  named(slot: string, qualifier?: string): Named | undefined {
    const filled = this.filled(slot, qualifier);
    return filled && this.file.find(filled.text);
  }

  private valueOf(quantity: Quantity | undefined, dimension: Quantity['dimension']): number | undefined {
    if (quantity?.dimension !== dimension) return undefined;
    const value = numberOf(quantity);
    if (!Number.isFinite(value)) return undefined;
    return dimension === 'length' && this.scale !== 1 ? this.scaled(value) : value;
  }

  /** A length so many times over; nothing where it leaves what can be made. */
  private scaled(length: number): number | undefined {
    const scaled = length * this.scale;
    const size = Math.abs(scaled);
    return size > LONGEST_PIECE || (size > 0 && size < SHORTEST_PIECE) ? undefined : scaled;
  }

  /** Whether a length of the line is larger or smaller than anything that is made, only because it is scaled. */
  isScaledAway(): boolean {
    const { head, qualifiers } = this.line;
    if (this.scale === 1 || !head) return false;
    return [head, ...qualifiers].some((bound) =>
      [...bound.slots.values()].flat().some(
        (filled) =>
          isMeasure(filled.type) &&
          expressionsOf(filled).some((expression) => {
            const quantity = this.file.quantity(expression, this.line.section);
            return quantity?.dimension === 'length' && this.scaled(numberOf(quantity)) === undefined;
          }),
      ),
    );
  }
}
