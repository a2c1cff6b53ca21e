import { firstOf, notAtLeastNothing, reckon, when } from './reckon.ts';
import type { Result } from './result.ts';

/**
 * Girth (mm) of a closed line that runs a constant gap (mm) outside another of the given girth (mm): a helm round a
 * head and its liner, a shell round a shell.
 *
 * Exact for any closed outline without hollows, whatever its shape. Range: nothing or more in both.
 * Source: derived; the corners of the offset line add up to one full circle.
 */
export function enlargedGirth({ girth, gap }: { girth: number; gap: number }): Result {
  return reckon({
    value: girth + 2 * Math.PI * gap,
    unit: 'mm',
    formula: 'C′ = {C} + 2π × {c}',
    symbols: { C: girth, c: gap },
    basis: 'geometry',
    source: 'Parallel of a closed convex line: 2π times the gap longer, whatever the shape (derived)',
    outside: firstOf(notAtLeastNothing('the girth', girth), notAtLeastNothing('the gap', gap)),
  });
}

/**
 * Girth (mm) of a closed line that runs a constant gap (mm) inside another. The reverse of {@link enlargedGirth}.
 *
 * Range: the gap must leave something; on a tight oval the inner line may already fold at its ends before that.
 * Source: derived, as {@link enlargedGirth}.
 */
export function reducedGirth({ girth, gap }: { girth: number; gap: number }): Result {
  const value = girth - 2 * Math.PI * gap;
  return reckon({
    value,
    unit: 'mm',
    formula: 'C′ = {C} − 2π × {c}',
    symbols: { C: girth, c: gap },
    basis: 'geometry',
    source: 'Parallel of a closed convex line: 2π times the gap shorter, whatever the shape (derived)',
    outside: firstOf(
      notAtLeastNothing('the girth', girth),
      notAtLeastNothing('the gap', gap),
      when(value <= 0, 'the gap takes up the whole girth: nothing is left inside'),
    ),
  });
}
