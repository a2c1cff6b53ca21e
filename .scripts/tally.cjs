// The mocha reporter of all suites: one line for each group of tests, every failure in full, and the counts: in the
// file that TALLY names, from which npm test adds up its closing line, or in a closing line of its own. It runs in a
// browser too.
const { reporters } = require('mocha');

module.exports = class Tally extends reporters.Base {
  constructor(runner, options) {
    super(runner, options);
    const say = reporters.Base.consoleLog;
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
    runner.once('end', () => {
      this.epilogue();
      const closing = closingLine(this.stats);
      if (process.env.TALLY) require('node:fs').appendFileSync(process.env.TALLY, `${closing}\n`);
      else say(closing);
    });
  }
};

function closingLine({ passes, failures, pending }) {
  return `${passes} passed, ${failures} failed${pending ? `, ${pending} skipped` : ''}`;
}
