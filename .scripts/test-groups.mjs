// The tests that need no editor, in groups that each are one process: whole folders, since tests of a folder share what is
// dear to make, and test/published counts what all of its files hold against outside sources.
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { node, root } from './setup.mjs';

/** The longest first, so that the shortest fill up what is left. */
const LONGEST = ['editor', 'hostile', 'cli', 'model', 'output', 'grammar', 'published', 'l10n'];
/** They look at what `npm run build` and `npm run package` have made. */
const OF_THE_PACKAGE = ['package'];
/** They run inside an editor, or hold no tests. */
const ELSEWHERE = ['client', 'workbench'];

/** `{ title, files, isOfPackage }` of each group that has tests. */
export function testGroups() {
  const test = path.join(root, 'test');
  const folders = readdirSync(test, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && !ELSEWHERE.includes(entry.name) && hasTests(path.join(test, entry.name)))
    .map(({ name }) => name);
  const alone = [...LONGEST, ...OF_THE_PACKAGE].filter((name) => folders.includes(name));
  const rest = folders.filter((name) => !alone.includes(name));
  return [
    ...alone.map((name) => ({
      title: `test/${name}`,
      files: [`test/${name}/**/*.test.ts`],
      isOfPackage: OF_THE_PACKAGE.includes(name),
    })),
    {
      title: `test/{${rest.join(', ')}}`,
      files: ['test/*.test.ts', ...rest.map((name) => `test/${name}/**/*.test.ts`)],
      isOfPackage: false,
    },
  ];
}

/** Runs mocha with our reporter; what it is to know besides stands in .mocharc.json. */
export function mocha(args, options) {
  const reporter = path.join(root, '.scripts/tally.cjs');
  const strict = process.env.CI ? ['--forbid-only'] : [];
  return node(['node_modules/mocha/bin/mocha.js', '--reporter', reporter, ...strict, ...args], {
    mayFail: true,
    ...options,
  });
}

function hasTests(folder) {
  return readdirSync(folder, { recursive: true }).some((name) => name.endsWith('.test.ts'));
}
