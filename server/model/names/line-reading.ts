import { type Bound, type Filled, isMeasure, type SlotType } from '../../../grammar/pattern.ts';
import type { Expression, Line, Place } from '../../../grammar/tree.ts';
import type {
  AnyLine,
  LineById,
  LineOfGroup,
  PhraseOf,
  QualifierOf,
  SlotIn,
  SlotTypeFor,
  WordIn,
} from '../../../grammar/typed-line.ts';
import { LONGEST_PIECE, SHORTEST_PIECE } from '../../trade/reckoning/bounds.ts';
import { numberOf, type Quantity } from '../values/quantity.ts';
import { expressionsOf, type Named, type SpecFile } from './spec-file.ts';

type Dimension = Quantity['dimension'];
type MeasureType = SlotTypeFor<Dimension>;
type TextType = Exclude<SlotType, MeasureType>;
type Qualifier<L> = QualifierOf<L> | undefined;

/** A slot of one of these types, of the line itself or of a qualifier. */
type Slot<L, Q, Type = SlotType> = SlotIn<PhraseOf<L, Q>, Type>;

/** Where in a line a length stands: which slot, of the line itself or of a qualifier. */
export interface LengthAt {
  readonly slot: Slot<AnyLine, Qualifier<AnyLine>, SlotTypeFor<'length'>>;
  readonly qualifier?: QualifierOf<AnyLine> | undefined;
}

/**
 * One line of a spec, read by name: `reading.length('deep', 'deep')`. What the notation of the line does not have does not
 * compile. A value that is missing, of the wrong kind or not above nought where it must be is nothing here; what is wrong
 * with it is said once, where it stands, by the file.
 */
export class LineReading<L extends AnyLine = AnyLine> {
  constructor(
    readonly file: SpecFile,
    readonly line: Line,
    /** Lengths are taken this many times over: a line that came by `like …, scaled`. */
    readonly scale = 1,
  ) {}

  get id(): L['id'] | '' {
    return (this.line.word?.id as L['id'] | undefined) ?? '';
  }

  is<Id extends L['id']>(id: Id): this is LineReading<LineById<L, Id>> {
    return this.line.word?.id === id;
  }

  isOf<Group extends L['group']>(group: Group): this is LineReading<LineOfGroup<L, Group>> {
    return this.line.word?.group === group;
  }

  get place(): Place {
    return { section: this.line.section, from: this.line.from, to: this.line.to };
  }

  bound(qualifier?: QualifierOf<L>): Bound | undefined {
    return this.phrase(qualifier);
  }

  has(qualifier: QualifierOf<L>): boolean {
    return this.phrase(qualifier) !== undefined;
  }

  /** Whether a word of the line's own pattern, or of one of its qualifiers, stands there. */
  word<Q extends Qualifier<L> = undefined>(word: WordIn<PhraseOf<L, Q>>, qualifier?: Q): boolean {
    return this.phrase(qualifier)?.words.has(word) ?? false;
  }

  filled<Q extends Qualifier<L> = undefined>(slot: Slot<L, Q>, qualifier?: Q): Filled | undefined {
    return this.fills(slot, qualifier)[0];
  }

  all<Q extends Qualifier<L> = undefined>(slot: Slot<L, Q>, qualifier?: Q): readonly Filled[] {
    return this.fills(slot, qualifier);
  }

  /** The closed-list words or the name that fill a slot, lower case. */
  text<Q extends Qualifier<L> = undefined>(slot: Slot<L, Q, TextType>, qualifier?: Q): string | undefined {
    return this.fills(slot, qualifier)[0]?.text;
  }

  expressions<Q extends Qualifier<L> = undefined>(slot: Slot<L, Q, MeasureType>, qualifier?: Q): readonly Expression[] {
    return this.expressionsIn(slot, qualifier);
  }

  quantity<Q extends Qualifier<L> = undefined>(slot: Slot<L, Q, MeasureType>, qualifier?: Q): Quantity | undefined {
    return this.firstIn(slot, qualifier);
  }

  /** A length, mm. */
  length<Q extends Qualifier<L> = undefined>(
    slot: Slot<L, Q, SlotTypeFor<'length'>>,
    qualifier?: Q,
  ): number | undefined {
    return this.valueOf(this.firstIn(slot, qualifier), 'length');
  }

