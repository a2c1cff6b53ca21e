/** A smooth curve through given values. */
export interface Curve {
  at(t: number): number;
  slope(t: number): number;
}

/**
 * Piecewise cubic Hermite interpolation that keeps the run of its values: it rises only where they rise, and has no
 * overshoot. One continuous slope; through two points it is the straight line.
 *
 * `ends` fixes the slope at the first or the last point. Range: times strictly rising, two or more.
 * Source: F. N. Fritsch and J. Butland 1984, weighted harmonic mean of the neighbouring slopes (from memory).
 */
export function pchip(
  times: readonly number[],
  values: readonly number[],
  ends: { readonly start?: number; readonly end?: number } = {},
): Curve {
  const last = times.length - 1;
  const steps = times.slice(1).map((time, i) => time - times[i]!);
  const secants = steps.map((step, i) => (values[i + 1]! - values[i]!) / step);
  const slopes = times.map((_, i) => {
    if (i === 0) return ends.start ?? endSlope(steps[0]!, steps[1], secants[0]!, secants[1]);
    if (i === last)
      return ends.end ?? endSlope(steps[last - 1]!, steps[last - 2], secants[last - 1]!, secants[last - 2]);
    const [before, after] = [secants[i - 1]!, secants[i]!];
    if (before * after <= 0) return 0;
    const [w1, w2] = [2 * steps[i]! + steps[i - 1]!, steps[i]! + 2 * steps[i - 1]!];
    return (w1 + w2) / (w1 / before + w2 / after);
  });
  const spanOf = (t: number): number => {
    let i = 0;
    while (i < last - 1 && t > times[i + 1]!) i++;
    return i;
  };
  // Asked for thousands of times for one mesh: nothing is made on the way.
  return {
    at(t) {
      const i = spanOf(t);
      const step = steps[i]!;
      const x = (t - times[i]!) / step;
      const y0 = values[i]!;
      const y1 = values[i + 1]!;
      const m0 = slopes[i]! * step;
      const m1 = slopes[i + 1]! * step;
      return y0 + x * (m0 + x * (3 * (y1 - y0) - 2 * m0 - m1 + x * (m0 + m1 - 2 * (y1 - y0))));
    },
    slope(t) {
      const i = spanOf(t);
      const step = steps[i]!;
      const x = (t - times[i]!) / step;
      const y0 = values[i]!;
      const y1 = values[i + 1]!;
      const m0 = slopes[i]! * step;
      const m1 = slopes[i + 1]! * step;
      return (m0 + x * (2 * (3 * (y1 - y0) - 2 * m0 - m1) + 3 * x * (m0 + m1 - 2 * (y1 - y0)))) / step;
    },
  };
}

/** One-sided slope from three points, held so that the curve keeps the run of its values. */
function endSlope(h0: number, h1: number | undefined, d0: number, d1: number | undefined): number {
  if (h1 === undefined || d1 === undefined) return d0;
  const slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
  if (slope * d0 <= 0) return 0;
  return d0 * d1 <= 0 && Math.abs(slope) > 3 * Math.abs(d0) ? 3 * d0 : slope;
}
