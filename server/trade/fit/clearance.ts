import { firstOf, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

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

/**
 * Room (mm) left all round between a body with its liner and a closed form, if it is the same on every side.
 *
 * `inside` and `body` are ways round, `liner` the liner's thickness when worn, mm. Below nothing it does not go on.
 * Range: outlines without hollows that follow each other; an oval head in a round form has less at its ends.
 * Source: derived, as {@link enlargedGirth}.
 */
export function clearanceRound({ inside, body, liner }: { inside: number; body: number; liner: number }): Result {
  return reckon({
    value: (inside - body) / (2 * Math.PI) - liner,
    unit: 'mm',
    formula: 'c = ({inside} − {body})/2π − {liner}',
    symbols: { inside, body, liner },
    basis: 'geometry',
    source: 'A gap all round adds 2π times itself to the way round (derived)',
    outside: firstOf(
      notAtLeastNothing('the way round inside', inside),
      notAtLeastNothing('the way round the body', body),
      notAtLeastNothing('the liner', liner),
    ),
    note: 'If the form follows the body. A head is rounder than the oval of its length and breadth: fit by the way round first.',
  });
}

/** Room (mm) left on either side between a body with its liner and a form, from the widths of both. Range and source: as above. */
export function clearanceAcross({ inside, body, liner }: { inside: number; body: number; liner: number }): Result {
  return reckon({
    value: (inside - body) / 2 - liner,
    unit: 'mm',
    formula: 'c = ({inside} − {body})/2 − {liner}',
    symbols: { inside, body, liner },
    basis: 'geometry',
    source: 'Half of what the form is wider than the body (derived)',
    outside: firstOf(
      notAtLeastNothing('the width inside', inside),
      notAtLeastNothing('the width of the body', body),
      notAtLeastNothing('the liner', liner),
    ),
    note: 'If the body sits in the middle.',
  });
}

/**
 * Room (mm of way round) that is left when a head passes an opening: below nothing it needs a hinge or a cut.
 * Range: a round or oval opening, no hair. Source: the opening must be at least as far round as the head (derived).
 */
export function passRoom({ opening, head }: { opening: number; head: number }): Result {
  return reckon({
    value: opening - head,
    unit: 'mm',
    formula: 'room = {opening} − {head}',
    symbols: { opening, head },
    basis: 'geometry',
    source: 'Way round the narrowest opening less way round the head, no liner in the opening (derived)',
    outside: firstOf(notAtLeastNothing('the opening', opening), notAtLeastNothing('the head', head)),
    note: 'Hair, ears and a coif want 20 to 40 mm more (common practice, no source).',
  });
}

/** Way round inside a closed form, mm, from that at the middle of its thickness. Range: more than π thicknesses. Source: derived. */
export function insideRound({ middle, thickness }: { middle: number; thickness: number }): Result {
  return reckon({
    value: middle - Math.PI * thickness,
    unit: 'mm',
    formula: 'C = {middle} − π × {t}',
    symbols: { middle, t: thickness },
    basis: 'geometry',
    source: 'Half a thickness inside the middle of the plate; of the full circle, whatever the wrap',
    outside: firstOf(notAtLeastNothing('the girth', middle), notAtLeastNothing('the thickness', thickness)),
  });
}
