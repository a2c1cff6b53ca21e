import { type Corner, pathOfCorners } from '../../geometry/outline/corners.ts';
import { anticlockwise } from '../../geometry/outline/measure.ts';
import type { Path } from '../../geometry/outline/path.ts';
import { outlineMeasures } from '../../trade/blank/plane-shapes.ts';
import { MEASURED, NOT_KNOWN } from './answers.ts';
import { outlineBlank } from './blank.ts';
import { type Drawing, readDrawing } from './drawing.ts';
import { outlineRun } from './edge-run.ts';
import { type FormKind, type FormOf, isAbove, noEdges, none, noRolls, nothing, RIM, type Shaped, yes } from './form.ts';

/** A flat shape by its corners. */
export interface Outline extends FormOf<'outline'> {
  readonly points: readonly Corner[];
}

export const outline: FormKind<Outline, Outline | Drawing> = {
  notations: {
    outline: {
      read({ line, piece }) {
        if (line.filled('file')) return readDrawing(line, piece);
        const points = cornersOf(piece);
        return points && points.length >= 2 ? { kind: 'outline', line, points } : undefined;
      },
    },
  },
  example:
    'piece example\n  from plate\n  outline\n  to 90 mm right and 0 mm up\n  to 90 mm right and 40 mm up\n  arc to 0 mm right and 40 mm up, radius 50 mm\n',
  isFlat: true,
  isBand: false,
  keepsThickness: yes,

  edges: () => RIM,
  seams: noEdges,
  closes: (_, edge) => edge === 'rim',
  length: ({ points }, edge) => (edge === 'rim' ? outlineMeasures(points).perimeter : MEASURED),
  run: ({ points }, edge) => (edge === 'rim' ? outlineRun(pathOf(points)) : NOT_KNOWN),

  area: ({ points }) => outlineMeasures(points).area,
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
  outline: ({ points }) => pathOf(points),
  blank({ points }, { edges }) {
    const { area } = outlineMeasures(points);
    return area.outside === undefined
      ? outlineBlank({ outer: pathOf(points), openings: [], isKept: false }, edges, area)
      : undefined;
  },
  layout: ({ points }) => ({ kind: 'rimmed', outer: pathOf(points), openings: [] }),
  addFigures: nothing,
};

/** Begun at the first corner: a rim is measured from there. */
const pathOf = (points: readonly Corner[]): Path => fromOrigin(anticlockwise(pathOfCorners(points).path));

/** The same path begun at nought, where the first corner lies. */
function fromOrigin(path: Path): Path {
  const first = path.vertices.findIndex(({ x, y }) => Math.hypot(x, y) < 1e-6);
  if (first <= 0) return path;
  return { vertices: [...path.vertices.slice(first), ...path.vertices.slice(0, first)], closed: path.closed };
}

/** Its corners, the first of them where all places are measured from; nothing while one of them is being written. */
function cornersOf(piece: Shaped): readonly Corner[] | undefined {
  const points: Corner[] = [];
  for (const each of piece.lines()) {
    if (each.line.word?.group !== 'outline') continue;
    const right = each.length('right');
    const up = each.length('up');
    if (right === undefined || up === undefined) return undefined;
    const radius = each.length('radius', 'radius');
    points.push({
      x: each.word('left') ? -right : right,
      y: each.word('down') ? -up : up,
      // The language bulges an arc to the right of the way one goes, outward when one goes anticlockwise.
      ...(each.id === 'arc to' && isAbove(radius) ? { radius: each.has('hollow') ? radius : -radius } : {}),
    });
  }
  // An outline that does not come back to its first corner by itself is closed by a straight line.
  const comesBack = points.some(({ x, y }) => Math.hypot(x, y) < 1e-6);
  return comesBack ? points : [...points, { x: 0, y: 0 }];
}
