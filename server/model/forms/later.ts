import { MEASURED, NOT_KNOWN } from './answers.ts';
import { ANY_EDGES, type FormKind, type FormOf, no, noEdges, none, noRolls, nothing, notKnown } from './form.ts';

/** A form whose line is whole and that is not computed yet: nothing of it is known. */
export type Later = FormOf<'later'>;

export const later: FormKind<Later> = {
  notations: {},
  example:
    'piece flat\n  from plate\n  plate 90 x 60 mm\npiece example\n  from plate\n  lies over flat, gap 1 mm, high 40 mm\n',
  isFlat: false,
  isBand: false,
  keepsThickness: no,

  edges: () => ANY_EDGES,
  seams: noEdges,
  closes: no,
  length: () => MEASURED,
  run: notKnown,

  area: notKnown,
  centre: none,
  chart: nothing,
  refusal: nothing,
  liesOn: none,
  follows: none,
  band: none,

  around: none,
  girths: notKnown,
  meets: none,
  domed: none,
  tightestRadius: notKnown,
  rolls: noRolls,
  wall: none,

  square: none,
  outline: none,
  blank: NOT_KNOWN,
  layout: notKnown,
  addFigures: nothing,
};
