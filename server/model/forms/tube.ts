import { endsInTip, type LoftShape, loftRefusals, loftSections } from '../../geometry/surface/loft.ts';
import { type Level, type Section, sectionOf } from '../../geometry/surface/section.ts';
import type { LineReading } from '../names/line-reading.ts';
import type { Named } from '../names/spec-file.ts';
import { NOT_KNOWN, type NotKnown } from './answers.ts';
import { type FormOf, type FormRefusal, type Girths, isAbove, isWrap } from './form.ts';

/* Tubes and parts of them: what a cylinder, a cone and a form by levels are, each of which may turn out to be another of them. */

/** Bent round an axis, the same girth all the way. Every form that turns out to be one is read as one, whatever its line. */
export interface Cylinder extends FormOf<'cylinder'> {
  /** Of the full circle. */
  readonly girth: number;
  readonly high: number;
  readonly wrap: number;
  /** Height of its lower edge, where its line counts heights from elsewhere. */
  readonly base?: number;
  /** Of a lame: what it lies on. */
  readonly neighbour?: Named;
}

/** Bent round an axis, from one girth to another. One of equal ends is a cylinder. */
export interface Cone extends FormOf<'cone'> {
  readonly top: number;
  readonly bottom: number;
  readonly high: number;
  readonly wrap: number;
  /** Height of its lower edge, where its line counts heights from elsewhere. */
  readonly base?: number;
}

/** A form by its levels; an oval cylinder or cone, and a lame under one of these, have two. */
export interface Loft extends FormOf<'loft'> {
  readonly shape: LoftShape;
  /** Of a lame: what it lies on. */
  readonly neighbour?: Named;
}

/** The sides, where the two meet each other or those of another half. */
export const MEETING: readonly string[] = ['left', 'right'];
const NOT_MEETING: readonly string[] = [];

/** What goes all round meets itself at the back. */
export const seamsOfWrap = (wrap: number): readonly string[] => (wrap >= 360 ? MEETING : NOT_MEETING);

/** The section of a level; nothing for a tip. */
function sectionIn(level: Level): Section | undefined {
  const section = sectionOf(level);
  return typeof section === 'string' ? undefined : section;
}

/** What a body is compared with: of whatever is bent round it. */
export function tubeGirths(shape: LoftShape): Girths | NotKnown {
  const sections = loftSections(shape);
  if (!sections) return NOT_KNOWN;
  const closed = shape.wrap === 'half' || shape.wrap >= 360;
  return { ...sections, wraps: true, closed, tip: endsInTip(shape) };
}

/** A cylinder or a cone as what it is bent from: two levels. */
export const levelsOfTube = (form: Cone | Cylinder): LoftShape => {
  const { base = 0, high, wrap } = form;
  const [bottom, top] = form.kind === 'cone' ? [form.bottom, form.top] : [form.girth, form.girth];
  return {
    levels: [
      { high: base, round: bottom },
      { high: base + high, round: top },
    ],
    wrap,
  };
};

/** As near as rounding leaves them. */
const same = (a: number, b: number) => Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b));

/** A cone, or the cylinder that one of equal ends is. */
export const coneOf = (line: LineReading, { top, bottom, ...rest }: Omit<Cone, 'kind' | 'line'>): Cone | Cylinder =>
  same(top, bottom) ? { kind: 'cylinder', line, girth: bottom, ...rest } : { kind: 'cone', line, top, bottom, ...rest };

/** The form of these levels: the cylinder or the cone that round ones in one line are, so that it is the same however it is written. */
export function formOf(line: LineReading, shape: LoftShape): Loft | Cone | Cylinder {
  const { wrap } = shape;
  const levels = [...shape.levels].sort((a, b) => a.high - b.high);
  // Still being written.
  if (levels.length < 2) return { kind: 'loft', line, shape };
  const girths = levels.map(circleOf);
  const [low, up] = [levels[0]!, levels.at(-1)!];
  const [bottom, top] = [girths[0], girths.at(-1)];
  const rises = up.high - low.high;
  const isStraight =
    wrap !== 'half' &&
    bottom !== undefined &&
    top !== undefined &&
    levels.every((level, i) => {
      const girth = girths[i];
      return girth !== undefined && same(girth, bottom + ((top - bottom) * (level.high - low.high)) / rises);
    });
  if (!isStraight) return { kind: 'loft', line, shape };
  return coneOf(line, { top, bottom, high: rises, wrap, ...(low.high === 0 ? {} : { base: low.high }) });
}

/** The girth of a level that is a circle about the axis. */
function circleOf(level: Level): number | undefined {
  if (level.ends !== undefined || level.offset || level.section) return undefined;
  const section = sectionIn(level);
  if (section?.ridge !== 0 || section.power !== 2) return undefined;
  const { wide, front, back } = section;
  return same(wide, front) && same(wide, back) ? (level.round ?? 2 * Math.PI * wide) : undefined;
}

/** An oval cylinder or cone. The length is that of the larger end; the other keeps its proportions. */
export function readOvalTube(
  line: LineReading,
  {
    bottom,
    top,
    high,
    wrap,
    grow,
  }: {
    readonly bottom: number | undefined;
    readonly top: number | undefined;
    readonly high: number | undefined;
    readonly wrap: number | undefined;
    readonly grow: number;
  },
): Loft | Cone | Cylinder | undefined {
  const long = line.length('long', 'long');
  if (!isAbove(bottom) || !isAbove(top) || !isAbove(high) || !isAbove(long) || !isWrap(wrap)) return undefined;
  const [low, up] = [bottom + Math.PI * grow, top + Math.PI * grow];
  const share = (long + grow) / Math.max(low, up);
  const levels = [
    { high: 0, round: low, long: share * low },
    { high, round: up, long: share * up },
  ];
  return loftRefusals({ levels, wrap }).length ? undefined : formOf(line, { levels, wrap });
}

/** Why no oval is so long and goes so far round. */
export function ovalRefusals(line: LineReading): readonly FormRefusal[] {
  const girths = (['girth', 'top', 'bottom'] as const).flatMap((slot) => line.length(slot) ?? []);
  const long = line.length('long', 'long');
  if (!girths.length || !isAbove(long)) return [];
  const why = sectionOf({ high: 0, round: Math.max(...girths), long });
  return typeof why === 'string' ? [{ line, why }] : [];
}
