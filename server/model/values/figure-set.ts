import type { Place } from '../../../grammar/tree.ts';
import { translated } from '../../../l10n/say.ts';
import { belonging } from '../../incremental/memo.ts';
import { patiently, type Steps } from '../../incremental/steps.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import type { Figure } from './figure.ts';
import type { ShowOptions } from './show.ts';

/** Figures of a thing that are worked out only when one of them, or all, are asked for. */
interface Further {
  /** What their names look like: a name of another look is not worth the work of looking. */
  readonly names: RegExp;
  readonly add: (set: FigureSet) => void;
  /** The line that all of them belong beside, where it is one. */
  readonly place?: Place;
  /** What has been worked out of them. */
  made?: FigureSet;
}

/** The figures of one thing, by what follows its name: `blank.area`, `rim.length`. */
export class FigureSet {
  private readonly bySuffix = new Map<string, Figure>();
  private readonly further: Further[] = [];
  /** Those of one part of it each, by how the names of the part begin. */
  private readonly parts = new Map<string, Further[]>();
  /** Whoever asks for further figures, they are part of the thing they are of. */
  private readonly belonging = belonging();
  /** The set that these are further figures of. */
  private beyond: FigureSet | undefined;

  constructor(
    readonly of: string,
    private readonly prefix: string,
  ) {}

  /**
   * Says that there are further figures. Checks run at every keystroke and ask for few figures by name; who reads all of them
   * (a hover, `explain`) or one of the further ones has those of its kind worked out then.
   */
  and(names: RegExp, add: (set: FigureSet) => void): this {
    this.further.push({ names, add });
    return this;
  }

  /**
   * Says that there are further figures of one of its parts: their names are its name and one word more, and they belong beside
   * one line. Who asks for one of them, or for those of the line, has those of this part alone worked out.
   */
  part(name: string, place: Place, add: (set: FigureSet) => void): this {
    const key = name.toLowerCase();
    const part: Further = { names: ANY, place, add };
    this.parts.set(key, [...(this.parts.get(key) ?? []), part]);
    this.further.push(part);
    return this;
  }

  /** Works out figures of one kind; one that is made from itself finds nothing here while it is being worked out. */
  private ofKind(further: Further): FigureSet {
    return (
      further.made ??
      this.belonging(() => {
        const made = new FigureSet(this.of, this.prefix);
        made.beyond = this;
        further.made = made;
        try {
          further.add(made);
        } catch (error) {
          // Half of them are none: whoever asks again has all of them worked out.
          delete further.made;
          throw error;
        }
        return made;
      })
    );
  }

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
      title: translated(title),
      of: this.of,
      inputs,
      place,
      shape,
    };
    // Field by field: a spread here is felt at every key.
    if (Number.isFinite(result.low) && Number.isFinite(result.high)) {
      figure.low = result.low!;
      figure.high = result.high!;
    }
    if (result.outside !== undefined) figure.outside = result.outside;
    if (result.note !== undefined) figure.note = result.note;
    if (result.measures) figure.measures = result.measures;
    this.bySuffix.set(suffix.toLowerCase(), figure);
    return figure;
  }

  /** Adds a figure under a name of its own: a `let` has no prefix. */
  addNamed(name: string, title: string, result: Result, place: Place): void {
    if (!Number.isFinite(result.value)) return;
    this.bySuffix.set(name.toLowerCase(), {
      ...result,
      name,
      title: translated(title),
      of: this.of,
      inputs: [],
      place,
      shape: {},
    });
  }

  /** Adds a figure that was made before, under its own name. */
  put(figure: Figure): void {
    this.bySuffix.set(figure.name.slice(this.prefix.length + 1).toLowerCase(), figure);
  }

  get(suffix: string): Figure | undefined {
    const key = suffix.toLowerCase();
    return this.own(key) ?? this.beyond?.get(key);
  }

  private own(key: string): Figure | undefined {
    const have = this.bySuffix.get(key);
    if (have) return have;
    for (const part of this.parts.get(key.slice(0, Math.max(0, key.lastIndexOf('.')))) ?? []) {
      const found = this.ofKind(part).own(key);
      if (found) return found;
    }
    for (const further of this.further) {
      const found = further.names !== ANY && further.names.test(key) ? this.ofKind(further).own(key) : undefined;
      if (found) return found;
    }
    return undefined;
  }

  /** The figures that belong beside a line, in the order they were worked out. */
  at(place: Place): Figure[] {
    const isHere = (other: Place) => other.section === place.section && other.from === place.from;
    return [
      ...[...this.bySuffix.values()].filter((figure) => isHere(figure.place)),
      ...this.further.flatMap((further) =>
        further.place && !isHere(further.place) ? [] : this.ofKind(further).at(place),
      ),
    ];
  }

  all(): Figure[] {
    return [...this.bySuffix.values(), ...this.further.flatMap((further) => this.ofKind(further).all())];
  }

  /** Works out all of them, kind by kind and part by part. */
  *workedOut(): Steps<void> {
    for (const further of this.further) {
      yield undefined;
      const made = yield* patiently(() => this.ofKind(further));
      yield* made.workedOut();
    }
  }
}

/** Whatever a part's figures are called, they are looked for by its name. */
const ANY = /(?:)/;
