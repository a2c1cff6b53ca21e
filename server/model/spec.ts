import type { LetLine, Place, Section } from '../../grammar/tree.ts';
import type { LineById, LinesOf } from '../../grammar/typed-line.ts';
import { type Each, Gathering, kept, type Lists, type Memo, Roster, type Same, sameList } from '../incremental/memo.ts';
import type { Steps } from '../incremental/steps.ts';
import { wireMass } from '../trade/mass/mass.ts';
import { plain, type Result, result, type Unit } from '../trade/reckoning/result.ts';
import { finishFigures } from './figures/finish.ts';
import { notCounted } from './figures/not-counted.ts';
import { rivetCounts } from './figures/rivet-count.ts';
import { addHelm } from './figures/worn.ts';
import { LineReading } from './names/line-reading.ts';
import type { Named, Project, SpecFile } from './names/spec-file.ts';
import { HingeModel } from './things/hinge.ts';
import { MaterialModel } from './things/material.ts';
import { PieceModel } from './things/piece.ts';
import { RivetModel } from './things/rivet.ts';
import { SeamModel } from './things/seam.ts';
import { WearerModel } from './things/wearer.ts';
import type { Figure } from './values/figure.ts';
import { FigureSet } from './values/figure-set.ts';
import { numberOf, UNIT_OF_DIMENSION } from './values/quantity.ts';
import type { System } from './values/show.ts';

export type Duty = 'display' | 'stage' | 'contact';

/** A finish as the spec gives it. */
export interface Finish {
  readonly named: Named;
  readonly on: readonly {
    readonly line: LineReading;
    readonly named: Named | undefined;
    readonly face?: 'inside' | 'outside';
    readonly copy?: 'left' | 'right';
    readonly place: Place;
  }[];
  readonly steps: readonly LineReading[];
}

/** A part that is bought. */
export interface Part {
  readonly named: Named;
  readonly make: number;
  readonly mass?: number;
  readonly price?: number;
  readonly pack?: number;
  readonly have?: number;
  readonly wide?: number;
}

/**
 * A spec with its meaning: what it makes and every figure of it. Nothing is worked out before somebody asks,
 * and nothing twice.
 */
export class Model {
  constructor(
    readonly file: SpecFile,
    private readonly registry: Registry,
  ) {
    this.finishSets = registry.project.each();
  }

  /** What is worked out for each section of the file, kept as long as it holds and forgotten with the section. */
  eachSection<T>(same?: Same<T>): Each<Section | LetLine, T> {
    return this.registry.project.each(same);
  }

  // ---- the things it names -----------------------------------------------------------------------------------------

  readonly pieces = kept((): readonly PieceModel[] => this.all('piece').map((named) => this.pieceOf(named)));
  readonly materials = kept((): readonly MaterialModel[] =>
    this.all('material').map((named) => this.materialOf(named)),
  );
  readonly rivets = kept((): readonly RivetModel[] => this.all('rivet').map((named) => this.rivetOf(named)));
  readonly seams = kept((): readonly SeamModel[] => this.all('seam').map((named) => this.seamOf(named)));

  readonly finishes = kept((): readonly Finish[] => this.all('finish').map((named) => this.finishOf(named)));

  finishOf(named: Named): Finish {
    return this.registry.made(named, () => {
      const lines = named.section.lines.map((line) => new LineReading<LinesOf<'finish'>>(named.file, line));
      const on = lines
        .filter((line) => line.is('on'))
        .flatMap((line) =>
          line.all('surfaces').map((filled) => ({
            line,
            named: named.file.find(filled.text),
            place: { section: named.section, from: filled.from, to: filled.to },
            ...(filled.face ? { face: filled.face } : {}),
            ...(filled.copy ? { copy: filled.copy } : {}),
          })),
        );
      return { named, on, steps: lines.filter((line) => line.isOf('step')) };
    });
  }

  readonly parts = kept((): readonly Part[] => this.all('part').map((named) => this.partOf(named)));

  partOf(named: Named): Part {
    return this.registry.made(named, () => this.readPart(named));
  }

