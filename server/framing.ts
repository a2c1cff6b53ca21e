import {
  AbstractMessageReader,
  AbstractMessageWriter,
  type DataCallback,
  type Disposable,
  type Message,
  type MessageWriter,
} from 'vscode-languageserver';

/** What messages come from: standard input. */
export interface Input {
  on(event: 'data', heard: (bytes: Buffer) => void): unknown;
}

/** What messages go to: standard output. */
export interface Output {
  write(text: string, encoding: 'utf8', done: (error?: Error | null) => void): unknown;
  on(event: 'error', heard: (error: Error) => void): unknown;
}

export interface Trouble {
  /** A frame is whole and what it holds is no JSON: the next one can still be read. */
  body(why: string): void;
  /** Nobody knows where the next frame begins. What is read from there on would be guessed. */
  frame(why: string): void;
}

/** More than any header and any message of an editor: a number that is wrong would have us wait for ever. */
const LONGEST_HEADER = 4_096;
const LONGEST_BODY = 500_000_000;
const EMPTY_LINE = '\r\n\r\n';
// To make one takes longer than to read a message with it.
const UTF8 = new TextDecoder();

/**
 * Messages with a header before each, as they come through a pipe. All that has come is handed on at once, in its order:
 * so what takes a question back is known before the question is looked at.
 */
export class FrameReader extends AbstractMessageReader {
  private waiting: Buffer[] = [];
  private have = 0;
  /** So many bytes must be there before it is worth looking again. */
  private needed = 1;
  /** The length of the body, once its header is read. */
  private body: number | undefined;
  private isBroken = false;

  constructor(
    private readonly input: Input,
    private readonly trouble: Trouble,
  ) {
    super();
  }

  listen(callback: DataCallback): Disposable {
    this.input.on('data', (bytes) => this.take(bytes, callback));
    return { dispose: () => this.dispose() };
  }

  /** Whether something has come that is not a whole message yet. */
  isWithin(): boolean {
    return this.have > 0 || this.body !== undefined;
  }

  private take(bytes: Buffer, callback: DataCallback): void {
    if (this.isBroken) return;
    this.waiting.push(bytes);
    this.have += bytes.byteLength;
    if (this.have < this.needed) return;
    let rest = this.waiting.length === 1 ? bytes : Buffer.concat(this.waiting, this.have);
    while (!this.isBroken) {
      const before = rest;
      rest = this.body === undefined ? this.header(rest) : this.message(rest, this.body, callback);
      if (rest === before) break;
    }
    this.waiting = rest.byteLength ? [rest] : [];
    this.have = rest.byteLength;
  }

  /** Takes a header off; the same bytes where it has not all come. */
  private header(bytes: Buffer): Buffer {
    this.needed = bytes.byteLength + 1;
    const within = bytes.subarray(0, LONGEST_HEADER);
    const end = within.indexOf(EMPTY_LINE);
    const lines = within.toString('latin1', 0, end < 0 ? within.byteLength : end).split('\r\n');
    // Looked at as far as it has come: what does not begin as a header will not become one.
    const odd = lines.find((line) => !/^[A-Za-z-]*(:.*)?\r?$/.test(line));
    if (odd !== undefined) this.breaks(`${JSON.stringify(odd.slice(0, 80))} where the header of a message should be`);
    else if (end < 0 && within.byteLength === LONGEST_HEADER) this.breaks(`a header without an end`);
    if (this.isBroken || end < 0) return bytes;
    const length = lines.flatMap((line) => /^content-length:\s*(.*?)\s*$/i.exec(line)?.slice(1) ?? [])[0];
    if (length === undefined || !/^\d+$/.test(length) || Number(length) > LONGEST_BODY) {
      this.breaks(`a header with ${length === undefined ? 'no Content-Length' : `the Content-Length “${length}”`}`);
      return bytes;
    }
    this.body = Number(length);
    this.needed = this.body;
    return bytes.subarray(end + EMPTY_LINE.length);
  }

  private message(bytes: Buffer, length: number, callback: DataCallback): Buffer {
    this.needed = length;
    if (bytes.byteLength < length) return bytes;
    this.body = undefined;
    let message: Message | undefined;
    try {
      message = JSON.parse(UTF8.decode(bytes.subarray(0, length))) as Message;
    } catch (error) {
      this.trouble.body(error instanceof Error ? error.message : String(error));
    }
    if (message !== undefined) callback(message);
    return bytes.subarray(length);
  }

  private breaks(why: string): void {
    this.isBroken = true;
    this.trouble.frame(why);
  }
}

/** Messages through a pipe, each written at once and as one: whoever waits for it is woken once, and finds all of it. */
export class FrameWriter extends AbstractMessageWriter implements MessageWriter {
  constructor(private readonly output: Output) {
    super();
    output.on('error', (error) => this.fireError(error));
  }

  write(message: Message): Promise<void> {
    return new Promise((resolve, reject) => {
      const body = JSON.stringify(message);
      const frame = `Content-Length: ${Buffer.byteLength(body)}${EMPTY_LINE}${body}`;
      this.output.write(frame, 'utf8', (error) => {
        if (!error) return resolve();
        this.fireError(error, message);
        reject(error);
      });
    });
  }

  end(): void {
    this.fireClose();
  }
}
