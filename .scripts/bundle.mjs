// Makes dist/: every program that ships, each one file but for the PDF writer and its typefaces, which all share.
//   node .scripts/bundle.mjs            with source maps, for work on Planish itself
//   node .scripts/bundle.mjs --minify   as packed: small, no maps
//   node .scripts/bundle.mjs --tests    the editor suite alone, into dist/test/
//   node .scripts/bundle.mjs --web-tests   the same for a web extension host, one file: dist/test-web.js
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { build } from 'esbuild';
import subsetFont from 'subset-font';
import { main, root } from './setup.mjs';

const minify = process.argv.includes('--minify');
const tests = process.argv.includes('--tests');
const webTests = process.argv.includes('--web-tests');

const common = {
  absWorkingDir: root,
  bundle: true,
  target: 'es2022',
  minify,
  sourcemap: minify ? false : 'linked',
  // Never keepNames: it names every closure each time one is made, which took 5 s of a PDF's 6.
  legalComments: 'none',
  logLevel: 'warning',
};
// Typefaces come as they are and not as compressed web fonts, whose 120 kB dictionary would come along.
const withoutWebFonts = {
  name: 'without web fonts',
  setup(build) {
    build.onLoad({ filter: /node_modules.brotli.decompress\.js$/ }, () => ({
      contents: "module.exports = () => { throw new Error('Compressed web fonts cannot be read.'); };",
    }));
  },
};

// The PDF writer is by far the largest part and the least often used. All programs share one copy, pdf.js, and load it
// when the first PDF is asked for: Node by its path, a web worker from where the editor says that it lies.
const pdfApart = (load) => ({
  name: 'pdf apart',
  setup(build) {
    build.onResolve({ filter: /^\.\/start\.cjs$/ }, ({ path }) => ({ path, external: true }));
    for (const [filter, name] of [
      [/server.output.writers.pdf\.ts$/, 'writePdf'],
      [/server.output.writers.patterns-pdf\.ts$/, 'writePatternsPdf'],
    ])
      build.onLoad({ filter }, () => ({
        contents: `export const ${name} = async (...given) => ${load}.${name}(...given);`,
      }));
  },
});
const pdfInNode = pdfApart("(await require('./start.cjs').load('./pdf.js'), globalThis.planishPdf)");
const pdfInBrowser = pdfApart('(await self.planishProgram("pdf.js", "planishPdf"))');

const node = { platform: 'node', format: 'cjs', target: 'node20', mainFields: ['module', 'main'] };
const browser = { platform: 'browser', mainFields: ['browser', 'module', 'main'] };

// The server and the command line are nearly the same modules: one file holds both, and each wakes only its own.
const planish = `
  export const server = () => import('./server/main.ts');
  export const cli = () => import('./server/cli.ts');
`;
const starts = {
  'start.cjs': readFileSync(path.join(root, 'server/start.cjs'), 'utf8'),
  'server.cjs': readFileSync(path.join(root, 'server/start-server.cjs'), 'utf8'),
  'cli.cjs': "#!/usr/bin/env node\nrequire('./start.cjs')('cli');\n",
};

const programs = [
  { stdin: { contents: planish, resolveDir: root }, out: 'planish.cjs', ...node, plugins: [pdfInNode] },
  {
    entryPoints: ['server/output/writers/all-pdf.ts'],
    out: 'pdf.js',
    ...browser,
    format: 'iife',
    globalName: 'planishPdf',
    footer: { js: 'globalThis.planishPdf = planishPdf;' },
    plugins: [withoutWebFonts],
  },
  { entryPoints: ['server/browser.ts'], out: 'server-web.js', ...browser, format: 'iife', plugins: [pdfInBrowser] },
  { entryPoints: ['client/desktop.ts'], out: 'client.cjs', ...node, external: ['vscode'] },
  { entryPoints: ['client/figures/page.ts'], out: 'figures-page.js', ...browser, format: 'iife' },
  { entryPoints: ['client/papers/page.ts'], out: 'paper-page.js', ...browser, format: 'iife' },
  { entryPoints: ['client/web.ts'], out: 'client-web.js', ...browser, format: 'cjs', external: ['vscode'] },
];

/** Lie beside the programs as they are: packed, they are far smaller so than inside one. */
const typefaces = {
  'NotoSans-Regular.ttf': '400Regular/NotoSans_400Regular.ttf',
  'NotoSans-Bold.ttf': '700Bold/NotoSans_700Bold.ttf',
};

/** What the server can speak besides English. */
const LANGUAGES = ['de'];

await main(webTests ? bundleWebTests : tests ? bundleTests : bundlePrograms);

async function shortTexts(language) {
  const { outputFiles } = await build({
    ...common,
    entryPoints: ['l10n/say.ts'],
    format: 'esm',
    write: false,
    sourcemap: false,
  });
  const { shortened } = await import(
    `data:text/javascript;base64,${Buffer.from(outputFiles[0].text).toString('base64')}`
  );
  return shortened(JSON.parse(readFileSync(path.join(root, `l10n/${language}.json`), 'utf8')));
}

