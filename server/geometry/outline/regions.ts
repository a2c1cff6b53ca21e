import FlatQueue from 'flatqueue';
import { atOnce, manyByMany, type Steps } from '../../incremental/steps.ts';
import { joined } from './arcs.ts';
import { meetings, signedArea } from './measure.ts';
import type { Path } from './path.ts';
import {
  chordOf,
  deviation,
  headingOn,
  lengthOf,
  type Point,
  partOf,
  pathOf,
  pointOn,
  type Span,
  shareOf,
  spansOf,
} from './span.ts';
import { SpanIndex } from './span-index.ts';

/** How near two ends count as one, mm: well over the tolerance of an intersection, far under that of a cut. */
const ONE_POINT = 2e-5;
/** How far beside a line one looks to see what lies there, mm. */
const BESIDE = 5e-6;

/**
 * The outlines of all that closed paths go round anticlockwise more often than clockwise, mm. Outer outlines come
 * anticlockwise, holes clockwise; lines and arcs are cut where they cross, and stay what they are.
 *
 * That is how the loops are lost that an offset leaves where it runs into itself. Parts narrower than about 0.00002 mm are lost too.
 */
export const regionsOf = (paths: readonly Path[]): Path[] => atOnce(regionsIn(paths)) ?? [];

/** The same with stops; nothing where the lines are too many, or cross too often, to be gone through. */
export function* regionsIn(paths: readonly Path[]): Steps<Path[] | undefined> {
  const nodes = new Nodes();
  const snapped = (point: Point): Point => nodes.point(nodes.at(point));
  // Without what is shorter than a point is wide, and still closed: the winding is told from these very spans.
  const spans: Span[] = [];
  for (const path of paths)
    for (const given of spansOf(path)) {
      const span = { ...given, from: snapped(given.from), to: snapped(given.to) };
      if (!(chordOf(span) > 0)) continue;
      if (spans.push(span) % AT_ONCE === 0) yield undefined;
    }
  const pieces = yield* cutWhereTheyMeet(spans, nodes);
  if (!pieces) return undefined;
  const index = new SpanIndex(spans);
  const kept = new Set<Piece>();
  const seen = new Set<string>();
  for (const [i, piece] of pieces.entries()) {
    if (i % AT_ONCE === AT_ONCE - 1) yield undefined;
    const middle = pointOn(piece.span, 0.5);
    const { x, y } = headingOn(piece.span, 0.5);
    const left = index.winding({ x: middle.x - y * BESIDE, y: middle.y + x * BESIDE });
    const right = index.winding({ x: middle.x + y * BESIDE, y: middle.y - x * BESIDE });
    if (left <= 0 || right > 0) continue;
    // Lines that lie on each other count once.
    const key = `${piece.start} ${piece.end} ${Math.round(piece.span.bulge * 1e4)}`;
    if (!seen.has(key)) kept.add(piece);
    seen.add(key);
  }
  if (!(yield* setRight(pieces, kept, index))) return undefined;
  return yield* loopsOf([...kept]);
}

/** Pieces that are looked at before others may go first. */
const AT_ONCE = 200;

/**
 * Every end of a kept piece is the beginning of another. Where lines run side by side nearer than one can look between them,
 * the winding is guessed and a loop may be left open: the shortest way that closes it is added, over pieces that were lost, or
 * taken out, back over pieces that were kept; those guessed come first. Whether that was less work than can be waited for.
 */
