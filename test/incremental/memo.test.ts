import assert from 'node:assert/strict';
import fc from 'fast-check';
import {
  belonging,
  Cell,
  Each,
  Gathering,
  inCircle,
  kept,
  listenToWork,
  once,
  onceUnlessCircular,
  Roster,
  sameList,
} from '../../server/incremental/memo.ts';

/** What was worked out while `run` ran, in order. */
function workOf(run: () => void): string[] {
  const heard: string[] = [];
  const end = listenToWork((what) => heard.push(what));
  try {
    run();
  } finally {
    end();
  }
  return heard;
}

describe('a memo', () => {
  it('is worked out once, and again only after what it read has changed', () => {
    const a = new Cell(1);
    const b = new Cell(10);
    const sum = kept(() => a.get() + b.get(), undefined, 'sum');
    const double = kept(() => 2 * a.get(), undefined, 'double');
    assert.deepEqual(
      workOf(() => [sum(), double(), sum()]),
      ['sum', 'double'],
    );
    b.set(20);
    assert.deepEqual(
      workOf(() => assert.deepEqual([sum(), double()], [21, 2])),
      ['sum'],
    );
  });

  it('stands when its sources come out the same', () => {
    const text = new Cell('1.0 mm');
    const number = kept(() => Number.parseFloat(text.get()), undefined, 'number');
    const shown = kept(() => `${number()}`, undefined, 'shown');
    assert.equal(shown(), '1');
    text.set('1.00 mm');
    assert.deepEqual(workOf(shown), ['number']);
    text.set('2 mm');
    assert.deepEqual(workOf(shown), ['number', 'shown']);
  });

  it('forgets what it no longer reads', () => {
    const which = new Cell<'a' | 'b'>('a');
    const a = new Cell(1);
    const b = new Cell(2);
    const chosen = kept(() => (which.get() === 'a' ? a : b).get(), undefined, 'chosen');
    chosen();
    which.set('b');
    assert.equal(chosen(), 2);
    a.set(5);
    assert.deepEqual(workOf(chosen), []);
  });

  it('is as stale as a thing that belongs to it: what was read late counts too', () => {
    const size = new Cell(3);
    const thing = kept(() => ({ area: once(() => size.get() ** 2) }), undefined, 'thing');
    const reader = kept(() => thing().area() + 1, undefined, 'reader');
    assert.equal(reader(), 10);
    const before = thing();
    size.set(4);
    assert.deepEqual(
      workOf(() => assert.equal(reader(), 17)),
      ['thing', 'reader'],
    );
    assert.notEqual(thing(), before);
  });

  it('counts work that a thing does later as its own', () => {
    const size = new Cell(3);
    const thing = kept(() => {
      const own = belonging();
      return { size: () => own(() => size.get()) };
    });
    const reader = kept(() => thing().size());
    assert.equal(reader(), 3);
    size.set(4);
    assert.equal(reader(), 4);
  });

  it('that fails is asked again', () => {
    const divisor = new Cell(0);
    const quotient = kept(() => {
      if (divisor.get() === 0) throw new RangeError('nought');
      return 12 / divisor.get();
    });
    assert.throws(quotient, RangeError);
    assert.throws(quotient, RangeError);
    divisor.set(4);
    assert.equal(quotient(), 3);
  });

  it('for each key is dropped with the key', () => {
    const factor = new Cell(2);
    const keys = [{ n: 1 }, { n: 2 }] as const;
    const each = new Each<{ n: number }, number>(undefined, 'each');
    const list = new Cell<readonly { n: number }[]>(keys, sameList);
    const all = kept(() => list.get().map((key) => each.get(key, () => key.n * factor.get())), sameList, 'all');
    assert.deepEqual(all(), [2, 4]);
    list.set([keys[0]]);
    each.drop(keys[1]);
    assert.deepEqual(all(), [2]);
    factor.set(3);
    assert.deepEqual(
      workOf(() => assert.deepEqual(all(), [3])),
      ['each', 'all'],
    );
  });

  it('that needs itself comes out as for one who never asked before', () => {
    const on = new Cell(true);
    const make = () => {
      const things: Record<'a' | 'b', () => { value: () => number | undefined }> = {
        a: kept(() => ({ value: onceUnlessCircular(() => 1 + ((on.get() && things.b().value()) || 0)) })),
        b: kept(() => ({ value: onceUnlessCircular(() => 10 + ((on.get() && things.a().value()) || 0)) })),
      };
      return () => [things.a().value(), things.b().value()];
    };
    const old = make();
    assert.deepEqual(old(), [11, 10]);
    on.set(false);
    assert.deepEqual(old(), [1, 10]);
    on.set(true);
    assert.deepEqual(old(), make()());
  });

  it('that was in a circle is asked again after any change', () => {
    const other = new Cell(1);
    const odd = kept(
      () => {
        inCircle();
        return 7;
      },
      undefined,
      'odd',
    );
    const reader = kept(() => other.get());
    reader();
    odd();
    assert.deepEqual(workOf(odd), []);
    other.set(2);
    assert.deepEqual(workOf(odd), ['odd']);
  });

  it('gives what one without memory gives, whatever is set and asked in whatever order', () => {
    const step = fc.oneof(
      fc.record({ set: fc.nat(3), to: fc.integer({ min: 0, max: 3 }) }),
      fc.record({ ask: fc.nat(7) }),
    );
    // Each memo reads some of the cells and of the memos before it; which ones hangs on what it finds.
    const shape = fc.array(fc.array(fc.nat(20), { minLength: 1, maxLength: 4 }), { minLength: 8, maxLength: 8 });
    fc.assert(
      fc.property(shape, fc.array(step, { maxLength: 60 }), (reads, steps) => {
        const cells = [0, 1, 2, 3].map((value) => new Cell(value));
        const plain = [0, 1, 2, 3];
        const from = (i: number, k: number, memo: (j: number) => number, cell: (j: number) => number) =>
          k % (4 + i) < 4 ? cell(k % (4 + i)) : memo((k % (4 + i)) - 4);
        const sum = (i: number, memo: (j: number) => number, cell: (j: number) => number) => {
          let total = 0;
          for (const k of reads[i]!) {
            total += from(i, k, memo, cell);
            if (total % 3 === 2) break;
          }
          return total % 5;
        };
        const memos: (() => number)[] = reads.map((_, i) =>
          kept(() =>
            sum(
              i,
              (j) => memos[j]!(),
              (j) => cells[j]!.get(),
            ),
          ),
        );
        const fresh = (i: number): number => sum(i, fresh, (j) => plain[j]!);
        for (const each of steps) {
          if ('set' in each) {
            cells[each.set]!.set(each.to);
            plain[each.set] = each.to;
          } else assert.equal(memos[each.ask]!(), fresh(each.ask));
        }
      }),
      { numRuns: 3000 },
    );
  });

  it('in a long chain does not fill the stack when it is marked', () => {
    const first = new Cell(0);
    let last = kept(() => first.get());
    const chain = [last];
    for (let i = 0; i < 20_000; i++) {
      const before = last;
      last = kept(() => before() + 1);
      last();
      chain.push(last);
    }
    first.set(1);
    // From the first on, as a text is read.
    for (const each of chain) each();
    assert.equal(last(), 20_001);
  });
});

