// The language server as a program of its own: over standard input and output (--stdio), or as an editor's Node process.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { diskFiles } from './disk-files.ts';
import { startServer } from './editor/server.ts';
import { loadFonts } from './fonts.ts';
import type { FontBytes } from './output/writers.ts';

const connection = process.argv.includes('--stdio')
  ? createConnection(ProposedFeatures.all, process.stdin, process.stdout)
  : createConnection(ProposedFeatures.all);

startServer(connection, {
  files: diskFiles,
  fonts: () => loadFonts().catch(fontsFromPackages),
  today,
});

/** The day where the server runs, as the smith's calendar shows it. */
function today(): string {
  const now = new Date();
  const two = (number: number) => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** Run from source, nothing has packed the typeface. */
function fontsFromPackages(): FontBytes {
  const { resolve } = createRequire(process.argv[1] ?? process.cwd());
  const face = (name: string) => new Uint8Array(readFileSync(resolve(`@expo-google-fonts/noto-sans/${name}`)));
  return { regular: face('400Regular/NotoSans_400Regular.ttf'), bold: face('700Bold/NotoSans_700Bold.ttf') };
}
