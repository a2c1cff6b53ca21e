import type { Section } from '../../../grammar/tree.ts';
import { say } from '../../../l10n/say.ts';
import { kept } from '../../incremental/memo.ts';
import { Recent } from '../../incremental/steps.ts';
import { fitOf } from '../figures/fit.ts';
import { gathered, perModel, thingOf } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import type { JointPlate } from '../things/joint.ts';
import { frameOf, idOf, pieceNamed } from './body.ts';
import { hingedBy } from './hinged.ts';
import { jointLinks } from './joint-link.ts';
import { isStiff, linkedBy } from './link.ts';
import { type Seat, sameData, seatOf } from './seat.ts';

/*
 * Who is placed by whom: groups of what stiff seams join, in each a root and a tree of seams from it. It says nothing of lengths, so
 * it stands while plates only change their size, and with it every pose that does not hang on the plate that was edited.
 */

export interface Plan {
  readonly groups: readonly Group[];
  /** Pieces that have no seat of their own, and why. */
  readonly seatless: readonly Lost[];
}

/** What hangs together, and is drawn together. */
export interface Group {
  /** Unit that keeps its own frame. */
  readonly root: string;
  readonly rootBy: 'fits' | 'area' | 'alone';
  /** Units that have a place, each after the one that it is placed by. */
  readonly units: readonly PlannedUnit[];
  /** Every tie between two of them. */
  readonly ties: readonly PlannedTie[];
  /** Whether there are more ties than it needs: then all poses are found together. */
  readonly isRing: boolean;
  readonly bodies: readonly PlannedBody[];
  readonly lost: readonly Lost[];
}

export interface PlannedUnit {
  readonly unit: string;
  readonly by?: PlannedTie & { readonly parent: string };
}

/** The link of a seam, a joint or a hinge, by its place in the list of these. */
export interface PlannedTie {
  readonly seam: string;
  readonly nth: number;
  readonly one: string;
  readonly other: string;
}

export interface PlannedBody {
  readonly id: string;
  readonly piece: string;
  readonly copy: string;
  readonly unit: string;
}

/** What has no place. */
export interface Lost {
  readonly piece: string;
  readonly copy: string;
  readonly why: string;
  /** The seam that would place it if it gave an edge of it too. */
  readonly seam?: string;
}

export const planOf = perModel((model: Model): (() => Plan) => {
  return kept(() => planFor(model), sameData, 'plan');
});

interface PieceSaid {
  readonly key: string;
  readonly seat: Seat['kind'];
  readonly why?: string;
  readonly on?: string;
  readonly copies: 'one' | 'pair' | 'halves' | number;
  readonly fits: boolean;
  readonly name: string;
  /** Of each copy that there can be. */
  readonly units: readonly { readonly copy: string; readonly id: string; readonly unit: string }[];
}

/** What a seam says, or a joint or a hinge, which hold their plates as a seam does. */
interface SeamSaid {
  readonly kind: 'seam' | 'joint' | 'hinge';
  readonly key: string;
  readonly name: string;
  readonly alongs: readonly string[];
  readonly stacks: readonly (readonly { readonly piece: string; readonly copy: string }[])[];
  readonly ties: readonly { readonly one: string; readonly other: string }[];
  readonly why?: string;
}

/**
 * What each says. Who says the same again, whatever section it stands in now, says it by the same object: the plan is made anew only
 * where one says something else.
 */
function saidOf<Kind extends 'piece' | 'seam' | 'joint' | 'hinge', T>(
  kind: Kind,
  say: (model: Model, section: Section) => T,
) {
  const same = new Recent<T>(MOST_SAID);
  return gathered(kind, (thing, model): T[] => {
    const said = say(model, (thing as { named: { section: Section } }).named.section);
    return said === undefined ? [] : [same.get(JSON.stringify(said), () => said)];
  });
}
const MOST_SAID = 5_000;

