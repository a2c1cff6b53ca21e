/*
 * What a server holds in memory with a long text open, after a number of edits with their diagnostics.
 *   npm run bench -- memory [--json] [--lines 10000] [--only json]
 */
import { linesAsked, peersAsked, print, type Row, rowOf } from './peers/rows.ts';
import { Session } from './peers/session.ts';
import { subjects } from './peers/subjects.ts';

const EDITS = [10, 200];

print(await memory());

async function memory(): Promise<Row[]> {
  const rows: Row[] = [];
  for (const lines of linesAsked([1000, 10_000])) {
    for (const subject of subjects(peersAsked() ? { only: peersAsked()! } : {})) {
      const session = await Session.start(subject);
      await session.open(lines);
      let done = 0;
      for (const edits of EDITS) {
        for (; done < edits; done++) await session.diagnostics();
        const held = session.memory();
        if (held !== undefined) rows.push(rowOf(subject.name, `memory after ${edits} edits`, lines, [held], 'MB'));
      }
      await session.stop();
    }
  }
  return rows;
}
