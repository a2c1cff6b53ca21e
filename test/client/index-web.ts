// The same for a web extension host, which is a worker of the browser: the bundler puts every *.test.ts behind this
// file, so that mocha is there when they are loaded. The report goes to the console, each line of it under a mark.
import Mocha from 'mocha';
import Tally from '../../.scripts/tally.cjs';
import { runToItsEnd, suiteOptions } from './suite.ts';

Mocha.reporters.Base.consoleLog = (...parts: unknown[]) => console.log('mocha:', ...parts);
mocha.setup({ ...suiteOptions(), reporter: Tally });

export const run = (): Promise<void> => runToItsEnd(mocha);
