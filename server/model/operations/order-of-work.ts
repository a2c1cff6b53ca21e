import type { Place, Section } from '../../../grammar/tree.ts';
import { rateOf, type WorkKind } from '../../trade/usual/rates.ts';
import { gathered, ofModel } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import { type FinishWork, finishWork } from './finishing.ts';
import { circlesIn, type Graph, withoutCircles } from './graph.ts';
import { type LinkWork, linkWork } from './links.ts';
import { type PieceWork, pieceWork } from './of-piece.ts';
import { type Arrow, before, type Operation, operation, parted, quantityOf, taking } from './operation.ts';
import { orders, type Step, saidHours } from './orders.ts';
import { reasonOf } from './reasons.ts';

/** All that is done for one build, and what comes before what. */
export interface Work extends Graph {
  readonly operations: readonly Operation[];
}

const pieces = gathered('piece', (piece) => [{ section: piece.named.section, work: pieceWork(piece) }]);

/** All that is done, thing by thing, and what the orders of the spec name besides. */
const allWork = ofModel((model): All => {
  const things = {
    pieces: new Map(pieces(model).map(({ section, work }) => [section, work])),
    links: linkWork(model),
    finishes: finishWork(model),
  };
  return { ...things, extra: extraOf(model, things) };
});

interface Things {
  readonly pieces: ReadonlyMap<Section, PieceWork>;
  readonly links: readonly LinkWork[];
  readonly finishes: readonly FinishWork[];
}

interface All extends Things {
  /** What only an order names. */
  readonly extra: readonly { readonly key: string; readonly section: Section; readonly operation: Operation }[];
}

const operationsAt = ({ early, fit, match, joins }: LinkWork): Operation[] => [...early, fit, ...match, ...joins];

const operationsIn = ({ pieces, links, finishes, extra }: All): Operation[] => [
  ...[...pieces.values()].flatMap((work) => work.operations),
  ...links.flatMap(operationsAt),
  ...finishes.flatMap((finish) => finish.steps.map((step) => step.operation)),
  ...extra.map((each) => each.operation),
];

/** Every operation of one build with its time: that of the smith's own `hours` where there are such. */
export const timedOperations = ofModel((model): readonly Operation[] => {
  const all = allWork(model);
  const operations = operationsIn(all);
  const own = new Map<Operation, Operation>();
  for (const { step, minutes } of saidHours(model)) {
    const meant = operationsOf(step, all);
    const known = meant.reduce((sum, { time }) => sum + (time?.value ?? 0), 0);
    for (const each of meant) {
      const share = known > 0 ? (each.time?.value ?? 0) / known : 1 / meant.length;
      own.set(each, taking(each, minutes * share));
    }
  }
  return own.size ? operations.map((each) => own.get(each) ?? each) : operations;
});

export const workOf = ofModel((model): Work => {
  const all = allWork(model);
  const operations = timedOperations(model);
  const timed = new Map(operationsIn(all).map((each, i) => [each, operations[i]!]));
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
  for (const link of all.links) for (const piece of link.pieces) add(piece, operationsAt(link), link.fit.of.name);
  for (const { pieces, steps } of all.finishes)
    for (const piece of pieces)
      add(
        piece,
        steps.map((step) => step.operation),
      );
  return at;
});

/**
 * Orders of the spec that run in a circle with what must come first, each as its arrows. Asked at every key, so only what an order names is
 * looked at: of what must be, nothing leads from one thing to another but from what joins plates to their hardening.
 */
export const orderCircles = ofModel((model): Graph['circles'] => {
  const all = allWork(model);
  const own = ownArrows(model, all).filter(({ reason }) => !reasonOf(reason).yields);
  if (!own.length) return [];
  const named = new Set(own.flatMap(({ from, to }) => [from.section, to.section]));
  const links = all.links.filter(({ fit }) => named.has(fit.section));
  const met = new Set([...named, ...links.flatMap((link) => link.pieces)]);
  const arrows = [
    ...[...met].flatMap((section) => all.pieces.get(section)?.arrows ?? []),
    ...links.flatMap((link) => linkArrows(link, all)),
    ...all.finishes.flatMap((finish) => (named.has(finish.section) ? finish.arrows : [])),
    ...extraArrows(all, new Map()),
  ].filter(({ reason }) => !reasonOf(reason).yields);
  const every = [...arrows, ...own];
  return circlesIn<Operation, Arrow>(
    every.map(({ from }) => from),
    every,
  ).circles;
});

