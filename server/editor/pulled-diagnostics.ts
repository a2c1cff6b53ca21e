import type {
  CancellationToken,
  DocumentDiagnosticReport,
  WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import type { Diagnostic } from 'vscode-languageserver-types';
import { sameUri, type View, type Workspace } from './workspace.ts';

/*
 * Diagnostics for an editor that asks for them, of one spec or of every spec in the open folders. What it has already
 * is not sent again.
 */

/** A name for a set of diagnostics: the same set, the same name. FNV-1a over their texts, in base 36. */
export function resultIdOf(diagnostics: readonly Diagnostic[]): string {
  const hash = diagnostics.reduce((hash, each) => Math.imul(hash ^ hashOf(each), PRIME), SEED);
  return `${(hash >>> 0).toString(36)}-${diagnostics.length.toString(36)}`;
}

const SEED = 0x811c9dc5;
const PRIME = 0x01000193;
/** Diagnostics that stand as they stood are the same objects. */
const hashes = new WeakMap<Diagnostic, number>();

function hashOf(diagnostic: Diagnostic): number {
  let hash = hashes.get(diagnostic);
  if (hash === undefined) {
    const text = JSON.stringify(diagnostic);
    hash = SEED;
    for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), PRIME);
    hashes.set(diagnostic, hash);
  }
  return hash;
}

export function documentReport(items: Diagnostic[], previous: string | undefined): DocumentDiagnosticReport {
  const resultId = resultIdOf(items);
  return previous === resultId ? { kind: 'unchanged', resultId } : { kind: 'full', resultId, items };
}

export interface WorkspaceAsk {
  readonly workspace: Workspace;
  /** Every spec of the open folders. */
  readonly specs: readonly string[];
  readonly previous: ReadonlyMap<string, string>;
  readonly token: CancellationToken;
  diagnosticsOf(view: View): Diagnostic[];
  /** Hears each report as it is ready. */
  heard(report: WorkspaceDocumentDiagnosticReport, done: number, of: number): void;
}

/** Goes through every spec, open or not, and lets keys and cancelling in between two. */
export async function reportWorkspace(ask: WorkspaceAsk): Promise<void> {
  const uris = [...new Map([...ask.workspace.openUris(), ...ask.specs].map((uri) => [sameUri(uri), uri])).values()];
  for (const [done, uri] of uris.entries()) {
    await new Promise((next) => setTimeout(next));
    if (ask.token.isCancellationRequested) return;
    const view = await ask.workspace.ready(uri);
    if (!view) continue;
    const report = documentReport(ask.diagnosticsOf(view), ask.previous.get(sameUri(view.uri)));
    const version = ask.workspace.version(uri) ?? null;
    ask.heard({ ...report, uri: view.uri, version } as WorkspaceDocumentDiagnosticReport, done + 1, uris.length);
  }
}
