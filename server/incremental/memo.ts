/*
 * What was worked out stays good as long as nothing that it read has changed. Whoever works something out is noted as a
 * reader of all that it reads on the way, so nobody has to say what depends on what:
 *
 *   - a `Cell` is given from outside: the sections of a text, who bears a name;
 *   - a `Memo` is worked out when somebody asks, and again only when something that it read has become another value;
 *   - `once` belongs to the memo that was being worked out when it was made: a plate is a memo, and all that is known of
 *     it is read through its `once`s; when anything that any of them read changes, the whole plate is made anew.
 *
 * A change marks its readers stale and theirs doubtful. Who is doubtful and asked for asks its sources first: if they
 * came out the same, it stands. Nothing is worked out before somebody asks.
 *
 * **Invariant:** what a memo gives must not hang on anything that changes and is neither a cell nor a memo. Places count
 * from their section, so the shifting of a text changes nothing.
 */

import { patiently, pause, type Steps } from './steps.ts';

const FRESH = 0;
const DOUBTFUL = 1;
const STALE = 2;
type State = typeof FRESH | typeof DOUBTFUL | typeof STALE;

/** Equality by which a new value counts as the old one. */
export type Same<T> = (a: T, b: T) => boolean;

/** What is being worked out now, the innermost last. */
const working: Reckoning[] = [];
/** What came out as the question was asked, since it needs itself: good until anything changes. */
const passing = new Set<Reckoning>();
let listener: ((what: string) => void) | undefined;

/** A set. Nearly all of ours are empty or hold a few, and there are tens of thousands: as lists they take a fifth of the room. */
type Few<T> = readonly T[] | Set<T>;

const NOTHING: readonly never[] = [];
const MOST_OF_FEW = 8;

const has = <T>(few: Few<T>, each: T): boolean => (few instanceof Set ? few.has(each) : few.includes(each));

/** With one more, that is not there yet. */
function withOne<T>(few: Few<T>, each: T): Few<T> {
  if (few instanceof Set) return few.add(each);
  const { length } = few;
  if (length === 0) return [each];
  if (length === MOST_OF_FEW) return new Set(few).add(each);
  // Called hundreds of times at every key: `concat` takes three times as long, and `push` keeps room for sixteen more.
  const more = new Array<T>(length + 1);
  for (let i = 0; i < length; i++) more[i] = few[i]!;
  more[length] = each;
  return more;
}

function without<T>(few: Few<T>, each: T): Few<T> {
  if (few instanceof Set) {
    few.delete(each);
    return few;
  }
  if (!few.includes(each)) return few;
  return few.length === 1 ? NOTHING : few.filter((other) => other !== each);
}

const isEmpty = (few: Few<unknown>): boolean => (few instanceof Set ? few.size === 0 : few.length === 0);

abstract class Source {
  protected readers: Few<Reckoning> = NOTHING;

  /** Notes whoever is being worked out as a reader. */
  isRead(): void {
    const reader = working[working.length - 1];
    // Most reads are one reader's that has read this before.
    if (reader === undefined || (reader === this.lastReader && reader.life === this.lastLife)) return;
    this.lastReader = reader;
    this.lastLife = reader.life;
    if ((reader as Source) !== this && reader.notes(this)) this.readers = withOne(this.readers, reader);
  }
  private lastReader: Reckoning | undefined;
  private lastLife = 0;

  isUnread(): boolean {
    return isEmpty(this.readers);
  }

  leave(reader: Reckoning): void {
    this.readers = without(this.readers, reader);
    if (this.lastReader === reader) this.lastReader = undefined;
  }

  /** Makes sure that the value is the one that holds now. */
  abstract settle(): void;

  protected hasChanged(): void {
    for (const reader of this.readers) reader.mark(STALE, this);
  }

  /** Its readers may read something else now. Those that have theirs to tell are put into `open`. */
  makesDoubtful(open: Reckoning[]): void {
    for (const reader of this.readers) if (reader.doubts(this)) open.push(reader);
  }
}

/** A value given from outside. */
export class Cell<T> extends Source {
  constructor(
    private value: T,
    private readonly same: Same<T> = Object.is,
  ) {
    super();
  }

  get(): T {
    this.isRead();
    return this.value;
  }

  /** The value for whoever gives it, not for who works with it. */
  peek(): T {
    return this.value;
  }

