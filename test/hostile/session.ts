import { readFileSync } from 'node:fs';
import path from 'node:path';
import { URI } from 'vscode-uri';
import { bandedCap } from '../client/specs.ts';
import { builtServer, Client } from '../editor/stdio.ts';

/** What the server's process has cost since it was last asked. */
export interface Cost {
  /** ms of the processor: the longest time in which the server heard nobody. */
  readonly longest: number;
  /** Seconds of the processor since the process began, of all its threads. */
  readonly seconds: number;
  /** MiB: the most that it held since its counting began anew. */
  readonly peak: number;
}

/** How long the other spec's hovers waited, ms: by the server's processor, and by the clock. */
export interface Waits {
  readonly processor: number;
  readonly clock: number;
}

export interface SessionOptions {
  /** Where a profile of the processor is written to when the server ends. */
  readonly profileInto?: string;
  /** The folder that the editor has open. */
  readonly folder?: string;
}

/** The server ended, or was ended, before it answered. */
export class Ended extends Error {}

const NEIGHBOUR = URI.file('/elsewhere/neighbour/cap.planish').toString();
const EVERY_MS = 50;
/** The server is ended when it takes more of the processor than it may, and by the clock at the latest then. */
const CLOCK_PER_SECOND = 40;

/** A server that is watched: what it costs, and how long the hover of another small spec waits in it. */
export class Session {
  readonly errors: string[] = [];
  private ended: string | undefined;
  private readonly askedAt = new Set<() => void>();
  private longestWait: { processor: number; clock: number } = { processor: 0, clock: 0 };
  private beat: ReturnType<typeof setInterval> | undefined;
  private guard: ReturnType<typeof setInterval> | undefined;
  private readonly goneWith: Promise<never>;
  private giveUp!: (why: Error) => void;

  private constructor(readonly client: Client) {
    this.goneWith = new Promise((_, reject) => {
      this.giveUp = reject;
    });
    this.goneWith.catch(() => {});
    client.child.once('exit', (code, signal) => this.end(`the server ended (${signal ?? `code ${code}`})`));
  }

  static async start({ profileInto, folder }: SessionOptions = {}): Promise<Session> {
    const client = await Client.start({
      program: await builtServer(),
      channel: true,
      ...(folder ? { params: { workspaceFolders: [{ uri: URI.file(folder).toString(), name: 'open' }] } } : {}),
      node: [
        '--expose-gc',
        '--max-old-space-size=3000',
        ...(profileInto ? ['--cpu-prof', `--cpu-prof-dir=${profileInto}`] : []),
        '--import',
        path.join(import.meta.dirname, 'watch.mjs'),
      ],
    });
    const session = new Session(client);
    await client.open(NEIGHBOUR, bandedCap);
    await session.told(NEIGHBOUR, 1);
    return session;
  }

  get isAlive(): boolean {
    return this.ended === undefined;
  }

  /** What it has cost since the last time of asking; `anew` starts the counting of memory from here. */
  cost(anew = false): Promise<Cost> {
    const { child } = this.client;
    return this.orEnded(
      new Promise<Cost>((resolve) => {
        child.once('message', (cost) => resolve(cost as Cost));
        child.send(anew, () => {});
      }),
    );
  }

  /** Answered, or the error's code and words. Throws {@link Ended}. */
  async ask<T>(method: string, params: unknown): Promise<T | undefined> {
    try {
      return await this.orEnded(this.client.request<T>(method, params));
    } catch (error) {
      if (error instanceof Ended || !this.isAlive) throw this.asEnded(error);
      const { code, message } = error as { code?: number; message: string };
      if (!REFUSALS.has(code ?? 0)) this.errors.push(`${method}: ${code} ${message}`);
      return undefined;
    }
  }

  /** Waits until the diagnostics of this version, or a later one, were told. */
  async told(uri: string, version: number): Promise<Client['published'][number]> {
    for (;;) {
      const last = this.client.published.findLast((each) => each.uri === uri);
      if (last && (last.version ?? 0) >= version) return last;
      if (!this.isAlive) throw this.asEnded();
      // Where working them out has failed none are told: nobody waits for them for ever.
      const failed = this.client.logged.find((message) => message.startsWith('diagnostics:'));
      if (failed) throw new Error(failed);
      await new Promise((next) => setTimeout(next, 2));
    }
  }

