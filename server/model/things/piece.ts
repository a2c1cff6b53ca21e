import { leadingWords } from '../../../grammar/pattern.ts';
import type { Place, Word } from '../../../grammar/tree.ts';
import type { LineById, PieceLine } from '../../../grammar/typed-line.ts';
import { type CutOut, isCutOut, type NoOutline, type OutlineIn } from '../../geometry/drawings/outline-in.ts';
import type { Refusal } from '../../geometry/flatten/flatten.ts';
import type { Chart } from '../../geometry/surface/chart.ts';
import type { CutForm } from '../../geometry/surface/cut.ts';
import type { SurfaceLine } from '../../geometry/surface/walk.ts';
import { circleArea } from '../../trade/blank/plane-shapes.ts';
import {
  annealsNeeded,
  type DomeThickness,
  domeBlankArc,
  domeThickness,
  type FormingMethod,
  raisingCourses,
} from '../../trade/dome/dome.ts';
import { wireLengthAlong } from '../../trade/edge/edge.ts';
import { sheetMass } from '../../trade/mass/mass.ts';
import { OF_PIECE } from '../../trade/reckoning/bounds.ts';
import { type Result, result } from '../../trade/reckoning/result.ts';
import { addCentre } from '../figures/balance.ts';
import { addFit } from '../figures/fit.ts';
import { addForming } from '../figures/forming.ts';
import { addFlatFigures } from '../figures/laid-flat.ts';
import { addOpeningFigures, openingName } from '../figures/openings.ts';
import { addTemplates, type Template, templatesOf } from '../figures/templates.ts';
import { addTurning } from '../figures/turning.ts';
import { type Allowance, type Blank, Edges, flattenedBlank, givenBlank, type WorkedBlank } from '../forms/blank.ts';
import type { EdgeRun } from '../forms/edge-run.ts';
import {
  ANY_EDGES,
  type Domed,
  type FormRefusal,
  isAbove,
  MEASURED,
  type Met,
  NONE,
  NOT_KNOWN,
  type None,
  type NotKnown,
  type Shaped,
} from '../forms/form.ts';
import { type Form, kindOf, notationOf } from '../forms/index.ts';
import { lameGirthOf } from '../forms/lame.ts';
import { levelsOf } from '../forms/levels.ts';
import { cutOutArea, sawnLength, slotArea } from '../forms/measures.ts';
import { cutOutOf, outlineOf } from '../names/drawn.ts';
import { LineReading } from '../names/line-reading.ts';
import { type Named, once, onceUnlessCircular } from '../names/spec-file.ts';
import { allowanceOf, type EdgeWork, inWords } from '../shapes/edge-work.ts';
import { type Flattening, flatteningOf } from '../shapes/flattening.ts';
import {
  baseLineOf,
  baysOf,
  cutOf,
  measuredArea,
  measuredLength,
  measuredRun,
  plainChartOf,
  workedChartOf,
} from '../shapes/surface.ts';
import type { Worked } from '../shapes/worked.ts';
import type { Model } from '../spec.ts';
import type { Figure } from '../values/figure.ts';
import { FigureSet } from '../values/figure-set.ts';
import { knucklesOf } from './hinge.ts';
import type { MaterialModel } from './material.ts';

export interface Opening {
  readonly line: LineReading<PieceLine>;
  readonly name?: Word;
  readonly kind: 'slot' | 'hole' | 'holes' | 'breaths';
  readonly count: number;
  /** Size of one, mm: `long` across, `wide` up; equal for round ones. */
  readonly long: number;
  readonly wide: number;
  readonly round: boolean;
  readonly beforeForming: boolean;
}

/** A line that names a drawing file. */
export interface DrawnLine {
  readonly line: LineReading<PieceLine>;
  readonly found?: OutlineIn | CutOut | NoOutline;
}

/** Pierced work out of a drawing. */
export interface Pierced {
  readonly line: LineReading<PieceLine>;
  readonly name?: Word;
  readonly kind: 'pierce';
  readonly beforeForming: boolean;
  /** What is cut out, or why the drawing gives nothing; nothing where there is no such file. */
  readonly cutOut?: CutOut | NoOutline;
}

