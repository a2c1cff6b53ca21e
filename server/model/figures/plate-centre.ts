import { formCentreInSteps } from '../../geometry/surface/measure.ts';
import type { Vector } from '../../geometry/surface/vector.ts';
import { Dear } from '../../incremental/steps.ts';
import { MEASURED, NONE } from '../forms/answers.ts';
import { kindOf } from '../forms/index.ts';
import { ofThing } from '../per-spec.ts';
import { baysOf, keyOf } from '../shapes/surface.ts';
import type { PieceModel } from '../things/piece.ts';

/** The middle of a formed plate's area, mm in the form's own frame; nothing for what is flat or has no surface. */
export const centreOf = ofThing('piece', undefined, reckonedCentre);

/** The last middles of forms, by all that they hang on. */
const centres = new Dear<Vector>(48);

function reckonedCentre(piece: PieceModel): Vector | undefined {
  const form = piece.form();
  if (!form) return undefined;
  const kind = kindOf(form);
  if (kind.follows(form) !== NONE) return middleOf(piece.baseLine()?.points ?? []);
  const own = kind.centre(form);
  if (own === NONE) return undefined;
  if (own !== MEASURED && !baysOf(piece).length && !piece.isWorked()) return own;
  const chart = piece.chart();
  const centre = chart && centres.get(keyOf(piece), () => formCentreInSteps(chart, piece.cutForm()));
  return centre?.every(Number.isFinite) ? centre : undefined;
}

/** The middle of points that stand at even steps. */
export function middleOf(points: readonly Vector[]): Vector | undefined {
  if (!points.length) return undefined;
  const mean = (axis: 0 | 1 | 2) => points.reduce((sum, point) => sum + point[axis], 0) / points.length;
  return [mean(0), mean(1), mean(2)];
}
