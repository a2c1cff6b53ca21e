// A real client over standard input and output, for the protocol tests and the benchmark.
import { type ChildProcess, spawn } from 'node:child_process';
import path from 'node:path';
import {
  createProtocolConnection,
  type Diagnostic,
  type InitializeParams,
  type InitializeResult,
  type ProtocolConnection,
  type Registration,
  type RegistrationParams,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver-protocol/node';
import { builtProgram } from '../program.ts';

const root = path.resolve(import.meta.dirname, '../..');

/** No judgement: how long something takes is for the benchmarks. Less than a test may take, so that it is told what did not come. */
export const PATIENCE_MS = 120_000;

let built: Promise<string> | undefined;

/** The server as it ships but for the minifying; made once for all tests of a process. */
export function builtServer(): Promise<string> {
  built ??= builtProgram('server', path.join(root, 'dist/test-server/dist'));
  return built;
}

export interface Published {
  readonly uri: string;
  readonly version?: number;
  readonly diagnostics: Diagnostic[];
}

export interface ClientOptions {
  /** Arguments before the program: `--cpu-prof`. */
  readonly node?: readonly string[];
  readonly program?: string;
  /** A channel beside the protocol, for what a test has loaded into the program (`client.child.send`). */
  readonly channel?: boolean;
  readonly params?: Partial<InitializeParams>;
  /** What the editor answers to `workspace/configuration`. */
  readonly settings?: () => unknown;
  /** What the editor answers to `planish/readFile`. */
  readonly readFile?: (uri: string) => string | null;
  /** What the editor answers to `planish/findSpecs`. */
  readonly findSpecs?: () => string[];
  /** What the editor answers to `planish/listFolder`. */
  readonly listFolder?: (uri: string) => { name: string; isFolder: boolean }[];
}

/** What a current editor can do. */
export const ABILITIES: InitializeParams['capabilities'] = {
  workspace: {
    configuration: true,
    workspaceFolders: true,
    inlayHint: { refreshSupport: true },
    textDocumentContent: {},
  },
  textDocument: {
    publishDiagnostics: { relatedInformation: true, versionSupport: true },
    completion: { completionItem: { snippetSupport: true, documentationFormat: ['markdown'] } },
    hover: { contentFormat: ['markdown'] },
    definition: { linkSupport: true },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    rename: { prepareSupport: true },
  },
};

export class Client {
  private static readonly running = new Set<ChildProcess>();

  /** Ends what a failed test left running: a child would keep the whole run from ending. */
  static endAll(): void {
    for (const child of Client.running) child.kill('SIGKILL');
  }

  readonly published: Published[] = [];
  readonly logged: string[] = [];
  readonly registered: Registration[] = [];
  /** What the server asked to be asked again. */
  readonly refreshed: string[] = [];
  result!: InitializeResult;
  private readonly waiting = new Set<() => void>();
  private readonly versions = new Map<string, number>();

  private constructor(
    readonly connection: ProtocolConnection,
    readonly child: ChildProcess,
  ) {}

  static async start(options: ClientOptions = {}): Promise<Client> {
    const program = options.program ?? 'dist/server.cjs';
    const child = spawn(process.execPath, [...(options.node ?? []), program, '--stdio'], {
      cwd: root,
      stdio: ['pipe', 'pipe', 'inherit', ...(options.channel ? (['ipc'] as const) : [])],
    });
    Client.running.add(child);
    child.once('exit', () => Client.running.delete(child));
    const connection = createProtocolConnection(
      new StreamMessageReader(child.stdout!),
      new StreamMessageWriter(child.stdin!),
    );
    const client = new Client(connection, child);
    connection.onNotification('textDocument/publishDiagnostics', (params: Published) => {
      client.published.push(params);
      for (const look of [...client.waiting]) look();
    });
    connection.onNotification('window/logMessage', ({ message }: { message: string }) => {
      client.logged.push(message);
    });
    connection.onRequest('workspace/configuration', ({ items }: { items: unknown[] }) =>
      items.map(() => options.settings?.() ?? null),
    );
    connection.onRequest('client/registerCapability', ({ registrations }: RegistrationParams) => {
      client.registered.push(...registrations);
    });
    for (const what of ['inlayHint', 'codeLens', 'diagnostic'])
      connection.onRequest(`workspace/${what}/refresh`, () => {
        client.refreshed.push(what);
        for (const look of [...client.waiting]) look();
        return null;
      });
    connection.onRequest('planish/readFile', ({ uri }: { uri: string }) => {
      const text = options.readFile?.(uri) ?? null;
      return text === null ? null : { text };
    });
    connection.onRequest('planish/findSpecs', () => ({ uris: options.findSpecs?.() ?? [] }));
    connection.onRequest('planish/listFolder', ({ uri }: { uri: string }) => ({
      entries: options.listFolder?.(uri) ?? [],
    }));
    connection.listen();
    client.result = await connection.sendRequest('initialize', {
      processId: process.pid,
      rootUri: null,
      capabilities: ABILITIES,
      ...options.params,
    });
    await connection.sendNotification('initialized', {});
    return client;
  }

  async open(uri: string, text: string): Promise<void> {
    const version = this.nextVersion(uri);
    await this.connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri, languageId: 'planish', version, text },
    });
  }

  /** Versions never start anew, so that an answer about an earlier text is never taken for one about this. */
  private nextVersion(uri: string): number {
    const version = (this.versions.get(uri) ?? 0) + 1;
    this.versions.set(uri, version);
    return version;
  }

  /** One change, as an editor sends it. Gives the version it made. */
  async change(
    uri: string,
    range: { start: { line: number; character: number }; end: { line: number; character: number } } | undefined,
    text: string,
  ): Promise<number> {
    const version = this.nextVersion(uri);
    await this.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [range ? { range, text } : { text }],
    });
    return version;
  }

  async close(uri: string): Promise<void> {
    await this.connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
  }

  request<T>(method: string, params: unknown): Promise<T> {
    return this.connection.sendRequest<T>(method, params);
  }

  /** The newest diagnostics of a file that fit, waited for. */
  diagnostics(uri: string, fits: (published: Published) => boolean = () => true): Promise<Diagnostic[]> {
    return new Promise((resolve, reject) => {
      const look = () => {
        const last = this.published.findLast((each) => each.uri === uri);
        if (!last || !fits(last)) return;
        this.waiting.delete(look);
        clearTimeout(timer);
        resolve(last.diagnostics);
      };
      const timer = setTimeout(() => {
        this.waiting.delete(look);
        const last = this.published.findLast((each) => each.uri === uri);
        reject(new Error(`No such diagnostics of ${uri} came: ${JSON.stringify(last)}\n${this.logged.join('\n')}`));
      }, PATIENCE_MS);
      this.waiting.add(look);
      look();
    });
  }

  /** The diagnostics of the newest text. */
  diagnosticsOf(uri: string): Promise<Diagnostic[]> {
    const version = this.versions.get(uri) ?? 0;
    return this.diagnostics(uri, (published) => (published.version ?? 0) >= version);
  }

  /** Waits until something that was heard makes it true. */
  async until(isSo: () => boolean): Promise<void> {
    const end = Date.now() + PATIENCE_MS;
    while (!isSo()) {
      if (Date.now() > end) throw new Error(`It never came about.\n${this.logged.join('\n')}`);
      await new Promise((next) => setTimeout(next, 5));
    }
  }

  async stop(): Promise<number | null> {
    const ended = new Promise<number | null>((resolve) => this.child.once('exit', resolve));
    if (this.child.exitCode !== null) return this.child.exitCode;
    await this.connection.sendRequest('shutdown');
    await this.connection.sendNotification('exit');
    const code = await ended;
    this.connection.dispose();
    return code;
  }
}
