import { grown } from '../../trade/blank/grown.ts';
import { ellipseArea, ellipsePerimeter } from '../../trade/blank/plane-shapes.ts';
import { MEASURED, NOT_KNOWN } from './answers.ts';
import { ovalBlank } from './blank.ts';
import type { Disc } from './disc.ts';
import { ovalRun } from './edge-run.ts';
import { type FormKind, type FormOf, noEdges, none, noRolls, nothing, RIM, yes } from './form.ts';

/** A flat oval. One of equal axes is a disc. */
export interface Oval extends FormOf<'oval'> {
  readonly long: number;
  readonly wide: number;
}

export const oval: FormKind<Oval, Oval | Disc> = {
  notations: {
    oval: {
      read({ line }) {
        const size = line.size('size');
        if (!size) return undefined;
        const [long, wide] = size;
        return long === wide ? { kind: 'disc', line, diameter: long } : { kind: 'oval', line, long, wide };
      },
    },
  },
  example: 'piece example\n  from plate\n  oval 120 x 80 mm\n',
  isFlat: true,
  isBand: false,
  keepsThickness: yes,

  edges: () => RIM,
  seams: noEdges,
  closes: (_, edge) => edge === 'rim',
  length: ({ long, wide }, edge) => (edge === 'rim' ? ellipsePerimeter(long, wide) : MEASURED),
  run: ({ long, wide }, edge) => (edge === 'rim' ? ovalRun(long, wide, 'whole') : NOT_KNOWN),

  area: ({ long, wide }) => ellipseArea(long, wide),
  centre: none,
  chart: none,
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

  square: none,
  outline: none,
  blank(form, { edges }) {
    const source = 'The finished size and twice what its rim needs';
    const long = grown('long', form.long, edges.of('rim'), 2, source);
    const wide = grown('wide', form.wide, edges.of('rim'), 2, source);
    return ovalBlank(form, long, wide, edges);
  },
  layout: ({ long, wide }) => ({ kind: 'round', long, wide }),
  addFigures: nothing,
};
