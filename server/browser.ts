// The language server in a web worker. Every file but the open ones is asked of the editor.

import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import type { Texts } from '../l10n/say.ts';
import { keepDoor, takingBack } from './editor/protocol/door.ts';
import { startServer } from './editor/protocol/server.ts';
import { isUnder } from './editor/workspace/client-files.ts';
import type { FontBytes } from './output/writers/papers.ts';

const worker = self as unknown as DedicatedWorkerGlobalScope & Record<string, unknown>;
const writer = new BrowserMessageWriter(worker);
const connection = createConnection(keepDoor(new BrowserMessageReader(worker), writer), writer, takingBack);

/** The address of the folder of this program. An editor starts a worker from a copy, so it has to say it. */
let home: string | undefined;

startServer(connection, {
  files: (roots, client) => ({
    mayRead: (uri) => roots().some((root) => isUnder(root, uri)),
    read: (uri) => client.read(uri),
    settled: () => client.settled(),
    forget: (uri) => client.forget(uri),
    lookAgain: () => client.lookAgain(),
    list: (folder) => client.list(folder),
    specs: () => client.specs(),
  }),
  fonts,
  texts,
  today: () => {
    const now = new Date();
    const two = (number: number) => String(number).padStart(2, '0');
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  },
  turn,
  async begin(options) {
    const { programs, lock } = (options ?? {}) as { programs?: unknown; lock?: unknown };
    home = typeof programs === 'string' ? programs : undefined;
    if (typeof lock === 'string') await hold(lock);
  },
});
connection.onExit(() => worker.close());

/** Takes a lock for as long as this worker lives: who waits for it learns of the end, which nothing else tells. */
function hold(lock: string): Promise<void> {
  return new Promise((held) => {
    const forEver = new Promise<never>(() => {});
    const taken = () => {
      held();
      return forEver;
    };
    // A page that is not served safely has no locks, and a browser may refuse them.
    const locks = navigator.locks as LockManager | undefined;
    if (locks) locks.request(lock, taken).catch(() => held());
    else held();
  });
}

/** A message to oneself comes after those that wait, and sooner than any timer. */
function turn(): Promise<void> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((next) => {
    port1.onmessage = () => {
      port1.close();
      next();
    };
    port2.postMessage(null);
  });
}

const besideThis = (file: string): string => {
  if (home === undefined) throw new Error('The editor has not said where the programs of Planish lie.');
  return new URL(file, home).href;
};

/** Without them, English is told. */
async function texts(language: string): Promise<Texts | undefined> {
  try {
    const answer = await fetch(besideThis(`${language}.json`));
    return answer.ok ? await answer.json() : undefined;
  } catch {
    return undefined;
  }
}

async function fonts(): Promise<FontBytes> {
  const face = async (file: string) => {
    const answer = await fetch(besideThis(file));
    if (!answer.ok) throw new Error(`${file}: ${answer.status}`);
    return new Uint8Array(await answer.arrayBuffer());
  };
  const [regular, bold] = await Promise.all([face('NotoSans-Regular.ttf'), face('NotoSans-Bold.ttf')]);
  return { regular, bold };
}

/** A program that is loaded when it is first needed; the bundler writes the calls of this. */
worker['planishProgram'] = (file: string, name: string) => {
  if (!worker[name]) importScripts(besideThis(file));
  return worker[name];
};
