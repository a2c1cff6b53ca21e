import { grown } from '../../trade/blank/grown.ts';
import { circleArea, circlePerimeter } from '../../trade/blank/plane-shapes.ts';
import { MEASURED, NOT_KNOWN } from './answers.ts';
import { type Edges, made, type WorkedBlank } from './blank.ts';
import { circularRun } from './edge-run.ts';
import { type FormKind, type FormOf, isAbove, noEdges, none, noRolls, nothing, RIM, yes } from './form.ts';

/** A flat disc. */
export interface Disc extends FormOf<'disc'> {
  readonly diameter: number;
}

export const disc: FormKind<Disc> = {
  notations: {
    disc: {
      read({ line }) {
        const diameter = line.length('diameter');
        return isAbove(diameter) ? { kind: 'disc', line, diameter } : undefined;
      },
    },
  },
  example: 'piece example\n  from plate\n  disc 90 mm\n',
  isFlat: true,
  isBand: false,
  keepsThickness: yes,

  edges: () => RIM,
  seams: noEdges,
  closes: (_, edge) => edge === 'rim',
  length: ({ diameter }, edge) => (edge === 'rim' ? circlePerimeter(diameter) : MEASURED),
  run: ({ diameter }, edge) => (edge === 'rim' ? circularRun(diameter / 2, 360) : NOT_KNOWN),

  area: ({ diameter }) => circleArea(diameter),
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
  blank: ({ diameter }, { edges }) => roundBlank(diameter, edges),
  layout: ({ diameter }) => ({ kind: 'round', long: diameter, wide: diameter }),
  addFigures: nothing,
};

function roundBlank(diameter: number, edges: Edges): WorkedBlank {
  const size = grown('D', diameter, edges.of('rim'), 2, 'The finished size and twice what its rim needs');
  return made({ kind: 'round' }, size, size, circleArea(size.value), edges, () => [
    { suffix: 'diameter', title: 'blank diameter', result: size },
  ]);
}
