import type { Place } from '../../grammar/tree.ts';
import type { Result } from '../trade/result.ts';
import type { Figure } from './figure.ts';
import type { ShowOptions } from './show.ts';

/** The figures of one thing, by what follows its name: `blank.area`, `rim.length`. */
export class FigureSet {
  private readonly bySuffix = new Map<string, Figure>();

  constructor(
    readonly of: string,
    private readonly prefix: string,
  ) {}

  /** Adds a figure. A number that is not finite is no figure and is left out. */
  add(
    suffix: string,
    title: string,
    result: Result,
    place: Place,
    inputs: readonly string[],
    shape: ShowOptions = {},
  ): Figure | undefined {
    if (!Number.isFinite(result.value)) return undefined;
    const figure: { -readonly [Key in keyof Figure]: Figure[Key] } = {
      value: result.value,
      unit: result.unit,
      formula: result.formula,
      worked: result.worked,
      basis: result.basis,
      source: result.source,
      name: `${this.prefix}.${suffix}`,
      title,
      of: this.of,
      inputs,
      place,
      shape,
    };
    // Field by field: a spread here is felt at every key.
    if (result.low !== undefined) figure.low = result.low;
    if (result.high !== undefined) figure.high = result.high;
    if (result.outside !== undefined) figure.outside = result.outside;
    if (result.note !== undefined) figure.note = result.note;
    this.bySuffix.set(suffix.toLowerCase(), figure);
    return figure;
  }

  /** Adds a figure under a name of its own: a `let` has no prefix. */
  addNamed(name: string, title: string, result: Result, place: Place): void {
    if (!Number.isFinite(result.value)) return;
    this.bySuffix.set(name.toLowerCase(), { ...result, name, title, of: this.of, inputs: [], place, shape: {} });
  }

  /** Adds a figure that was made before, under its own name. */
  put(figure: Figure): void {
    this.bySuffix.set(figure.name.slice(this.prefix.length + 1).toLowerCase(), figure);
  }

  get(suffix: string): Figure | undefined {
    return this.bySuffix.get(suffix.toLowerCase());
  }

  /** The figures that belong beside a line, in the order they were worked out. */
  at(place: Place): Figure[] {
    return this.all().filter((figure) => figure.place.section === place.section && figure.place.from === place.from);
  }

  all(): Figure[] {
    return [...this.bySuffix.values()];
  }
}
