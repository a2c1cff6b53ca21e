// Makes dist/: every program that ships, each one file.
//   node .scripts/bundle.mjs            with source maps, for work on Planish itself
//   node .scripts/bundle.mjs --minify   as packed: small, no maps
//   node .scripts/bundle.mjs --tests    the editor suite alone, into dist/test/
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
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
  // A class's name is part of what errors and logs say.
  keepNames: minify,
  legalComments: 'none',
  // The PDF writer brings its typeface along as bytes.
  loader: { '.ttf': 'binary' },
  logLevel: 'warning',
};
const node = { platform: 'node', format: 'cjs', target: 'node20', mainFields: ['module', 'main'] };
const browser = { platform: 'browser', mainFields: ['browser', 'module', 'main'] };

const programs = [
  { entry: 'server/main.ts', out: 'server.cjs', ...node },
  { entry: 'server/browser.ts', out: 'server-web.js', ...browser, format: 'iife' },
  { entry: 'server/cli.ts', out: 'cli.cjs', ...node, banner: { js: '#!/usr/bin/env node' } },
  { entry: 'client/desktop.ts', out: 'client.cjs', ...node, external: ['vscode'] },
  { entry: 'client/web.ts', out: 'client-web.js', ...browser, format: 'cjs', external: ['vscode'] },
];

await main(tests ? bundleTests : bundlePrograms);

async function bundlePrograms() {
  const results = await Promise.all(
    programs.map(({ entry, out, ...options }) => {
      if (!existsSync(path.join(root, entry))) return console.log(`${entry} does not exist yet: ${out} skipped`);
      return build({ ...common, ...options, entryPoints: [entry], outfile: `dist/${out}`, metafile: true });
    }),
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
    for (const input of Object.keys(result?.metafile.inputs ?? {})) {
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
