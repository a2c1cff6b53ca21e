import { say } from '../../../l10n/say.ts';
import { bothHalves, coverChart, foldsOver } from '../../geometry/surface/cover.ts';
import { plain } from '../../trade/reckoning/result.ts';
import { LAID_FLAT, NONE } from './answers.ts';
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
    const neighbours = piece.pieceNamed(neighbour);
    const under = neighbours.plainChart();
    if (!under || foldsOver(under, apart)) return undefined;
    const wrap = 'wrap' in extent ? extent.wrap : undefined;
    if (wrap === undefined || !('from' in extent)) return coverChart(under, apart, extent);
    // Both halves of a split form go all the way round, its middle in front.
    const around = neighbours.around();
    const [whole, goes] = around === 'half' ? [bothHalves(under), 360] : [under, around];
    if (goes === NONE || wrap > goes) return undefined;
    return coverChart(whole, apart, { ...extent, share: wrap / goes });
  },
  refusal({ neighbour, apart, extent }, piece) {
    const neighbours = piece.pieceNamed(neighbour);
    const under = neighbours.plainChart();
    if (!under || piece.plainChart()) return undefined;
    const name = neighbour.word.text;
    if (foldsOver(under, apart)) return say`“${name}” is curved too tightly for a plate inside it`;
    const around = neighbours.around();
    const wrap = 'wrap' in extent ? extent.wrap : undefined;
    if (wrap !== undefined && around === NONE) return say`how far “${name}” goes round is not known`;
    return wrap !== undefined && typeof around === 'number' && wrap > around
      ? say`“${name}” goes only ${plain(around)} deg round`
      : say`“${name}” does not reach so far`;
  },
  liesOn: ({ neighbour }) => neighbour,
  follows: none,
  band: none,

  around: ({ extent }) => ('wrap' in extent && extent.wrap !== undefined ? extent.wrap : NONE),
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
