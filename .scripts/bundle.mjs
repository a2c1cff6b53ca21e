// Makes dist/: every program that ships, each one file but for the PDF writer.
//   node .scripts/bundle.mjs            with source maps, for work on Planish itself
//   node .scripts/bundle.mjs --minify   as packed: small, no maps
//   node .scripts/bundle.mjs --tests    the editor suite alone, into dist/test/
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { build } from 'esbuild';
import { main, root } from './setup.mjs';

const minify = process.argv.includes('--minify');
const tests = process.argv.includes('--tests');

const common = {
  absWorkingDir: root,
  bundle: true,
  target: 'es2022',
  minify,
  sourcemap: minify ? false : 'linked',
  // Never keepNames: it names every closure each time one is made, which took 5 s of a PDF's 6.
  legalComments: 'none',
  // The PDF writer brings its typeface along as bytes.
  loader: { '.ttf': 'binary' },
  logLevel: 'warning',
};
// Typefaces come as they are and not as compressed web fonts, whose 120 kB dictionary would come along three times.
const withoutWebFonts = {
  name: 'without web fonts',
  setup(build) {
    build.onLoad({ filter: /node_modules.brotli.decompress\.js$/ }, () => ({
      contents: "module.exports = () => { throw new Error('Compressed web fonts cannot be read.'); };",
    }));
  },
};

// The PDF writer with its typefaces is by far the largest part and the least often used. The programs for Node share
// one copy, pdf.cjs, and load it when the first PDF is asked for.
const pdfApart = {
  name: 'pdf apart',
  setup(build) {
    const later = (name) => `export const ${name} = async (...given) => require('./pdf.cjs').${name}(...given);`;
    build.onResolve({ filter: /^\.\/pdf\.cjs$/ }, ({ path }) => ({ path, external: true }));
    build.onLoad({ filter: /server.output.write-pdf\.ts$/ }, () => ({ contents: later('writePdf') }));
    build.onLoad({ filter: /server.fonts\.ts$/ }, () => ({ contents: later('loadFonts') }));
  },
};

const node = { platform: 'node', format: 'cjs', target: 'node20', mainFields: ['module', 'main'] };
const browser = { platform: 'browser', mainFields: ['browser', 'module', 'main'] };

const pdf = `
  export { writePdf } from './server/output/write-pdf.ts';
  export { loadFonts } from './server/fonts.ts';
`;

const programs = [
  { entryPoints: ['server/main.ts'], out: 'server.cjs', ...node, plugins: [pdfApart] },
  {
    entryPoints: ['server/cli.ts'],
    out: 'cli.cjs',
    ...node,
    plugins: [pdfApart],
    banner: { js: '#!/usr/bin/env node' },
  },
  { stdin: { contents: pdf, resolveDir: root }, out: 'pdf.cjs', ...node, plugins: [withoutWebFonts] },
  { entryPoints: ['server/browser.ts'], out: 'server-web.js', ...browser, format: 'iife', plugins: [withoutWebFonts] },
  { entryPoints: ['client/desktop.ts'], out: 'client.cjs', ...node, external: ['vscode'] },
  { entryPoints: ['client/web.ts'], out: 'client-web.js', ...browser, format: 'cjs', external: ['vscode'] },
];

await main(tests ? bundleTests : bundlePrograms);

async function bundlePrograms() {
  const results = await Promise.all(
    programs.map(({ out, ...options }) => build({ ...common, ...options, outfile: `dist/${out}`, metafile: true })),
  );
  writeFileSync(path.join(root, 'dist/NOTICES.txt'), notices(results));
}

async function bundleTests() {
  rmSync(path.join(root, 'dist/test'), { recursive: true, force: true });
  await build({
    ...common,
    ...node,
    sourcemap: 'inline',
    entryPoints: readdirSync(path.join(root, 'test/client'))
      .filter((name) => name === 'index.ts' || name.endsWith('.test.ts'))
      .map((name) => `test/client/${name}`),
    outdir: 'dist/test',
    outExtension: { '.js': '.cjs' },
    external: ['vscode', 'mocha'],
  });
}

/** The licences of the packages that were bundled: they ask that their text goes along. */
function notices(results) {
  const packages = new Set();
  for (const result of results)
    for (const input of Object.keys(result.metafile.inputs ?? {})) {
      const found = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(input);
      if (found) packages.add(found[1]);
    }
  return [...packages]
    .sort()
    .map((folder) => {
      const { name, version, license } = JSON.parse(readFileSync(path.join(root, folder, 'package.json'), 'utf8'));
      const text = readdirSync(path.join(root, folder)).find((file) => /^(licen[cs]e|ofl)/i.test(file));
      const body = text ? readFileSync(path.join(root, folder, text), 'utf8').trim() : `Licence: ${license}`;
      return `${name} ${version}\n\n${body}\n`;
    })
    .join(`\n${'-'.repeat(80)}\n\n`);
}
