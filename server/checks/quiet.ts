import { say, translated } from '../../l10n/say.ts';
import type { Problem } from './check.ts';

/*
 * What is said of a whole spec without a mark at any line: its cautions by name, and what no sum holds. An editor shows it
 * above the build, the command line under the findings; the papers have the cautions in full.
 */

/** The cautions, each with what to do about it, and what else holds of the whole spec, in sentences. */
export function quietOf(problems: readonly Problem[]): {
  readonly cautions: ReadonlyMap<string, string>;
  readonly others: readonly string[];
} {
  const quiet = problems.filter(({ isQuiet }) => isQuiet);
  return {
    cautions: new Map(quiet.flatMap(({ check }) => (check?.caution ? [[check.caution, check.todo]] : []))),
    others: quiet.filter(({ check }) => !check?.caution).map(({ message }) => message),
  };
}

/** A line each: `5 cautions: noise and dust, hot work`. */
export function quietLines(problems: readonly Problem[]): string[] {
  const { cautions, others } = quietOf(problems);
  const { size } = cautions;
  const named = [...cautions.keys()].map(translated).join(', ');
  return [...(size ? [size === 1 ? say`${size} caution: ${named}` : say`${size} cautions: ${named}`] : []), ...others];
}
