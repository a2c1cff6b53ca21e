import type { Problem } from '../../checks/check.ts';
import { patiently, type Steps } from '../../incremental/steps.ts';
import type { Arrow, Operation } from '../../model/operations/operation.ts';
import { type WorkedAt, workedAtPieces, workOf } from '../../model/operations/order-of-work.ts';
import { reasonOf } from '../../model/operations/reasons.ts';
import type { Model } from '../../model/spec.ts';
import type { PieceModel } from '../../model/things/piece.ts';
import { drillFor, holeFor } from '../../trade/rivet/rivet.ts';
import type { WorkKind } from '../../trade/usual/rates.ts';
import type { BuildSheet, Card, Measured, Turn, Why } from './build-sheet.ts';
import type { RivetInput } from './cut-list.ts';
import { blankOf, type CutListOptions, jobInSteps, notesOf, rivetsOf } from './cut-list-of.ts';
import { Places } from './explain.ts';
import { scheduled } from './scheduled.ts';

const NOTHING: WorkedAt = { operations: [], links: [] };

/** The work of a build in its order, and a card for each piece. */
export function* buildSheetInSteps(model: Model, options: CutListOptions): Steps<BuildSheet> {
  const job = yield* jobInSteps(model, options);
  const builds = job.make + job.spare;
  const work = yield* patiently(() => workOf(model));
  const { operations, arrows, yielded } = work;
  yield undefined;
  const made = scheduled(work, builds);
  yield undefined;
  const turnOf = new Map(made.turns.map(({ job: i }, at) => [operations[i]!, at + 1]));
  const places = new Places(model.file);
  const direct = nearest(arrows, turnOf);
  const turns = made.turns.map(({ job: i, start, setUp }, at): Turn => {
    const { key, kind, title, of, says, time, wait, place } = operations[i]!;
    return {
      number: at + 1,
      key,
      kind,
      title,
      of: of.name,
      says,
      ...(time ? { minutes: time.value * builds } : {}),
      ...(time?.low === undefined || time.high === undefined
        ? {}
        : { low: time.low * builds, high: time.high * builds }),
      setUp,
      start,
      ...(wait ? { wait: wait.value } : {}),
      after: direct.get(at + 1) ?? [],
      cautions: cautionsAt(kind, options.problems),
      line: places.at(place.section, place.from).line,
    };
  });
  const one = model.buildFigures().get('hours');
  const rivets = yield* rivetsOf(model);
  const worked = workedAtPieces(model);
  const cards: Card[] = [];
  for (const piece of model.pieces()) {
    yield undefined;
    cards.push(cardOf(piece, rivets, worked.get(piece.named.section) ?? NOTHING, turnOf));
  }
  return {
    ...job,
    builds,
    hours: {
      ...(one
        ? {
            one: {
              value: one.value,
              ...(one.low === undefined || one.high === undefined ? {} : { low: one.low, high: one.high }),
              formula: one.formula,
              worked: one.worked,
              basis: one.basis,
              source: one.source,
            },
          }
        : {}),
      hands: made.hands,
      waiting: Math.max(0, made.makespan - made.hands),
      throughout: made.makespan,
      least: made.bound,
      unknown: made.unknown,
    },
    turns,
    why: whys(arrows, turnOf),
    against: whys(yielded, turnOf),
    cards,
  };
}

/** Of the turns that each waits for, those behind which none of the others lies. */
function nearest(arrows: readonly Arrow[], turnOf: ReadonlyMap<Operation, number>): ReadonlyMap<number, number[]> {
  const before = new Map<number, Set<number>>();
  for (const { from, to } of arrows) {
    const at = turnOf.get(to)!;
    before.set(at, (before.get(at) ?? new Set()).add(turnOf.get(from)!));
  }
  const found = new Map<number, number[]>();
  for (const [at, all] of before) {
    const list = [...all].sort((a, b) => a - b);
    // One that another of them waits for by itself is said by that one.
    found.set(
      at,
      list.filter((each) => !list.some((other) => before.get(other)?.has(each))),
    );
  }
  return found;
}

