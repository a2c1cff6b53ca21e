import { isInches, measuresIn, show } from '../../model/values/show.ts';
import type { Caution, Job, ListedProblem, Unreckoned } from './cut-list.ts';
import type { Block, Notice, Paper } from './paper.ts';

/* What every paper of a job says alike: whose it is, whether it can be trusted yet, what to look out for. */

/** A job with how many builds it comes to, spare ones too. */
type Counted = Job & { readonly builds: number };

/** `sort` is what it is: `Cut list`. */
export const jobPaper = (job: Job, sort: string, foot: string, blocks: readonly Block[]): Paper => ({
  sort,
  title: job.title,
  date: job.date,
  size: isInches(job.units) ? 'letter' : 'a4',
  foot,
  blocks,
});

export const money = (value: number, { units, currency }: Pick<Job, 'units' | 'currency'>): string =>
  show(value, 'money', units, currency === undefined ? {} : { currency });

export const place = (problem: Pick<ListedProblem, 'line' | 'file'>, job: Job): string =>
  `${problem.file ?? job.file}, line ${problem.line}`;

const DUTY = {
  display: 'display: shown, never struck',
  stage: 'stage: worn in performance',
  contact: 'contact: worn to be struck',
} as const;

/** `todo` is what is done with all builds: `to cut`. */
export function jobFacts(job: Counted, todo: string): { name: string; value: string }[] {
  const facts: { name: string; value: string }[] = [];
  const fact = (name: string, value: string | undefined) => {
    if (value !== undefined && value !== '') facts.push({ name, value });
  };
  fact('For', job.client);
  fact('Duty', job.duty ? DUTY[job.duty] : undefined);
  fact('Rulebook', job.rules ?? (job.duty === 'contact' ? 'none named' : undefined));
  fact('Builds', `${job.make} ordered${job.spare > 0 ? ` + ${job.spare} spare = ${job.builds} ${todo}` : ''}`);
  fact('Due', job.due);
  fact('Measures in', measuresIn(job.units));
  fact('Spec', job.file);
  fact('Made', job.date);
  return facts;
}

/** `title` is what to leave undone while the spec has errors: `Not ready to cut`. */
export function notReady(job: Job, title: string): Notice[] {
  const errors = job.problems.filter((problem) => problem.severity === 'error');
  if (!errors.length) return [];
  const things = errors.length === 1 ? 'one thing' : `${errors.length} things`;
  return [
    {
      kind: 'notice',
      tone: 'stop',
      title: `${title}: ${things} cannot be made as written`,
      items: errors.map((problem) => ({ title: place(problem, job), text: problem.message })),
    },
  ];
}

export function notCounted({ builds, unreckoned }: Counted & { readonly unreckoned: readonly Unreckoned[] }): Notice[] {
  if (!unreckoned.length) return [];
  const items = unreckoned.map(({ what, perBuild, material, reason }) => ({
    title: what,
    text: `${perBuild === undefined ? '' : `${times(perBuild, builds)}${material ? ` from ${material}` : ''}: `}${reason}.`,
  }));
  return [{ kind: 'notice', tone: 'stop', title: 'Not in this list yet', items }];
}

export const times = (perBuild: number, builds: number): string => `${perBuild} × ${builds} = ${perBuild * builds}`;

export const cautionNotice = (cautions: readonly Caution[]): Notice => ({
  kind: 'notice',
  tone: 'caution',
  title: 'Cautions',
  items: cautions.map(({ title, text }) => ({ title, text })),
});

export const statement = (text: string): Block => ({
  kind: 'notice',
  tone: 'statement',
  title: 'What this paper is not',
  items: [{ text }],
});
