import { leadingWords } from '../../../grammar/pattern.ts';
import type { Place, Word } from '../../../grammar/tree.ts';
import type { LineById, PieceLine } from '../../../grammar/typed-line.ts';
import type { CutOut, NoOutline, OutlineIn } from '../../geometry/drawings/outline-in.ts';
import type { Refusal } from '../../geometry/flatten/flatten.ts';
import type { Chart } from '../../geometry/surface/chart.ts';
import type { CutForm } from '../../geometry/surface/cut.ts';
import type { EdgeLine, SurfaceLine } from '../../geometry/surface/walk.ts';
import { once, onceUnlessCircular } from '../../incremental/memo.ts';
import type { Alike } from '../../trade/dome/gores.ts';
import type { FormedBy, Outcome } from '../../trade/dome/hammered.ts';
import type { FormingMethod } from '../../trade/dome/ways.ts';
import { OF_PIECE } from '../../trade/reckoning/bounds.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { MEASURED, NONE, NOT_KNOWN, type None, type NotKnown } from '../forms/answers.ts';
import type { Allowance, Blank, WorkedBlank } from '../forms/blank.ts';
import { type EdgeRun, STRAIGHT } from '../forms/edge-run.ts';
import { ANY_EDGES, type Domed, type FormRefusal, isAbove, type Met, type Shaped } from '../forms/form.ts';
import { alikeTo } from '../forms/gore-dome.ts';
import { type Form, kindOf, notationOf } from '../forms/index.ts';
import { lameGirthOf } from '../forms/lame.ts';
import { levelsOf } from '../forms/levels.ts';
import { cutOutOf, outlineOf } from '../names/drawn.ts';
import { LineReading } from '../names/line-reading.ts';
import type { Named } from '../names/spec-file.ts';
import { type Flattening, type Formed, flatteningOf, formedBy } from '../shapes/flattening.ts';
import {
  baseLineOf,
  baysIn,
  baysOf,
  cutOf,
  endsAt,
  lineOn,
  measuredLength,
  measuredRun,
  plainChartOf,
  workedChartOf,
} from '../shapes/surface.ts';
import { type Template, type Templated, templatesOf } from '../shapes/templates.ts';
import type { Bend, Worked } from '../shapes/worked.ts';
import type { Figure } from '../values/figure.ts';
import { FigureSet } from '../values/figure-set.ts';
import type { EdgeWork } from './edge-work.ts';
import type { MaterialModel } from './material.ts';
import type { SpecContext } from './thing.ts';

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

/** How deep a dome may be for its rim, as depth over half the diameter, before a tool-picked method goes over from dishing. */
const DISH_TO = 0.6;

const HEADING: Readonly<Record<string, FormingMethod>> = {
  dish: 'dish',
  raise: 'raise',
  'dish then raise': 'dish then raise',
};

/** What is worked out from a piece. */
export interface PieceFigures {
  figures(piece: PieceModel): FigureSet;
  allowances(piece: PieceModel): readonly Allowance[];
  workedBlank(piece: PieceModel): WorkedBlank | undefined;
  blank(piece: PieceModel): Blank | undefined;
  outcome(piece: PieceModel): Outcome | undefined;
}

/** What a piece asks of its spec. */
export interface PieceContext extends SpecContext {
  pieceOf(named: Named): PieceModel;
  materialOf(named: Named): MaterialModel;
  readonly figuring: { readonly piece: PieceFigures };
}

