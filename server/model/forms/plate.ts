import type { LineById, PieceLine } from '../../../grammar/typed-line.ts';
import { plateChart } from '../../geometry/surface/plate.ts';
import { plateArea } from '../../trade/blank/plane-shapes.ts';
import { given } from '../../trade/reckoning/readings.ts';
import type { LineReading } from '../names/line-reading.ts';
import { MEASURED, NOT_KNOWN } from './answers.ts';
import { rectangleBlank } from './blank.ts';
import { straightRun } from './edge-run.ts';
import { type FormKind, type FormOf, type Notations, no, noEdges, none, noRolls, nothing, SIDES, yes } from './form.ts';

/** A flat rectangle, wide by high. */
export interface Plate extends FormOf<'plate'> {
  readonly wide: number;
  readonly high: number;
}

/** The same, long and narrow. */
export interface Strip extends FormOf<'strip'> {
  readonly wide: number;
  readonly high: number;
}

function measuresOf(line: LineReading<LineById<PieceLine, 'plate' | 'strip'>>) {
  const size = line.size('size');
  return size && { line, wide: size[0], high: size[1] };
}

const ofKind = <F extends Plate | Strip>(kind: F['kind'], notations: Notations<F>, example: string): FormKind<F> => ({
  notations,
  example,
  isFlat: true,
  isBand: kind === 'strip',
  keepsThickness: yes,

  edges: () => SIDES,
  seams: noEdges,
  closes: no,
  length({ wide, high }, edge) {
    if (edge === 'top' || edge === 'bottom') return given(wide, 'L', 'Width of the plate');
    return edge === 'left' || edge === 'right' ? given(high, 'L', 'Height of the plate') : MEASURED;
  },
  run: (_, edge) => (SIDES.includes(edge) ? straightRun : NOT_KNOWN),

  area: ({ wide, high }) => plateArea(wide, high),
  centre: none,
  chart: ({ wide, high }) => plateChart(wide, high),
  refusal: nothing,
  liesOn: none,
  follows: none,
  band: none,

  around: none,
  girths: none,
  meets: none,
  domed: none,
  tightestRadius: none,
  rolls: noRolls,
  wall: none,

  square: ({ wide, high }) => ({ wide, high }),
  outline: none,
  blank: ({ wide, high }, { edges }) => rectangleBlank(wide, high, edges, 'Size of the plate and what its edges need'),
  layout: () => ({ kind: 'square' }),
  addFigures: nothing,
});

export const plate: FormKind<Plate> = ofKind<Plate>(
  'plate',
  {
    plate: {
      read({ line }) {
        const measures = measuresOf(line);
        return measures && { kind: 'plate', ...measures };
      },
    },
  },
  'piece example\n  from plate\n  plate 120 x 80 mm\n',
);
export const strip: FormKind<Strip> = ofKind<Strip>(
  'strip',
  {
    strip: {
      read({ line }) {
        const measures = measuresOf(line);
        return measures && { kind: 'strip', ...measures };
      },
    },
  },
  'piece example\n  from plate\n  strip 400 x 18 mm\n',
);
