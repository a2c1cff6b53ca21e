import { firstOf, notAboveNothing, notAtLeastNothing, reckon } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

const TANGENTS = 'Tangents from the ridge to the curve of the form across the line, R its radius (geometry)';
const HOLLOW = 'Two hollow sides, parabolas that run out level (geometry)';

/**
 * How wide a crease is, mm, and how far its ridge is turned, degrees. `curve` is how the form curves across the line, 1/mm; nothing
 * where it does not, or where the width is given: then its sides are parabolas. Range: above nothing. Source: derived.
 */
export function creaseMeasures({ deep, wide, curve }: { deep: number; wide: number; curve?: number | undefined }): {
  wide: Result;
  turn: Result;
} {
  const degrees = 180 / Math.PI;
  const shared = {
    basis: 'geometry',
    source: curve ? TANGENTS : HOLLOW,
    outside: firstOf(notAtLeastNothing('the depth', deep), notAboveNothing('the width', wide)),
  } as const;
  return {
    wide: reckon({
      ...shared,
      value: wide,
      unit: 'mm',
      formula: curve ? 'w = 2 × {R|mm} × acos({R|mm}/({R|mm} + {h|mm}))' : 'w = {w|mm}',
      symbols: curve ? { R: 1 / curve, h: deep } : { w: wide },
    }),
    turn: reckon({
      ...shared,
      value: degrees * (curve ? 2 * Math.acos(1 / (1 + deep * curve)) : 2 * Math.atan((4 * deep) / wide)),
      unit: 'deg',
      formula: curve ? 'α = 2 × acos({R|mm}/({R|mm} + {h|mm}))' : 'α = 2 × atan(4 × {h|mm}/{w|mm})',
      symbols: curve ? { R: 1 / curve, h: deep } : { h: deep, w: wide },
    }),
  };
}
