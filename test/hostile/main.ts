// npm run hostile [-- NAME…] [--profile]: everything hostile that is known, sent to a server that is watched. NAME is a part of a case's
// name or the file that it stands in. README.md beside this file says what is measured and how.
import { parseArgs } from 'node:util';
import { Client } from '../editor/stdio.ts';
import { corpus, Servers } from './corpus.ts';
import { type Outcome, SLACK, STEP_AIM } from './run-case.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { profile: { type: 'boolean', default: false } },
});

const chosen = (await corpus()).flatMap(({ area, cases }) =>
  cases.filter(
    ({ name }) => !positionals.length || positionals.some((asked) => asked === area || name.includes(asked)),
  ),
);
const servers = new Servers(values.profile ? '.ci-output/hostile' : undefined);
const outcomes: Outcome[] = [];
for (const hostile of chosen) {
  process.stderr.write(`\r\u001b[K${outcomes.length + 1} of ${chosen.length}: ${hostile.name}`);
  outcomes.push(await servers.run(hostile));
}
await servers.stop();
Client.endAll();
process.stderr.write('\r\u001b[K');
printTable(outcomes);
process.exit(outcomes.length && outcomes.every(({ broken }) => !broken.length) ? 0 : 1);

function printTable(all: readonly Outcome[]): void {
  const sorted = [...all].sort((a, b) => a.broken.length - b.broken.length || a.step - b.step);
  const width = Math.max(4, ...all.map(({ name }) => name.length));
  const row = (...cells: readonly string[]) =>
    console.log(cells.map((cell, i) => cell.padStart([0, 8, 8, 7, 6, 6][i] ?? 0)).join('  '));
  row('case'.padEnd(width), 'step', 'wait', 's', 'MiB', 'asked', 'longest in');
  for (const each of sorted) {
    row(
      each.name.padEnd(width),
      `${each.step.toFixed(0)} ms${each.step > STEP_AIM ? '*' : ' '}`,
      `${each.wait.toFixed(0)} ms`,
      each.seconds.toFixed(1),
      each.mebibytes.toFixed(0),
      String(each.asked),
      each.stepIn,
    );
    for (const what of each.broken) console.log(`${' '.repeat(4)}✗ ${what}`);
  }
  const most = (of: (each: Outcome) => number) => Math.max(0, ...all.map(of));
  const sum = (of: (each: Outcome) => number) => all.reduce((total, each) => total + of(each), 0);
  console.log(
    `\n${all.length} cases, ${sum(({ asked }) => asked)} questions; longest step ${most(({ step }) => step).toFixed(0)} ms, ` +
      `${all.filter(({ step }) => step > STEP_AIM).length} over the ${STEP_AIM} ms aimed at (*), broken from ${STEP_AIM * SLACK} ms; ` +
      `longest wait of another spec's hover ${most(({ wait }) => wait).toFixed(0)} ms of the processor, ` +
      `${most(({ clock }) => clock).toFixed(0)} ms by the clock; ${sum(({ seconds }) => seconds).toFixed(0)} s of the processor; ` +
      `at most ${most(({ mebibytes }) => mebibytes).toFixed(0)} MiB; exceptions ${sum(({ errors }) => errors.length)}; ` +
      `broken ${all.filter(({ broken }) => broken.length).length}`,
  );
}
