import { listWord } from '../../../grammar/vocabulary/index.ts';
import { say } from '../../../l10n/say.ts';
import { once } from '../../incremental/memo.ts';
import { percentileOf } from '../../trade/fit/body.ts';
import { estimated } from '../../trade/fit/estimate.ts';
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

  readonly figures = once(
    (): FigureSet =>
      this.measures()
        .and(/\.percentile$/, (set) => this.addPercentiles(set))
        .and(/\.estimate$/, (set) => this.addEstimates(set)),
  );

  /** What is missing beside a measure that is there: all that a head's form or the way on and off asks for. */
  private addEstimates(set: FigureSet): void {
    const known = (words: string) => this.measure(words)?.value;
    for (const { by, wanted } of TOGETHER) {
      const line = by.map((words) => this.lineOf(words)).find((each) => each !== undefined);
      for (const words of line ? wanted : []) {
        if (known(words) !== undefined) continue;
        const found = estimated(words, this.body(), known);
        const from = by.flatMap((each) => this.measure(each)?.name ?? []);
        if (found) set.add(`${hyphened(words)}.estimate`, say`${words}, estimated`, found, line!.place, from);
      }
    }
  }

  private lineOf(words: string) {
    return this.lines.find((line) => {
      const text = line.text('measure');
      return text !== undefined && (listWord('body measure', text) ?? text) === words;
    });
  }

  /** How each measure stands among other people. */
  private addPercentiles(set: FigureSet): void {
    for (const line of this.lines) {
      const text = line.text('measure');
      const words = text === undefined ? undefined : (listWord('body measure', text) ?? text);
      const value = line.length('value');
      const found = words !== undefined && value !== undefined && percentileOf(words, value, this.body());
      if (!found) continue;
      const name = hyphened(words);
      set.add(`${name}.percentile`, say`${words}: people of this size or less`, found, line.place, [
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

  /** The same, or what is most likely where it has not been taken. */
  measureOrEstimate(words: string): Figure | undefined {
    return this.measure(words) ?? this.figures().get(`${hyphened(words)}.estimate`);
  }
}

/** What is estimated, wherever one of the others is known. */
const TOGETHER: readonly { readonly by: readonly string[]; readonly wanted: readonly string[] }[] = [
  {
    by: ['head round', 'head length', 'head breadth'],
    wanted: [
      'head round',
      'head length',
      'head breadth',
      'crown height',
      'face length',
      'face breadth',
      'eye distance',
      'neck round',
    ],
  },
  { by: ['neck round'], wanted: ['head round'] },
  { by: ['wrist round', 'forearm round', 'elbow round', 'upper arm round'], wanted: ['hand round'] },
  { by: ['ankle round', 'calf round', 'knee round', 'thigh round'], wanted: ['foot round'] },
];