export interface Bend {
  readonly line: LineReading<PieceLine>;
  readonly kind: 'bend' | 'flare';
  /** Angle turned through, degrees. */
  readonly angle?: number;
  readonly radius?: number;
  /** Distance from its edge, or the width of a flare, mm. */
  readonly distance?: number;
  readonly edge: string;
}

/** How deep a dome may be for its rim, as depth over half the diameter, before a tool-picked method goes over from dishing. */
const DISH_TO = 0.6;

/** Figures that are worked out only when one of their kind is asked for, by their names. */
const FURTHER: readonly (readonly [names: RegExp, add: (piece: PieceModel, set: FigureSet) => void])[] = [
  [/^(thickness\.mean|limit|start-thickness|tightest-radius|roll-radius.*)$/, addForming],
  [/^(bend|flute|crease)-\d+\.|\.(strain|roll-strain|stiffness|gathering)$/, addTurning],
  [
    /^(blade-teeth|saw-tilt)$|\.(punch-force|rod|edge-distance|web|bend-distance|view-wide|view-both|view-high)$/,
    addOpeningFigures,
  ],
  [/^(inside-round|clearance.*|head-passes)$/, addFit],
  [/^centre\./, addCentre],
  [/^template-\d+\./, addTemplates],
];

const TURN_NOT_KNOWN = 'How far the edge turns is not known: a wire outside it is longer, one inside it shorter.';

const HEADING: Readonly<Record<string, FormingMethod>> = {
  dish: 'dish',
  raise: 'raise',
  'dish then raise': 'dish then raise',
};

/** One plate, with every figure that its lines lead to. */
export class PieceModel implements Shaped {
  constructor(
    readonly model: Model,
    readonly named: Named,
  ) {}

  get name(): string {
    return this.named.word.text;
  }

  get place(): Place {
    return { section: this.named.section, from: this.named.word.from, to: this.named.word.to };
  }

  // ---- what its lines say ------------------------------------------------------------------------------------------

  /** Its own lines and those it has from the piece it is like, own lines first. */
  readonly lines = once((): readonly LineReading<PieceLine>[] => {
    const own = this.named.section.lines.map((line) => new LineReading<PieceLine>(this.named.file, line));
    const other = this.likeTarget();
    if (!other) return own;
    const scale = own.find((line) => line.is('like'))?.measure('number', 'scale', 'scaled') ?? 1;
    const replaced = new Set(own.map((line) => sortOf(line)));
    const inherited = other.lines().filter((line) => line.id !== 'like' && !replaced.has(sortOf(line)));
    return [
      ...own,
      ...inherited.map(
        (line) => new LineReading<PieceLine>(line.file, line.line, line.scale * (scale > 0 ? scale : 1)),
      ),
    ];
  });

  /** The piece it is like, unless that is like this one again. */
  readonly likeTarget = once((): PieceModel | undefined => {
    const target = this.nextLike();
    const seen = new Set<PieceModel>([this]);
    for (let next: PieceModel | undefined = target; next; next = next.nextLike()) {
      if (seen.has(next)) return undefined;
      seen.add(next);
    }
    return target;
  });

  /** The piece named in its `like` line, circle or not. */
  readonly nextLike = once((): PieceModel | undefined => {
    const line = this.named.section.lines.find((each) => each.word?.id === 'like');
    const named = line && new LineReading<LineById<PieceLine, 'like'>>(this.named.file, line).named('piece');
    return named?.kind === 'piece' ? this.model.pieceOf(named) : undefined;
  });

  line<Id extends PieceLine['id']>(id: Id): LineReading<LineById<PieceLine, Id>> | undefined {
    return this.lines().find((line): line is LineReading<LineById<PieceLine, Id>> => line.id === id);
  }

  all<Id extends PieceLine['id']>(id: Id): LineReading<LineById<PieceLine, Id>>[] {
    return this.lines().filter((line): line is LineReading<LineById<PieceLine, Id>> => line.id === id);
  }

  readonly material = once((): MaterialModel | undefined => {
    const named = this.line('from')?.named('material');
    return named?.kind === 'material' ? this.model.materialOf(named) : undefined;
  });