function* setRight(pieces: readonly Piece[], kept: Set<Piece>, index: SpanIndex): Steps<boolean> {
  const surplus = new Map<number, number>();
  const count = (node: number, by: number) => surplus.set(node, (surplus.get(node) ?? 0) + by);
  for (const { start, end } of kept) {
    count(end, 1);
    count(start, -1);
  }
  const open = [...surplus].flatMap(([node, by]): number[] => Array<number>(Math.max(0, by)).fill(node));
  if (!open.length) return true;
  const costs = new Map<Piece, number>();
  const meeting = new Map<number, Piece[]>();
  for (const piece of pieces) {
    costs.set(piece, lengthOf(piece.span) * (isGuessed(piece, index) ? GUESSED : 1));
    if (costs.size % AT_ONCE === 0) yield undefined;
    for (const node of new Set([piece.start, piece.end])) {
      const there = meeting.get(node);
      if (there) there.push(piece);
      else meeting.set(node, [piece]);
    }
  }
  let steps = 0;
  for (const from of open) {
    yield undefined;
    const way = cheapest(from, (node) => (surplus.get(node) ?? 0) < 0, { meeting, kept, costs });
    steps += way.looked;
    if (steps > MOST_LOOKED) return false;
    for (const piece of way.pieces) if (!kept.delete(piece)) kept.add(piece);
    const last = way.pieces.at(-1);
    if (!last) continue;
    count(from, -1);
    count(kept.has(last) ? last.end : last.start, 1);
  }
  return true;
}

/** Pieces that are looked at in all to close loops. */
const MOST_LOOKED = 2_000_000;

/** What the length of a guessed piece counts for. */
const GUESSED = 1e-3;

/** Whether another line runs so near by that the winding beside the piece may be that beyond it. */
function isGuessed({ span }: Piece, index: SpanIndex): boolean {
  const middle = pointOn(span, 0.5);
  const box = { left: middle.x, right: middle.x, bottom: middle.y, top: middle.y };
  return index.near(box, 3 * BESIDE).filter((i) => deviation(index.spans[i]!, middle) < 2 * BESIDE).length > 1;
}

interface Net {
  /** The pieces that begin or end at a node. */
  readonly meeting: ReadonlyMap<number, readonly Piece[]>;
  readonly kept: ReadonlySet<Piece>;
  readonly costs: ReadonlyMap<Piece, number>;
}

/** The pieces of the cheapest way from a node to one that is wanted, lost ones forwards, kept ones backwards; and how many were looked at. */
function cheapest(
  from: number,
  isWanted: (node: number) => boolean,
  { meeting, kept, costs }: Net,
): { pieces: Piece[]; looked: number } {
  const reached = new Map<number, { cost: number; by?: Piece; before?: number }>([[from, { cost: 0 }]]);
  const done = new Set<number>();
  const queue = new FlatQueue<number>();
  queue.push(from, 0);
  let looked = 0;
  for (;;) {
    const node = queue.pop();
    if (node === undefined) return { pieces: [], looked };
    if (done.has(node)) continue;
    if (isWanted(node)) {
      const way: Piece[] = [];
      for (let at = reached.get(node)!; at.by; at = reached.get(at.before!)!) way.push(at.by);
      return { pieces: way.reverse(), looked };
    }
    done.add(node);
    const { cost } = reached.get(node)!;
    for (const piece of meeting.get(node) ?? []) {
      looked++;
      const [start, end] = kept.has(piece) ? [piece.end, piece.start] : [piece.start, piece.end];
      if (start !== node) continue;
      const whole = cost + costs.get(piece)!;
      if (!(whole < (reached.get(end)?.cost ?? Number.POSITIVE_INFINITY))) continue;
      reached.set(end, { cost: whole, by: piece, before: node });
      queue.push(end, whole);
    }
  }
}

interface Piece {
  readonly span: Span;
  readonly start: number;
  readonly end: number;
}

