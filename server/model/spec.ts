import type { LetLine, Place, Section } from '../../grammar/tree.ts';
import type { LineById, LinesOf } from '../../grammar/typed-line.ts';
import { type Each, kept, type Same } from '../incremental/memo.ts';
import { asWritten } from '../trade/reckoning/readings.ts';
import { LineReading } from './names/line-reading.ts';
import type { Project } from './names/project.ts';
import type { Named, SpecFile } from './names/spec-file.ts';
import { type HingeContext, HingeModel } from './things/hinge.ts';
import { type JointContext, JointModel } from './things/joint.ts';
import { MaterialModel } from './things/material.ts';
import { type PieceContext, type PieceFigures, PieceModel } from './things/piece.ts';
import { RivetModel } from './things/rivet.ts';
import { type SeamContext, SeamModel } from './things/seam.ts';
import { WearerModel } from './things/wearer.ts';
import type { Figure } from './values/figure.ts';
import { FigureSet } from './values/figure-set.ts';
import { numberOf, UNIT_OF_DIMENSION } from './values/quantity.ts';
import type { InchStep, System, UnitName } from './values/show.ts';

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

/** How figures are made: `figures/` does it, and knows the spec; the spec is given it. */
export interface Figuring {
  readonly piece: PieceFigures;
  seam(seam: SeamModel): FigureSet;
  joint(joint: JointModel): FigureSet;
  hinge(hinge: HingeModel): FigureSet;
  finish(model: Model, finish: Finish): FigureSet;
  build(model: Model): FigureSet;
}

/**
 * A spec with its meaning: what it makes and every figure of it. Nothing is worked out before somebody asks,
 * and nothing twice.
 */
/** What a build says itself goes before the editor's setting and the command line's option. */
const STEP_WORDS = [
  ['sixteenths', '1/16'],
  ['thirty-seconds', '1/32'],
  ['decimal', 'decimal'],
] as const satisfies readonly (readonly [string, InchStep])[];

export class Model implements PieceContext, SeamContext, HingeContext, JointContext {
  constructor(
    readonly file: SpecFile,
    private readonly registry: Registry,
  ) {
    this.finishSets = registry.project.each();
    this.figuring = registry.figuring;
  }

  /** How figures are made of what the spec says. */
  readonly figuring: Figuring;

  /** What is worked out for each section of the file, kept as long as it holds and forgotten with the section. */
  eachSection<T>(same?: Same<T>, what?: string): Each<Section | LetLine, T> {
    return this.registry.project.each(same, what);
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
    return kind === 'section' ? this.file.spec.sections : this.file.namedSectionsOf(kind);
  }

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

  readonly joints = kept((): readonly JointModel[] => this.all('joint').map((named) => this.jointOf(named)));

  jointOf(named: Named): JointModel {
    return this.registry.made(named, (model) => new JointModel(model, named));
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
  readonly writtenUnits = kept((): UnitName => (this.buildLine('units')?.word('in') ? 'in' : 'mm'));
  /** In which everything is told: as the build says, unless whoever reads it wants it otherwise. */
  readonly units = kept((): System => {
    const { told } = this.file;
    if ((told.units ?? this.writtenUnits()) === 'mm') return 'mm';
    const line = this.buildLine('units');
    const said = line?.has('step') ? STEP_WORDS.find(([word]) => line.word(word, 'step')) : undefined;
    return `in ${said?.[1] ?? told.inches}`;
  });

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

  /** The figures of the build. */
  readonly buildFigures = kept((): FigureSet => this.figuring.build(this));

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
    for (const joint of this.joints()) sets.push({ start: joint.named.section.start, set: joint.figures() });
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
      case 'joint':
        return home.jointOf(named).figures();
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
      case 'joint':
        return home.jointOf(named).figures().get(rest);
      case 'wearer':
        return home.wearerOf(named).figures().get(rest);
      default:
        return undefined;
    }
  }

  private finishFigures(named: Named): FigureSet {
    return this.finishSets.get(named.section, () => this.figuring.finish(this, this.finishOf(named)));
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
    const figure = asWritten(number, unit, written);
    set.addNamed(named.word.text, 'value', figure, { section: named.section, from: named.let.from, to: named.let.to });
    return set;
  }
}

/** What stands in a spec, by the kind of its section. */
export interface Things {
  readonly section: Section;
  readonly material: MaterialModel;
  readonly rivet: RivetModel;
  readonly piece: PieceModel;
  readonly seam: SeamModel;
  readonly finish: Finish;
  readonly hinge: HingeModel;
  readonly joint: JointModel;
}

/** The spec that a thing stands in. */
export function homeOf({ model }: { readonly model: object }): Model {
  if (!(model instanceof Model)) throw new Error('The thing stands in no spec.');
  return model;
}

/** One model for each file, and one object for each thing, however many files look at it. */
export class Registry {
  private readonly models = new WeakMap<SpecFile, Model>();
  private readonly things: Each<Section | LetLine, unknown>;

  constructor(
    readonly project: Project,
    readonly figuring: Figuring,
  ) {
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
