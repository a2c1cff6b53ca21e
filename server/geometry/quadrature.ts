/**
 * The integral of `height` from `from` to `to`, by the double-exponential (tanh-sinh) rule.
 *
 * The rule crowds its points toward both ends, where the integrands of long thin ovals turn sharply. For the smooth
 * integrands of this folder the relative error is below 1e-12; the number of points is fixed, so it always ends.
 */
export function integral(height: (at: number) => number, from: number, to: number): number {
  const span = to - from;
  let sum = 0;
  for (const { at, weight } of NODES) sum += weight * height(from + span * at);
  return span * sum;
}

const STEP = 1 / 16;
const REACH = 3.4;

/** Points on 0…1 and their weights: x = 1/(1 + e^(−π sinh t)), with dx/dt as weight. */
const NODES: readonly { readonly at: number; readonly weight: number }[] = Array.from(
  { length: Math.floor(REACH / STEP) * 2 + 1 },
  (_, index) => {
    const t = (index - Math.floor(REACH / STEP)) * STEP;
    const grown = Math.exp(-Math.PI * Math.sinh(t));
    const at = 1 / (1 + grown);
    return { at, weight: STEP * Math.PI * Math.cosh(t) * at * (grown / (1 + grown)) };
  },
);
