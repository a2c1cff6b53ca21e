import { leadingWords } from '../../grammar/pattern.ts';
import type { Place, Word } from '../../grammar/tree.ts';
import {
  annealsNeeded,
  type DomeThickness,
  domeArea,
  domeBlankArc,
  domeBlankEqualArea,
  domeBlankHeld,
  domeMeridian,
  domeThickness,
  type FormingMethod,
  ovalDomeArea,
  ovalDomeBlankArc,
  ovalDomeBlankEqualArea,
  ovalDomeBlankHeld,
  raisingCourses,
} from '../trade/dome.ts';
import {
  allowanceBeyondFinished,
  hemAllowance,
  rolledAllowance,
  standsBeyond,
  wiredAllowance,
  wireLengthAlong,
} from '../trade/edge.ts';
import { enlargedGirth, reducedGirth } from '../trade/fit.ts';
import {
  circleArea,
  circlePerimeter,
  ellipseArea,
  ellipsePerimeter,
  outlineMeasures,
  plateArea,
} from '../trade/flat.ts';
import { sheetMass } from '../trade/mass.ts';
import { plain, type Result, result } from '../trade/result.ts';
import { coneDevelopment, coneOutline, cylinderBlank } from '../trade/wrap.ts';
import type { Figure } from './figure.ts';
import { FigureSet } from './figure-set.ts';
import { type Named, once } from './file.ts';
import { EDGES, type Form, type OutlineCorner } from './form.ts';
import type { MaterialModel } from './material.ts';
import type { Model } from './model.ts';
import { LineReading } from './reading.ts';

export interface EdgeWork {
  readonly line: LineReading;
  readonly edge: string;
  readonly kind: 'rolled' | 'hemmed' | 'long' | 'soft';
  readonly wire?: MaterialModel;
  /** Inside diameter of the roll: the wire's, or the hollow's, mm. */
  readonly hollow?: number;
  readonly hem?: { readonly width: number; readonly double: boolean };
  readonly outward: boolean;
  /** The part of the edge that is worked, along it, mm. */
  readonly stretch?: { readonly from: number; readonly to: number };
}

export interface Opening {
  readonly line: LineReading;
  readonly name?: Word;
  readonly kind: 'slot' | 'hole' | 'holes' | 'breaths' | 'pierce';
  readonly count: number;
  /** Size of one, mm: `long` across, `wide` up; equal for round ones. */
  readonly long: number;
  readonly wide: number;
  readonly round: boolean;
  readonly beforeForming: boolean;
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

/** What the smith cuts. */
export interface Blank {
  readonly shape:
    | { readonly kind: 'rectangle' | 'round' | 'oval' }
    | { readonly kind: 'sector'; readonly outer: number; readonly inner: number; readonly angle: number }
    | { readonly kind: 'outline'; readonly points: readonly (readonly [number, number])[] };
  readonly long: number;
  readonly wide: number;
  readonly area: number;
  readonly allowances: readonly { readonly edge: string; readonly what: string; readonly figure: Figure }[];
  /** The smith's own blank stands. */
  readonly overridden: boolean;
}

/** How deep a dome may be for its rim, as depth over half the diameter, before a tool-picked method goes over from dishing. */
const DISH_TO = 0.6;

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

