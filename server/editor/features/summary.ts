import { shown } from '../../model/figure.ts';
import type { View } from '../workspace/workspace.ts';

/** What a status bar shows of a spec. */
export interface Summary {
  readonly title?: string;
  readonly mass?: string;
  readonly errors: number;
  readonly warnings: number;
  readonly informations: number;
}

export function summaryOf(view: View): Summary {
  const problems = view.problems();
  const count = (severity: string) => problems.filter((problem) => problem.severity === severity).length;
  const title = view.model.title();
  const mass = view.model.buildFigures().get('mass');
  return {
    ...(title === undefined ? {} : { title }),
    ...(mass ? { mass: shown(mass, view.system, false) } : {}),
    errors: count('error'),
    warnings: count('warning'),
    informations: count('information'),
  };
}