const piecesSaid = saidOf('piece', (model, section): PieceSaid | undefined => {
  const piece = thingOf(model, 'piece', section);
  if (!piece || pieceNamed(model, piece.named.word.key) !== piece) return undefined;
  const seat = seatOf(piece);
  const base = { key: piece.named.word.key, name: piece.name, fits: fitOf(piece) !== undefined };
  const nowhere = (why: string): PieceSaid => ({ ...base, seat: 'none', why, copies: 'one', units: [] });
  if (seat.kind === 'none') return nowhere(seat.why);
  const frame = frameOf(piece, '');
  if (typeof frame === 'string') return nowhere(frame);
  const copies = typeof seat.copies === 'object' ? seat.copies.gores : seat.copies;
  return {
    ...base,
    seat: seat.kind,
    copies,
    units: namesOf(copies).flatMap((copy) => {
      const at = frameOf(piece, copy);
      return typeof at === 'string' ? [] : [{ copy, id: idOf(piece, copy), unit: at.unit }];
    }),
    ...(seat.kind === 'on' ? { on: seat.neighbour } : {}),
  };
});

function namesOf(copies: PieceSaid['copies']): readonly string[] {
  if (typeof copies === 'number') return Array.from({ length: copies }, (_, i) => `${i + 1}`);
  return copies === 'one' ? [''] : ['left', 'right'];
}

const seamsSaid = saidOf('seam', (model, section): SeamSaid | undefined => {
  const seam = thingOf(model, 'seam', section);
  if (!seam || !isStiff(seam)) return undefined;
  const { links, why } = linkedBy(seam);
  return {
    kind: 'seam',
    key: seam.named.word.key,
    name: seam.name,
    alongs: seam.along().map(({ piece }) => piece.named.word.key),
    stacks: seam
      .stacks()
      .map(({ layers }) =>
        layers.flatMap((layer) =>
          layer.piece && !layer.soft ? [{ piece: layer.piece.named.word.key, copy: layer.copy ?? '' }] : [],
        ),
      ),
    ties: links.map(({ one, other }) => ({ one: one.unit, other: other.unit })),
    ...(why === undefined ? {} : { why }),
  };
});

/** A joint holds each two plates that follow each other. */
const jointsSaid = saidOf('joint', (model, section): SeamSaid | undefined => {
  const joint = thingOf(model, 'joint', section);
  if (!joint) return undefined;
  const { links, why } = jointLinks(joint);
  const layer = ({ piece, copy }: JointPlate) => ({ piece: piece.named.word.key, copy });
  const plates = joint.plates().map(layer);
  return {
    kind: 'joint',
    key: joint.named.word.key,
    name: joint.name,
    alongs: plates.map(({ piece }) => piece),
    stacks: joint.swinging() ? [plates] : joint.pairs().map(({ upper, lower }) => [layer(upper), layer(lower)]),
    ties: links.map(({ one, other }) => ({ one: one.unit, other: other.unit })),
    ...(why === undefined ? {} : { why }),
  };
});

const hingesSaid = saidOf('hinge', (model, section): SeamSaid | undefined => {
  const hinge = thingOf(model, 'hinge', section);
  if (!hinge) return undefined;
  const { links, why } = hingedBy(hinge);
  return {
    kind: 'hinge',
    key: hinge.named.word.key,
    name: hinge.name,
    alongs: hinge.leaves().map(({ piece }) => piece.named.word.key),
    stacks: links.length
      ? links.map(({ one, other, copies }) =>
          [one, other].map(({ piece }, i) => ({ piece: piece.named.word.key, copy: copies[i]! })),
        )
      : [hinge.leaves().map(({ piece }) => ({ piece: piece.named.word.key, copy: '' }))],
    ties: links.map(({ one, other }) => ({ one: one.unit, other: other.unit })),
    ...(why === undefined ? {} : { why }),
  };
});

