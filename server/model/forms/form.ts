import type { LineById, LineOfGroup, PieceLine } from '../../../grammar/typed-line.ts';
import type { NoOutline, OutlineIn } from '../../geometry/drawings/outline-in.ts';
import type { Path } from '../../geometry/outline/path.ts';
import type { Chart } from '../../geometry/surface/chart.ts';
import type { SectionAt } from '../../geometry/surface/loft.ts';
import type { Level, Section } from '../../geometry/surface/section.ts';
import type { Vector } from '../../geometry/surface/vector.ts';
import type { EdgeLine, SurfaceLine } from '../../geometry/surface/walk.ts';
import type { FormedBy } from '../../trade/dome/hammered.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import type { LineReading } from '../names/line-reading.ts';
import type { Named } from '../names/spec-file.ts';
import type { FigureSet } from '../values/figure-set.ts';
import {
  type LAID_FLAT,
  type LaidFlat,
  MEASURED,
  type Measured,
  NONE,
  NOT_KNOWN,
  type None,
  type NotKnown,
} from './answers.ts';
import type { Edges, WorkedBlank } from './blank.ts';
import type { EdgeRun } from './edge-run.ts';

/*
 * What the model must know of a form; the words for what it cannot know stand in `answers.ts`. One file a form fills all of it in; the
 * list in `index.ts` does not compile while one of them leaves something out.
 */

/** What all forms have, whatever they are: measures are of the middle of the thickness, mm and degrees. */
export interface FormOf<Kind extends string> {
  readonly kind: Kind;
  readonly line: LineReading;
}

/** A form of which no more is known than that. */
export type AnyForm = FormOf<string>;

/** What a form asks of the piece that has it. */
export interface Shaped {
  readonly name: string;
  readonly named: Named;
  lines(): readonly LineReading<PieceLine>[];
  thickness(): number | undefined;
  form(): AnyForm | undefined;
  /** The plain form as a surface, and the same with what is worked into it. */
  plainChart(): Chart | undefined;
  chart(): Chart | undefined;
  edgeLength(edge: string): Result | undefined;
  /** The line on its neighbour's surface that it follows. */
  baseLine(): SurfaceLine | undefined;
  /** A line along an edge of another piece, so far in from it, where the middle of this one's thickness lies on it. */
  lineOn(neighbour: Named, edge: string, inset: number): EdgeLine | undefined;
  /** Whether the metal ends at an edge: it does not where halves or both sides of a ring meet. */
  endsAt(edge: string): boolean;
  /** What a diameter gains from the measured face to the middle of the thickness, mm; nothing where the thickness is not known. */
  grow(): number | undefined;
  /** The levels of its form with their lines; nothing while one of them is being written. */
  levels(): readonly { readonly line: LineReading; readonly level: Level }[] | undefined;
  /** The section at which a lame meets it; nothing while its form is not known. */
  meetingSection(): Met | None | undefined;
  /** How far round its form goes, as {@link FormKind.around}. */
  around(): number | 'half' | None;
  /** Girth of a lame, from its neighbour. */
  lameGirth(): Result | undefined;
  /** The outline in the drawing file of its form line, or why there is none; nothing where there is no such file. */
  drawnIn(): OutlineIn | NoOutline | undefined;
  /** Whether flutes or creases change its surface. */
  isRelieved(): boolean;
  /** Whether its blank is laid flat by numbers, whatever formula its form has. */
  isLaidFlat(): boolean;
  /** Another piece, by its name. */
  pieceNamed(named: Named): Shaped;
}

/** The line of a form as it is read. */
export interface FormReading<L extends PieceLine = PieceLine> {
  readonly line: LineReading<L>;
  readonly piece: Shaped;
  /** What a diameter gains from the measured face to the middle of the thickness, mm. */
  readonly grow: number;
}

/** One way in which forms are written: by a line of its own. */
export interface Notation<Read extends AnyForm, L extends PieceLine = PieceLine> {
  /** The form that the line stands for; nothing while it is being written or where it is at fault. */
  read(reading: FormReading<L>): Read | undefined;
  /** Why it cannot be made as written, each with the line that is at fault. */
  refusals?(line: LineReading<L>, piece: Shaped): readonly FormRefusal[];
}