async function bundlePrograms() {
  const results = await Promise.all(
    programs.map(({ out, ...options }) => build({ ...common, ...options, outfile: `dist/${out}`, metafile: true })),
  );
  for (const language of LANGUAGES)
    writeFileSync(path.join(root, `dist/${language}.json`), JSON.stringify(await shortTexts(language)));
  for (const [file, text] of Object.entries(starts))
    writeFileSync(path.join(root, 'dist', file), text, { mode: file === 'cli.cjs' ? 0o755 : 0o644 });
  for (const [face, file] of Object.entries(typefaces))
    writeFileSync(
      path.join(root, 'dist', face),
      slimmed(
        await subsetFont(
          readFileSync(path.join(root, 'node_modules/@expo-google-fonts/noto-sans', file)),
          characters(),
          {
            targetFormat: 'truetype',
            // Papers set letter by letter: no kerning, no other shapes of a letter, and so none of their glyphs.
            keepFeatures: [],
            dropTables: ['GPOS', 'GSUB', 'GDEF', 'STAT'],
          },
        ),
      ),
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
    // The last is asked for in a browser only.
    external: ['vscode', 'mocha', 'vscode-languageclient/browser'],
  });
}

/** A web extension host loads a single file and has no folder to look into: every test file is named in it. */
async function bundleWebTests() {
  const files = readdirSync(path.join(root, 'test/client')).filter((name) => name.endsWith('.test.ts'));
  // First the entry, which sets mocha up: the tests call it as they are loaded.
  const modules = ['index-web.ts', ...files.sort()].map((name) => `export * from './test/client/${name}';`);
  const { PLANISH_TEST_GREP, CI } = process.env;
  await build({
    ...common,
    ...browser,
    sourcemap: 'inline',
    stdin: { contents: modules.join('\n'), resolveDir: root },
    outfile: 'dist/test-web.js',
    // Not as CommonJS: mocha's browser build would take the exports of the whole file for its own.
    format: 'iife',
    globalName: 'editorTests',
    footer: { js: 'module.exports = editorTests;' },
    external: ['vscode', 'node:fs'],
    alias: {
      mocha: 'mocha/mocha.mjs',
      'node:assert/strict': path.join(root, 'test/workbench/web/assert-strict.cjs'),
    },
    nodePaths: [path.join(root, '.web-workbench/node_modules')],
    // A browser has no environment: what the suite asks of it is put in here.
    banner: { js: `var process = ${JSON.stringify({ env: { PLANISH_TEST_GREP, CI } })};` },
  });
}

/**
 * What our papers can write: Latin with every accent, Greek and Cyrillic, marks and signs of the trade. A typeface has as
 * much again of other scripts and of phonetics.
 */
function characters() {
  const blocks = [
    [0x20, 0x7e],
    [0xa0, 0x24f],
    [0x2b0, 0x3ff],
    [0x400, 0x52f],
    [0x1e00, 0x1eff],
    // Dashes, quotes, raised figures, money, fractions, arrows, signs.
    [0x2000, 0x22ff],
    [0x2500, 0x25ff],
    [0xfb00, 0xfb06],
    [0xfffd, 0xfffd],
  ];
  return blocks
    .flatMap(([from, to]) => Array.from({ length: to - from + 1 }, (_, i) => String.fromCodePoint(from + i)))
    .join('');
}

/** A typeface without the names of its glyphs (`post` of version 3 has none). The directory is written anew. Layout: OpenType 1.9. */
function slimmed(font) {
  const count = font.readUInt16BE(4);
  const tables = Array.from({ length: count }, (_, i) => {
    const entry = Buffer.from(font.subarray(12 + 16 * i, 28 + 16 * i));
    const data = font.subarray(entry.readUInt32BE(8), entry.readUInt32BE(8) + entry.readUInt32BE(12));
    return { entry, data: tagOf(entry) === 'post' ? withoutNames(data) : data };
  });
  const head = Buffer.alloc(12 + 16 * tables.length);
  font.copy(head, 0, 0, 4);
  const power = 2 ** Math.floor(Math.log2(tables.length));
  head.writeUInt16BE(tables.length, 4);
  head.writeUInt16BE(16 * power, 6);
  head.writeUInt16BE(Math.log2(power), 8);
  head.writeUInt16BE(16 * (tables.length - power), 10);
  const parts = [head];
  let at = head.length;
  for (const [i, { entry, data }] of tables.entries()) {
    entry.writeUInt32BE(sumOf(data), 4);
    entry.writeUInt32BE(at, 8);
    entry.writeUInt32BE(data.length, 12);
    entry.copy(head, 12 + 16 * i);
    const padding = Buffer.alloc(-data.length & 3);
    parts.push(data, padding);
    at += data.length + padding.length;
  }
  return Buffer.concat(parts);
}

function tagOf(entry) {
  return entry.toString('latin1', 0, 4);
}

function withoutNames(post) {
  const header = Buffer.from(post.subarray(0, 32));
  header.writeUInt32BE(0x00030000, 0);
  return header;
}

/** The checksum of a table: its words added up. */
function sumOf(data) {
  const whole = Buffer.concat([data, Buffer.alloc(-data.length & 3)]);
  let sum = 0;
  for (let at = 0; at < whole.length; at += 4) sum = (sum + whole.readUInt32BE(at)) >>> 0;
  return sum;
}

/** The licences of the packages that were bundled: they ask that their text goes along. */
function notices(results) {
  // The typeface is copied, not bundled.
  const packages = new Set(['node_modules/@expo-google-fonts/noto-sans']);
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
