// The bytes themselves: for what no protocol library would send, and for what it would keep to itself.
import { type ChildProcess, spawn } from 'node:child_process';
import path from 'node:path';
import type { InitializeParams } from 'vscode-languageserver-protocol/node';
import { ABILITIES, PATIENCE_MS } from './stdio.ts';

const root = path.resolve(import.meta.dirname, '../..');

export interface Heard {
  readonly id?: number | string | null;
  readonly method?: string;
  readonly params?: Record<string, unknown>;
  readonly result?: unknown;
  readonly error?: { readonly code: number; readonly message: string };
}

export const frame = (body: string): string => `Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`;
const message = (what: object): string => frame(JSON.stringify({ jsonrpc: '2.0', ...what }));
export const request = (id: number, method: string, params?: unknown): string => message({ id, method, params });
export const notification = (method: string, params: unknown): string => message({ method, params });
export const takeBack = (id: number): string => notification('$/cancelRequest', { id });
export const opened = (uri: string, text: string, version = 1): string =>
  notification('textDocument/didOpen', { textDocument: { uri, languageId: 'planish', version, text } });

export class RawClient {
  private static readonly running = new Set<ChildProcess>();
  static endAll(): void {
    for (const child of RawClient.running) child.kill('SIGKILL');
  }

  readonly heard: Heard[] = [];
  said = '';
  readonly ended: Promise<number | null>;
  private rest = Buffer.alloc(0);
  private readonly child: ChildProcess;
  private last = 1_000_000;

  constructor(program: string) {
    this.child = spawn(process.execPath, [program, '--stdio'], { cwd: root, stdio: ['pipe', 'pipe', 'pipe'] });
    RawClient.running.add(this.child);
    this.child.stdout!.on('data', (bytes: Buffer) => this.take(bytes));
    this.child.stderr!.on('data', (bytes: Buffer) => {
      this.said += bytes;
    });
    // What is written to one that has ended is lost, as it should be.
    this.child.stdin!.on('error', () => {});
    this.ended = new Promise((resolve) => {
      this.child.once('close', (code) => {
        RawClient.running.delete(this.child);
        resolve(code);
      });
    });
  }

  /** A server that has been greeted. */
  static async start(program: string, params: Partial<InitializeParams> = {}): Promise<RawClient> {
    const client = new RawClient(program);
    await client.greet(params);
    return client;
  }

  async greet(params: Partial<InitializeParams> = {}): Promise<Heard> {
    const capabilities = { ...ABILITIES, workspace: { ...ABILITIES.workspace, configuration: false } };
    const answer = await this.ask('initialize', { processId: process.pid, rootUri: null, capabilities, ...params });
    this.write(notification('initialized', {}));
    return answer;
  }

  write(...parts: readonly (string | Uint8Array)[]): void {
    this.child.stdin!.write(Buffer.concat(parts.map((part) => Buffer.from(part))));
  }

  close(): void {
    this.child.stdin!.end();
  }

  /** Asks and waits. */
  ask(method: string, params?: unknown): Promise<Heard> {
    const id = ++this.last;
    this.write(request(id, method, params));
    return this.answer(id);
  }

  answer(id: number | null): Promise<Heard> {
    return this.until((each) => each.id === id && each.method === undefined, `no answer to ${id}`);
  }

  async until(fits: (heard: Heard) => boolean, otherwise: string): Promise<Heard> {
    const end = Date.now() + PATIENCE_MS;
    for (let from = 0; ; ) {
      for (; from < this.heard.length; from++) if (fits(this.heard[from]!)) return this.heard[from]!;
      if (Date.now() > end || this.child.exitCode !== null) throw new Error(`${otherwise}\n${this.said}`);
      await new Promise((next) => setTimeout(next, 2));
    }
  }

  async stop(): Promise<number | null> {
    await this.ask('shutdown');
    this.write(notification('exit', undefined));
    return this.ended;
  }

  private take(bytes: Buffer): void {
    this.rest = Buffer.concat([this.rest, bytes]);
    for (;;) {
      const end = this.rest.indexOf('\r\n\r\n');
      if (end < 0) return;
      const length = Number(/Content-Length: (\d+)/.exec(this.rest.toString('latin1', 0, end))![1]);
      if (this.rest.length < end + 4 + length) return;
      const heard = JSON.parse(this.rest.toString('utf8', end + 4, end + 4 + length)) as Heard;
      this.heard.push(heard);
      // Whatever the server asks, there is nothing to say.
      if (heard.method !== undefined && heard.id !== undefined) this.write(message({ id: heard.id, result: null }));
      this.rest = this.rest.subarray(end + 4 + length);
    }
  }
}
