import {
  type CancellationToken,
  type Connection,
  LSPErrorCodes,
  ResponseError,
  type WorkDoneProgressParams,
  type WorkDoneProgressReporter,
} from 'vscode-languageserver';
import { atOnce, patientlyThrough, type Steps } from '../../incremental/steps.ts';
import { isLibrary } from '../../model/names/library.ts';
import type { Fonts } from '../../output/writers/papers.ts';
import type { Settings } from '../workspace/settings.ts';
import { shortNameOf, type View, type Workspace } from '../workspace/workspace.ts';
import type { ClientAbilities } from './client-abilities.ts';
import { type Answering, type Feature, Refused } from './feature.ts';
import { type ProgressAsk, type Told, withProgress } from './progress.ts';
import { TokenDeltas } from './token-deltas.ts';
import { type Course, GivenUp, type Turns } from './turns.ts';

/** What an answer hangs on besides the texts. */
export interface Circumstances {
  readonly client: ClientAbilities;
  readonly fonts: Fonts;
  today(): string;
  settingsOf(uri: string): Settings;
  loadSettings(uri: string): Promise<void>;
}

/** How questions are answered: in turns, anew where a text changes meanwhile, and never so that the server ends of it. */
export class Answers implements Answering {
  readonly tokens = new TokenDeltas();

  constructor(
    readonly connection: Connection,
    readonly workspace: Workspace,
    readonly turns: Turns,
    private readonly circumstances: Circumstances,
  ) {}

  get client(): ClientAbilities {
    return this.circumstances.client;
  }
  get fonts(): Fonts {
    return this.circumstances.fonts;
  }
  today(): string {
    return this.circumstances.today();
  }
  settingsOf(uri: string): Settings {
    return this.circumstances.settingsOf(uri);
  }
  loadSettings(uri: string): Promise<void> {
    return this.circumstances.loadSettings(uri);
  }

  /** Hears every question that a feature answers. */
  listen({ requests }: Feature): void {
    for (const request of requests) {
      const { type, method } = request;
      if (type) this.connection.onRequest(type, (params, token) => request.answer(this, params, token));
      // Of our own there are some with nothing asked along: the token comes last.
      else
        this.connection.onRequest(method, (...given: unknown[]) =>
          request.answer(this, given.length > 1 ? given[0] : undefined, given[given.length - 1] as CancellationToken),
        );
    }
  }

  async attempt<T>(
    what: string,
    token: CancellationToken,
    empty: T,
    ask: () => T | Promise<T>,
  ): Promise<T | ResponseError<void>> {
    if (token.isCancellationRequested) return cancelled();
    this.turns.heard();
    this.connection.tracer.log(`Asked: ${what}.`);
    try {
      const answer = await ask();
      return token.isCancellationRequested ? cancelled() : answer;
    } catch (error) {
      // Whatever went wrong in work that nobody wants any more.
      if (token.isCancellationRequested) return cancelled();
      if (error instanceof GivenUp)
        return error.why === 'cancelled'
          ? cancelled()
          : new ResponseError(LSPErrorCodes.ContentModified, 'The text has changed meanwhile.');
      if (error instanceof ResponseError) return error;
      if (error instanceof Refused) return new ResponseError(LSPErrorCodes.RequestFailed, error.message);
      this.log(what, error);
      return empty;
    }
  }

  /**
   * Works something out of a spec as it stands, in turns. Where a text changes meanwhile, or where a file was missing that the
   * editor was still to bring, it begins again, and finds kept what still holds; unless what was asked about is then no longer there. Nothing where there is no such spec.
   */
  async steadily<T>(
    uri: string,
    steps: (view: View) => Steps<T>,
    course: Course = {},
    stillHolds: () => boolean = () => true,
  ): Promise<T | undefined> {
    for (let start = 1; ; start++) {
      await this.reading(uri, course);
      const view = await this.workspace.ready(uri);
      if (course.token?.isCancellationRequested) throw new GivenUp('cancelled');
      if (!stillHolds()) throw new GivenUp('changed');
      if (!view) return undefined;
      // Somebody types faster than this can be worked out: once in one go.
      if (start === MOST_STARTS) return atOnce(steps(view));
      const { revision } = this.workspace;
      try {
        const answer = await this.turns.through(
          patientlyThrough(() => steps(view)),
          {
            ...course,
            holds: () => this.workspace.revision === revision,
          },
        );
        if (!(await this.workspace.missed())) return answer;
      } catch (error) {
        const isOver = error instanceof GivenUp ? error.why !== 'changed' : !(await this.workspace.missed());
        if (isOver) throw error;
      }
    }
  }

  /** Reads a long text that was opened. Where it changes meanwhile, what has been read of it still counts. */
  private async reading(uri: string, { token }: Course): Promise<void> {
    const { workspace } = this;
    for (;;) {
      const version = workspace.version(uri);
      const holds = () => workspace.version(uri) === version;
      try {
        return await this.turns.through(workspace.reading(uri), token ? { token, holds } : { holds });
      } catch (error) {
        if (!(error instanceof GivenUp) || error.why !== 'changed') throw error;
      }
    }
  }

  /** The same for what looks at many specs. */
  private async throughAll<T>(steps: () => Steps<T>, course: Course): Promise<T> {
    for (let start = 1; start < MOST_STARTS; start++) {
      const { revision } = this.workspace;
      try {
        return await this.turns.through(patientlyThrough(steps), {
          ...course,
          holds: () => this.workspace.revision === revision,
        });
      } catch (error) {
        if (!(error instanceof GivenUp) || error.why !== 'changed') throw error;
      }
    }
    return atOnce(steps());
  }

  /** The same for what looks at every spec of the open folders: all are fetched before. */
  async throughSpecs<T>(
    steps: (specs: readonly string[]) => Steps<T>,
    course: { readonly token: CancellationToken; readonly told: Told },
  ): Promise<T> {
    const specs = await this.workspace.specs();
    for (const [done, uri] of specs.entries()) {
      await this.turns.pass(course.token);
      await this.workspace.ready(uri);
      course.told(done / specs.length, shortNameOf(uri));
    }
    return this.throughAll(() => steps(specs), course);
  }

  withProgress<T>(
    asked: ProgressAsk,
    token: CancellationToken,
    work: (token: CancellationToken, told: Told) => Promise<T>,
  ): Promise<T> {
    return withProgress(this.connection, { ...asked, creates: this.client.createsProgress }, token, work);
  }

  reporterOf(params: unknown): WorkDoneProgressReporter | undefined {
    const { workDoneToken } = (params ?? {}) as WorkDoneProgressParams;
    return workDoneToken === undefined ? undefined : this.connection.window.attachWorkDoneProgress(workDoneToken);
  }

  /** The stock that comes with Planish is no file: only an editor that takes texts from a server can open it. */
  readonly canShow = (uri: string): boolean => this.client.textContent || !isLibrary(uri);

  guard(what: string, run: () => void): void {
    this.turns.heard();
    try {
      run();
    } catch (error) {
      this.log(what, error);
    }
  }

  quietly(promise: Promise<unknown>): void {
    promise.catch((error: unknown) => this.log('the editor', error));
  }

  log(what: string, error: unknown): void {
    const text = error instanceof Error ? (error.stack ?? error.message) : String(error);
    this.connection.console.error(`${what}: ${text}`);
  }
}

const cancelled = (): ResponseError<void> => new ResponseError(LSPErrorCodes.RequestCancelled, 'Cancelled.');

/** So often something is begun again before it is worked out in one go. */
const MOST_STARTS = 20;
