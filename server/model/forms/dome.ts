import { inARow } from '../../../l10n/say.ts';
import { domeAxesAt, domeChart } from '../../geometry/surface/dome.ts';
import { girthOf, sectionOf } from '../../geometry/surface/section.ts';
import { grownFrom } from '../../trade/blank/grown.ts';
import { circleArea, circlePerimeter } from '../../trade/blank/plane-shapes.ts';
import { domeTightestRadius } from '../../trade/dome/curvature.ts';
import {
  domeArea,
  domeBlankArc,
  domeBlankEqualArea,
  domeBlankHeld,
  domeMeridian,
  overTheCrown,
} from '../../trade/dome/dome.ts';
import { CUT_TO_PROFILE } from '../../trade/dome/ways.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { MEASURED, NONE, NOT_KNOWN } from './answers.ts';
import { type BlankFigure, made, neededFigures, neededOf } from './blank.ts';
import { circularRun } from './edge-run.ts';
import {
  allRound,
  type Domed,
  depthOf,
  type FormKind,
  type FormOf,
  type Girths,
  isAbove,
  type Met,
  no,
  noEdges,
  none,
  noRolls,
  nothing,
  RIM,
} from './form.ts';

/** A round dome, by its rim and its depth. */
export interface Dome extends FormOf<'dome'> {
  readonly diameter: number;
  readonly deep: number;
}

export const dome: FormKind<Dome> = {
  notations: {
    dome: {
      read(reading) {
        const { line, grow } = reading;
        const diameter = line.length('diameter');
        const deep = depthOf(reading);
        return isAbove(diameter) && isAbove(deep) ? { kind: 'dome', line, diameter: diameter + grow, deep } : undefined;
      },
    },
  },
  example: 'piece example\n  from plate\n  dome 210 mm, deep 60 mm\n  dish\n',
  isFlat: false,
  isBand: false,
  keepsThickness: no,

  edges: () => RIM,
  seams: noEdges,
  closes: (_, edge) => edge === 'rim',
  length({ diameter, deep }, edge) {
    if (edge === 'rim') return circlePerimeter(diameter);
    return edge === 'middle' ? overTheCrown(diameter, deep) : MEASURED;
  },
  run: ({ diameter }, edge) =>
    edge === 'rim' ? circularRun(diameter / 2, 360) : edge === 'middle' ? MEASURED : NOT_KNOWN,

  area: ({ diameter, deep }) => domeArea(diameter, deep),
  // A cap of a sphere has its middle half way up (Archimedes): no need to sum it.
  centre: ({ diameter, deep }) => (deep <= diameter / 2 ? [0, 0, deep / 2] : MEASURED),
  chart: ({ diameter, deep }) => domeChart({ long: diameter, wide: diameter, deep }),
  refusal: nothing,
  liesOn: none,
  follows: none,
  band: none,

  around: allRound,
  girths: ({ diameter, deep }) => domeGirths({ long: diameter, wide: diameter, deep }),
  meets: ({ diameter, deep }) => acrossDome({ long: diameter, wide: diameter, deep }),
  domed: ({ diameter, deep }) => ({ long: diameter, wide: diameter, deep, share: 1 }),
  tightestRadius: ({ diameter, deep }) => domeTightestRadius(diameter, diameter, deep),
  rolls: noRolls,
  wall: none,

  square: none,
  outline: none,
  blank({ diameter, deep }, { edges, formedBy }) {
    const formed = formedBy();
    if (!formed) return undefined;
    const { bracket, value } = formed;
    const arc = () => domeBlankArc(diameter, deep);
    const brackets = (): BlankFigure[] => [
      { suffix: 'held', title: 'blank if the rim is held', result: domeBlankHeld(diameter, deep) },
      { suffix: 'equal-area', title: 'blank of equal area', result: domeBlankEqualArea(diameter, deep) },
      { suffix: 'arc', title: 'blank of the arc', result: arc() },
    ];
    const rim = 2 * edges.sum('rim');
    const needs = value.long + rim;
    const disc = circleArea(needs);
    const parts = edges.of('rim');
    const needed = neededOf(
      formed,
      { long: needs, wide: needs, area: disc.value },
      { long: rim, wide: rim, area: disc.value - value.area },
    );
    const size = needed.result('long', 'mm', parts);
    const asDisc = (figure: Result): Result => ({
      ...circleArea(figure.value),
      ...(figure.low === undefined || figure.high === undefined
        ? {}
        : { low: circleArea(figure.low).value, high: circleArea(figure.high).value }),
    });
    const toCut = bracket.cutsToProfile ? grownFrom(toProfile(arc()), parts, 2) : size;
    const more = () => (bracket.cutsToProfile ? neededFigures([size, size, asDisc(size)]) : []);
    const diameterToCut = { suffix: 'diameter', title: 'blank diameter', result: toCut };
    return {
      ...made({ kind: 'round' }, toCut, toCut, asDisc(toCut), edges, () => [...brackets(), diameterToCut, ...more()]),
      ...needed.bounds,
      needed: { long: needs, wide: needs, area: disc.value },
    };
  },
  layout: ({ diameter }) => ({ kind: 'round', long: diameter, wide: diameter }),
  addFigures({ diameter, deep, line }, set, piece) {
    if (piece.isLaidFlat()) return;
    set.add('meridian', 'rim to crown along the surface', domeMeridian(diameter, deep), line.place, []);
  },
};

const toProfile = (arc: Result): Result => ({
  ...arc,
  basis: 'published',
  source: CUT_TO_PROFILE,
  note: inARow(TRIMMED, arc.note),
});

const TRIMMED = 'What the form needs of it is told beside it; the rest is trimmed off level.';

/** A dome goes round a head and lies on everything else. */
export const domeGirths = (shape: Omit<Domed, 'share'>): Girths => ({
  heights: [0, shape.deep],
  at(height) {
    const axes = domeAxesAt(shape, height);
    return axes && { section: { ...OVAL, wide: axes.wide, front: axes.long, back: axes.long }, offset: 0 };
  },
  wraps: false,
  closed: true,
  tip: true,
});
const OVAL = { power: 2, ridge: 0 } as const;

/**
 * A dome is met as a cop is on its joint, so that a lame has the dome's curve across: the circle of a shallow one, the
 * oval of a deeper one.
 */
export function acrossDome({ long, wide, deep }: Omit<Domed, 'share'>): Met | typeof NONE {
  const half = Math.min(long, wide) / 2;
  const section =
    deep > half
      ? sectionOf({ high: 0, long: 2 * deep, wide: 2 * half })
      : sectionOf({ high: 0, round: Math.PI * (half * (half / deep) + deep) });
  return typeof section === 'string' ? NONE : { section, girth: girthOf(section) };
}
