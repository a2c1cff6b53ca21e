import { say } from '../../../l10n/say.ts';
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
    formula: 'C′ = {C|mm} + 2π × {c|mm}',
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
    formula: 'C′ = {C|mm} − 2π × {c|mm}',
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
    formula: 'c = ({inside|mm} − {body|mm})/2π − {liner|mm}',
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
    formula: 'c = ({inside|mm} − {body|mm})/2 − {liner|mm}',
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
 * Room (mm of way round) that is left when a head, a hand or a foot passes an opening: below nothing it needs a hinge or a cut.
 * `what` is its name. Range: an opening that gives way to its shape, no hair. Source: the opening must be at least as far round (derived).
 */
export function passRoom({ opening, part, what }: { opening: number; part: number; what: string }): Result {
  return reckon({
    value: opening - part,
    unit: 'mm',
    formula: say`room = {opening|mm} − {${what}|mm}`,
    symbols: { opening, [what]: part },
    basis: 'geometry',
    source: say`Way round the narrowest place on the way less way round the ${what}, no liner in it (derived)`,
    outside: firstOf(notAtLeastNothing('the opening', opening), notAtLeastNothing(say`the ${what}`, part)),
    ...(what === 'head' ? { note: 'Hair, ears and a coif want 20 to 40 mm more (common practice, no source).' } : {}),
  });
}

/**
 * Way round inside a form, mm, from that at the middle of its thickness. `roll` is how far a rolled edge stands into it there.
 * Range: more than π thicknesses. Source: derived.
 */
export function insideRound({
  middle,
  thickness,
  roll = 0,
}: {
  middle: number;
  thickness: number;
  roll?: number;
}): Result {
  return reckon({
    value: middle - Math.PI * thickness - 2 * Math.PI * roll,
    unit: 'mm',
    formula: roll ? 'C = {middle|mm} − π × {t|mm} − 2π × {roll|mm}' : 'C = {middle|mm} − π × {t|mm}',
    symbols: { middle, t: thickness, roll },
    basis: 'geometry',
    source: say`Half a thickness inside the middle of the plate; of the full circle, whatever the wrap${roll ? say`; the edge is rolled inward there` : ''}`,
    outside: firstOf(
      notAtLeastNothing('the girth', middle),
      notAtLeastNothing('the thickness', thickness),
      notAtLeastNothing('the roll', roll),
    ),
  });
}

/** How far (mm) an edge rolled inward stands into a form, inside its plate. Range: nothing or more. Source: geometry (derived). */
export const rolledInto = ({ hollow, thickness }: { hollow: number; thickness: number }): number =>
  Math.max(0, hollow) + Math.max(0, thickness);

/**
 * Least room (mm) all round between two heights at which a form and a body are known, with the height where it is. The body and its
 * liner run straight from the one to the other.
 *
 * `roundAt` is the way round inside at a height. Range: the lower height first. Source: as {@link clearanceRound}; the body straight
 * between two measures is common practice (no source): a limb that swells between them has less.
 */
export function clearanceBetween(
  low: { height: number; body: number; liner: number },
  up: { height: number; body: number; liner: number },
  roundAt: (height: number) => number | undefined,
): { room: Result; height: number } | undefined {
  let least: { room: Result; height: number } | undefined;
  for (let i = 0; i <= STATIONS; i++) {
    const share = i / STATIONS;
    const height = low.height + (up.height - low.height) * share;
    const inside = roundAt(height);
    if (inside === undefined) continue;
    const body = low.body + (up.body - low.body) * share;
    const room = clearanceRound({ inside, body, liner: low.liner + (up.liner - low.liner) * share });
    if (!least || room.value < least.room.value) least = { room, height };
  }
  return (
    least && {
      ...least,
      room: {
        ...least.room,
        note: 'The body runs straight between the two measures (common practice, no source): where it swells there is less.',
      },
    }
  );
}
const STATIONS = 32;
