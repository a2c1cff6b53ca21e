import type { Problem } from './check.ts';

/*
 * What is said of a whole spec without a mark at any line: its cautions by name, and what no sum holds. An editor shows it
 * above the build, the command line under the findings; the papers have the cautions in full.
 */

/** A line each: `5 cautions: noise and dust, hot work`. */
export function quietLines(problems: readonly Problem[]): string[] {
  const quiet = problems.filter(({ isQuiet }) => isQuiet);
  const cautions = new Set(quiet.flatMap(({ check }) => check?.caution ?? []));
  const others = quiet.filter(({ check }) => !check?.caution).map(({ message }) => message);
  const { size } = cautions;
  return [...(size ? [`${size} ${size === 1 ? 'caution' : 'cautions'}: ${[...cautions].join(', ')}`] : []), ...others];
}
