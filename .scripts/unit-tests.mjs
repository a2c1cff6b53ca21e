// npm run test:unit [-- mocha's own arguments]: every test that needs no editor.
import path from 'node:path';
import { main, node, root } from './setup.mjs';

await main(async () => {
  const own = process.argv.slice(2);
  const files = own.some((argument) => argument.endsWith('.ts')) ? [] : ['test/**/*.test.ts'];
  const { code } = await node(
    [
      '--import',
      'tsx',
      'node_modules/mocha/bin/mocha.js',
      '--reporter',
      path.join(root, '.scripts/tally.cjs'),
      // A first flattening is slow where the machine is: how long a test takes is for the benchmarks.
      '--timeout',
      '20000',
      '--exclude',
      'test/client/**',
      '--exclude',
      'test/workbench/**',
      ...(process.env.CI ? ['--forbid-only'] : []),
      ...files,
      ...own,
    ],
    { loud: true, mayFail: true },
  );
  process.exitCode = code;
});
