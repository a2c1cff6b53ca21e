// What the extension host runs when it is started for tests: mocha over every *.test.ts of this folder. The host has
// no terminal, so the report goes to the file that PLANISH_TEST_OUT names.
import { appendFileSync, readdirSync } from 'node:fs';
import * as path from 'node:path';
import { format } from 'node:util';
import { runToItsEnd, suiteOptions } from './suite.ts';

export async function run(): Promise<void> {
  const { default: Mocha } = await import('mocha');
  const { PLANISH_TEST_OUT: output } = process.env;
  if (output)
    Mocha.reporters.Base.consoleLog = (...parts: unknown[]) => appendFileSync(output, `${format(...parts)}\n`);
  const mocha = new Mocha({ ...suiteOptions(), reporter: path.resolve(__dirname, '../../.scripts/tally.cjs') });
  for (const file of readdirSync(__dirname).sort())
    if (file.endsWith('.test.cjs')) mocha.addFile(path.join(__dirname, file));
  await mocha.loadFilesAsync();
  await runToItsEnd(mocha);
}
