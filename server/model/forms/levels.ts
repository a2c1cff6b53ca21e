import type { PieceLine } from '../../../grammar/typed-line.ts';
import { endsInTip, loftChart, loftRefusals, lowestSection } from '../../geometry/surface/loft.ts';
import { girthOf, type Level, sectionOf } from '../../geometry/surface/section.ts';
import type { LineReading } from '../names/line-reading.ts';
import { LAID_FLAT, NONE } from './answers.ts';
import {
  type FormKind,
  type FormRefusal,
  measured,
  no,
  none,
  noRolls,
  nothing,
  notKnown,
  type Shaped,
  SIDES,
} from './form.ts';
import { addLameGirth } from './lame.ts';
import { type Cone, type Cylinder, formOf, type Loft, MEETING, seamsOfWrap, tubeGirths } from './tube.ts';

export const loft: FormKind<Loft, Loft | Cone | Cylinder> = {
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

  around: ({ shape: { wrap } }) => wrap,
  girths: ({ shape }) => tubeGirths(shape),
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
function levelOf(line: LineReading, grow: number): Level | undefined {
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