/** By the id of the line: what is read is what that line can hold. */
export type Notations<Read extends AnyForm> = {
  readonly [Id in LineOfGroup<PieceLine, 'form'>['id']]?: Notation<Read, LineById<PieceLine, Id>>;
};

export interface FormRefusal {
  readonly line: LineReading;
  readonly why: string;
}

/** A rectangle that a form is, or rolls out to: where its edges lie as the measures say. Nothing wide where it closes on itself. */
export interface Square {
  readonly wide: number | undefined;
  readonly high: number;
}

/** A line along which a flat strip is folded, mm from its lower edge. */
export interface Fold {
  readonly at: number;
  readonly what: string;
}

/** How the flat of a form is drawn, once its blank is known. */
export type Layout =
  | { readonly kind: 'square'; readonly folds?: readonly Fold[] }
  /** Cut curved, as its line turns. */
  | { readonly kind: 'curved strip'; readonly wide: number }
  | { readonly kind: 'sector'; readonly top: number; readonly bottom: number; readonly wrap: number }
  /** With one rim; of a formed one a place keeps its share of the way to the crown. */
  | { readonly kind: 'round'; readonly long: number; readonly wide: number }
  | { readonly kind: 'rimmed'; readonly outer: Path; readonly openings: readonly Path[] }
  | { readonly kind: typeof LAID_FLAT };

/**
 * What a measure of the body is compared with: level sections of the full circle, whatever the wrap, at the middle of the thickness,
 * mm. Heights are those of the form's own frame.
 */
export interface Girths {
  /** Heights at which the form is given, lowest first: the first and the last are its ends. */
  readonly heights: readonly number[];
  /** Nothing where it has closed over, and beyond its ends. */
  at(height: number): SectionAt | undefined;
  /** Whether it goes round what it fits; a dome lies on it, unless that is a head. */
  readonly wraps: boolean;
  /** Whether it goes all the way round, by itself or with its other parts. */
  readonly closed: boolean;
  /** Whether it closes over at its top. */
  readonly tip: boolean;
}

/** The section at which a lame meets a form, and the way round it, mm. */
export interface Met {
  readonly section: Section;
  readonly girth: number;
}

/** A dome, or a part of one that is worked as the whole. */
export interface Domed {
  readonly long: number;
  readonly wide: number;
  readonly deep: number;
  /** Of the whole dome. */
  readonly share: 1 | 0.5;
}

/** An end of a form that is rolled to a radius. */
export interface Rolled {
  /** What its figure is called by after `roll-radius`, and in words. */
  readonly suffix: string;
  readonly title: string;
  readonly radius: number;
}

/** The wall that a flare is turned from: its radius at the edge, and how far it leans out there, degrees. */
export interface Wall {
  readonly radius: number;
  readonly taper: number;
}

/** The edge or line of another piece that a form follows. */
export interface Followed {
  readonly neighbour: Named;
  /** As it is written: `skull.rim`. */
  readonly along: string;
  /** How far in from it its own middle lies, mm. */
  readonly inset: number;
}

/** A strip that takes over the row of rivets from the edge that it follows. */
export interface Band {
  readonly along: string;
  /** Along its own middle. */
  readonly long: number;
  readonly wide: number;
  /** How far in from that edge its middle lies. */
  readonly inset: number;
  /** Which of its own edges lies nearer to that edge. */
  readonly outer: 'top' | 'bottom';
}

export interface BlankAsked {
  readonly edges: Edges;
  /** What forming makes of a round dome. */
  formedBy(): FormedBy | undefined;
  /** The line that a strip follows. */
  line(): SurfaceLine | undefined;
}

/** All that must be known of a kind of form. `Read` are the forms that its lines turn out to be, where that is not it alone. */
export interface FormKind<F extends AnyForm, Read extends AnyForm = F> {
  /** Lines that it, or one that turns out to be it, is written by. */
  readonly notations: Notations<Read>;
  /** Sections of a spec in which `piece example` has such a form, cut from `plate`. */
  readonly example: string;
  /** Flat all over. */
  readonly isFlat: boolean;
  /** A long narrow thing: one that is longer than a sheet is cut in parts. */
  readonly isBand: boolean;
  /** Whether it is only bent or rolled, so that the sheet keeps its thickness. */
  keepsThickness(form: F): boolean;

