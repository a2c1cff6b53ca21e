import { listWord } from '../../../grammar/vocabulary/index.ts';
import { once } from '../../incremental/memo.ts';
import { percentileOf } from '../../trade/fit/body.ts';
import { fromSpec } from '../../trade/reckoning/readings.ts';
import { hyphened } from '../names/spec-file.ts';
import type { Figure } from '../values/figure.ts';
import { FigureSet } from '../values/figure-set.ts';
import { Thing } from './thing.ts';

/** The body that armour is made for, as its section gives it. */
export class WearerModel extends Thing<'wearer'> {
  /** Whom its measures are compared with; nothing: both. */
  readonly body = once((): 'man' | 'woman' | undefined => {
    const line = this.lines.find((each) => each.id === 'body');
    return (['man', 'woman'] as const).find((word) => line?.word(word));
  });

  readonly figures = once((): FigureSet => this.measures().and(/\.percentile$/, (set) => this.addPercentiles(set)));

  /** How each measure stands among other people. */
  private addPercentiles(set: FigureSet): void {
    for (const line of this.lines) {
      const text = line.text('measure');
      const words = text === undefined ? undefined : (listWord('body measure', text) ?? text);
      const value = line.length('value');
      const found = words !== undefined && value !== undefined && percentileOf(words, value, this.body());
      if (!found) continue;
      const name = hyphened(words);
      set.add(`${name}.percentile`, `${words}: people of this size or less`, found, line.place, [
        `${this.name}.${name}`,
      ]);
    }
  }

  private readonly measures = once((): FigureSet => {
    const set = new FigureSet(`wearer ${this.name}`, this.name);
    for (const line of this.lines) {
      const words = line.text('measure');
      const value = line.length('value');
      if (words !== undefined && value !== undefined)
        set.add(hyphened(words), words, fromSpec(value, 'mm', words), line.place, []);
    }
    return set;
  });

  /** A measure by its words: `head round`. */
  measure(words: string): Figure | undefined {
    return this.figures().get(hyphened(listWord('body measure', words) ?? words));
  }
}
