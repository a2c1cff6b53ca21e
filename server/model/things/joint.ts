import type { LineById, LinesOf } from '../../../grammar/typed-line.ts';
import { once } from '../../incremental/memo.ts';
import type { LineReading } from '../names/line-reading.ts';
import type { Named } from '../names/spec-file.ts';
import type { Figure } from '../values/figure.ts';
import type { FigureSet } from '../values/figure-set.ts';
import type { MaterialModel } from './material.ts';
import type { PieceModel } from './piece.ts';
import type { RivetModel } from './rivet.ts';
import { type SpecContext, Thing } from './thing.ts';

/** What a joint asks of its spec. */
export interface JointContext extends SpecContext {
  pieceOf(named: Named): PieceModel;
  materialOf(named: Named): MaterialModel;
  rivetOf(named: Named): RivetModel;
  jointOf(named: Named): JointModel;
  readonly figuring: { joint(joint: JointModel): FigureSet };
}

/** A plate of a joint, in its order along the limb. */
export interface JointPlate {
  readonly piece: PieceModel;
  readonly copy: '' | 'left' | 'right';
}

/** Two plates that follow each other: the lower end of the upper one meets the upper end of the lower one. */
export interface JointPair {
  readonly nth: number;
  readonly upper: JointPlate;
  readonly lower: JointPlate;
  /** Which of them lies outside. */
  readonly over: 'upper' | 'lower';
}

export type JointSide = 'left' | 'right';
export const JOINT_SIDES: readonly JointSide[] = ['left', 'right'];

/** A `leathers` line: so many inner leathers, each riveted to every plate. */
export interface JointLeather {
  readonly line: LineReading<LineById<LinesOf<'joint'>, 'leathers'>>;
  readonly material?: MaterialModel;
  readonly rivet?: RivetModel;
  readonly wide?: number;
  readonly count: number;
}

/** A `pivots` or a `slides` line: a rivet at each side that it names, or at a place of its own. */
export interface JointRivets {
  readonly line: LineReading<LineById<LinesOf<'joint'>, 'pivots' | 'slides'>>;
  readonly rivet?: RivetModel;
  /** By side; nothing where it says `at`. */
  readonly sides: readonly JointSide[];
  readonly inset?: number;
  /** How far in from the end of the plate that lies under, mm; in the middle of the overlap where it is not said. */
  readonly end?: number;
  /** How far a slide slides, as it says, mm. */
  readonly play?: number;
}

/** A `locks` line. */
export interface JointLock {
  readonly line: LineReading<LineById<LinesOf<'joint'>, 'locks'>>;
  readonly part?: Named;
  readonly rivet?: RivetModel;
  /** Rivets of one. */
  readonly count: number;
  readonly angle?: number;
}

/** Degrees, the smaller first. */
export interface DegreeRange {
  readonly from: number;
  readonly to: number;
}

function rangeIn(
  line: LineReading<LineById<LinesOf<'joint'>, 'bends' | 'swings'>> | undefined,
): DegreeRange | undefined {
  const [from, to] = [line?.measure('angle', 'from'), line?.measure('angle', 'to')];
  return from === undefined || to === undefined ? undefined : { from: Math.min(from, to), to: Math.max(from, to) };
}

/** More plates than this in one joint are not worked out: a tail of lames has a dozen, and each pair takes milliseconds. */
export const MOST_PLATES = 24;

/** Plates that move on each other. */
export class JointModel extends Thing<'joint', JointContext> {
  /** Its plates; a bought part or a name that nobody knows is left out. */
  readonly plates = once((): readonly JointPlate[] =>
    (this.line('plates')?.all('plates') ?? []).flatMap((filled): JointPlate[] => {
      const named = this.named.file.find(filled.text);
      if (named?.kind !== 'piece') return [];
      return [{ piece: this.model.pieceOf(named), copy: filled.copy ?? '' }];
    }),
  );

  readonly pairs = once((): readonly JointPair[] => {
    const plates = this.plates();
    if (plates.length > MOST_PLATES || this.line('swings')) return [];
    return plates.slice(1).map((lower, nth) => {
      const upper = plates[nth]!;
      return { nth, upper, lower, over: overIn(upper.piece, lower.piece) };
    });
  });

  readonly pivots = once((): readonly JointRivets[] => this.rivetLines('pivots'));
  readonly slides = once((): readonly JointRivets[] => this.rivetLines('slides'));

  private rivetLines(id: 'pivots' | 'slides'): JointRivets[] {
    return this.lines.flatMap((line): JointRivets[] => {
      if (!line.is(id)) return [];
      const named = line.named('rivet');
      const inset = line.length('inset', 'inset');
      const said = line.text('side', 'side');
      const end = line.length('end', 'end');
      const play = line.is('slides') ? line.length('play', 'play') : undefined;
      const sides = line.has('at') ? [] : JOINT_SIDES.filter((side) => said === undefined || side === said);
      return [
        {
          line,
          sides,
          ...(named?.kind === 'rivet' ? { rivet: this.model.rivetOf(named) } : {}),
          ...(inset === undefined ? {} : { inset }),
          ...(end === undefined ? {} : { end }),
          ...(play === undefined ? {} : { play }),
        },
      ];
    });
  }

