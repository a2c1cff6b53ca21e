import { leadingWords } from '../../grammar/pattern.ts';
import type { Place, Word } from '../../grammar/tree.ts';
import {
  annealsNeeded,
  type DomeThickness,
  domeBlankArc,
  domeMeridian,
  domeThickness,
  type FormingMethod,
  raisingCourses,
} from '../trade/dome.ts';
import { wireLengthAlong } from '../trade/edge.ts';
import { enlargedGirth, reducedGirth } from '../trade/fit.ts';
import { circleArea } from '../trade/flat.ts';
import type { Refusal } from '../trade/flatten/flatten.ts';
import { sheetMass } from '../trade/mass.ts';
import {
  type CutOut,
  isCutOut,
  isOutline,
  type NoOutline,
  type OutlineIn,
} from '../trade/outline/import/outline-in.ts';
import { type Result, result } from '../trade/result.ts';
import type { Chart } from '../trade/surface/chart.ts';
import type { Extent } from '../trade/surface/cover.ts';
import type { CutForm } from '../trade/surface/cut.ts';
import { endsInTip, type LoftRefusal, loftRefusals, lowestSection } from '../trade/surface/loft.ts';
import { girthOf, grownSection, type Level, type Section, sectionOf } from '../trade/surface/section.ts';
import { coneDevelopment } from '../trade/wrap.ts';
import { addCentre } from './balance.ts';
import { type Allowance, type Blank, blankOf, givenBlank, type WorkedBlank } from './blank.ts';
import { cutOutOf, outlineOf } from './drawn.ts';
import { allowanceOf, type EdgeWork, inWords } from './edges.ts';
import type { Figure } from './figure.ts';
import { FigureSet } from './figure-set.ts';
import { type Named, once, onceUnlessCircular } from './file.ts';
import { addFit } from './fit.ts';
import { addFlatFigures } from './flat-figures.ts';
import { type Flattening, flatteningOf } from './flattening.ts';
import { EDGES, type Form, type OutlineCorner } from './form.ts';
import { addForming } from './forming.ts';
import { knucklesOf } from './hinge.ts';
import type { MaterialModel } from './material.ts';
import { areaOf, cutOutArea, lengthOfEdge, sawnLength, slotArea, widthOfOval } from './measures.ts';
import type { Model } from './model.ts';
import { addOpeningFigures, openingName } from './openings.ts';
import { LineReading } from './reading.ts';
import {
  baseLineOf,
  baysOf,
  cutOf,
  levelOf,
  measuredArea,
  measuredLength,
  plainChartOf,
  workedChartOf,
} from './surface.ts';
import { addTemplates, type Template, templatesOf } from './templates.ts';
import { addTurning } from './turning.ts';
import type { Worked } from './worked.ts';

export interface Opening {
  readonly line: LineReading;
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
  readonly line: LineReading;
  readonly found?: OutlineIn | CutOut | NoOutline;
}

/** Pierced work out of a drawing. */
export interface Pierced {
  readonly line: LineReading;
  readonly name?: Word;
  readonly kind: 'pierce';
  readonly beforeForming: boolean;
  /** What is cut out, or why the drawing gives nothing; nothing where there is no such file. */
  readonly cutOut?: CutOut | NoOutline;
}