function planFor(model: Model): Plan {
  const pieces = piecesSaid(model).filter((each) => each !== undefined);
  const seams = [...seamsSaid(model), ...jointsSaid(model), ...hingesSaid(model)].filter((each) => each !== undefined);
  const byKey = new Map(pieces.map((piece) => [piece.key, piece]));
  const bodies = bodiesOf(pieces, byKey, seams);
  const unitOf = new Map(bodies.map(({ id, unit }) => [id, unit]));
  const bonds = seams.flatMap(({ stacks }) =>
    stacks.map((stack) => [...new Set(stack.flatMap((layer) => unitsOf(layer, byKey, unitOf)))]),
  );
  const groups = groupsOf(bodies, bonds);
  const ties = seams.flatMap(({ key, ties: own }) =>
    own.map((tie, nth): PlannedTie => ({ seam: key, nth, ...tie })).filter(({ one, other }) => one !== other),
  );
  const groupOf = new Map(groups.flatMap((units) => units.map((unit) => [unit, units] as const)));
  const known: Known = {
    byKey,
    bodiesIn: listed(bodies, ({ unit }) => [groupOf.get(unit)]),
    tiesAt: listed(ties, ({ one, other }) => [one, other]),
    tiesIn: listed(ties, ({ one }) => [groupOf.get(one)]),
    seamsOf: listed(seams, ({ stacks }) => new Set(stacks.flat().map(({ piece }) => piece))),
  };
  return {
    groups: groups.map((units) => groupFor(model, units, known)),
    seatless: pieces.flatMap(({ key, seat, why }) => (seat === 'none' ? [{ piece: key, copy: '', why: why! }] : [])),
  };
}

/** Every copy that stands in the build: of a pair the left one, and the right one where it is joined to something else by name. */
function bodiesOf(
  pieces: readonly PieceSaid[],
  byKey: ReadonlyMap<string, PieceSaid>,
  seams: readonly SeamSaid[],
): PlannedBody[] {
  const rights = new Set(
    seams.flatMap(({ stacks }) => stacks.flat().flatMap(({ piece, copy }) => (copy === 'right' ? [piece] : []))),
  );
  const hasRight = ({ key, copies, on }: PieceSaid): boolean =>
    copies === 'halves' ||
    (copies === 'pair' && (rights.has(key) || (on !== undefined && byKey.has(on) && hasRight(byKey.get(on)!))));
  return pieces.flatMap((said) =>
    said.units
      .filter(({ copy }) => copy !== 'right' || hasRight(said))
      .map(({ copy, id, unit }): PlannedBody => ({ id, piece: said.key, copy, unit })),
  );
}

function unitsOf(
  { piece, copy }: { readonly piece: string; readonly copy: string },
  byKey: ReadonlyMap<string, PieceSaid>,
  unitOf: ReadonlyMap<string, string>,
): string[] {
  const said = byKey.get(piece);
  if (!said || said.seat === 'none') return [];
  const unit = unitOf.get(copy === 'right' ? `${piece}|right` : piece);
  return unit === undefined ? [] : [unit];
}

/** Units that hang together, in the order of the spec. */
function groupsOf(bodies: readonly PlannedBody[], bonds: readonly (readonly string[])[]): string[][] {
  const beside = new Map<string, Set<string>>();
  for (const { unit } of bodies) if (!beside.has(unit)) beside.set(unit, new Set());
  for (const [first, ...others] of bonds)
    for (const other of others) {
      beside.get(first!)?.add(other);
      beside.get(other)?.add(first!);
    }
  const seen = new Set<string>();
  return [...beside.keys()].flatMap((start): string[][] => {
    if (seen.has(start)) return [];
    const group = [start];
    seen.add(start);
    for (const unit of group)
      for (const next of beside.get(unit) ?? [])
        if (!seen.has(next)) {
          seen.add(next);
          group.push(next);
        }
    return [group];
  });
}