  /** How many in one build. */
  readonly make = once(() => Math.max(1, Math.min(this.line('make')?.count('make') ?? 1, 10_000)));
  readonly mirrored = once(() => this.line('make')?.has('mirrored') ?? false);

  /** The starting thickness, mm. */
  thickness(): number | undefined {
    return this.material()?.thickness()?.value;
  }

  readonly formLine = once((): LineReading<PieceLine> | undefined =>
    this.lines().find((line) => line.line.word?.group === 'form' && line.id !== 'like'),
  );

  /** Whether the form's measures are of the inside or the outside; nothing: of the middle of the thickness. */
  readonly side = once((): 'inside' | 'outside' | undefined => {
    const line = this.formLine();
    return line?.has('inside') ? 'inside' : line?.has('outside') ? 'outside' : undefined;
  });

  /** What a diameter gains from the measured face to the middle of the thickness, mm. */
  grow(): number | undefined {
    const side = this.side();
    // Without the thickness an inside measure cannot be brought to the middle: nothing is guessed.
    const thickness = side ? this.thickness() : 0;
    return thickness === undefined ? undefined : side === 'outside' ? -thickness : thickness;
  }

  readonly form = onceUnlessCircular((): Form | undefined => {
    const line = this.formLine();
    const grow = this.grow();
    if (!line || grow === undefined) return undefined;
    const notation = notationOf(line.id);
    return notation ? notation.read({ line, piece: this, grow }) : { kind: 'later', line };
  });

  /** The outline in the drawing file of its form line, or why there is none; nothing where there is no such file. */
  readonly drawnIn = once((): OutlineIn | NoOutline | undefined => {
    const line = this.formLine();
    const file = line?.id === 'outline' ? line.text('file') : undefined;
    const drawing = file === undefined ? undefined : line!.file.drawing(file);
    return drawing && outlineOf(drawing, line!.text('which', 'named'), OF_PIECE);
  });

  /** Every line of the piece that names a drawing file, with what was found in it; nothing where there is no such file. */
  readonly drawnLines = once((): readonly DrawnLine[] => {
    const line = this.formLine();
    const outline = this.drawnIn();
    return [
      ...(line?.id === 'outline' && line.text('file') !== undefined
        ? [{ line, ...(outline ? { found: outline } : {}) }]
        : []),
      ...this.pierced().flatMap(({ line: each, cutOut }) =>
        each.text('file') === undefined ? [] : [{ line: each, ...(cutOut ? { found: cutOut } : {}) }],
      ),
    ];
  });

  readonly levels = once((): ReturnType<Shaped['levels']> => levelsOf(this));

  /** Why its form cannot be made as written, each with the line that is at fault. */
  readonly formRefusals = once((): readonly FormRefusal[] => {
    const line = this.formLine();
    return (line && notationOf(line.id)?.refusals?.(line, this)) ?? [];
  });

  readonly lameGirth = onceUnlessCircular((): Result | undefined => lameGirthOf(this.formLine(), this));

  meetingSection(): Met | None | undefined {
    const form = this.form();
    return form && kindOf(form).meets(form);
  }

  pieceNamed(named: Named): PieceModel {
    return this.model.pieceOf(named);
  }

  /** The form as a smooth surface at the middle of the thickness, with nothing worked into it. */
  readonly plainChart = onceUnlessCircular((): Chart | undefined => plainChartOf(this));

  /** What is worked into that: flutes, creases, flares. */
  readonly worked = onceUnlessCircular((): Worked | undefined => {
    const chart = this.plainChart();
    return chart && workedChartOf(this, chart);
  });

  /** The finished form as a smooth surface at the middle of the thickness. */
  chart(): Chart | undefined {
    return this.worked()?.chart;
  }

  /** Whether lines work its form: most pieces have none, and a surface is dear. */
  hasWorkings(): boolean {
    return (['flute', 'crease', 'flare'] as const).some((id) => this.line(id));
  }

  /** Whether flutes or creases change its surface, and with it the blank. */
  isRelieved(): boolean {
    return this.hasWorkings() && (this.worked()?.isRelieved ?? false);
  }

