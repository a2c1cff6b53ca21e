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

const ROUNDS = 40;
const BESIDE = 500;
const profile = process.argv.includes('--cpu-prof');
const node = profile ? ['--cpu-prof', '--cpu-prof-dir=dist/bench'] : [];

print(await latency());

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
  const sessions: Session[] = [];
  const rows: Row[] = [];
  for (const subject of all) {
    const session = await Session.start(subject, { node: subject.name === 'planish' ? node : [] });
    const started = performance.now();
    await session.open(lines);
    rows.push(rowOf(subject.name, 'open', lines, [performance.now() - started]));
    sessions.push(session);
  }
  for (const what of ['diagnostics', 'hover', 'completion', 'symbols'] as const) {
    const times = new Map(sessions.map((session) => [session, [] as number[]]));
    for (let round = -10; round < ROUNDS; round++) {
      for (const session of sessions) {
        const time = what === 'diagnostics' ? await session.diagnostics() : await session.answer(what);
        if (round >= 0) times.get(session)!.push(time);
      }
    }
    for (const [session, taken] of times) {
      rows.push(rowOf(session.subject.name, what, lines, taken));
      // Every other change breaks the spot, the next one mends it.
      if (what === 'diagnostics' && session.subject.name === 'planish') {
        rows.push(
          rowOf(
            'planish',
            'diagnostics, one spot broken',
            lines,
            taken.filter((_, i) => i % 2 === 0),
          ),
        );
        rows.push(
          rowOf(
            'planish',
            'diagnostics, all sound',
            lines,
            taken.filter((_, i) => i % 2 === 1),
          ),
        );
      }
    }
  }
  for (const session of sessions) {
    const memory = session.memory();
    if (memory !== undefined) rows.push(rowOf(session.subject.name, 'memory after all that', lines, [memory], 'MB'));
    await session.stop();
  }
  return rows;
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