describe('a gathering', () => {
  interface Key {
    readonly brings: Cell<readonly number[]>;
  }

  const gatheringOf = (keys: Cell<readonly Key[]>, factor: Cell<number>) => {
    const each = new Each<Key, readonly number[]>(sameList, 'member');
    const memoOf = (key: Key) => each.memo(key, () => key.brings.get().map((n) => n * factor.get()));
    return { each, list: new Gathering<Key, number>(() => keys.get(), memoOf) };
  };

  /** In one column what they bring, in the other the even ones of it. */
  const rosterOf = (keys: Cell<readonly Key[]>, factor: Cell<number>) => {
    const each = new Each<Key, readonly (readonly unknown[])[]>(sameList, 'member');
    const memoOf = (key: Key) =>
      each.memo(key, () => {
        const brings = key.brings.get().map((n) => n * factor.get());
        return brings.length ? [brings, brings.filter(isEven)] : [];
      });
    return { each, roster: new Roster<Key>(() => keys.get(), memoOf, 2) };
  };
  const isEven = (n: number) => n % 2 === 0;

  it('asks only those of which something changed', () => {
    const all = Array.from({ length: 100 }, (_, at): Key => ({ brings: new Cell<readonly number[]>([at]) }));
    const { list } = gatheringOf(new Cell<readonly Key[]>(all, sameList), new Cell(1));
    assert.equal(list.get().length, 100);
    all[7]!.brings.set([7, 77]);
    assert.deepEqual(
      workOf(() => assert.deepEqual(list.get().slice(6, 10), [6, 7, 77, 8])),
      ['member'],
    );
  });

  it('forgets a new member that failed and is gone', () => {
    const [one, two]: Key[] = [1, 2].map((n) => ({ brings: new Cell<readonly number[]>([n]) }));
    const keys = new Cell<readonly Key[]>([one!, two!], sameList);
    const each = new Each<Key, readonly number[]>(sameList);
    let fails = true;
    const memoOf = (key: Key) =>
      each.memo(key, () => {
        if (fails && key === two) throw new Error('not yet');
        return key.brings.get();
      });
    const list = new Gathering<Key, number>(() => keys.get(), memoOf);
    assert.throws(() => list.get(), /not yet/);
    each.drop(two!);
    fails = false;
    const three: Key = { brings: new Cell<readonly number[]>([3]) };
    keys.set([one!, three]);
    assert.deepEqual(list.get(), [1, 3]);
  });

  it('of several lists asks each member once, and who reads one of them hangs on that alone', () => {
    const all = Array.from({ length: 100 }, (_, at): Key => ({ brings: new Cell<readonly number[]>([at]) }));
    const { roster } = rosterOf(new Cell<readonly Key[]>(all, sameList), new Cell(1));
    const count = kept(() => roster.list(0).length, undefined, 'how many');
    const even = kept(() => roster.tally(1).size, undefined, 'how many even ones');
    const ask = () => [count(), even()];
    assert.deepEqual(ask(), [100, 50]);
    all[7]!.brings.set([7, 77]);
    assert.deepEqual(
      workOf(() => assert.deepEqual(ask(), [101, 50])),
      ['member', 'how many'],
    );
    all[8]!.brings.set([9]);
    assert.deepEqual(
      workOf(() => assert.deepEqual(ask(), [101, 49])),
      ['member', 'how many', 'how many even ones'],
    );
  });

  it('holds what all of them bring, in their order, whatever comes, goes, moves or changes', () => {
    const step = fc.oneof(
      fc.record({ change: fc.nat(9), to: fc.array(fc.nat(3), { maxLength: 2 }) }),
      fc.record({ replace: fc.nat(9), by: fc.array(fc.array(fc.nat(3), { maxLength: 2 }), { maxLength: 2 }) }),
      fc.record({ move: fc.nat(9), before: fc.nat(9) }),
      fc.record({ factor: fc.nat(3) }),
      fc.constant('ask' as const),
    );
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
        const factor = new Cell(1);
        const keys = new Cell<readonly Key[]>([], sameList);
        const { each, list } = gatheringOf(keys, factor);
        const lists = rosterOf(keys, factor);
        const { roster } = lists;
        let now: Key[] = [];
        const make = (brings: readonly number[]): Key => ({
          brings: new Cell<readonly number[]>(brings, sameList),
        });
        const set = (next: Key[]) => {
          const gone = now.filter((key) => !next.includes(key));
          now = next;
          keys.set(next);
          for (const key of gone) {
            each.drop(key);
            lists.each.drop(key);
          }
        };
        for (const each of steps) {
          if (each === 'ask') list.get();
          else if ('change' in each) now[each.change]?.brings.set(each.to);
          else if ('replace' in each) set(now.toSpliced(each.replace, 1, ...each.by.map(make)));
          else if ('factor' in each) factor.set(each.factor);
          else {
            const moved = now[each.move];
            if (moved) set(now.toSpliced(each.move, 1).toSpliced(each.before, 0, moved));
          }
          if (each !== 'ask') continue;
          const all = now.flatMap((key) => key.brings.peek().map((n) => n * factor.peek()));
          assert.deepEqual(list.get(), all);
          for (const [at, column] of [all, all.filter(isEven)].entries()) {
            assert.deepEqual(roster.list(at), column);
            const counts = new Map<number, number>();
            for (const n of column) counts.set(n, (counts.get(n) ?? 0) + 1);
            assert.deepEqual(new Map(roster.tally(at)), counts);
          }
        }
      }),
      { numRuns: 2000 },
    );
  });
});
