import { MM_PER_INCH } from '../metal/gauges.ts';
import type { Sourced } from '../metal/metals.ts';
import { notAtLeastNothing, reckon } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

/** The soft goods that lie between and behind plates. */
export type SoftId = 'veg-tan leather' | 'leather' | 'rawhide' | 'lambskin' | 'goatskin' | 'felt' | 'foam';

export interface SoftMaterial {
  readonly id: SoftId;
  readonly title: string;
  /** g/cm³ */
  readonly density: Sourced;
  /** Share of the thickness lost under a rivet head, 0…1. */
  readonly compression: Sourced;
  /** The ounce weights it is usually sold in; undefined where it is not sold by the ounce. */
  readonly usualOunces?: { readonly low: number; readonly high: number };
}

/**
 * Thickness of a leather weight, mm: one ounce is a sixty-fourth of an inch.
 *
 * Range: nothing or more; hides are split within half an ounce or so, which the range shows.
 * Source: published leather weight charts.
 */
export function ounceThickness(oz: number): Result {
  return reckon({
    value: (oz / 64) * MM_PER_INCH,
    low: (Math.max(0, oz - 0.5) / 64) * MM_PER_INCH,
    high: ((oz + 0.5) / 64) * MM_PER_INCH,
    unit: 'mm',
    formula: 't = {oz} ÷ 64 × 25.4',
    symbols: { oz },
    basis: 'published',
    source: 'Published leather weight charts: 1 oz = 1/64 in',
    outside: notAtLeastNothing('the leather weight', oz),
    note: 'The trade rounds an ounce to 0.4 mm. A hide varies by about half an ounce over its area (common practice, no source).',
  });
}

/**
 * Thickness (mm) of leather held under a rivet head or a burr: it gives by a tenth to a fifth.
 *
 * Range: nothing or more. Source: common practice (no source).
 */
export function compressedThickness(thickness: number): Result {
  return reckon({
    value: thickness * (1 - COMPRESSION.value),
    low: thickness * (1 - COMPRESSION.high),
    high: thickness * (1 - COMPRESSION.low),
    unit: 'mm',
    formula: 't′ = {t|mm} × (1 − {c})',
    symbols: { t: thickness, c: COMPRESSION.value },
    basis: COMPRESSION.basis,
    source: COMPRESSION.source,
    outside: notAtLeastNothing('the thickness', thickness),
  });
}

const COMPRESSION = {
  value: 0.15,
  low: 0.1,
  high: 0.2,
  basis: 'common practice',
  source: 'Leather gives 10 to 20 % under a rivet: common practice (no source)',
} as const satisfies Sourced;

const SOFTER = {
  value: 0.5,
  low: 0.3,
  high: 0.7,
  basis: 'common practice',
  source: 'Felt and foam give a third to two thirds under a rivet: common practice (no source)',
} as const satisfies Sourced;

function density(value: number, low: number, high: number): Sourced {
  return { value, low, high, basis: 'published', source: 'Typical density, from memory' };
}

/** What the soft goods weigh and how they give. */
export const softMaterials: Readonly<Record<SoftId, SoftMaterial>> = {
  'veg-tan leather': {
    id: 'veg-tan leather',
    title: 'vegetable-tanned leather',
    density: density(0.92, 0.85, 1.0),
    compression: COMPRESSION,
    usualOunces: { low: 2, high: 16 },
  },
  leather: {
    id: 'leather',
    title: 'leather',
    density: density(0.88, 0.8, 1.0),
    compression: COMPRESSION,
    usualOunces: { low: 1, high: 16 },
  },
  rawhide: {
    id: 'rawhide',
    title: 'rawhide',
    density: density(1.2, 1.05, 1.35),
    compression: {
      value: 0.05,
      low: 0,
      high: 0.1,
      basis: 'common practice',
      source: 'Dry rawhide hardly gives: common practice (no source)',
    },
    usualOunces: { low: 4, high: 16 },
  },
  lambskin: {
    id: 'lambskin',
    title: 'lambskin',
    density: density(0.7, 0.6, 0.85),
    compression: COMPRESSION,
    usualOunces: { low: 1, high: 3 },
  },
  goatskin: {
    id: 'goatskin',
    title: 'goatskin',
    density: density(0.8, 0.7, 0.9),
    compression: COMPRESSION,
    usualOunces: { low: 1.5, high: 4 },
  },
  felt: { id: 'felt', title: 'wool felt', density: density(0.27, 0.18, 0.36), compression: SOFTER },
  foam: { id: 'foam', title: 'closed-cell foam', density: density(0.06, 0.03, 0.12), compression: SOFTER },
};
