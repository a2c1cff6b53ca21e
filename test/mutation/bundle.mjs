// Makes the tests of trade, with the mutated computation, into one file of plain JavaScript. Runs in the tool's copy of
// the project.
//
// Each test file becomes one test that runs the whole file from its first line, with the modules it imports. Tables at
// the top of a module, and rows that a test file works out while it is read, are then made anew for every mutant: without
// that, a mutant in either would never be seen. A file stops at its first failure, which is all one wants to know.
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { build } from 'esbuild';

// The one counts rows and reads folders; the other puts any number into everything, which would make each mutant slow.
const LEFT_OUT = new Set(['count.test.ts', 'any-number.test.ts']);
// From the quickest to the slowest: single numbers, then properties, then thousands of triangles and sums.
const QUICK = /^(limits|metals|practice|ranges|result|words)\./;
const SLOW = /^(dome|plate-outlines|wrap)\./;
const rank = (file) => (QUICK.test(path.basename(file)) ? 0 : SLOW.test(path.basename(file)) ? 2 : 1);
// The tests of geometry take seconds, and are wanted only where a file of theirs is mutated.
const own = process.env.MUTATE?.includes('server/geometry/') ? ['test/geometry'] : [];

// The tables of outside sources are quick: they come before the property tests.
const files = ['test/published', 'test/trade', ...own].flatMap((folder) =>
  readdirSync(folder, { recursive: true })
    .filter((file) => file.endsWith('.test.ts') && !LEFT_OUT.has(path.basename(file)))
    // What reads papers or specs is not in the tool's copy of the project.
    .filter(
      (file) =>
        !/from '[./]+(samples|server\/(output|model|checks|nest|editor))\//.test(
          readFileSync(`${folder}/${file}`, 'utf8'),
        ),
    )
    .sort((one, other) => rank(one) - rank(other) || (one < other ? -1 : 1))
    .map((file) => `${folder}/${file}`),
);

// Packages stay as they are; but this one is a module, and only a bundler finds what is in its default export.
const packagesApart = {
  name: 'packages apart',
  setup: (bundling) =>
    bundling.onResolve({ filter: /^[^./]/ }, ({ path, kind }) =>
      kind === 'entry-point' || path === 'delaunator' || path === 'robust-predicates'
        ? undefined
        : { path, external: true },
    ),
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
