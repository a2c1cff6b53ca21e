import { availableParallelism } from 'node:os';

/** Work that waits for its turn: as much at once as the machine has processors. First come, first served. */
export class Jobs {
  #free = availableParallelism();
  #waiting = [];

  async run(work) {
    if (this.#free > 0) this.#free -= 1;
    else await new Promise((next) => this.#waiting.push(next));
    try {
      return await work();
    } finally {
      const next = this.#waiting.shift();
      if (next) next();
      else this.#free += 1;
    }
  }
}