function* cutWhereTheyMeet(spans: readonly Span[], nodes: Nodes): Steps<Piece[] | undefined> {
  /** Of each span where it is cut, as shares of its way by the node there. */
  const cuts = yield* manyByMany(spans, ({ from, to }) => new Map([[nodes.at(from), 0]]).set(nodes.at(to), 1));
  let met = 0;
  for (const meeting of meetings(spans)) {
    if (meeting === 'stop') yield undefined;
    if (meeting === 'too many' || ++met > MOST_MEETINGS) return undefined;
    if (meeting === 'stop') continue;
    const { one, other, at } = meeting;
    const node = nodes.at(at);
    // An end is known already, and so near to it a share would be guesswork.
    for (const i of [one, other]) if (!cuts[i]!.has(node)) cuts[i]!.set(node, shareOf(spans[i]!, at));
  }
  const pieces: Piece[] = [];
  for (const [i, span] of spans.entries()) {
    if (i % AT_ONCE === AT_ONCE - 1) yield undefined;
    let last: { node: number; share: number } | undefined;
    for (const [node, share] of [...cuts[i]!].sort(([, a], [, b]) => a - b)) {
      if (last) {
        const part = partOf(span, last.share, share);
        const [from, to] = [nodes.point(last.node), nodes.point(node)];
        pieces.push({ span: { from, to, bulge: part.bulge }, start: last.node, end: node });
      }
      last = { node, share };
    }
  }
  return pieces;
}

/** Places where lines meet, in one question. Of an outline moved aside there are a few for each of its lines. */
const MOST_MEETINGS = 300_000;

/** Points that are as good as one are one. */
class Nodes {
  private readonly points: Point[] = [];
  private readonly cells = new Map<string, number[]>();

  at(point: Point): number {
    const { x, y } = point;
    const [left, right] = [cellOf(x - ONE_POINT), cellOf(x + ONE_POINT)];
    const [bottom, top] = [cellOf(y - ONE_POINT), cellOf(y + ONE_POINT)];
    for (let i = left; i <= right; i++) {
      for (let j = bottom; j <= top; j++) {
        for (const node of this.cells.get(`${i} ${j}`) ?? NO_NODES) {
          const have = this.points[node]!;
          if (Math.hypot(have.x - x, have.y - y) <= ONE_POINT) return node;
        }
      }
    }
    const node = this.points.push(point) - 1;
    const key = `${cellOf(x)} ${cellOf(y)}`;
    const cell = this.cells.get(key);
    if (cell) cell.push(node);
    else this.cells.set(key, [node]);
    return node;
  }

  point(node: number): Point {
    return this.points[node]!;
  }
}

const NO_NODES: readonly number[] = [];

/** So much wider than a point that hardly one lies near two cells, and so narrow that hardly two lie in one. */
const cellOf = (along: number): number => Math.floor(along / (50 * ONE_POINT));

/** Pieces put together to closed paths. */
function* loopsOf(pieces: readonly Piece[]): Steps<Path[]> {
  const leaving = new Map<number, Piece[]>();
  for (const piece of pieces) {
    const there = leaving.get(piece.start);
    if (there) there.push(piece);
    else leaving.set(piece.start, [piece]);
  }
  const used = new Set<Piece>();
  const found: { path: Path; area: number }[] = [];
  let count = 0;
  for (const first of pieces) {
    if (used.has(first)) continue;
    yield undefined;
    const way: Piece[] = [];
    let next: Piece | undefined = first;
    while (next && !used.has(next)) {
      used.add(next);
      way.push(next);
      if (++count % AT_ONCE === 0) yield undefined;
      if (next.end === first.start) break;
      next = mostLeft(
        next,
        (leaving.get(next.end) ?? []).filter((piece) => !used.has(piece)),
      );
    }
    if (way.at(-1)!.end !== first.start) continue;
    const spans = joined(
      way.map(({ span }) => span),
      true,
    );
    const path = pathOf(spans, true);
    const area = signedArea(path);
    if (Math.abs(area) > ONE_POINT) found.push({ path, area });
  }
  return found.sort((a, b) => b.area - a.area).map(({ path }) => path);
}

/** Where several go on from one point, the one furthest to the left: outlines that only touch then stay apart. */
function mostLeft(from: Piece, choices: readonly Piece[]): Piece | undefined {
  if (choices.length < 2) return choices[0];
  const back = headingOn(from.span, 1);
  const turn = (piece: Piece) => {
    const out = headingOn(piece.span, 0);
    return Math.atan2(back.x * out.y - back.y * out.x, back.x * out.x + back.y * out.y);
  };
  return choices.reduce((best, piece) => (turn(piece) > turn(best) ? piece : best));
}
