import { say } from '../../../l10n/say.ts';
import { stripAlong } from '../../geometry/flatten/strip.ts';
import type { Path } from '../../geometry/outline/path.ts';
import type { SurfaceLine } from '../../geometry/surface/walk.ts';
import { plateArea } from '../../trade/blank/plane-shapes.ts';
import { curvedStrip, stripEdge } from '../../trade/blank/strip.ts';
import { given } from '../../trade/reckoning/readings.ts';
import { plain } from '../../trade/reckoning/result.ts';
import type { Named } from '../names/spec-file.ts';
import { MEASURED, NOT_KNOWN } from './answers.ts';
import { type Edges, made, rectangleBlank, type WorkedBlank } from './blank.ts';
import { straightRun } from './edge-run.ts';
import { followedBy, runAlong, turnOf } from './followed.ts';
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

/** A strip that follows an edge or a line of another piece. */
export interface Trim extends FormOf<'trim'> {
  readonly along: string;
  /** Along the middle of the strip, where the middle of its thickness lies. */
  readonly length: number;
  readonly wide: number;
  readonly neighbour: Named;
  readonly inset: number;
  /** Which of its edges lies nearer to the one that it follows. */
  readonly outer: 'top' | 'bottom';
  /** How far its line turns in the surface it lies on, degrees, above nought to the left; nothing where that is not known. */
  readonly turn?: number;
}

export const trim: FormKind<Trim, Trim | Later> = {
  notations: {
    trim: {
      read({ line, piece }) {
        const wide = line.length('wide', 'wide');
        const along = followedBy(line, piece);
        if (!along || !isAbove(wide)) return undefined;
        if (!along.length) return { kind: 'later', line };
        const { named, neighbour, word, edge, length } = along;
        // Along an edge it ends with that edge; a seam or a line it covers.
        const inset = line.length('inset', 'inset') ?? (neighbour.endsAt(edge) ? wide / 2 : 0);
        const followed = piece.lineOn(named, edge, inset);
        const turn = turnOf(followed);
        return {
          kind: 'trim',
          line,
          along: word.text,
          length: followed?.length ?? length.value,
          wide,
          neighbour: named,
          inset,
          outer: followed?.inside === 'right' ? 'top' : 'bottom',
          ...(turn === undefined ? {} : { turn }),
        };
      },
    },
  },
  example:
    'piece skull\n  from plate\n  dome 210 mm, deep 60 mm\n  dish\npiece example\n  from plate\n  trim along skull.rim, wide 18 mm, inset 4 mm\n',
  isFlat: false,
  isBand: true,
  keepsThickness: yes,

  edges: () => SIDES,
  seams: noEdges,
  closes: no,
  length(form, edge) {
    if (edge === 'top' || edge === 'bottom') return longEdge(form, edge);
    return edge === 'left' || edge === 'right' ? given(form.wide, 'L', 'Width of the strip') : MEASURED;
  },
  run({ length }, edge, piece) {
    if (edge === 'top' || edge === 'bottom') return runAlong(length, piece);
    return edge === 'left' || edge === 'right' ? straightRun : NOT_KNOWN;
  },

  area: ({ length, wide }) => plateArea(length, wide),
  centre: none,
  chart: none,
  refusal: nothing,
  liesOn: none,
  follows: ({ neighbour, along, inset }) => ({ neighbour, along, inset }),
  band: ({ along, length, wide, inset, outer }) => ({ along, long: length, wide, inset, outer }),

  around: none,
  girths: notKnown,
  meets: none,
  domed: none,
  tightestRadius: notKnown,
  rolls: noRolls,
  wall: none,

  square: ({ length, wide }) => ({ wide: length, high: wide }),
  outline: none,
  blank: (form, { edges, line }) => stripBlank(form, edges, line()),
  layout: ({ wide }) => ({ kind: 'curved strip', wide }),
  addFigures: nothing,
};

const longEdge = ({ along, length, wide, turn = 0 }: Trim, edge: 'top' | 'bottom') =>
  stripEdge({ length, wide, turn, side: edge === 'top' ? 'left' : 'right', source: lengthSource(along) });

const lengthSource = (along: string) =>
  say`Along ${along}, at the middle of the strip and of its own thickness where it lies outside the plate`;

/** A strip whose box is wider than the strip by no more than this, mm, is cut straight. */
const AS_GOOD_AS_STRAIGHT = 0.2;

/** Straight where the line does not turn in the surface, else as it lies flat. */
function stripBlank(form: Trim, edges: Edges, line: SurfaceLine | undefined): WorkedBlank {
  const straight = rectangleBlank(
    form.length,
    form.wide,
    edges,
    say`${lengthSource(form.along)}, and what the ends need`,
  );
  const noted = (note: string): WorkedBlank => ({
    ...straight,
    figures: () =>
      straight.figures().map((each) => (each.suffix === 'long' ? { ...each, result: { ...each.result, note } } : each)),
  });
  const more = Object.fromEntries((['left', 'right', 'top', 'bottom'] as const).map((edge) => [edge, edges.sum(edge)]));
  const strip =
    line && stripAlong(Float64Array.from(line.points.flat()), Float64Array.from(line.normals.flat()), form.wide, more);
  if (!strip)
    return noted(say`Laid as a straight strip: how ${form.along} turns is not known, so trim it after fitting.`);
  const across = form.wide + edges.sum('top', 'bottom');
  if (strip.wide - across < AS_GOOD_AS_STRAIGHT)
    return noted(say`${form.along} does not turn in its surface: the strip is straight.`);
  const turns = say`${form.along} turns by ${plain(Math.abs(strip.turn))} deg in its surface`;
  if (strip.overlaps)
    return noted(
      say`${turns}, and a strip cut to it would lie over itself: cut it in parts, or work a straight one round.`,
    );
  const cut = curvedStrip(strip, { wide: form.wide, across, ends: edges.sum('left', 'right'), turns });
  return made(
    { kind: 'outline', points: strip.points, path: strip.outline, middle: openPath(strip.middle) },
    cut.long,
    cut.wide,
    cut.area,
    edges,
  );
}

const openPath = (points: Float64Array): Path => ({
  vertices: Array.from({ length: points.length / 2 }, (_, i) => ({ x: points[2 * i]!, y: points[2 * i + 1]! })),
  closed: false,
});
