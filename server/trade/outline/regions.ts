import { joined } from './fit.ts';
import { meetings, signedArea, windingOf } from './measure.ts';
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
export function regionsOf(paths: readonly Path[]): Path[] {
  const nodes = new Nodes();
  const snapped = (point: Point): Point => nodes.point(nodes.at(point));
  // Without what is shorter than a point is wide, and still closed: the winding is told from these very spans.
  const spans = paths
    .flatMap(spansOf)
    .map((span) => ({ ...span, from: snapped(span.from), to: snapped(span.to) }))
    .filter((span) => chordOf(span) > 0);
  const pieces = cutWhereTheyMeet(spans, nodes);
  const kept = new Set<Piece>();
  const seen = new Set<string>();
  for (const piece of pieces) {
    const middle = pointOn(piece.span, 0.5);
    const { x, y } = headingOn(piece.span, 0.5);
    const left = windingOf(spans, { x: middle.x - y * BESIDE, y: middle.y + x * BESIDE });
    const right = windingOf(spans, { x: middle.x + y * BESIDE, y: middle.y - x * BESIDE });
    if (left <= 0 || right > 0) continue;
    // Lines that lie on each other count once.
    const key = `${piece.start} ${piece.end} ${Math.round(piece.span.bulge * 1e4)}`;
    if (!seen.has(key)) kept.add(piece);
    seen.add(key);
  }
  setRight(pieces, kept, spans);
  return loopsOf([...kept]);
}

/**
 * Every end of a kept piece is the beginning of another. Where lines run side by side nearer than one can look between them,
 * the winding is guessed and a loop may be left open: the shortest way that closes it is added, over pieces that were lost, or
 * taken out, back over pieces that were kept; those guessed come first.
 */
function setRight(pieces: readonly Piece[], kept: Set<Piece>, spans: readonly Span[]): void {
  const surplus = new Map<number, number>();
  const count = (node: number, by: number) => surplus.set(node, (surplus.get(node) ?? 0) + by);
  for (const { start, end } of kept) {
    count(end, 1);
    count(start, -1);
  }
  const open = [...surplus].flatMap(([node, by]): number[] => Array<number>(Math.max(0, by)).fill(node));
  if (!open.length) return;
  const costs = new Map(pieces.map((piece) => [piece, lengthOf(piece.span) * (isGuessed(piece, spans) ? GUESSED : 1)]));
  for (const from of open) {
    const way = cheapest(from, (node) => (surplus.get(node) ?? 0) < 0, pieces, kept, costs);
    for (const piece of way) if (!kept.delete(piece)) kept.add(piece);
    const last = way.at(-1);
    if (!last) continue;
    count(from, -1);
    count(kept.has(last) ? last.end : last.start, 1);
  }
}

/** What the length of a guessed piece counts for. */
const GUESSED = 1e-3;

/** Whether another line runs so near by that the winding beside the piece may be that beyond it. */
function isGuessed({ span }: Piece, spans: readonly Span[]): boolean {
  const middle = pointOn(span, 0.5);
  return spans.filter((other) => deviation(other, middle) < 2 * BESIDE).length > 1;
}

/** The pieces of the cheapest way from a node to one that is wanted: lost ones forwards, kept ones backwards. */
function cheapest(
  from: number,
  isWanted: (node: number) => boolean,
  pieces: readonly Piece[],
  kept: ReadonlySet<Piece>,
  costs: ReadonlyMap<Piece, number>,
): Piece[] {
  const reached = new Map<number, { cost: number; by?: Piece; before?: number }>([[from, { cost: 0 }]]);
  const done = new Set<number>();
  for (;;) {
    let node: number | undefined;
    for (const [each, { cost }] of reached)
      if (!done.has(each) && (node === undefined || cost < reached.get(node)!.cost)) node = each;
    if (node === undefined) return [];
    if (isWanted(node)) {
      const way: Piece[] = [];
      for (let at = reached.get(node)!; at.by; at = reached.get(at.before!)!) way.unshift(at.by);
      return way;
    }
    done.add(node);
    const { cost } = reached.get(node)!;
    for (const piece of pieces) {
      const [start, end] = kept.has(piece) ? [piece.end, piece.start] : [piece.start, piece.end];
      if (start !== node) continue;
      const whole = cost + costs.get(piece)!;
      if (whole < (reached.get(end)?.cost ?? Number.POSITIVE_INFINITY))
        reached.set(end, { cost: whole, by: piece, before: node });
    }
  }
}

interface Piece {
  readonly span: Span;
  readonly start: number;
  readonly end: number;
}

function cutWhereTheyMeet(spans: readonly Span[], nodes: Nodes): Piece[] {
  const cuts: { share: number; node: number }[][] = spans.map((span) => [
    { share: 0, node: nodes.at(span.from) },
    { share: 1, node: nodes.at(span.to) },
  ]);
  for (const { one, other, at } of meetings(spans)) {
    const node = nodes.at(at);
    // An end is known already, and so near to it a share would be guesswork.
    for (const i of [one, other])
      if (!cuts[i]!.some((cut) => cut.node === node)) cuts[i]!.push({ share: shareOf(spans[i]!, at), node });
  }
  return spans.flatMap((span, i): Piece[] => {
    const made: Piece[] = [];
    const order = cuts[i]!.sort((a, b) => a.share - b.share);
    let last = order[0]!;
    for (const cut of order.slice(1)) {
      const part = partOf(span, last.share, cut.share);
      const [from, to] = [nodes.point(last.node), nodes.point(cut.node)];
      if (cut.node !== last.node) made.push({ span: { from, to, bulge: part.bulge }, start: last.node, end: cut.node });
      last = cut;
    }
    return made;
  });
}

/** Points that are as good as one are one. */
class Nodes {
  private readonly points: Point[] = [];
  private readonly cells = new Map<string, number[]>();

  at(point: Point): number {
    const [cx, cy] = [Math.floor(point.x / ONE_POINT), Math.floor(point.y / ONE_POINT)];
    for (let i = cx - 1; i <= cx + 1; i++) {
      for (let j = cy - 1; j <= cy + 1; j++) {
        for (const node of this.cells.get(`${i} ${j}`) ?? []) {
          const have = this.points[node]!;
          if (Math.hypot(have.x - point.x, have.y - point.y) <= ONE_POINT) return node;
        }
      }
    }
    const node = this.points.push(point) - 1;
    const key = `${cx} ${cy}`;
    const cell = this.cells.get(key);
    if (cell) cell.push(node);
    else this.cells.set(key, [node]);
    return node;
  }

  point(node: number): Point {
    return this.points[node]!;
  }
}

/** Pieces put together to closed paths. */
function loopsOf(pieces: readonly Piece[]): Path[] {
  const leaving = new Map<number, Piece[]>();
  for (const piece of pieces) {
    const there = leaving.get(piece.start);
    if (there) there.push(piece);
    else leaving.set(piece.start, [piece]);
  }
  const used = new Set<Piece>();
  const paths: Path[] = [];
  for (const first of pieces) {
    if (used.has(first)) continue;
    const way: Piece[] = [];
    let next: Piece | undefined = first;
    while (next && !used.has(next)) {
      used.add(next);
      way.push(next);
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
    if (Math.abs(signedArea(path)) > ONE_POINT) paths.push(path);
  }
  return paths.sort((a, b) => signedArea(b) - signedArea(a));
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
