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

/** What is made of each, with a stop before it. */
export function* oneByOne<T, R>(all: readonly T[], made: (one: T) => R): Steps<R[]> {
  const list: R[] = [];
  for (const one of all) {
    yield undefined;
    list.push(made(one));
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
