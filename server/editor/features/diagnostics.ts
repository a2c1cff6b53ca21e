import { type Diagnostic, DiagnosticSeverity, DiagnosticTag } from 'vscode-languageserver-types';
import type { Problem } from '../../checks/check.ts';
import { sameList } from '../../incremental/memo.ts';
import { atOnce, type Steps } from '../../incremental/steps.ts';
import { isLibrary } from '../../model/names/library.ts';
import type { Severity } from '../../model/values/figure.ts';
import type { View } from '../workspace/workspace.ts';
import { docsUri } from './docs.ts';

const SEVERITY: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

export interface DiagnosticOptions {
  /** The editor can show the pages of {@link docsUri}. */
  readonly linksToDocs: boolean;
}

/**
 * The same diagnostic for the same problem as long as it stands on the same lines: whoever sent it before can tell.
 *
 * @tests in one go: who may not wait asks for the steps
 */
export const diagnosticsOf = (view: View, options: DiagnosticOptions): Diagnostic[] =>
  atOnce(diagnosticsInSteps(view, options));

export function* diagnosticsInSteps(view: View, options: DiagnosticOptions): Steps<Diagnostic[]> {
  const problems = yield* view.problemsInSteps();
  const diagnostics: Diagnostic[] = [];
  for (const problem of problems) {
    if (problem.isQuiet) continue;
    if (diagnostics.length % MANY === MANY - 1) yield undefined;
    diagnostics.push(diagnosticFor(view, problem, options));
  }
  return diagnostics;
}

/** So many are put into words in a few milliseconds. */
const MANY = 200;

function diagnosticFor(view: View, problem: Problem, options: DiagnosticOptions): Diagnostic {
  const have = made.get(problem);
  const lines = linesOf(view, problem);
  if (have && have.linksToDocs === options.linksToDocs && sameList(have.lines, lines)) return have.diagnostic;
  const diagnostic = diagnosticOf(view, problem, options);
  made.set(problem, { diagnostic, lines, linksToDocs: options.linksToDocs });
  return diagnostic;
}

interface Made {
  readonly diagnostic: Diagnostic;
  readonly lines: readonly (number | undefined)[];
  readonly linksToDocs: boolean;
}
const made = new WeakMap<Problem, Made>();

/** The lines where the sections begin in which a problem and what belongs to it stand: within them nothing moves. */
const linesOf = (view: View, { place, related }: Problem): (number | undefined)[] => [
  view.lineOf(place.section),
  ...related.map((each) => view.workspace.view(each.uri)?.lineOf(each.place.section)),
];

function diagnosticOf(view: View, problem: Problem, options: DiagnosticOptions): Diagnostic {
  const { check } = problem;
  const related = problem.related.flatMap(({ uri, place, message }) => {
    const location = view.locationOf(uri, place);
    return location ? [{ location, message }] : [];
  });
  return {
    range: view.rangeOf(problem.place),
    severity: SEVERITY[problem.severity],
    source: 'planish',
    code: problem.code,
    message: problem.message,
    ...(options.linksToDocs && check ? { codeDescription: { href: docsUri(check) } } : {}),
    ...(check?.tag ? { tags: [check.tag === 'unused' ? DiagnosticTag.Unnecessary : DiagnosticTag.Deprecated] } : {}),
    ...(related.length ? { relatedInformation: related } : {}),
  };
}

/** As this editor takes them. Nobody mends what comes with Planish. */
export function* diagnosticsFor(
  view: View,
  { textContent, relatedInformation }: { readonly textContent: boolean; readonly relatedInformation: boolean },
): Steps<Diagnostic[]> {
  if (isLibrary(view.uri)) return [];
  const found = yield* diagnosticsInSteps(view, { linksToDocs: textContent });
  return relatedInformation ? found : found.map(withoutRelated);
}

/** For an editor that knows no related places. */
export const withoutRelated = ({ relatedInformation: _, ...rest }: Diagnostic): Diagnostic => rest;
