// The language server as a program of its own: over standard input and output (--stdio), or as an editor's Node process.
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { diskFiles } from './disk-files.ts';
import { fontsOnDisk } from './disk-fonts.ts';
import { startServer } from './editor/server.ts';

const connection = process.argv.includes('--stdio')
  ? createConnection(ProposedFeatures.all, process.stdin, process.stdout)
  : createConnection(ProposedFeatures.all);

startServer(connection, {
  files: diskFiles,
  fonts: fontsOnDisk,
  today,
});

/** The day where the server runs, as the smith's calendar shows it. */
function today(): string {
  const now = new Date();
  const two = (number: number) => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
