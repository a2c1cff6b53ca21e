import { domeChart } from '../../geometry/surface/dome.ts';
import { ellipsePerimeter } from '../../trade/blank/plane-shapes.ts';
import { domeTightestRadius } from '../../trade/dome/curvature.ts';
import { ovalDomeArea, ovalDomeBlankArc } from '../../trade/dome/dome.ts';
import { LAID_FLAT, MEASURED, NOT_KNOWN } from './answers.ts';
import { acrossDome, type Dome, domeGirths } from './dome.ts';
import { ovalRun } from './edge-run.ts';
import {
  allRound,
  depthOf,
  type FormKind,
  type FormOf,
  isAbove,
  measured,
  no,
  noEdges,
  none,
  noRolls,
  nothing,
  RIM,
} from './form.ts';

/** A dome that is stretched along its long axis, front to back. One of equal axes is a dome. */
export interface OvalDome extends FormOf<'oval dome'> {
  readonly long: number;
  readonly wide: number;
  readonly deep: number;
}

export const ovalDome: FormKind<OvalDome, OvalDome | Dome> = {
  notations: {
    'oval dome': {
      read(reading) {
        const { line, grow } = reading;
        const size = line.size('size');
        const deep = depthOf(reading);
        if (!size || !isAbove(deep)) return undefined;
        const [long, wide] = [size[0] + grow, size[1] + grow];
        return long === wide
          ? { kind: 'dome', line, diameter: long, deep }
          : { kind: 'oval dome', line, long, wide, deep };
      },
    },
  },
  example: 'piece example\n  from plate\n  oval dome 235 x 195 mm, deep 60 mm\n  dish\n',
  isFlat: false,
  isBand: false,
  keepsThickness: no,

  edges: () => RIM,
  seams: noEdges,
  closes: (_, edge) => edge === 'rim',
  length({ long, wide, deep }, edge) {
    if (edge === 'rim') return ellipsePerimeter(long, wide);
    return edge === 'middle' ? ovalDomeBlankArc(long, wide, deep).long : MEASURED;
  },
  run: ({ long, wide }, edge) =>
    edge === 'rim' ? ovalRun(long, wide, 'whole') : edge === 'middle' ? MEASURED : NOT_KNOWN,

  area: ({ long, wide, deep }) => ovalDomeArea(long, wide, deep),
  centre: measured,
  chart: (form) => domeChart(form),
  refusal: nothing,
  liesOn: none,
  follows: none,
  band: none,

  around: allRound,
  girths: domeGirths,
  meets: acrossDome,
  domed: ({ long, wide, deep }) => ({ long, wide, deep, share: 1 }),
  tightestRadius: ({ long, wide, deep }) => domeTightestRadius(long, wide, deep),
  rolls: noRolls,
  wall: none,

  square: none,
  outline: none,
  blank: LAID_FLAT,
  layout: () => ({ kind: LAID_FLAT }),
  addFigures: nothing,
};
