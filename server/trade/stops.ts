/*
 * Long work that stops wherever others may go first, and gives at its end what it has made. Whoever needs it at once goes
 * through with `done`.
 */
export type Stops<T> = Generator<undefined, T, undefined>;

/** Without heeding the stops. */
export function done<T>(work: Stops<T>): T {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
}
