/*
 * How long it takes from the start of a server's program to its answer to `initialize`, and to the first diagnostics.
 * By turns, in one run: npm run bench -- start [--json] [--only json]
 */
import { peersAsked, print, type Row, rowOf } from './peers/rows.ts';
import { Session } from './peers/session.ts';
import { subjects } from './peers/subjects.ts';

const ROUNDS = 15;
const LINES = 200;

print(await start());

async function start(): Promise<Row[]> {
  const all = subjects(peersAsked() ? { only: peersAsked()! } : {});
  const ready = new Map(all.map((subject) => [subject, [] as number[]]));
  const told = new Map(all.map((subject) => [subject, [] as number[]]));
  for (let round = -1; round < ROUNDS; round++) {
    for (const subject of all) {
      const started = performance.now();
      const session = await Session.start(subject);
      await session.open(LINES);
      const time = performance.now() - started;
      await session.stop();
      if (round < 0) continue;
      ready.get(subject)!.push(session.readyAfter);
      told.get(subject)!.push(time);
    }
  }
  return [
    ...[...ready].map(([{ name }, times]) => rowOf(name, 'start to ready', 0, times)),
    ...[...told].map(([{ name }, times]) => rowOf(name, 'start to first diagnostics', LINES, times)),
  ];
}