  /** Whether anything is worked into its surface: the formulas of its plain form do not hold then. */
  isWorked(): boolean {
    return this.hasWorkings() && this.chart() !== this.plainChart();
  }

  /** The outline that its bays leave; nothing where it has none. */
  readonly cutForm = onceUnlessCircular((): CutForm | undefined => cutOf(this));

  /** The piece laid flat by numbers, or why it cannot be; nothing for a form whose blank has a formula. */
  readonly flattening = onceUnlessCircular((): Flattening | Refusal | undefined => flatteningOf(this));

  /** The piece laid flat by numbers, where it can be. */
  laidFlat(): Flattening | undefined {
    const found = this.flattening();
    return found && 'flat' in found ? found : undefined;
  }

  /** The line on its neighbour's surface that a strip or a comb follows. */
  readonly baseLine = onceUnlessCircular((): SurfaceLine | undefined => baseLineOf(this));

  isLaidFlat(): boolean {
    return this.laidFlat() !== undefined;
  }

  /** The edges it has, by name: those of its form, and those that its bays make. */
  edgeNames(): readonly string[] {
    const form = this.form();
    const own = form ? kindOf(form).edges(form) : ANY_EDGES;
    return [...own, ...baysOf(this).map(({ name }) => name)];
  }

  /** How an edge or a line runs; not known is not straight. */
  edgeRun(edge: string): EdgeRun | NotKnown {
    const form = this.form();
    if (!form) return NOT_KNOWN;
    const key = edge.toLowerCase();
    const own = baysOf(this).length ? MEASURED : kindOf(form).run(form, key, this);
    return own === MEASURED ? measuredRun(this, key) : own;
  }

  /** Whether an edge comes back to its beginning: one into which a bay is cut does not. */
  isClosedEdge(edge: string): boolean {
    const form = this.form();
    return (
      form !== undefined &&
      kindOf(form).closes(form, edge) &&
      !baysOf(this).some(({ from, to }) => from.edge === edge || to.edge === edge)
    );
  }

  /** The dome that it is, or is a half of; nothing for another form. */
  domed(): Domed | undefined {
    const form = this.form();
    const domed = form && kindOf(form).domed(form);
    return domed === NONE ? undefined : domed;
  }

  readonly method = once(
    (): {
      readonly method: FormingMethod | undefined;
      readonly said: boolean;
      readonly line?: LineReading<PieceLine>;
    } => {
      const line = this.lines().find((each) => HEADING[each.id]);
      if (line) return { method: HEADING[line.id], said: true, line };
      const domed = this.domed();
      if (!domed) return { method: undefined, said: false };
      return { method: domed.deep / (domed.wide / 2) <= DISH_TO ? 'dish' : 'dish then raise', said: false };
    },
  );

  readonly edgeWorks = once((): readonly EdgeWork[] =>
    this.lines().flatMap((line): EdgeWork[] => {
      const edge = line.text('edge');
      if (line.line.word?.group !== 'edge' || edge === undefined || line.id === 'cut') return [];
      const from = line.length('from', 'from');
      const to = line.length('to', 'from');
      const base = {
        line,
        edge,
        outward: !line.has('inward'),
        ...(from !== undefined && to !== undefined
          ? { stretch: { from: Math.min(from, to), to: Math.max(from, to) } }
          : {}),
      };
      switch (line.id) {
        case 'edge rolled': {
          const named = line.named('wire');
          const wire = named?.kind === 'material' ? this.model.materialOf(named) : undefined;
          const hollow = wire ? wire.thickness()?.value : line.length('hollow', 'hollow');
          return [{ ...base, kind: 'rolled', ...(wire ? { wire } : {}), ...(isAbove(hollow) ? { hollow } : {}) }];
        }
        case 'edge hemmed': {
          const width = line.length('hem');
          return [
            { ...base, kind: 'hemmed', ...(isAbove(width) ? { hem: { width, double: line.has('double') } } : {}) },
          ];
        }
        case 'edge long':
          return [{ ...base, kind: 'long' }];
        default:
          return [{ ...base, kind: 'soft' }];
      }
    }),
  );