  /** Its edges by the names of the language. */
  edges(form: F): readonly string[];
  /** Those at which it meets itself or its other parts, whatever joins them. */
  seams(form: F): readonly string[];
  /** Whether an edge comes back to its beginning, so that it has no ends. */
  closes(form: F, edge: string): boolean;
  length(form: F, edge: string): Result | Measured;
  run(form: F, edge: string, piece: Shaped): EdgeRun | Measured | NotKnown;

  /** Area of the finished surface, mm². */
  area(form: F): Result | Measured | NotKnown;
  /** Where the middle of its area lies, mm in its own frame. */
  centre(form: F): Vector | Measured | None;
  /** The smooth surface at the middle of the thickness; nothing where it cannot be made or is not known yet. */
  chart(form: F, piece: Shaped): Chart | None | undefined;
  /** Why it cannot lie where it says; nothing where it can, or where its neighbour is at fault. */
  refusal(form: F, piece: Shaped): string | undefined;
  /** A neighbour whose surface it has. */
  liesOn(form: F): Named | None;
  follows(form: F): Followed | None;
  band(form: F): Band | None;

  girths(form: F): Girths | NotKnown | None;
  /** How far round it goes, degrees; a half is one of two that go all the way. */
  around(form: F): number | 'half' | None;
  /** The section at which a lame meets it. */
  meets(form: F): Met | None;
  domed(form: F): Domed | None;
  /** The tightest radius of its surface; straight where it has none. */
  tightestRadius(form: F): Result | NotKnown | None;
  rolls(form: F): readonly Rolled[];
  /** The wall behind an edge, for a flare with a formula. */
  wall(form: F, edge: string): Wall | None;

  /** The rectangle that it rolls out to. */
  square(form: F): Square | None;
  /** The finished outline of its own, anticlockwise, on which places are told. */
  outline(form: F): Path | None;
  /** What is cut for it, with what its edges need; nothing for one that cannot be. */
  readonly blank: LaidFlat | NotKnown | ((form: F, asked: BlankAsked) => WorkedBlank | undefined);
  layout(form: F): Layout | NotKnown;
  /** Figures that only such a form has. */
  addFigures(form: F, set: FigureSet, piece: Shaped): void;
}

/** Lines on a form that a thing can run along or be measured from, besides its edges. */
export const LINES: readonly string[] = ['front', 'back', 'side', 'middle', 'crown', 'centre'];

/** The edges of what is bent, rolled or laid on, and of what has one edge all round. */
export const SIDES: readonly string[] = ['top', 'bottom', 'left', 'right'];
/** Of a piece with four sides, the one across. */
export const OPPOSITE: Readonly<Record<string, string>> = {
  top: 'bottom',
  bottom: 'top',
  left: 'right',
  right: 'left',
};
export const RIM: readonly string[] = ['rim'];
/** What a form that is not read, or not computed yet, may have. */
export const ANY_EDGES: readonly string[] = [...SIDES, ...RIM];

export const isAbove = (value: number | undefined): value is number =>
  value !== undefined && value > 0 && Number.isFinite(value);
export const isWrap = (value: number | undefined): value is number => value !== undefined && value > 0 && value <= 360;

/** The depth of a form at the middle of the thickness. */
export function depthOf({ line, grow }: FormReading): number | undefined {
  const deep = line.length('deep', 'deep');
  return deep === undefined ? undefined : deep + grow / 2;
}

/** How far a form goes round: all the way, or as far as its neighbour, where it does not say. */
export const wrapOf = (line: LineReading, unsaid = 360): number | undefined =>
  line.has('wrap') ? line.measure('angle', 'wrap', 'wrap') : unsaid;

/** What a flat form, or one that is not curved by its own measures, answers for what only curved ones have. */
export const none = (): None => NONE;
export const notKnown = (): NotKnown => NOT_KNOWN;
export const measured = (): Measured => MEASURED;
export const nothing = (): undefined => undefined;
export const allRound = (): 360 => 360;
export const no = (): false => false;
export const yes = (): true => true;
export const noEdges = (): readonly string[] => [];
export const noRolls = (): readonly Rolled[] => [];
