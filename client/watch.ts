// A server that hangs does not end, and nothing tells of it. So it is asked now and then whether it is still there, which it
// answers between any two steps of its work. Only while it has something to do: an idle editor wakes nobody.
import type { Middleware } from 'vscode-languageclient';
import type { OwnRequests } from '../server/requests.ts';

/** A sign of life, given between two steps of whatever the server works on. Nothing is asked along, and nothing answered. */
export const aliveRequest = 'planish/alive' satisfies keyof OwnRequests;

/** What the watch is over. */
export interface Watched {
  /** Asks it for a sign of life. */
  ask(): Promise<unknown>;
  /** Hears that it gives none, and brings it to its end. */
  hangs(hang: Hang): void;
  /** Hears that {@link Watch.isSlow} has changed. */
  slow?(): void;
}

export interface Hang {
  /** So long nothing came, s. */
  readonly seconds: number;
  /** What it was told or asked last, and the questions that it has not answered, the oldest first. */
  readonly last: string | undefined;
  readonly open: readonly string[];
}

/** Runs something every second that we are awake, until it is told to stop. */
export type EverySecond = (run: () => void) => () => void;

/*
 * Seconds are counted by a timer of ours that makes up for none it missed. So they count what we ran ourselves: not the night
 * that the machine slept, nor a stop at a breakpoint, nor what a busy machine kept from both of us.
 */
/** From one sign of life to the next question, while there is work. */
const BEAT = 5;
/** So long it may stay silent, and so long while it starts, from a slow disk maybe. */
const PATIENCE = 20;
const PATIENCE_AT_START = 60;
/** When the editor says that it takes long. */
const SLOW = 5;
/** So long it is watched after the last message to it: a change of a text is answered by nothing, and may be worked on long. */
const AFTER_LAST = 60;

export class Watch {
  /** How long it may stay silent, s. */
  patience = PATIENCE;
  private server: Watched | undefined;
  private stage: 'rests' | 'starts' | 'runs' = 'rests';
  private stop: (() => void) | undefined;
  /** What was asked before a restart is no sign of what came after it. */
  private life = 0;
  private isAsked = false;
  private waited = 0;
  private sinceSign = 0;
  private sinceMessage = 0;
  private last: string | undefined;
  private readonly open = new Map<object, string>();

  constructor(private readonly everySecond: EverySecond = byTimer) {}

  over(server: Watched): void {
    this.server = server;
  }

  /** It has been silent for longer than one would think nothing of. */
  get isSlow(): boolean {
    return this.stage === 'runs' && this.waited >= SLOW;
  }

  starts(): void {
    this.begin('starts');
    this.wake();
  }

  runs(): void {
    this.begin('runs');
    this.wake();
  }

  rests(): void {
    this.begin('rests');
    this.sleep();
  }

  /** Hears all that the client sends. */
  readonly middleware: Required<Pick<Middleware, 'sendRequest' | 'sendNotification'>> = {
    sendRequest: async (type, param, token, next) => {
      const method = typeof type === 'string' ? type : type.method;
      if (method === aliveRequest) return next(type, param, token);
      const question = {};
      this.open.set(question, this.sent(method, param));
      try {
        return await next(type, param, token);
      } finally {
        this.open.delete(question);
      }
    },
    sendNotification: (type, next, params) => {
      this.sent(typeof type === 'string' ? type : type.method, params);
      return next(type, params);
    },
  };

  private sent(method: string, params: unknown): string {
    this.last = [method, placeOf(params)].filter(Boolean).join(' ');
    this.sinceMessage = 0;
    if (this.stage === 'runs') this.wake();
    return this.last;
  }

  private begin(stage: Watch['stage']): void {
    this.life += 1;
    this.stage = stage;
    this.isAsked = false;
    this.sinceMessage = 0;
    this.open.clear();
    this.heard();
    this.sinceSign = BEAT;
  }

  private wake(): void {
    if (this.stop) return;
    // Long enough ago: it is asked within a second.
    this.sinceSign = BEAT;
    this.stop = this.everySecond(() => this.second());
  }

  private sleep(): void {
    this.stop?.();
    this.stop = undefined;
  }

  private second(): void {
    if (this.isAsked || this.stage === 'starts') this.wait();
    else if (!this.open.size && ++this.sinceMessage > AFTER_LAST) this.sleep();
    else if (++this.sinceSign > BEAT) void this.ask();
  }

  private wait(): void {
    this.waited += 1;
    if (this.waited >= (this.stage === 'starts' ? Math.max(PATIENCE_AT_START, this.patience) : this.patience)) {
      const hang = { seconds: this.waited, last: this.last, open: [...this.open.values()] };
      this.rests();
      this.server?.hangs(hang);
    } else if (this.waited === SLOW) this.server?.slow?.();
  }

  private async ask(): Promise<void> {
    const { life } = this;
    this.isAsked = true;
    // An answer that says no is a sign of life as well.
    await this.server?.ask().catch(() => undefined);
    if (life !== this.life) return;
    this.isAsked = false;
    this.heard();
  }

  private heard(): void {
    const wasLong = this.waited >= SLOW;
    this.waited = 0;
    this.sinceSign = 0;
    if (wasLong) this.server?.slow?.();
  }
}

function byTimer(run: () => void): () => void {
  const timer = setInterval(run, 1000);
  return () => clearInterval(timer);
}

/** Which text a message is about, for the log. */
function placeOf(params: unknown): string | undefined {
  const { textDocument, uri, position } = (params ?? {}) as {
    textDocument?: { uri?: unknown };
    uri?: unknown;
    position?: { line: number; character: number };
  };
  const place = textDocument?.uri ?? uri;
  if (typeof place !== 'string') return undefined;
  return position ? `${place}:${position.line + 1}:${position.character + 1}` : place;
}
