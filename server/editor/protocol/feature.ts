import {
  type CancellationToken,
  type Connection,
  ErrorCodes,
  type RequestType,
  ResponseError,
  type ServerCapabilities,
  type WorkDoneProgressReporter,
} from 'vscode-languageserver';
import type { Steps } from '../../incremental/steps.ts';
import type { Fonts } from '../../output/writers/papers.ts';
import type { Settings } from '../workspace/settings.ts';
import type { View, Workspace } from '../workspace/workspace.ts';
import type { ClientAbilities } from './client-abilities.ts';
import type { ProgressAsk, Told } from './progress.ts';
import type { TokenDeltas } from './token-deltas.ts';
import type { Course, Turns } from './turns.ts';

/*
 * A language feature says what it is asked by, what it does for which editor, and what it answers, also where there is
 * nothing to answer. How it is asked (in turns, again where a text changes, until it is taken back) is the server's.
 */

export interface Feature {
  readonly requests: readonly Request[];
  /** What the server says of it when it starts. Left out where the protocol has no word for it. */
  capability?(client: ClientAbilities): ServerCapabilities;
}

/** What cannot be done, in words for who asked for it. */
export class Refused extends Error {}

/** One question of the protocol or of our own. */
export interface Request {
  readonly method: string;
  /** As the protocol has it: what is asked along is looked at before the question comes here. */
  readonly type?: RequestType<unknown, unknown, unknown>;
  answer(server: Answering, params: unknown, token: CancellationToken): unknown;
}

/** What the server lends to whoever answers. */
export interface Answering {
  readonly connection: Connection;
  readonly workspace: Workspace;
  readonly turns: Turns;
  readonly client: ClientAbilities;
  readonly fonts: Fonts;
  /** What was sent of each spec. */
  readonly tokens: TokenDeltas;
  /** `2027-03-01` */
  today(): string;
  settingsOf(uri: string): Settings;
  loadSettings(uri: string): Promise<void>;
  /** The stock that comes with Planish is no file: only an editor that takes texts from a server can open it. */
  canShow(uri: string): boolean;
  /** No question brings the server down: what goes wrong is told, and answered with `empty`. */
  attempt<T>(
    what: string,
    token: CancellationToken,
    empty: T,
    ask: () => T | Promise<T>,
  ): Promise<T | ResponseError<void>>;
  /** Works something out of a spec as it stands, in turns; nothing where there is no such spec. */
  steadily<T>(
    uri: string,
    steps: (view: View) => Steps<T>,
    course?: Course,
    stillHolds?: () => boolean,
  ): Promise<T | undefined>;
  /** The same for what looks at every spec of the open folders. */
  throughSpecs<T>(
    steps: (specs: readonly string[]) => Steps<T>,
    course: { readonly token: CancellationToken; readonly told: Told },
  ): Promise<T>;
  withProgress<T>(
    asked: ProgressAsk,
    token: CancellationToken,
    work: (token: CancellationToken, told: Told) => Promise<T>,
  ): Promise<T>;
  reporterOf(params: unknown): WorkDoneProgressReporter | undefined;
}

/** What is told while every spec of the open folders is read. */
const READING = 'Reading the specs';

type Asked<P, R> = RequestType<P, R, unknown>;

export interface AboutOne<P, R> {
  /** Said when it is asked, and where it goes wrong. */
  readonly what: string;
  /** The answer where there is none; of what is only made fuller, what there was. */
  readonly empty: R | ((params: P) => R);
  /** Which spec it is about, where it is not said by `textDocument`. */
  uri?(params: P): unknown;
  /** It asks what is wrong with the spec, which is worked out before: that may take long. */
  readonly judged?: boolean;
  /** It may read every spec there is, which the editor is told. */
  readonly readsAll?: boolean;
  /** Before anything is looked at. */
  before?(server: Answering): void;
  /** It may give steps: then others may go first between two of them. */
  answer(view: View, params: P, server: Answering): R | Steps<R>;
}

/** A question about one spec. */
export function aboutOne<P, R>(type: Asked<P, R> | string, row: AboutOne<P, R>): Request {
  return request<P>(type, (server, params, token) => {
    row.before?.(server);
    const empty = typeof row.empty === 'function' ? (row.empty as (params: P) => R)(params) : row.empty;
    return server.attempt(row.what, token, empty, () => askedOf(server, row, params, token, empty));
  });
}

async function askedOf<P, R>(
  server: Answering,
  { uri: uriOf, judged, readsAll, answer }: AboutOne<P, R>,
  params: P,
  token: CancellationToken,
  empty: R,
): Promise<R> {
  const { workspace } = server;
  const uri = uriOf ? uriOf(params) : (params as { textDocument?: { uri?: unknown } } | null)?.textDocument?.uri;
  if (typeof uri !== 'string') throw new ResponseError(ErrorCodes.InvalidParams, 'Which document?');
  // A place counts from the text as it was when the question came.
  const version = workspace.version(uri);
  const holds = !uriOf && hasPlace(params) ? () => workspace.version(uri) === version : undefined;
  const steps = function* (view: View): Steps<R> {
    if (judged) yield* view.problemsInSteps();
    const given = answer(view, params, server);
    return isSteps(given) ? yield* given : given;
  };
  const work = async (cancelled: CancellationToken, told?: (share: number) => void) =>
    (await server.steadily(uri, steps, { token: cancelled, ...(told ? { told } : {}) }, holds)) ?? empty;
  return readsAll
    ? server.withProgress({ title: READING, reporter: server.reporterOf(params) }, token, work)
    : work(token);
}

export interface AboutAll<P, R> {
  readonly what: string;
  readonly empty: R;
  answer(workspace: Workspace, specs: readonly string[], params: P, server: Answering): Steps<R>;
}

/** A question about every spec of the open folders. */
export function aboutAll<P, R>(type: Asked<P, R>, { what, empty, answer }: AboutAll<P, R>): Request {
  return request<P>(type, (server, params, token) =>
    server.attempt(what, token, empty, () =>
      server.withProgress({ title: READING, reporter: server.reporterOf(params) }, token, (cancelled, told) =>
        server.throughSpecs((specs) => answer(server.workspace, specs, params, server), { token: cancelled, told }),
      ),
    ),
  );
}

export interface Plain<P, R> {
  readonly what: string;
  readonly empty: R;
  answer(params: P, server: Answering, token: CancellationToken): R | Promise<R>;
}

/** Any other question. */
export function plain<P, R>(type: Asked<P, R> | string, { what, empty, answer }: Plain<P, R>): Request {
  return request<P>(type, (server, params, token) =>
    server.attempt(what, token, empty, () => answer(params, server, token)),
  );
}

function request<P>(
  type: Asked<P, unknown> | string,
  answer: (server: Answering, params: P, token: CancellationToken) => unknown,
): Request {
  const named =
    typeof type === 'string'
      ? { method: type }
      : { method: type.method, type: type as RequestType<unknown, unknown, unknown> };
  return { ...named, answer: (server, params, token) => answer(server, params as P, token) };
}

const hasPlace = (asked: unknown): boolean =>
  typeof asked === 'object' && asked !== null && PLACES.some((place) => place in asked);
const PLACES = ['position', 'positions', 'range', 'ranges'] as const;

function isSteps<T>(answer: T | Steps<T>): answer is Steps<T> {
  return typeof answer === 'object' && answer !== null && Symbol.iterator in answer && 'next' in answer;
}
