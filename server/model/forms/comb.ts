import { plateArea } from '../../trade/blank/plane-shapes.ts';
import { combWidth } from '../../trade/blank/strip.ts';
import { given } from '../../trade/reckoning/readings.ts';
import type { Named } from '../names/spec-file.ts';
import { MEASURED, NOT_KNOWN } from './answers.ts';
import { rectangleBlank } from './blank.ts';
import { followedBy, runAlong } from './followed.ts';
import {
  type FormKind,
  type FormOf,
  isAbove,
  no,
  noEdges,
  none,
  noRolls,
  nothing,
  notKnown,
  SIDES,
  yes,
} from './form.ts';
import type { Later } from './later.ts';

/** A raised comb along a line of another piece. */
export interface Comb extends FormOf<'comb'> {
  readonly along: string;
  readonly length: number;
  readonly high: number;
  /** Width of each foot. */
  readonly foot: number;
  readonly radius: number;
  readonly neighbour: Named;
}

export const comb: FormKind<Comb, Comb | Later> = {
  notations: {
    comb: {
      read({ line, piece }) {
        const high = line.length('high', 'high');
        const radius = line.length('radius', 'radius') ?? 0;
        const foot = line.length('foot', 'foot') ?? 0;
        const along = followedBy(line, piece);
        if (!along || !isAbove(high) || radius < 0 || radius > high || foot < 0) return undefined;
        if (!along.length) return { kind: 'later', line };
        const { named, word, length } = along;
        return { kind: 'comb', line, along: word.text, length: length.value, high, foot, radius, neighbour: named };
      },
    },
  },
  example:
    'piece skull\n  from plate\n  half dome 248 x 204 mm, deep 90 mm\n  dish\npiece example\n  from plate\n  comb along skull.middle, high 22 mm, foot 16 mm, radius 3 mm\n',
  isFlat: false,
  isBand: false,
  keepsThickness: yes,

  edges: () => SIDES,
  seams: noEdges,
  closes: no,
  length(form, edge) {
    if (edge === 'top' || edge === 'bottom') return given(form.length, 'L', `Length of ${form.along}`);
    return edge === 'left' || edge === 'right' ? combWidth(form) : MEASURED;
  },
  run: ({ length }, edge, piece) => (edge === 'top' || edge === 'bottom' ? runAlong(length, piece) : NOT_KNOWN),

  area(form) {
    const width = combWidth(form);
    return {
      ...plateArea(form.length, width.value),
      note: `Laid straight; it is ${width.formula.slice(4)} wide rolled out.`,
    };
  },
  centre: none,
  chart: none,
  refusal: nothing,
  liesOn: none,
  follows: ({ neighbour, along }) => ({ neighbour, along, inset: 0 }),
  band: none,

  girths: notKnown,
  meets: none,
  domed: none,
  tightestRadius: notKnown,
  rolls: noRolls,
  wall: none,

  square: (form) => ({ wide: form.length, high: combWidth(form).value }),
  outline: none,
  blank: (form, { edges }) =>
    rectangleBlank(form.length, combWidth(form).value, edges, `Length of ${form.along} and what the ends need`),
  layout: () => ({ kind: 'square' }),
  addFigures: nothing,
};
