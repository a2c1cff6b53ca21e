// How the mutation tool runs. Started by .scripts/mutate.mjs, which gives the tool's folder and the files to mutate.
import path from 'node:path';

const named = (process.env.MUTATE ?? '').split(',').filter(Boolean);
const isOfModel = named.some((file) => file.startsWith('server/model/'));

export default {
  // Copied: what the tests of trade and geometry read, and nothing else.
  ignorePatterns: [
    '**',
    '!server/trade/**',
    '!server/geometry/**',
    '!server/incremental/**',
    '!grammar/**',
    '!test/trade/**',
    '!test/geometry/**',
    '!test/published/**',
    ...(isOfModel ? ['!server/**', '!test/model/**', '!test/checks/*.ts', '!samples/**'] : []),
    '!test/mutation/*.mjs',
  ],
  mutate: named.length ? named : ['server/trade/**/*.ts', 'server/geometry/quadrature.ts'],
  // Strings are prose.
  mutator: { excludedMutations: ['StringLiteral'] },

  buildCommand: 'node test/mutation/bundle.mjs',
  testRunner: 'mocha',
  plugins: [path.join(process.env.TOOL, 'node_modules/@stryker-mutator/mocha-runner/dist/src/index.js')],
  mochaOptions: { spec: ['mutation-tests/all.cjs'] },
  coverageAnalysis: 'perTest',
  concurrency: Number(process.env.MUTATE_BESIDE ?? 2),
  timeoutMS: 4000,
  timeoutFactor: 2,

  reporters: ['clear-text', 'progress-append-only', 'json'],
  clearTextReporter: { reportTests: false, reportMutants: false, reportScoreTable: false },
  jsonReporter: { fileName: '.ci-output/mutation/mutation.json' },
  tempDirName: '.ci-output/mutation/sandbox',
  allowEmpty: true,
  thresholds: { high: 90, low: 85, break: null },
};