/** What is known of each group, unit and piece: there may be thousands of each. */
interface Known {
  readonly byKey: ReadonlyMap<string, PieceSaid>;
  readonly bodiesIn: ReadonlyMap<readonly string[] | undefined, readonly PlannedBody[]>;
  readonly tiesAt: ReadonlyMap<string, readonly PlannedTie[]>;
  readonly tiesIn: ReadonlyMap<readonly string[] | undefined, readonly PlannedTie[]>;
  readonly seamsOf: ReadonlyMap<string, readonly SeamSaid[]>;
}

/** All of them by each of their keys, in their order. */
export function listed<K, T>(all: readonly T[], keysOf: (one: T) => Iterable<K>): Map<K, T[]> {
  const lists = new Map<K, T[]>();
  for (const one of all)
    for (const key of keysOf(one)) {
      const list = lists.get(key);
      if (list) list.push(one);
      else lists.set(key, [one]);
    }
  return lists;
}

function groupFor(model: Model, members: readonly string[], known: Known): Group {
  const { byKey, tiesAt, seamsOf } = known;
  const inGroup = new Set(members);
  const own = known.bodiesIn.get(members) ?? [];
  const fits = own.find(({ piece }) => byKey.get(piece)!.fits);
  const root = fits?.unit ?? (members.length === 1 ? members[0]! : largestOf(model, members));
  const units: PlannedUnit[] = [{ unit: root }];
  const placed = new Set([root]);
  for (const { unit } of units)
    for (const tie of tiesAt.get(unit) ?? []) {
      const next = tie.one === unit ? tie.other : tie.one;
      if (placed.has(next) || !inGroup.has(next)) continue;
      placed.add(next);
      units.push({ unit: next, by: { ...tie, parent: unit } });
    }
  const between = (known.tiesIn.get(members) ?? []).filter(({ one, other }) => placed.has(one) && placed.has(other));
  return {
    root,
    rootBy: fits ? 'fits' : members.length === 1 ? 'alone' : 'area',
    units,
    ties: between,
    isRing: between.length > units.length - 1,
    bodies: own.filter(({ unit }) => placed.has(unit)),
    lost: own
      .filter(({ unit }) => !placed.has(unit))
      .map(({ piece, copy }): Lost => ({ piece, copy, ...whyLost(byKey, piece, copy, seamsOf.get(piece) ?? []) })),
  };
}

/** Without a wearer the largest piece stays where it is. */
function largestOf(model: Model, units: readonly string[]): string {
  const area = (unit: string) => pieceNamed(model, unit.split('|')[0]!)?.figure('area')?.value ?? 0;
  return units.reduce((best, unit) => (area(unit) > area(best) ? unit : best));
}

/** Why no seam places it, in words, and the seam that could. */
function whyLost(
  byKey: ReadonlyMap<string, PieceSaid>,
  piece: string,
  copy: string,
  itsSeams: readonly SeamSaid[],
): { readonly why: string; readonly seam?: string } {
  const holding = itsSeams.filter(({ stacks }) =>
    stacks.some((stack) =>
      stack.some((layer) => layer.piece === piece && (layer.copy === '' || copy === '' || layer.copy === copy)),
    ),
  );
  const failed = holding.find(({ why, alongs }) => why !== undefined && alongs.includes(piece));
  if (failed) return { why: say`${failed.kind} “${failed.name}” cannot be measured: ${failed.why}` };
  const nameOf = (key: string) => byKey.get(key)?.name ?? key;
  const joining = holding.filter(({ kind }) => kind === 'seam');
  const half = joining.find(({ alongs }) => alongs.length > 0);
  if (half) {
    const onIt = half.alongs.includes(piece);
    const where = onIt ? piece : half.alongs[0]!;
    return { why: say`seam “${half.name}” tells its row on “${nameOf(where)}” alone`, seam: half.key };
  }
  const bare = joining[0];
  return { why: bare ? say`seam “${bare.name}” tells no edge that it runs along` : 'no seam tells where it lies' };
}
