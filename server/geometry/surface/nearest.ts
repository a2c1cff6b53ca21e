import type { Chart, Spot } from './chart.ts';
import { apart, dot, minus, type Vector } from './vector.ts';
import { tangents } from './walk.ts';

/** The spot of a form that is nearest to a point, mm, held to its outline; looked for all over it, or from a spot near by. */
export function nearestSpot(chart: Chart, point: Vector, near?: Spot): Spot {
  let best: Spot = near ?? [0.5, 0.5];
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; !near && i <= ACROSS; i++)
    for (let j = 0; j <= UP; j++) {
      const spot: Spot = [i / ACROSS, j / UP];
      const away = apart(chart.point(...spot), point);
      if (away < least) [best, least] = [spot, away];
    }
  for (let round = 0; round < 20; round++) {
    const [pu, pv] = tangents(chart, best);
    const gap = minus(point, chart.point(...best));
    const [uu, uv, vv] = [dot(pu, pu), dot(pu, pv), dot(pv, pv)];
    const det = uu * vv - uv * uv;
    if (!(det > 1e-12 * uu * vv)) return best;
    const [du, dv] = [dot(gap, pu), dot(gap, pv)];
    const u = best[0] + (vv * du - uv * dv) / det;
    const v = Math.min(1, Math.max(0, best[1] + (uu * dv - uv * du) / det));
    const next: Spot = [chart.closed ? u - Math.floor(u) : Math.min(1, Math.max(0, u)), v];
    const moved = apart(chart.point(...next), chart.point(...best));
    best = next;
    if (moved < 1e-9) break;
  }
  return best;
}
const [ACROSS, UP] = [48, 12];
