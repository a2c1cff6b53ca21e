import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { URI } from 'vscode-uri';
import { Ended, Session } from './session.ts';

/** ms of the processor within which every state of a text that is typed is answered. */
export const STATE_MOST = 200;

/** One key, or a paste: what stands between two places makes room for what is put. */
export interface Key {
  readonly from: number;
  readonly to: number;
  readonly put: string;
}

/** A state of a text, by the line that was typed in, as it stood. */
interface Typed {
  readonly sample: string;
  readonly line: string;
  readonly row: number;
  /** The next key came before its answer, and it was gone back to for that. */
  readonly isOvertaken?: boolean;
}

export interface State extends Typed {
  /** ms of the server's processor until its diagnostics were told, and until another spec's hover was answered. */
  readonly told: number;
  readonly hover: number;
  /** The same by the clock, whichever was later. */
  readonly clock: number;
  readonly died?: string;
}

export interface Sample {
  readonly name: string;
  readonly file: string;
  readonly text: string;
}

const folder = path.resolve(import.meta.dirname, '../../samples');

export const samples: readonly Sample[] = readdirSync(folder)
  .filter((name) => name !== 'faults')
  .flatMap((name) =>
    readdirSync(path.join(folder, name))
      .filter((file) => file.endsWith('.planish'))
      .map((file) => ({ name: path.basename(file, '.planish'), file: path.join(folder, name, file) })),
  )
  .map((sample) => ({ ...sample, text: readFileSync(sample.file, 'utf8') }));

/** From nothing, letter by letter. */
export function* typedFromNothing({ text }: Sample, until = text.length): Generator<Key> {
  let at = 0;
  for (const letter of text.slice(0, until)) {
    yield { from: at, to: at, put: letter };
    at += letter.length;
  }
}

/** Every measure and count is taken away letter by letter, typed again a little larger, and put back as it was. */
export function* retyped({ text }: Sample, every = 1): Generator<Key> {
  const measures = [
    ...withoutTexts(text).matchAll(/(?<![\w.-])(\d+(?:[./]\d+)?)( ?(?:mm|cm|m|in|ft|deg|ga|oz|grit|C|kg|g|MPa)\b)?/g),
  ];
  for (const [i, { index, 0: whole, 1: number, 2: unit = '' }] of measures.entries()) {
    if (i % every !== 0) continue;
    for (let left = whole.length - 1; left >= 0; left--) yield { from: index + left, to: index + left + 1, put: '' };
    const other = larger(number!) + unit;
    for (const [at, letter] of [...other].entries()) yield { from: index + at, to: index + at, put: letter };
    yield { from: index, to: index + other.length, put: whole };
  }
}

/** `412` → `420` */
const larger = (number: string): string =>
  /^\d+$/.test(number) ? String((Math.floor(Number(number) / 10) + 1) * 10) : `1${number}`;

/** The same length, with nothing to retype in notes and texts. */
const withoutTexts = (text: string): string => text.replace(/#.*|"[^"\n]*"/g, (found) => ' '.repeat(found.length));

/**
 * Sends the keys as they are typed, in pauses that `random` decides: some come before the last was answered, and that one is gone
 * back to, so that every state is answered once. Where a state takes more than `most` seconds of the processor the server is
 * ended, and a new one begins with the next state.
 */
export async function* typed(
  { name, file, text: whole }: Sample,
  keys: Iterable<Key>,
  { from, most, random }: { readonly from: string; readonly most: number; readonly random: () => number },
): AsyncGenerator<State> {
  const uri = URI.file(file).toString();
  let text = from;
  let session: Session | undefined = await warmed(uri, whole, from);
  const overtaken: { readonly state: Typed; readonly text: string }[] = [];
  const answered = async (state: Typed, send: (client: Session['client']) => Promise<number>): Promise<State> => {
    const { client } = session!;
    try {
      return { ...state, ...(await session!.answered(uri, most, () => send(client))) };
    } catch (error) {
      if (!(error instanceof Ended)) throw error;
      session = undefined;
      return { ...state, told: most * 1000, hover: most * 1000, clock: Number.NaN, died: error.message };
    }
  };
  /** What was typed over before it was answered is gone back to, one after the other, and then to where one was. */
  async function* back(): AsyncGenerator<State> {
    if (!overtaken.length) return;
    let shown = text;
    while (session && overtaken.length) {
      const before = overtaken.shift()!;
      const { range, put } = changeBetween(shown, before.text);
      shown = before.text;
      yield await answered({ ...before.state, isOvertaken: true }, (client) => client.change(uri, range, put));
    }
    const { range, put } = changeBetween(shown, text);
    if (session) await session.told(uri, await session.client.change(uri, range, put));
  }
  try {
    for (const { from: at, to, put } of keys) {
      const range = { start: positionAt(text, at), end: positionAt(text, to) };
      text = text.slice(0, at) + put + text.slice(to);
      const row = range.start.line;
      const state = { sample: name, line: text.split('\n')[row]!.trim(), row: row + 1 };
      const isNew: boolean = session === undefined;
      session ??= await Session.start({ folder });
      if (!isNew && random() < HASTY) {
        await session.client.change(uri, range, put);
        overtaken.push({ state, text });
        continue;
      }
      yield await answered(state, (client) =>
        isNew ? client.open(uri, text).then(() => 1) : client.change(uri, range, put),
      );
      yield* back();
      await new Promise((next) => setTimeout(next, random() * LONGEST_PAUSE_MS));
    }
    yield* back();
  } finally {
    await session?.stop();
  }
}

/** The one change that makes one text of the other. */
function changeBetween(text: string, other: string) {
  const most = Math.min(text.length, other.length);
  let start = 0;
  while (start < most && text[start] === other[start]) start++;
  let end = 0;
  while (end < most - start && text.at(-1 - end) === other.at(-1 - end)) end++;
  const range = { start: positionAt(text, start), end: positionAt(text, text.length - end) };
  return { range, put: other.slice(start, other.length - end) };
}

/** The same pauses for the same seed (a linear congruence; nothing hangs on how good it is). */
export function pauses(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** The share of keys that come right behind the one before. */
const HASTY = 0.1;
const LONGEST_PAUSE_MS = 10;

/** A server that has read the whole sample once, so that no state is charged with code that is read for the first time. */
async function warmed(uri: string, whole: string, from: string): Promise<Session> {
  const session = await Session.start({ folder });
  await session.client.open(uri, whole);
  await session.told(uri, 1);
  if (from !== whole) await session.told(uri, await session.client.change(uri, undefined, from));
  return session;
}

function positionAt(text: string, offset: number): { line: number; character: number } {
  const before = text.slice(0, offset).split('\n');
  return { line: before.length - 1, character: before[before.length - 1]!.length };
}