  private readPart(named: Named): Part {
    const lines = named.section.lines.map((line) => new LineReading<LinesOf<'part'>>(named.file, line));
    const of = <Id extends LinesOf<'part'>['id']>(id: Id) => lines.find((line) => line.is(id));
    const mass = of('mass')?.measure('mass', 'mass');
    const price = of('price')?.measure('number', 'price') ?? of('pack')?.measure('number', 'price', 'price');
    const pack = of('pack')?.count('pack');
    const have = of('pack')?.count('have', 'have');
    const wide = of('wide')?.length('wide');
    return {
      named,
      make: of('make')?.count('make') ?? 1,
      ...(mass === undefined ? {} : { mass }),
      ...(price === undefined ? {} : { price }),
      ...(pack ? { pack } : {}),
      ...(have === undefined ? {} : { have }),
      ...(wide === undefined ? {} : { wide }),
    };
  }

  /** Every section of a kind that has a name. */
  sectionsOf(kind: keyof Things | Exclude<Named['kind'], 'let'>): readonly Section[] {
    if (kind === 'section') return this.file.spec.sections;
    let named = this.namedSections.get(kind);
    if (!named) {
      named = kept(() => this.file.sectionsOf(kind).filter((section) => section.name), sameList);
      this.namedSections.set(kind, named);
    }
    return named();
  }
  private readonly namedSections = new Map<Named['kind'], () => readonly Section[]>();

  private all(kind: Exclude<Named['kind'], 'let'>): Named[] {
    // The section's own name comes before those of the measures in it.
    return this.sectionsOf(kind).map((section) => this.file.namesIn(section)[0]!);
  }

  pieceOf(named: Named): PieceModel {
    return this.registry.made(named, (model) => new PieceModel(model, named));
  }

  materialOf(named: Named): MaterialModel {
    return this.registry.made(named, (model) => new MaterialModel(model, named));
  }

  rivetOf(named: Named): RivetModel {
    return this.registry.made(named, (model) => new RivetModel(model, named));
  }

  seamOf(named: Named): SeamModel {
    return this.registry.made(named, (model) => new SeamModel(model, named));
  }

  readonly hinges = kept((): readonly HingeModel[] => this.all('hinge').map((named) => this.hingeOf(named)));

  hingeOf(named: Named): HingeModel {
    return this.registry.made(named, (model) => new HingeModel(model, named));
  }

  wearerOf(named: Named): WearerModel {
    return this.registry.made(named, (model) => new WearerModel(model, named));
  }

  // ---- the job -----------------------------------------------------------------------------------------------------

  readonly buildSection = kept((): Section | undefined => this.file.sectionsOf('build')[0]);

  private readonly buildLines = kept(() =>
    (this.buildSection()?.lines ?? []).map((line) => new LineReading<LinesOf<'build'>>(this.file, line)),
  );

  buildLine<Id extends LinesOf<'build'>['id']>(id: Id): LineReading<LineById<LinesOf<'build'>, Id>> | undefined {
    return this.buildLines().find((line) => line.is(id));
  }

  readonly title = kept(() => this.buildSection()?.title?.value);
  readonly client = kept(() => this.buildLine('for')?.text('client'));
  readonly due = kept(() => this.buildLine('due')?.text('due'));
  readonly make = kept(() => Math.max(1, this.buildLine('make')?.count('make') ?? 1));
  readonly spare = kept(() => this.buildLine('make')?.count('spare', 'spare') ?? 0);
  readonly units = kept((): System => (this.buildLine('units')?.word('in') ? 'in' : 'mm'));

  readonly duty = kept((): Duty | undefined => {
    const line = this.buildLine('duty');
    return (['display', 'stage', 'contact'] as const).find((duty) => line?.word(duty));
  });

  readonly rules = kept((): Named | undefined => {
    const named = this.buildLine('duty')?.named('rules', 'rules');
    return named?.kind === 'rules' ? named : undefined;
  });

  private readonly shopLines = kept((): readonly LineReading<LinesOf<'shop'>>[] => {
    const shop = this.file.firstSection('shop');
    return shop ? shop.section.lines.map((line) => new LineReading(shop.file, line)) : [];
  });

  shopLine<Id extends LinesOf<'shop'>['id']>(id: Id): LineReading<LineById<LinesOf<'shop'>, Id>> | undefined {
    return this.shopLines().find((line) => line.is(id));
  }

  shopLinesOf<Id extends LinesOf<'shop'>['id']>(id: Id): readonly LineReading<LineById<LinesOf<'shop'>, Id>>[] {
    return this.shopLines().filter((line) => line.is(id));
  }