  /** An angle in degrees, a time in minutes and so on; lengths are scaled. */
  measure<D extends Dimension, Q extends Qualifier<L> = undefined>(
    dimension: D,
    slot: Slot<L, Q, SlotTypeFor<D>>,
    qualifier?: Q,
  ): number | undefined {
    return this.valueOf(this.firstIn(slot, qualifier), dimension);
  }

  /** All the values of a list, or of a size: `120 x 80 mm`. Nothing unless every one of them is there. */
  measures<D extends Dimension, Q extends Qualifier<L> = undefined>(
    dimension: D,
    slot: Slot<L, Q, SlotTypeFor<D>>,
    qualifier?: Q,
  ): number[] | undefined {
    const values = this.measuresIn(dimension, slot, qualifier);
    return values.length && values.every((value) => value !== undefined) ? (values as number[]) : undefined;
  }

  /** Two lengths joined by `x`. */
  size<Q extends Qualifier<L> = undefined>(
    slot: Slot<L, Q, 'size' | 'dimensions'>,
    qualifier?: Q,
  ): readonly [number, number] | undefined {
    const [one, other, ...more] = this.measuresIn('length', slot, qualifier);
    if (more.length || one === undefined || other === undefined) return undefined;
    return one > 0 && other > 0 ? [one, other] : undefined;
  }

  /** What fills the slot of a length that was found somewhere in the line. */
  filledAt({ slot, qualifier }: LengthAt): Filled | undefined {
    return this.fills(slot, qualifier)[0];
  }

  expressionsAt({ slot, qualifier }: LengthAt): readonly Expression[] {
    return this.expressionsIn(slot, qualifier);
  }

  lengthAt({ slot, qualifier }: LengthAt): number | undefined {
    return this.valueOf(this.firstIn(slot, qualifier), 'length');
  }

  /** A whole number of nought or more. */
  count<Q extends Qualifier<L> = undefined>(slot: Slot<L, Q, 'count'>, qualifier?: Q): number | undefined {
    const value = this.valueOf(this.firstIn(slot, qualifier), 'number');
    return value !== undefined && Number.isInteger(value) && value >= 0 && value <= 1e6 ? value : undefined;
  }

  /** The count before `of`. */
  countOf(slot: SlotIn<L, 'count of'>): number | undefined {
    const item = this.fills(slot)[0]?.items[0];
    if (item?.kind !== 'measure' || !item.count) return undefined;
    const value = this.valueOf(this.file.quantity(item.count, this.line.section), 'number');
    return value !== undefined && Number.isInteger(value) && value > 0 && value <= 1e6 ? value : undefined;
  }

  /** What the name in a slot stands for. */
  named<Q extends Qualifier<L> = undefined>(slot: Slot<L, Q>, qualifier?: Q): Named | undefined {
    const filled = this.fills(slot, qualifier)[0];
    return filled && this.file.find(filled.text);
  }

  private phrase(qualifier: string | undefined): Bound | undefined {
    return qualifier === undefined ? this.line.head : this.line.qualifiers.find((each) => each.word.id === qualifier);
  }

  private fills(slot: string, qualifier?: string): readonly Filled[] {
    return this.phrase(qualifier)?.slots.get(slot) ?? [];
  }

  private expressionsIn(slot: string, qualifier?: string): readonly Expression[] {
    return this.fills(slot, qualifier).flatMap((filled) => expressionsOf(filled));
  }

  /** Of the first expression alone: asked for a hundred times at every key. */
  private firstIn(slot: string, qualifier?: string): Quantity | undefined {
    for (const filled of this.fills(slot, qualifier)) {
      const expression = expressionsOf(filled)[0];
      if (expression) return this.file.quantity(expression, this.line.section);
    }
    return undefined;
  }

  private measuresIn(dimension: Dimension, slot: string, qualifier?: string): (number | undefined)[] {
    return this.expressionsIn(slot, qualifier).map((expression) =>
      this.valueOf(this.file.quantity(expression, this.line.section), dimension),
    );
  }

  private valueOf(quantity: Quantity | undefined, dimension: Dimension): number | undefined {
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
