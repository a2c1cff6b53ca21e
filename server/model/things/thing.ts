import type { Place } from '../../../grammar/tree.ts';
import type { AnyLine, LineById, LineOfGroup, LinesOf, SectionKind } from '../../../grammar/typed-line.ts';
import { listWord } from '../../../grammar/vocabulary/index.ts';
import { once } from '../../incremental/memo.ts';
import { type Metal, type MetalId, metal as metalOf, type Temper } from '../../trade/metal/metals.ts';
import { LineReading } from '../names/line-reading.ts';
import type { Named } from '../names/spec-file.ts';
import type { System } from '../values/show.ts';

/** What a thing asks of the spec that it stands in; what more things of one kind ask stands with them. */
export interface SpecContext {
  units(): System;
  /** Which family of gauge tables a `ga` is read by. */
  gaugeFamily(): 'US' | 'UK';
}

/** A named section, read by its lines. */
export class Thing<Kind extends SectionKind = SectionKind, Context extends SpecContext = SpecContext> {
  readonly lines: readonly LineReading<LinesOf<Kind>>[];

  constructor(
    readonly model: Context,
    readonly named: Named,
  ) {
    this.lines = named.section.lines.map((line) => new LineReading<LinesOf<Kind>>(named.file, line));
  }

  get name(): string {
    return this.named.word.text;
  }

  get place(): Place {
    return { section: this.named.section, from: this.named.word.from, to: this.named.word.to };
  }

  line<Id extends LinesOf<Kind>['id']>(id: Id): LineReading<LineById<LinesOf<Kind>, Id>> | undefined {
    const line = this.lines.find((each) => each.id === id);
    return line as LineReading<LineById<LinesOf<Kind>, Id>> | undefined;
  }
}

/** Something that is bought: one of its lines says what it is. */
export class StockThing<Kind extends 'material' | 'rivet' = 'material' | 'rivet'> extends Thing<Kind> {
  /** The line that says what it is. */
  readonly stock = once((): LineReading<LineOfGroup<AnyLine, 'stock'>> | undefined => {
    const lines: readonly LineReading[] = this.lines;
    return lines.find((line) => line.isOf('stock'));
  });

  /** As a smith would say it over the counter: `mild steel 1.5 mm`. */
  readonly title = once(() => {
    const stock = this.stock();
    return stock ? stock.line.section.text.slice(stock.line.from, stock.line.to).replace(/\s+/g, ' ') : this.name;
  });

  readonly metalId = once((): MetalId | undefined => {
    const text = this.stock()?.text('metal');
    return text === undefined ? undefined : (listWord('metal', text) as MetalId | undefined);
  });

  readonly temper = once((): Temper | undefined => {
    const text = this.stock()?.text('temper', 'temper');
    return text === undefined ? undefined : (listWord('temper', text) as Temper | undefined);
  });

  readonly grade = once(() => this.stock()?.text('grade', 'grade'));

  readonly metal = once((): Metal | undefined => {
    const id = this.metalId();
    if (!id) return undefined;
    const grade = this.grade();
    const temper = this.temper();
    return metalOf(id, { ...(grade === undefined ? {} : { grade }), ...(temper === undefined ? {} : { temper }) });
  });

  readonly plating = once((): string | undefined => {
    const text = this.stock()?.text('plating', 'plating');
    const word = text === undefined ? undefined : listWord('plating', text);
    return word === 'unplated' ? undefined : word;
  });

  /** Zinc on the surface: hot work on it gives fume. */
  readonly zincCoated = once(() => this.metalId() === 'galvanised steel' || this.plating() === 'zinc plated');
}
