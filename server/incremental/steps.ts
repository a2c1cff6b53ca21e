/*
 * Long work that can be cut: a generator that stops wherever others may go first, and gives at its end what it has made. A
 * stop may say how much is done, from 0 to 1. Nothing is half done at a stop: whatever was worked out is kept by the model,
 * and work that is given up, or begun again, has spoilt nothing.
 */
export type Steps<T> = Generator<number | undefined, T, undefined>;

/** Whoever goes through the steps of long work: at once, or letting others go first. */
export type Runner = <T>(steps: Steps<T>) => T | Promise<T>;

/** Everything without a stop. */
export function atOnce<T>(steps: Steps<T>): T {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** The same with what it has made turned into something else. */
export function* mapped<T, R>(steps: Steps<T>, turned: (made: T) => R): Steps<R> {
  return turned(yield* steps);
}

/** What is made of each, with a stop before it; `made` may be asked again where it needs something {@link Dear}. */
export function* oneByOne<T, R>(all: readonly T[], made: (one: T) => R): Steps<R[]> {
  const list: R[] = [];
  for (const one of all) {
    yield undefined;
    list.push(yield* patiently(() => made(one)));
  }
  return list;
}

/** What is made of each, with a stop after every so many: for what takes no time one by one, and comes in thousands. */
export function* manyByMany<T, R>(all: readonly T[], made: (one: T, i: number) => R, many = 200): Steps<R[]> {
  const list: R[] = [];
  for (const [i, one] of all.entries()) {
    if (i % many === many - 1) yield undefined;
    list.push(made(one, i));
  }
  return list;
}

/** A part of a longer work, which is done from one share to another. */
export function* share<T>(from: number, to: number, steps: Steps<T>): Steps<T> {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    yield step.value === undefined ? undefined : from + (to - from) * step.value;
  }
}

/*
 * Long work in the middle of something that is asked for in one go: a check asks for a strain, and that hangs on a form laid
 * flat. Who has patience is told of it by an exception that leads all the way out, has the work done with its stops, and asks
 * again: whatever was worked out before is kept by the model, and the work by its store. Who has none gets it done at once.
 */

/** Whether whoever asks now would rather be told than wait, and since when it has been asked for. */
let isPatient = false;
let since = 0;

/** Something long has to be done before this can be answered. No error: only who has patience meets it. */
export class Unfinished extends Error {
  constructor(readonly work: { steps(): Steps<unknown> }) {
    super('Something long has to be done first.');
  }
}

/** Asks, as often as something long has to be done first: in between others may go first. `ask` must bear being asked again. */
export function* patiently<T>(ask: () => T): Steps<T> {
  for (let round = 1; ; round++) {
    try {
      return withPatience(round < MOST_ROUNDS, ask);
    } catch (error) {
      if (!(error instanceof Unfinished)) throw error;
      yield* error.work.steps();
    }
  }
}

/** The same for steps: they begin again, and find kept what was worked out. */
export function* patientlyThrough<T>(begin: () => Steps<T>): Steps<T> {
  for (let round = 1; ; round++) {
    try {
      const steps = begin();
      for (;;) {
        const step = withPatience(round < MOST_ROUNDS, () => steps.next());
        if (step.done) return step.value;
        yield step.value;
      }
    } catch (error) {
      if (!(error instanceof Unfinished)) throw error;
      yield* error.work.steps();
    }
  }
}

/** Steps that could not begin again without losing what they have made: what they ask for is done at once. */
export function* steadfast<T>(steps: Steps<T>): Steps<T> {
  for (;;) {
    const step = withPatience(false, () => steps.next());
    if (step.done) return step.value;
    yield step.value;
  }
}

/** Who still is not done then asks for more at once than is kept, and would ask for ever: it is done at once. */
const MOST_ROUNDS = 1_000;

function withPatience<T>(patience: boolean, ask: () => T): T {
  const [wasPatient, before] = [isPatient, since];
  isPatient = patience;
  if (patience) since = performance.now();
  try {
    return ask();
  } finally {
    isPatient = wasPatient;
    since = before;
  }
}

/**
 * Called where something has just been worked out and is kept: who has patience is let go there once it has waited for so
 * long, and asks again from where it is now.
 */
export function pause(): void {
  if (isPatient && performance.now() - since > LONG_ENOUGH) throw new Unfinished(NOTHING_MORE);
}
/** ms. Twice a turn: what was on its way is begun again, and should not be for every little thing. */
const LONG_ENOUGH = 16;
const NOTHING_MORE = {
  *steps(): Steps<void> {
    yield undefined;
  },
};

/** Long work that is done once, by whoever goes through its steps: several may by turns. */
class Work<T> {
  private made: { readonly value: T } | undefined;

  constructor(
    private readonly course: Steps<T>,
    /** Hears the answer; nothing where the work failed. */
    private readonly over: (made?: { readonly value: T }) => void,
  ) {}

  *steps(): Steps<T> {
    while (!this.made) {
      const step = this.next();
      if (!step.done) yield step.value;
    }
    return this.made.value;
  }

  private next(): IteratorResult<number | undefined, T> {
    if (this.failure) throw this.failure.error;
    try {
      // What it asks for in its turn is done at once: it could not begin again.
      const step = withPatience(false, () => this.course.next());
      if (step.done) {
        this.made = { value: step.value };
        this.over(this.made);
      }
      return step;
    } catch (error) {
      this.failure = { error };
      this.over();
      throw error;
    }
  }
  private failure: { readonly error: unknown } | undefined;
}

/** The last few answers of long work on plain values, by all that they hang on; and what was begun and is not done. */
export class Dear<T> {
  private readonly kept = new Map<string, { readonly value: T }>();
  private readonly begun = new Map<string, Work<T>>();

  /** `most` answers are kept. */
  constructor(private readonly most: number) {}

  /** `key` says all that the answer hangs on. Throws {@link Unfinished} to who has patience. */
  get(key: string, begin: () => Steps<T>): T {
    const kept = this.kept.get(key);
    if (kept) {
      keep(this.kept, key, kept, this.most);
      return kept.value;
    }
    const work = this.begun.get(key) ?? new Work(begin(), (made) => this.isOver(key, made));
    // What is typed over is never asked for again.
    keep(this.begun, key, work, MOST_BEGUN);
    if (isPatient) throw new Unfinished(work);
    return atOnce(work.steps());
  }

  private isOver(key: string, made: { readonly value: T } | undefined): void {
    this.begun.delete(key);
    if (made) keep(this.kept, key, made, this.most);
  }
}

/** The last few answers of short work on plain values, by all that they hang on. Where there is none it is asked for again. */
export class Recent<T> {
  private readonly kept = new Map<string, T>();

  constructor(private readonly most: number) {}

  get(key: string, make: () => T): T {
    const value = this.kept.get(key) ?? make();
    if (value !== undefined) keep(this.kept, key, value, this.most);
    return value;
  }
}

/** So much begun work is held on to. */
const MOST_BEGUN = 16;

/** As the newest of so many at most. */
function keep<T>(all: Map<string, T>, key: string, value: T, most: number): void {
  all.delete(key);
  all.set(key, value);
  for (const oldest of all.keys()) {
    if (all.size <= most) break;
    all.delete(oldest);
  }
}