  set(value: T): void {
    if (this.same(this.value, value)) return;
    this.value = value;
    if (this.isUnread()) return;
    for (const each of passing) each.mark(STALE, this);
    passing.clear();
    this.hasChanged();
  }

  settle(): void {}
}

/** What is worked out of others, and read by others. */
abstract class Reckoning extends Source {
  protected state: State = STALE;
  private asking = false;
  private sources: Few<Source> = NOTHING;
  /** The sources that may have changed. */
  protected doubted: Few<Source> = NOTHING;

  /** Works it out; false where it came out as it was. */
  protected abstract work(): boolean;

  settle(): void {
    // What it asks itself asks for it again: whoever asked first is told.
    if (this.asking && this.state === FRESH) inCircle();
    if (this.asking || this.state === FRESH || this.isDropped) return;
    this.asking = true;
    try {
      if (this.state === DOUBTFUL || this.asksAll) this.askSources();
      if (this.state === STALE) this.workAgain();
    } finally {
      this.asking = false;
    }
  }

  private askSources(): void {
    // Sources mark their readers while they are asked.
    const isStale = () => this.state === STALE;
    while (!isEmpty(this.doubted)) {
      for (const source of this.doubted) {
        this.doubted = without(this.doubted, source);
        try {
          source.settle();
        } catch (error) {
          // Whoever asks again has to ask it again.
          this.hears(DOUBTFUL, source);
          throw error;
        }
        if (isStale() && !this.asksAll) return;
      }
    }
    if (!isStale()) this.state = FRESH;
  }

  /** Whether it asks all its sources again although one has changed: nothing is gained where it starts afresh. */
  protected get asksAll(): boolean {
    return false;
  }

  protected workAgain(): void {
    this.forgetSources();
    this.state = FRESH;
    try {
      if (this.work()) this.hasChanged();
    } catch (error) {
      this.state = STALE;
      throw error;
    }
  }

  /** Begins anew whenever its sources are forgotten. */
  life = 0;

  /** Sources are left before they are asked again: what they come out as is read now, and no news. */
  private forgetSources(): void {
    this.life++;
    for (const source of this.sources) source.leave(this);
    this.sources = NOTHING;
    this.doubted = NOTHING;
  }

  /** Work that belongs to this: what it reads, this reads. */
  within<R>(work: () => R): R {
    const depth = working.push(this) - 1;
    try {
      return work();
    } finally {
      // No call: where the stack has overflowed there is no room for one, and whoever asks next must start clean.
      working.length = depth;
    }
  }

  /** False where it is noted already. */
  notes(source: Source): boolean {
    if (has(this.sources, source)) return false;
    this.sources = withOne(this.sources, source);
    return true;
  }

  /** A source has changed, or may have. */
  mark(state: State, by: Source): void {
    this.hears(state, by);
    if (state <= this.state) return;
    const wasFresh = this.state === FRESH;
    this.state = state;
    if (!wasFresh) return;
    // A chain of readers may be as long as the text: no recursion.
    const open: Reckoning[] = [this];
    for (let next = open.pop(); next; next = open.pop()) next.makesDoubtful(open);
  }

  /** False where it did so already. */
  doubts(source: Source): boolean {
    this.hears(DOUBTFUL, source);
    if (this.state !== FRESH) return false;
    this.state = DOUBTFUL;
    return true;
  }

  protected hears(state: State, by: Source): void {
    if (state !== DOUBTFUL || (this.state === STALE && !this.asksAll)) return;
    if (!has(this.doubted, by)) this.doubted = withOne(this.doubted, by);
  }

  /** Lets go of everything: what it was worked out for is gone. */
  drop(): void {
    this.forgetSources();
    this.isDropped = true;
    this.hasChanged();
    for (const reader of this.readers) reader.loses(this);
  }
  private isDropped = false;

  get isGone(): boolean {
    return this.isDropped;
  }

  protected loses(source: Source): void {
    this.sources = without(this.sources, source);
    this.doubted = without(this.doubted, source);
  }
}

/** A value worked out of others. */
export class Memo<T> extends Reckoning {
  private value: T | typeof NONE = NONE;

  constructor(
    private readonly compute: () => T,
    private readonly same: Same<T> = Object.is,
    /** What it is called by {@link listenToWork}. */
    private readonly what = '',
  ) {
    super();
  }

  get(): T {
    // Read only when it is settled: what comes out changed is no news to whoever is only asking.
    this.settle();
    this.isRead();
    return (this.value === NONE ? undefined : this.value) as T;
  }

