import { listWord } from '../../../grammar/vocabulary/index.ts';
import { once } from '../../incremental/memo.ts';
import { fromSpec } from '../../trade/reckoning/readings.ts';
import { type BoughtHead, rivetMass } from '../../trade/rivet/rivet.ts';
import type { LineReading } from '../names/line-reading.ts';
import { FigureSet } from '../values/figure-set.ts';
import { StockThing } from './thing.ts';

/** How something is sold, and what is in the drawer. */
export interface Pack {
  readonly pack?: number;
  /** Of a pack, or of one where no pack is said. */
  readonly price?: number;
  readonly have?: number;
}

function packOf(line: LineReading | undefined, qualifier?: 'pack'): Pack {
  const pack = line?.count('pack', qualifier);
  const price = line?.measure('number', 'price', 'price');
  const have = line?.count('have', 'have');
  return {
    ...(pack ? { pack } : {}),
    ...(price === undefined ? {} : { price }),
    ...(have === undefined ? {} : { have }),
  };
}

/** A rivet as bought. */
export class RivetModel extends StockThing<'rivet'> {
  /** Shank diameter and length, mm. */
  readonly size = once((): { shank: number; length: number } | undefined => {
    const size = this.stock()?.size('size');
    return size && { shank: size[0], length: size[1] };
  });

  readonly head = once((): BoughtHead => {
    const text = this.stock()?.text('head', 'head');
    return ((text && listWord('head', text)) ?? 'domed') as BoughtHead;
  });

  readonly washer = once((): ({ diameter: number; thickness: number } & Pack) | undefined => {
    const line = this.line('washer');
    const size = line?.size('washer') ?? this.washerSize();
    return size && { diameter: size[0], thickness: size[1], ...packOf(line, 'pack') };
  });

  private washerSize(): readonly [number, number] | undefined {
    const values = this.line('washer')?.measures('length', 'washer');
    return values?.length === 2 ? [values[0]!, values[1]!] : undefined;
  }

  readonly pack = once((): Pack => packOf(this.line('pack')));

  readonly figures = once((): FigureSet => {
    const set = new FigureSet(`rivet ${this.name}`, this.name);
    const stock = this.stock();
    const size = this.size();
    const metal = this.metal();
    if (!stock || !size) return set;
    set.add('shank', 'shank', fromSpec(size.shank, 'mm', 'D'), stock.place, []);
    set.add('length', 'length', fromSpec(size.length, 'mm', 'L'), stock.place, []);
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
