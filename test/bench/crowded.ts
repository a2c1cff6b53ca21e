/*
 * How long an editor waits for the diagnostics of a spec with many others open beside it.
 *   npm run bench -- crowded [--json]
 */
import { longSpec } from './peers/long-spec.ts';
import { print, type Row, rowOf } from './peers/rows.ts';
import { Session } from './peers/session.ts';
import { subjects } from './peers/subjects.ts';

const BESIDE = 500;
const WARM = 10;
const ROUNDS = 40;

print(await crowded());

async function crowded(): Promise<Row[]> {
  const session = await Session.start(subjects({ only: [] })[0]!);
  const [started, worked] = [performance.now(), session.processor() ?? Number.NaN];
  for (let i = 0; i < BESIDE; i++) await session.openBeside(`spec-${i}.planish`, longSpec(100));
  await session.open(1000);
  const opened = performance.now() - started;
  const openedBy = (session.processor() ?? Number.NaN) - worked;
  const times: number[] = [];
  for (let round = -WARM; round < ROUNDS; round++) {
    const time = await session.diagnostics();
    if (round >= 0) times.push(time);
  }
  const memory = session.memory();
  await session.stop();
  return [
    rowOf('planish', `open, ${BESIDE} specs beside`, 1000, [opened], 'ms', [openedBy].filter(Number.isFinite)),
    rowOf('planish', `diagnostics, ${BESIDE} specs open beside`, 1000, times),
    ...(memory === undefined ? [] : [rowOf('planish', `memory, ${BESIDE} specs open beside`, 1000, [memory], 'MB')]),
  ];
}
