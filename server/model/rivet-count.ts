import type { RivetModel } from './fastener.ts';
import type { Model } from './model.ts';
import type { SeamModel } from './seam.ts';

/**
 * How many of each rivet one build takes. Where a seam puts its own rivet into another seam's row (`shares`), it is counted
 * for the seam that says so and no more for the row; one whose row has no known length is left out.
 */
export function rivetCounts(model: Model): ReadonlyMap<RivetModel, number> {
  const counts = new Map<RivetModel, number>();
  for (const seam of model.seams()) {
    const rivet = seam.rivet();
    const count = rivet && countOf(model, seam);
    if (rivet && count !== undefined) counts.set(rivet, (counts.get(rivet) ?? 0) + count);
  }
  return counts;
}

function countOf(model: Model, seam: SeamModel): number | undefined {
  const shares = seam.shares();
  if (shares.length)
    return shares.reduce((sum, { seam: host }) => sum + (host?.kind === 'seam' ? model.seamOf(host).rows() : 1), 0);
  const row = seam.rivetCount()?.value;
  return row === undefined ? undefined : Math.max(0, row - takenFrom(model, seam).size) * seam.rows();
}

/** The places of a seam's row where another seam puts its own rivet. */
export function takenFrom(model: Model, seam: SeamModel): ReadonlySet<number> {
  const taken = new Set<number>();
  for (const other of model.seams())
    if (other.rivet()) for (const share of other.shares()) if (share.seam === seam.named) taken.add(share.position);
  return taken;
}
