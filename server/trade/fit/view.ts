import { say } from '../../../l10n/say.ts';
import { firstOf, notAboveNothing, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import { plain, type Result } from '../reckoning/result.ts';

/** How far inward an eye sees past the nose, degrees, from memory. */
const NOSE_LIMIT = 60;
/** How much deeper than the brow a pupil may lie, mm: common practice (no source). */
export const DEEP_EYES = 20;

/** How far one eye sees with nothing before it, degrees from straight ahead: from memory. */
export const BARE = { inward: NOSE_LIMIT, outward: 100, up: 60, down: 75 } as const;

/**
 * A measure of what is seen past the plates of a helm, degrees, or the share of it, percent. `deep` is the same for eyes that lie deeper.
 * Range: plates that have a place, eyes that look straight ahead. Source: rays from both pupils (derived).
 */
export function seen(value: number, deep: number, unit: 'deg' | 'percent', note: string): Result {
  return reckon({
    value,
    ...(Math.abs(value - deep) < 0.05 ? {} : { low: Math.min(value, deep), high: Math.max(value, deep) }),
    unit,
    formula: unit === 'deg' ? 'α = {α}' : 'p = {p}',
    symbols: { α: value, p: value },
    basis: 'geometry',
    source: `Rays from both pupils past the placed plates and through their slots and holes, at both faces (derived); one eye sees ${BARE.inward}° inward, ${BARE.outward}° outward, ${BARE.up}° up and ${BARE.down}° down (from memory)`,
    outside: when(!Number.isFinite(value), 'no plate has a place'),
    note,
  });
}

/** How far across is seen, from the furthest to the left to the furthest to the right, degrees. Range and source: as {@link seen}. */
export function seenAcross(left: number, right: number, deep: number, note: string): Result {
  return {
    ...seen(left + right, deep, 'deg', note),
    formula: 'α = left + right',
    worked: `${plain(left)} + ${plain(right)}`,
  };
}

/**
 * What a wearer sees through one slot in front of both eyes, degrees: across with either eye, across with both at once,
 * and up and down.
 *
 * `wide` and `high` of the slot, `eyes` from pupil to pupil, `distance` from a pupil to the OUTER edge of the slot (liner,
 * ease and plate), mm; `above` says how far the slot's middle lies over the eyes. Each eye sees across to the far end, but
 * not past the nose; the near eye's outward ray is the other candidate.
 * Range: a level slot, eyes behind its middle. Source: geometry (derived); the nose’s 60° from memory.
 */
export function fieldOfView({
  wide,
  high,
  eyes,
  distance,
  above = 0,
}: {
  wide: number;
  high: number;
  eyes: number;
  distance: number;
  above?: number;
}): { total: Result; both: Result; high: Result } {
  const outside = firstOf(
    notAboveNothing('the slot’s width', wide),
    notAboveNothing('the slot’s height', high),
    notAtLeastNothing('the distance between the eyes', eyes),
    notAboveNothing('the distance to the eye', distance),
    when(!Number.isFinite(above), 'the slot’s place over the eyes is not a number'),
  );
  const far = degrees(Math.atan((wide + eyes) / 2 / distance));
  const near = degrees(Math.atan((wide - eyes) / 2 / distance));
  const nose = Math.min(NOSE_LIMIT, far);
  const symbols = { W: wide, p: eyes, x: distance };
  const source = 'Rays from the pupils past the ends of the slot (derived)';
  return {
    total: reckon({
      value: 2 * Math.max(nose, near),
      unit: 'deg',
      formula:
        near > nose
          ? 'α = 2 × arctan(({W|mm} − {p|mm})/2 ÷ {x|mm})'
          : far > NOSE_LIMIT
            ? 'α = 2 × 60°, the nose’s limit, less than 2 × arctan(({W|mm} + {p|mm})/2 ÷ {x|mm})'
            : 'α = 2 × arctan(({W|mm} + {p|mm})/2 ÷ {x|mm})',
      symbols,
      basis: 'geometry',
      source: say`${source}; inward not past the nose, about 60° (from memory)`,
      outside,
      note: 'A bicycle helmet must leave 105° clear to each side (16 CFR 1203.12): a benchmark, not a rule for armour.',
    }),
    both: reckon({
      value: Math.max(0, 2 * near),
      unit: 'deg',
      formula:
        wide > eyes ? 'α = 2 × arctan(({W|mm} − {p|mm})/2 ÷ {x|mm})' : 'α = 0 × {x|mm}: {W|mm} is no wider than {p|mm}',
      symbols,
      basis: 'geometry',
      source,
      outside,
    }),
    high: reckon({
      value: degrees(Math.atan((above + high / 2) / distance) - Math.atan((above - high / 2) / distance)),
      unit: 'deg',
      formula:
        above === 0
          ? 'β = 2 × arctan({s|mm}/2 ÷ {x|mm})'
          : 'β = arctan(({z|mm} + {s|mm}/2)/{x|mm}) − arctan(({z|mm} − {s|mm}/2)/{x|mm})',
      symbols: { s: high, x: distance, z: above },
      basis: 'geometry',
      source,
      outside,
      note: 'A thick plate takes a little more: its inner edge on one side, its outer on the other.',
    }),
  };
}

/**
 * What one eye sees across through a slot of its own, degrees, and how far outward of straight ahead.
 *
 * `offset` is the way from the middle of the face to the middle of the slot, on the side of that eye; `wide` of the slot,
 * `eyes` from pupil to pupil, `distance` from the pupil to the outer edge of the slot, mm. Inward not past the nose.
 * Range and source: as {@link fieldOfView}; below nothing outward, the eye sees only across the nose.
 */
export function oneEyeView({
  wide,
  eyes,
  distance,
  offset,
}: {
  wide: number;
  eyes: number;
  distance: number;
  offset: number;
}): { total: Result; outward: Result } {
  const outside = firstOf(
    notAboveNothing('the slot’s width', wide),
    notAtLeastNothing('the distance between the eyes', eyes),
    notAboveNothing('the distance to the eye', distance),
    notAtLeastNothing('the slot’s way from the middle', offset),
  );
  const out = degrees(Math.atan((offset + wide / 2 - eyes / 2) / distance));
  const inward = Math.min(NOSE_LIMIT, degrees(Math.atan((eyes / 2 - offset + wide / 2) / distance)));
  const symbols = { W: wide, p: eyes, x: distance, o: offset };
  const source = say`Rays from the pupil past both ends of its slot (derived); inward not past the nose, about ${NOSE_LIMIT}° (from memory)`;
  return {
    total: reckon({
      value: Math.max(0, out + inward),
      unit: 'deg',
      formula: 'α = arctan(({o|mm} + {W|mm}/2 − {p|mm}/2) ÷ {x|mm}) + arctan(({p|mm}/2 − {o|mm} + {W|mm}/2) ÷ {x|mm})',
      symbols,
      basis: 'geometry',
      source,
      outside,
    }),
    outward: reckon({
      value: out,
      unit: 'deg',
      formula: 'α = arctan(({o|mm} + {W|mm}/2 − {p|mm}/2) ÷ {x|mm})',
      symbols,
      basis: 'geometry',
      source,
      outside,
    }),
  };
}

const degrees = (radians: number): number => (radians * 180) / Math.PI;
