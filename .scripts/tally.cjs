// The mocha reporter of all suites: one line for each group of tests, every failure in full, and the counts: in the
// file that TALLY names, with how long each test took, from which npm test adds up its closing line (tallies.mjs), or in a
// closing line of its own. It runs in a browser too.
const { reporters } = require('mocha');

module.exports = class Tally extends reporters.Base {
  constructor(runner, options) {
    super(runner, options);
    const say = reporters.Base.consoleLog;
    const { TALLY } = process.env;
    const note = (entry) => TALLY && require('node:fs').appendFileSync(TALLY, `${JSON.stringify(entry)}\n`);
    // In a browser no test comes from a file.
    const timed = ({ file, duration = 0 }, title) =>
      note({ ms: duration, file: file?.split(/(?=test[\\/])/).at(-1) ?? '', title });
    const failedBefore = new Map();
    runner.on('suite', (suite) => failedBefore.set(suite, { ...this.stats }));
    runner.on('suite end', (suite) => {
      if (!suite.parent?.root) return;
      const before = failedBefore.get(suite);
      const passes = this.stats.passes - before.passes;
      const failures = this.stats.failures - before.failures;
      const pending = this.stats.pending - before.pending;
      say(`  ${suite.title}: ${closingLine({ passes, failures, pending })}`);
    });
    runner.on('pending', (test) => say(`  skipped: ${test.titlePath().join(': ')}`));
    runner.on('fail', (test) => note({ broken: test.titlePath().join(': ') }));
    runner.on('test end', (test) => timed(test, test.titlePath().join(': ')));
    runner.on('hook end', (hook) => timed(hook, `${hook.parent.titlePath().join(': ')} ${hook.title}`));
    runner.once('end', () => {
      this.epilogue();
      const { passes, failures, pending } = this.stats;
      if (TALLY) note({ counts: { passed: passes, failed: failures, skipped: pending } });
      else say(closingLine(this.stats));
    });
  }
};

function closingLine({ passes, failures, pending }) {
  return `${passes} passed, ${failures} failed${pending ? `, ${pending} skipped` : ''}`;
}
