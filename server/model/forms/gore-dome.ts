import { say } from '../../../l10n/say.ts';
import { domeChart } from '../../geometry/surface/dome.ts';
import { domeTightestRadius } from '../../trade/dome/curvature.ts';
import { gore } from '../../trade/dome/dome.ts';
import { type Alike, differentGores } from '../../trade/dome/gores.ts';
import { LAID_FLAT, MEASURED } from './answers.ts';
import { acrossDome, domeGirths } from './dome.ts';
import { ovalRun } from './edge-run.ts';
import { depthOf, type FormKind, type FormOf, isAbove, measured, no, none, noRolls, nothing } from './form.ts';

/** One gore of a dome; measures are those of the whole. */
export interface GoreDome extends FormOf<'gore dome'> {
  readonly long: number;
  readonly wide: number;
  readonly deep: number;
  readonly gores: number;
  /** Of an oval one: which, from the one at its front to the left. */
  readonly which: number;
}

const EDGES = ['rim', 'left', 'right'];
const SEAMS = ['left', 'right'];

export const goreDome: FormKind<GoreDome> = {
  notations: {
    'gore dome': {
      read(reading) {
        const { line, grow } = reading;
        const [long, wide = long] = line.measures('length', 'size') ?? [];
        const gores = line.count('gores', 'gores');
        const deep = depthOf(reading);
        const which = line.has('gore') ? line.count('which', 'gore') : 1;
        if (!isAbove(long) || !isAbove(wide) || !isAbove(deep) || gores === undefined || which === undefined)
          return undefined;
        return gores >= 3 && which <= gores
          ? {
              kind: 'gore dome',
              line,
              long: long + grow,
              wide: wide + grow,
              deep,
              gores,
              which: long === wide ? 1 : which,
            }
          : undefined;
      },
      refusals(line) {
        const [gores, which] = [line.count('gores', 'gores'), line.count('which', 'gore')];
        return gores !== undefined && which !== undefined && which > gores
          ? [{ line, why: say`it has ${gores} gores, and this is to be the ${which}th` }]
          : [];
      },
    },
  },
  example: 'piece example\n  from plate\n  gore dome 210 mm, deep 105 mm, gores 6\n',
  isFlat: false,
  isBand: false,
  keepsThickness: no,

  edges: () => EDGES,
  seams: () => SEAMS,
  closes: no,
  length({ long, wide, deep, gores }, edge) {
    if (long !== wide) return MEASURED;
    const one = gore(long, deep, gores);
    if (edge === 'rim') return one.wide;
    return edge === 'left' || edge === 'right' ? one.long : MEASURED;
  },
  run: ({ long, wide, gores }, edge) =>
    edge !== 'rim' ? MEASURED : long === wide ? ovalRun(long, wide, 360 / gores) : MEASURED,

  area: ({ long, wide, deep, gores }) => (long === wide ? gore(long, deep, gores).area : MEASURED),
  centre: measured,
  chart: (form) => domeChart(form, { gores: form.gores, which: form.which }),
  refusal: nothing,
  liesOn: none,
  follows: none,
  band: none,

  around: ({ gores }) => 360 / gores,
  girths: domeGirths,
  meets: acrossDome,
  // Each is formed far less than the dome that they make.
  domed: none,
  tightestRadius: ({ long, wide, deep }) => domeTightestRadius(long, wide, deep),
  rolls: noRolls,
  wall: none,

  square: none,
  outline: none,
  blank: LAID_FLAT,
  layout: () => ({ kind: LAID_FLAT }),
  addFigures: nothing,
};

/** Those that are of the shape of this one. */
export const alikeTo = (form: GoreDome): Alike => differentGores(form).find((each) => each.gores.includes(form.which))!;
