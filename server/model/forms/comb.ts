import { say } from '../../../l10n/say.ts';
import { movedOut } from '../../geometry/surface/walk.ts';
import { combArea, combCrest, combStrain, stretchedThickness } from '../../trade/blank/comb.ts';
import { plateArea } from '../../trade/blank/plane-shapes.ts';
import { combWidth } from '../../trade/blank/strip.ts';
import { given } from '../../trade/reckoning/readings.ts';
import { plain } from '../../trade/reckoning/result.ts';
import type { Named } from '../names/spec-file.ts';
import { MEASURED, NOT_KNOWN } from './answers.ts';
import { rectangleBlank } from './blank.ts';
import { followedBy, runAlong } from './followed.ts';
import {
  type Fold,
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
  /** The line at its foot, where that is known: what it turns through, degrees, and how many times longer the crest is at most. */
  readonly bent?: { readonly turned: number; readonly longer: number };
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
        const { named, word, edge, length } = along;
        const base = piece.lineOn(named, edge, 0);
        const crest = base && movedOut(base, high);
        return {
          kind: 'comb',
          line,
          along: word.text,
          length: base?.length ?? length.value,
          high,
          foot,
          radius,
          neighbour: named,
          ...(base && crest
            ? { bent: { turned: ((crest.length - base.length) / high) * (180 / Math.PI), longer: crest.most } }
            : {}),
        };
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
    if (edge === 'top' || edge === 'bottom') return given(form.length, 'L', lengthSource(form.along));
    return edge === 'left' || edge === 'right' ? combWidth(form) : MEASURED;
  },
  run: ({ length }, edge, piece) => (edge === 'top' || edge === 'bottom' ? runAlong(length, piece) : NOT_KNOWN),

  area(form) {
    if (form.bent) return combArea({ ...form, ...form.bent });
    const width = combWidth(form);
    return {
      ...plateArea(form.length, width.value),
      note: say`Laid straight: how ${form.along} turns is not known. It is ${width.formula.slice(4)} wide rolled out.`,
    };
  },
  centre: none,
  chart: none,
  refusal: nothing,
  liesOn: none,
  follows: ({ neighbour, along }) => ({ neighbour, along, inset: 0 }),
  band: none,

  around: none,
  girths: notKnown,
  meets: none,
  domed: none,
  tightestRadius: notKnown,
  rolls: noRolls,
  wall: none,

  square: (form) => ({ wide: form.length, high: combWidth(form).value }),
  outline: none,
  blank(form, { edges }) {
    const flat = rectangleBlank(
      form.length,
      combWidth(form).value,
      edges,
      say`${lengthSource(form.along)}, and what the ends need`,
    );
    if (!form.bent) return flat;
    const { value } = combStrain(form.bent.longer);
    const note = say`One strip, folded as its lines say, its crest stretched by up to ${plain(100 * Math.expm1(value))} %. Or two flat crescents, welded along the crest.`;
    return {
      ...flat,
      figures: () =>
        flat.figures().map((each) => (each.suffix === 'long' ? { ...each, result: { ...each.result, note } } : each)),
    };
  },
  layout: (form) => ({ kind: 'square', folds: foldsOf(form) }),
  addFigures(form, set, piece) {
    const { line, length, high, bent } = form;
    set.add('width', 'width rolled out', combWidth(form), line.place, []);
    if (!bent) return;
    set.add('crest.length', 'length of the crest', combCrest({ foot: length, high, ...bent }), line.place, []);
    const strain = combStrain(bent.longer);
    set.add('crest.strain', 'stretch of the crest of a comb from one strip', strain, line.place, []);
    const thickness = piece.thickness();
    if (thickness === undefined) return;
    const least = stretchedThickness(thickness, Math.max(0, strain.value));
    set.add('thickness.least', 'thinnest place, on the crest of a comb from one strip', least, line.place, []);
  },
};

const lengthSource = (along: string) => say`Along ${along}, at the middle of the comb’s own thickness`;

/** Where the strip is folded or turned, mm from its lower edge: both feet, and where the top begins, is highest and ends. */
function foldsOf(form: Comb): readonly Fold[] {
  const { foot, high, radius } = form;
  const whole = combWidth(form).value;
  const top = foot + high - radius;
  return [
    ...(foot > 0 ? [{ at: foot, what: 'fold of the foot' }] : []),
    ...(radius > 0 ? [{ at: top, what: 'begin of the turn' }] : []),
    { at: whole / 2, what: 'crest' },
    ...(radius > 0 ? [{ at: whole - top, what: 'end of the turn' }] : []),
    ...(foot > 0 ? [{ at: whole - foot, what: 'fold of the foot' }] : []),
  ];
}
