import { say } from '../../../l10n/say.ts';
import type { Extent } from '../../geometry/surface/cover.ts';
import { grownSection, type Level, type Section } from '../../geometry/surface/section.ts';
import { enlargedGirth, reducedGirth } from '../../trade/fit/clearance.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import type { LineReading } from '../names/line-reading.ts';
import type { Named } from '../names/spec-file.ts';
import type { FigureSet } from '../values/figure-set.ts';
import { NONE } from './answers.ts';
import { type FormOf, type FormReading, isAbove, isWrap, type Shaped, wrapOf } from './form.ts';
import type { Later } from './later.ts';
import type { Cylinder, Loft } from './tube.ts';

/* A plate that lies on another: a lame has the section of its neighbour's lower edge, another plate a part of its surface. */

/** A plate on a part of its neighbour, `apart` outside the middle of that one's thickness, or inside below nought. */
export interface Cover extends FormOf<'cover'> {
  readonly neighbour: Named;
  readonly apart: number;
  readonly extent: Extent & { readonly wrap?: number };
}

/** The form of a `lies` line: a cylinder or two levels for a lame, else a part of the neighbour's surface. */
export function readLying({ line, piece }: FormReading): Cover | Cylinder | Loft | Later | undefined {
  const lying = lyingOn(line, piece);
  if (!lying?.neighbour.form()) return undefined;
  const { named, apart } = lying;
  if (line.has('from') || line.has('long')) {
    const extent = extentOf(line);
    return extent && ({ kind: 'cover', line, neighbour: named, apart, extent } satisfies Cover);
  }
  const met = lying.neighbour.meetingSection();
  if (!met) return undefined;
  if (met === NONE) return { kind: 'later', line };
  const { section } = met;
  const girth = piece.lameGirth()?.value;
  const high = line.length('high', 'high');
  const around = lying.neighbour.around();
  const wrap = wrapOf(line, typeof around === 'number' ? around : undefined);
  if (!isAbove(girth) || !isAbove(high) || !isWrap(wrap)) return undefined;
  if (isCircle(section)) return { kind: 'cylinder', line, girth, high, wrap, neighbour: named };
  const own = grownSection(section, apart);
  const levels = [0, high].map((at): Level => ({ high: at, ...(own ? { section: own } : {}) }));
  return own && { kind: 'loft', line, shape: { levels, wrap }, neighbour: named };
}

/** Girth of a lame at the middle of its thickness; nothing for another piece. */
export function lameGirthOf(line: LineReading | undefined, piece: Shaped): Result | undefined {
  const lying = line?.id === 'lies' ? lyingOn(line, piece) : undefined;
  const met = lying?.neighbour.meetingSection();
  if (!lying || !met || met === NONE) return undefined;
  const { apart } = lying;
  const { girth } = met;
  const found = apart > 0 ? enlargedGirth({ girth, gap: apart }) : reducedGirth({ girth, gap: -apart });
  return {
    ...found,
    note: say`From the girth of ${lying.neighbour.name}; the distance is both half thicknesses and the gap between the plates.`,
  };
}

export function addLameGirth(neighbour: Named, line: LineReading, set: FigureSet, piece: Shaped): void {
  const girth = piece.lameGirth();
  if (girth)
    set.add('girth', 'girth at the middle of the thickness', girth, line.place, [`${neighbour.word.text}.girth`]);
}

const isCircle = ({ front, back, wide, ridge }: Section) => front === wide && back === wide && ridge === 0;

interface Lying {
  readonly named: Named;
  readonly neighbour: Shaped;
  /** Between the middles of both plates: both half thicknesses and the gap; below nought under it, mm. */
  readonly apart: number;
}

function lyingOn(line: LineReading, piece: Shaped): Lying | undefined {
  const named = line.named('neighbour');
  const neighbour = named?.kind === 'piece' ? piece.pieceNamed(named) : undefined;
  if (!named || !neighbour || neighbour === piece) return undefined;
  const [own, other] = [piece.thickness(), neighbour.thickness()];
  if (own === undefined || other === undefined) return undefined;
  const gap = Math.max(0, line.length('gap', 'gap') ?? 0) + (own + other) / 2;
  return { named, neighbour, apart: line.word('over') ? gap : -gap };
}

/** Which part of its neighbour a plate lies on; nothing while it is being written. */
function extentOf(line: LineReading): Cover['extent'] | undefined {
  if (line.has('from')) {
    const edge = line.text('edge', 'from');
    const wide = line.length('to', 'from');
    const wrap = line.has('wrap') ? wrapOf(line) : undefined;
    if (!isAbove(wide) || (line.has('wrap') && !isWrap(wrap))) return undefined;
    const round = wrap === undefined ? {} : { wrap };
    if (edge === 'top') return { from: 'top', wide, ...round };
    return edge === 'bottom' || edge === 'rim' ? { from: 'bottom', wide, ...round } : undefined;
  }
  const [long, wide] = [line.length('long', 'long'), line.length('wide', 'wide')];
  return isAbove(long) && isAbove(wide) ? { long, wide } : undefined;
}
