import { listWord } from '../../grammar/vocabulary/index.ts';
import { type Metal, type MetalId, metal as metalOf } from '../trade/metals.ts';
import { type BoughtHead, rivetMass } from '../trade/rivet.ts';
import { FigureSet } from './figure-set.ts';
import { type Named, once } from './file.ts';
import type { Model } from './model.ts';
import { LineReading } from './reading.ts';

/** A rivet as bought. */
export class RivetModel {
  readonly lines: readonly LineReading[];

  constructor(
    readonly model: Model,
    readonly named: Named,
  ) {
    this.lines = named.section.lines.map((line) => new LineReading(named.file, line));
  }

  get name(): string {
    return this.named.word.text;
  }

  line(id: string): LineReading | undefined {
    return this.lines.find((line) => line.id === id);
  }

  readonly stock = once(() => this.lines.find((line) => line.line.word?.group === 'stock'));

  /** Shank diameter and length, mm. */
  readonly size = once((): { shank: number; length: number } | undefined => {
    const size = this.stock()?.size('size');
    return size && { shank: size[0], length: size[1] };
  });

  readonly head = once((): BoughtHead => {
    const text = this.stock()?.text('head', 'head');
    return ((text && listWord('head', text)) ?? 'domed') as BoughtHead;
  });

  readonly metal = once((): Metal | undefined => {
    const text = this.stock()?.text('metal');
    const id = text === undefined ? undefined : listWord('metal', text);
    const grade = this.stock()?.text('grade', 'grade');
    return id === undefined ? undefined : metalOf(id as MetalId, grade === undefined ? {} : { grade });
  });

  readonly plating = once((): string | undefined => {
    const text = this.stock()?.text('plating', 'plating');
    const word = text === undefined ? undefined : listWord('plating', text);
    return word === 'unplated' ? undefined : word;
  });

  readonly zincCoated = once(() => this.metal()?.id === 'galvanised steel' || this.plating() === 'zinc plated');

  readonly washer = once((): { diameter: number; thickness: number } | undefined => {
    const size = this.line('washer')?.size('washer') ?? this.washerSize();
    return size && { diameter: size[0], thickness: size[1] };
  });

  private washerSize(): readonly [number, number] | undefined {
    const values = this.line('washer')?.measures('length', 'washer');
    return values?.length === 2 ? [values[0]!, values[1]!] : undefined;
  }

  readonly pack = once(() => {
    const line = this.line('pack');
    const pack = line?.count('pack');
    const price = line?.measure('number', 'price', 'price');
    const have = line?.count('have', 'have');
    return {
      ...(pack ? { pack } : {}),
      ...(price === undefined ? {} : { price }),
      ...(have === undefined ? {} : { have }),
    };
  });

  readonly title = once(() => {
    const stock = this.stock();
    return stock ? stock.line.section.text.slice(stock.line.from, stock.line.to).replace(/\s+/g, ' ') : this.name;
  });

  readonly figures = once((): FigureSet => {
    const set = new FigureSet(`rivet ${this.name}`, this.name);
    const stock = this.stock();
    const size = this.size();
    const metal = this.metal();
    if (!stock || !size) return set;
    set.add('shank', 'shank', this.model.fromSpec(size.shank, 'mm', 'D'), stock.place, []);
    set.add('length', 'length', this.model.fromSpec(size.length, 'mm', 'L'), stock.place, []);
    if (metal) {
      set.add(
        'mass',
        'mass of one',
        rivetMass({ ...size, head: this.head(), density: metal.density.value }),
        stock.place,
        [`${this.name}.shank`, `${this.name}.length`],
      );
    }
    return set;
  });
}
