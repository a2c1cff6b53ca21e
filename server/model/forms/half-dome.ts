import { widthOfOval } from '../../geometry/ellipse.ts';
import { domeChart } from '../../geometry/surface/dome.ts';
import { ellipsePerimeter } from '../../trade/blank/plane-shapes.ts';
import { domeTightestRadius } from '../../trade/dome/curvature.ts';
import { ovalDomeArea, ovalDomeBlankArc } from '../../trade/dome/dome.ts';
import { halfOf } from '../../trade/reckoning/readings.ts';
import { LAID_FLAT, MEASURED, NOT_KNOWN } from './answers.ts';
import { acrossDome, domeGirths } from './dome.ts';
import { ovalRun } from './edge-run.ts';
import { depthOf, type FormKind, type FormOf, isAbove, measured, no, none, noRolls, nothing } from './form.ts';

/** The left half of a dome that is split lengthwise; measures are those of the whole. */
export interface HalfDome extends FormOf<'half dome'> {
  readonly long: number;
  readonly wide: number;
  readonly deep: number;
}

const EDGES = ['rim', 'middle'];
const SEAM = ['middle'];

export const halfDome: FormKind<HalfDome> = {
  notations: {
    'half dome': {
      read(reading) {
        const { line, grow } = reading;
        const deep = depthOf(reading);
        if (!isAbove(deep)) return undefined;
        const size = line.size('size');
        if (size) return { kind: 'half dome', line, long: size[0] + grow, wide: size[1] + grow, deep };
        const girth = line.length('girth');
        const long = line.length('long', 'long');
        if (!isAbove(girth) || !isAbove(long)) return undefined;
        const wide = widthOfOval(girth + Math.PI * grow, long + grow);
        return wide === undefined ? undefined : { kind: 'half dome', line, long: long + grow, wide, deep };
      },
    },
  },
  example: 'piece example\n  from plate\n  half dome 248 x 204 mm, deep 90 mm\n  dish\n',
  isFlat: false,
  isBand: false,
  keepsThickness: no,

  edges: () => EDGES,
  seams: () => SEAM,
  closes: no,
  length({ long, wide, deep }, edge) {
    if (edge === 'rim') return halfOf(ellipsePerimeter(long, wide));
    return edge === 'middle' ? ovalDomeBlankArc(long, wide, deep).long : MEASURED;
  },
  run: ({ long, wide }, edge) =>
    edge === 'rim' ? ovalRun(long, wide, 'half') : edge === 'middle' ? MEASURED : NOT_KNOWN,

  area: ({ long, wide, deep }) => halfOf(ovalDomeArea(long, wide, deep)),
  centre: measured,
  chart: (form) => domeChart(form, 'half'),
  refusal: nothing,
  liesOn: none,
  follows: none,
  band: none,

  around: () => 'half',
  girths: domeGirths,
  meets: acrossDome,
  domed: ({ long, wide, deep }) => ({ long, wide, deep, share: 0.5 }),
  tightestRadius: ({ long, wide, deep }) => domeTightestRadius(long, wide, deep),
  rolls: noRolls,
  wall: none,

  square: none,
  outline: none,
  blank: LAID_FLAT,
  layout: () => ({ kind: LAID_FLAT }),
  addFigures: nothing,
};
