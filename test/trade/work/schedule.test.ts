import assert from 'node:assert/strict';
import fc from 'fast-check';
import { type Job, type Schedule, schedule } from '../../../server/trade/work/schedule.ts';

const minutes = fc.integer({ min: 1, max: 60 });
const job = fc.record({
  minutes,
  kind: fc.constantFrom('sand', 'paint', 'rivet'),
  wait: fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: fc.integer({ min: 1, max: 300 }) }),
});
const SET_UP = { sand: 3, paint: 15, rivet: 5 } as const;

/** Jobs of which each may wait for earlier ones. */
const work = (most: number) =>
  fc
    .array(job, { minLength: 1, maxLength: most })
    .chain((jobs) =>
      fc.tuple(
        fc.constant(jobs.map((each): Job => ({ ...each, setUp: SET_UP[each.kind] }))),
        fc.array(fc.tuple(fc.nat(jobs.length - 1), fc.nat(jobs.length - 1)), { maxLength: 2 * jobs.length }),
      ),
    )
    .map(([jobs, pairs]) => {
      const after: number[][] = jobs.map(() => []);
      for (const [a, b] of pairs) if (a !== b) after[Math.min(a, b)]!.push(Math.max(a, b));
      return { jobs, after };
    });

/** The quickest of all orders, tried one by one. */
function quickest(jobs: readonly Job[], after: readonly (readonly number[])[]): number {
  const before = jobs.map((_, i) => after.flatMap((all, from) => (all.includes(i) ? [from] : [])));
  let best = Number.POSITIVE_INFINITY;
  const ends = new Array<number | undefined>(jobs.length).fill(undefined);
  const go = (done: number, now: number, kind: string | undefined, dry: number) => {
    if (Math.max(now, dry) >= best) return;
    if (done === jobs.length) {
      best = Math.max(now, dry);
      return;
    }
    for (const [i, each] of jobs.entries()) {
      if (ends[i] !== undefined || before[i]!.some((from) => ends[from] === undefined)) continue;
      const opens = before[i]!.reduce((most, from) => Math.max(most, ends[from]! + jobs[from]!.wait), 0);
      const end = Math.max(now, opens) + (each.kind === kind ? 0 : each.setUp) + each.minutes;
      ends[i] = end;
      go(done + 1, end, each.kind, Math.max(dry, end + each.wait));
      ends[i] = undefined;
    }
  };
  go(0, 0, undefined, 0);
  return best;
}

function keeps({ turns, makespan }: Schedule, jobs: readonly Job[], after: readonly (readonly number[])[]): void {
  assert.deepEqual(
    turns.map((turn) => turn.job).sort((a, b) => a - b),
    jobs.map((_, i) => i),
  );
  const ends = new Map(turns.map((turn) => [turn.job, turn.end]));
  const starts = new Map(turns.map((turn) => [turn.job, turn.start]));
  let hands = 0;
  for (const [i, turn] of turns.entries()) {
    const { minutes, setUp, kind, wait } = jobs[turn.job]!;
    assert.ok(turn.start >= hands, 'one pair of hands');
    hands = turn.end;
    assert.equal(turn.setUp, i > 0 && jobs[turns[i - 1]!.job]!.kind === kind ? 0 : setUp);
    assert.equal(turn.end - turn.start, turn.setUp + minutes);
    for (const to of after[turn.job]!) assert.ok(starts.get(to)! >= turn.end + wait, 'dry before it goes on');
    assert.ok(makespan >= ends.get(turn.job)! + wait);
  }
}

describe('an order of work for one pair of hands', () => {
  it('keeps every arrow and every drying time, and is never quicker than its bound', () => {
    fc.assert(
      fc.property(work(60), ({ jobs, after }) => {
        const made = schedule(jobs, after);
        keeps(made, jobs, after);
        assert.ok(made.makespan >= made.bound - 1e-9);
      }),
    );
  });

  it('lies between the bound and the quickest of all orders, tried one by one', () => {
    let worst = 1;
    fc.assert(
      fc.property(work(7), ({ jobs, after }) => {
        const { makespan, bound } = schedule(jobs, after);
        const best = quickest(jobs, after);
        assert.ok(bound <= best + 1e-9, `bound ${bound} over ${best}`);
        assert.ok(makespan >= best - 1e-9);
        assert.ok(makespan / best <= makespan / bound + 1e-9, 'no further off than it says');
        worst = Math.max(worst, makespan / best);
      }),
      { numRuns: 300 },
    );
    assert.ok(worst < 1.5, `at worst ${worst}`);
  });

  it('paints the next piece while the first one dries', () => {
    const coat = { kind: 'paint', setUp: 0, minutes: 10, wait: 60 };
    const jobs: Job[] = [coat, coat, coat, coat];
    // Two coats on each of two pieces.
    const { turns, makespan } = schedule(jobs, [[1], [], [3], []]);
    assert.deepEqual(
      turns
        .map((turn) => turn.job)
        .slice(0, 2)
        .sort(),
      [0, 2],
    );
    assert.equal(makespan, 10 + 60 + 10 + 10 + 60);
  });

  it('lays out once for all of a kind', () => {
    const of = (kind: string): Job => ({ kind, setUp: 20, minutes: 1, wait: 0 });
    const { makespan } = schedule([of('a'), of('b'), of('a'), of('b')], [[], [], [], []]);
    assert.equal(makespan, 44);
  });

  it('of nothing takes nothing', () => {
    assert.deepEqual(schedule([], []), { turns: [], makespan: 0, bound: 0 });
  });
});