  /** The edges that a line works: of a mirrored bay both. */
  edgesOf({ edge }: EdgeWork): readonly string[] {
    return baysOf(this).some(({ name, mirrored }) => mirrored && name === edge) ? [edge, `${edge} mirrored`] : [edge];
  }

  readonly openings = once((): readonly Opening[] =>
    this.lines().flatMap((line): Opening[] => {
      if (line.line.word?.group !== 'opening') return [];
      const nameItem = line.filled('name')?.items[0];
      const name = nameItem?.kind === 'word' ? { name: nameItem } : {};
      const base = { line, ...name, beforeForming: line.has('before forming') };
      if (line.id === 'slot') {
        const size = line.size('size');
        return size ? [{ ...base, kind: 'slot', count: 1, long: size[0], wide: size[1], round: false }] : [];
      }
      if (line.id === 'hole') {
        const diameter = line.length('diameter');
        return isAbove(diameter)
          ? [{ ...base, kind: 'hole', count: 1, long: diameter, wide: diameter, round: true }]
          : [];
      }
      if (line.id === 'holes' || line.id === 'breaths') {
        const diameter = line.length('holes');
        const count = line.countOf('holes');
        return isAbove(diameter) && count
          ? [{ ...base, kind: line.id, count, long: diameter, wide: diameter, round: true }]
          : [];
      }
      return [];
    }),
  );

  readonly pierced = once((): readonly Pierced[] =>
    this.all('pierce').map((line): Pierced => {
      const name = line.filled('name')?.items[0];
      const file = line.text('file');
      const drawing = file === undefined ? undefined : line.file.drawing(file);
      return {
        line,
        ...(name?.kind === 'word' ? { name } : {}),
        kind: 'pierce',
        beforeForming: line.has('before forming'),
        ...(drawing ? { cutOut: cutOutOf(drawing, line.text('which', 'named')) } : {}),
      };
    }),
  );

  readonly bends = once((): readonly Bend[] =>
    this.lines().flatMap((line): Bend[] => {
      if (line.id !== 'bend' && line.id !== 'flare') return [];
      const angle = line.measure('angle', 'angle', 'angle');
      const radius = line.length('radius', 'radius');
      const distance = line.id === 'bend' ? line.length('distance') : line.length('wide', 'wide');
      return [
        {
          line,
          kind: line.id,
          edge: line.text('edge') ?? '',
          ...(angle === undefined ? {} : { angle }),
          ...(radius === undefined ? {} : { radius }),
          ...(distance === undefined ? {} : { distance }),
        },
      ];
    }),
  );

  /** The boards that are held against it while it is worked. */
  readonly templates = once((): readonly Template[] => templatesOf(this));

  // ---- figures -----------------------------------------------------------------------------------------------------

  private readonly madeFigures = onceUnlessCircular((): FigureSet => {
    const set = new FigureSet(`piece ${this.name}`, this.name);
    this.addMake(set);
    this.addForm(set);
    this.addEdges(set);
    this.addOpenings(set);
    this.addBlank(set);
    this.addMass(set);
    for (const [names, add] of FURTHER) set.and(names, (further) => add(this, further));
    return set;
  });

  /** Every figure of the piece. A piece that is made from its own figure has none while it is being worked out. */
  figures(): FigureSet {
    return this.madeFigures() ?? new FigureSet(`piece ${this.name}`, this.name);
  }

  figure(suffix: string): Figure | undefined {
    return this.figures().get(suffix);
  }

  private addMake(set: FigureSet): void {
    const line = this.line('make');
    set.add(
      'make',
      'how many in one build',
      this.model.fromSpec(this.make(), 'count', 'n'),
      line?.place ?? this.place,
      [],
    );
  }

