// Makes the tests of trade, or of the model, with the mutated computation, into one file of plain JavaScript. Runs in the tool's copy of
// the project.
//
// Each test file becomes one test that runs the whole file from its first line, with the modules it imports. Tables at
// the top of a module, and rows that a test file works out while it is read, are then made anew for every mutant: without
// that, a mutant in either would never be seen. A file stops at its first failure, which is all one wants to know.
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { types } from 'node:util';
import { build } from 'esbuild';

// The one counts rows and reads folders; the other puts any number into everything, which would make each mutant slow.
const LEFT_OUT = new Set(['count.test.ts', 'any-number.test.ts']);
// Of the model: what takes ten seconds by itself, and what the type checker reads.
const LEFT_OUT_OF_MODEL = new Set([
  'half-typed.test.ts',
  'forming-walk.test.ts',
  'notations.test.ts',
  'not-compiling.test.ts',
  'typed-lines.test.ts',
]);
// From the quickest to the slowest: single numbers, then properties, then thousands of triangles and sums.
const QUICK = /^(limits|looked-at|metals|practice|ranges|result|words)\./;
const SLOW = /^(dome|every-form|flattening|plate-outlines|templates|worked|wrap)\./;
const rank = (file) => (QUICK.test(path.basename(file)) ? 0 : SLOW.test(path.basename(file)) ? 2 : 1);
const isOfModel = process.env.MUTATE?.includes('server/model/') ?? false;
// The tests of geometry take seconds, and are wanted only where a file of theirs is mutated.
const own = process.env.MUTATE?.includes('server/geometry/') ? ['test/geometry'] : [];

const FOLDERS = isOfModel
  ? ['test/model/figures', 'test/model/forms', 'test/model/things', 'test/model/shapes']
  : // The tables of outside sources are quick: they come before the property tests.
    ['test/published', 'test/trade', ...own];
const files = FOLDERS.flatMap((folder) =>
  readdirSync(folder, { recursive: true })
    .filter((file) => file.endsWith('.test.ts') && !(isOfModel ? LEFT_OUT_OF_MODEL : LEFT_OUT).has(path.basename(file)))
    // What reads papers or specs is not in the tool's copy of the project.
    .filter(
      (file) =>
        isOfModel ||
        !/from '[./]+(samples|server\/(output|model|checks|nest|editor))\//.test(
          readFileSync(`${folder}/${file}`, 'utf8'),
        ),
    )
    .sort((one, other) => rank(one) - rank(other) || (one < other ? -1 : 1))
    .map((file) => `${folder}/${file}`),
);

// Packages stay as they are, and are read once for all mutants; one that is a module is made into plain JavaScript first.
const require = createRequire(import.meta.url);
const made = new Map();
function isModule(name) {
  try {
    return types.isModuleNamespaceObject(require(name));
  } catch {
    return true;
  }
}
async function plainOf(name) {
  if (!isModule(name)) return name;
  const outfile = path.resolve('mutation-tests/packages', `${name.replaceAll('/', '-')}.cjs`);
  const how = { bundle: true, format: 'cjs', platform: 'node', target: 'node20' };
  // What it is by default is what it is as plain JavaScript.
  const js = 'if (module.exports.default) module.exports = Object.assign(module.exports.default, module.exports);';
  await build({ ...how, entryPoints: [name], outfile, footer: { js } });
  return outfile;
}
const packagesApart = {
  name: 'packages apart',
  setup: (bundling) =>
    bundling.onResolve({ filter: /^[^./]/ }, async ({ path: name, kind }) => {
      if (kind === 'entry-point') return undefined;
      if (!made.has(name)) made.set(name, plainOf(name));
      return { path: await made.get(name), external: true };
    }),
};

const tests = [];
for (const file of files) {
  const { outputFiles } = await build({
    entryPoints: [file],
    bundle: true,
    write: false,
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    plugins: [packagesApart],
  });
  tests.push(`it(${JSON.stringify(file)}, () => {
  const suite = { timeout: () => suite, slow: () => suite };
  const describe = (title, tests) => tests.call(suite);
  const it = (title, test) => test.call(suite);
  const before = (first) => first.call(suite);
  const module = { exports: {} };
  (() => {
${outputFiles[0].text}
  })();
});`);
}

// The same numbers at each run, so that a score can be had again, and fewer of them than in the tests proper, which can
// only lower it; a property that fails is found out without the search for its smallest example.
const seed = `const fc = require('fast-check');
fc.configureGlobal({ seed: 20240607, endOnFailure: true, numRuns: 40 });
`;

mkdirSync('mutation-tests', { recursive: true });
writeFileSync('mutation-tests/all.cjs', seed + tests.join('\n'));
