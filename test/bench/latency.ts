/*
 * How long an editor waits: over standard input and output, from the sending of a change of one letter, which makes or
 * mends an error, to the diagnostics, the hover, the completions or the outline of the new text. Ours beside
 * general-purpose servers, in one run and by turns, so that whatever else the machine does falls on all of them.
 *   npm run bench -- latency [--json] [--lines 1000,10000] [--only json] [--cpu-prof]
 */
import { longSpec } from './peers/long-spec.ts';
import { linesAsked, peersAsked, print, type Row, rowOf } from './peers/rows.ts';
import { Session } from './peers/session.ts';
import { type Subject, subjects } from './peers/subjects.ts';

/** One program is quicker than another of the same server, by chance, by as much as a third: several of each are started. */
const PROGRAMS = 5;
const ROUNDS = 40;
const BESIDE = 500;
const profile = process.argv.includes('--cpu-prof');
const node = profile ? ['--cpu-prof', '--cpu-prof-dir=dist/bench'] : [];

async function latency(): Promise<Row[]> {
  const all = subjects({ ...(peersAsked() ? { only: peersAsked()! } : {}), profile });
  const rows: Row[] = [];
  for (const lines of linesAsked([1000, 10_000])) {
    rows.push(...(await compare(all, lines)));
    rows.push(...(await pushed(all[0]!, lines)));
  }
  rows.push(...(await crowded(all[0]!)));
  return rows;
}

async function compare(all: readonly Subject[], lines: number): Promise<Row[]> {
  const taken = new Table();
  // What a program leaves on disk at its first start is there ever after.
  for (const subject of all) await (await Session.start(subject)).stop();
  for (let program = 0; program < PROGRAMS; program++) await measure(all, lines, taken);
  return taken.rows(lines);
}

/** One program of each, by turns. */
async function measure(all: readonly Subject[], lines: number, taken: Table): Promise<void> {
  const sessions: Session[] = [];
  for (const subject of all) {
    const session = await Session.start(subject, { node: subject.name === 'planish' ? node : [] });
    const started = performance.now();
    await session.open(lines);
    taken.add('open', session, performance.now() - started);
    sessions.push(session);
  }
  for (const what of ['diagnostics', 'hover', 'completion', 'symbols'] as const) {
    for (let round = -10; round < ROUNDS; round++) {
      for (const session of sessions) {
        const time = what === 'diagnostics' ? await session.diagnostics() : await session.answer(what);
        if (round < 0) continue;
        taken.add(what, session, time);
        // Every other change breaks the spot, the next one mends it.
        if (what === 'diagnostics' && session.subject.name === 'planish')
          taken.add(round % 2 === 0 ? 'diagnostics, one spot broken' : 'diagnostics, all sound', session, time);
      }
    }
  }
  for (const session of sessions) {
    const memory = session.memory();
    if (memory !== undefined) taken.add(MEMORY, session, memory);
    await session.stop();
  }
}

const MEMORY = 'memory after all that';

/** What was measured of each server, over all its programs. */
class Table {
  private readonly values = new Map<string, Map<Subject['name'], number[]>>();

  add(what: string, { subject }: Session, value: number): void {
    const of = this.values.get(what) ?? new Map<Subject['name'], number[]>();
    this.values.set(what, of.set(subject.name, [...(of.get(subject.name) ?? []), value]));
  }

  rows(lines: number): Row[] {
    return [...this.values].flatMap(([what, of]) =>
      [...of].map(([name, values]) => rowOf(name, what, lines, values, what === MEMORY ? 'MB' : 'ms')),
    );
  }
}

/** Ours for an editor that does not ask for diagnostics but is told: settling time and all. */
async function pushed(own: Subject, lines: number): Promise<Row[]> {
  const session = await Session.start(own, { push: true });
  await session.open(lines);
  const times: number[] = [];
  for (let round = -10; round < ROUNDS; round++) {
    const time = await session.diagnostics();
    if (round >= 0) times.push(time);
  }
  await session.stop();
  return [rowOf('planish', 'diagnostics, told unasked', lines, times)];
}

/** Ours with many specs open beside the one that is edited. */
async function crowded(own: Subject): Promise<Row[]> {
  const session = await Session.start(own);
  const started = performance.now();
  for (let i = 0; i < BESIDE; i++) await session.openBeside(`spec-${i}.planish`, longSpec(100));
  await session.open(1000);
  const opened = performance.now() - started;
  const times: number[] = [];
  for (let round = -10; round < ROUNDS; round++) {
    const time = await session.diagnostics();
    if (round >= 0) times.push(time);
  }
  const memory = session.memory();
  await session.stop();
  return [
    rowOf('planish', `open, ${BESIDE} specs beside`, 1000, [opened]),
    rowOf('planish', `diagnostics, ${BESIDE} specs open beside`, 1000, times),
    ...(memory === undefined ? [] : [rowOf('planish', `memory, ${BESIDE} specs open beside`, 1000, [memory], 'MB')]),
  ];
}

print(await latency());
