import { type Flat, outlineOf } from './flatten.ts';
import { atVertices, percentile } from './strain.ts';

/*
 * What forming has made of a plate, whichever solver found it: τ = ln(t/t0) and the difference δ of the two strains in the
 * sheet, part by part. The effective strain is √(τ² + δ²/3). A blank that is larger or smaller by the same share everywhere
 * is the least energy of the same q and a constant more, so that τ moves by one number and δ stays.
 */

/** τ and δ at one place, and how much of the whole it stands for. */
export interface Place {
  readonly weight: number;
  readonly τ: number;
  readonly δ: number;
}

/** A formed plate by what was done to it. */
export interface Formed {
  /** Of the flat plate, without what its edges need: mm, mm². */
  readonly long: number;
  readonly wide: number;
  readonly area: number;
  /** Of the finished surface, mm². */
  readonly formedArea: number;
  /** Its parts by their finished areas. */
  readonly parts: { readonly areas: Float64Array; readonly τ: Float64Array; readonly δ: Float64Array };
  readonly crown: Place;
  readonly mid: Place;
  readonly edge: readonly Place[];
  /** ln of the finished length of the free edge over its length in the flat. */
  readonly along: number;
}

/** What is read off a formed plate. Thicknesses are shares of the start; strains are true. */
export interface Readings {
  /** Of the flat metal that is in it, mm and mm². */
  readonly long: number;
  readonly wide: number;
  readonly area: number;
  readonly mean: number;
  readonly crown: number;
  readonly mid: number;
  readonly edge: number;
  /** All but a fortieth of the surface is thicker, all but another thinner: the corners of a mesh are not to be trusted. */
  readonly least: number;
  readonly most: number;
  /** Effective strains. */
  readonly strainCrown: number;
  readonly strainEdge: number;
  /** What nineteen twentieths of the metal stay below. */
  readonly strain: number;
  /** Along the free edge, and square to it in the sheet: above nought it stretches. */
  readonly edgeAlong: number;
  readonly edgeAcross: number;
}

/** Reads a plate whose blank is so many times the area that it was found with. */
export function readingsOf(formed: Formed, share = 1): Readings {
  if (share !== 1) return read(formed, share);
  let readings = known.get(formed);
  if (!readings) {
    readings = read(formed, 1);
    known.set(formed, readings);
  }
  return readings;
}

/** A plate stands longer than the piece, which is made anew at every key that changes one of its lines. */
const known = new WeakMap<Formed, Readings>();

function read(formed: Formed, share: number): Readings {
  const more = Math.log(share);
  const { areas, τ, δ } = formed.parts;
  const effective = (tau: number, delta: number) => Math.hypot(tau + more, delta / Math.sqrt(3));
  const thickness = τ.map((each) => Math.exp(each + more));
  const meanOf = (places: readonly Place[], read: (place: Place) => number) => {
    const weight = places.reduce((sum, each) => sum + each.weight, 0);
    return places.reduce((sum, each) => sum + each.weight * read(each), 0) / weight;
  };
  const thick = (places: readonly Place[]) => Math.exp(more + meanOf(places, (place) => place.τ));
  const strained = (places: readonly Place[]) => meanOf(places, (place) => effective(place.τ, place.δ));
  const mean = (share * formed.area) / formed.formedArea;
  const crown = thick([formed.crown]);
  const mid = thick([formed.mid]);
  const edge = thick(formed.edge);
  const edgeAlong = formed.along - more / 2;
  const scale = Math.sqrt(share);
  return {
    long: scale * formed.long,
    wide: scale * formed.wide,
    area: share * formed.area,
    mean,
    crown,
    mid,
    edge,
    least: Math.min(percentile(thickness, areas, 0.025), crown, mid, edge, mean),
    most: Math.max(percentile(thickness, areas, 0.975), crown, mid, edge, mean),
    strainCrown: strained([formed.crown]),
    strainEdge: strained(formed.edge),
    strain: percentile(
      τ.map((each, i) => effective(each, δ[i]!)),
      areas,
      0.95,
    ),
    edgeAlong,
    edgeAcross: -Math.log(edge) - edgeAlong,
  };
}

/** Bands of depth in which a value is followed as a straight line by the depth, to be read at one depth of them. */
const CROWN = { from: 0.9, to: 1, at: 1 } as const;
export const MID = { from: 0.3, to: 0.7, at: 0.5 } as const;

/** What a plate that was laid flat by triangles has come to. */
export function formedOf(flat: Flat): Formed {
  const { topology, rest, strains, positions, depth } = flat;
  const { triangles, vertices, loops } = topology;
  const areas = new Float64Array(vertices);
  for (let i = 0; i < triangles.length; i++) areas[triangles[i]!]! += rest.areas[Math.floor(i / 3)]! / 3;
  const partsτ = strains.thickness.map(Math.log);
  const partsδ = strains.most.map((each, t) => each - strains.least[t]!);
  const τ = atVertices(topology, positions, partsτ);
  const δ = atVertices(topology, positions, partsδ);
  const atVertex = (vertex: number, weight: number): Place => ({ weight, τ: τ[vertex]!, δ: δ[vertex]! });
  // Where an edge is part of a seam the depth is above nought.
  const edge: Place[] = [];
  let [formed, laid] = [0, 0];
  for (const loop of loops) {
    loop.forEach((from, i) => {
      const to = loop[(i + 1) % loop.length]!;
      if (depth[from]! !== 0 || depth[to]! !== 0) return;
      const apart = Math.hypot(
        flat.surface.positions[3 * to]! - flat.surface.positions[3 * from]!,
        flat.surface.positions[3 * to + 1]! - flat.surface.positions[3 * from + 1]!,
        flat.surface.positions[3 * to + 2]! - flat.surface.positions[3 * from + 2]!,
      );
      edge.push(atVertex(from, apart / 2), atVertex(to, apart / 2));
      formed += apart;
      laid += Math.hypot(positions[2 * to]! - positions[2 * from]!, positions[2 * to + 1]! - positions[2 * from + 1]!);
    });
  }
  // Triangles leave out what lies between a chord and its arc, flat and formed alike.
  const { area } = outlineOf(flat);
  return {
    long: flat.long,
    wide: flat.wide,
    area,
    formedArea: (area * flat.formedArea) / flat.flatArea,
    parts: { areas: rest.areas, τ: partsτ, δ: partsδ },
    crown: placeAt(CROWN, depth, areas, τ, δ),
    mid: placeAt(MID, depth, areas, τ, δ),
    edge,
    along: Math.log(formed / laid),
  };
}

/** Values at one depth, from all in a band about it: where a bowl is, they hang on the depth evenly enough. */
export function placeAt(
  band: { readonly from: number; readonly to: number; readonly at: number },
  depth: Float64Array,
  areas: Float64Array,
  τ: Float64Array,
  δ: Float64Array,
): Place {
  let [n, x, xx, v, xv, w, xw] = [0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < depth.length; i++) {
    if (depth[i]! < band.from || depth[i]! > band.to) continue;
    const [weight, away] = [areas[i]!, depth[i]! - band.at];
    n += weight;
    x += weight * away;
    xx += weight * away * away;
    v += weight * τ[i]!;
    xv += weight * away * τ[i]!;
    w += weight * δ[i]!;
    xw += weight * away * δ[i]!;
  }
  const spread = xx - (x * x) / n;
  const read = (sum: number, cross: number) => {
    const slope = spread > 1e-9 * n ? (cross - (x * sum) / n) / spread : 0;
    return (sum - slope * x) / n;
  };
  return { weight: n, τ: read(v, xv), δ: Math.max(0, read(w, xw)) };
}