  /** Which family of gauge tables a `ga` is read by. */
  readonly gaugeFamily = kept((): 'US' | 'UK' => (this.shopLine('gauges')?.word('uk') ? 'UK' : 'US'));
  readonly currency = kept((): string | undefined => this.shopLine('currency')?.text('currency')?.toUpperCase());

  // ---- figures -----------------------------------------------------------------------------------------------------

  /** A number that the smith wrote. */
  fromSpec(value: number, unit: Unit, symbol: string): Result {
    return result({
      value,
      unit,
      formula: `${symbol} = {${symbol}}`,
      symbols: { [symbol]: value },
      basis: 'from the spec',
      source: 'As written in the spec',
    });
  }

  /** Every figure of this file, thing by thing in the order of the spec, the build last. */
  readonly figures = kept((): readonly FigureSet[] => {
    const sets: { start: number; set: FigureSet }[] = [];
    for (const section of this.file.spec.sections) {
      for (const line of section.singles) {
        if (line.kind === 'let' && line.name) {
          const set = this.letFigures(line.name.key);
          if (set) sets.push({ start: section.start + line.from, set });
        }
      }
    }
    for (const named of this.all('wearer'))
      sets.push({ start: named.section.start, set: this.wearerOf(named).figures() });
    for (const material of this.materials())
      sets.push({ start: material.named.section.start, set: material.figures() });
    for (const rivet of this.rivets()) sets.push({ start: rivet.named.section.start, set: rivet.figures() });
    for (const piece of this.pieces()) sets.push({ start: piece.named.section.start, set: piece.figures() });
    for (const seam of this.seams()) sets.push({ start: seam.named.section.start, set: seam.figures() });
    for (const finish of this.finishes())
      sets.push({ start: finish.named.section.start, set: this.finishFigures(finish.named) });
    for (const hinge of this.hinges()) sets.push({ start: hinge.named.section.start, set: hinge.figures() });
    sets.sort((a, b) => a.start - b.start);
    return [...sets.map(({ set }) => set), this.buildFigures()];
  });

  /** The figures that belong beside a line. Only what stands in that section is worked out. */
  figuresAt(place: Place): Figure[] {
    const { section } = place;
    const single = section.singles.find((each) => each.from === place.from);
    if (single) return (single.kind === 'let' && single.name && this.letFigures(single.name.key)?.at(place)) || [];
    if (section.kind?.kind === 'build') return this.buildFigures().at(place);
    const named = section.name && this.file.bearersOf(section.name.key).find((each) => each.section === section);
    return (named && this.figuresOf(named)?.at(place)) ?? [];
  }

  /** Every figure of a named thing; nothing for one that has none. */
  figuresOf(named: Named): FigureSet | undefined {
    const home = this.registry.modelOf(named.file);
    switch (named.kind) {
      case 'piece':
        return home.pieceOf(named).figures();
      case 'material':
        return home.materialOf(named).figures();
      case 'rivet':
        return home.rivetOf(named).figures();
      case 'seam':
        return home.seamOf(named).figures();
      case 'finish':
        return home.finishFigures(named);
      case 'hinge':
        return home.hingeOf(named).figures();
      case 'wearer':
        return home.wearerOf(named).figures();
      default:
        return undefined;
    }
  }

  /** The figure of a named thing, by what follows its name. */
  figureOf(named: Named, rest: string): Figure | undefined {
    const home = this.registry.modelOf(named.file);
    switch (named.kind) {
      case 'piece':
        return home.pieceOf(named).figure(rest);
      case 'material':
        return home.materialOf(named).figures().get(rest);
      case 'rivet':
        return home.rivetOf(named).figures().get(rest);
      case 'seam':
        return home.seamOf(named).figure(rest);
      case 'finish':
        return home.finishFigures(named).get(rest);
      case 'hinge':
        return home.hingeOf(named).figures().get(rest);
      case 'wearer':
        return home.wearerOf(named).figures().get(rest);
      default:
        return undefined;
    }
  }

  private finishFigures(named: Named): FigureSet {
    return this.finishSets.get(named.section, () => finishFigures(this, this.finishOf(named)));
  }
  private readonly finishSets: Each<Section | LetLine, FigureSet>;

