import { coverChart, foldsOver } from '../../geometry/surface/cover.ts';
import { LAID_FLAT } from './answers.ts';
import { type FormKind, measured, no, noEdges, none, noRolls, notKnown, SIDES } from './form.ts';
import { type Cover, readLying } from './lame.ts';
import type { Later } from './later.ts';
import type { Cylinder, Loft } from './tube.ts';

export const cover: FormKind<Cover, Cover | Cylinder | Loft | Later> = {
  notations: { lies: { read: readLying } },
  example:
    'piece breast\n  from plate\n  cylinder round 600 mm, high 300 mm, wrap 180 deg\npiece example\n  from plate\n  lies over breast, gap 1 mm, from bottom to 100 mm up\n',
  isFlat: false,
  isBand: false,
  keepsThickness: no,

  edges: () => SIDES,
  seams: noEdges,
  closes: no,
  length: measured,
  run: measured,

  area: measured,
  centre: measured,
  chart({ neighbour, apart, extent }, piece) {
    // Over its neighbour's smooth form: a plate does not follow flutes.
    const under = piece.pieceNamed(neighbour).plainChart();
    return under && !foldsOver(under, apart) ? coverChart(under, apart, extent) : undefined;
  },
  refusal({ neighbour, apart }, piece) {
    const under = piece.pieceNamed(neighbour).plainChart();
    if (!under || piece.plainChart()) return undefined;
    const name = neighbour.word.text;
    return foldsOver(under, apart)
      ? `“${name}” is curved too tightly for a plate inside it`
      : `“${name}” does not reach so far`;
  },
  liesOn: ({ neighbour }) => neighbour,
  follows: none,
  band: none,

  girths: notKnown,
  meets: none,
  domed: none,
  tightestRadius: notKnown,
  rolls: noRolls,
  wall: none,

  square: none,
  outline: none,
  blank: LAID_FLAT,
  layout: () => ({ kind: LAID_FLAT }),
  addFigures: () => undefined,
};
