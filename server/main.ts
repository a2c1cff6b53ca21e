// The language server as a program of its own: over standard input and output (--stdio), or as an editor's Node process.
import {
  type Connection,
  createConnection,
  ErrorCodes,
  IPCMessageReader,
  IPCMessageWriter,
  type Message,
  type MessageReader,
  type MessageWriter,
  ProposedFeatures,
} from 'vscode-languageserver/node';
import { diskFiles } from './disk-files.ts';
import { fontsOnDisk } from './disk-fonts.ts';
import { textsOnDisk } from './disk-texts.ts';
import { keepDoor, takingBack } from './editor/protocol/door.ts';
import { startServer } from './editor/protocol/server.ts';
import { FrameReader, FrameWriter } from './framing.ts';

startServer(connectionOf(process.argv), {
  files: diskFiles,
  fonts: fontsOnDisk,
  texts: textsOnDisk,
  today,
  turn: () => new Promise((next) => setImmediate(next)),
});

function connectionOf(args: readonly string[]): Connection {
  if (args.includes('--stdio')) return overPipes();
  if (args.includes('--node-ipc')) return between(new IPCMessageReader(process), new IPCMessageWriter(process));
  return createConnection(ProposedFeatures.all, takingBack);
}

function between(reader: MessageReader, writer: MessageWriter): Connection {
  return createConnection(ProposedFeatures.all, keepDoor(reader, writer), writer, takingBack);
}

/**
 * A message that is no JSON is answered with an error, and the next one read. Where it can no longer be told where the next
 * one begins the server ends: one that guessed would lose a change of a text, and say false things of it from then on,
 * whereas an editor starts a server that has ended again and tells it every text anew.
 */
function overPipes(): Connection {
  const writer = new FrameWriter(process.stdout);
  const reader = new FrameReader(process.stdin, {
    body: (why) =>
      void writer.write({
        jsonrpc: '2.0',
        id: null,
        error: { code: ErrorCodes.ParseError, message: `This message is no JSON: ${why}` },
      } as Message),
    frame: (why) => end(1, `The editor sent ${why}.`),
  });
  const connection = between(reader, writer);
  let isShutDown = false;
  connection.onShutdown(() => {
    isShutDown = true;
  });
  // The editor is gone.
  process.stdin.on('end', () =>
    reader.isWithin() ? end(1, 'The editor stopped in the middle of a message.') : process.exit(isShutDown ? 0 : 1),
  );
  process.stdin.on('error', (error) => end(1, `The editor can no longer be heard: ${error.message}.`));
  return connection;
}

/** Ends with a word to whoever reads the editor's log. */
function end(code: number, why: string): void {
  process.stderr.write(`Planish language server: ${why} It ends here, to be started anew.\n`, () => process.exit(code));
}

/** The day where the server runs, as the smith's calendar shows it. */
function today(): string {
  const now = new Date();
  const two = (number: number) => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