  private letFigures(key: string): FigureSet | undefined {
    const named = this.file.find(key);
    const value = named?.let?.value?.parts[0];
    if (!named?.let?.name || !value) return undefined;
    const quantity = named.file.valueOf(named.let);
    const unit = quantity && UNIT_OF_DIMENSION[quantity.dimension];
    if (!quantity || !unit) return undefined;
    const number = numberOf(quantity);
    const set = new FigureSet(`let ${named.word.text}`, '');
    // As the smith wrote it, brackets and all: from after the sign to the end of the line.
    const { text } = named.section;
    const written = text
      .slice(text.indexOf('=', named.let.name.to) + 1, named.let.to)
      .trim()
      .replace(/\s+/g, ' ');
    const figure: Result = {
      value: number,
      unit,
      formula: written,
      worked: written,
      basis: 'from the spec',
      source: 'As written in the spec',
    };
    set.addNamed(named.word.text, 'value', figure, { section: named.section, from: named.let.from, to: named.let.to });
    return set;
  }

  /** Mass of one build, as far as its parts are known. */
  readonly buildFigures = kept((): FigureSet => {
    const set = new FigureSet('build', 'build');
    const section = this.buildSection();
    const at = section?.title ?? section?.header;
    if (!section || !at) return set;
    const place = { section, from: at.from, to: at.to };
    const known: { name: string; count: number; mass: Pick<Result, 'value' | 'low' | 'high'> }[] = [];
    const missing: string[] = [];
    for (const piece of this.pieces()) {
      const mass = piece.figure('mass');
      if (mass) known.push({ name: mass.name, count: piece.make(), mass });
      else missing.push(piece.name);
    }
    for (const { length, wire, times } of this.wires()) {
      const density = wire.density();
      const diameter = wire.thickness();
      if (!density || !diameter) {
        missing.push(`wire ${wire.name}`);
        continue;
      }
      known.push({
        name: length.name,
        count: times,
        mass: wireMass({ length: length.value, wire: diameter.value, density: density.value }),
      });
    }
    for (const [rivet, count] of rivetCounts(this)) {
      const mass = rivet.figures().get('mass');
      if (mass) known.push({ name: mass.name, count, mass });
      else missing.push(rivet.name);
    }
    for (const { seam, line } of this.straps()) {
      const count = line.has('count') ? (line.count('count', 'count') ?? 1) : 1;
      const leather = line.named('material');
      const perArea =
        leather?.kind === 'material' ? this.materialOf(leather).figures().get('mass-per-area') : undefined;
      const long = line.length('long', 'long');
      const wide = line.length('wide', 'wide');
      if (perArea && long !== undefined && wide !== undefined)
        known.push({ name: perArea.name, count, mass: { value: (perArea.value * long * wide) / 1e6 } });
      else missing.push(`the strap of ${seam.name}`);
      const named = line.named('part', 'buckle');
      const buckle = named?.kind === 'part' ? this.partOf(named) : undefined;
      const isCounted = named && this.parts().some((part) => part.named.section === named.section);
      if (buckle?.mass !== undefined && !isCounted)
        known.push({ name: buckle.named.word.text, count, mass: { value: buckle.mass } });
      else if (named && !isCounted) missing.push(named.word.text);
    }
    for (const part of this.parts())
      if (part.mass !== undefined)
        known.push({ name: part.named.word.text, count: part.make, mass: { value: part.mass } });
      else missing.push(part.named.word.text);
    for (const each of notCounted(this)) if (each.from === 'mass and order') missing.push(each.what);
    this.addTotals(set, place);
    addHelm(this, set, place);
    if (!known.length) return set;
    const sum = (pick: (mass: Pick<Result, 'value' | 'low' | 'high'>) => number) =>
      known.reduce((total, each) => total + each.count * pick(each.mass), 0);
    const value = sum((mass) => mass.value);
    const low = sum((mass) => mass.low ?? mass.value);
    const high = sum((mass) => mass.high ?? mass.value);
    set.add(
      'mass',
      'mass of one build',
      {
        ...result({
          value,
          low,
          high,
          unit: 'g',
          formula: 'm = Σ n × m',
          symbols: {},
          basis: 'geometry',
          source: 'Pieces, wire, pins, rivets, straps and parts',
        }),
        worked: known
          .map((each) => `${each.count === 1 ? '' : `${each.count} × `}${Math.round(each.mass.value * 10) / 10}`)
          .join(' + '),
        ...(missing.length ? { note: `Without ${missing.join(', ')}, whose mass is not known yet.` } : {}),
      },
      place,
      known.map((each) => each.name),
    );
    return set;
  });