  private addForm(set: FigureSet): void {
    const form = this.form();
    if (!form) return;
    const place = form.line.place;
    const kind = kindOf(form);
    const own = baysOf(this).length || this.isWorked() ? MEASURED : kind.area(form);
    const area = own === MEASURED ? measuredArea(this) : own === NOT_KNOWN ? undefined : own;
    if (area) set.add('area', 'finished area', area, place, []);
    kind.addFigures(form, set, this);
    const laid = this.laidFlat();
    const domed = this.domed();
    if (laid) addFlatFigures(this, laid, set);
    else if (domed) this.addDome(set, domed, place);
    const thickness = this.material()?.thickness();
    if (!thickness || set.get('thickness.least') || !kind.keepsThickness(form)) return;
    const flat = result({
      value: thickness.value,
      low: thickness.low,
      high: thickness.high,
      unit: 'mm',
      formula: 't = {t0}',
      symbols: { t0: thickness.value },
      basis: 'geometry',
      source: 'A bend or a roll leaves the sheet as thick as it was, but for a little at the bend',
    });
    set.add('thickness.least', 'thinnest place after forming', flat, place, [thickness.name]);
  }

  private addDome(set: FigureSet, { long, wide, deep, share }: Domed, place: Place): void {
    const { method } = this.method();
    const thickness = this.material()?.thickness();
    const metal = this.material()?.metal();
    if (!thickness || !metal || !method) return;
    const formed: DomeThickness = domeThickness({
      diameter: long,
      wide,
      deep,
      thickness: thickness.value,
      hardening: metal.hardening.value,
      method,
    });
    const inputs = [thickness.name];
    set.add('thickness.crown', 'thickness at the crown after forming', scaled(formed.crown, thickness), place, inputs);
    set.add('thickness.edge', 'thickness at the rim after forming', scaled(formed.edge, thickness), place, inputs);
    set.add('thickness.least', 'thinnest place after forming', scaled(formed.least, thickness), place, inputs);
    set.add('strain.crown', 'strain at the crown', formed.strainCrown, place, inputs);
    set.add('strain.edge', 'strain at the rim', formed.strainEdge, place, inputs);
    const worst = Math.max(Math.abs(formed.strainCrown.value), Math.abs(formed.strainEdge.value));
    const where = this.method().line?.place ?? place;
    set.add('anneals', 'anneals by strain', annealsNeeded(worst, metal.strainBeforeAnneal), where, [
      `${this.name}.strain.crown`,
      `${this.name}.strain.edge`,
    ]);
    if (method !== 'dish' && long === wide && share === 1) {
      set.add('courses', 'raising courses', raisingCourses(domeBlankArc(long, deep).value, long), where, []);
    }
  }

  /** Length of an edge or a line at the middle of the thickness, along the finished surface, mm. */
  edgeLength(edge: string): Result | undefined {
    const form = this.form();
    const key = edge.toLowerCase();
    if (!form) return undefined;
    const own = baysOf(this).length || this.isWorked() ? MEASURED : kindOf(form).length(form, key);
    return own === MEASURED ? measuredLength(this, key) : own;
  }

  private addEdges(set: FigureSet): void {
    const form = this.form();
    if (!form) return;
    // Over the crown of a dome runs a line that one measures like an edge.
    const names = this.domed() ? ['rim', 'middle'] : this.edgeNames();
    for (const edge of names) {
      const length = this.edgeLength(edge);
      if (length)
        set.add(
          `${edge}.length`,
          `length of ${edge === 'rim' || edge === 'middle' ? 'the ' : ''}${edge}`,
          length,
          form.line.place,
          [],
        );
    }
    const thickness = this.thickness();
    if (thickness === undefined) return;
    for (const { figure } of this.allowances()) set.put(figure);
    for (const work of this.edgeWorks()) {
      const { edge, line } = work;
      if (work.kind === 'rolled' && work.wire && work.hollow !== undefined) {
        const length = this.workedLength(work, set);
        if (length === undefined) continue;
        const run = this.edgeRun(edge);
        const closed = this.isClosedEdge(edge) && !work.stretch;
        const turns = run === NOT_KNOWN ? 0 : run.turns(work.stretch?.from, work.stretch?.to);
        const wire = wireLengthAlong({
          edgeLength: length,
          wire: work.hollow,
          thickness,
          outward: work.outward,
          closed,
          turns,
        });
        set.add(
          `${edge}.wire`,
          `wire for ${edge}`,
          run === NOT_KNOWN ? { ...wire, note: `${TURN_NOT_KNOWN} ${wire.note}` } : wire,
          line.place,
          [`${this.name}.${edge}.length`, `${work.wire.name}.thickness`],
        );
      }
    }
  }

