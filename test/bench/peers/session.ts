// One server, spoken to as an editor does.
import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import {
  createProtocolConnection,
  type InitializeResult,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver-protocol/node';
import { schema } from './records.ts';
import type { Subject } from './subjects.ts';

interface Position {
  readonly line: number;
  readonly character: number;
}

export class Session {
  /** From the start of the program to the answer of `initialize`, ms. */
  readyAfter = 0;
  /** Diagnostics of the newest text. */
  count = 0;
  private pulls = false;
  private version = 0;
  private waiting: ((count: number) => void)[] = [];
  private spot!: { readonly at: Position; readonly letter: string };
  /** Whether the newest text has an error. */
  isBroken = false;
  readonly uri: string;

  private constructor(
    readonly subject: Subject,
    private readonly connection: ProtocolConnection,
    private readonly child: ChildProcess,
  ) {
    this.uri = `file:///bench/long.${subject.language}`;
  }

  static async start(subject: Subject, { push = false, node = [] as readonly string[] } = {}): Promise<Session> {
    const started = performance.now();
    const child = spawn(process.execPath, [...node, ...subject.program], { stdio: ['pipe', 'pipe', 'ignore'] });
    const connection = createProtocolConnection(
      new StreamMessageReader(child.stdout),
      new StreamMessageWriter(child.stdin),
    );
    const session = new Session(subject, connection, child);
    session.listen();
    const { capabilities } = await connection.sendRequest<InitializeResult>('initialize', {
      processId: process.pid,
      rootUri: null,
      initializationOptions: subject.options,
      capabilities: {
        textDocument: {
          publishDiagnostics: { relatedInformation: true, versionSupport: true },
          documentSymbol: { hierarchicalDocumentSymbolSupport: true },
          hover: { contentFormat: ['markdown'] },
          completion: { completionItem: { snippetSupport: true, documentationFormat: ['markdown'] } },
          ...(push ? {} : { diagnostic: { dynamicRegistration: false } }),
        },
        workspace: { configuration: true, didChangeConfiguration: { dynamicRegistration: true } },
      },
    });
    session.readyAfter = performance.now() - started;
    session.pulls = !push && capabilities.diagnosticProvider !== undefined;
    await connection.sendNotification('initialized', {});
    if (subject.settings)
      await connection.sendNotification('workspace/didChangeConfiguration', { settings: subject.settings });
    if (subject.name === 'yaml') await connection.sendNotification('yaml/registerCustomSchemaRequest', {});
    return session;
  }

  private listen(): void {
    const { connection, subject } = this;
    connection.onNotification('textDocument/publishDiagnostics', ({ uri, diagnostics }) => {
      if (uri !== this.uri) return;
      const waiting = this.waiting;
      this.waiting = [];
      for (const tell of waiting) tell(diagnostics.length);
    });
    connection.onRequest('workspace/configuration', ({ items }: { items: { section?: string }[] }) =>
      items.map(
        ({ section = '' }) =>
          section
            .split('.')
            .reduce<unknown>((value, key) => (value as Record<string, unknown>)?.[key], subject.settings ?? {}) ?? null,
      ),
    );
    for (const method of [
      'client/registerCapability',
      'window/workDoneProgress/create',
      'workspace/diagnostic/refresh',
      'workspace/semanticTokens/refresh',
    ])
      connection.onRequest(method, () => null);
    connection.onRequest('custom/schema/request', () => 'mem:///schema');
    for (const method of ['custom/schema/content', 'vscode/content'])
      connection.onRequest(method, () => JSON.stringify(schema));
    connection.onError(() => {});
    connection.listen();
  }

  /** Opens a text and waits for its diagnostics. */
  async open(lines: number): Promise<void> {
    const text = this.subject.text(lines);
    const found = [...text.matchAll(this.subject.spot)];
    const middle = found[found.length >> 1]!;
    const offset = middle.index + middle[0].indexOf(middle[1]!, middle[0].length - middle[1]!.length - 2);
    const before = text.slice(0, offset).split('\n');
    this.spot = {
      at: { line: before.length - 1, character: before[before.length - 1]!.length },
      letter: text[offset]!,
    };
    const told = this.told();
    await this.connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri: this.uri, languageId: this.subject.language, version: ++this.version, text },
    });
    this.count = await told();
  }

  /** Opens another text beside, and waits for nothing. */
  async openBeside(name: string, text: string): Promise<void> {
    await this.connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri: `file:///bench/${name}`, languageId: this.subject.language, version: 1, text },
    });
  }

  /** One letter becomes wrong, or right again. */
  private async change(): Promise<void> {
    const { at, letter } = this.spot;
    this.isBroken = !this.isBroken;
    await this.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri: this.uri, version: ++this.version },
      contentChanges: [
        {
          range: { start: at, end: { ...at, character: at.character + 1 } },
          text: this.isBroken ? 'z' : letter,
        },
      ],
    });
  }

  /** Made before a change, waited for after it. */
  private told(): () => Promise<number> {
    if (!this.pulls) {
      const told = new Promise<number>((resolve) => this.waiting.push(resolve));
      return () => told;
    }
    return async () => {
      const { items } = await this.ask<{ items: unknown[] }>('textDocument/diagnostic');
      return items.length;
    };
  }

  private ask<T = unknown>(method: string, params: object = {}): Promise<T> {
    return this.connection.sendRequest<T>(method, { textDocument: { uri: this.uri }, ...params });
  }

  /** The time from the sending of a change to its diagnostics, ms. */
  async diagnostics(): Promise<number> {
    const told = this.told();
    const started = performance.now();
    await this.change();
    this.count = await told();
    return performance.now() - started;
  }

  /** The time from the sending of a change to the answer of a question about the newest text, ms. */
  async answer(what: 'hover' | 'completion' | 'symbols'): Promise<number> {
    const method = what === 'symbols' ? 'documentSymbol' : what;
    const { line, character } = this.spot.at;
    const position = what === 'symbols' ? {} : { position: { line, character: character + 1 } };
    const started = performance.now();
    await this.change();
    await this.ask(`textDocument/${method}`, position);
    return performance.now() - started;
  }

  /** Memory held by the program, MB; nothing where the system does not say. */
  memory(): number | undefined {
    try {
      const status = readFileSync(`/proc/${this.child.pid}/status`, 'utf8');
      return Number(/VmRSS:\s+(\d+)/.exec(status)![1]) / 1024;
    } catch {
      return undefined;
    }
  }

  /** What the main thread of the program has been on the processor, ms; nothing where the system does not say. */
  processor(): number | undefined {
    try {
      return Number(readFileSync(`/proc/${this.child.pid}/schedstat`, 'utf8').split(' ')[0]) / 1e6;
    } catch {
      return undefined;
    }
  }

  async stop(): Promise<void> {
    const ended = new Promise((resolve) => this.child.once('exit', resolve));
    const patience = setTimeout(() => this.child.kill('SIGKILL'), 3000);
    try {
      await this.connection.sendRequest('shutdown');
      await this.connection.sendNotification('exit');
    } catch {
      this.child.kill('SIGKILL');
    }
    await ended;
    clearTimeout(patience);
    this.connection.dispose();
  }
}