/** What must, or commonly does, come before what. */
function arrowsOf(all: All): Arrow[] {
  const { pieces, links, finishes } = all;
  const atPiece = new Map<Section, LinkWork[]>();
  for (const link of links) for (const piece of link.pieces) atPiece.set(piece, [...(atPiece.get(piece) ?? []), link]);
  const arrows = [
    ...[...pieces.values()].flatMap((work) => work.arrows),
    ...links.flatMap((link) => linkArrows(link, all)),
    ...finishes.flatMap((finish) => finishArrows(finish, all, atPiece)),
    ...extraArrows(all, atPiece),
  ];
  // Both ways round one piece the same arrow comes more than once.
  const seen = new Set<string>();
  return arrows.filter(({ from, to, reason }) => {
    const key = `${from.key}\n${to.key}\n${reason}`;
    if (from === to || seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

function linkArrows(link: LinkWork, { pieces }: Things): Arrow[] {
  const { fit, match, joins, early } = link;
  const works = link.pieces.flatMap((piece) => pieces.get(piece) ?? []);
  const shaped = works.flatMap((work) => work.shaped);
  const heat = works.flatMap((work) => work.heat);
  const [hot, cold] = parted(joins, isHot);
  return [
    ...before(shaped, early, 'edge-after-forming'),
    ...before([...shaped, ...early], [fit], 'mates-shaped'),
    ...before([fit], match, 'fitted-then-drilled'),
    ...before([fit], joins, 'fitted-then-drilled'),
    ...before(match, joins, 'holes-before-rivets'),
    ...before(match, heat, 'hard-last'),
    ...before(hot, heat, 'welded-before-hardened'),
    ...before(heat, cold, link.isSoft ? 'leather-last' : 'hardened-apart'),
  ];
}

type AtPiece = ReadonlyMap<Section, readonly LinkWork[]>;

function finishArrows(finish: FinishWork, { pieces, links }: Things, atPiece: AtPiece): Arrow[] {
  const arrows = [...finish.arrows];
  const add = (...given: Parameters<typeof before>) => arrows.push(...before(...given));
  const { steps } = finish;
  const first = steps.slice(0, 1).map((step) => step.operation);
  const covered = new Set(finish.pieces);
  const firstCoat = steps.findIndex(({ layer, isGreasy }) => layer === 'coat' && !isGreasy);
  const greasy = steps.findIndex(({ isGreasy }) => isGreasy);
  const bare = steps.slice(0, firstCoat < 0 ? (greasy < 0 ? undefined : greasy) : firstCoat);
  const dry = steps.filter(({ isGreasy }) => !isGreasy);
  const dusty = dry.filter(({ layer, isHot }) => layer !== 'coat' || isHot);
  const at = (i: number): Operation[] => (steps[i] ? [steps[i].operation] : []);
  const lastOf = (some: FinishWork['steps']): Operation[] => some.slice(-1).map((step) => step.operation);
  for (const piece of finish.pieces) {
    const work = pieces.get(piece);
    if (work) {
      add(work.shaped, first, 'surface-after-work');
      add(work.heat, first, 'heat-before-surface');
      add(lastOf(dry), work.hung, 'leather-after-coats');
    }
    for (const link of atPiece.get(piece) ?? []) {
      const [hot, cold] = parted(link.joins, isHot);
      add([...link.match, ...link.early], first, 'surface-after-work');
      add(hot, first, 'heat-before-surface');
      if (link.soft.includes(piece)) {
        // What is done to the leather itself.
        add(lastOf(steps), cold, 'coated-apart');
      } else if (link.isSoft) {
        add(lastOf(dusty), cold, 'leather-last');
        add(lastOf(dry), cold, 'leather-after-coats');
      } else {
        add(lastOf(bare), cold, 'reached-before-riveted');
        const isAllOver = link.pieces.every((each) => covered.has(each));
        if (isAllOver) add(cold, at(firstCoat), 'coat-over-rivets');
        else if (firstCoat >= 0) add(lastOf(dry), cold, 'coated-apart');
        add(cold, at(greasy), 'oiled-last');
      }
    }
  }
  if (finish.rivets.length)
    for (const link of links)
      if (link.rivets.some((rivet) => finish.rivets.includes(rivet)))
        add(link.joins, at(firstCoat), 'coat-over-rivets');
  return arrows;
}

function extraArrows({ pieces, extra }: All, atPiece: AtPiece): Arrow[] {
  return extra.flatMap(({ section, operation: each }) => {
    const { shaped, operations } = pieces.get(section)!;
    if (each.kind === 'fit') return before(shaped, [each], 'mates-shaped');
    const cut = operations.filter(({ kind }) => kind === 'cut');
    const fits = (atPiece.get(section) ?? []).map(({ fit }) => fit);
    return [...before(cut, [each], 'blank-before-forming'), ...before([each], fits, 'mates-shaped')];
  });
}

const isHot = ({ kind }: Operation): boolean => kind === 'weld' || kind === 'solder';

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

function ofPiece(section: Section, word: string, { pieces, links, finishes }: Things): readonly Operation[] {
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
function extraOf(model: Model, all: Things): All['extra'] {
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