  protected work(): boolean {
    listener?.(this.what);
    const is = this.within(this.compute);
    if (this.value !== NONE && this.same(this.value as T, is)) return false;
    this.value = is;
    return true;
  }
}

const NONE = Symbol('nothing yet');

/** A memo as a function. */
export function kept<T>(compute: () => T, same?: Same<T>, what?: string): () => T {
  const memo = new Memo(compute, same, what);
  return () => memo.get();
}

/** One memo for each key, until the key is dropped. */
export class Each<K extends object, T> {
  private readonly memos = new Map<K, Memo<T>>();

  constructor(
    private readonly same?: Same<T>,
    private readonly what?: string,
  ) {}

  /** `compute` is the same for the same key. */
  get(key: K, compute: () => T): T {
    return this.memo(key, compute).get();
  }

  memo(key: K, compute: () => T): Memo<T> {
    let memo = this.memos.get(key);
    if (!memo) {
      memo = new Memo(compute, this.same, this.what);
      this.memos.set(key, memo);
    }
    return memo;
  }

  drop(key: K): void {
    this.memos.get(key)?.drop();
    this.memos.delete(key);
  }
}

/** What many bring. After a change only those are asked of which something changed, however many there are. */
abstract class Gathered<K extends object, T> extends Reckoning {
  private readonly keyOf = new Map<Source, K>();
  /** What each brings, in the order of the keys: to look each up is what a list of thousands would cost at every key. */
  protected brought: (readonly T[])[] = [];
  /** Where a key stands in that order. */
  private readonly at = new Map<K, number>();
  /** Members that have changed, and new ones. */
  private readonly news = new Set<Source>();
  protected override get asksAll(): boolean {
    return true;
  }
  protected ordered: readonly K[] = [];

  constructor(
    private readonly keys: () => readonly K[],
    private readonly memoOf: (key: K) => Memo<readonly T[]>,
  ) {
    super();
  }

  /** Asks those that are new or may have changed, one after the other: what sees them all is then quickly put together. */
  *inSteps(): Steps<void> {
    const { come } = this.newsOf(this.keys());
    for (const key of come) {
      yield* patiently(() => this.memoOf(key).get());
      yield undefined;
    }
    for (const source of [...this.doubted, ...this.news]) {
      yield* patiently(() => source.settle());
      yield undefined;
    }
  }

  /** One brings something else than before. */
  protected abstract swap(was: readonly T[], is: readonly T[]): void;

  protected override hears(state: State, by: Source): void {
    super.hears(state, by);
    if (state === STALE) this.news.add(by);
  }

  protected override loses(source: Source): void {
    super.loses(source);
    this.keyOf.delete(source);
    this.news.delete(source);
  }

  /** Keeps its sources, unlike others. */
  protected override workAgain(): void {
    const hasChanged = this.work();
    this.state = FRESH;
    if (hasChanged) this.hasChanged();
  }

  protected work(): boolean {
    this.within(() => {
      if (this.takeKeys(this.keys())) this.isAnother = true;
      // One that is asked may say that it has changed: then it is asked once more, and stands.
      for (const member of this.news) {
        this.news.delete(member);
        const key = this.keyOf.get(member);
        if (key === undefined) continue;
        // One that failed when it was new has never been read, and could not say that it is gone.
        if ((member as Memo<readonly T[]>).isGone) {
          this.keyOf.delete(member);
          continue;
        }
        try {
          if (this.take(key, (member as Memo<readonly T[]>).get())) this.isAnother = true;
        } catch (error) {
          // It failed, and is still news to whoever asks again.
          this.news.add(member);
          throw error;
        }
        pause();
      }
    });
    const { isAnother } = this;
    this.isAnother = false;
    return isAnother;
  }
  /** Something has been taken in that its readers have not been told of: the work may fail half way, and is done again. */
  private isAnother = false;

  /** Whether it brings something else than before. */
  private take(key: K, brings: readonly T[]): boolean {
    const at = this.at.get(key)!;
    const brought = this.brought[at]!;
    if (sameList(brought, brings)) return false;
    this.brought[at] = brings;
    this.swap(brought, brings);
    return true;
  }

  /** What came and what went. Asked for twice at every key: before, to ask those that are new, and when they are taken in. */
  private newsOf(keys: readonly K[]): Difference<K> {
    if (this.lastNews?.keys !== keys) this.lastNews = { keys, ...difference(this.ordered, keys) };
    return this.lastNews;
  }
  private lastNews: (Difference<K> & { readonly keys: readonly K[] }) | undefined;