  /** The length of edge that is worked, mm. */
  private workedLength(work: EdgeWork, set: FigureSet): number | undefined {
    const whole = set.get(`${work.edge}.length`)?.value;
    if (whole === undefined) return undefined;
    if (!work.stretch) return whole;
    return Math.max(0, Math.min(work.stretch.to, whole) - Math.max(0, work.stretch.from));
  }

  private addOpenings(set: FigureSet): void {
    for (const opening of this.openings()) {
      const one = opening.round
        ? circleArea(opening.long)
        : result({
            value: slotArea(opening.long, opening.wide),
            unit: 'mm2',
            formula: 'A = ({l} − {w}) × {w} + π/4 × {w}²',
            symbols: { l: Math.max(opening.long, opening.wide), w: Math.min(opening.long, opening.wide) },
            basis: 'geometry',
            source: 'A slot with half-round ends',
          });
      const area =
        opening.count === 1
          ? one
          : result({
              value: opening.count * one.value,
              unit: 'mm2',
              formula: 'A = {n} × π/4 × {d}²',
              symbols: { n: opening.count, d: opening.long },
              basis: 'geometry',
              source: 'Area of a circle, for every hole',
            });
      set.add(`${openingName(opening)}.area`, 'area taken out', area, opening.line.place, []);
    }
    for (const { cutOut, ...pierced } of this.pierced()) {
      if (!cutOut || !isCutOut(cutOut)) continue;
      const name = openingName(pierced);
      set.add(`${name}.area`, 'area taken out', cutOutArea(cutOut), pierced.line.place, []);
      set.add(`${name}.sawn`, 'length to saw', sawnLength(cutOut), pierced.line.place, []);
    }
  }

  /** The blank that the form and the edges lead to, whatever the smith's own line says. */
  readonly workedBlank = once((): WorkedBlank | undefined => {
    const form = this.form();
    if (!form) return undefined;
    const edges = new Edges(this.allowances());
    const laid = this.laidFlat();
    if (laid) return flattenedBlank(laid, edges);
    const { blank } = kindOf(form);
    if (typeof blank !== 'function') return undefined;
    return blank(form, { edges, method: this.method().method, line: () => this.baseLine() });
  });

  /** What is cut: the smith's own blank where a `blank` line gives one. */
  readonly blank = once((): Blank | undefined => {
    const line = this.line('blank');
    const own = line?.length('diameter') ?? line?.measures('length', 'size')?.[0];
    if (!line || !isAbove(own)) return this.workedBlank()?.blank;
    const wide = line.filled('diameter') ? undefined : line.measures('length', 'size')?.[1];
    return givenBlank(own, isAbove(wide) ? wide : undefined, this.isOval());
  });

  /** Whether what is cut for it is an oval, longer than wide. */
  private isOval(): boolean {
    const form = this.form();
    const layout = form && kindOf(form).layout(form);
    return typeof layout === 'object' && layout.kind === 'round' && layout.long !== layout.wide;
  }

  private addBlank(set: FigureSet): void {
    const worked = this.workedBlank();
    const blank = this.blank();
    const form = this.form();
    const inputs = (worked?.blank.allowances ?? []).map((each) => each.figure.name);
    if (worked && form) {
      for (const { suffix, title, result: made } of worked.figures) {
        set.add(`blank.${suffix}`, title, made, form.line.place, inputs, { decimals: 1 });
      }
    }
    const line = this.line('blank');
    if (!blank?.overridden || !line) return;
    // The smith's blank governs what is cut and weighed; how the worked-out one is found stays in the three bracketing blanks.
    const given = (suffix: string, title: string, value: number, unit: 'mm' | 'mm2') =>
      set.add(`blank.${suffix}`, title, this.model.fromSpec(value, unit, suffix), line.place, [], { decimals: 1 });
    if (blank.shape.kind === 'round') given('diameter', 'blank diameter', blank.long, 'mm');
    given('long', 'blank, long', blank.long, 'mm');
    given('wide', 'blank, wide', blank.wide, 'mm');
    given('area', 'blank area', blank.area, 'mm2');
  }

