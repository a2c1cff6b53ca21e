// What the extension host runs when it is started for tests: mocha over every *.test.ts of this folder. The host has
// no terminal, so the report goes to the file that PLANISH_TEST_OUT names.
import { appendFileSync, readdirSync } from 'node:fs';
import * as path from 'node:path';
import { format } from 'node:util';

export async function run(): Promise<void> {
  const { default: Mocha } = await import('mocha');
  const { PLANISH_TEST_OUT: output, PLANISH_TEST_GREP: grep, CI: inCi } = process.env;
  if (output)
    Mocha.reporters.Base.consoleLog = (...parts: unknown[]) => appendFileSync(output, `${format(...parts)}\n`);
  const mocha = new Mocha({
    ui: 'bdd',
    timeout: 30_000,
    reporter: path.resolve(__dirname, '../../.scripts/tally.cjs'),
    color: false,
    forbidOnly: Boolean(inCi),
    ...(grep ? { grep } : {}),
  });
  for (const file of readdirSync(__dirname).sort())
    if (file.endsWith('.test.cjs')) mocha.addFile(path.join(__dirname, file));
  await mocha.loadFilesAsync();
  const failures = await new Promise<number>((resolve) => mocha.run(resolve));
  if (failures > 0) throw new Error(`${failures} editor tests failed`);
}
