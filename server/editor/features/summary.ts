import { quietOf } from '../../checks/quiet.ts';
import { shown } from '../../model/values/figure.ts';
import type { SpecAsked, Summary } from '../../requests.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import type { View } from '../workspace/workspace.ts';

export const feature: Feature = {
  requests: [
    aboutOne<SpecAsked, Summary | null>('planish/summary', {
      what: 'summary',
      empty: null,
      uri: ({ uri }) => uri,
      judged: true,
      answer: (view) => summaryOf(view),
    }),
  ],
};

export function summaryOf(view: View): Summary {
  const problems = view.problems();
  const marked = problems.filter(({ isQuiet }) => !isQuiet);
  const count = (severity: string) => marked.filter((problem) => problem.severity === severity).length;
  const title = view.model.title();
  const mass = view.model.buildFigures().get('mass');
  return {
    ...(title === undefined ? {} : { title }),
    ...(mass ? { mass: shown(mass, view.system, false) } : {}),
    errors: count('error'),
    warnings: count('warning'),
    informations: count('information'),
    cautions: quietOf(problems).cautions.size,
  };
}
