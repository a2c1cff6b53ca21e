import { domeMeridian } from '../dome/dome.ts';
import { firstOf, notAboveNothing, reckon } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

/**
 * A flute across its run: the way over it, the strain across it, and the tightest radius at the middle of the thickness.
 *
 * `deep` and `wide` in mm. Its section is an arc up to half as deep as wide, half an oval beyond. The strain is that of metal
 * which is all stretched; drawn in from the sides it strains less, down to nothing, which is the low end.
 * Range: above nothing. Source: length of the section (derived).
 */
export function fluteSection({ deep, wide }: { deep: number; wide: number }): {
  way: Result;
  strain: Result;
  radius: Result;
} {
  const outside = firstOf(notAboveNothing('the flute’s depth', deep), notAboveNothing('the flute’s width', wide));
  const half = domeMeridian(wide, deep).value;
  const isArc = deep <= wide / 2;
  const source = isArc ? 'An arc over its chord (derived)' : 'Half an oval over its width (derived)';
  return {
    way: reckon({
      value: 2 * half,
      unit: 'mm',
      formula: 's = 2 × {half|mm}',
      symbols: { half },
      basis: 'geometry',
      source,
      outside,
    }),
    strain: reckon({
      value: Math.log((2 * half) / wide),
      low: 0,
      high: Math.log((2 * half) / wide),
      unit: 'ratio',
      formula: 'ε = ln({s|mm}/{w|mm})',
      symbols: { s: 2 * half, w: wide },
      basis: 'geometry',
      source,
      outside,
      note: 'All stretched. What is drawn in from the sides lessens it, down to nothing, and makes the plate narrower.',
    }),
    radius: reckon({
      value: isArc ? (wide * wide) / (8 * deep) + deep / 2 : (wide * wide) / (4 * deep),
      unit: 'mm',
      formula: isArc ? 'R = {w|mm}²/(8 × {h|mm}) + {h|mm}/2' : 'R = {w|mm}²/(4 × {h|mm})',
      symbols: { w: wide, h: deep },
      basis: 'geometry',
      source,
      outside,
    }),
  };
}
