// npm run hostile [-- NAME…] [--quick] [--profile]: everything hostile that is known, sent to a server that is watched. NAME is a
// part of a case's name, or the file that it stands in; --quick does what the tests of every day do. npm run hostile -- --typing [SAMPLE…] [--every 1] [--most 10]: the samples typed, key
// by key. README.md beside this file says what is measured and how.
import { parseArgs } from 'node:util';
import { Client } from '../editor/stdio.ts';
import { corpus, Servers } from './corpus.ts';
import { type Outcome, SLACK, STEP_AIM } from './run-case.ts';
import { pauses, retyped, STATE_MOST, type State, samples, typed, typedFromNothing } from './typing.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    profile: { type: 'boolean', default: false },
    quick: { type: 'boolean', default: false },
    typing: { type: 'boolean', default: false },
    every: { type: 'string', default: '1' },
    most: { type: 'string', default: '10' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string' },
  },
});
const isGood = values.typing ? await typeSamples() : await sendCorpus();
Client.endAll();
process.exit(isGood ? 0 : 1);

async function sendCorpus(): Promise<boolean> {
  const chosen = (await corpus()).flatMap(({ area, cases }) =>
    cases.filter(
      ({ name, isDear }) =>
        !(values.quick && isDear) &&
        (!positionals.length || positionals.some((asked) => asked === area || name.includes(asked))),
    ),
  );
  const servers = new Servers({
    briefly: values.quick,
    ...(values.profile ? { profileInto: '.ci-output/hostile' } : {}),
  });
  const outcomes: Outcome[] = [];
  for (const hostile of chosen) {
    progress(`${outcomes.length + 1} of ${chosen.length}: ${hostile.name}`);
    const outcome = await servers.run(hostile);
    outcomes.push(outcome);
    if (outcome.broken.length) aside(`✗ ${outcome.name}: ${outcome.broken.join('; ')}`);
  }
  await servers.stop();
  progress('');
  printTable(outcomes);
  return outcomes.length > 0 && outcomes.every(({ broken }) => !broken.length);
}

async function typeSamples(): Promise<boolean> {
  const random = pauses(Number(values.seed));
  const most = Number(values.most);
  const all: State[] = [];
  for (const sample of samples.filter(({ name }) => !positionals.length || positionals.includes(name))) {
    const ways = { retyped: retyped(sample, Number(values.every)), nothing: typedFromNothing(sample) };
    for (const [way, keys] of Object.entries(ways)) {
      if (values.only !== undefined && values.only !== way) continue;
      for await (const state of typed(sample, keys, { from: way === 'nothing' ? '' : sample.text, most, random })) {
        all.push(state);
        if (isSlow(state)) aside(lineOf(state));
        progress(`${sample.name}, ${way}: ${all.length} states, ${all.filter(isSlow).length} too slow`);
      }
    }
  }
  progress('');
  const slowest = [...all].sort((a, b) => slow(b) - slow(a));
  for (const state of slowest.slice(0, 25)) console.log(lineOf(state));
  const mostOf = (of: (state: State) => number) => Math.max(0, ...all.map(of).filter(Number.isFinite)).toFixed(0);
  console.log(
    `\n${all.length} states answered, ${all.filter(({ isOvertaken }) => isOvertaken).length} of them gone back to; the longest after ${mostOf(({ told }) => told)} ms of the processor, another spec's hover ` +
      `after ${mostOf(({ hover }) => hover)} ms, ${mostOf(({ clock }) => clock)} ms by the clock; ${all.filter(isSlow).length} over ` +
      `${STATE_MOST} ms; ${all.filter(({ died }) => died).length} ended`,
  );
  return all.length > 0 && !all.some(isSlow);
}

function lineOf(state: State): string {
  const { sample, row, line, died } = state;
  return `${slow(state).toFixed(0).padStart(6)} ms (hover ${state.hover.toFixed(0)})  ${sample}:${row}  ${line}${died ? `  ✗ ${died}` : ''}`;
}

function slow({ told, hover }: State): number {
  return Math.max(told, hover);
}

function isSlow(state: State): boolean {
  return slow(state) > STATE_MOST;
}

/** Said at once, before the table: a whole run takes its time. */
function aside(what: string): void {
  progress('');
  console.error(what);
}

function progress(what: string): void {
  if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${what}`);
}

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
