import type { Arrow, Operation } from './operation.ts';
import { reasonOf } from './reasons.ts';

/** What comes before what, without a circle. */
export interface Graph {
  readonly arrows: readonly Arrow[];
  /** Common practice that gave way to what must be and to the smith's own order. */
  readonly yielded: readonly Arrow[];
  /** What cannot be kept, each as the arrows that run in a circle; the last of each is left out of `arrows`. */
  readonly circles: readonly (readonly Arrow[])[];
}

/** Nobody reads more of them. */
const MOST_CIRCLES = 100;

/** Arrows without those that close a circle: what yields goes before what does not. Work grows with the arrows alone. */
export function withoutCircles(operations: readonly Operation[], arrows: readonly Arrow[]): Graph {
  const must = arrows.filter(({ reason }) => !reasonOf(reason).yields);
  const { closing, circles } = circlesIn<Operation, Arrow>(operations, must, MOST_CIRCLES);
  const kept = arrows.filter((arrow) => !closing.has(arrow));
  const yielded = givingWay(operations, kept);
  return { arrows: yielded.size ? kept.filter((arrow) => !yielded.has(arrow)) : kept, yielded: [...yielded], circles };
}

/** One thing before another. */
interface Before<Thing> {
  readonly from: Thing;
  readonly to: Thing;
}

/** Arrows that lead back to where one came from, and the first circles that they close, each from where it is come back to. */
export function circlesIn<Thing, Link extends Before<Thing>>(
  things: Iterable<Thing>,
  arrows: readonly Link[],
  most = Number.POSITIVE_INFINITY,
): { readonly closing: ReadonlySet<Link>; readonly circles: readonly (readonly Link[])[] } {
  const after = leaving<Thing, Link>(arrows);
  const closing = new Set<Link>();
  const circles: (readonly Link[])[] = [];
  const state = new Map<Thing, 'open' | 'done'>();
  for (const start of things) {
    if (state.has(start)) continue;
    const way: { readonly at: Thing; readonly by: Link | undefined; next: number }[] = [];
    const enter = (at: Thing, by: Link | undefined) => {
      state.set(at, 'open');
      way.push({ at, by, next: 0 });
    };
    enter(start, undefined);
    while (way.length) {
      const top = way[way.length - 1]!;
      const arrow = after.get(top.at)?.[top.next++];
      if (!arrow) {
        state.set(top.at, 'done');
        way.pop();
      } else if (!state.has(arrow.to)) enter(arrow.to, arrow);
      else if (state.get(arrow.to) === 'open') {
        closing.add(arrow);
        if (circles.length >= most) continue;
        const from = way.findIndex(({ at }) => at === arrow.to);
        circles.push([...way.slice(from + 1).flatMap(({ by }) => by ?? []), arrow]);
      }
    }
  }
  return { closing, circles };
}

/**
 * Of arrows of which those that do not yield run in no circle, the yielding ones that have to go. Only where they lie in a circle
 * with others is anything given up: there each operation waits for what does not yield, and no longer.
 */
function givingWay(operations: readonly Operation[], arrows: readonly Arrow[]): Set<Arrow> {
  const gone = new Set<Arrow>();
  const group = groupsOf(operations, leaving<Operation, Arrow>(arrows));
  const inside = arrows.filter(({ from, to }) => group.get(from) === group.get(to));
  if (!inside.length) return gone;
  const after = leaving<Operation, Arrow>(inside);
  const musts = new Map<Operation, number>();
  const waits = new Map<Operation, Set<Arrow>>();
  for (const arrow of inside) {
    if (!reasonOf(arrow.reason).yields) musts.set(arrow.to, (musts.get(arrow.to) ?? 0) + 1);
    waits.set(arrow.to, (waits.get(arrow.to) ?? new Set()).add(arrow));
    if (!waits.has(arrow.from)) waits.set(arrow.from, new Set());
  }
  const free = [...waits.keys()].filter((each) => !waits.get(each)!.size);
  // Those that only wait for what yields: taken when nothing is free.
  const almost = [...waits.keys()].filter((each) => !musts.get(each));
  const done = new Set<Operation>();
  for (;;) {
    const next = free.pop() ?? almost.shift();
    if (!next) return gone;
    if (done.has(next)) continue;
    done.add(next);
    for (const arrow of waits.get(next)!) gone.add(arrow);
    for (const arrow of after.get(next) ?? []) {
      const left = waits.get(arrow.to)!;
      left.delete(arrow);
      if (!reasonOf(arrow.reason).yields) {
        musts.set(arrow.to, musts.get(arrow.to)! - 1);
        if (!musts.get(arrow.to)) almost.push(arrow.to);
      }
      if (!left.size) free.push(arrow.to);
    }
  }
}

function leaving<Thing, Link extends Before<Thing>>(arrows: readonly Link[]): Map<Thing, Link[]> {
  const after = new Map<Thing, Link[]>();
  for (const arrow of arrows) {
    const have = after.get(arrow.from);
    if (have) have.push(arrow);
    else after.set(arrow.from, [arrow]);
  }
  return after;
}

/** Which operations lead to each other in circles, by a number for each such group: Tarjan’s strongly connected components. */
function groupsOf(
  operations: readonly Operation[],
  after: ReadonlyMap<Operation, readonly Arrow[]>,
): ReadonlyMap<Operation, number> {
  const group = new Map<Operation, number>();
  const index = new Map<Operation, number>();
  const low = new Map<Operation, number>();
  const open: Operation[] = [];
  let groups = 0;
  for (const start of operations) {
    if (index.has(start)) continue;
    const way: { readonly at: Operation; next: number }[] = [];
    const enter = (at: Operation) => {
      index.set(at, index.size);
      low.set(at, index.get(at)!);
      open.push(at);
      way.push({ at, next: 0 });
    };
    enter(start);
    while (way.length) {
      const top = way[way.length - 1]!;
      const to = after.get(top.at)?.[top.next++]?.to;
      if (to === undefined) {
        way.pop();
        const below = way[way.length - 1]?.at;
        if (below) low.set(below, Math.min(low.get(below)!, low.get(top.at)!));
        if (low.get(top.at) !== index.get(top.at)) continue;
        for (let each = open.pop()!; ; each = open.pop()!) {
          group.set(each, groups);
          if (each === top.at) break;
        }
        groups++;
      } else if (!index.has(to)) enter(to);
      else if (!group.has(to)) low.set(top.at, Math.min(low.get(top.at)!, index.get(to)!));
    }
  }
  return group;
}