function whys(arrows: readonly Arrow[], turnOf: ReadonlyMap<Operation, number>): Why[] {
  const by = new Map<Arrow['reason'], (readonly [number, number])[]>();
  for (const { from, to, reason } of arrows) {
    const pair = [turnOf.get(from)!, turnOf.get(to)!] as const;
    const have = by.get(reason);
    if (have) have.push(pair);
    else by.set(reason, [pair]);
  }
  return [...by].map(([reason, pairs]) => ({
    reason,
    why: reasonOf(reason).why,
    usual: reasonOf(reason).yields,
    pairs: pairs.sort((a, b) => a[1] - b[1] || a[0] - b[0]),
  }));
}

// ---- cautions --------------------------------------------------------------------------------------------------------

const HEAT: readonly WorkKind[] = ['anneal', 'raise', 'harden', 'temper', 'weld', 'solder', 'blue', 'blacken'];
/** At which work a caution matters. */
const MATTERS: Readonly<Record<string, readonly WorkKind[]>> = {
  'hot-work': HEAT,
  'zinc-fume': HEAT,
  'cadmium-plating': HEAT,
  'chromium-fume': ['weld', 'grind', 'sand', 'polish'],
  'lead-solder': ['solder'],
  'dust-and-noise': ['dish', 'raise', 'planish', 'texture', 'flute', 'crease', 'grind', 'sand', 'polish'],
  'aluminium-with-steel-dust': ['grind', 'sand', 'polish'],
  'patina-chemicals': ['patina', 'blacken'],
  solvent: ['prime', 'paint', 'dye', 'lacquer'],
  'sharp-edge': ['cut', 'file', 'trim', 'saw'],
};

const cautionsAt = (kind: WorkKind, problems: readonly Problem[]): string[] => [
  ...new Set(
    problems.flatMap(({ code, check }) => (check?.caution && MATTERS[code]?.includes(kind) ? [check.caution] : [])),
  ),
];

// ---- cards -----------------------------------------------------------------------------------------------------------

function cardOf(
  piece: PieceModel,
  rivets: readonly RivetInput[],
  worked: WorkedAt,
  turnOf: ReadonlyMap<Operation, number>,
): Card {
  const blank = blankOf(piece);
  const tightest = piece.figure('tightest-radius')?.value;
  return {
    piece: piece.name,
    material: piece.material()?.title() ?? 'not known',
    make: piece.make(),
    mirrored: piece.mirrored(),
    notes: notesOf(piece),
    ...(typeof blank === 'string'
      ? { noBlank: blank }
      : {
          blank: {
            long: blank.long,
            wide: blank.wide,
            round: blank.shape.kind === 'round',
            ownOutline: blank.shape.kind === 'outline',
            allowances: blank.allowances.map(({ edge, what, amount }) => ({ edge, what, amount })),
          },
        }),
    ...(tightest === undefined ? {} : { tightest }),
    openings: piece.openings().map(({ name, kind, count, long, wide, round, beforeForming }) => ({
      what: name?.text ?? kind,
      count,
      long,
      wide,
      round,
      now: beforeForming ? 'in the flat' : 'when formed',
    })),
    rivets: rivets.flatMap(({ name, diameter, uses }) =>
      uses
        .filter(({ seam }) => worked.links.includes(seam))
        .map(({ verdict: _, ...use }) => ({
          ...use,
          rivet: name,
          ...(use.hole === undefined ? {} : { drill: drillFor(holeFor(diameter)).value }),
        })),
    ),
    measures: measuresOf(piece),
    turns: worked.operations.map((each) => turnOf.get(each)!).sort((a, b) => a - b),
  };
}

/** What a log can say of it: thickness where forming changes it, the blank, the mass. */
function measuresOf(piece: PieceModel): Measured[] {
  const { name } = piece;
  const of = (what: string, figures: readonly string[]): Measured[] => {
    const found = figures.map((figure) => piece.figure(figure));
    const [first] = found;
    if (!first || found.some((each) => !each)) return [];
    return [
      {
        name: `${name} ${what}`,
        forecast: found.map((each) => each!.value),
        unit: first.unit === 'g' ? 'g' : 'mm',
        ...(found.length > 1 || first.low === undefined || first.high === undefined
          ? {}
          : { low: first.low, high: first.high }),
      },
    ];
  };
  return [
    ...(piece.figure('blank.diameter') ? of('blank', ['blank.diameter']) : of('blank', ['blank.long', 'blank.wide'])),
    ...of('crown', ['thickness.crown']),
    ...of('edge', ['thickness.edge']),
    ...of('mass', ['mass']),
  ];
}
