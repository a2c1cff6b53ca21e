import { formingLimit } from '../../trade/dome/dome.ts';
import { holeEdgeLeast, smallestPunchedHole, webLeast } from '../../trade/hole/punch.ts';
import type { Metal } from '../../trade/metal/metals.ts';
import {
  countersinkDepth,
  edgeDistance,
  flushLeastThickness,
  holeFor,
  pitchLimits,
  softEdgeDistance,
} from '../../trade/rivet/rivet.ts';

/*
 * The limits of the trade, each worked out once for a number: a spec has many seams and few shanks, and a check runs at
 * every keystroke.
 */

function remembered<K, T>(work: (of: K) => T): (of: K) => T {
  const known = new Map<K, T>();
  return (of) => {
    let have = known.get(of);
    if (have === undefined) {
      // Numbers come and go while one types: what was long ago is not kept.
      if (known.size >= 256) known.clear();
      have = work(of);
      known.set(of, have);
    }
    return have;
  };
}

export const pitchLimitsOf = remembered(pitchLimits);
export const edgeDistanceOf = remembered(edgeDistance);
export const softEdgeDistanceOf = remembered(softEdgeDistance);
export const rivetHoleOf = remembered(holeFor);
export const sinkDepthOf = remembered(countersinkDepth);
export const flushLeastOf = remembered(flushLeastThickness);
export const holeEdgeLeastOf = remembered(holeEdgeLeast);
export const webLeastOf = remembered(webLeast);

const punched = new WeakMap<Metal, ReturnType<typeof punchedHoles>>();
const punchedHoles = (metal: Metal) => remembered((thickness: number) => smallestPunchedHole({ thickness, metal }));

export function punchedLeastOf(metal: Metal, thickness: number) {
  let of = punched.get(metal);
  if (!of) {
    of = punchedHoles(metal);
    punched.set(metal, of);
  }
  return of(thickness);
}

const forming = remembered((hardening: number) =>
  remembered((thickness: number) => formingLimit({ thickness, hardening })),
);
export const formingLimitOf = (thickness: number, hardening: number) => forming(hardening)(thickness);
