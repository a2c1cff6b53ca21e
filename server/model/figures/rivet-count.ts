import type { Named } from '../names/spec-file.ts';
import { gathered, ofModel } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import type { RivetModel } from '../things/rivet.ts';
import type { SeamModel } from '../things/seam.ts';
import { jointRivets } from './joint-hardware.ts';

/**
 * How many of each rivet one build takes. Where a seam puts its own rivet into another seam's row (`shares`), it is counted
 * for the seam that says so and no more for the row; one whose row has no known length is left out.
 */
export const rivetCounts = ofModel((model): ReadonlyMap<RivetModel, number> => {
  const counts = new Map<RivetModel, number>();
  const add = (rivet: RivetModel, count: number) => counts.set(rivet, (counts.get(rivet) ?? 0) + count);
  for (const { rivet, count } of [...counted(model), ...inHinges(model)]) add(rivet, count);
  for (const { rivet, perBuild } of jointRivets(model)) add(rivet, perBuild);
  return counts;
});

const counted = gathered('seam', (seam, model) => {
  const rivet = seam.rivet();
  const count = rivet && countOf(model, seam);
  return rivet && count !== undefined ? [{ rivet, count }] : [];
});

/** Those that hold bought hinges. */
const inHinges = gathered('hinge', (hinge) => {
  const held = hinge.rivets();
  return held ? [{ rivet: held.rivet, count: held.count * hinge.make() }] : [];
});

function countOf(model: Model, seam: SeamModel): number | undefined {
  const shares = seam.shares();
  if (shares.length)
    return shares.reduce((sum, { seam: host }) => sum + (host?.kind === 'seam' ? model.seamOf(host).rows() : 1), 0);
  const row = seam.rivetCount()?.value;
  return row === undefined ? undefined : Math.max(0, row - takenFrom(model, seam).size) * seam.rows();
}

/** The places of a seam's row where another seam puts its own rivet. */
export const takenFrom = (model: Model, seam: SeamModel): ReadonlySet<number> =>
  taken(model).get(seam.named) ?? new Set();

const taken = ofModel((model): ReadonlyMap<Named, ReadonlySet<number>> => {
  const places = new Map<Named, Set<number>>();
  for (const { seam, position } of sharing(model)) {
    const have = places.get(seam);
    if (have) have.add(position);
    else places.set(seam, new Set([position]));
  }
  return places;
});

const sharing = gathered('seam', (seam) =>
  seam.rivet() ? seam.shares().flatMap(({ seam: host, position }) => (host ? [{ seam: host, position }] : [])) : [],
);
