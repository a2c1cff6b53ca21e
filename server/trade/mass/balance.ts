import { say } from '../../../l10n/say.ts';
import { ends, type Interval } from '../reckoning/interval.ts';
import { firstOf, reckon } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

/** A part of what is worn: its mass, g, and how far in front of the axis its middle lies, mm (less than nothing: behind). */
export interface Weight {
  readonly mass: number;
  readonly front: number;
}

/**
 * How far in front of an axis the whole of some parts balances, mm. What lies nobody knows where (`loose`, g) is left out of
 * the value, and may lie anywhere as far as `reach` (mm) before or behind the axis: that is the range.
 *
 * Range: masses above nothing. Source: centre of mass of a sum of parts (definition).
 */
export function balance({
  parts,
  loose,
  reach,
}: {
  readonly parts: readonly Weight[];
  readonly loose: number;
  readonly reach: number;
}): Result {
  const placed = parts.reduce((sum, { mass }) => sum + mass, 0);
  const moment = parts.reduce((sum, { mass, front }) => sum + mass * front, 0);
  const value = moment / placed;
  const range: Interval = {
    value,
    low: (moment - loose * reach) / (placed + loose),
    high: (moment + loose * reach) / (placed + loose),
  };
  const share = loose / (placed + loose);
  return {
    ...reckon({
      value,
      unit: 'mm',
      formula: 'd = Σ m × d ÷ Σ m',
      symbols: {},
      basis: 'geometry',
      source: 'Centre of mass of a sum of parts, each plate as if it were even in thickness',
      ...ends(range),
      note:
        loose > 0
          ? say`The place of ${Math.max(1, Math.round(100 * share))} % of the mass is not known: hence the range.`
          : undefined,
      outside: firstOf(placed > 0 ? undefined : 'nothing has a place and a mass'),
    }),
    worked: `(${parts.map(({ mass, front }) => `${Math.round(mass)} × ${Math.round(front * 10) / 10}`).join(' + ')}) ÷ ${Math.round(placed)}`,
  };
}

const MIDDLE = {
  unit: 'mm',
  basis: 'geometry',
  source: 'Middle of the area of the form, Σ A × r ÷ Σ A over its triangles, at the middle of the thickness',
  note: 'As if the plate were even in thickness: a crown that is dished thin leaves it a little lower.',
} as const;

/** How high the middle of a form lies above its lower edge, mm, both by the form's own heights. Source: geometry. */
export const centreUp = (middle: number, edge: number): Result =>
  reckon({ ...MIDDLE, value: middle - edge, formula: 'h = {middle|mm} − {edge|mm}', symbols: { middle, edge } });

/** How far the middle of a form lies in front of its axis, mm. Source: geometry. */
export const centreFront = (middle: number): Result =>
  reckon({ ...MIDDLE, value: middle, formula: 'd = {middle|mm}', symbols: { middle } });

/**
 * Where the whole of some plates balances, mm along one way from where it is told. Range: any.
 * Source: centre of mass of a sum of parts (definition).
 */
export const wholeCentre = (middle: number, from: number, note: string): Result =>
  reckon({
    value: middle - from,
    unit: 'mm',
    formula: from === 0 ? 'd = {middle|mm}' : 'd = {middle|mm} − {from|mm}',
    symbols: { middle, from },
    basis: 'geometry',
    source: 'Σ m × r ÷ Σ m of all plates where they stand, each as if it were even in thickness',
    note,
  });