  /** Whether the list is another because of the keys. One that comes in the place of another begins with what that brought. */
  protected takeKeys(keys: readonly K[]): boolean {
    if (keys === this.ordered) return false;
    const { gone, come, others } = this.newsOf(keys);
    this.lastNews = undefined;
    this.ordered = keys;
    const places = gone.map((key) => this.at.get(key)!);
    const replaced = places.map((at) => this.brought[at]!);
    const isInPlace = !others && gone.length === come.length;
    for (const key of gone) this.at.delete(key);
    if (isInPlace) for (const [i, key] of come.entries()) this.at.set(key, places[i]!);
    else this.putInOrder(keys, new Map(come.map((key, i) => [key, replaced[i] ?? NOTHING])));
    for (const key of come) {
      const member = this.memoOf(key);
      this.keyOf.set(member, key);
      this.news.add(member);
    }
    const left = replaced.slice(come.length).filter((brought) => brought.length > 0);
    for (const brought of left) this.swap(brought, []);
    return others || left.length > 0;
  }

  /** Of keys that have come, what they begin with. */
  private putInOrder(keys: readonly K[], begun: ReadonlyMap<K, readonly T[]>): void {
    const { brought } = this;
    this.brought = keys.map((key) => {
      const at = this.at.get(key);
      return at === undefined ? (begun.get(key) ?? NOTHING) : brought[at]!;
    });
    for (const [at, key] of keys.entries()) this.at.set(key, at);
  }
}

/** What many bring, in one list in the order of the keys. */
export class Gathering<K extends object, T> extends Gathered<K, T> {
  private list: readonly T[] | undefined;

  get(): readonly T[] {
    this.settle();
    this.isRead();
    this.list ??= this.inOrder();
    return this.list;
  }

  protected override work(): boolean {
    const hasChanged = super.work();
    if (hasChanged) this.list = undefined;
    return hasChanged;
  }

  protected swap(): void {}

  private inOrder(): readonly T[] {
    const list: T[] = [];
    for (const brings of this.brought) for (let i = 0; i < brings.length; i++) list.push(brings[i]!);
    return list;
  }
}

/**
 * Several lists of what the same members bring. Each member is asked once for all of them, so what it costs to keep a
 * member is paid once; and who reads one list hangs on that alone.
 */
export class Roster<K extends object> extends Gathered<K, readonly unknown[]> {
  private readonly columns: readonly Column[];

  /** `memoOf` brings one list for each column. */
  constructor(keys: () => readonly K[], memoOf: (key: K) => Memo<Lists>, columns: number) {
    super(keys, memoOf);
    this.columns = Array.from({ length: columns }, () => new Column(this));
  }

  /** What all bring to one column, in one list in the order of the keys. */
  list(at: number): readonly unknown[] {
    const column = this.columns[at]!;
    column.settle();
    column.isRead();
    column.isListed = true;
    column.list ??= this.inOrder(at);
    return column.list;
  }

  /** How many times each thing is brought to one column. Good until the next change; what comes and what goes is news, a count is not. */
  tally(at: number): ReadonlyMap<unknown, number> {
    const column = this.columns[at]!;
    column.settle();
    column.isRead();
    if (!column.counts) {
      column.counts = new Map();
      for (const brings of this.brought) count(column.counts, brings[at] ?? NOTHING, 1);
    }
    return column.counts;
  }

  override makesDoubtful(open: Reckoning[]): void {
    for (const column of this.columns) column.makesDoubtful(open);
  }

  protected override workAgain(): void {
    try {
      super.workAgain();
    } finally {
      for (const column of this.columns) column.tell();
    }
  }

  protected override takeKeys(keys: readonly K[]): boolean {
    const hasChanged = super.takeKeys(keys);
    // Of those that are left the order may be another.
    if (hasChanged) for (const column of this.columns) column.changes();
    return hasChanged;
  }

  protected swap(was: Lists, is: Lists): void {
    for (let at = 0; at < this.columns.length; at++) {
      const [before, now] = [was[at] ?? NOTHING, is[at] ?? NOTHING];
      if (!sameList(before, now)) this.columns[at]!.changes(before, now);
    }
  }

