import type { PieceLine } from '../../../grammar/typed-line.ts';
import { endsInTip, type LoftShape, loftChart, loftRefusals, lowestSection } from '../../geometry/surface/loft.ts';
import { girthOf, type Level, type Section, sectionOf } from '../../geometry/surface/section.ts';
import type { LineReading } from '../names/line-reading.ts';
import type { Named } from '../names/spec-file.ts';
import type { Cone } from './cone.ts';
import type { Cylinder } from './cylinder.ts';
import {
  type FormKind,
  type FormOf,
  type FormRefusal,
  isAbove,
  isWrap,
  LAID_FLAT,
  measured,
  NONE,
  NOT_KNOWN,
  no,
  none,
  noRolls,
  nothing,
  notKnown,
  type Shaped,
  SIDES,
} from './form.ts';
import { addLameGirth } from './lame.ts';

/** A form by its levels; an oval cylinder or cone, and a lame under one of these, have two. */
export interface Loft extends FormOf<'loft'> {
  readonly shape: LoftShape;
  /** Of a lame: what it lies on. */
  readonly neighbour?: Named;
}

export const loft: FormKind<Loft> = {
  notations: {
    form: {
      read({ line, piece }) {
        const levels = piece.levels();
        const wrap = line.word('half') ? 'half' : line.measure('angle', 'wrap');
        if (!levels || wrap === undefined || refusalsOf(line, piece).length) return undefined;
        return formOf(line, { levels: levels.map(({ level }) => level), wrap });
      },
      refusals: refusalsOf,
    },
  },
  example:
    'piece example\n  from plate\n  form wrap 190 deg\n  at 0 mm, round 973 mm, long 340 mm\n  at 260 mm, round 1123 mm, long 390 mm, deep 160 mm\n  dish\n',
  isFlat: false,
  isBand: false,
  /** Two sections of one shape are a true cone, whose elements stay straight. */
  keepsThickness({ shape: { levels } }) {
    const [low, up] = levels.map((level) => sectionOf(level));
    if (levels.length !== 2 || typeof low !== 'object' || typeof up !== 'object') return false;
    const share = up.wide / low.wide;
    return (['front', 'back'] as const).every((way) => Math.abs(up[way] / low[way] / share - 1) < 1e-6);
  },

  edges: ({ shape }) => (endsInTip(shape) ? OPEN_BELOW : SIDES),
  // Half a form meets the other half at both; one that goes all round meets itself at the back.
  seams: ({ shape: { wrap } }) => (wrap === 'half' ? MEETING : seamsOfWrap(wrap)),
  closes: no,
  length: measured,
  run: measured,

  area: measured,
  centre: measured,
  chart: ({ shape }) => loftChart(shape),
  refusal: nothing,
  liesOn: none,
  follows: none,
  band: none,

  girths({ shape }) {
    const sections = shape.levels.flatMap((level) => sectionIn(level) ?? []);
    const girths = sections.map(girthOf);
    const widest = Math.max(...girths);
    const at = sections[girths.indexOf(widest)];
    if (!at) return NOT_KNOWN;
    const lowest = lowestSection(shape);
    return {
      widest,
      // One that closes over at its top is gone into from below.
      narrowest: endsInTip(shape) && lowest ? girthOf(lowest) : Math.min(...girths),
      long: at.front + at.back,
      wide: 2 * at.wide,
      wraps: true,
      closed: shape.wrap === 'half' || shape.wrap >= 360,
    };
  },
  meets({ shape }) {
    const section = lowestSection(shape);
    return section ? { section, girth: girthOf(section) } : NONE;
  },
  domed: none,
  tightestRadius: notKnown,
  rolls: noRolls,
  wall: none,

  square: none,
  outline: none,
  blank: LAID_FLAT,
  layout: () => ({ kind: LAID_FLAT }),
  addFigures(form, set, piece) {
    if (form.neighbour) addLameGirth(form.neighbour, form.line, set, piece);
  },
};

const OPEN_BELOW = SIDES.filter((edge) => edge !== 'top');
const MEETING: readonly string[] = ['left', 'right'];
const NOT_MEETING: readonly string[] = [];

/** What goes all round meets itself at the back. */
export const seamsOfWrap = (wrap: number): readonly string[] => (wrap >= 360 ? MEETING : NOT_MEETING);

/** The section of a level; nothing for a tip. */
function sectionIn(level: Level): Section | undefined {
  const section = sectionOf(level);
  return typeof section === 'string' ? undefined : section;
}

// ---- what levels turn out to be ------------------------------------------------------------------------------------

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

// ---- reading -------------------------------------------------------------------------------------------------------

/** The levels of a form with their lines; nothing while one of them is being written. */
export function levelsOf(piece: Shaped): readonly { readonly line: LineReading; readonly level: Level }[] | undefined {
  const grow = piece.grow();
  if (grow === undefined) return undefined;
  const all = piece
    .lines()
    .flatMap((line) => (line.line.word?.group === 'level' ? [{ line, level: levelOf(line, grow) }] : []));
  return all.every((each): each is { line: LineReading<PieceLine>; level: Level } => each.level !== undefined)
    ? all
    : undefined;
}

/** What may follow the height of a level, and the slot that it has. */
const LEVEL_MEASURES = [
  ['round', 'girth'],
  ['long', 'long'],
  ['wide', 'wide'],
  ['deep', 'deep'],
  ['offset', 'offset'],
] as const;

/** The level that a line gives; nothing while it is being written. `grow` is what a diameter gains to the middle. */
export function levelOf(line: LineReading, grow: number): Level | undefined {
  const high = line.length('height');
  if (high === undefined) return undefined;
  const grown = (
    qualifier: (typeof LEVEL_MEASURES)[number][0],
    slot: (typeof LEVEL_MEASURES)[number][1],
    by: number,
  ) => {
    const value = line.length(slot, qualifier);
    return value === undefined ? undefined : value + by;
  };
  const offset = line.length('offset', 'offset');
  // A qualifier that is still without its measure says nothing yet, and another shape would be guessed.
  for (const [qualifier, slot] of LEVEL_MEASURES)
    if (line.has(qualifier) && line.length(slot, qualifier) === undefined) return undefined;
  return {
    high,
    round: grown('round', 'girth', Math.PI * grow),
    long: grown('long', 'long', grow),
    wide: grown('wide', 'wide', grow),
    deep: grown('deep', 'deep', grow / 2),
    ...(offset === undefined ? {} : { offset: line.word('back', 'offset') ? -offset : offset }),
    ridge: line.has('ridge'),
    ...(line.has('point') ? { ends: 'point' as const } : line.has('flat') ? { ends: 'flat' as const } : {}),
  };
}

function refusalsOf(line: LineReading, piece: Shaped): readonly FormRefusal[] {
  const levels = piece.levels();
  const wrap = line.word('half') ? 'half' : line.measure('angle', 'wrap');
  // One level is a form that is being written: the reader says that more are wanted.
  if (!levels || levels.length < 2 || wrap === undefined) return [];
  return loftRefusals({ levels: levels.map(({ level }) => level), wrap }).map(({ level, why }) => ({
    line: level === undefined ? line : levels[level]!.line,
    why,
  }));
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
