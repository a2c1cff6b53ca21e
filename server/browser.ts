// The language server in a web worker. Every file but the open ones is asked of the editor.
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { isUnder } from './editor/client-files.ts';
import { startServer } from './editor/server.ts';
import { loadFonts } from './fonts.ts';

const worker = self as unknown as DedicatedWorkerGlobalScope;
const connection = createConnection(new BrowserMessageReader(worker), new BrowserMessageWriter(worker));

startServer(connection, {
  files: (roots, client) => ({
    mayRead: (uri) => roots().some((root) => isUnder(root, uri)),
    read: (uri) => client.read(uri),
    settled: () => client.settled(),
    forget: (uri) => client.forget(uri),
  }),
  fonts: loadFonts,
  today: () => {
    const now = new Date();
    const two = (number: number) => String(number).padStart(2, '0');
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  },
});
