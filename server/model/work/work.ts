import type { Place, Section } from '../../../grammar/tree.ts';
import type { WorkKind } from '../../trade/usual/rates.ts';
import { rateOf } from '../../trade/usual/rates.ts';
import { gathered, ofModel } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import { type FinishWork, finishWork } from './finishing.ts';
import { type Graph, withoutCircles } from './graph.ts';
import { type LinkWork, linkWork } from './links.ts';
import { type PieceWork, pieceWork } from './of-piece.ts';
import { type Arrow, type Operation, operation, quantityOf, taking } from './operation.ts';
import { orders, type Step, saidHours } from './orders.ts';
import type { ReasonId } from './reasons.ts';

/** All that is done for one build, and what comes before what. */
export interface Work extends Graph {
  readonly operations: readonly Operation[];
}

const pieces = gathered('piece', (piece) => [{ section: piece.named.section, work: pieceWork(piece) }]);

/** All that is done, as far as the things of the spec and its orders say, each with its time. */
const allWork = ofModel((model): All => {
  const all: All = {
    pieces: new Map(pieces(model).map(({ section, work }) => [section, work])),
    links: linkWork(model),
    finishes: finishWork(model),
    extra: [],
    operations: [],
  };
  const operations = [
    ...[...all.pieces.values()].flatMap((work) => work.operations),
    ...all.links.flatMap((link) => [...link.early, link.fit, ...link.match, ...link.joins]),
    ...all.finishes.flatMap((finish) => finish.steps.map((step) => step.operation)),
  ];
  const extra = extraOf(model, all);
  return { ...all, extra, operations: [...operations, ...extra.map((each) => each.operation)] };
});

interface All {
  readonly pieces: ReadonlyMap<Section, PieceWork>;
  readonly links: readonly LinkWork[];
  readonly finishes: readonly FinishWork[];
  /** What only an order names. */
  readonly extra: readonly { readonly key: string; readonly section: Section; readonly operation: Operation }[];
  readonly operations: readonly Operation[];
}

/** Every operation of one build with its time: that of the smith's own `hours` where there are such. */
export const timedOperations = ofModel((model): readonly Operation[] => {
  const all = allWork(model);
  const own = new Map<Operation, Operation>();
  for (const { step, minutes } of saidHours(model)) {
    const meant = operationsOf(step, all);
    const known = meant.reduce((sum, { time }) => sum + (time?.value ?? 0), 0);
    for (const each of meant) {
      const share = known > 0 ? (each.time?.value ?? 0) / known : 1 / meant.length;
      own.set(each, taking(each, minutes * share));
    }
  }
  return own.size ? all.operations.map((each) => own.get(each) ?? each) : all.operations;
});

export const workOf = ofModel((model): Work => {
  const all = allWork(model);
  const operations = timedOperations(model);
  const timed = new Map(all.operations.map((each, i) => [each, operations[i]!]));
  const arrows = [...arrowsOf(all), ...ownArrows(model, all)];
  const graph = withoutCircles(
    operations,
    arrows.map((arrow) => ({ ...arrow, from: timed.get(arrow.from)!, to: timed.get(arrow.to)! })),
  );
  return { operations, ...graph };
});

export interface WorkedAt {
  readonly operations: readonly Operation[];
  /** Names of the seams, hinges and joints by which it meets others. */
  readonly links: readonly string[];
}

/** What is done at each piece, by itself, where it meets others and as it is finished. */
export const workedAtPieces = ofModel((model): ReadonlyMap<Section, WorkedAt> => {
  const all = allWork(model);
  const timed = new Map(timedOperations(model).map((each) => [each.key, each]));
  const at = new Map<Section, { operations: Operation[]; links: string[] }>();
  const add = (piece: Section, operations: readonly Operation[], link?: string) => {
    const have = at.get(piece) ?? { operations: [], links: [] };
    have.operations.push(...operations.map(({ key }) => timed.get(key)!));
    if (link !== undefined) have.links.push(link);
    at.set(piece, have);
  };
  for (const [piece, { operations }] of all.pieces) add(piece, operations);
  for (const { section, operation: each } of all.extra) add(section, [each]);
  for (const { pieces, early, fit, match, joins } of all.links)
    for (const piece of pieces) add(piece, [...early, fit, ...match, ...joins], fit.of.name);
  for (const { pieces, steps } of all.finishes)
    for (const piece of pieces)
      add(
        piece,
        steps.map((step) => step.operation),
      );
  return at;
});

