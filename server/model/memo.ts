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

abstract class Source {
  protected readonly readers = new Set<Reckoning>();

  /** Notes whoever is being worked out as a reader. */
  isRead(): void {
    const reader = working[working.length - 1];
    if (reader !== undefined && (reader as Source) !== this && reader.notes(this)) this.readers.add(reader);
  }

  isUnread(): boolean {
    return this.readers.size === 0;
  }

  leave(reader: Reckoning): void {
    this.readers.delete(reader);
  }

  /** Makes sure that the value is the one that holds now. */
  abstract settle(): void;

  protected hasChanged(): void {
    for (const reader of this.readers) reader.mark(STALE);
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
    for (const each of passing) each.mark(STALE);
    passing.clear();
    this.hasChanged();
  }

  settle(): void {}
}

/** What is worked out of others, and read by others. */
abstract class Reckoning extends Source {
  private state: State = STALE;
  private asking = false;
  private sources = new Set<Source>();

  /** Works it out; false where it came out as it was. */
  protected abstract work(): boolean;

  settle(): void {
    // What it asks itself asks for it again: whoever asked first is told.
    if (this.asking && this.state === FRESH) inCircle();
    if (this.asking || this.state === FRESH) return;
    this.asking = true;
    try {
      if (this.state === DOUBTFUL) this.askSources();
      if (this.state === STALE) this.workAgain();
    } finally {
      this.asking = false;
    }
  }

  private askSources(): void {
    for (const source of this.sources) {
      source.settle();
      if (this.isStale()) return;
    }
    this.state = FRESH;
  }

  /** Sources mark their readers while they are asked. */
  private isStale(): boolean {
    return this.state === STALE;
  }

  private workAgain(): void {
    // Left before they are asked again: what they come out as is read now, and no news.
    for (const source of this.sources) source.leave(this);
    this.sources.clear();
    this.state = FRESH;
    try {
      if (this.work()) this.hasChanged();
    } catch (error) {
      this.state = STALE;
      throw error;
    }
  }

  /** Work that belongs to this: what it reads, this reads. */
  within<R>(work: () => R): R {
    working.push(this);
    try {
      return work();
    } finally {
      working.pop();
    }
  }

  /** False where it is noted already. */
  notes(source: Source): boolean {
    const { size } = this.sources;
    return this.sources.add(source).size > size;
  }

  mark(state: State): void {
    if (state <= this.state) return;
    const wasFresh = this.state === FRESH;
    this.state = state;
    if (!wasFresh) return;
    // A chain of readers may be as long as the text: no recursion.
    const open: Reckoning[] = [this];
    for (let next = open.pop(); next; next = open.pop()) {
      for (const reader of next.readers) {
        if (reader.state !== FRESH) continue;
        reader.state = DOUBTFUL;
        open.push(reader);
      }
    }
  }

  /** Lets go of everything: what it was worked out for is gone. */
  drop(): void {
    for (const source of this.sources) source.leave(this);
    this.sources.clear();
    this.mark(STALE);
  }
}

/** A value worked out of others. */
export class Memo<T> extends Reckoning {
  private value: { readonly is: T } | undefined;

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
    return this.value?.is as T;
  }

  protected work(): boolean {
    listener?.(this.what);
    const is = this.within(this.compute);
    if (this.value && this.same(this.value.is, is)) return false;
    this.value = { is };
    return true;
  }
}

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
    let memo = this.memos.get(key);
    if (!memo) {
      memo = new Memo(compute, this.same, this.what);
      this.memos.set(key, memo);
    }
    return memo.get();
  }

  drop(key: K): void {
    this.memos.get(key)?.drop();
    this.memos.delete(key);
  }
}

/** A value worked out at the first asking, for the life of what it belongs to. */
export function once<T>(compute: () => T): () => T {
  const owner = working[working.length - 1];
  let value: T;
  let done = false;
  return () => {
    if (owner !== undefined) owner.isRead();
    if (!done) {
      value = owner === undefined ? compute() : owner.within(compute);
      done = true;
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

/** Hears of everything that is worked out, by what it is called. For tests and benchmarks; returns what ends it. */
export function listenToWork(heard: (what: string) => void): () => void {
  listener = heard;
  return () => {
    listener = undefined;
  };
}