  /** Every strap line. */
  readonly straps = kept((): readonly { readonly seam: SeamModel; readonly line: LineReading }[] =>
    this.seams().flatMap((seam) => seam.lines.filter((line) => line.id === 'strap').map((line) => ({ seam, line }))),
  );

  /** What one build takes, counted up. */
  private addTotals(set: FigureSet, place: Place): void {
    const total = (suffix: string, title: string, unit: Unit, parts: readonly Counted[], source: string) => {
      if (!parts.length) return;
      const sum = (pick: (part: Counted) => number) => parts.reduce((all, part) => all + part.times * pick(part), 0);
      const ranged = parts.some(({ low }) => low !== undefined);
      set.add(
        suffix,
        title,
        {
          ...result({
            value: sum(({ value }) => value),
            low: ranged ? sum(({ value, low = value }) => low) : undefined,
            high: ranged ? sum(({ value, high = value }) => high) : undefined,
            unit,
            formula: 'Σ n × x',
            symbols: {},
            basis: 'geometry',
            source,
          }),
          worked: parts.map(({ times, value }) => `${times === 1 ? '' : `${times} × `}${plain(value)}`).join(' + '),
        },
        place,
        parts.map(({ name }) => name),
      );
    };
    const rivets = this.seams().flatMap((seam): Counted[] => {
      const count = seam.figure('rivets');
      // Shared rivets are counted where they are set.
      return count && !seam.shares().length ? [{ ...count, times: seam.rows() }] : [];
    });
    total('rivets', 'rivets in one build', 'count', rivets, 'Every row of every seam; shared rivets once');
    const wires = this.wires().map(({ length, times }): Counted => ({ ...length, times }));
    total('wire', 'wire in one build', 'mm', wires, 'Wired edges and the pins of hinges');
    const blanks = this.pieces().flatMap((piece): Counted[] => {
      const area = piece.figure('blank.area');
      return area ? [{ ...area, times: piece.make() }] : [];
    });
    total(
      'blank-area',
      'area of the blanks of one build',
      'mm2',
      blanks,
      'Blanks as cut, without what is between them',
    );
  }

  /** Every use of wire: wired edges, and the pins of hinges. */
  wires(): readonly WireUse[] {
    return [...wiredEdges(this), ...pins(this)];
  }
}

const wiredEdges = gathered('piece', (piece) =>
  piece.edgeWorks().flatMap((work): WireUse[] => {
    const { edge, wire } = work;
    const length = wire && piece.figure(`${edge}.wire`);
    const times = piece.make() * piece.edgesOf(work).length;
    return wire && length ? [{ of: piece.name, what: edge, length, wire, times }] : [];
  }),
);

const pins = gathered('hinge', (hinge): WireUse[] => {
  const length = hinge.figures().get('pin-length');
  const wire = hinge.pin();
  return wire && length ? [{ of: hinge.name, what: 'pin', length, wire, times: hinge.make() }] : [];
});

/** A wire cut to length, so many times in one build. */
export interface WireUse {
  /** The piece or the hinge it is for. */
  readonly of: string;
  /** The edge it lies in, or `pin`. */
  readonly what: string;
  readonly length: Figure;
  readonly wire: MaterialModel;
  readonly times: number;
}

/** Something worked out of a whole spec, kept as long as it holds. */
export function ofModel<T>(compute: (model: Model) => T): (model: Model) => T {
  return perModel((model) => kept(() => compute(model)));
}

/**
 * What each thing of a kind brings to what must see all of them, in the order of the spec. After an edit only the things
 * that something changed of are asked again.
 */
export function gathered<Kind extends keyof Things, T>(
  kind: Kind,
  of: (thing: Things[Kind], model: Model) => readonly T[],
): (model: Model) => readonly T[] {
  return perModel((model) => {
    const list = new Gathering<Section, T>(() => model.sectionsOf(kind), broughtBy(model, kind, of));
    return () => list.get();
  });
}

/**
 * Lists and counts of what the things of a kind bring, asked for together: after an edit a thing is asked once for all of
 * them. For what the checks look for, since who asks for one list has all of them made: what the model itself asks for on
 * its way would run in circles so.
 */
export class Together<Kind extends keyof Things> {
  private readonly asks: ((thing: Things[Kind], model: Model) => readonly unknown[])[] = [];
  private isInUse = false;

  constructor(private readonly kind: Kind) {}