export interface Bend {
  readonly line: LineReading;
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

const HEADING: Readonly<Record<string, FormingMethod>> = {
  dish: 'dish',
  raise: 'raise',
  'dish then raise': 'dish then raise',
};

/** One plate, with every figure that its lines lead to. */
export class PieceModel {
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
  readonly lines = once((): readonly LineReading[] => {
    const own = this.named.section.lines.map((line) => new LineReading(this.named.file, line));
    const other = this.likeTarget();
    if (!other) return own;
    const scale = own.find((line) => line.id === 'like')?.measure('number', 'scale', 'scaled') ?? 1;
    const replaced = new Set(own.map((line) => sortOf(line)));
    const inherited = other.lines().filter((line) => line.id !== 'like' && !replaced.has(sortOf(line)));
    return [
      ...own,
      ...inherited.map((line) => new LineReading(line.file, line.line, line.scale * (scale > 0 ? scale : 1))),
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
    const named = line && new LineReading(this.named.file, line).named('piece');
    return named?.kind === 'piece' ? this.model.pieceOf(named) : undefined;
  });

  line(id: string): LineReading | undefined {
    return this.lines().find((line) => line.id === id);
  }

  all(id: string): LineReading[] {
    return this.lines().filter((line) => line.id === id);
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

  readonly formLine = once((): LineReading | undefined =>
    this.lines().find((line) => line.line.word?.group === 'form' && line.id !== 'like'),
  );

  /** Whether the form's measures are of the inside or the outside; nothing: of the middle of the thickness. */
  readonly side = once((): 'inside' | 'outside' | undefined => {
    const line = this.formLine();
    return line?.has('inside') ? 'inside' : line?.has('outside') ? 'outside' : undefined;
  });

  readonly form = onceUnlessCircular((): Form | undefined => {
    const line = this.formLine();
    if (!line) return undefined;
    const side = this.side();
    const thickness = this.thickness();
    // Without the thickness an inside measure cannot be brought to the middle: nothing is guessed.
    if (side && thickness === undefined) return undefined;
    return this.readForm(line, side === 'inside' ? thickness! : side === 'outside' ? -thickness! : 0);
  });

  /** `grow` is what a diameter gains from the measured face to the middle of the thickness. */
  private readForm(line: LineReading, grow: number): Form | undefined {
    const deep = line.length('deep', 'deep');
    const middleDeep = deep === undefined ? undefined : deep + grow / 2;
    const high = line.length('high', 'high');
    const wrap = line.has('wrap') ? line.measure('angle', 'wrap', 'wrap') : 360;
    const girthGrow = Math.PI * grow;
    switch (line.id) {
      case 'plate':
      case 'strip': {
        const size = line.size('size');
        return size && { kind: line.id, line, wide: size[0], high: size[1] };
      }
      case 'disc': {
        const diameter = line.length('diameter');
        return isAbove(diameter) ? { kind: 'disc', line, diameter } : undefined;
      }
      case 'oval': {
        const size = line.size('size');
        return size && { kind: 'oval', line, long: size[0], wide: size[1] };
      }
      case 'outline':
        return line.filled('file') ? this.readDrawing(line) : this.readOutline(line);
      case 'dome': {
        const diameter = line.length('diameter');
        return isAbove(diameter) && isAbove(middleDeep)
          ? { kind: 'dome', line, diameter: diameter + grow, deep: middleDeep }
          : undefined;
      }
      case 'oval dome': {
        const size = line.size('size');
        return size && isAbove(middleDeep)
          ? { kind: 'oval dome', line, long: size[0] + grow, wide: size[1] + grow, deep: middleDeep }
          : undefined;
      }
      case 'half dome': {
        if (!isAbove(middleDeep)) return undefined;
        const size = line.size('size');
        if (size) return { kind: 'half dome', line, long: size[0] + grow, wide: size[1] + grow, deep: middleDeep };
        const girth = line.length('girth');
        const long = line.length('long', 'long');
        if (!isAbove(girth) || !isAbove(long)) return undefined;
        const wide = widthOfOval(girth + girthGrow, long + grow);
        return wide === undefined ? undefined : { kind: 'half dome', line, long: long + grow, wide, deep: middleDeep };
      }
      case 'cylinder': {
        const girth = line.length('girth');
        if (line.has('long')) return this.readOval(line, girth, girth, high, wrap, grow);
        return isAbove(girth) && isAbove(high) && isWrap(wrap)
          ? { kind: 'cylinder', line, girth: girth + girthGrow, high, wrap }
          : undefined;
      }
      case 'cone': {
        const top = line.length('top');
        const bottom = line.length('bottom');
        if (line.has('long')) return this.readOval(line, bottom, top, high, wrap, grow);
        return isAbove(top) && isAbove(bottom) && isAbove(high) && isWrap(wrap)
          ? { kind: 'cone', line, top: top + girthGrow, bottom: bottom + girthGrow, high, wrap }
          : undefined;
      }
      case 'gore dome': {
        const [long, wide = long] = line.measures('length', 'size') ?? [];
        const gores = line.count('gores', 'gores');
        return isAbove(long) && isAbove(wide) && isAbove(middleDeep) && gores !== undefined && gores >= 3
          ? { kind: 'gore dome', line, long: long + grow, wide: wide + grow, deep: middleDeep, gores }
          : undefined;
      }
      case 'form': {
        const levels = this.levels();
        const about = line.word('half') ? 'half' : line.measure('angle', 'wrap');
        if (!levels || about === undefined || this.formRefusals().length) return undefined;
        return { kind: 'loft', line, shape: { levels: levels.map(({ level }) => level), wrap: about } };
      }
      case 'lies':
        return this.readLying(line, high, wrap);
      case 'trim':
        return this.readTrim(line);
      case 'comb':
        return this.readComb(line, high);
      default:
        return { kind: 'later', line };
    }
  }

  private readDrawing(line: LineReading): Form | undefined {
    const outline = this.drawnIn();
    if (outline === undefined || !isOutline(outline)) return undefined;
    return { kind: 'drawing', line, outline, file: line.text('file')! };
  }

  /** The outline in the drawing file of its form line, or why there is none; nothing where there is no such file. */
  readonly drawnIn = once((): OutlineIn | NoOutline | undefined => {
    const line = this.formLine();
    const file = line?.id === 'outline' ? line.text('file') : undefined;
    const drawing = file === undefined ? undefined : line!.file.drawing(file);
    return drawing && outlineOf(drawing, line!.text('which', 'named'));
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

  private readOutline(line: LineReading): Form | undefined {
    const points: OutlineCorner[] = [];
    for (const each of this.lines()) {
      if (each.line.word?.group !== 'outline') continue;
      const right = each.length('right');
      const up = each.length('up');
      if (right === undefined || up === undefined) return undefined;
      const radius = each.length('radius', 'radius');
      points.push({
        x: each.word('left') ? -right : right,
        y: each.word('down') ? -up : up,
        // The language bulges an arc to the right of the way one goes, outward when one goes anticlockwise.
        ...(each.id === 'arc to' && isAbove(radius) ? { radius: each.has('hollow') ? radius : -radius } : {}),
      });
    }
    return points.length >= 2 ? { kind: 'outline', line, points } : undefined;
  }

  /** An oval cylinder or cone. The length is that of the larger end; the other keeps its proportions. */
  private readOval(
    line: LineReading,
    bottom: number | undefined,
    top: number | undefined,
    high: number | undefined,
    wrap: number | undefined,
    grow: number,
  ): Form | undefined {
    const long = line.length('long', 'long');
    if (!isAbove(bottom) || !isAbove(top) || !isAbove(high) || !isAbove(long) || !isWrap(wrap)) return undefined;
    const [low, up] = [bottom + Math.PI * grow, top + Math.PI * grow];
    const share = (long + grow) / Math.max(low, up);
    const levels = [
      { high: 0, round: low, long: share * low },
      { high, round: up, long: share * up },
    ];
    return loftRefusals({ levels, wrap }).length ? undefined : { kind: 'loft', line, shape: { levels, wrap } };
  }

  /** The levels of its form with their lines; nothing while one of them is being written. */
  readonly levels = once((): readonly { readonly line: LineReading; readonly level: Level }[] | undefined => {
    const side = this.side();
    const thickness = this.thickness();
    if (side && thickness === undefined) return undefined;
    const grow = side === 'inside' ? thickness! : side === 'outside' ? -thickness! : 0;
    const all = this.lines().flatMap((line) =>
      line.line.word?.group === 'level' ? [{ line, level: levelOf(line, grow) }] : [],
    );
    return all.every((each): each is { line: LineReading; level: Level } => each.level !== undefined) ? all : undefined;
  });

  /** Why its form cannot be made as written, each with the line that is at fault. */
  readonly formRefusals = once((): readonly { readonly line: LineReading; readonly why: string }[] => {
    const line = this.formLine();
    if (line?.id === 'cylinder' || line?.id === 'cone') {
      const girths = ['girth', 'top', 'bottom'].flatMap((slot) => line.length(slot) ?? []);
      const long = line.length('long', 'long');
      if (!girths.length || !isAbove(long)) return [];
      const why = sectionOf({ high: 0, round: Math.max(...girths), long });
      return typeof why === 'string' ? [{ line, why }] : [];
    }
    const levels = line?.id === 'form' ? this.levels() : undefined;
    const wrap = line?.word('half') ? 'half' : line?.measure('angle', 'wrap');
    // One level is a form that is being written.
    if (!line || !levels || levels.length < 2 || wrap === undefined)
      return levels?.length === 1 ? [{ line: line!, why: 'a form needs two levels or more' }] : [];
    return loftRefusals({ levels: levels.map(({ level }) => level), wrap }).map(({ level, why }: LoftRefusal) => ({
      line: level === undefined ? line : levels[level]!.line,
      why,
    }));
  });

  /** Between the middles of this plate and of the one that it lies on: both half thicknesses and the gap; below nought under it. */
  private apart(line: LineReading, neighbour: PieceModel): number | undefined {
    const own = this.thickness();
    const other = neighbour.thickness();
    if (own === undefined || other === undefined) return undefined;
    const gap = Math.max(0, line.length('gap', 'gap') ?? 0) + (own + other) / 2;
    return line.word('over') ? gap : -gap;
  }

  /** A lame takes its girth from its neighbour; another plate lies on a part of it. */
  private readLying(line: LineReading, high: number | undefined, wrap: number | undefined): Form | undefined {
    const named = line.named('neighbour');
    const neighbour = named?.kind === 'piece' ? this.model.pieceOf(named) : undefined;
    if (!neighbour || neighbour === this) return undefined;
    const apart = this.apart(line, neighbour);
    if (apart === undefined || !neighbour.form()) return undefined;
    if (line.has('from') || line.has('long')) {
      const extent = extentOf(line);
      return extent && { kind: 'cover', line, neighbour: named!, apart, extent };
    }
    const section = neighbour.meetingSection();
    if (!section) return { kind: 'later', line };
    const girth = this.lameGirth()?.value;
    if (!isAbove(girth) || !isAbove(high) || !isWrap(wrap)) return undefined;
    if (section.front === section.wide && section.back === section.wide && section.ridge === 0)
      return { kind: 'cylinder', line, girth, high, wrap, neighbour: named! };
    const own = grownSection(section, apart);
    const levels = [0, high].map((at): Level => ({ high: at, ...(own ? { section: own } : {}) }));
    return own && { kind: 'loft', line, shape: { levels, wrap }, neighbour: named! };
  }

  /** Girth of a lame at the middle of its thickness. */
  readonly lameGirth = onceUnlessCircular((): Result | undefined => {
    const line = this.formLine();
    if (line?.id !== 'lies') return undefined;
    const named = line.named('neighbour');
    const neighbour = named?.kind === 'piece' ? this.model.pieceOf(named) : undefined;
    const section = neighbour?.meetingSection();
    const apart = neighbour && this.apart(line, neighbour);
    if (!neighbour || !section || apart === undefined) return undefined;
    const base = neighbour.meetingGirth() ?? girthOf(section);
    const found = apart > 0 ? enlargedGirth({ girth: base, gap: apart }) : reducedGirth({ girth: base, gap: -apart });
    return {
      ...found,
      note: `From the girth of ${neighbour.name}; the distance is both half thicknesses and the gap between the plates.`,
    };
  });

  /** The girth at which a lame meets this piece, where it is a circle's: a cone's bottom. */
  private meetingGirth(): number | undefined {
    const form = this.form();
    if (form?.kind === 'cylinder') return form.girth;
    return form?.kind === 'cone' ? form.bottom : undefined;
  }

  /**
   * The section at which a lame meets this piece: that of its bottom edge. A dome is met as a cop is on its joint, so
   * the lame has the dome's curve across: the circle of a shallow one, the oval of a deeper one.
   */
  private meetingSection(): Section | undefined {
    const form = this.form();
    const round = (girth: number) => sectionOf({ high: 0, round: girth });
    const section = (() => {
      switch (form?.kind) {
        case 'cylinder':
          return round(form.girth);
        case 'cone':
          return round(form.bottom);
        case 'loft':
          return lowestSection(form.shape);
        case 'dome':
        case 'oval dome':
        case 'half dome': {
          const half = (form.kind === 'dome' ? form.diameter : Math.min(form.long, form.wide)) / 2;
          if (form.deep > half) return sectionOf({ high: 0, long: 2 * form.deep, wide: 2 * half });
          return round(Math.PI * (half * (half / form.deep) + form.deep));
        }
        default:
          return undefined;
      }
    })();
    return typeof section === 'string' ? undefined : section;
  }

  private readComb(line: LineReading, high: number | undefined): Form | undefined {
    const radius = line.length('radius', 'radius') ?? 0;
    const foot = line.length('foot', 'foot') ?? 0;
    const along = this.followed(line);
    if (!along || !isAbove(high) || radius < 0 || radius > high || foot < 0) return undefined;
    if (!along.length) return { kind: 'later', line };
    const { named, word, length } = along;
    return { kind: 'comb', line, along: word.text, length: length.value, high, foot, radius, neighbour: named };
  }

  /** The edge or line of another piece that this one follows, and how long it is; nothing while it is being written. */
  private followed(
    line: LineReading,
  ): { readonly named: Named; readonly word: Word; readonly length: Result | undefined } | undefined {
    const word = line.filled('edge')?.items[0];
    if (word?.kind !== 'word') return undefined;
    const [pieceKey, edge] = word.key.split('.');
    const named = edge ? this.named.file.find(pieceKey!) : undefined;
    const neighbour = named?.kind === 'piece' ? this.model.pieceOf(named) : undefined;
    return neighbour && neighbour !== this ? { named: named!, word, length: neighbour.edgeLength(edge!) } : undefined;
  }

  private readTrim(line: LineReading): Form | undefined {
    const wide = line.length('wide', 'wide');
    const along = this.followed(line);
    if (!along || !isAbove(wide)) return undefined;
    if (!along.length) return { kind: 'later', line };
    const { named, word, length } = along;
    return { kind: 'trim', line, along: word.text, length: length.value, wide, neighbour: named };
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
    return ['flute', 'crease', 'flare'].some((id) => this.line(id));
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

  /** The edges it has, by name: those of its form, and those that its bays make. */
  edgeNames(): readonly string[] {
    const form = this.form();
    const own = EDGES[form?.kind ?? 'unread'];
    const open = form?.kind === 'loft' && endsInTip(form.shape) ? own.filter((edge) => edge !== 'top') : own;
    return [...open, ...baysOf(this).map(({ name }) => name)];
  }

  readonly method = once(
    (): { readonly method: FormingMethod | undefined; readonly said: boolean; readonly line?: LineReading } => {
      const line = this.lines().find((each) => HEADING[each.id]);
      if (line) return { method: HEADING[line.id], said: true, line };
      const form = this.form();
      if (form?.kind !== 'dome' && form?.kind !== 'oval dome' && form?.kind !== 'half dome')
        return { method: undefined, said: false };
      const half = (form.kind === 'dome' ? form.diameter : form.wide) / 2;
      return { method: form.deep / half <= DISH_TO ? 'dish' : 'dish then raise', said: false };
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
    const area = (baysOf(this).length || this.isWorked() ? undefined : areaOf(form)) ?? measuredArea(this);
    if (area) set.add('area', 'finished area', area, place, []);
    if ((form.kind === 'cylinder' || form.kind === 'loft') && form.neighbour) {
      const girth = this.lameGirth();
      if (girth)
        set.add('girth', 'girth at the middle of the thickness', girth, place, [`${form.neighbour.word.text}.girth`]);
    }
    // Of the plain cone: with flutes in it the flat is no sector.
    if (form.kind === 'cone' && !this.isRelieved()) {
      const cone = coneDevelopment(form);
      set.add('slant', 'slant height', cone.slant, place, []);
      set.add('sector', 'angle of the flat sector', cone.sector, place, []);
      if (cone.outerRadius.outside === undefined) {
        set.add('outer-radius', 'outer radius of the flat sector', cone.outerRadius, place, []);
        set.add('inner-radius', 'inner radius of the flat sector', cone.innerRadius, place, []);
      }
    }
    const laid = this.laidFlat();
    if (laid) addFlatFigures(this, laid, set);
    else if (form.kind === 'dome' || form.kind === 'oval dome' || form.kind === 'half dome')
      this.addDome(set, form, place);
    const thickness = this.material()?.thickness();
    if (!thickness || set.get('thickness.least') || !isRolled(form)) return;
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

  private addDome(set: FigureSet, form: Form & { kind: 'dome' | 'oval dome' | 'half dome' }, place: Place): void {
    const long = form.kind === 'dome' ? form.diameter : form.long;
    const wide = form.kind === 'dome' ? form.diameter : form.wide;
    if (form.kind === 'dome')
      set.add('meridian', 'rim to crown along the surface', domeMeridian(long, form.deep), place, []);
    const { method } = this.method();
    const thickness = this.material()?.thickness();
    const metal = this.material()?.metal();
    if (!thickness || !metal || !method) return;
    const formed: DomeThickness = domeThickness({
      diameter: long,
      wide,
      deep: form.deep,
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
    if (method !== 'dish' && form.kind === 'dome') {
      set.add('courses', 'raising courses', raisingCourses(domeBlankArc(long, form.deep).value, long), where, []);
    }
  }

  /** Length of an edge or a line at the middle of the thickness, along the finished surface, mm. */
  edgeLength(edge: string): Result | undefined {
    const form = this.form();
    const key = edge.toLowerCase();
    const changed = baysOf(this).length > 0 || this.isWorked();
    return form && ((changed ? undefined : lengthOfEdge(form, key)) ?? measuredLength(this, key));
  }

  private addEdges(set: FigureSet): void {
    const form = this.form();
    if (!form) return;
    const names =
      form.kind === 'half dome'
        ? ['rim', 'middle']
        : form.kind === 'dome' || form.kind === 'oval dome'
          ? ['rim', 'middle']
          : this.edgeNames();
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
        const closed = edge === 'rim' && !work.stretch;
        const turns = closed
          ? 360
          : form.kind === 'cylinder' || form.kind === 'cone'
            ? edge === 'top' || edge === 'bottom'
              ? form.wrap
              : 0
            : 0;
        set.add(
          `${edge}.wire`,
          `wire for ${edge}`,
          wireLengthAlong({ edgeLength: length, wire: work.hollow, thickness, outward: work.outward, closed, turns }),
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
    return (
      form &&
      blankOf(
        form,
        this.allowances(),
        this.method().method,
        () => this.laidFlat(),
        () => baseLineOf(this),
      )
    );
  });

  /** What is cut: the smith's own blank where a `blank` line gives one. */
  readonly blank = once((): Blank | undefined => {
    const line = this.line('blank');
    const own = line?.length('diameter') ?? line?.measures('length', 'size')?.[0];
    if (!line || !isAbove(own)) return this.workedBlank()?.blank;
    const wide = line.filled('diameter') ? undefined : line.measures('length', 'size')?.[1];
    return givenBlank(this.form(), own, isAbove(wide) ? wide : undefined);
  });

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

/** Which part of its neighbour a plate lies on; nothing while it is being written. */
function extentOf(line: LineReading): Extent | undefined {
  if (line.has('from')) {
    const edge = line.text('edge', 'from');
    const wide = line.length('to', 'from');
    if (!isAbove(wide)) return undefined;
    if (edge === 'top') return { from: 'top', wide };
    return edge === 'bottom' || edge === 'rim' ? { from: 'bottom', wide } : undefined;
  }
  const [long, wide] = [line.length('long', 'long'), line.length('wide', 'wide')];
  return isAbove(long) && isAbove(wide) ? { long, wide } : undefined;
}

/** Whether a form is only bent or rolled, so that the sheet keeps its thickness. */
function isRolled(form: Form): boolean {
  switch (form.kind) {
    case 'half dome':
    case 'gore dome':
    case 'cover':
    case 'later':
      return false;
    case 'loft': {
      // Two sections of one shape are a true cone, whose elements stay straight.
      const [low, up] = form.shape.levels.map((level) => sectionOf(level));
      if (form.shape.levels.length !== 2 || typeof low !== 'object' || typeof up !== 'object') return false;
      const share = up.wide / low.wide;
      return (['front', 'back'] as const).every((way) => Math.abs(up[way] / low[way] / share - 1) < 1e-6);
    }
    default:
      return true;
  }
}

/** Lines of one sort replace each other in `like`: one form, one method, one work for an edge. */
function sortOf(line: LineReading): string {
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

const isAbove = (value: number | undefined): value is number =>
  value !== undefined && value > 0 && Number.isFinite(value);
const isWrap = (value: number | undefined): value is number => value !== undefined && value > 0 && value <= 360;
