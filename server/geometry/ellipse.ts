/**
 * Way round an ellipse of the given half axes; any unit, any order. NaN in, NaN out.
 * The bare number, for computations that need thousands of them.
 */
export function roundEllipse(halfLong: number, halfWide: number): number {
  const broad = Math.max(halfLong, halfWide);
  const narrow = Math.min(halfLong, halfWide);
  if (!(narrow >= 0) || !Number.isFinite(broad)) return Number.NaN;
  if (narrow === 0) return 4 * broad;
  let mean = 1;
  let root = narrow / broad;
  let squares = (1 - root) * (1 + root);
  let sum = 0.5 * squares;
  let power = 0.5;
  // Each round doubles the digits that are right; forty are never reached.
  for (let round = 0; round < 40 && squares > 1e-34; round++) {
    const half = (mean - root) / 2;
    root = Math.sqrt(mean * root);
    mean -= half;
    squares = half * half;
    power *= 2;
    sum += power * squares;
  }
  return (2 * Math.PI * broad * (1 - sum)) / mean;
}

/** The width of an oval of this way round and this length, in their unit; nothing when no oval has both. */
export function widthOfOval(round: number, long: number): number | undefined {
  if (!(round > 2 * long) || !Number.isFinite(round)) return undefined;
  let low = 0;
  let high = round;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (roundEllipse(long / 2, middle / 2) < round) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