  private inOrder(at: number): readonly unknown[] {
    const list: unknown[] = [];
    for (const brings of this.brought) {
      const own = brings[at];
      if (own !== undefined) for (let i = 0; i < own.length; i++) list.push(own[i]);
    }
    return list;
  }
}

/** What one member brings: a list for each column. */
export type Lists = readonly (readonly unknown[])[];

/** One of several lists, and who reads it. */
class Column extends Source {
  list: readonly unknown[] | undefined;
  /** Whether somebody reads the list, and not the counts alone. */
  isListed = false;
  counts: Map<unknown, number> | undefined;
  private isNews = false;

  constructor(private readonly roster: { settle(): void }) {
    super();
  }

  settle(): void {
    this.roster.settle();
  }

  /** The list is another: in its order, or by what one of them brings. */
  changes(was: readonly unknown[] = NOTHING, is: readonly unknown[] = NOTHING): void {
    if (this.isListed) this.isNews = true;
    this.list = undefined;
    if (!this.counts) return;
    // What is brought still neither comes nor goes on the way.
    const comes = count(this.counts, is, 1);
    const goes = count(this.counts, was, -1);
    if (comes || goes) this.isNews = true;
  }

  /** Tells its readers, when all that is new is known. */
  tell(): void {
    if (!this.isNews) return;
    this.isNews = false;
    this.hasChanged();
  }
}

/** Whether something comes or goes. */
function count<T>(counts: Map<T, number>, brought: readonly T[], times: 1 | -1): boolean {
  let changes = false;
  for (const each of brought) {
    const before = counts.get(each) ?? 0;
    const now = before + times;
    if (now) counts.set(each, now);
    else counts.delete(each);
    if (!now || !before) changes = true;
  }
  return changes;
}

interface Difference<T> {
  readonly gone: readonly T[];
  readonly come: readonly T[];
  readonly others: boolean;
}

/**
 * What two lists do not have in common; and whether, between what begins and what ends both, there is something that they
 * have. Looks closely only there.
 */
export function difference<T>(before: readonly T[], after: readonly T[]): Difference<T> {
  let from = 0;
  while (from < before.length && from < after.length && before[from] === after[from]) from++;
  let end = 0;
  const most = Math.min(before.length, after.length) - from;
  while (end < most && before[before.length - 1 - end] === after[after.length - 1 - end]) end++;
  const old = new Set(before.slice(from, before.length - end));
  const now = new Set(after.slice(from, after.length - end));
  const gone = [...old].filter((each) => !now.has(each));
  return { gone, come: [...now].filter((each) => !old.has(each)), others: gone.length < old.size };
}

/** A value worked out at the first asking, for the life of what it belongs to. */
export function once<T>(compute: () => T): () => T {
  const owner = working[working.length - 1];
  let value: T;
  // Let go of when it has been asked: there are many, and they live long.
  let left: (() => T) | undefined = compute;
  return () => {
    if (owner !== undefined) owner.isRead();
    if (left !== undefined) {
      value = owner === undefined ? left() : owner.within(left);
      left = undefined;
      pause();
    }
    return value;
  };
}

/** The same for a value that things can need in a circle: asked for while it is being worked out, it is not there. */
export function onceUnlessCircular<T>(compute: () => T | undefined): () => T | undefined {
  let busy = false;
  const get = once(() => {
    busy = true;
    try {
      return compute();
    } finally {
      busy = false;
    }
  });
  return () => {
    if (!busy) return get();
    inCircle();
    return undefined;
  };
}

/** For what is made now and works things out later: whatever runs through this belongs to the memo that makes it. */
export function belonging(): <R>(work: () => R) => R {
  const owner = working[working.length - 1];
  if (!owner) return (work) => work();
  return (work) => {
    owner.isRead();
    return owner.within(work);
  };
}

/**
 * Says that something needs itself. What comes out then hangs on who asked first: all that is being worked out is good
 * until the next change and no longer, so that it comes out as it would for one who never asked before.
 */
export function inCircle(): void {
  for (const memo of working) passing.add(memo);
}

/** Whether two lists hold the same things in the same order. */
export const sameList: Same<readonly unknown[]> = (a, b) =>
  a.length === b.length && a.every((each, i) => each === b[i]);

/**
 * Hears of everything that is worked out, by what it is called. For tests and benchmarks; returns what ends it.
 *
 * @tests what is worked out again is counted
 */
export function listenToWork(heard: (what: string) => void): () => void {
  listener = heard;
  return () => {
    listener = undefined;
  };
}
