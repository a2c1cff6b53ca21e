import { type Diagnostic, DiagnosticSeverity, DiagnosticTag } from 'vscode-languageserver-types';
import type { Problem } from '../checks/check.ts';
import type { Severity } from '../model/figure.ts';
import { docsUri } from './docs.ts';
import type { View } from './workspace.ts';

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

export function diagnosticsOf(view: View, options: DiagnosticOptions): Diagnostic[] {
  return view.problems().map((problem) => diagnosticOf(view, problem, options));
}

export function diagnosticOf(view: View, problem: Problem, options: DiagnosticOptions): Diagnostic {
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