/** One plate: its lines, its form, and with them all that is worked out from it. */
export class PieceModel implements Formed, Templated {
  constructor(
    readonly model: PieceContext,
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

  /** The piece it is like, unless that is like this one again, or like another over more of them than are followed. */
  readonly likeTarget = once((): PieceModel | undefined => (this.likeEnds() === true ? this.nextLike() : undefined));

  /** Whether one comes to a piece of its own who goes from each to the one that it is like. */
  readonly likeEnds = once((): true | 'circle' | 'too deep' => {
    const seen = new Set<PieceModel>([this]);
    for (let next = this.nextLike(); next; next = next.nextLike()) {
      if (seen.has(next)) return 'circle';
      if (seen.size > MOST_LIKE) return 'too deep';
      seen.add(next);
    }
    return true;
  });

  /** The piece named in its `like` line, circle or not. */
  readonly nextLike = once((): PieceModel | undefined => {
    const line = this.named.section.lines.find((each) => each.word?.id === 'like');
    const named = line && new LineReading<LineById<PieceLine, 'like'>>(this.named.file, line).named('piece');
    return named?.kind === 'piece' ? this.model.pieceOf(named) : undefined;
  });

  line<Id extends PieceLine['id']>(id: Id): LineReading<LineById<PieceLine, Id>> | undefined {
    return this.all(id)[0];
  }

  all<Id extends PieceLine['id']>(id: Id): readonly LineReading<LineById<PieceLine, Id>>[] {
    return (this.byId().get(id) ?? []) as readonly LineReading<LineById<PieceLine, Id>>[];
  }

  /** Nearly every check asks for a line that most pieces do not have. */
  private readonly byId = once((): ReadonlyMap<string, readonly LineReading<PieceLine>[]> => {
    const by = new Map<string, LineReading<PieceLine>[]>();
    for (const line of this.lines()) {
      const have = by.get(line.id);
      if (have) have.push(line);
      else by.set(line.id, [line]);
    }
    return by;
  });

  readonly bays = once(() => baysIn(this));

  readonly material = once((): MaterialModel | undefined => {
    const named = this.line('from')?.named('material');
    return named?.kind === 'material' ? this.model.materialOf(named) : undefined;
  });

  /** How many in one build: of a gore as many as are like it, where no line says otherwise. */
  readonly make = once(() => {
    const said = this.line('make')?.count('make') ?? this.alike()?.gores.length ?? 1;
    return Math.max(1, Math.min(said, 10_000));
  });
  readonly mirrored = once(() => {
    const line = this.line('make');
    return line ? line.has('mirrored') : (this.alike()?.mirrored ?? false);
  });

  /** The gores of its shape, of a gore. */
  readonly alike = once((): Alike | undefined => {
    const form = this.formLine()?.id === 'gore dome' ? this.form() : undefined;
    return form?.kind === 'gore dome' ? alikeTo(form) : undefined;
  });

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

  around(): number | 'half' | None {
    const form = this.form();
    return form ? kindOf(form).around(form) : NONE;
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

  /** What forming makes of it, with as much metal as it needs; nothing for one that keeps its thickness. */
  readonly formedBy = onceUnlessCircular((): FormedBy | undefined => formedBy(this));

  /** The same from the blank that is cut for it: its own, or the one that is worked out. */
  readonly outcome = onceUnlessCircular((): Outcome | undefined => this.model.figuring.piece.outcome(this));

  /** The line on its neighbour's surface that a strip or a comb follows. */
  readonly baseLine = onceUnlessCircular((): SurfaceLine | undefined => baseLineOf(this));

  lineOn(neighbour: Named, edge: string, inset: number): EdgeLine | undefined {
    return lineOn(this, this.pieceNamed(neighbour), edge, inset);
  }

  endsAt(edge: string): boolean {
    return endsAt(this, edge);
  }

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

  /** Whether an edge is known to be straight from end to end. */
  isStraightEdge(edge: string): boolean {
    const run = this.edgeRun(edge);
    return run !== NOT_KNOWN && run.tightest === STRAIGHT && run.hollow === undefined;
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
        case 'edge rounded':
          return [{ ...base, kind: 'rounded' }];
        case 'edge long':
          return [{ ...base, kind: 'long' }];
        default:
          return [{ ...base, kind: 'soft' }];
      }
    }),
  );

  /** Each line that rounds plain edges, and the radius of their corners, mm. */
  readonly rounds = once((): readonly { readonly line: LineReading<PieceLine>; readonly round: number | undefined }[] =>
    this.lines().flatMap((line) =>
      line.id === 'edge rounded' || line.id === 'edges rounded' ? [{ line, round: line.length('radius') }] : [],
    ),
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

  private readonly madeFigures = onceUnlessCircular((): FigureSet => this.model.figuring.piece.figures(this));

  /** Every figure of the piece. A piece that is made from its own figure has none while it is being worked out. */
  figures(): FigureSet {
    return this.madeFigures() ?? new FigureSet(`piece ${this.name}`, this.name);
  }

  figure(suffix: string): Figure | undefined {
    return this.figures().get(suffix);
  }

  /** What each worked edge and each row of knuckles adds to the blank. */
  readonly allowances = once((): readonly Allowance[] => this.model.figuring.piece.allowances(this));

  /** The blank that the form and the edges lead to, whatever the smith's own line says. */
  readonly workedBlank = once((): WorkedBlank | undefined => this.model.figuring.piece.workedBlank(this));

  /** What is cut: the smith's own blank where a `blank` line gives one. */
  readonly blank = once((): Blank | undefined => this.model.figuring.piece.blank(this));

  /** Length of an edge or a line at the middle of the thickness, along the finished surface, mm. */
  edgeLength(edge: string): Result | undefined {
    const form = this.form();
    const key = edge.toLowerCase();
    if (!form) return undefined;
    const own = baysOf(this).length || this.isWorked() ? MEASURED : kindOf(form).length(form, key);
    return own === MEASURED ? measuredLength(this, key) : own;
  }
}

/** Each hangs on all before it, so that a chain without end would cost its square. */
export const MOST_LIKE = 100;

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
