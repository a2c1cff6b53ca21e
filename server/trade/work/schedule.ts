import FlatQueue from 'flatqueue';

/** One thing to be done, minutes. */
export interface Job {
  /** Of the hands, without what it takes to lay out for it. */
  readonly minutes: number;
  /** What is laid out, lit or filled for it: what follows of the same kind needs it no more. */
  readonly kind: string;
  readonly setUp: number;
  /** What has to pass after it before what comes next. */
  readonly wait: number;
}

export interface Schedule {
  /** In the order in which they are done: each by its number, with when it is begun (laying out too) and when hands leave it. */
  readonly turns: readonly Turn[];
  /** When the last is done and dry. */
  readonly makespan: number;
  /** No order is quicker than this: all work with each kind laid out once, or the longest way of what waits for each other. */
  readonly bound: number;
}

export interface Turn {
  readonly job: number;
  readonly start: number;
  readonly end: number;
  /** Minutes of it to lay out. */
  readonly setUp: number;
}

/**
 * An order of work for one pair of hands, minutes from its beginning. By the longest way that is still to go, once with what is
 * laid out already first and once without: the quicker of the two. A rule of thumb, not the best there is; how far off it can be
 * at most, `bound` says.
 *
 * `after` has for each job what waits for it, and must be free of circles. Source: list scheduling by the longest remaining path
 * (T. C. Hu, Parallel sequencing and assembly line problems, Operations Research 9, 1961), from memory.
 */
export function schedule(jobs: readonly Job[], after: readonly (readonly number[])[]): Schedule {
  const tails = tailsOf(jobs, after);
  const kinds = new Map(jobs.map(({ kind, setUp }) => [kind, setUp]));
  const hands = [...jobs.map(({ minutes }) => minutes), ...kinds.values()].reduce((sum, each) => sum + each, 0);
  const shortest = jobs.reduce((least, { wait }) => Math.min(least, wait), Number.POSITIVE_INFINITY);
  const bound = jobs.length
    ? Math.max(
        hands + shortest,
        tails.reduce((most, tail) => Math.max(most, tail), 0),
      )
    : 0;
  const [one, other] = [true, false].map((stays) => inTurn(jobs, after, tails, stays));
  const best = one!.makespan <= other!.makespan ? one! : other!;
  return { ...best, bound };
}

/** From the beginning of each job to the end of all that waits for it, without laying out. */
function tailsOf(jobs: readonly Job[], after: readonly (readonly number[])[]): number[] {
  const tails = new Array<number>(jobs.length).fill(0);
  for (const i of backwards(jobs.length, after)) {
    const { minutes, wait } = jobs[i]!;
    const next = after[i]!.reduce((most, to) => Math.max(most, tails[to]!), 0);
    tails[i] = minutes + wait + next;
  }
  return tails;
}

/** Every job behind all that waits for it. */
function backwards(count: number, after: readonly (readonly number[])[]): number[] {
  const before = new Array<number>(count).fill(0);
  for (const all of after) for (const to of all) before[to]!++;
  const order = before.flatMap((many, i) => (many ? [] : [i]));
  for (let at = 0; at < order.length; at++) for (const to of after[order[at]!]!) if (!--before[to]!) order.push(to);
  return order.reverse();
}

function inTurn(
  jobs: readonly Job[],
  after: readonly (readonly number[])[],
  tails: readonly number[],
  stays: boolean,
): Omit<Schedule, 'bound'> {
  const waitsFor = new Array<number>(jobs.length).fill(0);
  for (const all of after) for (const to of all) waitsFor[to]!++;
  const opens = new Array<number>(jobs.length).fill(0);
  // The least comes out of such a queue first.
  const ready = new FlatQueue<number>();
  const ofKind = new Map<string, FlatQueue<number>>();
  const later = new FlatQueue<number>();
  const isDone = new Uint8Array(jobs.length);
  const isOpen = (i: number) => {
    ready.push(i, -tails[i]!);
    const { kind } = jobs[i]!;
    const same = ofKind.get(kind) ?? new FlatQueue<number>();
    ofKind.set(kind, same);
    same.push(i, -tails[i]!);
  };
  /** The same job stands in both queues: what is done by way of the one is passed over in the other. */
  const take = (queue: FlatQueue<number> | undefined): number | undefined => {
    for (let i = queue?.pop(); i !== undefined; i = queue?.pop()) if (!isDone[i]) return i;
    return undefined;
  };
  for (const [i, count] of waitsFor.entries()) if (!count) later.push(i, 0);
  const turns: Turn[] = [];
  let now = 0;
  let makespan = 0;
  let kind: string | undefined;
  while (turns.length < jobs.length) {
    while (later.length && later.peekValue()! <= now) isOpen(later.pop()!);
    const i = (stays && kind !== undefined ? take(ofKind.get(kind)) : undefined) ?? take(ready);
    if (i === undefined) {
      if (!later.length) throw new Error('The order of work runs in a circle.');
      now = later.peekValue()!;
      continue;
    }
    isDone[i] = 1;
    const job = jobs[i]!;
    const setUp = job.kind === kind ? 0 : job.setUp;
    kind = job.kind;
    const start = now;
    now += setUp + job.minutes;
    turns.push({ job: i, start, end: now, setUp });
    makespan = Math.max(makespan, now + job.wait);
    for (const to of after[i]!) {
      opens[to] = Math.max(opens[to]!, now + job.wait);
      if (!--waitsFor[to]!) later.push(to, opens[to]!);
    }
  }
  return { turns, makespan };
}