  readonly form = once((): Form | undefined => {
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
        return line.filled('file') ? { kind: 'later', line } : this.readOutline(line);
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
        if (line.has('long')) return { kind: 'later', line };
        const girth = line.length('girth');
        return isAbove(girth) && isAbove(high) && isWrap(wrap)
          ? { kind: 'cylinder', line, girth: girth + girthGrow, high, wrap }
          : undefined;
      }
      case 'cone': {
        if (line.has('long')) return { kind: 'later', line };
        const top = line.length('top');
        const bottom = line.length('bottom');
        return isAbove(top) && isAbove(bottom) && isAbove(high) && isWrap(wrap)
          ? { kind: 'cone', line, top: top + girthGrow, bottom: bottom + girthGrow, high, wrap }
          : undefined;
      }
      case 'lies':
        return this.readLame(line, high, wrap);
      case 'trim':
        return this.readTrim(line);
      default:
        return { kind: 'later', line };
    }
  }

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

  /** A lame takes its girth from its neighbour: both half thicknesses and the gap lie between their middles. */
  private readLame(line: LineReading, high: number | undefined, wrap: number | undefined): Form | undefined {
    const named = line.named('neighbour');
    const neighbour = named?.kind === 'piece' ? this.model.pieceOf(named) : undefined;
    if (!neighbour || neighbour === this) return undefined;
    const girth = this.lameGirth()?.value;
    if (girth === undefined) return neighbour.formLine() && !neighbour.form() ? undefined : { kind: 'later', line };
    return isAbove(girth) && isAbove(high) && isWrap(wrap)
      ? { kind: 'cylinder', line, girth, high, wrap, neighbour: named! }
      : undefined;
  }

  private busy = false;

  /** Girth of a lame at the middle of its thickness. */
  readonly lameGirth = once((): Result | undefined => {
    const line = this.formLine();
    if (line?.id !== 'lies' || this.busy) return undefined;
    this.busy = true;
    try {
      const named = line.named('neighbour');
      const neighbour = named?.kind === 'piece' ? this.model.pieceOf(named) : undefined;
      const base = neighbour && neighbour !== this ? neighbour.meetingGirth() : undefined;
      const own = this.thickness();
      const other = neighbour?.thickness();
      if (base === undefined || own === undefined || other === undefined) return undefined;
      const gap = Math.max(0, line.length('gap', 'gap') ?? 0) + (own + other) / 2;
      const found = line.word('over') ? enlargedGirth({ girth: base, gap }) : reducedGirth({ girth: base, gap });
      return {
        ...found,
        note: `From the girth of ${neighbour!.name}; the distance is both half thicknesses and the gap between the plates.`,
      };
    } finally {
      this.busy = false;
    }
  });

  /** The girth at which a lame meets this piece: a cone's narrower end. */
  private meetingGirth(): number | undefined {
    if (this.formLine()?.id === 'lies') return this.lameGirth()?.value;
    const form = this.form();
    if (form?.kind === 'cylinder') return form.girth;
    return form?.kind === 'cone' ? Math.min(form.top, form.bottom) : undefined;
  }

  private readTrim(line: LineReading): Form | undefined {
    const word = line.filled('edge')?.items[0];
    const wide = line.length('wide', 'wide');
    if (word?.kind !== 'word' || !isAbove(wide)) return undefined;
    const [pieceKey, edge] = word.key.split('.');
    const named = edge ? this.named.file.find(pieceKey!) : undefined;
    const neighbour = named?.kind === 'piece' ? this.model.pieceOf(named) : undefined;
    if (!neighbour || neighbour === this || this.busy) return undefined;
    this.busy = true;
    try {
      const along = neighbour.edgeLength(edge!);
      return along
        ? { kind: 'trim', line, along: word.text, length: along.value, wide, neighbour: named! }
        : { kind: 'later', line };
    } finally {
      this.busy = false;
    }
  }

  /** The edges it has, by name. */
  edgeNames(): readonly string[] {
    return EDGES[this.form()?.kind ?? 'unread'];
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

  // ---- figures -----------------------------------------------------------------------------------------------------

  private working = false;

  readonly figures = once((): FigureSet => {
    const set = new FigureSet(`piece ${this.name}`, this.name);
    if (this.working) return set;
    this.working = true;
    try {
      this.addMake(set);
      this.addForm(set);
      this.addEdges(set);
      this.addOpenings(set);
      this.addBlank(set);
      this.addMass(set);
    } finally {
      this.working = false;
    }
    return set;
  });

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
    const area = areaOf(form);
    if (area) set.add('area', 'finished area', area, place, []);
    if (form.kind === 'cylinder' && form.neighbour) {
      const girth = this.lameGirth();
      if (girth)
        set.add('girth', 'girth at the middle of the thickness', girth, place, [`${form.neighbour.word.text}.girth`]);
    }
    if (form.kind === 'cone') {
      const cone = coneDevelopment(form);
      set.add('slant', 'slant height', cone.slant, place, []);
      set.add('sector', 'angle of the flat sector', cone.sector, place, []);
      if (cone.outerRadius.outside === undefined) {
        set.add('outer-radius', 'outer radius of the flat sector', cone.outerRadius, place, []);
        set.add('inner-radius', 'inner radius of the flat sector', cone.innerRadius, place, []);
      }
    }
    if (form.kind === 'dome' || form.kind === 'oval dome' || form.kind === 'half dome') this.addDome(set, form, place);
    const thickness = this.material()?.thickness();
    if (!thickness || set.get('thickness.least') || form.kind === 'half dome') return;
    if (form.kind === 'later') return;
    const flat = result({
      value: thickness.value,
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
    set.add('thickness.crown', 'thickness at the crown after forming', formed.crown, place, inputs);
    set.add('thickness.edge', 'thickness at the rim after forming', formed.edge, place, inputs);
    set.add('thickness.least', 'thinnest place after forming', formed.least, place, inputs);
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
    return form && lengthOfEdge(form, edge);
  }

  private addEdges(set: FigureSet): void {
    const form = this.form();
    if (!form) return;
    const names =
      form.kind === 'half dome'
        ? ['rim']
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
    for (const work of this.edgeWorks()) {
      const { edge, line } = work;
      const allowance = allowanceOf(work, thickness);
      if (allowance)
        set.add(
          `${edge}.allowance`,
          `metal to leave at ${edge}`,
          allowance,
          line.place,
          this.material() ? [`${this.material()!.name}.thickness`] : [],
        );
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
      set.add(
        `${opening.name?.text ?? `${opening.kind}-${lineNumberIn(opening.line)}`}.area`,
        'area taken out',
        area,
        opening.line.place,
        [],
      );
    }
  }

  readonly blank = once((): Blank | undefined => {
    this.figures();
    return this.blank_;
  });
  private blank_: Blank | undefined;

  private addBlank(set: FigureSet): void {
    const form = this.form();
    if (!form) return;
    const override = this.line('blank');
    const size = this.computedBlank(set, form);
    const own = override && this.overriddenBlank(override);
    const blank = own ?? size;
    if (!blank) return;
    this.blank_ = blank;
    const place = own ? override!.place : form.line.place;
    if (!own) return;
    // The smith's blank governs what is cut and weighed; the worked-out figures stand beside it, under the form.
    const worked = (value: number, unit: 'mm' | 'mm2', symbol: string) => this.model.fromSpec(value, unit, symbol);
    if (blank.shape.kind === 'round')
      set.add('blank.diameter', 'blank diameter', worked(blank.long, 'mm', 'D'), place, [], { decimals: 1 });
    set.add('blank.long', 'blank, long', worked(blank.long, 'mm', 'long'), place, [], { decimals: 1 });
    set.add('blank.wide', 'blank, wide', worked(blank.wide, 'mm', 'wide'), place, [], { decimals: 1 });
    set.add('blank.area', 'blank area', worked(blank.area, 'mm2', 'A'), place, []);
  }

  /** The worked-out blank, whatever the smith's own line says: what an override is checked against. */
  readonly computed = once((): { readonly long: number; readonly wide: number; readonly low?: number } | undefined => {
    const form = this.form();
    if (!form) return undefined;
    const blank = this.computedBlank(new FigureSet('', this.name), form);
    if (!blank) return undefined;
    const held =
      form.kind === 'dome'
        ? domeBlankHeld(form.diameter, form.deep).value
        : form.kind === 'oval dome'
          ? form.wide
          : undefined;
    return { long: blank.long, wide: blank.wide, ...(held === undefined ? {} : { low: held }) };
  });

  private overriddenBlank(line: LineReading): Blank | undefined {
    const base = { allowances: [], overridden: true } as const;
    const diameter = line.length('diameter');
    if (isAbove(diameter))
      return { ...base, shape: { kind: 'round' }, long: diameter, wide: diameter, area: circleArea(diameter).value };
    const values = line.measures('length', 'size');
    const [long, wide] = values ?? [];
    if (!isAbove(long)) return undefined;
    const kind = this.form()?.kind;
    if (!isAbove(wide)) return { ...base, shape: { kind: 'round' }, long, wide: long, area: circleArea(long).value };
    return kind === 'oval dome' || kind === 'oval'
      ? { ...base, shape: { kind: 'oval' }, long, wide, area: ellipseArea(long, wide).value }
      : { ...base, shape: { kind: 'rectangle' }, long, wide, area: long * wide };
  }

  private computedBlank(set: FigureSet, form: Form): Blank | undefined {
    const allowances = this.allowances(set);
    const sum = (...edges: string[]) =>
      allowances.filter((each) => edges.includes(each.edge)).reduce((total, each) => total + each.figure.value, 0);
    const { place } = form.line;
    const add = (suffix: string, title: string, made: Result, inputs: readonly string[] = []) =>
      set.add(suffix, title, made, place, inputs, { decimals: 1 });
    const inputs = allowances.map((each) => each.figure.name);
    const base = { allowances, overridden: false } as const;
    const sized = (long: number, wide: number, area: number, how: string, basis: Result['basis'] = 'geometry') => {
      add('blank.long', 'blank, long', simple(long, 'mm', 'long', how, basis), inputs);
      add('blank.wide', 'blank, wide', simple(wide, 'mm', 'wide', how, basis), inputs);
      add('blank.area', 'blank area', simple(area, 'mm2', 'A', how, basis), inputs);
    };
    switch (form.kind) {
      case 'plate':
      case 'strip': {
        // Measures of a bent plate are those of the flat plate, as the smith marks out the bend line.
        const long = form.wide + sum('left', 'right');
        const wide = form.high + sum('top', 'bottom');
        sized(long, wide, long * wide, 'The size of the plate and what its edges need');
        return { ...base, shape: { kind: 'rectangle' }, long, wide, area: long * wide };
      }
      case 'trim': {
        const long = form.length + sum('left', 'right');
        const wide = form.wide + sum('top', 'bottom');
        add(
          'blank.long',
          'blank, long',
          {
            ...simple(long, 'mm', 'long', `Length of ${form.along} and what the ends need`, 'geometry'),
            note: 'Laid as a straight strip: the curve that a strip takes on a rounded surface is not computed yet, so trim it after fitting.',
          },
          [`${form.along}.length`, ...inputs],
        );
        add(
          'blank.wide',
          'blank, wide',
          simple(wide, 'mm', 'wide', 'Its width and what its edges need', 'geometry'),
          inputs,
        );
        add('blank.area', 'blank area', simple(long * wide, 'mm2', 'A', 'Long times wide', 'geometry'), inputs);
        return { ...base, shape: { kind: 'rectangle' }, long, wide, area: long * wide };
      }
      case 'disc': {
        const diameter = form.diameter + 2 * sum('rim');
        add(
          'blank.diameter',
          'blank diameter',
          simple(diameter, 'mm', 'D', 'The finished size and twice what its rim needs', 'geometry'),
          inputs,
        );
        const area = circleArea(diameter).value;
        sized(diameter, diameter, area, 'The finished size and twice what its rim needs');
        return { ...base, shape: { kind: 'round' }, long: diameter, wide: diameter, area };
      }
      case 'oval': {
        const long = form.long + 2 * sum('rim');
        const wide = form.wide + 2 * sum('rim');
        const area = ellipseArea(long, wide).value;
        sized(long, wide, area, 'The finished size and twice what its rim needs');
        return { ...base, shape: { kind: 'oval' }, long, wide, area };
      }
      case 'outline': {
        const measured = outlineMeasures(form.points);
        if (measured.area.outside !== undefined) return undefined;
        const { left, right, bottom, top } = measured.box;
        const grow = sum('rim');
        const long = right - left + 2 * grow;
        const wide = top - bottom + 2 * grow;
        const area = measured.area.value + grow * measured.perimeter.value;
        sized(long, wide, area, 'The outline and what its edge needs');
        return { ...base, shape: { kind: 'outline', points: drawn(form.points) }, long, wide, area };
      }
      case 'cylinder': {
        const flat = cylinderBlank({ girth: form.girth, high: form.high, wrap: form.wrap });
        const long = flat.long.value + sum('left', 'right');
        const wide = form.high + sum('top', 'bottom');
        add(
          'blank.long',
          'blank, long',
          {
            ...flat.long,
            value: long,
            ...(long === flat.long.value ? {} : { note: 'What the left and right edges need is added.' }),
          },
          inputs,
        );
        add(
          'blank.wide',
          'blank, wide',
          simple(wide, 'mm', 'wide', 'The height and what top and bottom need', 'geometry'),
          inputs,
        );
        add('blank.area', 'blank area', simple(long * wide, 'mm2', 'A', 'Long times wide', 'geometry'), inputs);
        return { ...base, shape: { kind: 'rectangle' }, long, wide, area: long * wide };
      }
      case 'cone':
        return this.coneBlank(form, sum, add, allowances, inputs);
      case 'dome':
        return this.domeBlank(form, sum('rim'), add, allowances, inputs);
      case 'oval dome':
        return this.ovalDomeBlank(form, sum('rim'), add, allowances, inputs);
      case 'half dome':
      case 'later':
        return undefined;
    }
  }

  private coneBlank(
    form: Form & { kind: 'cone' },
    sum: (...edges: string[]) => number,
    add: (suffix: string, title: string, made: Result, inputs?: readonly string[]) => void,
    allowances: Blank['allowances'],
    inputs: readonly string[],
  ): Blank | undefined {
    const plainCone = coneDevelopment(form);
    if (plainCone.slant.outside !== undefined) return undefined;
    // What the ends need goes on along the cone's own side, so the pattern of the longer cone is the pattern wanted.
    const slant = plainCone.slant.value;
    const perSlant = (form.bottom - form.top) / slant;
    const top = Math.max(0, form.top - perSlant * sum('top'));
    const bottom = Math.max(0, form.bottom + perSlant * sum('bottom'));
    const high = form.high * (1 + (sum('top') + sum('bottom')) / slant);
    const long = coneDevelopment({ ...form, top, bottom, high });
    const side = sum('left', 'right');
    const points = coneOutline({ ...form, top, bottom, high }, 48);
    const widened = points.map((point): readonly [number, number] => [
      point.x + (point.x > 0 ? sum('right') : point.x < 0 ? -sum('left') : 0),
      point.y,
    ]);
    const blankLong = long.blankLong.value + side;
    const blankWide = long.blankWide.value;
    const area = long.area.value + side * long.slant.value;
    const note = side > 0 ? 'What the left and right edges need is added to the length.' : undefined;
    add('blank.long', 'blank, long', { ...long.blankLong, value: blankLong, ...(note ? { note } : {}) }, inputs);
    add('blank.wide', 'blank, wide', long.blankWide, inputs);
    add('blank.area', 'blank area', { ...long.area, value: area, ...(note ? { note } : {}) }, inputs);
    return {
      shape: { kind: 'outline', points: widened },
      long: blankLong,
      wide: blankWide,
      area,
      allowances,
      overridden: false,
    };
  }

  private domeBlank(
    form: Form & { kind: 'dome' },
    rim: number,
    add: (suffix: string, title: string, made: Result, inputs?: readonly string[]) => void,
    allowances: Blank['allowances'],
    inputs: readonly string[],
  ): Blank {
    const held = domeBlankHeld(form.diameter, form.deep);
    const equal = domeBlankEqualArea(form.diameter, form.deep);
    const arc = domeBlankArc(form.diameter, form.deep);
    add('blank.held', 'blank if the rim is held', held);
    add('blank.equal-area', 'blank of equal area', equal);
    add('blank.arc', 'blank of the arc', arc);
    const { method } = this.method();
    const [lead, why] =
      method === 'raise'
        ? ([arc, 'the arc: raising shrinks the edge'] as const)
        : ([equal, 'equal area: the rim draws in under the hammer'] as const);
    const diameter = lead.value + 2 * rim;
    add(
      'blank.diameter',
      'blank diameter',
      {
        ...(rim > 0 ? simple(diameter, 'mm', 'D', '', lead.basis) : lead),
        value: diameter,
        low: held.value + 2 * rim,
        high: arc.value + 2 * rim,
        formula: rim > 0 ? `${lead.formula} + 2a` : lead.formula,
        worked: rim > 0 ? `${lead.worked} + 2 × ${plain(rim)}` : lead.worked,
        source: lead.source,
        note: `Leads with ${why}. The range runs from a rim that is held to one that only shrinks.`,
      },
      inputs,
    );
    const area = circleArea(diameter).value;
    const how = `The blank for ${method ?? 'dish'}`;
    add('blank.long', 'blank, long', simple(diameter, 'mm', 'D', how, lead.basis), [`${this.name}.blank.diameter`]);
    add('blank.wide', 'blank, wide', simple(diameter, 'mm', 'D', how, lead.basis), [`${this.name}.blank.diameter`]);
    add('blank.area', 'blank area', circleArea(diameter), [`${this.name}.blank.diameter`]);
    return { shape: { kind: 'round' }, long: diameter, wide: diameter, area, allowances, overridden: false };
  }

  private ovalDomeBlank(
    form: Form & { kind: 'oval dome' },
    rim: number,
    add: (suffix: string, title: string, made: Result, inputs?: readonly string[]) => void,
    allowances: Blank['allowances'],
    inputs: readonly string[],
  ): Blank {
    const held = ovalDomeBlankHeld(form.long, form.wide, form.deep);
    const equal = ovalDomeBlankEqualArea(form.long, form.wide, form.deep);
    const arc = ovalDomeBlankArc(form.long, form.wide, form.deep);
    const lead = this.method().method === 'raise' ? arc : equal;
    const sizes = (['long', 'wide'] as const).map((way) => {
      const value = lead[way].value + 2 * rim;
      add(
        `blank.${way}`,
        `blank, ${way}`,
        {
          ...lead[way],
          value,
          low: held[way].value + 2 * rim,
          high: arc[way].value + 2 * rim,
          ...(rim > 0
            ? { formula: `${lead[way].formula} + 2a`, worked: `${lead[way].worked} + 2 × ${plain(rim)}` }
            : {}),
          note: 'The range runs from a rim that is held to one that only shrinks.',
        },
        inputs,
      );
      return value;
    });
    const [long, wide] = sizes as [number, number];
    const area = ellipseArea(long, wide);
    add('blank.area', 'blank area', area, [`${this.name}.blank.long`, `${this.name}.blank.wide`]);
    return { shape: { kind: 'oval' }, long, wide, area: area.value, allowances, overridden: false };
  }

  /** What each worked edge adds to the blank. A part of an edge adds to the whole: a blank is cut straight and trimmed. */
  private allowances(set: FigureSet): Blank['allowances'] {
    const thickness = this.thickness();
    return this.edgeWorks().flatMap((work) => {
      const figure =
        set.get(`${work.edge}.allowance`) ??
        (thickness === undefined ? undefined : this.looseAllowance(work, thickness));
      return figure ? [{ edge: work.edge, what: inWords(work), figure }] : [];
    });
  }

  private looseAllowance(work: EdgeWork, thickness: number): Figure | undefined {
    const made = allowanceOf(work, thickness);
    return made && new FigureSet('', this.name).add(`${work.edge}.allowance`, '', made, work.line.place, []);
  }

  private addMass(set: FigureSet): void {
    const blank = this.blank_;
    const material = this.material();
    const thickness = material?.thickness();
    const density = material?.density();
    if (!blank || !thickness || !density || material?.kind() === 'wire') return;
    const openings = this.openings().reduce(
      (total, opening) =>
        total + opening.count * (opening.round ? circleArea(opening.long).value : slotArea(opening.long, opening.wide)),
      0,
    );
    const area = Math.max(0, blank.area - openings);
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

/** How much thickness and density together may differ from their values, as factors. */
function spreadOf(thickness: Figure, density: Figure): { low: number; high: number } | undefined {
  if (density.low === undefined && thickness.low === undefined) return undefined;
  const low = ((thickness.low ?? thickness.value) / thickness.value) * ((density.low ?? density.value) / density.value);
  const high =
    ((thickness.high ?? thickness.value) / thickness.value) * ((density.high ?? density.value) / density.value);
  return { low, high };
}

function simple(value: number, unit: 'mm' | 'mm2', symbol: string, source: string, basis: Result['basis']): Result {
  return result({ value, unit, formula: `${symbol} = {${symbol}}`, symbols: { [symbol]: value }, basis, source });
}

function inWords(work: EdgeWork): string {
  switch (work.kind) {
    case 'rolled':
      return work.wire ? `rolled over ${work.wire.name}` : 'rolled hollow';
    case 'hemmed':
      return work.hem?.double ? 'double hem' : 'hem';
    case 'long':
      return 'left long';
    case 'soft':
      return 'soft edge';
  }
}

function allowanceOf(work: EdgeWork, thickness: number): Result | undefined {
  switch (work.kind) {
    case 'rolled': {
      if (work.hollow === undefined) return undefined;
      const beyond = allowanceBeyondFinished({ hollow: work.hollow, thickness });
      const whole = work.wire
        ? wiredAllowance({ wire: work.hollow, thickness })
        : rolledAllowance({ hollow: work.hollow, thickness });
      const stands = standsBeyond({ hollow: work.hollow, thickness });
      return {
        ...beyond,
        ...(whole.outside === undefined ? {} : { outside: whole.outside }),
        note: `Beyond the finished edge. From the line where the roll begins it is ${plain(whole.value)} mm, and the roll stands ${plain(stands.value)} mm beyond that line.${whole.note && work.wire ? ` ${whole.note}` : ''}`,
      };
    }
    case 'hemmed':
      return (
        work.hem && hemAllowance({ width: work.hem.width, thickness, kind: work.hem.double ? 'double' : 'single' })
      );
    case 'long': {
      const long = work.line.length('long');
      return isAbove(long)
        ? result({
            value: long,
            unit: 'mm',
            formula: 'a = {a}',
            symbols: { a: long },
            basis: 'from the spec',
            source: 'Left long, to be trimmed after fitting',
          })
        : undefined;
    }
    case 'soft':
      return undefined;
  }
}

function areaOf(form: Form): Result | undefined {
  switch (form.kind) {
    case 'plate':
    case 'strip':
      return plateArea(form.wide, form.high);
    case 'trim':
      return plateArea(form.length, form.wide);
    case 'disc':
      return circleArea(form.diameter);
    case 'oval':
      return ellipseArea(form.long, form.wide);
    case 'outline':
      return outlineMeasures(form.points).area;
    case 'dome':
      return domeArea(form.diameter, form.deep);
    case 'oval dome':
      return ovalDomeArea(form.long, form.wide, form.deep);
    case 'half dome': {
      const whole = ovalDomeArea(form.long, form.wide, form.deep);
      return {
        ...whole,
        value: whole.value / 2,
        formula: `${whole.formula}; half of it`,
        worked: `(${whole.worked}) ÷ 2`,
      };
    }
    case 'cylinder':
      return cylinderBlank(form).area;
    case 'cone':
      return coneDevelopment(form).area;
    case 'later':
      return undefined;
  }
}

function lengthOfEdge(form: Form, edge: string): Result | undefined {
  const straight = (value: number, source: string) => simple(value, 'mm', 'L', source, 'geometry');
  const arc = (girth: number, wrap: number) =>
    result({
      value: (girth * wrap) / 360,
      unit: 'mm',
      formula: 'L = {C} × {w}/360',
      symbols: { C: girth, w: wrap },
      basis: 'geometry',
      source: 'Girth and wrap',
    });
  switch (form.kind) {
    case 'plate':
    case 'strip':
      if (edge === 'top' || edge === 'bottom') return straight(form.wide, 'Width of the plate');
      return edge === 'left' || edge === 'right' ? straight(form.high, 'Height of the plate') : undefined;
    case 'trim':
      if (edge === 'top' || edge === 'bottom') return straight(form.length, `Length of ${form.along}`);
      return edge === 'left' || edge === 'right' ? straight(form.wide, 'Width of the strip') : undefined;
    case 'disc':
      return edge === 'rim' ? circlePerimeter(form.diameter) : undefined;
    case 'oval':
      return edge === 'rim' ? ellipsePerimeter(form.long, form.wide) : undefined;
    case 'outline':
      return edge === 'rim' ? outlineMeasures(form.points).perimeter : undefined;
    case 'dome': {
      if (edge === 'rim') return circlePerimeter(form.diameter);
      if (edge !== 'middle') return undefined;
      const meridian = domeMeridian(form.diameter, form.deep);
      return {
        ...meridian,
        value: 2 * meridian.value,
        formula: '2s, from rim over the crown to rim',
        worked: `2 × (${meridian.worked})`,
      };
    }
    case 'oval dome':
      if (edge === 'rim') return ellipsePerimeter(form.long, form.wide);
      // Deeper than half its width it is half an ellipsoid, and its middle line is half an ellipse.
      return edge === 'middle' && form.deep >= form.wide / 2
        ? halfOf(ellipsePerimeter(form.long, 2 * form.deep))
        : undefined;
    case 'half dome':
      if (edge === 'rim') return halfOf(ellipsePerimeter(form.long, form.wide));
      return edge === 'middle' && form.deep >= form.wide / 2
        ? halfOf(ellipsePerimeter(form.long, 2 * form.deep))
        : undefined;
    case 'cylinder':
      if (edge === 'top' || edge === 'bottom') return arc(form.girth, form.wrap);
      return edge === 'left' || edge === 'right' ? straight(form.high, 'Height of the piece') : undefined;
    case 'cone':
      if (edge === 'top') return arc(form.top, form.wrap);
      if (edge === 'bottom') return arc(form.bottom, form.wrap);
      return edge === 'left' || edge === 'right' ? coneDevelopment(form).slant : undefined;
    case 'later':
      return undefined;
  }
}

const halfOf = (whole: Result): Result => ({
  ...whole,
  value: whole.value / 2,
  formula: `${whole.formula}; half of it`,
  worked: `(${whole.worked}) ÷ 2`,
});

/** A slot has half-round ends: its narrower measure is the tool's. */
function slotArea(long: number, wide: number): number {
  const longer = Math.max(long, wide);
  const narrower = Math.min(long, wide);
  return (longer - narrower) * narrower + (Math.PI / 4) * narrower * narrower;
}

/** The width of an oval of this way round and this length; nothing when no oval has both. */
export function widthOfOval(girth: number, long: number): number | undefined {
  if (!(girth > 2 * long) || !Number.isFinite(girth)) return undefined;
  let low = 0;
  let high = girth;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (ellipsePerimeter(Math.max(long, middle), Math.min(long, middle)).value < girth) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The corners of an outline with its arcs as short chords, for drawing. */
function drawn(points: readonly OutlineCorner[]): [number, number][] {
  return points.flatMap((to, i): [number, number][] => {
    const from = points[(i + points.length - 1) % points.length]!;
    const radius = to.radius ?? 0;
    const chord = Math.hypot(to.x - from.x, to.y - from.y);
    if (!radius || chord > 2 * Math.abs(radius) || chord === 0) return [[to.x, to.y]];
    const half = Math.asin(Math.min(1, chord / (2 * Math.abs(radius))));
    const rise = Math.sqrt(Math.max(0, radius * radius - (chord * chord) / 4));
    // Left of the way one goes for a radius above nought, so the middle lies to the right of the chord.
    const side = radius > 0 ? -1 : 1;
    const nx = -(to.y - from.y) / chord;
    const ny = (to.x - from.x) / chord;
    const cx = (from.x + to.x) / 2 + side * nx * rise;
    const cy = (from.y + to.y) / 2 + side * ny * rise;
    const start = Math.atan2(from.y - cy, from.x - cx);
    const steps = Math.max(2, Math.ceil(half / 0.06));
    return Array.from({ length: steps }, (_, k): [number, number] => {
      const angle = start + side * ((2 * half * (k + 1)) / steps);
      return [cx + Math.abs(radius) * Math.cos(angle), cy + Math.abs(radius) * Math.sin(angle)];
    });
  });
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

const lineNumberIn = (line: LineReading): number => line.line.section.lines.indexOf(line.line) + 1;
const isAbove = (value: number | undefined): value is number =>
  value !== undefined && value > 0 && Number.isFinite(value);
const isWrap = (value: number | undefined): value is number => value !== undefined && value > 0 && value <= 360;
