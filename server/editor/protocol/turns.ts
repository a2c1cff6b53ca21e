import type { CancellationToken } from 'vscode-languageserver';
import type { Steps } from '../../incremental/steps.ts';

/** So long work goes on before others get their turn, ms: less than a frame of the screen. */
const LONG = 8;
/** So many turns must pass in silence until nobody waits: one to hear, one to answer, one to send the answer. */
const SILENCE = 3;
/** However much is asked, long work goes on in the end. */
const MOST = 200;

/** Why long work was given up. */
export class GivenUp extends Error {
  constructor(readonly why: 'cancelled' | 'changed') {
    super(why);
  }
}

export interface Course {
  readonly token?: CancellationToken;
  /** False once what is worked on has changed: what is half done would mix two texts. */
  holds?(): boolean;
  /** Hears how much is done, from 0 to 1. */
  told?(share: number): void;
}

/** Long work, so that whoever asks for something short meanwhile does not wait for it, and it can be taken back. */
export class Turns {
  private count = 0;

  /** `next` lets pass one turn of whatever brings messages. */
  constructor(private readonly next: () => Promise<void>) {}

  /** Something was asked or told. */
  heard(): void {
    this.count++;
  }

  /** Goes through it piece by piece. Throws {@link GivenUp}. */
  async through<T>(steps: Steps<T>, { token, holds, told }: Course = {}): Promise<T> {
    let since = performance.now();
    for (;;) {
      const step = steps.next();
      if (step.done) return step.value;
      if (step.value !== undefined) told?.(step.value);
      if (performance.now() - since < LONG) continue;
      await this.pass(token);
      if (holds?.() === false) throw new GivenUp('changed');
      since = performance.now();
    }
  }

  /** For work that is no steps: asked between two parts of it, it gives what is to be waited for once others are due. */
  resting(): () => Promise<void> | undefined {
    let since = performance.now();
    return () => {
      if (performance.now() - since < LONG) return undefined;
      return this.pass().then(() => {
        since = performance.now();
      });
    };
  }

  /** Lets go first whoever waits. */
  async pass(token?: CancellationToken): Promise<void> {
    let silent = 0;
    for (let turn = 0; turn < MOST && silent < SILENCE; turn++) {
      const before = this.count;
      await this.next();
      if (token?.isCancellationRequested) throw new GivenUp('cancelled');
      silent = this.count === before ? silent + 1 : 0;
    }
  }
}