  readonly leathers = once((): readonly JointLeather[] =>
    this.lines.flatMap((line): JointLeather[] => {
      if (!line.is('leathers')) return [];
      const [material, rivet] = [line.named('material'), line.named('rivet', 'rivets')];
      const wide = line.length('wide', 'wide');
      return [
        {
          line,
          count: Math.max(1, line.count('count', 'count') ?? 1),
          ...(material?.kind === 'material' ? { material: this.model.materialOf(material) } : {}),
          ...(rivet?.kind === 'rivet' ? { rivet: this.model.rivetOf(rivet) } : {}),
          ...(wide === undefined ? {} : { wide }),
        },
      ];
    }),
  );

  /** The range it must go through, degrees, the smaller first; nothing where none is said. */
  readonly range = once((): DegreeRange | undefined => rangeIn(this.line('bends')));

  /** The same where its first plate swings on the other as one. */
  readonly swing = once((): DegreeRange | undefined => rangeIn(this.line('swings')));

  /** What swings, and what on; nothing for a joint that bends, or one without two plates. */
  readonly swinging = once((): { readonly plate: JointPlate; readonly on: JointPlate } | undefined => {
    const [plate, on, ...more] = this.plates();
    return this.line('swings') && plate && on && !more.length ? { plate, on } : undefined;
  });

  /** What has to be swung out of its way before, and how far, degrees. */
  readonly clears = once((): { readonly joint: JointModel; readonly angle: number } | undefined => {
    const line = this.line('swings');
    const named = line?.named('joint', 'while');
    const angle = line?.measure('angle', 'angle', 'while');
    return named?.kind === 'joint' && angle !== undefined ? { joint: this.model.jointOf(named), angle } : undefined;
  });

  /** The joint whose pivots it swings on, which is itself as a rule; nothing where that one shares those of another. */
  readonly pivotsOf = once((): JointModel | undefined => {
    const line = this.line('shares');
    if (!line) return this;
    const named = line.named('joint');
    const other = named?.kind === 'joint' ? this.model.jointOf(named) : undefined;
    return other?.line('shares') ? undefined : other;
  });

  /** How far in from the sides of the plate that swings its pivots sit, and above its bottom, mm; as far as it says. */
  readonly beside = once((): { readonly inset?: number; readonly end?: number } => {
    const line = this.line('shares');
    if (!line) return this.pivots().find(({ inset }) => inset !== undefined) ?? {};
    const [inset, end] = [line.length('inset', 'inset'), line.length('end', 'end')];
    return { ...(inset === undefined ? {} : { inset }), ...(end === undefined ? {} : { end }) };
  });

  /** Where it must stay by itself. */
  readonly holds = once(() =>
    this.lines.flatMap((line) => {
      const angle = line.is('holds') ? line.measure('angle', 'at') : undefined;
      return angle === undefined ? [] : [{ line, angle }];
    }),
  );

  /** What locks it, and the rivets of one. */
  readonly locks = once((): readonly JointLock[] =>
    this.lines.flatMap((line): JointLock[] => {
      if (!line.is('locks')) return [];
      const [part, rivet] = [line.named('part'), line.named('rivet', 'rivets')];
      const angle = line.measure('angle', 'angle', 'at angle');
      return [
        {
          line,
          count: line.count('count', 'count') ?? 1,
          ...(part?.kind === 'part' ? { part } : {}),
          ...(rivet?.kind === 'rivet' ? { rivet: this.model.rivetOf(rivet) } : {}),
          ...(angle === undefined ? {} : { angle }),
        },
      ];
    }),
  );

  /** The overlap as assembled that it says, mm. */
  readonly saidLap = once((): number | undefined => this.line('lap')?.length('lap'));

  /** The overlap that it says must be left, mm. */
  readonly saidLeast = once((): number | undefined => this.line('overlap')?.length('overlap'));

  /** How many in one build: as it says, or one for each copy of its plates. */
  readonly make = once((): number => {
    const said = this.line('make')?.count('make');
    if (said) return said;
    const plates = this.plates();
    return plates.some(({ copy }) => copy) ? 1 : Math.max(1, ...plates.map(({ piece }) => piece.make()));
  });

  /** Every line that sets rivets. */
  readonly riveting = once((): readonly { readonly line: LineReading; readonly rivet?: RivetModel }[] => [
    ...this.pivots(),
    ...this.slides(),
    ...this.leathers(),
    ...this.locks(),
  ]);

  readonly figures = once((): FigureSet => this.model.figuring.joint(this));

  figure(suffix: string): Figure | undefined {
    return this.figures().get(suffix);
  }
}

/** Each lies over the next unless its form says otherwise. */
function overIn(upper: PieceModel, lower: PieceModel): 'upper' | 'lower' {
  const ownSay = liesOn(lower, upper);
  if (ownSay) return ownSay === 'over' ? 'lower' : 'upper';
  return liesOn(upper, lower) === 'under' ? 'lower' : 'upper';
}

/** How a plate's form says that it lies on another; nothing where it says nothing of it. */
export function liesOn(piece: PieceModel, other: PieceModel): 'over' | 'under' | undefined {
  const line = piece.formLine();
  if (!line?.is('lies')) return undefined;
  const named = line.named('neighbour');
  if (named?.kind !== 'piece' || named.section !== other.named.section) return undefined;
  return line.word('over') ? 'over' : 'under';
}