  /** What each worked edge adds to the blank. A part of an edge adds to the whole: a blank is cut straight and trimmed. */
  private readonly allowances = once((): readonly Allowance[] => {
    const thickness = this.thickness();
    const set = new FigureSet(`piece ${this.name}`, this.name);
    if (thickness === undefined) return [];
    const inputs = this.material() ? [`${this.material()!.name}.thickness`] : [];
    const worked = this.edgeWorks().flatMap((work) => {
      const made = allowanceOf(work, thickness);
      const figure =
        made && set.add(`${work.edge}.allowance`, `metal to leave at ${work.edge}`, made, work.line.place, inputs);
      return figure ? this.edgesOf(work).map((edge) => ({ edge, what: inWords(work), figure })) : [];
    });
    const knuckles = knucklesOf(this).flatMap(({ hinge, edge, development }) => {
      const title = `metal for the knuckles at ${edge}`;
      const figure = set.add(`${edge}.knuckles`, title, development, this.place, [
        ...inputs,
        `${hinge.pin()!.name}.thickness`,
      ]);
      return figure ? [{ edge, what: `knuckles of ${hinge.name}`, figure }] : [];
    });
    return [...worked, ...knuckles];
  });

  private addMass(set: FigureSet): void {
    const blank = this.blank();
    const material = this.material();
    const thickness = material?.thickness();
    const density = material?.density();
    if (!blank || !thickness || !density || material?.kind() === 'wire') return;
    const openings = this.openings().reduce(
      (total, opening) =>
        total + opening.count * (opening.round ? circleArea(opening.long).value : slotArea(opening.long, opening.wide)),
      0,
    );
    const pierced = this.pierced().reduce(
      (total, { cutOut }) => total + (cutOut && isCutOut(cutOut) ? cutOutArea(cutOut).value : 0),
      0,
    );
    const area = Math.max(0, blank.area - openings - pierced);
    const mass = sheetMass({ area, thickness: thickness.value, density: density.value });
    const spread = spreadOf(thickness, density);
    set.add(
      'mass',
      'mass of one',
      {
        ...mass,
        ...(spread ? { low: mass.value * spread.low, high: mass.value * spread.high } : {}),
        note: 'Forming does not change mass: it is the blank’s area, less what is cut out, times the starting thickness.',
      },
      this.place,
      [`${this.name}.blank.area`, thickness.name, density.name],
    );
  }
}

/** What forming leaves is a share of the sheet: a sheet that may be thinner or thicker widens the range by as much. */
function scaled(formed: Result, { value, low, high }: Figure): Result {
  if (low === undefined || high === undefined) return formed;
  return {
    ...formed,
    low: ((formed.low ?? formed.value) * low) / value,
    high: ((formed.high ?? formed.value) * high) / value,
  };
}

/** How much thickness and density together may differ from their values, as factors. */
function spreadOf(thickness: Figure, density: Figure): { low: number; high: number } | undefined {
  if (density.low === undefined && thickness.low === undefined) return undefined;
  const low = ((thickness.low ?? thickness.value) / thickness.value) * ((density.low ?? density.value) / density.value);
  const high =
    ((thickness.high ?? thickness.value) / thickness.value) * ((density.high ?? density.value) / density.value);
  return { low, high };
}

/** Lines of one sort replace each other in `like`: one form, one method, one work for an edge. */
function sortOf(line: LineReading<PieceLine>): string {
  const word = line.line.word;
  if (!word) return '';
  switch (word.group) {
    case 'form':
      return word.id === 'like' ? 'like' : '@form';
    case 'edge':
      return `@edge ${line.text('edge') ?? line.text('name') ?? ''}`;
    case 'opening':
      return `@opening ${line.text('name') ?? word.id}`;
    case 'outline':
    case 'level':
      return '@form';
    default:
      return HEADING[word.id] ? '@method' : `${leadingWords(word.pattern)} ${line.text('edge') ?? ''}`;
  }
}
