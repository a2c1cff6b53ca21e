import { MaxRectsPacker, PACKING_LOGIC } from 'maxrects-packer/dist/maxrects-packer.mjs';
import type { Steps } from '../../../incremental/steps.ts';
import type { Patterns } from './pattern.ts';
import { type Plan, planInSteps } from './plan.ts';

/** A plan and where its lower left corner lies, mm. */
export interface Laid {
  readonly plan: Plan;
  readonly x: number;
  readonly y: number;
}

const GAP = 12;

/** All patterns side by side in rows, as one drawing. Nothing is random: the same patterns lie the same way. */
export function* laidOut({ patterns }: Patterns): Steps<{ laid: Laid[]; wide: number; high: number }> {
  const plans: Plan[] = [];
  for (const pattern of patterns) {
    plans.push(yield* planInSteps(pattern));
    yield plans.length / patterns.length;
  }
  const widest = Math.max(...plans.map(({ wide }) => wide), 600);
  const laid: Laid[] = [];
  let [x, y, row] = [0, 0, 0];
  for (const plan of plans) {
    if (x > 0 && x + plan.wide > widest) {
      y += row + GAP;
      x = 0;
      row = 0;
    }
    laid.push({ plan, x: x + MARGIN, y: y + MARGIN });
    x += plan.wide + GAP;
    row = Math.max(row, plan.high);
  }
  const wide = Math.max(0, ...laid.map((each) => each.x + each.plan.wide)) + MARGIN;
  const high = Math.max(0, ...laid.map((each) => each.y + each.plan.high)) + MARGIN;
  return { laid, wide, high };
}

const MARGIN = 5;

/** Plans that fit a window of this size packed together on as few windows as the packer finds. */
export function* packed(plans: readonly Plan[], wide: number, high: number): Steps<Laid[][]> {
  const packer = new MaxRectsPacker(wide, high, 8, {
    smart: false,
    pot: false,
    square: false,
    allowRotation: false,
    logic: PACKING_LOGIC.MAX_EDGE,
  });
  for (const plan of plans) {
    packer.add(plan.wide, plan.high, plan);
    yield undefined;
  }
  const places = new Map(plans.map((plan, i) => [plan, i]));
  return packer.bins.map((bin) =>
    bin.rects
      .map((rect): Laid => ({ plan: rect.data as Plan, x: rect.x, y: high - rect.y - rect.height }))
      .sort((a, b) => places.get(a.plan)! - places.get(b.plan)!),
  );
}
