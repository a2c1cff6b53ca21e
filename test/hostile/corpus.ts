import { readdirSync } from 'node:fs';
import type { HostileCase } from './case.ts';
import { type Outcome, runCase } from './run-case.ts';
import { Session, type SessionOptions } from './session.ts';

export interface Area {
  readonly area: string;
  readonly cases: readonly HostileCase[];
}

/** Every file of cases, by its name. */
export async function corpus(): Promise<Area[]> {
  const folder = new URL('cases/', import.meta.url);
  const files = readdirSync(folder)
    .filter((name) => name.endsWith('.ts'))
    .sort();
  return Promise.all(
    files.map(async (name) => {
      const { cases } = (await import(new URL(name, folder).href)) as { cases: readonly HostileCase[] };
      return { area: name.replace(/\.ts$/, ''), cases };
    }),
  );
}

/** One server after the other: a new one after a case that hurt, and after so many others. */
export class Servers {
  private session: Session | undefined;
  private count = 0;

  constructor(private readonly options: SessionOptions & { readonly briefly?: boolean } = {}) {}

  async run(hostile: HostileCase): Promise<Outcome> {
    this.session ??= await this.started();
    const outcome = await runCase(this.session, hostile, this.options);
    if (!this.session.isAlive || outcome.broken.length || outcome.mebibytes > HEAVY || ++this.count >= AT_ONCE)
      await this.stop();
    return outcome;
  }

  async stop(): Promise<void> {
    await this.session?.stop();
    this.session = undefined;
    this.count = 0;
  }

  /** One that has once answered everything: that code is read for the first time is no case's fault. */
  private async started(): Promise<Session> {
    const session = await Session.start(this.options);
    await runCase(session, WARMING);
    return session;
  }
}

/** MiB from which a server is not used again. */
const HEAVY = 350;
const AT_ONCE = 25;

const WARMING: HostileCase = {
  name: 'nothing wrong',
  files: () => ({
    'warm.planish':
      'planish 1\nbuild "Warm"\n  duty stage\n\nmaterial plate\n  mild steel 1.5 mm\n  sheet 1000 x 2000 mm\n\n' +
      'rivet small\n  mild steel 3 x 8 mm, domed\n\npiece skull\n  from plate\n  dome 210 mm, deep 60 mm\n  dish\n\n' +
      'piece band\n  from plate\n  strip 300 x 40 mm\n\nseam s\n  joins band, skull\n  along skull.rim\n  rivets small, every 28 mm, inset 8 mm\n',
  }),
  exports: ['cutlist', 'order', 'patterns', 'layouts', 'explain'],
};