  /** How long a change takes until its diagnostics are told, and how long a hover of the other spec waits that was asked right after it. */
  async answered(
    uri: string,
    most: number,
    send: () => Promise<number>,
  ): Promise<{ readonly told: number; readonly hover: number; readonly clock: number }> {
    this.longestWait = { processor: 0, clock: 0 };
    const [processor, clock] = [this.processor(), performance.now()];
    this.endPast(most);
    try {
      const version = await send();
      const hovered = this.hoverNeighbour();
      await this.told(uri, version);
      const told = this.processor() - processor;
      const toldBy = performance.now() - clock;
      await this.orEnded(hovered);
      return { told, hover: this.longestWait.processor, clock: Math.max(toldBy, this.longestWait.clock) };
    } finally {
      clearInterval(this.guard);
    }
  }

  /** From here on the neighbour is asked for a hover again and again, and the server is ended past so many seconds of the processor. */
  begin(most: number): void {
    this.errors.length = 0;
    this.client.logged.length = 0;
    this.client.published.length = 0;
    this.longestWait = { processor: 0, clock: 0 };
    this.beat = setInterval(() => void this.hoverNeighbour(), EVERY_MS);
    this.endPast(most);
  }

  /** Ends what {@link begin} began, and says how long the neighbour waited at most. */
  finish(): Waits {
    clearInterval(this.beat);
    clearInterval(this.guard);
    for (const ask of [...this.askedAt]) ask();
    if (this.isAlive) this.errors.push(...this.client.logged);
    return this.longestWait;
  }

  kill(why: string): void {
    this.atEnd = this.costNow();
    this.end(why);
    this.client.child.kill('SIGKILL');
  }

  async stop(): Promise<void> {
    if (!this.isAlive) return;
    const { child } = this.client;
    child.removeAllListeners('exit');
    this.ended = 'stopped';
    await Promise.race([this.client.stop(), new Promise((late) => setTimeout(late, 5_000).unref())]);
    child.kill('SIGKILL');
  }

  private endPast(most: number): void {
    const before = this.processor();
    const started = performance.now();
    this.guard = setInterval(() => {
      const clock = (performance.now() - started) / 1000;
      const taken = (this.processor() - before) / 1000;
      if (taken > most || clock > most * CLOCK_PER_SECOND)
        this.kill(`ended after ${taken.toFixed(1)} s of the processor, ${clock.toFixed(0)} s by the clock`);
    }, 200);
  }

  private hoverNeighbour(): Promise<void> {
    const [processor, clock] = [this.processor(), performance.now()];
    // A hover that is never answered has waited until now.
    const heard = () => {
      if (!this.askedAt.delete(heard)) return;
      this.longestWait.clock = Math.max(this.longestWait.clock, performance.now() - clock);
      this.longestWait.processor = Math.max(this.longestWait.processor, this.processor() - processor);
    };
    this.askedAt.add(heard);
    return this.client
      .request('textDocument/hover', { textDocument: { uri: NEIGHBOUR }, position: { line: 16, character: 4 } })
      .then(heard, () => {});
  }

  /** What it had cost when it was ended: it can no longer be asked. */
  atEnd: Pick<Cost, 'seconds' | 'peak'> | undefined;

  private costNow(): Pick<Cost, 'seconds' | 'peak'> | undefined {
    try {
      const about = (what: string) => readFileSync(`/proc/${this.client.child.pid}/${what}`, 'latin1');
      // User and system time are the fields 14 and 15, in hundredths of a second; the name in brackets may hold spaces.
      const fields = about('stat')
        .replace(/^.*\) /, '')
        .split(' ');
      const peak = Number(/VmHWM:\s*(\d+)/.exec(about('status'))?.[1]) / 1024;
      return { seconds: (Number(fields[11]) + Number(fields[12])) / 100, peak };
    } catch {
      return undefined;
    }
  }

  /** ms that the server's own thread has had of the processor; by the clock, where the system does not tell it. */
  private processor(): number {
    try {
      const { pid } = this.client.child;
      this.lastProcessor = Number(readFileSync(`/proc/${pid}/task/${pid}/schedstat`, 'latin1').split(' ')[0]) / 1e6;
    } catch {
      if (process.platform !== 'linux') return performance.now();
    }
    return this.lastProcessor;
  }
  private lastProcessor = 0;

  private orEnded<T>(asked: Promise<T>): Promise<T> {
    asked.catch(() => {});
    return Promise.race([asked, this.goneWith]);
  }

  private end(why: string): void {
    if (!this.isAlive) return;
    this.ended = why;
    this.giveUp(new Ended(why));
  }

  private asEnded(error?: unknown): Ended {
    return error instanceof Ended ? error : new Ended(this.ended ?? String(error));
  }
}

/** Answers that say no, and why: not found, refused, taken back, changed meanwhile. All others are faults. */
const REFUSALS = new Set([-32602, -32600, -32800, -32801, -32802, -32803]);
