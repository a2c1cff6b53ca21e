import { fitOf } from '../../model/figures/fit.ts';
import type { Model } from '../../model/spec.ts';
import type { PieceModel } from '../../model/things/piece.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { dutyLimit } from '../../trade/usual/duty.ts';

/* What is usual for the duty of a build, from the table of the trade. A rulebook that the build names goes before it. */

/** A row of the table for the build's own duty; nothing for a build that says none. */
export function usualFor(model: Model, id: string): Result | undefined {
  const duty = model.duty();
  return duty && dutyLimit(duty, id);
}

const HEAD: ReadonlySet<string> = new Set(['head', 'face', 'neck']);
const BODY: ReadonlySet<string> = new Set(['shoulder', 'chest', 'waist']);

/** The row for the plate of a piece, by what it fits: a piece that does not say is taken for a limb's, where least is asked. */
export function plateRow(piece: PieceModel): 'head-plate' | 'body-plate' | 'limb-plate' {
  const region = fitOf(piece)?.region;
  return region && HEAD.has(region) ? 'head-plate' : region && BODY.has(region) ? 'body-plate' : 'limb-plate';
}