  /** What they bring, in the order of the spec. */
  list<T>(of: (thing: Things[Kind], model: Model) => readonly T[]): (model: Model) => readonly T[] {
    const at = this.add(of);
    return (model) => this.rosterOf(model).list(at) as readonly T[];
  }

  /** How often they bring something, whichever of them does. */
  tally<T>(of: (thing: Things[Kind], model: Model) => readonly T[]): (model: Model) => ReadonlyMap<T, number> {
    const at = this.add(of);
    return (model) => this.rosterOf(model).tally(at) as ReadonlyMap<T, number>;
  }

  /** Asks one thing after the other, where that takes long. */
  inSteps(model: Model): Steps<void> {
    return this.rosterOf(model).inSteps();
  }

  private add(of: (thing: Things[Kind], model: Model) => readonly unknown[]): number {
    if (this.isInUse) throw new Error('The things have been asked already.');
    return this.asks.push(of) - 1;
  }

  private readonly rosterOf = perModel((model) => {
    this.isInUse = true;
    const { asks } = this;
    const all = (thing: Things[Kind]): Lists => {
      const lists = asks.map((of) => of(thing, model));
      return lists.some((list) => list.length) ? lists : NOTHING;
    };
    const memoOf = broughtBy(model, this.kind, all);
    const roster = new Roster<Section>(() => model.sectionsOf(this.kind), memoOf, asks.length);
    return () => roster;
  });
}

const NOTHING: Lists = [];

function broughtBy<Kind extends keyof Things, T>(
  model: Model,
  kind: Kind,
  of: (thing: Things[Kind], model: Model) => readonly T[],
): (section: Section) => Memo<readonly T[]> {
  const each = model.eachSection<readonly T[]>(sameList);
  return (section) => each.memo(section, () => of(thingOf(model, kind, section)!, model));
}

interface Things {
  readonly section: Section;
  readonly material: MaterialModel;
  readonly rivet: RivetModel;
  readonly piece: PieceModel;
  readonly seam: SeamModel;
  readonly finish: Finish;
  readonly hinge: HingeModel;
}

/** The thing that a section is about; nothing where it is of another kind or has no name. */
export function thingOf<Kind extends keyof Things>(
  model: Model,
  kind: Kind,
  section: Section,
): Things[Kind] | undefined;
export function thingOf(model: Model, kind: keyof Things, section: Section): Things[keyof Things] | undefined {
  if (kind === 'section') return section;
  const named = section.name && section.kind?.kind === kind ? model.file.namesIn(section)[0] : undefined;
  if (!named) return undefined;
  switch (kind) {
    case 'material':
      return model.materialOf(named);
    case 'rivet':
      return model.rivetOf(named);
    case 'piece':
      return model.pieceOf(named);
    case 'seam':
      return model.seamOf(named);
    case 'finish':
      return model.finishOf(named);
    case 'hinge':
      return model.hingeOf(named);
  }
}

/** The same for what looks after itself: one for each spec. */
export function perModel<T>(make: (model: Model) => () => T): (model: Model) => T {
  const known = new WeakMap<Model, () => T>();
  return (model) => {
    let get = known.get(model);
    if (!get) {
      get = make(model);
      known.set(model, get);
    }
    return get();
  };
}

/** One part of a sum, so many times. */
type Counted = Pick<Figure, 'name' | 'value' | 'low' | 'high'> & { readonly times: number };

/** One model for each file, and one object for each thing, however many files look at it. */
class Registry {
  private readonly models = new WeakMap<SpecFile, Model>();
  private readonly things: Each<Section | LetLine, unknown>;

  constructor(readonly project: Project) {
    this.things = project.each(undefined, 'thing');
  }

  modelOf(file: SpecFile): Model {
    let model = this.models.get(file);
    if (!model) {
      model = new Model(file, this);
      this.models.set(file, model);
    }
    return model;
  }

  made<T>(named: Named, make: (model: Model) => T): T {
    return this.things.get(named.section, () => make(this.modelOf(named.file))) as T;
  }
}

const registries = new WeakMap<Project, Registry>();

/** The model of a spec; nothing if there is no such spec. */
export function modelOf(project: Project, uri: string): Model | undefined {
  let registry = registries.get(project);
  if (!registry) {
    const made = new Registry(project);
    registry = made;
    registries.set(project, made);
    project.figureOf = (named, rest) => made.modelOf(named.file).figureOf(named, rest);
  }
  const file = project.file(uri);
  return file && registry.modelOf(file);
}
