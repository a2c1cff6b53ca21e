// The command line: the engine of the editor without an editor. Node only.
import { runLine } from './cli/line.ts';
import { Terminal } from './cli/support/terminal.ts';

// A reader that goes away, such as `head`, is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  process.exit(error.code === 'EPIPE' ? 0 : 2);
});

void runLine(process.argv.slice(2), new Terminal(process.stdout, process.stderr, process.env)).then((code) => {
  process.exitCode = code;
});
