/*
 * How long an editor waits: over standard input and output, from the sending of a change of one letter, which makes or
 * mends an error, to the diagnostics, the hover, the completions or the outline of the new text. Ours beside
 * general-purpose servers, in one run and by turns, so that whatever else the machine does falls on all of them.
 *   npm run bench -- latency [--json] [--lines 1000,10000] [--ask open,hover] [--only json] [--before DIST] [--programs 3] [--cpu-prof]
 */
import { asked, linesAsked, peersAsked, print, type Row, rowOf } from './peers/rows.ts';
import { Session } from './peers/session.ts';
import { type Subject, subjects } from './peers/subjects.ts';

/** One program is quicker than another of the same server, by chance, by as much as a third: several of each are started. */
const PROGRAMS = Number(asked('programs')?.[0] ?? 3);
const WARM = 10;
const ROUNDS = 40;
/** ms of the processor. A server that takes longer for one question is asked less often, and started once only. */
const MOST = 1500;
/** How often it is asked all the same. */
const LEAST = 3;
const profile = process.argv.includes('--cpu-prof');
const node = profile ? ['--cpu-prof', '--cpu-prof-dir=dist/bench'] : [];

const QUESTIONS = ['diagnostics', 'hover', 'completion', 'symbols'] as const;
type Question = (typeof QUESTIONS)[number];
const wanted = asked('ask');
const isWanted = (what: string): boolean => !wanted || wanted.includes(what);

async function latency(): Promise<Row[]> {
  const all = subjects({ ...(peersAsked() ? { only: peersAsked()! } : {}), profile, before: asked('before')?.[0] });
  // What a program leaves on disk at its first start is there ever after.
  for (const subject of all) await (await Session.start(subject)).stop();
  const rows: Row[] = [];
  for (const lines of linesAsked([1000, 10_000])) {
    rows.push(...(await compare(all, lines)));
    if (isWanted('unasked')) rows.push(...(await pushed(all[0]!, lines)));
  }
  return rows;
}

async function compare(all: readonly Subject[], lines: number): Promise<Row[]> {
  const taken = new Table();
  let still = all;
  for (let program = 0; program < PROGRAMS; program++) {
    const slow = await measure(still, lines, taken);
    still = still.filter((subject) => !slow.has(subject));
  }
  return taken.rows(lines);
}

/** One program of each, by turns. Gives those that took too long for all their rounds. */
async function measure(all: readonly Subject[], lines: number, taken: Table): Promise<Set<Subject>> {
  const sessions: Session[] = [];
  const slow = new Set<Subject>();
  for (const subject of all) {
    const session = await Session.start(subject, { node: subject.name === 'planish' ? node : [] });
    const [started, worked] = [performance.now(), session.processor()];
    await session.open(lines);
    taken.add('open', session, performance.now() - started, since(worked, session));
    sessions.push(session);
  }
  for (const what of QUESTIONS.filter(isWanted)) {
    const turns = sessions.map((session) => new Turns(session, what, taken));
    for (let open = turns; open.length; open = open.filter((each) => each.wantsMore)) {
      for (const each of open) await each.next();
    }
    for (const each of turns) if (each.wasCut) slow.add(each.session.subject);
  }
  for (const session of sessions) {
    const memory = session.memory();
    if (memory !== undefined) taken.add(MEMORY, session, memory);
    await session.stop();
  }
  return slow;
}

const MEMORY = 'memory after all that';

const since = (before: number | undefined, session: Session): number | undefined =>
  before === undefined ? undefined : session.processor()! - before;

/** The rounds of one program with one question. What it does after an answer belongs to that round too. */
class Turns {
  wasCut = false;
  private done = 0;
  private counted = 0;
  private spent = 0;

  constructor(
    readonly session: Session,
    private readonly what: Question,
    private readonly taken: Table,
  ) {}

  get wantsMore(): boolean {
    if (this.done >= WARM + ROUNDS) return false;
    if (this.spent < MOST || this.counted < LEAST) return true;
    this.wasCut = true;
    return false;
  }

  async next(): Promise<void> {
    const { session, what, taken } = this;
    const worked = session.processor();
    const time = what === 'diagnostics' ? await session.diagnostics() : await session.answer(what);
    const processor = since(worked, session);
    const isWarm = this.done++ >= WARM || this.spent > MOST / 2;
    this.spent += processor ?? time;
    if (!isWarm) return;
    this.counted++;
    taken.add(what, session, time, processor);
    // Every other change breaks the spot, the next one mends it.
    if (what === 'diagnostics' && session.subject.name === 'planish')
      taken.add(session.isBroken ? 'diagnostics, one spot broken' : 'diagnostics, all sound', session, time, processor);
  }
}

interface Measured {
  readonly times: number[];
  readonly worked: number[];
}

/** What was measured of each server, over all its programs. */
class Table {
  private readonly values = new Map<string, Map<Subject['name'], Measured>>();

  add(what: string, { subject: { name } }: Session, value: number, processor?: number): void {
    const of = this.values.get(what) ?? new Map<Subject['name'], Measured>();
    const { times, worked } = of.get(name) ?? { times: [], worked: [] };
    this.values.set(what, of.set(name, { times, worked }));
    times.push(value);
    if (processor !== undefined) worked.push(processor);
  }

  rows(lines: number): Row[] {
    return [...this.values].flatMap(([what, of]) =>
      [...of].map(([name, { times, worked }]) =>
        rowOf(name, what, lines, times, what === MEMORY ? 'MB' : 'ms', worked),
      ),
    );
  }
}

/** Ours for an editor that does not ask for diagnostics but is told: settling time and all. */
async function pushed(own: Subject, lines: number): Promise<Row[]> {
  const session = await Session.start(own, { push: true });
  await session.open(lines);
  const times: number[] = [];
  for (let round = -WARM; round < ROUNDS; round++) {
    const time = await session.diagnostics();
    if (round >= 0) times.push(time);
  }
  await session.stop();
  return [rowOf('planish', 'diagnostics, told unasked', lines, times)];
}

print(await latency());
