import { readSpec } from '../../grammar/reader.ts';
import { absolute } from '../../grammar/tree.ts';
import type { Check, Problem } from '../../server/checks/check.ts';
import { type CheckSettings, problemsOf } from '../../server/checks/run.ts';
import { modelOf } from '../../server/model/index.ts';
import { Project } from '../../server/model/names/project.ts';
import type { Model } from '../../server/model/spec.ts';
import type { FindingFix } from '../../server/model/values/figure.ts';

/* Specs held in memory, by their paths: what the tests of checks read, mend and read again. */

const MAIN = 'main.planish';
const ROOT = 'file:///bench/';

export type Files = Readonly<Record<string, string>>;

export function modelIn(files: Files | string, main = MAIN): Model {
  const texts: Files = typeof files === 'string' ? { [main]: files } : files;
  const textAt = (uri: string) =>
    uri.startsWith(ROOT) ? texts[decodeURIComponent(uri.slice(ROOT.length))] : undefined;
  const project = new Project({
    read: (uri) => {
      const text = textAt(uri);
      return text === undefined ? undefined : readSpec(text);
    },
    drawing: textAt,
    mayRead: (uri) => uri.startsWith(ROOT),
  });
  return modelOf(project, ROOT + main)!;
}

export const problemsIn = (files: Files | string, settings?: CheckSettings, main = MAIN): Problem[] =>
  problemsOf(modelIn(files, main), settings);

/** The files with a fix applied, its edits from the last to the first. */
export function applied(files: Files, fix: FindingFix): Files {
  const made: Record<string, string> = { ...files };
  const edits = fix.edits
    .map((edit) => ({
      ...absolute(edit.place),
      text: edit.text,
      path: decodeURIComponent(edit.uri.slice(ROOT.length)),
    }))
    .sort((a, b) => b.from - a.from || b.to - a.to);
  for (const edit of edits) {
    const text = made[edit.path]!;
    made[edit.path] = text.slice(0, edit.from) + edit.text + text.slice(edit.to);
  }
  return made;
}

/** A check's example as files, the example itself under the check's own name, as in samples/faults. */
export const exampleFiles = (check: Check, text: string): Files => ({
  ...check.beside,
  [`${check.code}.planish`]: text,
});

export const shownProblems = (problems: readonly Problem[]): string =>
  problems.map((each) => `${each.severity}[${each.code}] ${each.message}`).join('\n');
