// The server as a web worker. One that ends by itself is noticed and told to the library as the end of a process is, so that
// what follows is the same for both (crashes.ts).
import {
  BaseLanguageClient,
  BrowserMessageReader,
  BrowserMessageWriter,
  type InitializeParams,
  type LanguageClientOptions,
  type MessageTransports,
} from 'vscode-languageclient/browser';

export class WorkerClient extends BaseLanguageClient {
  private server: WorkerServer | undefined;

  /** `script` is the server; `programs` the folder of what it loads later, which a worker cannot see, since it runs from a copy. */
  constructor(
    private readonly script: string,
    private readonly programs: string,
    options: LanguageClientOptions,
  ) {
    super('planish', 'Planish', options);
  }

  /** Every start of the server is a worker of its own: who restarts one that is stuck wants to be rid of it. */
  protected override async createMessageTransports(): Promise<MessageTransports> {
    this.server?.end();
    this.server = new WorkerServer(this.script);
    return this.server;
  }

  /** Ends it, whatever it does, as if it had ended by itself. */
  endServer(): void {
    this.server?.hasEnded();
  }

  protected override fillInitializeParams(params: InitializeParams): void {
    super.fillInitializeParams(params);
    const { programs, server } = this;
    params.initializationOptions = { ...params.initializationOptions, programs, lock: server?.lock };
  }
}

/** One worker, heard and written to until it ends. */
class WorkerServer implements MessageTransports {
  readonly reader: WorkerReader;
  readonly writer: BrowserMessageWriter;
  /**
   * A worker that ends without an error tells nobody, but the browser lets go of its locks: it takes this one before its first
   * word, and from there on we wait for it. Whoever asks for signs of life learns it late, and not at all while nothing is asked.
   */
  readonly lock = `planish-${Date.now()}-${Math.random()}`;
  private readonly waiting = new AbortController();
  private readonly worker: Worker;

  constructor(script: string) {
    const worker = new Worker(script);
    this.worker = worker;
    // By reader and writer: the library does not know a worker for one where the editor puts its own in place of the class.
    this.reader = new WorkerReader(worker);
    this.writer = new BrowserMessageWriter(worker);
    // Its script did not load, or it threw something that nobody caught, or a message was lost: no longer to be trusted.
    for (const sign of ['error', 'messageerror'])
      worker.addEventListener(sign, (event) => {
        // It is in the log, and no error of the editor's.
        event.preventDefault();
        this.hasEnded();
      });
    // Who is ended by us gives up the lock too, and the waiting fails; so does it where a page has no locks.
    worker.addEventListener('message', () => void this.waitForEnd().catch(() => undefined), { once: true });
  }

  /** Ends it, and nobody is told. */
  end(): void {
    this.waiting.abort();
    this.worker.terminate();
  }

  /** Ends it, and who listens is told. */
  hasEnded(): void {
    if (this.waiting.signal.aborted) return;
    this.end();
    this.reader.close();
  }

  private async waitForEnd(): Promise<void> {
    const { lock: name } = this;
    const { held } = await navigator.locks.query();
    // A server that could not take it would seem to be gone already.
    if (!held?.some((lock) => lock.name === name)) return;
    await navigator.locks.request(name, { signal: this.waiting.signal }, () => this.hasEnded());
  }
}

class WorkerReader extends BrowserMessageReader {
  close(): void {
    this.fireClose();
  }
}
