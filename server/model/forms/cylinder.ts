import { loftChart } from '../../geometry/surface/loft.ts';
import { sectionOf } from '../../geometry/surface/section.ts';
import { arcOfGirth } from '../../trade/blank/plane-shapes.ts';
import { cylinderBlank } from '../../trade/blank/wrap.ts';
import { coneTightestRadius } from '../../trade/dome/curvature.ts';
import { given } from '../../trade/reckoning/readings.ts';
import { MEASURED, NONE, NOT_KNOWN } from './answers.ts';
import { rectangleBlank } from './blank.ts';
import { circularRun, straightRun } from './edge-run.ts';
import { type FormKind, isAbove, isWrap, measured, no, none, nothing, SIDES, wrapOf, yes } from './form.ts';
import { addLameGirth } from './lame.ts';
import {
  type Cone,
  type Cylinder,
  type Loft,
  levelsOfTube,
  ovalRefusals,
  readOvalTube,
  seamsOfWrap,
  tubeGirths,
} from './tube.ts';

export const cylinder: FormKind<Cylinder, Loft | Cone | Cylinder> = {
  notations: {
    cylinder: {
      read({ line, grow }) {
        const girth = line.length('girth');
        const high = line.length('high', 'high');
        const wrap = wrapOf(line);
        if (line.has('long')) return readOvalTube(line, { bottom: girth, top: girth, high, wrap, grow });
        return isAbove(girth) && isAbove(high) && isWrap(wrap)
          ? { kind: 'cylinder', line, girth: girth + Math.PI * grow, high, wrap }
          : undefined;
      },
      refusals: ovalRefusals,
    },
  },
  example: 'piece example\n  from plate\n  cylinder round 300 mm, high 120 mm, wrap 250 deg\n',
  isFlat: false,
  isBand: false,
  keepsThickness: yes,

  edges: () => SIDES,
  seams: ({ wrap }) => seamsOfWrap(wrap),
  closes: no,
  length({ girth, wrap, high }, edge) {
    if (edge === 'top' || edge === 'bottom') return arcOfGirth(girth, wrap);
    return edge === 'left' || edge === 'right' ? given(high, 'L', 'Height of the piece') : MEASURED;
  },
  run({ girth, wrap }, edge) {
    if (edge === 'top' || edge === 'bottom') return circularRun(girth / (2 * Math.PI), wrap);
    return edge === 'left' || edge === 'right' ? straightRun : NOT_KNOWN;
  },

  area: (form) => cylinderBlank(form).area,
  centre: measured,
  chart: (form) => loftChart(levelsOfTube(form)),
  refusal: nothing,
  liesOn: none,
  follows: none,
  band: none,

  around: ({ wrap }) => wrap,
  girths: (form) => tubeGirths(levelsOfTube(form)),
  meets({ girth }) {
    const section = sectionOf({ high: 0, round: girth });
    return typeof section === 'string' ? NONE : { section, girth };
  },
  domed: none,
  tightestRadius: ({ girth, high }) => coneTightestRadius({ top: girth, bottom: girth, high }),
  rolls: ({ girth }) => [{ suffix: '', title: 'inside radius to roll to', radius: girth / (2 * Math.PI) }],
  wall: ({ girth }, edge) => (edge === 'top' || edge === 'bottom' ? { radius: girth / (2 * Math.PI), taper: 0 } : NONE),

  square: ({ girth, wrap, high }) => ({ wide: wrap < 360 ? (girth * wrap) / 360 : undefined, high }),
  outline: none,
  blank({ girth, high, wrap }, { edges }) {
    const flat = cylinderBlank({ girth, high, wrap });
    if (flat.long.outside !== undefined) return undefined;
    return rectangleBlank(flat.long.value, high, edges, 'Girth and wrap, height, and what the edges need', flat.long);
  },
  layout: () => ({ kind: 'square' }),
  addFigures(form, set, piece) {
    if (form.neighbour) addLameGirth(form.neighbour, form.line, set, piece);
  },
};