/** What must, or commonly does, come before what. */
function arrowsOf({ pieces, links, finishes, extra }: All): Arrow[] {
  const arrows: Arrow[] = [...pieces.values(), ...finishes].flatMap((work) => work.arrows);
  const before = (from: readonly Operation[], to: readonly Operation[], reason: ReasonId) => {
    for (const a of from) for (const b of to) arrows.push({ from: a, to: b, reason });
  };
  const atPiece = new Map<Section, LinkWork[]>();
  for (const link of links) for (const piece of link.pieces) atPiece.set(piece, [...(atPiece.get(piece) ?? []), link]);

  for (const link of links) {
    const { fit, match, joins, early } = link;
    const works = link.pieces.flatMap((piece) => pieces.get(piece) ?? []);
    const shaped = works.flatMap((work) => work.shaped);
    const heat = works.flatMap((work) => work.heat);
    const [hot, cold] = parted(joins, isHot);
    before(shaped, early, 'edge-after-forming');
    before([...shaped, ...early], [fit], 'mates-shaped');
    before([fit], match, 'fitted-then-drilled');
    before([fit], joins, 'fitted-then-drilled');
    before(match, joins, 'holes-before-rivets');
    before(match, heat, 'hard-last');
    before(hot, heat, 'welded-before-hardened');
    before(heat, cold, link.isSoft ? 'leather-last' : 'hardened-apart');
  }

  for (const finish of finishes) {
    const steps = finish.steps;
    const first = steps[0];
    if (!first) continue;
    const covered = new Set(finish.pieces);
    const firstCoat = steps.findIndex(({ layer, isGreasy }) => layer === 'coat' && !isGreasy);
    const greasy = steps.findIndex(({ isGreasy }) => isGreasy);
    const bare = steps.slice(0, firstCoat < 0 ? (greasy < 0 ? undefined : greasy) : firstCoat);
    const dry = steps.filter(({ isGreasy }) => !isGreasy);
    const at = (i: number): Operation[] => (steps[i] ? [steps[i].operation] : []);
    const lastOf = (some: FinishWork['steps']): Operation[] => some.slice(-1).map((step) => step.operation);
    for (const piece of finish.pieces) {
      const work = pieces.get(piece);
      if (work) {
        before(work.shaped, [first.operation], 'surface-after-work');
        before(work.heat, [first.operation], 'heat-before-surface');
        before(lastOf(dry), work.hung, 'leather-after-coats');
      }
      for (const link of atPiece.get(piece) ?? []) {
        const [hot, cold] = parted(link.joins, isHot);
        before([...link.match, ...link.early], [first.operation], 'surface-after-work');
        before(hot, [first.operation], 'heat-before-surface');
        if (link.soft.includes(piece)) {
          // What is done to the leather itself.
          before(lastOf(steps), cold, 'coated-apart');
        } else if (link.isSoft) {
          const dusty = dry.filter(({ layer, isHot }) => layer !== 'coat' || isHot);
          before(lastOf(dusty), cold, 'leather-last');
          before(lastOf(dry), cold, 'leather-after-coats');
        } else {
          before(lastOf(bare), cold, 'reached-before-riveted');
          const isAllOver = link.pieces.every((each) => covered.has(each));
          if (firstCoat >= 0)
            if (isAllOver) before(cold, at(firstCoat), 'coat-over-rivets');
            else before(lastOf(dry), cold, 'coated-apart');
          before(cold, at(greasy), 'oiled-last');
        }
      }
    }
    if (finish.rivets.length && firstCoat >= 0)
      for (const link of links)
        if (link.rivets.some((rivet) => finish.rivets.includes(rivet)))
          before(link.joins, at(firstCoat), 'coat-over-rivets');
  }

  for (const { section, operation: each } of extra) {
    const work = pieces.get(section);
    if (!work) continue;
    const cut = work.operations.filter(({ kind }) => kind === 'cut');
    if (each.kind === 'fit') before(work.shaped, [each], 'mates-shaped');
    else {
      before(cut, [each], 'blank-before-forming');
      before(
        [each],
        (atPiece.get(section) ?? []).map(({ fit }) => fit),
        'mates-shaped',
      );
    }
  }
  // Both ways round one piece the same arrow comes more than once.
  const seen = new Set<string>();
  return arrows.filter(({ from, to, reason }) => {
    const key = `${from.key}\n${to.key}\n${reason}`;
    if (from === to || seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

const isHot = ({ kind }: Operation): boolean => kind === 'weld' || kind === 'solder';

function parted<T>(all: readonly T[], is: (each: T) => boolean): [T[], T[]] {
  const yes: T[] = [];
  const no: T[] = [];
  for (const each of all) (is(each) ? yes : no).push(each);
  return [yes, no];
}

// ---- the smith's own order -----------------------------------------------------------------------------------------------

function ownArrows(model: Model, all: All): Arrow[] {
  return orders(model).flatMap((chain) =>
    chain.slice(1).flatMap((step, i) => {
      const place: Place = { section: step.line.line.section, from: step.filled.from, to: step.filled.to };
      const before = chain[i]!;
      const [from, to] = [endsOf(operationsOf(before, all), -1), endsOf(operationsOf(step, all), 0)];
      const reason = before.filled.copy || step.filled.copy ? 'your-order-of-a-copy' : 'your-order';
      return from.flatMap((a) => to.flatMap((b): Arrow[] => (a === b ? [] : [{ from: a, to: b, reason, place }])));
    }),
  );
}

/** Of the steps of a finish, which follow each other anyway, the first or the last; else all of them. */
function endsOf(operations: readonly Operation[], at: 0 | -1): readonly Operation[] {
  const one = operations.at(at);
  return one?.of.kind === 'finish' && operations.every(({ section }) => section === one.section) ? [one] : operations;
}

/** Kinds of work that an operation of an order stands for. */
const MEANS: Readonly<Record<string, readonly WorkKind[]>> = {
  cut: ['cut'],
  file: ['file'],
  drill: ['drill', 'match'],
  punch: ['drill', 'match'],
  bend: ['bend', 'form'],
  roll: ['roll', 'hem'],
  dish: ['dish', 'raise'],
  raise: ['raise', 'dish'],
  'dish then raise': ['raise', 'dish'],
  planish: ['planish'],
  flute: ['flute'],
  crease: ['crease'],
  flare: ['flare'],
  texture: ['texture'],
  anneal: ['anneal'],
  harden: ['harden'],
  temper: ['temper'],
  weld: ['weld'],
  solder: ['solder'],
  fit: ['fit'],
  rivet: ['rivet'],
  polish: ['polish'],
};

/** What a step of an order stands for. */
function operationsOf({ named, operation: word, key }: Step, all: All): readonly Operation[] {
  if (!named) return [];
  const { section } = named;
  const own = all.extra.find((each) => each.key === key);
  if (own) return [own.operation];
  switch (named.kind) {
    case 'piece': {
      const work = all.pieces.get(section);
      if (!work) return [];
      if (word === undefined) return work.operations;
      return ofPiece(section, word, all);
    }
    case 'finish':
      return all.finishes.find((each) => each.section === section)?.steps.map((step) => step.operation) ?? [];
    default: {
      const link = all.links.find(({ fit }) => fit.section === section);
      return link ? (link.joins.length ? link.joins : [link.fit]) : [];
    }
  }
}

function ofPiece(
  section: Section,
  word: string,
  { pieces, links, finishes }: Omit<All, 'extra' | 'operations'>,
): readonly Operation[] {
  const kinds = MEANS[word] ?? [];
  const isMeant = ({ kind, called }: Operation) => kinds.includes(kind) || called === word;
  const on = () =>
    finishes.flatMap((finish) => (finish.pieces.includes(section) ? finish.steps.map((step) => step.operation) : []));
  if (word === 'finish') return on();
  if (word === 'polish') return on().filter(isMeant);
  const met = links
    .filter((link) => link.pieces.includes(section))
    .flatMap((link) => [link.fit, ...link.match, ...link.joins]);
  const found = [...(pieces.get(section)?.operations ?? []), ...met].filter(isMeant);
  // Dishing that is the first half of raising is done with it; what is both is meant as it is called.
  const called = found.filter(({ kind }) => kind === word);
  return called.length ? called : found;
}

/** What an order names that no line of the piece says. */
function extraOf(model: Model, all: Omit<All, 'extra' | 'operations'>): All['extra'] {
  const found = new Map<string, All['extra'][number]>();
  const steps = [...orders(model).flat(), ...saidHours(model).map(({ step }) => step)];
  for (const { named, operation: word, key, line, filled } of steps) {
    if (named?.kind !== 'piece' || word === undefined || found.has(key)) continue;
    const kind = MEANS[word]?.[0];
    if (!kind || !all.pieces.has(named.section) || ofPiece(named.section, word, all).length) continue;
    const area = model.figureOf(named, 'area');
    const quantity = { each: { value: 1 }, m: undefined, dm2: area && quantityOf(area) }[rateOf(kind).per];
    found.set(key, {
      key,
      section: named.section,
      operation: operation({
        of: { kind: 'piece', name: named.word.text },
        section: named.section,
        place: { section: line.line.section, from: filled.from, to: filled.to },
        kind,
        quantity,
      }),
    });
  }
  return [...found.values()];
}
