// What mocha is told in every host that runs this suite.
export function suiteOptions() {
  const { PLANISH_TEST_GREP: grep, CI: inCi } = process.env;
  // Longer than anything in it waits, so that what failed to come about is what is told.
  return { ui: 'bdd', timeout: 300_000, color: false, forbidOnly: Boolean(inCi), ...(grep ? { grep } : {}) } as const;
}

export function runToItsEnd(mocha: { run(done: (failures: number) => void): unknown }): Promise<void> {
  return new Promise((resolve, reject) =>
    mocha.run((failures) => (failures > 0 ? reject(new Error(`${failures} editor tests failed`)) : resolve())),
  );
}
