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
  write(frame: string | Uint8Array, encoding: 'utf8', done: (error?: Error | null) => void): unknown;
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

/**
 * Messages through a pipe, each written at once and as one: whoever waits for it is woken once, and finds all of it. A paper of
 * many megabytes is put into bytes part by part, others are heard in between, and what is written meanwhile goes after it.
 */
export class FrameWriter extends AbstractMessageWriter implements MessageWriter {
  /** Over when all that was begun is written. */
  private busy: Promise<void> | undefined;

  constructor(private readonly output: Output) {
    super();
    output.on('error', (error) => this.fireError(error));
  }

  write(message: Message): Promise<void> {
    const isLong = lettersOf(message) > LONG;
    if (!isLong && !this.busy) return this.whole(message);
    const written = (this.busy ?? Promise.resolve()).then(() => (isLong ? this.parts(message) : this.whole(message)));
    // Whoever wrote it hears that it failed; the next is written all the same.
    const over = written
      .catch(() => {})
      .then(() => {
        if (this.busy === over) this.busy = undefined;
      });
    this.busy = over;
    return written;
  }

  private whole(message: Message): Promise<void> {
    const body = JSON.stringify(message);
    return this.put(`Content-Length: ${Buffer.byteLength(body)}${EMPTY_LINE}${body}`, message);
  }

  private async parts(message: Message): Promise<void> {
    const bytes: Buffer[] = [];
    let [part, size] = [[] as string[], 0];
    const finish = async () => {
      bytes.push(Buffer.from(part.join('')));
      [part, size] = [[], 0];
      await new Promise((next) => setImmediate(next));
    };
    for (const piece of piecesOf(message)) {
      part.push(piece);
      size += piece.length;
      if (size > PART) await finish();
    }
    await finish();
    const length = bytes.reduce((sum, { byteLength }) => sum + byteLength, 0);
    await this.put(`Content-Length: ${length}${EMPTY_LINE}`, message);
    for (const each of bytes) {
      await this.put(each, message);
      await new Promise((next) => setImmediate(next));
    }
  }

  private put(frame: string | Uint8Array, message: Message): Promise<void> {
    return new Promise((resolve, reject) => {
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

/** Letters from which a message is written part by part, and of one part: some milliseconds. */
const LONG = 1_000_000;
const PART = 500_000;
/** So deep lie the texts and the lists that grow long: an answer, its sheets, one of them, its text. */
const DEEP = 5;
/** From so many entries a list is looked at. */
const MANY = 200;

/** About how many letters a value has as JSON, of a list by its first, middle and last entry; short ones are not counted. */
function lettersOf(value: unknown, deep = DEEP): number {
  if (typeof value === 'string') return value.length;
  if (typeof value !== 'object' || value === null || !deep) return 0;
  if (!Array.isArray(value)) {
    let sum = 0;
    for (const key in value) sum += lettersOf((value as Record<string, unknown>)[key], deep - 1);
    return sum;
  }
  if (value.length < MANY) return value.reduce((sum: number, one) => sum + lettersOf(one, deep - 1), 0);
  const some = [value[0], value[value.length >> 1], value[value.length - 1]];
  return (some.reduce((sum: number, one) => sum + (JSON.stringify(one)?.length ?? 0), 0) / some.length) * value.length;
}

/** A value as JSON in pieces that take no time each. */
function* piecesOf(value: unknown, deep = DEEP): Generator<string> {
  if (typeof value === 'string' && value.length > PART) {
    yield '"';
    for (let from = 0; from < value.length; ) {
      const end = Math.min(value.length, from + PART);
      // Never between the halves of a letter.
      const to = end < value.length && (value.charCodeAt(end - 1) & 0xfc00) === 0xd800 ? end - 1 : end;
      yield JSON.stringify(value.slice(from, to)).slice(1, -1);
      from = to;
    }
    yield '"';
  } else if (typeof value !== 'object' || value === null || !deep) {
    yield JSON.stringify(value) ?? 'null';
  } else if (Array.isArray(value)) {
    let before = '[';
    for (const one of value) {
      yield before;
      // Most entries are short, and written at once.
      if (lettersOf(one, deep - 1) > PART) yield* piecesOf(one, deep - 1);
      else yield JSON.stringify(one) ?? 'null';
      before = ',';
    }
    yield before === '[' ? '[]' : ']';
  } else {
    let before = '{';
    for (const [key, one] of Object.entries(value)) {
      if (one === undefined) continue;
      yield `${before}${JSON.stringify(key)}:`;
      yield* piecesOf(one, deep - 1);
      before = ',';
    }
    yield before === '{' ? '{}' : '}';
  }
}
