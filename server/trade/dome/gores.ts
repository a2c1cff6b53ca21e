import { say } from '../../../l10n/say.ts';
import { notAboveNothing, reckon } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

/** Gores of one shape: which they are, and whether half of them are mirror images of the others. */
export interface Alike {
  readonly gores: readonly number[];
  readonly mirrored: boolean;
}

/**
 * The different gores of a dome, counted from the front: all of a round one are alike, those of an oval one front and back, left and
 * right. Source: the two planes in which an oval is like itself (geometry).
 */
export function differentGores({ long, wide, gores }: { long: number; wide: number; gores: number }): readonly Alike[] {
  if (long === wide) return [{ gores: numbers(gores), mirrored: false }];
  const found = new Map<number, number[]>();
  for (const which of numbers(gores)) {
    // From the nearer end of the long axis, in quarters of a gore, so that nothing is rounded.
    const turned = (4 * (which - 1)) % (2 * gores);
    const away = Math.min(turned, 2 * gores - turned);
    found.set(away, [...(found.get(away) ?? []), which]);
  }
  return [...found].map(([away, alike]) => ({ gores: alike, mirrored: away !== 0 && away !== gores }));
}

/** How many gores of one shape a dome has. Source: geometry. */
export const goresOfShape = ({ gores, mirrored }: Alike): Result =>
  reckon({
    value: gores.length,
    unit: 'count',
    formula: 'n = {n}',
    symbols: { n: gores.length },
    basis: 'geometry',
    source: say`As many as the dome has of this shape: gore ${gores.join(', ')}`,
    outside: notAboveNothing('their number', gores.length),
    note: mirrored ? 'Half of them are mirror images.' : undefined,
  });

const numbers = (to: number): number[] => Array.from({ length: to }, (_, i) => i + 1);
